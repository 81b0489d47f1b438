//! The arguments of a fault's text, each as what it is.

use super::Path;
use super::fault::{MOST_QUOTED, clipped, place_of, quoted};
use crate::number::with_unit;
use std::fmt;

/// An argument of a fault's text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Argument {
    /// An id or another word that is shown as it is, or by which the text chooses its own.
    Text(String),
    /// A text of the document, shown in quotes.
    Quote(String),
    /// A key of the document, or what the text has instead of one.
    Key(String),
    /// A count of things.
    Count(u64),
    /// A number as the document writes it, with its unit, which is empty for a bare number.
    Number(String, &'static str),
    /// A place in the document.
    Place(Path),
    /// Several of them.
    List(Vec<Self>),
}

impl Argument {
    /// A text of the document in quotes; of a long one no more is kept than it takes to show it.
    pub(super) fn quote(text: &str) -> Self {
        Self::Quote(text.chars().take(MOST_QUOTED + 1).collect())
    }

    /// A key of the document.
    pub(super) fn key(key: &str) -> Self {
        Self::Key(key.to_owned())
    }
}

/// As somebody reads it who looks at the file.
impl fmt::Display for Argument {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) | Self::Key(text) => f.write_str(text),
            Self::Quote(text) => f.write_str(&quoted(text)),
            Self::Count(count) => count.fmt(f),
            Self::Number(digits, unit) => f.write_str(&with_unit(&clipped(digits), unit)),
            Self::Place(path) => f.write_str(&place_of(path, &[])),
            Self::List(several) => {
                let several: Vec<String> = several.iter().map(Self::to_string).collect();
                f.write_str(&several.join(", "))
            }
        }
    }
}

impl From<&str> for Argument {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<String> for Argument {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<u64> for Argument {
    fn from(count: u64) -> Self {
        Self::Count(count)
    }
}

impl From<usize> for Argument {
    fn from(count: usize) -> Self {
        Self::Count(u64::try_from(count).unwrap_or(u64::MAX))
    }
}
