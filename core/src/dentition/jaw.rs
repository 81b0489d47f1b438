//! The two jaws and the patient's two sides.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One of the two jaws.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[schemars(inline)]
pub enum Jaw {
    /// The maxilla; apical is up, +z.
    Upper,
    /// The mandible; apical is down, −z.
    Lower,
}

impl Jaw {
    /// Both jaws, upper first.
    pub const ALL: [Self; 2] = [Self::Upper, Self::Lower];

    /// The text id of the jaw's full name, "upper jaw".
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::Upper => "jaw-upper",
            Self::Lower => "jaw-lower",
        }
    }

    /// Its name in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        }
    }
}

impl std::fmt::Display for Jaw {
    /// Its name in files. What people read is made from its text.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.key())
    }
}

/// A side of the patient, never of the person who looks at a chart.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[schemars(inline)]
pub enum Side {
    /// The patient's right, −x; on the left of a chart.
    Right,
    /// The patient's left, +x; on the right of a chart.
    Left,
}

impl Side {
    /// Both sides in the order of a chart, the patient's right first.
    pub const ALL: [Self; 2] = [Self::Right, Self::Left];

    /// The other side.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }

    /// The text id of the side's name, "right".
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::Right => "side-right",
            Self::Left => "side-left",
        }
    }

    /// The text id of the letter that marks the side on a chart, "R".
    #[must_use]
    pub const fn letter_id(self) -> &'static str {
        match self {
            Self::Right => "side-letter-right",
            Self::Left => "side-letter-left",
        }
    }
}
