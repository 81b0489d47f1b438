//! An angle in whole thousandths of a degree.

use super::decimal::{DecimalError, parse_thousandths, thousandths_in_json};
use std::ops::Neg;

/// An angle, kept as a whole number of thousandths of a degree.
///
/// In JSON it is a number of degrees with at most three decimals; the key's name ends in `_deg`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Angle(i32);

thousandths_in_json!(Angle, i32, "an angle");

impl Angle {
    /// No angle at all.
    pub const ZERO: Self = Self(0);

    /// An angle of so many thousandths of a degree.
    #[must_use]
    pub const fn from_millideg(millideg: i32) -> Self {
        Self(millideg)
    }

    /// An angle of so many whole degrees.
    #[must_use]
    pub const fn from_deg(deg: i32) -> Self {
        Self(deg * 1000)
    }

    /// The angle in a text such as `"32"` or `"0,5"`, in degrees.
    ///
    /// # Errors
    ///
    /// Anything that is not a plain decimal number with at most three places, or beyond ±2147°·10³.
    pub fn parse_deg(text: &str) -> Result<Self, DecimalError> {
        let n = parse_thousandths(text)?;
        i32::try_from(n)
            .map(Self)
            .map_err(|_| DecimalError::TooLarge)
    }

    /// The smallest thousandth of a degree not below an angle in radians.
    #[must_use]
    pub fn ceil_radians(radians: f64) -> Self {
        Self::whole(libm::ceil(radians.to_degrees() * 1000.0))
    }

    #[expect(
        clippy::cast_possible_truncation,
        reason = "the cast saturates, and no angle of this program comes near the limit"
    )]
    fn whole(millideg: f64) -> Self {
        Self(millideg as i32)
    }

    /// Whole thousandths of a degree.
    #[must_use]
    pub const fn millideg(self) -> i32 {
        self.0
    }

    /// Radians, for trigonometry.
    #[must_use]
    pub fn radians(self) -> f64 {
        (f64::from(self.0) / 1000.0).to_radians()
    }

    /// The size without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }
}

impl Neg for Angle {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
