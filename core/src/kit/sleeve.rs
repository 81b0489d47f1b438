//! Sleeves.

use super::{DrillSleeveId, Label, Marking, MasterSleeveId, ScanCode};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A removable sleeve that guides one diameter of drill inside a master sleeve.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DrillSleeve {
    /// Short name for references.
    pub id: DrillSleeveId,
    /// Name for people.
    pub name: Label,
    /// The code on it or on its wrapping, which a scanner types.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<ScanCode>,
    /// Master sleeves that it is made for.
    #[schemars(length(min = 1))]
    pub fits: Vec<MasterSleeveId>,
    /// Diameter of its bore.
    #[schemars(range(min = 0.3, max = 20))]
    pub bore_mm: Length,
    /// Outer diameter of the part inside the master sleeve.
    #[schemars(range(min = 0.3, max = 20))]
    pub barrel_diameter_mm: Length,
    /// Whole length, from the landing face to the lower end: the guided length of a drill in it.
    #[schemars(range(min = 0.5, max = 40))]
    pub length_mm: Length,
    /// Height of the flange.
    #[schemars(range(min = 0, max = 20))]
    pub flange_height_mm: Length,
    /// Diameter of the flange.
    #[schemars(range(min = 0.3, max = 30))]
    pub flange_diameter_mm: Length,
    /// Height of its landing face above the master sleeve's rim, measured assembled; 0 when flush,
    /// negative in a counterbore.
    #[schemars(range(min = -10, max = 20))]
    pub seat_above_rim_mm: Length,
    /// Number of pieces in stock.
    #[schemars(range(min = 0, max = 999))]
    pub quantity: u32,
    /// Its marking.
    #[serde(default)]
    pub marking: Marking,
    /// Source of these figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// A sleeve fixed in the guide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MasterSleeve {
    /// Short name for references.
    pub id: MasterSleeveId,
    /// Name for people.
    pub name: Label,
    /// Diameter of its bore.
    #[schemars(range(min = 0.3, max = 20))]
    pub bore_mm: Length,
    /// Outer diameter.
    #[schemars(range(min = 0.3, max = 30))]
    pub outer_diameter_mm: Length,
    /// Height from its apical face to its coronal rim, collar included.
    #[schemars(range(min = 0.5, max = 40))]
    pub height_mm: Length,
    /// A counterbore in its rim that takes the flange of a drill sleeve; absent: none is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recess: Option<Recess>,
    /// Source of these figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// A counterbore in a master sleeve's rim.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Recess {
    /// From the rim down to its floor.
    #[schemars(range(min = 0.01, max = 20))]
    pub depth_mm: Length,
    /// Its diameter.
    #[schemars(range(min = 0.3, max = 30))]
    pub diameter_mm: Length,
}

impl DrillSleeve {
    /// The depth of its flange's underside below the master sleeve's rim; negative where it
    /// stands above it.
    #[must_use]
    pub fn flange_below_rim(&self) -> Length {
        self.flange_height_mm - self.seat_above_rim_mm
    }
}

impl MasterSleeve {
    /// The recess, where one takes something of this diameter.
    #[must_use]
    pub fn recess_for(&self, diameter: Length) -> Option<Recess> {
        self.recess.filter(|recess| diameter <= recess.diameter_mm)
    }
}
