//! A step of the day, named by what a hand does in it.

use crate::dentition::ToothPosition;
use crate::measure::Length;
use crate::sign::fingerprint::Fingerprint;
use serde::{Deserialize, Serialize};

/// A site as a step names it: its identity, and the tooth that people call it by.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct SiteKey {
    /// The site in the case.
    #[schemars(length(min = 1, max = 200))]
    pub site: String,
    /// Its tooth.
    pub tooth: ToothPosition,
}

/// The hand of a step is led by the guide or not.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Led {
    /// By the guide.
    Guide,
    /// Without it.
    Freehand,
}

/// A drill as a step uses it.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct DrillUse {
    /// The kit's drill.
    #[schemars(length(min = 1, max = 200))]
    pub drill: String,
    /// The stop on it; none where a mark is read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<String>,
    /// Set length, or where the mark is, from the tip; none where the plan knew none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.001, max = 2000))]
    pub set_mm: Option<Length>,
}

/// The guide that goes in after one fell.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum WhichGuide {
    /// The one that fell, whole and made sterile anew.
    Same,
    /// Another one of the same code; the one that fell stays in the room.
    Another,
}

/// A step of the day, as the plan had it. In JSON the key `step` names its kind.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(tag = "step", rename_all = "snake_case", deny_unknown_fields)]
pub enum StepKey {
    /// Everything is counted before the first cut.
    CountIn {
        /// The list that is counted: kinds and numbers; none where a program did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        list: Option<Fingerprint>,
    },
    /// A fixation pin is drilled for and set.
    Pin {
        /// Its name in the case.
        #[schemars(length(min = 1, max = 200))]
        pin: String,
        /// The drill.
        with: DrillUse,
    },
    /// Tissue is punched.
    Punch {
        /// The sites.
        sites: Vec<SiteKey>,
    },
    /// The guide is taken off, the plugs out, and it is seated again.
    Reseat {},
    /// The guide is seated and looked at: windows, rocking.
    Seat {
        /// The code of the guide; none where the plan knew none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        guide: Option<String>,
    },
    /// The guide came off before it was done with: it is seated, and each site sounded, anew.
    Lifted {},
    /// The guide is abandoned: from here everything of all sites is without it. What was done says who decided, and why.
    Abandoned {},
    /// Which guide goes in after it fell; it is seated, and each site sounded, anew. What was done says who decided, and why.
    SeatAgain {
        /// The guide.
        guide: WhichGuide,
    },
    /// A site gets another implant, by a change on the table. What was done says who decided, and why.
    ImplantChanged {
        /// The site.
        site: SiteKey,
        /// The kit's implant that is to go in now.
        #[schemars(length(min = 1, max = 200))]
        implant: String,
        /// The one that was to go in until then; absent: a program did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[schemars(length(min = 1, max = 200))]
        from: Option<String>,
    },
    /// A site goes on without its profile drills, by a change on the table. What was done says who decided, and why.
    ProfileDropped {
        /// The site.
        site: SiteKey,
    },
    /// A site goes on without the guide, by a change on the table. What was done says who decided, and why.
    GuideLeft {
        /// The site.
        site: SiteKey,
    },
    /// A site is sounded through the seated guide.
    Sound {
        /// The site.
        site: SiteKey,
        /// The figure of the plan; none where it knew none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[schemars(range(min = -2000, max = 2000))]
        planned_mm: Option<Length>,
        /// The code of the guide; none where the plan knew none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        guide: Option<String>,
    },
    /// The stop of a drill is set anew in the sterile field.
    SetAnew {
        /// The drill as it is afterwards.
        with: DrillUse,
        /// Number of times that it is set anew by then.
        to: u32,
    },
    /// A site is drilled.
    Drill {
        /// The site.
        site: SiteKey,
        /// The step in its sequence.
        #[schemars(length(min = 1, max = 200))]
        id: String,
        /// The drill.
        with: DrillUse,
        /// The drill sleeve; none where the drill runs in the master sleeve or freehand.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve: Option<String>,
        /// Through the guide or not.
        led: Led,
    },
    /// What follows a step before the next one, such as a radiograph.
    Look {
        /// The site.
        site: SiteKey,
        /// The step that it follows.
        #[schemars(length(min = 1, max = 200))]
        id: String,
        /// What is done, as the plan says it.
        #[schemars(length(min = 1, max = 200))]
        what: String,
    },
    /// An implant is turned in.
    Insert {
        /// The site.
        site: SiteKey,
        /// The kit's implant.
        #[schemars(length(min = 1, max = 200))]
        implant: String,
        /// Through the guide or not.
        led: Led,
    },
    /// An implant that was begun through its sleeve is turned to its depth by hand, after the guide came off.
    Finish {
        /// The site.
        site: SiteKey,
        /// The kit's implant.
        #[schemars(length(min = 1, max = 200))]
        implant: String,
    },
    /// The guide is taken off, and every guided stop off its drill.
    GuideOff {},
    /// Everything is counted before closing.
    CountOut {
        /// The list that is counted: kinds and numbers; none where a program did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        list: Option<Fingerprint>,
    },
}

impl StepKey {
    /// The site that it is done at; none for what is done for the whole jaw.
    #[must_use]
    pub const fn site(&self) -> Option<&SiteKey> {
        match self {
            Self::Sound { site, .. }
            | Self::Drill { site, .. }
            | Self::Look { site, .. }
            | Self::Insert { site, .. }
            | Self::ImplantChanged { site, .. }
            | Self::ProfileDropped { site }
            | Self::GuideLeft { site }
            | Self::Finish { site, .. } => Some(site),
            Self::CountIn { .. }
            | Self::Pin { .. }
            | Self::SetAnew { .. }
            | Self::Punch { .. }
            | Self::Reseat {}
            | Self::Seat { .. }
            | Self::Lifted {}
            | Self::Abandoned {}
            | Self::SeatAgain { .. }
            | Self::GuideOff {}
            | Self::CountOut { .. } => None,
        }
    }

    /// True for what happened to the guide, or was decided on the table, and is a step of no plan.
    #[must_use]
    pub const fn is_of_no_plan(&self) -> bool {
        matches!(
            self,
            Self::Lifted {}
                | Self::Abandoned {}
                | Self::SeatAgain { .. }
                | Self::ImplantChanged { .. }
                | Self::ProfileDropped { .. }
                | Self::GuideLeft { .. }
        )
    }

    /// True for what cuts, or leaves something in the bone.
    #[must_use]
    pub const fn is_in_bone(&self) -> bool {
        matches!(
            self,
            Self::Drill { .. }
                | Self::Pin { .. }
                | Self::Punch { .. }
                | Self::Insert { .. }
                | Self::Finish { .. }
        )
    }

    /// The same without stop and setting, of drilling that did not use them.
    #[must_use]
    pub fn by_hand(&self) -> Self {
        let mut step = self.clone();
        if let Self::Drill { with, .. } = &mut step {
            with.stop = None;
            with.set_mm = None;
        }
        step
    }

    /// True if the other is the same thing to do, by another plan perhaps otherwise.
    #[must_use]
    pub fn is_same_work(&self, other: &Self) -> bool {
        match (self, other) {
            (
                Self::Drill { site, with, id, .. },
                Self::Drill {
                    site: at,
                    with: other,
                    id: turn,
                    ..
                },
            ) => (&site.site, &with.drill, id) == (&at.site, &other.drill, turn),
            (
                Self::Look { site, what, .. },
                Self::Look {
                    site: at,
                    what: other,
                    ..
                },
            ) => (&site.site, what) == (&at.site, other),
            (Self::Sound { site, .. }, Self::Sound { site: at, .. })
            | (Self::Insert { site, .. }, Self::Insert { site: at, .. })
            | (Self::Finish { site, .. }, Self::Finish { site: at, .. }) => site.site == at.site,
            (Self::Pin { pin, .. }, Self::Pin { pin: other, .. }) => pin == other,
            (Self::Punch { .. }, Self::Punch { .. })
            | (Self::CountIn { .. }, Self::CountIn { .. })
            | (Self::CountOut { .. }, Self::CountOut { .. })
            | (Self::Seat { .. }, Self::Seat { .. }) => true,
            (
                Self::SetAnew { with, to },
                Self::SetAnew {
                    with: other,
                    to: at,
                },
            ) => (&with.drill, to) == (&other.drill, at),
            (one, other) => one == other,
        }
    }
}
