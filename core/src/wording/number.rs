//! Lengths and angles as people read them.

use crate::measure::{Angle, Length};

/// Lengths of a margin are shown to this: finer ones come from trigonometry, not from a person.
const MARGIN_GRAIN: Length = Length::from_um(10);

/// An angle that is a greatest one is shown to this.
const ANGLE_GRAIN_MILLIDEG: i32 = 100;

/// A length to the last digit, with at least so many decimals and without unit: "5.8".
///
/// A minus is the true minus sign, which cannot be taken for a hyphen.
#[must_use]
pub(super) fn bare(length: Length, places: usize) -> String {
    format!("{length:.places$}").replace('-', "\u{2212}")
}

/// A length to the last digit with its unit: "5.8 mm".
#[must_use]
pub fn mm(length: Length) -> String {
    format!("{} mm", bare(length, 1))
}

/// A length that is available, rounded down to a hundredth: what is shown is never more than what
/// is there.
#[must_use]
pub(super) fn available(length: Length) -> Length {
    length.floor_to(MARGIN_GRAIN)
}

/// A length of the arch model, rounded down to a tenth.
#[must_use]
pub(super) fn from_model(length: Length) -> Length {
    length.floor_to(Length::from_um(100))
}

/// A greatest length, rounded up to a tenth.
#[must_use]
pub(super) fn at_most(length: Length) -> Length {
    length.ceil_to(Length::from_um(100))
}

/// An angle with its sign of degrees: "32°".
#[must_use]
pub fn degrees(angle: Angle) -> String {
    format!("{angle}°").replace('-', "\u{2212}")
}

/// A greatest angle, rounded up to a tenth of a degree.
#[must_use]
pub(super) fn at_most_angle(angle: Angle) -> Angle {
    let grain = ANGLE_GRAIN_MILLIDEG;
    Angle::from_millideg(-(-angle.millideg()).div_euclid(grain) * grain)
}

/// Number of decimals that a length needs to be written exactly.
#[must_use]
pub(super) fn places(length: Length) -> usize {
    match length.um().unsigned_abs() {
        um if um % 1000 == 0 => 0,
        um if um % 100 == 0 => 1,
        um if um % 10 == 0 => 2,
        _ => 3,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(text: &str) -> Length {
        Length::parse_mm(text).unwrap()
    }

    #[test]
    fn lengths_carry_their_unit_and_at_least_one_decimal() {
        for (given, want) in [
            ("5", "5.0 mm"),
            ("5.85", "5.85 mm"),
            ("4.849", "4.849 mm"),
            ("-0.3", "\u{2212}0.3 mm"),
            ("0", "0.0 mm"),
        ] {
            assert_eq!(mm(length(given)), want);
        }
    }

    #[test]
    fn what_is_available_is_never_shown_as_more() {
        for (given, want) in [
            ("1.999", "1.99"),
            ("2", "2.0"),
            ("2.001", "2.0"),
            ("-0.304", "\u{2212}0.31"),
        ] {
            assert_eq!(bare(available(length(given)), 1), want);
        }
    }

    #[test]
    fn a_greatest_value_is_never_shown_as_less() {
        assert_eq!(bare(at_most(length("0.501")), 1), "0.6");
        assert_eq!(bare(at_most(length("0.5")), 1), "0.5");
        for (given, want) in [("40.001", "40.1°"), ("40", "40°"), ("1.433", "1.5°")] {
            let angle = Angle::parse_deg(given).unwrap();
            assert_eq!(degrees(at_most_angle(angle)), want);
        }
    }

    #[test]
    fn decimals_are_counted() {
        for (given, want) in [("1", 0), ("0.5", 1), ("0.25", 2), ("0.125", 3)] {
            assert_eq!(places(length(given)), want);
        }
    }
}
