//! Kinds of teeth by position.

use serde::{Deserialize, Serialize};

/// The kind of a tooth and its place within its kind, counted from the midline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ToothClass {
    /// Number 1.
    CentralIncisor,
    /// Number 2.
    LateralIncisor,
    /// Number 3.
    Canine,
    /// Number 4.
    FirstPremolar,
    /// Number 5.
    SecondPremolar,
    /// Number 6.
    FirstMolar,
    /// Number 7.
    SecondMolar,
    /// Number 8, the wisdom tooth.
    ThirdMolar,
}

/// The kind of a tooth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ToothGroup {
    /// Numbers 1 and 2.
    Incisor,
    /// Number 3.
    Canine,
    /// Numbers 4 and 5.
    Premolar,
    /// Numbers 6 to 8.
    Molar,
}

impl ToothClass {
    /// All classes from the midline outwards: the entry at `number - 1` is that number's class.
    pub const ALL: [Self; 8] = [
        Self::CentralIncisor,
        Self::LateralIncisor,
        Self::Canine,
        Self::FirstPremolar,
        Self::SecondPremolar,
        Self::FirstMolar,
        Self::SecondMolar,
        Self::ThirdMolar,
    ];

    /// Incisor, canine, premolar or molar.
    #[must_use]
    pub const fn group(self) -> ToothGroup {
        match self {
            Self::CentralIncisor | Self::LateralIncisor => ToothGroup::Incisor,
            Self::Canine => ToothGroup::Canine,
            Self::FirstPremolar | Self::SecondPremolar => ToothGroup::Premolar,
            Self::FirstMolar | Self::SecondMolar | Self::ThirdMolar => ToothGroup::Molar,
        }
    }

    /// The place within the group from the midline, 1 to 3; a canine is always 1.
    #[must_use]
    pub const fn order(self) -> u8 {
        match self {
            Self::CentralIncisor | Self::Canine | Self::FirstPremolar | Self::FirstMolar => 1,
            Self::LateralIncisor | Self::SecondPremolar | Self::SecondMolar => 2,
            Self::ThirdMolar => 3,
        }
    }

    /// The text id of the class's name, "first premolar".
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::CentralIncisor => "tooth-central-incisor",
            Self::LateralIncisor => "tooth-lateral-incisor",
            Self::Canine => "tooth-canine",
            Self::FirstPremolar => "tooth-first-premolar",
            Self::SecondPremolar => "tooth-second-premolar",
            Self::FirstMolar => "tooth-first-molar",
            Self::SecondMolar => "tooth-second-molar",
            Self::ThirdMolar => "tooth-third-molar",
        }
    }
}
