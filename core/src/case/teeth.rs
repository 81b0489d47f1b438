//! Teeth and the size of the arch.

use super::{Case, Support};
use crate::dentition::{ArchLandmark, ToothPosition};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Size of the arch, measured to a named landmark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ArchSize {
    /// The landmark that width and depth belong to.
    pub landmark: ArchLandmark,
    /// From the landmark on the right to the one on the left.
    #[schemars(range(min = 20, max = 100))]
    pub width_mm: Length,
    /// From the incisal midpoint back to the line between the landmarks.
    #[schemars(range(min = 15, max = 80))]
    pub depth_mm: Length,
}

/// A tooth position and its state.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tooth {
    /// The position.
    pub position: ToothPosition,
    /// Present, missing or to be extracted.
    pub state: ToothState,
    /// The kind of neighbour, where there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<NeighbourKind>,
}

impl Tooth {
    /// True if a crown stands there that stays: a pontic is one although its tooth is missing, and an
    /// implant may bear one.
    #[must_use]
    pub const fn has_crown(&self) -> bool {
        match (self.kind, self.state) {
            (Some(NeighbourKind::Impacted | NeighbourKind::Remnant), _)
            | (_, ToothState::ToExtract) => false,
            (Some(NeighbourKind::Pontic | NeighbourKind::Implant), _) => true,
            (_, state) => matches!(state, ToothState::Present),
        }
    }

    /// True if a guide can rest on it: a crown that stays and is no pontic. Whether an implant in place of a
    /// missing tooth bears a crown, nobody said.
    #[must_use]
    pub fn holds_guide(&self) -> bool {
        let bare = self.state == ToothState::Missing && self.kind == Some(NeighbourKind::Implant);
        self.has_crown() && self.kind != Some(NeighbourKind::Pontic) && !bare
    }
}

impl Case {
    /// The teeth that a guide can rest on. Where an implant is planned no tooth stays, whatever was entered of it.
    pub(crate) fn teeth_that_hold(&self) -> impl Iterator<Item = &Tooth> {
        let planned = |position| self.sites.iter().any(|site| site.tooth == position);
        self.teeth
            .iter()
            .filter(move |tooth| tooth.holds_guide() && !planned(tooth.position))
    }

    /// The positions of the teeth on which the guide as planned rests: none, where something else is to hold it.
    pub(crate) fn teeth_under_guide(&self) -> Vec<ToothPosition> {
        match self.guide.support {
            Support::Teeth | Support::TeethAndMucosa => {
                self.teeth_that_hold().map(|tooth| tooth.position).collect()
            }
            Support::Mucosa | Support::Bone => Vec::new(),
        }
    }
}

/// The state of a tooth position.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum ToothState {
    Present,
    Missing,
    ToExtract,
}

/// The kind of neighbour at a tooth position.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum NeighbourKind {
    /// A natural tooth.
    Natural,
    /// A root-filled tooth.
    RootFilled,
    /// An implant placed earlier.
    Implant,
    /// A pontic: a crown without a root.
    Pontic,
    /// An impacted tooth.
    Impacted,
    /// A root remnant.
    Remnant,
}
