//! Sequences as a maker gives them, and how deep each step goes.

use super::{Drill, DrillId, DrillSleeveId, ImplantId, Kit, Label, ProtocolId};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A maker's sequence for some implants in some densities of bone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Protocol {
    /// Short name for references.
    pub id: ProtocolId,
    /// Name for people.
    pub name: Label,
    /// The implants that it is for.
    #[schemars(length(min = 1))]
    pub implants: Vec<ImplantId>,
    /// The densities that it is for.
    #[schemars(length(min = 1))]
    pub densities: Vec<Density>,
    /// Its steps, in order.
    #[schemars(length(min = 1, max = 40))]
    pub steps: Vec<ProtocolStep>,
    /// Sleeve that the implant is turned in through; absent: the master sleeve itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub insertion_sleeve: Option<DrillSleeveId>,
    /// Its source.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// One step of a protocol.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProtocolStep {
    /// The drill.
    pub drill: DrillId,
    /// The drill sleeve; absent: directly through the master sleeve.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sleeve: Option<DrillSleeveId>,
    /// The depth to go to.
    pub depth: DepthRule,
}

/// The depth of a step, counted at the drill's own datum.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "rule", rename_all = "snake_case", deny_unknown_fields)]
pub enum DepthRule {
    /// Platform to apex, and the apical allowance.
    Full {},
    /// So far below the platform: profile drills and taps.
    BelowPlatform {
        /// The depth.
        #[schemars(range(min = 0, max = 60))]
        depth_mm: Length,
    },
    /// Partial depth: full depth less a length.
    ShortOfFull {
        /// By how much.
        #[schemars(range(min = 0.001, max = 60))]
        by_mm: Length,
    },
}

/// Bone density in the four classes of Misch, entered by the surgeon.
///
/// A grey value of a cone-beam scan is not a Hounsfield number, so no class is ever derived here.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Density {
    /// Dense cortical bone.
    D1,
    /// Thick cortex over coarse trabeculae.
    D2,
    /// Thin cortex over fine trabeculae.
    D3,
    /// Fine trabeculae, nearly no cortex.
    D4,
}

impl Density {
    /// True where bone gives way so little that a bore has to be shaped for the implant.
    #[must_use]
    pub const fn is_dense(self) -> bool {
        matches!(self, Self::D1 | Self::D2)
    }
}

impl Protocol {
    /// True if a last drill in bone of this density is held against this one's: in dense bone where it is for that,
    /// in softer bone whatever it is for.
    #[must_use]
    pub fn is_held_against(&self, density: Density) -> bool {
        !density.is_dense() || self.densities.contains(&density)
    }
}

impl Kit {
    /// The widest drill of the bore that is not wider than this; the first of equals.
    #[must_use]
    pub fn last_drill(&self, widest: Length) -> Option<&Drill> {
        let of_bore = self
            .drills
            .iter()
            .filter(|drill| drill.kind.makes_the_bore() && drill.cutting_diameter_mm <= widest);
        // `max_by_key` would take the last of equals.
        of_bore.rev().max_by_key(|drill| drill.cutting_diameter_mm)
    }
}

/// Difference between the diameters of the implant and the last drill of a proposed sequence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FinalDiameter {
    /// The density that it holds for.
    pub density: Density,
    /// The implant's diameter less the drill's.
    #[schemars(range(min = 0, max = 5))]
    pub below_implant_mm: Length,
}

impl Density {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::D1 => "d1",
            Self::D2 => "d2",
            Self::D3 => "d3",
            Self::D4 => "d4",
        }
    }
}
