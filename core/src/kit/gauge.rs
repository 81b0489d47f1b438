//! Depth gauges.

use super::{GaugeId, Label, Stop};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A depth gauge, on which stops are set and read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// Short name for references.
    pub id: GaugeId,
    /// Name for people.
    pub name: Label,
    /// Smallest figure on it.
    #[schemars(range(min = -100, max = 200))]
    pub from_mm: Length,
    /// Largest figure on it.
    #[schemars(range(min = -100, max = 200))]
    pub to_mm: Length,
    /// From one graduation to the next.
    #[schemars(range(min = 0.001, max = 5))]
    pub graduation_mm: Length,
    /// The face of the stop that it shows; absent where nobody knows, and then it gives no figure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reads: Option<GaugeFace>,
    /// Length that it adds to the one that it measures, 0 where it adds none; absent where nobody knows, and then it
    /// gives no figure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -100, max = 100))]
    pub constant_mm: Option<Length>,
    /// Length of the check piece that opens each session; the gauge shows it with its constant.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.5, max = 100))]
    pub check_piece_mm: Option<Length>,
    /// Source of these figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// A face of a stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum GaugeFace {
    /// The lower face, which lands on the sleeve.
    Landing,
    /// The upper face.
    Upper,
}

impl Gauge {
    /// The excess that the gauge shows over the set length of this stop; nothing where its face or its constant is
    /// unknown.
    #[must_use]
    pub fn shows_above(&self, stop: &Stop) -> Option<Length> {
        let (face, adds) = self.reads.zip(self.constant_mm)?;
        Some(match face {
            GaugeFace::Landing => adds,
            GaugeFace::Upper => adds + stop.body_height_mm,
        })
    }

    /// The figure that it shows of a length without a stop, such as its check piece; nothing where its constant is
    /// unknown.
    #[must_use]
    pub fn shows_of(&self, length: Length) -> Option<Length> {
        self.constant_mm.map(|adds| length + adds)
    }
}
