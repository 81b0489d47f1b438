//! What is entered of a case for its record, beside what the day of surgery brought by itself: what was placed, and what
//! became of each site.
//!
//! Nothing that was entered is ever changed. A correction is an event of its own that names what it corrects; who corrects the
//! same thing at another desk without having read it leaves two answers, and both stand until somebody settles it.

use super::Who;
use super::event::{EventId, EventKind, Purpose};
use super::fingerprint::Fingerprint;
use super::surgery::{InsertionWay, SiteKey, StepKey};
use crate::measure::{Length, Torque};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// Something that is asked for of each implant, or of the case.
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
pub enum EntryKind {
    /// The implant that was placed.
    Implant,
    /// The torque that it was turned in with.
    Torque,
    /// Where it stopped against its plan.
    Depth,
    /// How firm it is.
    Stability,
    /// A graft at its site.
    Graft,
    /// How the wound was closed.
    Closure,
    /// The part that it heals under.
    Healing,
    /// What was done otherwise than planned.
    Deviation,
    /// An instrument that is not used again.
    Discarded,
}

/// What is entered. In JSON the key `of` names its kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(tag = "of", rename_all = "snake_case", deny_unknown_fields)]
pub enum Entry {
    /// The implant that was placed.
    Implant(PlacedImplant),
    /// The torque that it was turned in with.
    Torque {
        /// The site.
        site: SiteKey,
        /// The torque.
        #[schemars(range(min = 1, max = 200))]
        torque_ncm: Torque,
    },
    /// Where it stopped against its plan.
    Depth {
        /// The site.
        site: SiteKey,
        /// How far coronal of its planned depth; negative: apical of it.
        #[schemars(range(min = -2000, max = 2000))]
        coronal_of_plan_mm: Length,
    },
    /// How firm it is.
    Stability {
        /// The site.
        site: SiteKey,
        /// How that was measured.
        method: StabilityMethod,
        /// The figure, whole, as the device shows it: it has the scale of that device, and no unit.
        #[schemars(range(min = -999, max = 999))]
        value: i32,
    },
    /// A graft at its site.
    Graft {
        /// The site.
        site: SiteKey,
        /// The material; absent: there was no graft.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        material: Option<Material>,
    },
    /// How the wound was closed.
    Closure {
        /// The site.
        site: SiteKey,
        /// In the person's own words.
        #[schemars(length(min = 1, max = 400))]
        how: String,
    },
    /// The part that it heals under.
    Healing {
        /// The site.
        site: SiteKey,
        /// The part; absent: none was put on.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<HealingPart>,
    },
    /// What was done otherwise than planned.
    Deviation {
        /// The site.
        site: SiteKey,
        /// What; absent: nothing was.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        departure: Option<Departure>,
    },
    /// An instrument that is not used again.
    Discarded {
        /// The instrument.
        #[schemars(length(min = 1, max = 400))]
        what: String,
        /// Why, in the person's own words.
        #[schemars(length(min = 1, max = 4000))]
        reason: String,
    },
}

impl Entry {
    /// The other person who held a label against the kit; none of all else.
    pub(crate) fn second(&self) -> Option<&Who> {
        match self {
            Self::Implant(placed) => placed.compared.as_ref().map(|one| &one.second),
            _ => None,
        }
    }
}

/// The implant that was placed, as its label says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlacedImplant {
    /// The site.
    pub site: SiteKey,
    /// The reference code on its label.
    #[schemars(length(min = 1, max = 200))]
    pub code: String,
    /// The lot; absent: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 200))]
    pub lot: Option<String>,
    /// The last day on which it may be used; absent: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub expiry: Option<Date>,
    /// How the label was read.
    pub given: Given,
    /// The kit's implant that the code is of; absent: the kit has none, or several, by this code.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 200))]
    pub implant: Option<String>,
    /// The implant that the plan then had there; absent: it had no such site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 200))]
    pub planned: Option<String>,
    /// Why it was placed although it is not the planned one by its code, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub because: Option<String>,
    /// What of the label was held against the kit, where the kit has no code for the planned implant; absent: the code alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub compared: Option<Compared>,
}

/// What of a label was read aloud and held against the kit by two people, where no code tells them the implant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Compared {
    /// The name.
    #[schemars(length(min = 1, max = 200))]
    pub name: String,
    /// The diameter, as the kit has it.
    #[schemars(range(min = 0.5, max = 20))]
    pub diameter_mm: Length,
    /// The length that is printed on it, as the kit has it.
    #[schemars(range(min = 1, max = 60))]
    pub length_mm: Length,
    /// The other person, who held it against the kit.
    pub second: Who,
}

/// How a label was read.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Given {
    /// From its machine-readable code, whose parts say what they are.
    Scanned,
    /// Letter by letter, by a hand or by a scanner that types them.
    Typed,
}

/// How the stability of an implant is measured.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum StabilityMethod {
    /// By its resonance.
    Resonance,
    /// By how it damps a tap.
    Damping,
}

/// Something that was put in and has a label.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// What it is.
    #[schemars(length(min = 1, max = 400))]
    pub what: String,
    /// The lot; absent: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 200))]
    pub lot: Option<String>,
    /// The last day on which it may be used; absent: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub expiry: Option<Date>,
}

/// The part that an implant heals under: a cover, a healing part, a provisional.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HealingPart {
    /// What it is.
    #[schemars(length(min = 1, max = 400))]
    pub what: String,
    /// The lot; absent: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 200))]
    pub lot: Option<String>,
    /// The torque that it was put on with; absent: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 200))]
    pub torque_ncm: Option<Torque>,
}

/// Something that was done otherwise than planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Departure {
    /// What was done, in the person's own words.
    #[schemars(length(min = 1, max = 400))]
    pub what: String,
    /// Why, in the person's own words.
    #[schemars(length(min = 1, max = 4000))]
    pub reason: String,
}

/// Something was entered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Recorded {
    /// What.
    pub entry: Entry,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// Something that was entered, or recorded of an insertion, was not so. It stays readable, and this stands in its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RecordCorrected {
    /// What is corrected: an entry, another correction, or an insertion of the day.
    pub event: EventId,
    /// What of it.
    pub field: EntryKind,
    /// What stands in its place; absent: nothing does, it should not have been entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<Entry>,
    /// Why, in the person's own words.
    #[schemars(length(min = 1, max = 4000))]
    pub reason: String,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// The record was signed as it then was: it covers what its desk had read by then, and nothing else.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RecordSigned {
    /// Of the plan that it was held against.
    pub fingerprint: Fingerprint,
    /// Number of things that it then told as not recorded, or as differing.
    pub open: u32,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

impl EntryKind {
    /// What is asked for of each implant, in the order of the record.
    pub const OF_IMPLANT: [Self; 8] = [
        Self::Implant,
        Self::Torque,
        Self::Depth,
        Self::Stability,
        Self::Graft,
        Self::Closure,
        Self::Healing,
        Self::Deviation,
    ];

    /// True if there may be several of it at one place.
    #[must_use]
    pub const fn is_several(self) -> bool {
        matches!(self, Self::Stability | Self::Deviation | Self::Discarded)
    }
}

impl Entry {
    /// The kind of it.
    #[must_use]
    pub const fn kind(&self) -> EntryKind {
        match self {
            Self::Implant(_) => EntryKind::Implant,
            Self::Torque { .. } => EntryKind::Torque,
            Self::Depth { .. } => EntryKind::Depth,
            Self::Stability { .. } => EntryKind::Stability,
            Self::Graft { .. } => EntryKind::Graft,
            Self::Closure { .. } => EntryKind::Closure,
            Self::Healing { .. } => EntryKind::Healing,
            Self::Deviation { .. } => EntryKind::Deviation,
            Self::Discarded { .. } => EntryKind::Discarded,
        }
    }

    /// The site that it is of; none for what is of the case.
    #[must_use]
    pub const fn site(&self) -> Option<&SiteKey> {
        match self {
            Self::Implant(placed) => Some(&placed.site),
            Self::Torque { site, .. }
            | Self::Depth { site, .. }
            | Self::Stability { site, .. }
            | Self::Graft { site, .. }
            | Self::Closure { site, .. }
            | Self::Healing { site, .. }
            | Self::Deviation { site, .. } => Some(site),
            Self::Discarded { .. } => None,
        }
    }
}

impl StabilityMethod {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Resonance, Self::Damping];

    /// The least and the greatest figure that is taken for one. Devices differ in their scales: it only tells a slip. Common
    /// practice, no source.
    pub const FIGURES: (i32, i32) = (-999, 999);
}

impl EventKind {
    /// True for what is entered, corrected or signed for the record.
    #[must_use]
    pub const fn is_of_record(&self) -> bool {
        matches!(
            self,
            Self::Recorded(_) | Self::RecordCorrected(_) | Self::RecordSigned(_)
        )
    }

    /// What an insertion says of torque or depth, with its site. The inner none: the insertion did not tell it. The outer
    /// none: it is no insertion that ended, or says nothing of this.
    #[must_use]
    pub fn of_insertion(&self, kind: EntryKind) -> Option<(&SiteKey, Option<Entry>)> {
        let Self::Inserted(inserted) = self else {
            return None;
        };
        let (StepKey::Insert { site, .. } | StepKey::Finish { site, .. }) = &inserted.step else {
            return None;
        };
        if inserted.way == InsertionWay::Begun {
            return None;
        }
        let entry = match kind {
            EntryKind::Torque => inserted.torque_ncm.map(|torque_ncm| Entry::Torque {
                site: site.clone(),
                torque_ncm,
            }),
            EntryKind::Depth => inserted.coronal_of_plan_mm.map(|by| Entry::Depth {
                site: site.clone(),
                coronal_of_plan_mm: by,
            }),
            _ => return None,
        };
        Some((site, entry))
    }
}
