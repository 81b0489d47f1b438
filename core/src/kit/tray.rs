//! Tray templates.

use super::{Label, TrayId};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A tray: slots on a plate, each for one kind of thing, each with a name that can be called out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TrayTemplate {
    /// Short name for references.
    pub id: TrayId,
    /// Name for people.
    pub name: Label,
    /// Width of the plate.
    #[schemars(range(min = 10, max = 1000))]
    pub width_mm: Length,
    /// Depth of the plate.
    #[schemars(range(min = 10, max = 1000))]
    pub depth_mm: Length,
    /// Its slots, in the order in which they are filled.
    #[schemars(length(min = 1, max = 500))]
    pub slots: Vec<TraySlot>,
}

/// One slot of a tray. Its place is counted from the plate's far left corner.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TraySlot {
    /// Name to call out.
    pub name: Label,
    /// The kind of thing that goes in it.
    pub kind: SlotKind,
    /// Distance of its left edge.
    #[schemars(range(min = 0, max = 1000))]
    pub left_mm: Length,
    /// Distance of its far edge.
    #[schemars(range(min = 0, max = 1000))]
    pub far_mm: Length,
    /// Width.
    #[schemars(range(min = 1, max = 1000))]
    pub width_mm: Length,
    /// Depth.
    #[schemars(range(min = 1, max = 1000))]
    pub depth_mm: Length,
}

/// The kind of thing that a slot is for.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum SlotKind {
    Drill,
    Sleeve,
    Implant,
    Carrier,
    Driver,
    Pin,
    Accessory,
}

impl SlotKind {
    /// Every kind.
    pub const ALL: [Self; 7] = [
        Self::Drill,
        Self::Sleeve,
        Self::Implant,
        Self::Carrier,
        Self::Driver,
        Self::Pin,
        Self::Accessory,
    ];

    /// The list of the kit in which things of this kind stand.
    #[must_use]
    pub const fn list(self) -> &'static str {
        match self {
            Self::Drill => "drills",
            Self::Sleeve => "drill_sleeves",
            Self::Implant => "implants",
            Self::Carrier => "carriers",
            Self::Driver => "drivers",
            Self::Pin => "pins",
            Self::Accessory => "accessories",
        }
    }

    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Drill => "drill",
            Self::Sleeve => "sleeve",
            Self::Implant => "implant",
            Self::Carrier => "carrier",
            Self::Driver => "driver",
            Self::Pin => "pin",
            Self::Accessory => "accessory",
        }
    }
}
