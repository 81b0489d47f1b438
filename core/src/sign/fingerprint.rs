//! The short name of everything that determines a figure.

use super::canonical::{LeftOut, canonical};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};
use sha2::{Digest as _, Sha256};
use std::fmt;
use std::str::FromStr;

/// Digits and capitals without I, L, O and U, which are mistaken for 1, 1, 0 and V.
const ALPHABET: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// Number of characters that are shown, 5 bits each.
const CHARACTERS: u32 = 12;

/// The first 60 bits of a SHA-256, shown as three groups of four characters: `8RWD 5JTC 0N4K`.
///
/// Short enough to be compared by eye and over the telephone. By chance two given plans share one
/// in 2⁶⁰; it is no protection against somebody who searches for a second plan on purpose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fingerprint(u64);

/// A reason why a text is no fingerprint.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FingerprintError {
    /// Not twelve characters, blanks and hyphens apart.
    #[error("a fingerprint has 12 characters, not {found}")]
    Length {
        /// The number found.
        found: usize,
    },
    /// A character that no fingerprint contains.
    #[error("character {position} of a fingerprint cannot be {found:?}")]
    Character {
        /// The character as it was written.
        found: char,
        /// Counted from 1, blanks and hyphens left out.
        position: usize,
    },
}

impl Fingerprint {
    /// The fingerprint of a value, by its canonical form.
    ///
    /// # Panics
    ///
    /// Panics if the value is none that JSON can hold; see [`Self::without`].
    #[must_use]
    pub fn of<T: Serialize>(value: &T) -> Self {
        Self::without(value, |_, _| false)
    }

    /// The fingerprint of a value without the keys that are left out.
    ///
    /// # Panics
    ///
    /// Panics if the value is none that JSON can hold, which no type of this program is. No name at
    /// all is better than one that all such values share.
    #[must_use]
    pub fn without<T: Serialize>(value: &T, left_out: LeftOut) -> Self {
        Self::of_bytes(&canonical(value, left_out).expect("a value that can be written as JSON"))
    }

    /// The fingerprint of bytes as they are.
    #[must_use]
    pub fn of_bytes(bytes: &[u8]) -> Self {
        let digest = Sha256::digest(bytes);
        let first = digest
            .iter()
            .take(8)
            .fold(0_u64, |n, byte| n << 8 | u64::from(*byte));
        Self(first >> 4)
    }
}

impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for i in 0..CHARACTERS {
            if i > 0 && i % 4 == 0 {
                f.write_str(" ")?;
            }
            let index = self.0 >> (5 * (CHARACTERS - 1 - i)) & 31;
            let character = ALPHABET.get(usize::try_from(index).unwrap_or(0));
            write!(f, "{}", char::from(*character.unwrap_or(&b'0')))?;
        }
        Ok(())
    }
}

impl FromStr for Fingerprint {
    type Err = FingerprintError;

    /// Reads what a person types or says: capitals or not, blanks and hyphens anywhere, O for 0,
    /// I or L for 1.
    fn from_str(text: &str) -> Result<Self, FingerprintError> {
        let written: Vec<char> = text
            .chars()
            .filter(|c| !c.is_whitespace() && *c != '-')
            .collect();
        if written.len() != CHARACTERS as usize {
            let found = written.len();
            return Err(FingerprintError::Length { found });
        }
        let mut bits = 0_u64;
        for (i, &found) in written.iter().enumerate() {
            let read = match found.to_ascii_uppercase() {
                'O' => '0',
                'I' | 'L' => '1',
                other => other,
            };
            let index = (0_u64..)
                .zip(ALPHABET)
                .find(|(_, a)| char::from(**a) == read);
            let (index, _) = index.ok_or(FingerprintError::Character {
                found,
                position: i + 1,
            })?;
            bits = bits << 5 | index;
        }
        Ok(Self(bits))
    }
}

impl Serialize for Fingerprint {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Fingerprint {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(D::Error::custom)
    }
}

impl schemars::JsonSchema for Fingerprint {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Fingerprint".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let group = "[0-9A-HJKMNP-TV-Z]{4}";
        schemars::json_schema!({
            "type": "string",
            "pattern": format!("^{group} {group} {group}$"),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use serde_json::json;

    /// The same bits in the same alphabet by the `data-encoding` crate.
    #[test]
    fn characters_agree_with_a_reference_library() {
        let mut specification = data_encoding::Specification::new();
        specification
            .symbols
            .push_str("0123456789ABCDEFGHJKMNPQRSTVWXYZ");
        let base32 = specification.encoding().unwrap();
        for message in ["", "abc", "traywright", "\u{2300}"] {
            let digest = Sha256::digest(message.as_bytes());
            let shown = Fingerprint::of_bytes(message.as_bytes()).to_string();
            assert_eq!(shown.replace(' ', ""), base32.encode(&digest)[..12]);
        }
        // The example messages of FIPS 180-4; Python's base64.b32encode of their digests, put into this
        // alphabet.
        let long = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
        let examples = [("abc", "Q9W1 DFWF 077Y"), (long, "4J6P MREJ 0RWB")];
        for (message, want) in examples {
            assert_eq!(Fingerprint::of_bytes(message.as_bytes()).to_string(), want);
        }
    }

    #[test]
    fn reads_what_people_write() {
        let want: Fingerprint = "8RWD 5JTC 0N41".parse().unwrap();
        assert_eq!(want.to_string(), "8RWD 5JTC 0N41");
        for text in [
            "8rwd5jtc0n41",
            " 8RWD-5JTC-ON4I ",
            "8RWD 5JTC\u{a0}oN4l",
            "8 R W D 5 J T C 0 N 4 L",
        ] {
            assert_eq!(text.parse(), Ok(want), "{text:?}");
        }
        for (text, error) in [
            ("", FingerprintError::Length { found: 0 }),
            ("8RWD 5JTC 0N4", FingerprintError::Length { found: 11 }),
            ("8RWD 5JTC 0N4KK", FingerprintError::Length { found: 13 }),
            (
                "8RWD 5JTC 0N4u",
                FingerprintError::Character {
                    found: 'u',
                    position: 12,
                },
            ),
            (
                "8RWD.5JTC0N4",
                FingerprintError::Character {
                    found: '.',
                    position: 5,
                },
            ),
            (
                "\u{ff18}RWD5JTC0N4K",
                FingerprintError::Character {
                    found: '\u{ff18}',
                    position: 1,
                },
            ),
        ] {
            assert_eq!(text.parse::<Fingerprint>(), Err(error), "{text:?}");
        }
    }

    #[test]
    fn json_holds_the_grouped_text() {
        let fingerprint = Fingerprint::of(&json!({"a": 6.0}));
        assert_eq!(fingerprint, Fingerprint::of(&json!({"a": 6})));
        assert_ne!(fingerprint, Fingerprint::of(&json!({"a": 6.001})));
        let text = serde_json::to_string(&fingerprint).unwrap();
        assert_eq!(text.len(), 16, "{text}");
        assert_eq!(
            serde_json::from_str::<Fingerprint>(&text).unwrap(),
            fingerprint
        );
        assert!(serde_json::from_str::<Fingerprint>("\"8RWD\"").is_err());
    }

    proptest! {
        #[test]
        fn showing_and_reading_are_inverse(bits in 0..1_u64 << 60) {
            let fingerprint = Fingerprint(bits);
            prop_assert_eq!(fingerprint.to_string().parse(), Ok(fingerprint));
        }
    }
}
