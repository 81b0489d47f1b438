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

#[cfg(test)]
pub(crate) mod properties;
#[cfg(test)]
pub(crate) mod tests;

pub use count::{NamedFor, name_piece, named_piece, wear_of};
pub use judge::{Count, DrillPieces, PieceWear, WearVerdict, piece_wear, pieces_of};

use crate::sign::{CaseJaw, EventHash};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// What the sittings of a case took out of drills.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CaseWear {
    /// The case and its jaw.
    pub case: CaseJaw,
    /// Every sitting that was begun, in order, closed or not.
    pub sittings: Vec<Sitting>,
    /// Hashes of all events by which a sitting of this case was ever known: what is kept under one of them is of this case.
    pub own: Vec<EventHash>,
    /// Number of events of its record: of two copies of a case the one with fewer lags behind.
    pub events: u64,
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
    /// True if a part of the case's record was lost, so that it may have had more uses.
    pub is_partial: bool,
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
    /// Cases of whose record a part was lost, each once: there may have been more uses.
    pub partial: Vec<CaseJaw>,
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
    pub const ALL: [Self; 3] = [Self::Count, Self::Signature, Self::NextSitting];

    /// Its name in a ledger.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Count => "count",
            Self::Signature => "signature",
            Self::NextSitting => "next_sitting",
        }
    }
}

impl Counted {
    /// The same of whole cases, counted here and now.
    #[must_use]
    pub fn of<'a>(cases: impl IntoIterator<Item = &'a CaseWear>) -> Self {
        let mut all = Self::default();
        for case in cases {
            for sitting in case.closed() {
                all.closings += 1;
                add_all(&mut all.worn, &sitting.worn);
            }
            if case.closed().any(|one| one.is_partial) && !all.partial.contains(&case.case) {
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
