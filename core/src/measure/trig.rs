//! Trigonometry on exact lengths, rounded to the micrometre in the safe direction.
//!
//! The functions of `libm` are used in place of the platform's, so that every machine computes the
//! same bits.

use super::{Angle, Length};

/// Length of a drill's cone: h = d / (2·tan(A/2)), rounded down to the micrometre.
///
/// It is added to a setting, so rounding down never cuts deeper.
#[must_use]
pub fn point_length(diameter: Length, point: Angle) -> Length {
    Length::floor_mm(diameter.mm() / (2.0 * libm::tan(point.radians() / 2.0)))
}

/// The tilt of an axis given by two slopes across it: atan √(tan² a + tan² b).
#[must_use]
pub fn tilt_radians(a: Angle, b: Angle) -> f64 {
    libm::atan(libm::hypot(libm::tan(a.radians()), libm::tan(b.radians())))
}
