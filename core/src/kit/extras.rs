//! Handpiece heads, drivers, pins and accessories.

use super::{AccessoryId, DrillId, DriverId, HeadId, Label, PinId, ScanCode, StopId};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The head of a handpiece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Head {
    /// Short name for references.
    pub id: HeadId,
    /// Name for people.
    pub name: Label,
    /// Height along the drill's axis.
    #[schemars(range(min = 1, max = 60))]
    pub height_mm: Length,
    /// Diameter.
    #[schemars(range(min = 1, max = 60))]
    pub diameter_mm: Length,
}

/// A driver.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Driver {
    /// Short name for references.
    pub id: DriverId,
    /// Name for people.
    pub name: Label,
    /// The code on it or on its wrapping, which a scanner types.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<ScanCode>,
    /// Families of implants that it serves; empty for all.
    #[serde(default)]
    pub families: Vec<Label>,
    /// Number of pieces in stock.
    #[schemars(range(min = 0, max = 999))]
    pub quantity: u32,
}

/// A fixation pin with the drill and the sleeve that belong to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Pin {
    /// Short name for references.
    pub id: PinId,
    /// Name for people.
    pub name: Label,
    /// The code on it or on its wrapping, which a scanner types.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<ScanCode>,
    /// Diameter.
    #[schemars(range(min = 0.3, max = 10))]
    pub diameter_mm: Length,
    /// Length under its head, which comes to lie on the rim of the pin's sleeve.
    #[schemars(range(min = 1, max = 60))]
    pub length_mm: Length,
    /// The drill that prepares it.
    pub drill: DrillId,
    /// The stop on that drill, landing on the rim of the pin's sleeve; absent: a mark of the drill
    /// is read there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<StopId>,
    /// The sleeve that it passes in the guide.
    pub sleeve: PinSleeve,
    /// Number of pieces in stock.
    #[schemars(range(min = 0, max = 999))]
    pub quantity: u32,
}

/// A pin's sleeve in the guide.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PinSleeve {
    /// Diameter of its bore.
    #[schemars(range(min = 0.3, max = 10))]
    pub bore_mm: Length,
    /// Height.
    #[schemars(range(min = 0.5, max = 40))]
    pub height_mm: Length,
}

/// Something else that belongs on the tray.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Accessory {
    /// Short name for references.
    pub id: AccessoryId,
    /// Name for people.
    pub name: Label,
    /// The code on it or on its wrapping, which a scanner types.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<ScanCode>,
    /// Its purpose.
    pub kind: AccessoryKind,
    /// Number of pieces that go on the tray.
    #[schemars(range(min = 1, max = 99))]
    pub wanted: u32,
    /// Number of pieces in stock.
    #[schemars(range(min = 0, max = 999))]
    pub quantity: u32,
}

/// The purpose of an accessory.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum AccessoryKind {
    TorqueWrench,
    LockKey,
    Irrigant,
    Punch,
    Tether,
    ThroatPack,
    Spare,
    Other,
}
