//! Decimal numbers of at most three places, read and written without a rounding step.

use std::fmt::Write as _;

/// A reason why a text is not a number that can be kept exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum DecimalError {
    /// The text is no finite decimal number.
    #[error("not a number")]
    NotANumber,
    /// More than three digits after the decimal mark.
    #[error("more than three decimals")]
    TooManyDecimals,
    /// Too large to be kept at all.
    #[error("too large")]
    TooLarge,
}

/// Thousandths in a decimal text: `"6.1"` and `"6,1"` give 6100.
///
/// A comma counts as the decimal mark. Spaces around the number are ignored, an exponent is not
/// understood.
///
/// # Errors
///
/// Anything that is not a plain decimal number with at most three places.
pub fn parse_thousandths(text: &str) -> Result<i64, DecimalError> {
    let text = text.trim();
    let (negative, digits) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, fraction) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
    let plain = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if (whole.is_empty() && fraction.is_empty()) || !plain(whole) || !plain(fraction) {
        return Err(DecimalError::NotANumber);
    }
    let fraction = fraction.trim_end_matches('0');
    if fraction.len() > 3 {
        return Err(DecimalError::TooManyDecimals);
    }
    let whole = whole.trim_start_matches('0');
    if whole.len() > 12 {
        return Err(DecimalError::TooLarge);
    }
    let value = |s: &str| s.bytes().fold(0_i64, |n, b| n * 10 + i64::from(b - b'0'));
    let scale = [1000, 100, 10, 1][fraction.len()];
    let magnitude = value(whole) * 1000 + value(fraction) * scale;
    Ok(if negative { -magnitude } else { magnitude })
}

/// A whole number of thousandths as the shortest decimal text with at least `places` places.
pub(crate) fn write_thousandths(thousandths: i64, places: usize) -> String {
    let magnitude = thousandths.unsigned_abs();
    let fraction = format!("{:03}", magnitude % 1000);
    let keep = fraction.trim_end_matches('0').len().max(places.min(3));
    let mut text = String::new();
    if thousandths < 0 {
        text.push('-');
    }
    let _ = write!(text, "{}", magnitude / 1000);
    if keep > 0 {
        text.push('.');
        text.push_str(&fraction[..keep]);
    }
    text
}

/// Thousandths in a JSON number, by way of its shortest decimal text.
pub(super) fn from_f64(value: f64) -> Result<i64, DecimalError> {
    if !value.is_finite() {
        return Err(DecimalError::NotANumber);
    }
    if value.abs() > 1e9 {
        return Err(DecimalError::TooLarge);
    }
    parse_thousandths(&format!("{value}"))
}

/// Implements what every quantity kept in thousandths has in common: JSON in and out, its schema
/// and its text.
macro_rules! thousandths_in_json {
    ($name:ident, $repr:ty, $expecting:literal) => {
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                let n = i64::from(self.0);
                if n % 1000 == 0 {
                    to.serialize_i64(n / 1000)
                } else {
                    #[expect(
                        clippy::cast_precision_loss,
                        reason = "entered values are far below 2^53 thousandths, so the quotient is the nearest double"
                    )]
                    to.serialize_f64(n as f64 / 1000.0)
                }
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let value = f64::deserialize(from)?;
                let n = super::decimal::from_f64(value).map_err(serde::de::Error::custom)?;
                <$repr>::try_from(n)
                    .map(Self)
                    .map_err(|_| serde::de::Error::custom(concat!($expecting, " is too large")))
            }
        }

        impl schemars::JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "number" })
            }
        }

        impl std::fmt::Display for $name {
            /// The shortest decimal; a precision asks for at least that many places.
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                let places = f.precision().unwrap_or(0);
                f.write_str(&super::decimal::write_thousandths(i64::from(self.0), places))
            }
        }
    };
}
pub(super) use thousandths_in_json;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_people_type() {
        for (text, want) in [
            ("6.1", Ok(6100)),
            ("6,1", Ok(6100)),
            (" -0.250 ", Ok(-250)),
            ("\u{2212}2", Ok(-2000)),
            (".5", Ok(500)),
            ("7.", Ok(7000)),
            ("1.0000", Ok(1000)),
            ("1.2345", Err(DecimalError::TooManyDecimals)),
            ("", Err(DecimalError::NotANumber)),
            (".", Err(DecimalError::NotANumber)),
            ("NaN", Err(DecimalError::NotANumber)),
            ("1e3", Err(DecimalError::NotANumber)),
            ("1.2.3", Err(DecimalError::NotANumber)),
            ("9999999999999", Err(DecimalError::TooLarge)),
        ] {
            assert_eq!(parse_thousandths(text), want, "{text:?}");
        }
    }

    #[test]
    fn writes_the_shortest_text() {
        for (n, places, want) in [
            (24_300, 0, "24.3"),
            (24_000, 1, "24.0"),
            (-50, 0, "-0.05"),
            (0, 0, "0"),
            (4_849, 1, "4.849"),
        ] {
            assert_eq!(write_thousandths(n, places), want);
        }
    }
}
