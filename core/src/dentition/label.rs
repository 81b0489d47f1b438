//! Positions in words.

use super::jaw::Jaw;
use super::notation::Notation;
use super::position::ToothPosition;
use crate::text::Texts;

/// The position in words alone: "upper right first premolar".
#[must_use]
pub fn words(position: ToothPosition, texts: &Texts) -> String {
    let jaw = match position.jaw() {
        Jaw::Upper => "tooth-jaw-upper",
        Jaw::Lower => "tooth-jaw-lower",
    };
    texts.get(
        "tooth-words",
        &[
            ("jaw", &texts.get(jaw, &[])),
            ("side", &texts.get(position.side().text_id(), &[])),
            ("tooth", &texts.get(position.class().text_id(), &[])),
        ],
    )
}

/// The position in words with its number in a notation: "upper right first premolar (14)".
#[must_use]
pub fn label(position: ToothPosition, notation: Notation, texts: &Texts) -> String {
    texts.get(
        "tooth-label",
        &[
            ("words", &words(position, texts)),
            ("number", &notation.show(position)),
        ],
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn a_label_says_it_in_words_and_in_the_chosen_notation() {
        let texts = Texts::english();
        for (iso, notation, want) in [
            ("14", Notation::Iso, "upper right first premolar (14)"),
            ("14", Notation::Universal, "upper right first premolar (5)"),
            ("14", Notation::Quadrant, "upper right first premolar (UR4)"),
            ("46", Notation::Universal, "lower right first molar (30)"),
            ("33", Notation::Quadrant, "lower left canine (LL3)"),
            ("22", Notation::Iso, "upper left lateral incisor (22)"),
        ] {
            assert_eq!(label(iso.parse().unwrap(), notation, texts), want);
        }
    }

    #[test]
    fn no_two_positions_share_their_words() {
        let all: BTreeSet<_> = ToothPosition::all()
            .map(|p| words(p, Texts::english()))
            .collect();
        assert_eq!(all.len(), 32);
        assert!(all.iter().all(|w| !w.contains('⟨')));
    }
}
