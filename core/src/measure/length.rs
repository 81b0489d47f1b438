//! A length in whole micrometres.

use super::decimal::{DecimalError, parse_thousandths, thousandths_in_json};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Neg, Sub};

/// A length, kept as a whole number of micrometres.
///
/// In JSON it is a number of millimetres with at most three decimals; the key's name ends in
/// `_mm`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

thousandths_in_json!(Length, i64, "a length");

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);

    /// A length of so many micrometres.
    #[must_use]
    pub const fn from_um(um: i64) -> Self {
        Self(um)
    }

    /// A length of so many whole millimetres.
    #[must_use]
    pub const fn from_mm(mm: i64) -> Self {
        Self(mm * 1000)
    }

    /// The length in a text such as `"6.1"` or `"6,1"`, in millimetres.
    ///
    /// # Errors
    ///
    /// Anything that is not a plain decimal number with at most three places.
    pub fn parse_mm(text: &str) -> Result<Self, DecimalError> {
        parse_thousandths(text).map(Self)
    }

    /// Whole micrometres.
    #[must_use]
    pub const fn um(self) -> i64 {
        self.0
    }

    /// Millimetres, for drawing and trigonometry. Never compare the result with a limit.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "entered lengths are far below 2^53 micrometres"
    )]
    pub fn mm(self) -> f64 {
        self.0 as f64 / 1000.0
    }

    /// The largest whole micrometre not above `mm`: what is *available* rounds this way.
    ///
    /// A value that is not finite gives the most negative length, which no limit lets pass.
    #[must_use]
    pub fn floor_mm(mm: f64) -> Self {
        Self::whole(libm::floor(mm * 1000.0), i64::MIN / 4)
    }

    /// The smallest whole micrometre not below `mm`: what is *needed* rounds this way.
    ///
    /// A value that is not finite gives the greatest length, which no room satisfies.
    #[must_use]
    pub fn ceil_mm(mm: f64) -> Self {
        Self::whole(libm::ceil(mm * 1000.0), i64::MAX / 4)
    }

    #[expect(
        clippy::cast_possible_truncation,
        reason = "the value is whole and its size was checked"
    )]
    fn whole(um: f64, otherwise: i64) -> Self {
        if um.is_finite() && um.abs() < 1e15 {
            Self(um as i64)
        } else {
            Self(otherwise)
        }
    }

    /// The largest multiple of `graduation` not above this length.
    ///
    /// # Panics
    ///
    /// Panics if `graduation` is not above zero; a kit with such a gauge is refused on reading.
    #[must_use]
    pub fn floor_to(self, graduation: Self) -> Self {
        assert!(graduation.0 > 0, "a graduation is above zero");
        Self(self.0.div_euclid(graduation.0) * graduation.0)
    }

    /// The smallest multiple of `graduation` not below this length.
    ///
    /// # Panics
    ///
    /// Panics if `graduation` is not above zero; a kit with such a gauge is refused on reading.
    #[must_use]
    pub fn ceil_to(self, graduation: Self) -> Self {
        -(-self).floor_to(graduation)
    }

    /// Half of it, rounded down to the micrometre: the radius that is *available* in a diameter.
    #[must_use]
    pub const fn half_floor(self) -> Self {
        Self(self.0.div_euclid(2))
    }

    /// Half of it, rounded up to the micrometre: the radius that a diameter *takes*.
    #[must_use]
    pub const fn half_ceil(self) -> Self {
        Self(-(-self.0).div_euclid(2))
    }

    /// The size without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// Number of decimals that it takes to write it exactly in millimetres.
    #[must_use]
    pub const fn decimals(self) -> usize {
        match self.0 % 1000 {
            0 => 0,
            um if um % 100 == 0 => 1,
            um if um % 10 == 0 => 2,
            _ => 3,
        }
    }

    /// True if it is another length of the same digits: 243 and 2.43 are 24.3 with the decimal mark
    /// missing or elsewhere.
    #[must_use]
    pub const fn is_shifted(self, other: Self) -> bool {
        self.0 != other.0 && digits(self.0) == digits(other.0)
    }

    /// True if it looks like a slip of the decimal mark of what was measured where `planned` is: with its mark one to
    /// three places elsewhere it is near the plan, and as it stands it is not. 38.7 is 3.87 where 3.85 is planned.
    #[must_use]
    pub fn is_slip_near(self, planned: Self) -> bool {
        // What differs by more is another thing than was planned: 2 mm, of what is small a quarter, so that no figure is near
        // with its mark in two places. Common practice, no source.
        let within = (planned.0 / 4).min(2000);
        if within <= 0 {
            return false;
        }
        let near = |um: i64| (um - planned.0).abs() <= within;
        let moved = |by: i64| near(self.0 / by) || self.0.checked_mul(by).is_some_and(near);
        !near(self.0) && [10, 100, 1000].into_iter().any(moved)
    }
}

/// The significant digits of a whole number.
const fn digits(mut um: i64) -> i64 {
    while um != 0 && um % 10 == 0 {
        um /= 10;
    }
    um
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> Length {
        Length::parse_mm(text).unwrap()
    }

    #[test]
    fn decimal_sums_are_exact_where_binary_fractions_are_not() {
        let sum: Length = ["6.1", "3.5", "0.7", "14.0"].into_iter().map(mm).sum();
        assert_eq!(sum.floor_to(mm("0.1")), mm("24.3"));
        // What goes wrong with doubles, kept here so that nobody simplifies the type away.
        let doubles = std::hint::black_box([6.1_f64, 3.5, 0.7, 14.0]);
        assert!(doubles.iter().sum::<f64>() / 0.1 < 243.0);
    }

    #[test]
    fn floor_to_never_rounds_up_also_below_zero() {
        assert_eq!(mm("-0.05").floor_to(mm("0.1")), mm("-0.1"));
        assert_eq!(mm("14.899").floor_to(mm("0.1")), mm("14.8"));
        assert_eq!(mm("14.899").floor_to(mm("0.5")), mm("14.5"));
        assert_eq!(mm("14.8").ceil_to(mm("0.5")), mm("15"));
    }

    #[test]
    fn halves_round_to_the_safe_side_that_their_name_says() {
        assert_eq!(Length::from_um(3).half_floor(), Length::from_um(1));
        assert_eq!(Length::from_um(3).half_ceil(), Length::from_um(2));
        assert_eq!(Length::from_um(-3).half_floor(), Length::from_um(-2));
    }

    #[test]
    fn a_value_that_is_not_finite_never_passes_a_limit() {
        assert!(Length::floor_mm(f64::NAN) < Length::from_mm(-1_000_000));
        assert!(Length::ceil_mm(f64::INFINITY) > Length::from_mm(1_000_000));
    }

    #[test]
    fn a_slip_of_the_mark_is_near_the_plan_only_where_it_is_moved() {
        for (planned, slipped) in [
            ("3.85", "38.7"),
            ("3.85", "38.5"),
            ("3.85", "0.387"),
            ("3.85", "387"),
            ("3.85", "3870"),
            ("9.05", "90.8"),
            ("9.05", "0.91"),
            ("9.05", "70.6"),
            ("24.3", "2.44"),
        ] {
            assert!(mm(slipped).is_slip_near(mm(planned)), "{slipped}");
        }
        for (planned, measured) in [
            ("3.85", "3.85"),
            ("3.85", "3.87"),
            ("3.85", "2.8"),
            ("3.85", "5"),
            ("3.85", "12"),
            ("9.05", "12"),
            ("9.05", "40"),
            ("9.05", "0"),
            ("9.05", "70.4"),
            ("0", "3"),
            ("-1", "-10"),
        ] {
            assert!(!mm(measured).is_slip_near(mm(planned)), "{measured}");
        }
    }

    #[test]
    fn json_keeps_every_digit() {
        for text in ["0", "6.1", "-0.001", "1999.999"] {
            let length: Length = serde_json::from_str(text).unwrap();
            assert_eq!(serde_json::to_string(&length).unwrap(), text);
        }
        assert!(serde_json::from_str::<Length>("6.1234").is_err());
    }
}
