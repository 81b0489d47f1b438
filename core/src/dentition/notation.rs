//! Three ways to write a tooth's position.

use super::jaw::{Jaw, Side};
use super::position::{ToothError, ToothPosition};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A way to write a tooth's position for people.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[schemars(inline)]
pub enum Notation {
    /// ISO 3950: quadrant 1 to 4, then number 1 to 8: `46`.
    Iso,
    /// Universal: 1 to 32, from the upper right third molar over to the upper left one, then from
    /// the lower left third molar back to the lower right one: `30`.
    Universal,
    /// The quadrant's two letters and the number from the midline: `LR6`.
    ///
    /// Letters take the place of the corner signs ┘└┐┌: those differ by a mirror image only, and
    /// nobody can type them.
    Quadrant,
}

impl Notation {
    /// All notations.
    pub const ALL: [Self; 3] = [Self::Iso, Self::Universal, Self::Quadrant];

    /// The position written in this notation. Without words beside it the result is ambiguous:
    /// see [`label()`](super::label()).
    #[must_use]
    pub fn show(self, position: ToothPosition) -> String {
        match self {
            Self::Iso => position.to_string(),
            Self::Universal => universal_number(position).to_string(),
            Self::Quadrant => format!("{}{}", letters(position), position.number()),
        }
    }

    /// The position that a person wrote in this notation; spaces around it and small letters are
    /// forgiven.
    ///
    /// # Errors
    ///
    /// A text that names no permanent tooth in this notation.
    pub fn parse(self, text: &str) -> Result<ToothPosition, ToothError> {
        let written = text.trim();
        ToothPosition::all()
            .find(|&position| self.show(position).eq_ignore_ascii_case(written))
            .ok_or_else(|| match self {
                Self::Iso => ToothError::Iso(text.to_owned()),
                Self::Universal => ToothError::Universal(text.to_owned()),
                Self::Quadrant => ToothError::Quadrant(text.to_owned()),
            })
    }

    /// The text id of the notation's name.
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::Iso => "notation-iso",
            Self::Universal => "notation-universal",
            Self::Quadrant => "notation-quadrant",
        }
    }
}

/// Counted clockwise as the clinician faces the patient, from the upper right third molar.
const fn universal_number(position: ToothPosition) -> u8 {
    let p = position.number();
    match (position.jaw(), position.side()) {
        (Jaw::Upper, Side::Right) => 9 - p,
        (Jaw::Upper, Side::Left) => 8 + p,
        (Jaw::Lower, Side::Left) => 25 - p,
        (Jaw::Lower, Side::Right) => 24 + p,
    }
}

const fn letters(position: ToothPosition) -> &'static str {
    match (position.jaw(), position.side()) {
        (Jaw::Upper, Side::Right) => "UR",
        (Jaw::Upper, Side::Left) => "UL",
        (Jaw::Lower, Side::Left) => "LL",
        (Jaw::Lower, Side::Right) => "LR",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_notation_reads_back_what_it_writes() {
        for notation in Notation::ALL {
            for position in ToothPosition::all() {
                assert_eq!(notation.parse(&notation.show(position)), Ok(position));
            }
        }
    }

    #[test]
    fn people_may_type_spaces_and_small_letters() {
        let lower_right_six = ToothPosition::new(4, 6).unwrap();
        for (notation, text) in [
            (Notation::Iso, " 46 "),
            (Notation::Universal, "30\n"),
            (Notation::Quadrant, "lr6"),
        ] {
            assert_eq!(notation.parse(text), Ok(lower_right_six));
        }
    }

    #[test]
    fn what_names_no_tooth_is_refused_in_the_words_of_its_notation() {
        for (notation, texts, says) in [
            (
                Notation::Iso,
                &["", "19", "55", "4 6", "UR4", "4６"][..],
                "ISO 3950",
            ),
            (
                Notation::Universal,
                &["0", "33", "-1", "+5", "1.0", "05"][..],
                "1 to 32",
            ),
            (
                Notation::Quadrant,
                &["UR9", "UR0", "RU4", "4", "UR"][..],
                "UR, UL, LL or LR",
            ),
        ] {
            for text in texts {
                let error = notation.parse(text).unwrap_err().to_string();
                assert!(
                    error.contains(says) && error.contains(&format!("{text:?}")),
                    "{error}"
                );
            }
        }
    }
}
