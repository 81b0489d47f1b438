//! Numbers as people read them, on paper and on the screen: decimals, unit, decimal mark and the side
//! to which each kind of number is rounded. A test finds whatever else asks for decimals or writes a
//! unit. Counts are no matter of this room: they go into a text as numbers
//! ([`crate::text::Texts::counted`]).
//!
//! The side is in the name of what rounds, and what rounds gives no text: [`available`],
//! [`available_beside`] and [`from_model`] go down, [`at_most`] and [`at_most_angle`] up, so that
//! nothing reads safer than it is. What writes a length or an angle keeps each digit. Only what no
//! limit is held against is written to the nearest, by [`nearest_degree`] and [`nearest_mm`].

use std::cmp::Ordering;

use crate::measure::{Angle, Length, write_thousandths};

/// Lengths of a margin are shown to this: finer ones come from trigonometry, not from a person.
const MARGIN_GRAIN: Length = Length::from_um(10);

/// An angle that is a greatest one is shown to this.
const ANGLE_GRAIN_MILLIDEG: i32 = 100;

/// Digits of a file as people read them: a minus is the true minus sign, which cannot be taken for a
/// hyphen; the decimal mark is the file's own, which `measure` alone writes.
fn for_people(digits: &str) -> String {
    digits.replace('-', "\u{2212}")
}

/// A length to the last digit, with at least so many decimals and without unit: "5.8".
#[must_use]
pub(crate) fn exact_to(length: Length, places: usize) -> String {
    for_people(&format!("{length:.places$}"))
}

/// A length to the last digit, with at least one decimal and without unit: "5.8".
#[must_use]
pub(crate) fn exact(length: Length) -> String {
    exact_to(length, 1)
}

/// A length to the last digit and with no decimal more than it takes, as files write it and without
/// unit: "24", "24.3", "-0.1". Nothing is rounded.
pub(crate) fn shortest(length: Length) -> String {
    length.to_string()
}

/// The same with its unit: "24 mm".
pub(crate) fn shortest_mm(length: Length) -> String {
    in_mm(&for_people(&shortest(length)))
}

/// A length to the last digit with its unit: "5.8 mm".
#[must_use]
pub fn mm(length: Length) -> String {
    in_mm(&exact(length))
}

/// Millimetres that are written already, with their unit: "24.30 mm".
pub(crate) fn in_mm(number: &str) -> String {
    with_unit(number, "mm")
}

/// A number with its unit, which is empty for a bare number.
pub(crate) fn with_unit(number: &str, unit: &str) -> String {
    match unit {
        "" | "°" => format!("{number}{unit}"),
        _ => format!("{number} {unit}"),
    }
}

/// The side of 0 on which a length lies, as texts choose by it: none of a difference of 0.
pub(crate) fn side(length: Length) -> &'static str {
    match length.cmp(&Length::ZERO) {
        Ordering::Less => "negative",
        Ordering::Equal => "zero",
        Ordering::Greater => "positive",
    }
}

/// A length as part of a sum, with its sign before it: "5.8" or "−5.8" first, then " + 5.8" or
/// " − 5.8".
pub(crate) fn summand(length: Length, is_first: bool) -> String {
    let sign = match (is_first, length < Length::ZERO) {
        (true, false) => "",
        (true, true) => "\u{2212}",
        (false, false) => " + ",
        (false, true) => " \u{2212} ",
    };
    format!("{sign}{}", exact(length.abs()))
}

/// A length that is available, rounded down to a hundredth: what is shown is never more than what
/// is there.
#[must_use]
pub(crate) fn available(length: Length) -> Length {
    length.floor_to(MARGIN_GRAIN)
}

/// A length that is available beside its limit: [`available`], but to the last digit where the
/// limit is finer than that, so that it is not shown on the other side of it.
#[must_use]
pub(crate) fn available_beside(length: Length, limit: Option<Length>) -> Length {
    match limit {
        Some(limit) if available(limit) != limit => length,
        _ => beside(available(length), length, limit),
    }
}

/// A length that is the most that can be left, beside its limit: rounded up to a hundredth, so that what
/// is shown is never less than it can be, but to the last digit where [`available_beside`] is.
#[must_use]
pub(crate) fn bound_beside(length: Length, limit: Option<Length>) -> Length {
    match limit {
        Some(limit) if available(limit) != limit => length,
        _ => beside(length.ceil_to(MARGIN_GRAIN), length, limit),
    }
}

/// A rounded value beside its limit: to the last digit where rounding would show it on the other side,
/// or as the limit itself.
#[must_use]
pub(crate) fn beside<T: PartialOrd + Copy>(rounded: T, value: T, limit: Option<T>) -> T {
    let hides = |limit: T| {
        (rounded < limit && value >= limit)
            || (rounded > limit && value <= limit)
            || (rounded == limit && value != limit)
    };
    if limit.is_some_and(hides) {
        value
    } else {
        rounded
    }
}

/// A length of the arch model, rounded down to a tenth.
#[must_use]
pub(crate) fn from_model(length: Length) -> Length {
    length.floor_to(Length::from_um(100))
}

/// A greatest length, rounded up to a tenth.
#[must_use]
pub(crate) fn at_most(length: Length) -> Length {
    length.ceil_to(Length::from_um(100))
}

/// An angle with its sign of degrees: "32°".
#[must_use]
pub fn degrees(angle: Angle) -> String {
    with_unit(&for_people(&angle.to_string()), "°")
}

/// The whole millimetre nearest to a length on a page: "32 mm".
pub(crate) fn nearest_mm(mm: f64) -> String {
    in_mm(&format!("{mm:.0}"))
}

/// The whole degree nearest to an angle of which only the direction is told: "32°".
pub(crate) fn nearest_degree(degrees: f64) -> String {
    with_unit(&format!("{degrees:.0}"), "°")
}

/// A length as it is typed, without unit: "5.8".
#[must_use]
pub fn typed(length: Length) -> String {
    format!("{length:.1}")
}

/// Seconds from tenths, without unit: "45", "12.5".
#[must_use]
pub fn seconds(tenths: u64) -> String {
    let thousandths = i64::try_from(tenths).map_or(i64::MAX, |tenths| tenths.saturating_mul(100));
    for_people(&write_thousandths(thousandths, 0))
}

/// Seconds from tenths with their unit: "45 s", "12.5 s".
#[must_use]
pub fn seconds_with_unit(tenths: u64) -> String {
    with_unit(&seconds(tenths), "s")
}

/// A greatest angle, rounded up to a tenth of a degree.
#[must_use]
pub(crate) fn at_most_angle(angle: Angle) -> Angle {
    let grain = ANGLE_GRAIN_MILLIDEG;
    Angle::from_millideg(-(-angle.millideg()).div_euclid(grain) * grain)
}

/// A length that is set or read on a gauge, with as many decimals as its graduation takes and at
/// least one: "22.1".
#[must_use]
pub(crate) fn setting(set: Length, graduation: Option<Length>) -> String {
    exact_to(
        set,
        graduation.map_or(1, |graduation| graduation.decimals().max(1)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

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
            assert_eq!(exact_to(available(length(given)), 1), want);
        }
    }

    /// One limit at the grain of a margin, one finer; an angle as well.
    #[test]
    fn beside_its_limit_a_value_is_told_from_it_and_on_its_side() {
        for (value, limit, want) in [
            ("4.142", "4.142", "4.142"),
            ("4.149", "4.142", "4.149"),
            ("4.141", "4.142", "4.141"),
            ("2.004", "2", "2.004"),
            ("2", "2", "2.0"),
            ("1.999", "2", "1.99"),
            ("2.017", "2", "2.01"),
        ] {
            let shown = available_beside(length(value), Some(length(limit)));
            assert_eq!(exact(shown), want, "{value} {limit}");
        }
        for (value, limit, want) in [
            ("40.004", "40.004", "40.004°"),
            ("39.96", "40", "39.96°"),
            ("40.001", "40", "40.1°"),
            ("33.51", "40", "33.6°"),
        ] {
            let [value, limit] = [value, limit].map(|text| Angle::parse_deg(text).unwrap());
            let shown = beside(at_most_angle(value), value, Some(limit));
            assert_eq!(degrees(shown), want);
        }
    }

    #[test]
    fn a_greatest_value_is_never_shown_as_less() {
        assert_eq!(exact_to(at_most(length("0.501")), 1), "0.6");
        assert_eq!(exact_to(at_most(length("0.5")), 1), "0.5");
        for (given, want) in [("40.001", "40.1°"), ("40", "40°"), ("1.433", "1.5°")] {
            let angle = Angle::parse_deg(given).unwrap();
            assert_eq!(degrees(at_most_angle(angle)), want);
        }
    }

    #[test]
    fn decimals_are_counted() {
        for (given, want) in [("1", 0), ("0.5", 1), ("0.25", 2), ("0.125", 3)] {
            assert_eq!(length(given).decimals(), want);
        }
    }

    #[test]
    fn digits_are_as_many_as_asked_for_or_needed() {
        for (given, places, want) in [
            ("22.1", 2, "22.10"),
            ("-0.35", 1, "\u{2212}0.35"),
            ("-0.05", 0, "\u{2212}0.05"),
            ("32", 0, "32"),
            ("0.001", 1, "0.001"),
        ] {
            assert_eq!(exact_to(length(given), places), want);
        }
        assert_eq!(degrees(Angle::parse_deg("3.5").unwrap()), "3.5°");
        for (given, want) in [
            ("24", "24 mm"),
            ("24.30", "24.3 mm"),
            ("-0.1", "\u{2212}0.1 mm"),
        ] {
            assert_eq!(shortest_mm(length(given)), want);
        }
        assert_eq!([32.4, 32.6].map(nearest_degree), ["32°", "33°"]);
        assert_eq!([0, 7, 450, 125].map(seconds), ["0", "0.7", "45", "12.5"]);
        assert_eq!([0, 125].map(seconds_with_unit), ["0 s", "12.5 s"]);
    }

    #[test]
    fn a_margin_is_never_shown_beyond_its_limit() {
        for (value, limit, want) in [
            ("1.999", "2", "1.99"),
            ("2", "2", "2.0"),
            ("-0.301", "2", "\u{2212}0.31"),
            // On the same digits as its limit, it would seem to break it.
            ("1.996", "1.995", "1.996"),
        ] {
            let shown = available_beside(length(value), Some(length(limit)));
            assert_eq!(exact(shown), want);
        }
    }

    /// The length in a text of this room.
    fn read(text: &str) -> Length {
        length(&text.replace('\u{2212}', "-"))
    }

    proptest! {
        #[test]
        fn no_text_lies_on_the_wrong_side_of_its_value(
            um in -300_000_i64..300_000,
            limit in proptest::option::of(0_i64..10_000),
            graduation in 1_i64..1000,
        ) {
            let value = Length::from_um(um);
            let limit = limit.map(Length::from_um);
            for shown in [available(value), available_beside(value, limit), from_model(value)] {
                prop_assert!(shown <= value && value - shown < Length::from_um(100));
                prop_assert_eq!(read(&exact(shown)), shown);
            }
            if let Some(limit) = limit {
                let shown = available_beside(value, Some(limit));
                prop_assert_eq!(shown < limit, value < limit);
            }
            let most = at_most(value);
            prop_assert!(most >= value && most - value < Length::from_um(100));
            prop_assert_eq!(read(&exact(most)), most);
            prop_assert_eq!(read(&exact_to(value, 0)), value);
            prop_assert_eq!(read(&setting(value, Some(Length::from_um(graduation)))), value);
            prop_assert_eq!(read(mm(value).strip_suffix(" mm").unwrap()), value);
        }

        #[test]
        fn no_greatest_angle_is_shown_as_less(millideg in -180_000_i32..=180_000) {
            let angle = Angle::from_millideg(millideg);
            let most = at_most_angle(angle);
            prop_assert!((0..100).contains(&(most.millideg() - millideg)));
            let text = degrees(most).replace('\u{2212}', "-");
            prop_assert_eq!(Angle::parse_deg(text.strip_suffix('°').unwrap()).unwrap(), most);
        }
    }
}
