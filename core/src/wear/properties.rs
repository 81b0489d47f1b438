//! Any day of any desks: what is counted is what was drilled, by a count that knows nothing of events.

use super::tests::*;
use super::*;
use crate::sign::{DrillKey, EventId, EventKind, PieceNamed, StepTakenBack};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Something that happens.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Act {
    Begin,
    BeginAnew,
    Lay(usize),
    Name(usize, usize),
    Drill(usize, usize),
    Fall(usize),
    TakeBack,
    CountOut,
    Sign,
}

const SITES: [&str; 3] = ["a", "b", "c"];
const MARKS: [Option<&str>; 4] = [Some("A1"), Some("a 2"), Some("A3"), None];

fn keys() -> [DrillKey; 3] {
    [key("wren", 1), key("wren", 2), key("heron", 1)]
}

pub(crate) fn acts() -> impl Strategy<Value = Vec<(bool, Act)>> {
    let act = prop_oneof![
        2 => Just(Act::Begin),
        1 => Just(Act::BeginAnew),
        3 => (0..3usize).prop_map(Act::Lay),
        4 => (0..3usize, 0..4usize).prop_map(|(k, mark)| Act::Name(k, mark)),
        8 => (0..3usize, 0..3usize).prop_map(|(k, site)| Act::Drill(k, site)),
        1 => (0..3usize).prop_map(Act::Fall),
        1 => Just(Act::TakeBack),
        1 => Just(Act::CountOut),
        1 => Just(Act::Sign),
    ];
    prop::collection::vec((any::<bool>(), act), 0..40)
}

/// A piece in its place, from one fall to the next, in one sitting.
type Stay = (usize, usize, usize);

/// What happened, kept as it happens.
#[derive(Default)]
pub(crate) struct Book {
    /// Number of sittings begun.
    begun: usize,
    closed: BTreeSet<usize>,
    falls: [usize; 3],
    names: BTreeMap<Stay, Option<&'static str>>,
    uses: Vec<(Stay, &'static str, EventId)>,
    loads: BTreeSet<Stay>,
    /// Laid, and no step since.
    waiting: BTreeSet<(usize, usize)>,
}

impl Book {
    /// A step of the day: what was laid before it was for its sitting.
    fn step(&mut self) {
        for (k, falls) in std::mem::take(&mut self.waiting) {
            self.loads.insert((self.begun - 1, k, falls));
        }
    }

    fn tallies(&self) -> Vec<(bool, Tally)> {
        let keys = keys();
        let of = |stay: &Stay| WornPiece {
            drill: keys[stay.1].drill.clone(),
            mark: self
                .names
                .get(stay)
                .copied()
                .flatten()
                .map(crate::kit::mark_key),
        };
        let each = (0..self.begun).map(|n| {
            let mut uses: BTreeMap<WornPiece, BTreeSet<(Option<Stay>, &str)>> = BTreeMap::new();
            let mut stays: BTreeMap<WornPiece, BTreeSet<Stay>> = BTreeMap::new();
            for (stay, site, _) in self.uses.iter().filter(|(stay, ..)| stay.0 == n) {
                let unnamed = of(stay).mark.is_none().then_some(*stay);
                uses.entry(of(stay)).or_default().insert((unnamed, site));
                stays.entry(of(stay)).or_default().insert(*stay);
            }
            for stay in self.loads.iter().filter(|stay| stay.0 == n) {
                stays.entry(of(stay)).or_default().insert(*stay);
            }
            let mut tally = Tally::new();
            for (piece, places) in uses {
                tally.entry(piece).or_default().uses = places.len() as u64;
            }
            for (piece, stays) in stays {
                tally.entry(piece).or_default().sterilisations = stays.len() as u64;
            }
            let closed = self.closed.contains(&n) || n + 1 < self.begun;
            (closed, tally)
        });
        each.collect()
    }
}

/// Records what happens, and keeps book beside it.
pub(crate) fn happen(acts: &[(bool, Act)], case: &str) -> (Desks, Book) {
    let (mut desks, mut book, keys) = (Desks::new(case), Book::default(), keys());
    let mut begins: Vec<EventId> = Vec::new();
    let mut falls: [Option<EventId>; 3] = [None, None, None];
    for (other, act) in acts {
        let writer = if *other { "room" } else { "desk" };
        match *act {
            Act::Begin | Act::BeginAnew => {
                let anew = matches!(act, Act::BeginAnew);
                let id = desks.at(writer, begun(anew));
                if anew || book.begun == 0 {
                    book.begun += 1;
                    begins.push(id);
                }
                book.step();
            }
            Act::Lay(k) => {
                desks.at(writer, laid(&keys[k]));
                book.waiting.insert((k, book.falls[k]));
            }
            Act::Name(k, mark) => {
                let now = book.begun.checked_sub(1);
                let now = now.filter(|now| !book.closed.contains(now));
                let naming = PieceNamed {
                    after: falls[k].clone(),
                    ..named(&keys[k], MARKS[mark], now.map(|now| begins[now].clone()))
                };
                desks.at(writer, EventKind::PieceNamed(naming));
                let of = now.unwrap_or(book.begun);
                book.names.insert((of, k, book.falls[k]), MARKS[mark]);
            }
            Act::Drill(k, site) if book.begun > 0 => {
                let id = desks.at(writer, drilled(&keys[k], SITES[site], "s"));
                let stay = (book.begun - 1, k, book.falls[k]);
                book.uses.push((stay, SITES[site], id));
                book.step();
            }
            Act::Fall(k) => {
                falls[k] = Some(desks.at(writer, fell(&keys[k])));
                book.falls[k] += 1;
            }
            Act::TakeBack => {
                if let Some(((_, k, _), site, event)) = book.uses.pop() {
                    let back = StepTakenBack {
                        reason: None,
                        event,
                        step: step(&keys[k], site, "s"),
                        purpose: PATIENT,
                    };
                    desks.at(writer, EventKind::StepTakenBack(back));
                    book.step();
                }
            }
            Act::CountOut if book.begun > 0 => {
                desks.at(writer, counted_out());
                book.closed.insert(book.begun - 1);
                book.step();
            }
            Act::Sign if book.begun > 0 => {
                desks.at(writer, signed());
                book.closed.insert(book.begun - 1);
            }
            _ => {}
        }
    }
    (desks, book)
}

proptest! {
    #[test]
    fn what_is_counted_is_what_was_done(acts in acts()) {
        let (desks, book) = happen(&acts, "T-1");
        let wear = desks.wear();
        let found: Vec<(bool, Tally)> = wear
            .sittings
            .iter()
            .map(|one| (one.closed.is_some(), one.worn.clone()))
            .collect();
        prop_assert_eq!(found, book.tallies());
    }

    #[test]
    fn no_use_is_lost_by_a_name(acts in acts()) {
        let (desks, _) = happen(&acts, "T-1");
        let unnamed: Vec<(bool, Act)> = acts
            .iter()
            .filter(|(_, act)| !matches!(act, Act::Name(..)))
            .copied()
            .collect();
        let (without, _) = happen(&unnamed, "T-1");
        let uses = |desks: &Desks, drill: &str| {
            let worn = Counted::of([&desks.wear()]).worn;
            let of = worn.iter().filter(|(piece, _)| piece.drill == drill);
            of.map(|(_, worn)| worn.uses).sum::<u64>()
        };
        for drill in ["wren", "heron"] {
            // Two that are named as one piece are one at one site.
            prop_assert!(uses(&desks, drill) <= uses(&without, drill));
            let some = uses(&without, drill) > 0;
            prop_assert_eq!(uses(&desks, drill) > 0, some);
        }
    }
}
