//! Names of who writes a file and who acts.

use super::message::Message;
use crate::document::is_unseen;
use crate::drawing::fonts::coverage;
use serde::{Deserialize, Serialize};
use std::fmt;
use unicode_normalization::UnicodeNormalization as _;

/// A reason why a text cannot name a writer or a person. Its `Display` is for logs.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NameFault {
    /// Nothing that could be read as a name.
    #[error("a name needs at least one letter or digit")]
    Empty,
    /// No letter, as in a figure that was typed where initials are asked for.
    #[error("a name needs at least one letter")]
    NoLetter,
    /// A calling and nobody's name.
    #[error("the name of a person is needed, not a calling")]
    Calling,
    /// More than one person.
    #[error("a name of one person is needed")]
    Several,
    /// More characters than the limit.
    #[error("a name of {found} characters is above the limit of {limit}")]
    Long {
        /// The number found.
        found: usize,
        /// The greatest number allowed.
        limit: usize,
    },
    /// A character that has no place in such a name.
    #[error("a name cannot hold {found:?}")]
    Character {
        /// The first such character.
        found: char,
    },
    /// A character that no bundled font can print, such as one that is not seen.
    #[error("no bundled font can print {found:?}")]
    Unprintable {
        /// The first such character.
        found: char,
    },
}

impl NameFault {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Empty => Message::new("sign-name-empty", []),
            Self::NoLetter => Message::new("sign-name-no-letter", []),
            Self::Calling => Message::new("sign-name-calling", []),
            Self::Several => Message::new("sign-name-several", []),
            Self::Long { found, limit } => {
                Message::new("sign-name-long", [("found", found), ("limit", limit)])
            }
            Self::Character { found } => {
                Message::new("sign-name-character", [("found", &format!("{found:?}"))])
            }
            Self::Unprintable { found } => {
                let found = format!("U+{:04X}", u32::from(*found));
                Message::new("sign-name-unprintable", [("found", &found)])
            }
        }
    }
}

/// The desk that writes an event file: 1 to 40 of `a`–`z`, `0`–`9`, `-` and `_`, so that it can be
/// part of a file name on every system.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String")]
pub struct WriterId(String);

impl WriterId {
    const LIMIT: usize = 40;

    /// A writer of this name.
    ///
    /// # Errors
    ///
    /// No letter or digit, too long, or a character outside the set.
    pub fn new(name: &str) -> Result<Self, NameFault> {
        let allowed =
            |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || matches!(c, '-' | '_');
        checked(name, Self::LIMIT, allowed).map(|()| Self(name.to_owned()))
    }

    /// The name.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// A person by name or initials, as they sign on paper: 1 to 80 characters.
///
/// Kept in Unicode normalisation form C without blanks at the ends.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String")]
pub struct Who(String);

/// Digits from which on what was typed is a code and no name with a number (no source).
const DIGITS_OF_A_CODE: usize = 8;

impl Who {
    const LIMIT: usize = 80;

    /// A person of this name or these initials.
    ///
    /// # Errors
    ///
    /// No letter or digit, too long, or a character that is not seen and can show the name as another one.
    pub fn new(name: &str) -> Result<Self, NameFault> {
        let name: String = name.trim().nfc().collect();
        checked(&name, Self::LIMIT, |c| !c.is_control() && !is_unseen(c))?;
        Ok(Self(name))
    }

    /// The same of who signs from now on: what is recorded is to be read on paper.
    ///
    /// # Errors
    ///
    /// As [`Who::new`], a name without a letter, a calling, one of several people, and a character that no bundled font can print.
    pub fn signing(name: &str) -> Result<Self, NameFault> {
        let who = Self::person(name)?;
        match coverage(&who.0) {
            Ok(()) => Ok(who),
            Err(missing) => Err(NameFault::Unprintable {
                found: missing.character,
            }),
        }
    }

    /// True if one person could sign by this name, whatever fonts there are.
    #[must_use]
    pub fn may_sign(name: &str) -> bool {
        Self::person(name).is_ok()
    }

    /// One person of this name.
    fn person(name: &str) -> Result<Self, NameFault> {
        let who = Self::new(name)?;
        let letters: String = who.0.chars().filter(|c| c.is_alphabetic()).collect();
        let digits = who.0.chars().filter(|c| c.is_numeric()).count();
        // A length is no name, nor is what a scanner reads of a label.
        let is_figure = digits > 0 && ["mm", "cm"].contains(&&*letters.to_lowercase())
            || digits >= DIGITS_OF_A_CODE;
        if letters.is_empty() || is_figure {
            return Err(NameFault::NoLetter);
        }
        if who.is_calling() {
            return Err(NameFault::Calling);
        }
        if who.joins_people() {
            return Err(NameFault::Several);
        }
        Ok(who)
    }

    /// The name as it is shown.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// True for a letter or digit that can be seen. Unicode counts four fillers of Hangul among the letters,
/// which are drawn as nothing (`Default_Ignorable_Code_Point` of `DerivedCoreProperties.txt`).
pub(crate) fn is_seen_letter(c: char) -> bool {
    c.is_alphanumeric() && !matches!(c, '\u{115f}' | '\u{1160}' | '\u{3164}' | '\u{ffa0}')
}

fn checked(name: &str, limit: usize, allowed: impl Fn(char) -> bool) -> Result<(), NameFault> {
    let found = name.chars().count();
    if found > limit {
        return Err(NameFault::Long { found, limit });
    }
    if let Some(found) = name.chars().find(|c| !allowed(*c)) {
        return Err(NameFault::Character { found });
    }
    if !name.chars().any(is_seen_letter) {
        return Err(NameFault::Empty);
    }
    Ok(())
}

macro_rules! name_schema {
    ($name:ident, $most:expr, $pattern:literal) => {
        impl schemars::JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({
                    "type": "string",
                    "minLength": 1,
                    "maxLength": $most,
                    "pattern": $pattern,
                })
            }
        }
    };
}
// At least one letter or digit, and none that has no place in it.
name_schema!(WriterId, WriterId::LIMIT, "^[-_]*[0-9a-z][-_0-9a-z]*$");
name_schema!(
    Who,
    Who::LIMIT,
    "^[^\\p{Cc}\\p{Zl}\\p{Zp}\\u061c\\u200e\\u200f\\u202a-\\u202e\\u2066-\\u2069]*[\\p{L}\\p{N}][^\\p{Cc}\\p{Zl}\\p{Zp}\\u061c\\u200e\\u200f\\u202a-\\u202e\\u2066-\\u2069]*$"
);

impl TryFrom<String> for WriterId {
    type Error = NameFault;
    fn try_from(name: String) -> Result<Self, NameFault> {
        Self::new(&name)
    }
}

impl TryFrom<String> for Who {
    type Error = NameFault;
    fn try_from(name: String) -> Result<Self, NameFault> {
        Self::new(&name)
    }
}

impl fmt::Display for WriterId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for Who {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A figure that was typed where initials are asked for is nobody; what is recorded already is read.
    #[test]
    fn who_signs_has_a_letter() {
        for figure in [
            "20.7",
            "21,7",
            "1",
            "20.7 mm",
            "20.7 MM",
            "21.7cm",
            "0104012345678901 10L7A",
        ] {
            assert_eq!(Who::signing(figure), Err(NameFault::NoLetter), "{figure}");
            assert!(Who::new(figure).is_ok(), "{figure}");
        }
        for name in ["KE", "k2", "Å"] {
            assert!(Who::signing(name).is_ok(), "{name}");
        }
    }

    #[test]
    fn a_writer_fits_into_a_file_name() {
        for (name, want) in [
            ("desk-2", Ok(())),
            ("op_room", Ok(())),
            ("", Err(NameFault::Empty)),
            ("-", Err(NameFault::Empty)),
            ("Desk", Err(NameFault::Character { found: 'D' })),
            ("../x", Err(NameFault::Character { found: '.' })),
            ("a/b", Err(NameFault::Character { found: '/' })),
            ("a\0", Err(NameFault::Character { found: '\0' })),
        ] {
            assert_eq!(WriterId::new(name).map(|_| ()), want, "{name:?}");
        }
        let limit = 40;
        assert!(WriterId::new(&"a".repeat(limit)).is_ok());
        let found = limit + 1;
        assert_eq!(
            WriterId::new(&"a".repeat(found)),
            Err(NameFault::Long { found, limit })
        );
    }

    #[test]
    fn a_name_that_no_font_can_print_does_not_sign() {
        // Some of `Default_Ignorable_Code_Point` (`DerivedCoreProperties.txt`), and letters of scripts that no font has.
        for found in [
            '\u{200b}',
            '\u{feff}',
            '\u{ad}',
            '\u{34f}',
            '\u{3164}',
            '\u{e0041}',
            '李',
        ] {
            let refused = Err(NameFault::Unprintable { found });
            assert_eq!(Who::signing(&format!("A{found}B")), refused, "{found:?}");
        }
        for name in ["Łucja Żak", "Ναύπλιο", "Йошкар", "Dr A. Berg"] {
            assert!(Who::signing(name).is_ok(), "{name}");
        }
    }
}
