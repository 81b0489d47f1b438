//! Numbers as they are written, and the bounds that hold for every number of a unit.

use super::node::{Node, Shape};
use super::{Argument, Fault, Path, Rule, Step};
use crate::measure::Length;

/// The most decimals that a number in a document may have: micrometres, thousandths of a degree.
pub const MOST_DECIMALS: i64 = 3;

/// The bound on numbers of a unit, either side of 0. It catches slips such as metres for
/// millimetres or a lost decimal mark; what a single entry may be is said by its schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound {
    /// The ending of keys with this unit.
    pub suffix: &'static str,
    /// The unit as it is shown, empty for a bare number.
    pub unit: &'static str,
    /// The greatest distance from 0 that is let pass.
    pub most: i64,
}

/// All bounds; the last holds for keys without a unit. Common practice, no source: each is far
/// above what instrument or mouth can have.
const BOUNDS: [Bound; 5] = [
    Bound {
        suffix: "_mm",
        unit: "mm",
        most: 2000,
    },
    Bound {
        suffix: "_deg",
        unit: "°",
        most: 360,
    },
    Bound {
        suffix: "_ncm",
        unit: "N·cm",
        most: 1000,
    },
    Bound {
        suffix: "_rpm",
        unit: "rpm",
        most: 1_000_000,
    },
    Bound {
        suffix: "",
        unit: "",
        most: 1_000_000_000,
    },
];

/// The bound for the number at a place: of the nearest key on the way to it that names a unit, so
/// that lists and maps under such a key have its unit.
#[must_use]
pub fn bound_at(path: &Path) -> Bound {
    let [units @ .., bare] = BOUNDS;
    let of_step = |step: &Step| match step {
        Step::Key(key) => units.iter().find(|bound| key.ends_with(bound.suffix)),
        Step::Item(_) => None,
    };
    let bound = path.steps().iter().rev().find_map(of_step);
    bound.copied().unwrap_or(bare)
}

/// A number as it was written: its text and, exactly, its value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Decimal {
    text: String,
    negative: bool,
    /// The digits without leading and trailing zeros, as many as matter.
    digits: String,
    /// Value = 0.`digits` · 10^`point`.
    point: i64,
}

impl Decimal {
    /// A number in the form that JSON has; the caller has checked that it is one.
    pub(super) fn new(text: &str) -> Self {
        let (negative, rest) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text),
        };
        let (mantissa, exponent) = rest.split_once(['e', 'E']).unwrap_or((rest, "0"));
        let (whole, fraction) = mantissa.split_once('.').unwrap_or((mantissa, ""));
        let all = format!("{whole}{fraction}");
        let digits = all.trim_start_matches('0');
        let leading = all.len() - digits.len();
        let length = |s: &str| i64::try_from(s.len()).unwrap_or(i64::MAX / 4);
        let point = saturating_exponent(exponent) + length(whole)
            - i64::try_from(leading).unwrap_or(i64::MAX / 4);
        Self {
            text: text.to_owned(),
            negative,
            digits: digits.trim_end_matches('0').to_owned(),
            point,
        }
    }

    /// The number as it was written.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    fn is_zero(&self) -> bool {
        self.digits.is_empty()
    }

    /// Decimals that are not zeros at the end.
    fn decimals(&self) -> i64 {
        let digits = i64::try_from(self.digits.len()).unwrap_or(i64::MAX / 4);
        if self.is_zero() {
            0
        } else {
            (digits - self.point).max(0)
        }
    }

    /// True if it is farther than `most` from 0.
    fn is_beyond(&self, most: i64) -> bool {
        !self.is_zero() && (self.point > 12 || self.magnitude_up() > most * 1000)
    }

    /// Thousandths of the size, cut. Only for numbers below 10^12.
    fn magnitude(&self) -> i64 {
        let places = self.point + MOST_DECIMALS;
        let digits = self.digits.bytes().map(|b| i64::from(b - b'0'));
        let places = usize::try_from(places.clamp(0, 16)).unwrap_or_default();
        digits
            .chain(std::iter::repeat(0))
            .take(places)
            .fold(0, |n, digit| n * 10 + digit)
    }

    /// Thousandths of the size, rounded up.
    fn magnitude_up(&self) -> i64 {
        self.magnitude() + i64::from(self.decimals() > MOST_DECIMALS)
    }

    /// Thousandths with sign; cut to three decimals and to the bound of a bare number.
    fn thousandths(&self) -> i64 {
        let [.., bare] = BOUNDS;
        let most = bare.most * 1000;
        let size = if self.is_beyond(bare.most) {
            most
        } else {
            self.magnitude()
        };
        if self.negative { -size } else { size }
    }

    /// The number that can be kept in place of this one.
    pub(super) fn kept(&self) -> serde_json::Number {
        let thousandths = self.thousandths();
        if thousandths % 1000 == 0 {
            return (thousandths / 1000).into();
        }
        #[expect(
            clippy::cast_precision_loss,
            reason = "at most 10^12, so exact, and the quotient is the nearest double"
        )]
        let value = thousandths as f64 / 1000.0;
        serde_json::Number::from_f64(value).unwrap_or_else(|| 0.into())
    }

    /// The same, as the shortest text.
    fn kept_text(&self) -> String {
        Length::from_um(self.thousandths()).to_string()
    }
}

/// The exponent of a number, stopped where it no longer matters.
fn saturating_exponent(text: &str) -> i64 {
    const MOST: i64 = 1_000_000_000;
    let (negative, digits) = match text.strip_prefix('-') {
        Some(digits) => (true, digits),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let size = digits
        .bytes()
        .fold(0, |n: i64, b| (n * 10 + i64::from(b - b'0')).min(MOST));
    if negative { -size } else { size }
}

/// Faults of all numbers in a document.
pub(super) fn check(node: &Node, path: &Path, faults: &mut Vec<Fault>) {
    match &node.shape {
        Shape::Number(decimal) => check_one(decimal, path, faults),
        Shape::List(items) => {
            for (index, item) in items.iter().enumerate() {
                check(item, &path.item(index), faults);
            }
        }
        Shape::Object(members) => {
            for member in members {
                check(&member.node, &path.key(&member.key), faults);
            }
        }
        Shape::Null | Shape::Bool(_) | Shape::Text(_) => {}
    }
}

fn check_one(decimal: &Decimal, path: &Path, faults: &mut Vec<Fault>) {
    let bound = bound_at(path);
    let fault = |rule| {
        let value = decimal.text().to_owned();
        Fault::new(path.clone(), rule).with("value", Argument::Number(value, bound.unit))
    };
    if decimal.negative && decimal.is_zero() {
        faults.push(fault(Rule::MinusZero));
    } else if decimal.is_beyond(bound.most) {
        let limit = Argument::Number(bound.most.to_string(), bound.unit);
        faults.push(fault(Rule::BeyondAllBounds).with("limit", limit));
    } else if decimal.decimals() > MOST_DECIMALS {
        let limit = fault(Rule::TooManyDecimals)
            .with("limit", Argument::Number(MOST_DECIMALS.to_string(), ""));
        faults.push(limit.with("instead", Argument::Number(decimal.kept_text(), "")));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::with_unit;

    #[test]
    fn a_number_is_kept_to_the_last_digit_or_known_not_to_be() {
        for (text, decimals, kept) in [
            ("0", 0, "0"),
            ("-0.0", 0, "0"),
            ("6.1", 1, "6.1"),
            ("6.1000000000000000000000", 1, "6.1"),
            ("6.1000000000000000000001", 22, "6.1"),
            ("1e1", 0, "10"),
            ("12.5E-1", 2, "1.25"),
            ("0.0001", 4, "0"),
            ("-0.0019", 4, "-0.001"),
            ("1e-999999999999999999999", 1_000_000_000, "0"),
            ("1e999999999999999999999", 0, "1000000000"),
            ("-123456789012345678901234567890", 0, "-1000000000"),
        ] {
            let decimal = Decimal::new(text);
            assert_eq!(decimal.decimals(), decimals, "{text}");
            assert_eq!(decimal.kept_text(), kept, "{text}");
            assert_eq!(decimal.kept().to_string(), kept, "{text}");
        }
    }

    #[test]
    fn the_bound_itself_passes_and_the_least_above_it_does_not() {
        for (text, beyond) in [
            ("2000", false),
            ("2000.000", false),
            ("2000.001", true),
            ("2000.0000001", true),
            ("-2000.1", true),
            ("2e3", false),
            ("1e400", true),
        ] {
            assert_eq!(Decimal::new(text).is_beyond(2000), beyond, "{text}");
        }
    }

    #[test]
    fn a_unit_is_told_by_the_end_of_the_nearest_key_that_has_one() {
        let bound = |keys: &[&str]| bound_at(&keys.iter().fold(Path::root(), |p, k| p.key(*k)));
        let shown = |keys, number| with_unit(number, bound(keys).unit);
        assert_eq!(shown(&["length_mm"], "0.5"), "0.5 mm");
        assert_eq!(bound(&["limits_mm", "canal"]).most, 2000);
        assert_eq!(shown(&["limits_mm", "tilt_deg"], "-3"), "-3°");
        assert_eq!(shown(&["mm", "uses"], "3"), "3");
        assert_eq!(bound_at(&Path::root().key("marks_mm").item(2)).unit, "mm");
    }
}
