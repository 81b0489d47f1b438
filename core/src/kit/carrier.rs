//! Implant carriers.

use super::{CarrierId, Label, ScanCode};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A carrier: holds an implant while it is turned in through the guide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Carrier {
    /// Short name for references.
    pub id: CarrierId,
    /// Name for people.
    pub name: Label,
    /// The code on it or on its wrapping, which a scanner types.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<ScanCode>,
    /// Families of implants that it holds.
    #[schemars(length(min = 1))]
    pub families: Vec<Label>,
    /// Diameter of the part that runs in the bore.
    #[schemars(range(min = 0.3, max = 20))]
    pub guided_diameter_mm: Length,
    /// Its working lengths: lines to read, or faces that touch.
    #[schemars(length(min = 1))]
    pub lines: Vec<CarrierLine>,
    /// Number of pieces in stock.
    #[schemars(range(min = 0, max = 999))]
    pub quantity: u32,
    /// Its marking.
    #[serde(default)]
    pub marking: super::Marking,
    /// Source of these figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// A line or touching face of a carrier.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CarrierLine {
    /// Its name.
    pub name: Label,
    /// From the implant's platform up to it.
    #[schemars(range(min = 0, max = 60))]
    pub above_platform_mm: Length,
}
