//! The day of surgery as it is recorded: which step was done, left out or taken back, and what it brought.
//!
//! A step is named by what a hand does in it ([`StepKey`]): site, drill, sleeve, stop and setting as the plan had them then.
//! Under another plan it is another step, so that an old event never says that something new was done.

use super::event::{DrillKey, EventId, Purpose, ThingKey};
use super::fingerprint::Fingerprint;
use super::names::Who;
use crate::dentition::ToothPosition;
use crate::measure::{Length, Torque};
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
    Seat {},
    /// A site is sounded through the seated guide.
    Sound {
        /// The site.
        site: SiteKey,
        /// The figure of the plan; none where it knew none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[schemars(range(min = -2000, max = 2000))]
        planned_mm: Option<Length>,
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

/// Surgery is begun, or gone on with, under a plan as it then was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SurgeryBegun {
    /// Of the plan.
    pub fingerprint: Fingerprint,
    /// Whether an approval of it counted.
    pub approval: Approved,
    /// What lay or was set otherwise than the plan wants it, and was told.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lies_wrong: Vec<ThingKey>,
    /// Why it was gone on with although something was open, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// Whether an approval counted.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Approved {
    /// One did.
    Approved,
    /// None did.
    Open,
}

/// A step was done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepDone {
    /// The step.
    pub step: StepKey,
    /// The physical drill that it was done with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece: Option<DrillKey>,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// Why it was done although it was not ready, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// A step was left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepSkipped {
    /// The step.
    pub step: StepKey,
    /// In the person's own words.
    #[schemars(length(min = 1, max = 4000))]
    pub reason: String,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// What was recorded of a step was recorded by mistake.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepTakenBack {
    /// What was recorded.
    pub event: EventId,
    /// The step.
    pub step: StepKey,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// A site was sounded through the seated guide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sounded {
    /// The step; it bears the planned figure.
    pub step: StepKey,
    /// What the probe showed, from the seat to the bone.
    #[schemars(range(min = 0.001, max = 2000))]
    pub found_mm: Length,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// An implant was turned in, or begun.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Inserted {
    /// The step.
    pub step: StepKey,
    /// The way.
    pub way: InsertionWay,
    /// Torque reached; none where it was not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 200))]
    pub torque_ncm: Option<Torque>,
    /// How far coronal of its planned depth it stopped; negative: apical of it; none where that was not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -2000, max = 2000))]
    pub coronal_of_plan_mm: Option<Length>,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// Why it was done although it was not ready, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// The way in which an implant goes to its depth.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum InsertionWay {
    /// By the carrier, to its line.
    Guided,
    /// The carrier led its direction until it held; the depth is left to the hand, once the guide is off.
    Begun,
    /// By hand, after it was begun through its sleeve.
    Ended,
    /// By hand from the beginning.
    Freehand,
}

/// Everything was counted by two people.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Counted {
    /// The step: in or out.
    pub step: StepKey,
    /// The other person who counted.
    pub second: Who,
    /// What was counted, in the order of the list.
    pub lines: Vec<CountLine>,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// What became of what lacks, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// One line of a count.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CountLine {
    /// The thing, as the desk then called it.
    #[schemars(length(min = 1, max = 400))]
    pub what: String,
    /// The number that there should be.
    pub wanted: u32,
    /// The number that was found.
    pub found: u32,
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
            | Self::Finish { site, .. } => Some(site),
            Self::CountIn { .. }
            | Self::Pin { .. }
            | Self::SetAnew { .. }
            | Self::Punch { .. }
            | Self::Reseat {}
            | Self::Seat {}
            | Self::GuideOff {}
            | Self::CountOut { .. } => None,
        }
    }

    /// True if the other is the same thing to do, by another plan perhaps otherwise.
    #[must_use]
    pub fn is_same_work(&self, other: &Self) -> bool {
        match (self, other) {
            (
                Self::Drill { site, id, .. },
                Self::Drill {
                    site: at,
                    id: other,
                    ..
                },
            )
            | (
                Self::Look { site, id, .. },
                Self::Look {
                    site: at,
                    id: other,
                    ..
                },
            ) => (&site.site, id) == (&at.site, other),
            (Self::Sound { site, .. }, Self::Sound { site: at, .. })
            | (Self::Insert { site, .. }, Self::Insert { site: at, .. })
            | (Self::Finish { site, .. }, Self::Finish { site: at, .. }) => site.site == at.site,
            (Self::Pin { pin, .. }, Self::Pin { pin: other, .. }) => pin == other,
            (Self::Punch { .. }, Self::Punch { .. })
            | (Self::CountIn { .. }, Self::CountIn { .. })
            | (Self::CountOut { .. }, Self::CountOut { .. }) => true,
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

impl Counted {
    /// The lines of which another number was found than there should be.
    pub fn amiss(&self) -> impl Iterator<Item = &CountLine> {
        self.lines.iter().filter(|line| line.found != line.wanted)
    }
}
