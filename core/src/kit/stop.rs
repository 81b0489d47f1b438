//! Depth stops.

use super::{DrillId, Label, Marking, StopId};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A depth stop.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Stop {
    /// Short name for references.
    pub id: StopId,
    /// Name for people.
    pub name: Label,
    /// Diameter of its bore.
    #[schemars(range(min = 0.3, max = 20))]
    pub bore_mm: Length,
    /// Outer diameter of its body.
    #[schemars(range(min = 0.3, max = 30))]
    pub body_diameter_mm: Length,
    /// Outer diameter of the face that lands on the sleeve.
    #[schemars(range(min = 0.3, max = 30))]
    pub landing_diameter_mm: Length,
    /// Height of its body, from landing face to upper face.
    #[schemars(range(min = 0.5, max = 30))]
    pub body_height_mm: Length,
    /// Adjustable, or fixed with its lengths.
    pub depth: StopKind,
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

/// The kind of stop: one that can be set, or one that gives one length on each drill.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum StopKind {
    /// Clamped anywhere on the drill's clamping span.
    Adjustable {},
    /// Sits in one place on each drill.
    Fixed {
        /// The length that it gives, drill by drill.
        #[schemars(length(min = 1))]
        lengths: Vec<FixedLength>,
    },
}

/// The length that a fixed stop gives on one drill.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FixedLength {
    /// The drill.
    pub drill: DrillId,
    /// From the drill's tip to the stop's landing face.
    #[schemars(range(min = 0.5, max = 100))]
    pub tip_to_landing_mm: Length,
}
