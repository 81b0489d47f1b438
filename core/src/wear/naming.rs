//! Which mark may name a drill as a piece of the stock.

use super::count::{Day, NamedFor};
use crate::document::is_unseen;
use crate::drawing::fonts::coverage;
use crate::kit::{Kit, Label, mark_key};
use crate::sign::{DrillKey, Merged, NameFault, PieceNamed, Purpose, drawn_as, is_seen_letter};

/// Why a mark cannot name a drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MarkFault {
    /// It cannot be read as one.
    Text(NameFault),
    /// It holds a letter of another alphabet that is drawn as a Latin one: it would be another piece that looks the same.
    Alike {
        /// The first such letter.
        found: char,
    },
    /// The kit lists pieces of the drill, and none with this mark.
    NotListed {
        /// The marks that it lists.
        listed: Vec<Label>,
    },
    /// Another drill of the same sitting is named so, and one piece lies in one place.
    Taken(DrillKey),
}

/// Holds a mark against how marks are read, what the kit lists and what else the sitting has. Without a kit, or where it lists
/// no piece of the drill, any mark is one.
///
/// # Errors
///
/// What speaks against it.
pub fn check_mark(
    (events, purpose): (&Merged, Purpose),
    kit: Option<&Kit>,
    (drill, mark): (&DrillKey, &str),
    of: NamedFor,
) -> Result<(), MarkFault> {
    is_readable(mark)?;
    let of_drill = kit.and_then(|kit| kit.wear.of(&drill.drill));
    if let Some(of_drill) = of_drill.filter(|one| !one.pieces.is_empty())
        && of_drill.piece(mark).is_none()
    {
        let listed = of_drill.pieces.iter().map(|piece| piece.mark.clone());
        return Err(MarkFault::NotListed {
            listed: listed.collect(),
        });
    }
    let timed = events.timed();
    let day = Day::of(&timed, purpose);
    match day.other_with(drill, &mark_key(mark), of) {
        Some(other) => Err(MarkFault::Taken(other)),
        None => Ok(()),
    }
}

fn is_readable(mark: &str) -> Result<(), MarkFault> {
    let refused = |fault| Err(MarkFault::Text(fault));
    let (found, limit) = (mark.chars().count(), PieceNamed::MARK);
    if found > limit {
        return refused(NameFault::Long { found, limit });
    }
    if let Some(found) = mark.chars().find(|c| c.is_control() || is_unseen(*c)) {
        return refused(NameFault::Character { found });
    }
    if let Err(missing) = coverage(mark) {
        let found = missing.character;
        return refused(NameFault::Unprintable { found });
    }
    if !mark.chars().any(is_seen_letter) {
        return refused(NameFault::Empty);
    }
    let is_alike = |c: &char| {
        let mut small = c.to_lowercase();
        !c.is_ascii() && small.any(|small| !small.is_ascii() && drawn_as(small).is_ascii())
    };
    match mark.chars().find(is_alike) {
        Some(found) => Err(MarkFault::Alike { found }),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::{DrillWear, StockPiece};
    use crate::samples::demo_kit;
    use crate::sign::EventKind;
    use crate::wear::tests::{Desks, PATIENT, begun, key, named};

    fn check(desks: &Desks, kit: Option<&Kit>, copy: u32, mark: &str) -> Result<(), MarkFault> {
        let events = (&desks.events, PATIENT);
        check_mark(events, kit, (&key("wren", copy), mark), NamedFor::Last)
    }

    #[test]
    fn one_mark_is_one_drill_of_a_sitting() {
        let (one, other) = (key("wren", 1), key("wren", 2));
        let mut desks = Desks::new("T-1");
        desks.all([begun(false)]);
        let sitting = desks.events.in_order()[0].id();
        let naming = EventKind::PieceNamed(named(&one, Some("A 3"), Some(sitting.clone())));
        desks.all([naming]);
        assert_eq!(check(&desks, None, 1, "a3"), Ok(()), "it is the same drill");
        assert_eq!(check(&desks, None, 2, "A4"), Ok(()));
        assert_eq!(
            check(&desks, None, 2, "a3"),
            Err(MarkFault::Taken(one.clone()))
        );
        let next = check_mark(
            (&desks.events, PATIENT),
            None,
            (&other, "A3"),
            NamedFor::Next,
        );
        assert_eq!(next, Ok(()), "it is sterile again by then");
        let unknown = EventKind::PieceNamed(named(&one, None, Some(sitting)));
        desks.all([unknown]);
        assert_eq!(
            check(&desks, None, 2, "A3"),
            Ok(()),
            "nobody says any more that it is no. 1"
        );
    }

    #[test]
    fn a_mark_is_one_that_the_kit_lists() {
        let mut kit = demo_kit();
        let piece = |mark: &str| StockPiece {
            mark: mark.into(),
            before: None,
        };
        let mut wren = DrillWear {
            drill: "wren".into(),
            limit: None,
            pieces: vec![piece("A1"), piece("A2")],
        };
        let desks = Desks::new("T-1");
        kit.wear.drills = vec![wren.clone()];
        assert_eq!(check(&desks, Some(&kit), 1, "a 1"), Ok(()));
        let listed = vec!["A1".into(), "A2".into()];
        assert_eq!(
            check(&desks, Some(&kit), 1, "A-1"),
            Err(MarkFault::NotListed { listed })
        );
        wren.pieces.clear();
        kit.wear.drills = vec![wren];
        assert_eq!(check(&desks, Some(&kit), 1, "A-1"), Ok(()), "it lists none");
    }

    #[test]
    fn a_mark_that_looks_like_another_one_is_none() {
        let desks = Desks::new("T-1");
        for (mark, want) in [
            ("", MarkFault::Text(NameFault::Empty)),
            (" ", MarkFault::Text(NameFault::Empty)),
            (
                "A\u{200b}1",
                MarkFault::Text(NameFault::Unprintable { found: '\u{200b}' }),
            ),
            (
                "A\u{202e}1",
                MarkFault::Text(NameFault::Character { found: '\u{202e}' }),
            ),
            // Cyrillic and Greek.
            ("\u{410}1", MarkFault::Alike { found: '\u{410}' }),
            ("B\u{39f}", MarkFault::Alike { found: '\u{39f}' }),
            ("A1 \u{456}", MarkFault::Alike { found: '\u{456}' }),
        ] {
            assert_eq!(check(&desks, None, 1, mark), Err(want), "{mark:?}");
        }
        for mark in ["A1", "12", "Ø 3", "no. 7/b", "Ж2", "Grün"] {
            assert_eq!(check(&desks, None, 1, mark), Ok(()), "{mark}");
        }
    }
}
