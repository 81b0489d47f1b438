//! Rotary instruments.

use super::{DrillId, Label, Marking, ScanCode};
use crate::measure::{Angle, Length, Speed, Torque, trig};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A rotary instrument: pilot, twist, profile or pin drill, or a bone tap.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Drill {
    /// Short name for references.
    pub id: DrillId,
    /// Name for people.
    pub name: Label,
    /// The code on it or on its wrapping, which a scanner types.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<ScanCode>,
    /// Its purpose.
    pub kind: DrillKind,
    /// Diameter that it cuts.
    #[schemars(range(min = 0.3, max = 20))]
    pub cutting_diameter_mm: Length,
    /// Diameter of the part that runs in the sleeve.
    #[schemars(range(min = 0.3, max = 20))]
    pub guided_diameter_mm: Length,
    /// From the tip up to where that part begins; absent: where the cone ends, if the drill is
    /// guided on the diameter that it cuts, and else unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 100))]
    pub guided_from_mm: Option<Length>,
    /// Diameter that a depth stop sits on; absent where it takes no stop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.3, max = 20))]
    pub stop_seat_diameter_mm: Option<Length>,
    /// Its cone.
    pub point: Point,
    /// The point on the instrument from which its depth is counted.
    pub datum: Datum,
    /// From tip to the end of the shank.
    #[schemars(range(min = 5, max = 100))]
    pub overall_length_mm: Length,
    /// From tip to the handpiece, when seated in it.
    #[schemars(range(min = 5, max = 100))]
    pub free_length_mm: Length,
    /// From tip to the end of the flutes.
    #[schemars(range(min = 0, max = 100))]
    pub flute_to_mm: Length,
    /// The stretch of the shaft where a stop may be clamped, from the tip; absent where it takes no
    /// stop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clamp: Option<Span>,
    /// Depth marks on the shaft.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<DrillMark>,
    /// Greatest speed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 200_000))]
    pub greatest_speed_rpm: Option<Speed>,
    /// Greatest torque.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 200))]
    pub torque_limit_ncm: Option<Torque>,
    /// Direction of rotation.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub direction: Option<Direction>,
    /// Irrigation asked for, in the maker's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub irrigation: Option<Label>,
    /// Number of pieces in stock.
    #[schemars(range(min = 0, max = 999))]
    pub quantity: u32,
    /// To be thrown away after one patient.
    #[serde(default)]
    pub single_use: bool,
    /// Its marking.
    #[serde(default)]
    pub marking: Marking,
    /// Source of these figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// The purpose of a rotary instrument.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum DrillKind {
    /// Opens the site.
    Pilot,
    /// Widens it to full depth.
    Twist,
    /// Shapes the coronal part.
    Profile,
    /// Cuts a thread.
    Tap,
    /// Prepares a fixation pin.
    Pin,
}

impl DrillKind {
    /// True if it makes the bore that the implant goes down to; the others shape what is there.
    #[must_use]
    pub const fn makes_the_bore(self) -> bool {
        matches!(self, Self::Pilot | Self::Twist)
    }
}

/// The cone at a drill's tip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "given_by", rename_all = "snake_case", deny_unknown_fields)]
pub enum Point {
    /// By the angle between its flanks.
    Angle {
        /// Full angle between the flanks.
        #[schemars(range(min = 20, max = 179))]
        point_deg: Angle,
    },
    /// By its length, measured.
    Length {
        /// Length of the cone; 0 for a flat end.
        #[schemars(range(min = 0, max = 20))]
        point_mm: Length,
    },
}

/// The point on an instrument from which its depth is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "counted_to", rename_all = "snake_case", deny_unknown_fields)]
pub enum Datum {
    /// Its very tip.
    Tip {},
    /// The beginning of its full diameter, one point length above the tip.
    FullDiameter {},
    /// A shoulder or line.
    Line {
        /// Distance of that shoulder or line from the tip.
        #[schemars(range(min = 0, max = 50))]
        from_tip_mm: Length,
    },
}

/// A stretch of the shaft, both ends counted from the tip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Span {
    /// End nearer the tip.
    #[schemars(range(min = 0, max = 100))]
    pub from_mm: Length,
    /// End nearer the shank.
    #[schemars(range(min = 0, max = 100))]
    pub to_mm: Length,
}

/// A depth mark: a line, or a band with two edges.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DrillMark {
    /// Its name on the drill.
    pub name: Label,
    /// Its edge nearer the tip, counted from the tip.
    #[schemars(range(min = 0, max = 100))]
    pub lower_edge_mm: Length,
    /// Its edge nearer the shank, counted from the tip; absent for a thin line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 100))]
    pub upper_edge_mm: Option<Length>,
}

/// Direction of rotation, seen from the handpiece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Direction {
    /// Clockwise.
    Forward,
    /// Counter-clockwise.
    Reverse,
}

impl Drill {
    /// Length of the cone, rounded down to the micrometre where it is computed from an angle.
    #[must_use]
    pub fn point_length(&self) -> Length {
        match self.point {
            Point::Angle { point_deg } => trig::point_length(self.cutting_diameter_mm, point_deg),
            Point::Length { point_mm } => point_mm,
        }
    }

    /// From the tip up to where the part begins that runs in the sleeve; nothing where the kit does
    /// not say so and the drill is guided on another diameter than it cuts.
    #[must_use]
    pub fn guided_from(&self) -> Option<Length> {
        let plain = self.guided_diameter_mm == self.cutting_diameter_mm;
        self.guided_from_mm
            .or_else(|| plain.then(|| self.point_length()))
    }

    /// Distance from the tip to where the depth is counted.
    #[must_use]
    pub fn datum_from_tip(&self) -> Length {
        match self.datum {
            Datum::Tip {} => Length::ZERO,
            Datum::FullDiameter {} => self.point_length(),
            Datum::Line { from_tip_mm } => from_tip_mm,
        }
    }
}
