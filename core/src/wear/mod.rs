//! The wear of drills: what closed cases took out of each piece, and what its limit says to that.
//!
//! Pure: no clock, no file, no state, and no plan: what was done was done, whatever the plan became since. The uses of a case
//! follow from its events alone, sitting by sitting ([`wear_of`]), and a sitting counts once its day is closed. A ledger
//! keeps what was counted, so that not every case is read for each look; whatever it holds can be counted again.
//!
//! A case knows drills by their number on the tray. Which piece of the stock one is a person says
//! ([`PieceNamed`](crate::sign::PieceNamed)). The uses of one that nobody named are counted as those of a piece that is not
//! known: any piece of that drill may have them.

mod count;
mod judge;
mod naming;

#[cfg(test)]
pub(crate) mod properties;
#[cfg(test)]
pub(crate) mod tests;

pub use count::{NamedFor, name_piece, named_piece, wear_of};
pub use judge::{Count, DrillPieces, PieceWear, WearLack, WearVerdict, piece_wear, pieces_of};
pub use naming::{MarkFault, check_mark};

use crate::kit::mark_key;
use crate::sign::{CaseJaw, EventHash, WriterId};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// What the sittings of a case took out of drills.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CaseWear {
    /// The case and its jaw.
    pub case: CaseJaw,
    /// Every sitting that was begun, in order, closed or not.
    pub sittings: Vec<Sitting>,
    /// The first event that says that a part of its record was damaged and put aside: it may have had more uses, and more
    /// sittings than these; none where nothing was.
    pub put_aside: Option<(EventHash, Timestamp)>,
    /// The logs of its record. What is kept of a case with the same first event of a log is of this one.
    pub logs: Vec<LogEnds>,
    /// Hashes of all events of its record. Each log is a chain: who has the last event of one has the whole.
    pub events: BTreeSet<EventHash>,
}

/// A log of a case's record by its ends.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LogEnds {
    /// Its writer.
    pub writer: WriterId,
    /// The hash of its first event.
    pub first: EventHash,
    /// Number of its events.
    pub length: u64,
    /// The hash of its last event.
    pub last: EventHash,
}

/// A sitting of surgery.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sitting {
    /// The hash of the event that began it. No other sitting of any case has it.
    pub id: EventHash,
    /// When it was begun.
    pub at: Timestamp,
    /// What closed its day; none while it is open.
    pub closed: Option<ClosedBy>,
    /// What it took out of each piece.
    pub worn: Tally,
}

/// What closes the day of a sitting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ClosedBy {
    /// Everything was counted before closing.
    Count,
    /// The record was signed.
    Signature,
    /// The count before closing was left out, with a reason.
    LeftOut,
    /// Another sitting was begun.
    NextSitting,
}

/// A piece of a drill, by its mark; without one any piece of that drill: nobody named it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WornPiece {
    /// The kit's drill.
    pub drill: String,
    /// The mark of the piece, as marks are compared ([`mark_key`](crate::kit::mark_key)).
    pub mark: Option<String>,
}

/// Wear.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Worn {
    /// Osteotomies.
    pub uses: u64,
    /// Sterilisations.
    pub sterilisations: u64,
}

/// The wear of pieces.
pub type Tally = BTreeMap<WornPiece, Worn>;

/// Everything that was counted for a kit.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Counted {
    /// The wear of all pieces.
    pub worn: Tally,
    /// Number of closed sittings that were counted.
    pub closings: u64,
    /// The hashes of the events that began them.
    pub sittings: BTreeSet<String>,
    /// Cases of whose record a part was lost, each once: there may have been more uses, of any drill.
    pub partial: Vec<CaseJaw>,
    /// What was used, by what is recorded so far, in sittings whose day is not closed.
    pub open: BTreeMap<CaseJaw, Tally>,
}

impl CaseWear {
    /// The sittings whose day is closed: those that count.
    pub fn closed(&self) -> impl Iterator<Item = &Sitting> {
        self.sittings.iter().filter(|one| one.closed.is_some())
    }

    /// The sittings that were begun and never closed, in which something was used: they do not count yet.
    pub fn left_open(&self) -> impl Iterator<Item = &Sitting> {
        let open = self.sittings.iter().filter(|one| one.closed.is_none());
        open.filter(|one| !one.worn.is_empty())
    }
}

impl ClosedBy {
    /// All of them.
    pub const ALL: [Self; 4] = [
        Self::Count,
        Self::Signature,
        Self::LeftOut,
        Self::NextSitting,
    ];

    /// Its name in a ledger.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Count => "count",
            Self::Signature => "signature",
            Self::LeftOut => "left_out",
            Self::NextSitting => "next_sitting",
        }
    }
}

impl Counted {
    /// The same without what the open day of this case used: who has its record at hand counts that from there.
    #[must_use]
    pub fn without_day_of(&self, case: &CaseJaw) -> Self {
        let mut other = self.clone();
        other.open.remove(case);
        other
    }

    /// True if the last sitting of a case is counted as closed, so that what was used in it is in the count.
    #[must_use]
    pub fn has_last_of(&self, case: &CaseWear) -> bool {
        let last = case.sittings.last();
        last.is_some_and(|last| self.sittings.contains(&last.id.to_string()))
    }

    /// True if a piece may have been used in a sitting whose day is not closed: it was, or one of its drill that nobody named.
    #[must_use]
    pub fn is_in_open_day(&self, drill: &str, mark: &str) -> bool {
        let mark = mark_key(mark);
        let may_be = |piece: &WornPiece| {
            piece.drill == drill && piece.mark.as_ref().is_none_or(|one| *one == mark)
        };
        let mut open = self.open.values().flat_map(BTreeMap::keys);
        open.any(may_be)
    }

    /// The uses of a piece in sittings whose day is not closed.
    #[must_use]
    pub fn open_uses(&self, piece: &WornPiece) -> u64 {
        let open = self.open.values().filter_map(|tally| tally.get(piece));
        open.map(|worn| worn.uses).sum()
    }

    /// The same of whole cases, counted here and now.
    #[must_use]
    pub fn of<'a>(cases: impl IntoIterator<Item = &'a CaseWear>) -> Self {
        let mut all = Self::default();
        for case in cases {
            for sitting in case.closed() {
                all.closings += 1;
                all.sittings.insert(sitting.id.to_string());
                add_all(&mut all.worn, &sitting.worn);
            }
            for sitting in case.left_open() {
                add_all(
                    all.open.entry(case.case.clone()).or_default(),
                    &sitting.worn,
                );
            }
            if case.put_aside.is_some() && !all.partial.contains(&case.case) {
                all.partial.push(case.case.clone());
            }
        }
        all.partial.sort();
        all
    }

    /// What was counted of one piece, or of those that nobody named.
    #[must_use]
    pub fn worn(&self, piece: &WornPiece) -> Worn {
        self.worn.get(piece).copied().unwrap_or_default()
    }
}

/// Adds the wear of one tally to another.
pub fn add_all(to: &mut Tally, more: &Tally) {
    for (piece, worn) in more {
        let all = to.entry(piece.clone()).or_default();
        all.uses += worn.uses;
        all.sterilisations += worn.sterilisations;
    }
}
