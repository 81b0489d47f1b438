//! Places on the arch model, and their mirror images.

use super::curve::CurvePoint;
use crate::dentition::ToothPosition;

/// A place in the occlusal plane of the patient frame, with the directions that hold there.
///
/// x to the patient's left, y posterior, in millimetres from the incisal midpoint; z is 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArchPoint {
    /// Towards the patient's left.
    pub x_mm: f64,
    /// Posterior.
    pub y_mm: f64,
    /// Unit vector (x, y) along the arch away from the midline, as seen from the tooth asked for.
    pub distal: [f64; 2],
    /// Unit vector (x, y) out of the arch, square to `distal`.
    pub buccal: [f64; 2],
}

/// Place and size of a tooth on the arch model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToothOutline {
    /// Its place.
    pub position: ToothPosition,
    /// The middle of its share of the curve, with the directions there.
    pub centre: ArchPoint,
    /// The point (x, y) in millimetres where it touches its mesial neighbour.
    pub mesial_contact: [f64; 2],
    /// The point (x, y) in millimetres where it touches its distal neighbour, or would.
    pub distal_contact: [f64; 2],
    /// Its share of the curve in millimetres: the mean crown width times the model's factor.
    pub md_width_mm: f64,
    /// Mean faciolingual width of its crown times the same factor, so that its shape is kept.
    pub fl_width_mm: f64,
}

/// Zero stays positive, so that a mirrored midline reads 0 and not −0.
fn mirrored([x, y]: [f64; 2]) -> [f64; 2] {
    [0.0 - x, y]
}

impl CurvePoint {
    /// As a point of the patient's left half, where onward is distal.
    pub(super) fn on_the_left(self) -> ArchPoint {
        let ([x_mm, y_mm], [dx, dy]) = (self.at, self.onward);
        ArchPoint {
            x_mm,
            y_mm,
            distal: [dx, dy],
            buccal: [dy, 0.0 - dx],
        }
    }
}

impl ArchPoint {
    /// On the patient's other side.
    pub(super) fn mirrored(self) -> Self {
        Self {
            x_mm: 0.0 - self.x_mm,
            y_mm: self.y_mm,
            distal: mirrored(self.distal),
            buccal: mirrored(self.buccal),
        }
    }

    /// With the other way along the curve called distal.
    pub(super) fn turned(self) -> Self {
        let [dx, dy] = self.distal;
        Self {
            distal: [0.0 - dx, 0.0 - dy],
            ..self
        }
    }

    /// Moved out of the arch, square to it.
    pub(super) fn moved_out(self, by_mm: f64) -> Self {
        Self {
            x_mm: self.x_mm + by_mm * self.buccal[0],
            y_mm: self.y_mm + by_mm * self.buccal[1],
            ..self
        }
    }
}

impl ToothOutline {
    /// The same tooth on the patient's other side.
    pub(super) fn mirrored(self) -> Self {
        Self {
            position: self.position.mirrored(),
            centre: self.centre.mirrored(),
            mesial_contact: mirrored(self.mesial_contact),
            distal_contact: mirrored(self.distal_contact),
            ..self
        }
    }
}
