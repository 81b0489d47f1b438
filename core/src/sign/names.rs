//! Names of who writes a file and who acts.

use super::message::Message;
use serde::{Deserialize, Serialize};
use std::fmt;
use unicode_normalization::UnicodeNormalization as _;

/// A reason why a text cannot name a writer or a person. Its `Display` is for logs.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NameFault {
    /// Nothing that could be read as a name.
    #[error("a name needs at least one letter or digit")]
    Empty,
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
}

impl NameFault {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Empty => Message::new("sign-name-empty", []),
            Self::Long { found, limit } => {
                Message::new("sign-name-long", [("found", found), ("limit", limit)])
            }
            Self::Character { found } => {
                Message::new("sign-name-character", [("found", &format!("{found:?}"))])
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

impl Who {
    const LIMIT: usize = 80;

    /// A person of this name or these initials.
    ///
    /// # Errors
    ///
    /// No letter or digit, too long, or a control character.
    pub fn new(name: &str) -> Result<Self, NameFault> {
        let name: String = name.trim().nfc().collect();
        checked(&name, Self::LIMIT, |c| !c.is_control())?;
        Ok(Self(name))
    }

    /// The name as it is shown.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// True if two signatures may be one person's: equal once capitals, dots and blanks are left
    /// out and letters that are drawn alike are one, or one is the initials of the other, or has some words of the other as initials. `A. B.`,
    /// `ab`, `A. Berg` and `Anna Berg` are not two people for certain.
    #[must_use]
    pub fn may_be_same(&self, other: &Self) -> bool {
        let (a, b) = (self.letters(), other.letters());
        a == b
            || self.initials() == Some(b)
            || other.initials() == Some(a)
            || self.is_abbreviated(other)
    }

    /// True if both have as many words, several, and each is the other's or its first letter.
    fn is_abbreviated(&self, other: &Self) -> bool {
        let (a, b) = (self.words(), other.words());
        let alike = |(a, b): (&String, &String)| {
            let first = |short: &String, long: &String| {
                short.chars().count() == 1 && long.starts_with(short.as_str())
            };
            a == b || first(a, b) || first(b, a)
        };
        a.len() > 1 && a.len() == b.len() && a.iter().zip(&b).all(alike)
    }

    fn words(&self) -> Vec<String> {
        let words = self.0.split(|c: char| !c.is_alphanumeric());
        let words = words.filter(|word| !word.is_empty());
        words.map(|word| folded(word.chars())).collect()
    }

    fn letters(&self) -> String {
        folded(self.0.chars().filter(|c| is_seen_letter(*c)))
    }

    /// The first letter of each word, where there are several.
    fn initials(&self) -> Option<String> {
        let words = self.0.split(|c: char| !is_seen_letter(c));
        let first: String = words.filter_map(|word| word.chars().next()).collect();
        (first.chars().count() > 1).then(|| folded(first.chars()))
    }
}

/// Letters without regard to capitals, and what is drawn like a letter of the Latin alphabet as that.
fn folded(letters: impl Iterator<Item = char>) -> String {
    letters
        .flat_map(char::to_lowercase)
        .nfc()
        .map(drawn_as)
        .collect()
}

/// The Latin letter whose capital is drawn as that of a letter of another alphabet, or as a digit
/// (`confusables.txt` of Unicode Technical Standard 39), in small letters; else the letter itself.
const fn drawn_as(c: char) -> char {
    match c {
        'а' | 'α' => 'a',
        'в' | 'β' => 'b',
        'с' | 'ϲ' => 'c',
        'е' | 'ε' => 'e',
        'н' | 'η' => 'h',
        'і' | 'ι' | 'ӏ' | '1' => 'i',
        'ј' => 'j',
        'к' | 'κ' => 'k',
        'м' | 'μ' => 'm',
        'ν' => 'n',
        'о' | 'ο' | '0' => 'o',
        'р' | 'ρ' => 'p',
        'ѕ' => 's',
        'т' | 'τ' => 't',
        'υ' | 'ү' => 'y',
        'х' | 'χ' => 'x',
        'ζ' => 'z',
        _ => c,
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
name_schema!(Who, Who::LIMIT, "^\\P{Cc}*[\\p{L}\\p{N}]\\P{Cc}*$");

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
    fn one_person_signs_in_many_ways() {
        let of = |name| Who::new(name).unwrap();
        for (a, b, same) in [
            ("AB", "ab", true),
            ("A. B.", "ab", true),
            (" Ma\u{301}rta K", "m\u{e1}rta k.", true),
            ("AB", "AC", false),
            ("AB", "ABC", false),
            ("Ж К", "жк", true),
            ("Anna Berg", "A. B.", true),
            ("Anna Berg", "Arne Berg", false),
            ("Anna Berg", "A. Berg", true),
            ("Anna Berg", "A. Borg", false),
            ("Anna", "a", false),
            ("Jo Ann-Lee", "jal", true),
            // Cyrillic and Greek capitals, and a nought.
            ("СD", "CD", true),
            ("ΜΚ", "mk", true),
            ("AB0", "ABO", true),
            ("eCD", "CD", false),
            ("AI", "AL", false),
        ] {
            let (a, b) = (Who::new(a).unwrap(), Who::new(b).unwrap());
            assert_eq!(a.may_be_same(&b), same, "{a} {b}");
            assert_eq!(b.may_be_same(&a), same, "{b} {a}");
        }
        assert_eq!(Who::new(" . "), Err(NameFault::Empty));
        assert_eq!(Who::new(" \u{3164}\u{115f} "), Err(NameFault::Empty));
        assert!(of("A B").may_be_same(&of("A B\u{ffa0}")));
        assert_eq!(Who::new("A\nB"), Err(NameFault::Character { found: '\n' }));
    }
}
