//! A tooth's place in the permanent dentition.

use super::class::ToothClass;
use super::jaw::{Jaw, Side};
use super::notation::Notation;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};
use std::fmt;
use std::str::FromStr;

/// A place in the permanent dentition by ISO 3950: quadrant 1 to 4, number 1 to 8.
///
/// Quadrants run from the patient's upper right (1) by the upper left (2) and lower left (3) to
/// the lower right (4); numbers count from the midline. The order of the type is that of the two
/// digits. Milk teeth are not supported.
///
/// In JSON it is the text of the two digits, `"46"`, also as the key of a map.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ToothPosition {
    quadrant: u8,
    number: u8,
}

/// A text that names no permanent tooth.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ToothError {
    /// Not two digits of ISO 3950.
    #[error(
        "no permanent tooth in ISO 3950: {0:?}: must be a quadrant 1 to 4 and a number 1 to 8, such as \"46\""
    )]
    Iso(String),
    /// Not a number of the Universal notation.
    #[error("no permanent tooth in the Universal notation: {0:?}: must be 1 to 32")]
    Universal(String),
    /// Not a quadrant's letters and a number.
    #[error(
        "no permanent tooth in quadrant notation: {0:?}: must be UR, UL, LL or LR and a number 1 to 8, such as \"LR6\""
    )]
    Quadrant(String),
}

impl ToothPosition {
    /// The position with this ISO quadrant (1 to 4) and number (1 to 8), if there is one.
    #[must_use]
    pub const fn new(quadrant: u8, number: u8) -> Option<Self> {
        if matches!(quadrant, 1..=4) && matches!(number, 1..=8) {
            Some(Self { quadrant, number })
        } else {
            None
        }
    }

    /// The position in a jaw, on a side, with a class.
    #[must_use]
    pub const fn of(jaw: Jaw, side: Side, class: ToothClass) -> Self {
        let quadrant = match (jaw, side) {
            (Jaw::Upper, Side::Right) => 1,
            (Jaw::Upper, Side::Left) => 2,
            (Jaw::Lower, Side::Left) => 3,
            (Jaw::Lower, Side::Right) => 4,
        };
        Self {
            quadrant,
            number: class as u8 + 1,
        }
    }

    /// All 32 positions in the type's order: 11 to 18, 21 to 28, 31 to 38, 41 to 48.
    pub fn all() -> impl Iterator<Item = Self> {
        (1..=4).flat_map(|quadrant| (1..=8).map(move |number| Self { quadrant, number }))
    }

    /// The 16 positions of a jaw from the patient's right end to the left end, as on a chart.
    pub fn all_of(jaw: Jaw) -> impl Iterator<Item = Self> {
        let half = move |side| {
            ToothClass::ALL
                .into_iter()
                .map(move |class| Self::of(jaw, side, class))
        };
        half(Side::Right).rev().chain(half(Side::Left))
    }

    /// The ISO quadrant, 1 to 4.
    #[must_use]
    pub const fn quadrant(self) -> u8 {
        self.quadrant
    }

    /// The number from the midline, 1 to 8.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.number
    }

    /// Its jaw.
    #[must_use]
    pub const fn jaw(self) -> Jaw {
        if self.quadrant <= 2 {
            Jaw::Upper
        } else {
            Jaw::Lower
        }
    }

    /// Its side of the patient.
    #[must_use]
    pub const fn side(self) -> Side {
        if matches!(self.quadrant, 1 | 4) {
            Side::Right
        } else {
            Side::Left
        }
    }

    /// The kind of tooth at this position.
    #[must_use]
    pub const fn class(self) -> ToothClass {
        ToothClass::ALL[self.number as usize - 1]
    }

    /// The same tooth on the patient's other side, in the same jaw.
    #[must_use]
    pub const fn mirrored(self) -> Self {
        Self::of(self.jaw(), self.side().opposite(), self.class())
    }

    /// The next position along the arch towards the midline; for a central incisor the other
    /// central incisor.
    #[must_use]
    pub const fn mesial_neighbour(self) -> Self {
        if self.number == 1 {
            self.mirrored()
        } else {
            Self {
                quadrant: self.quadrant,
                number: self.number - 1,
            }
        }
    }

    /// The next position along the arch away from the midline; none behind the third molar.
    #[must_use]
    pub const fn distal_neighbour(self) -> Option<Self> {
        Self::new(self.quadrant, self.number + 1)
    }
}

impl fmt::Display for ToothPosition {
    /// The two ISO digits, for paths and keys. What people read is made by [`label()`](super::label()).
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.quadrant, self.number)
    }
}

impl FromStr for ToothPosition {
    type Err = ToothError;
    fn from_str(text: &str) -> Result<Self, ToothError> {
        Notation::Iso.parse(text)
    }
}

impl Serialize for ToothPosition {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for ToothPosition {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = std::borrow::Cow::<'de, str>::deserialize(from)?;
        match text.as_bytes() {
            // A file holds exactly the two digits; spaces are only forgiven where people type.
            [q, n] => Self::new(q.wrapping_sub(b'0'), n.wrapping_sub(b'0')),
            _ => None,
        }
        .ok_or_else(|| D::Error::custom(ToothError::Iso(text.into_owned())))
    }
}

impl schemars::JsonSchema for ToothPosition {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "ToothPosition".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "pattern": "^[1-4][1-8]$", "x-form": "tooth" })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dentition::ToothGroup;
    use std::collections::BTreeMap;

    fn at(iso: &str) -> ToothPosition {
        iso.parse().unwrap()
    }

    #[test]
    fn a_position_knows_its_jaw_side_and_class() {
        for (iso, jaw, side, group, order) in [
            ("11", Jaw::Upper, Side::Right, ToothGroup::Incisor, 1),
            ("22", Jaw::Upper, Side::Left, ToothGroup::Incisor, 2),
            ("33", Jaw::Lower, Side::Left, ToothGroup::Canine, 1),
            ("14", Jaw::Upper, Side::Right, ToothGroup::Premolar, 1),
            ("45", Jaw::Lower, Side::Right, ToothGroup::Premolar, 2),
            ("26", Jaw::Upper, Side::Left, ToothGroup::Molar, 1),
            ("37", Jaw::Lower, Side::Left, ToothGroup::Molar, 2),
            ("48", Jaw::Lower, Side::Right, ToothGroup::Molar, 3),
        ] {
            let p = at(iso);
            assert_eq!((p.jaw(), p.side()), (jaw, side), "{iso}");
            assert_eq!(
                (p.class().group(), p.class().order()),
                (group, order),
                "{iso}"
            );
            assert_eq!(ToothPosition::of(jaw, side, p.class()), p);
        }
    }

    #[test]
    fn neighbours_run_along_the_arch() {
        for (iso, mesial, distal) in [
            ("11", "21", Some("12")),
            ("21", "11", Some("22")),
            ("31", "41", Some("32")),
            ("46", "45", Some("47")),
            ("28", "27", None),
        ] {
            assert_eq!(at(iso).mesial_neighbour(), at(mesial));
            assert_eq!(at(iso).distal_neighbour(), distal.map(at));
        }
        for jaw in Jaw::ALL {
            let arch: Vec<_> = ToothPosition::all_of(jaw).collect();
            assert_eq!(arch.len(), 16);
            for pair in arch.windows(2) {
                let next = match pair[0].side() {
                    Side::Right => pair[0].mesial_neighbour(),
                    Side::Left => pair[0].distal_neighbour().unwrap(),
                };
                assert_eq!(next, pair[1]);
            }
        }
    }

    #[test]
    fn a_jaw_is_listed_as_on_a_chart() {
        let row = |jaw| {
            ToothPosition::all_of(jaw)
                .map(|p| p.to_string())
                .collect::<Vec<_>>()
                .join(" ")
        };
        assert_eq!(
            row(Jaw::Upper),
            "18 17 16 15 14 13 12 11 21 22 23 24 25 26 27 28"
        );
        assert_eq!(
            row(Jaw::Lower),
            "48 47 46 45 44 43 42 41 31 32 33 34 35 36 37 38"
        );
    }

    #[test]
    fn mirroring_keeps_jaw_and_number() {
        for (iso, other) in [("14", "24"), ("26", "16"), ("38", "48"), ("41", "31")] {
            assert_eq!(at(iso).mirrored(), at(other));
        }
        assert!(ToothPosition::all().all(|p| p.mirrored().mirrored() == p && p.mirrored() != p));
    }

    #[test]
    fn json_holds_the_two_digits_also_as_a_key() {
        for p in ToothPosition::all() {
            let json = serde_json::to_string(&p).unwrap();
            assert_eq!(json, format!("\"{p}\""));
            assert_eq!(serde_json::from_str::<ToothPosition>(&json).unwrap(), p);
        }
        let map = BTreeMap::from([(at("46"), 1), (at("11"), 2)]);
        let json = serde_json::to_string(&map).unwrap();
        assert_eq!(json, r#"{"11":2,"46":1}"#);
        assert_eq!(
            serde_json::from_str::<BTreeMap<_, i32>>(&json).unwrap(),
            map
        );
    }

    #[test]
    fn what_is_no_permanent_tooth_is_refused_with_the_reason() {
        for json in [
            "\"19\"", "\"51\"", "\"10\"", "\"01\"", "\"4\"", "\"460\"", "\" 46\"", "\"UR4\"",
            "\"\"", "\"é\"", "\"/1\"",
        ] {
            let error = serde_json::from_str::<ToothPosition>(json)
                .unwrap_err()
                .to_string();
            assert!(
                error.contains("quadrant 1 to 4 and a number 1 to 8"),
                "{json}: {error}"
            );
        }
        assert!(serde_json::from_str::<ToothPosition>("46").is_err());
    }
}
