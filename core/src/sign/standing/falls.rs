//! What fell, and what was said to have been reported by mistake.

use super::day::begins_anew;
use super::{Purposes, is_practised};
use crate::kit::SlotKind;
use crate::sign::Who;
use crate::sign::event::{DrillKey, EventId, EventKind, ItemKey, Piece, Purpose, ThingKey};
use crate::sign::heads::TimedEvent;

/// A report that a piece fell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fall {
    /// The report.
    pub id: EventId,
    /// The person who gave it.
    pub who: Who,
    /// The time of the report.
    pub at: jiff::Timestamp,
    /// True if it was not clearly before surgery was begun: what took its place since is in the room beside it.
    pub in_surgery: bool,
    /// Its place in the order of the record.
    pub place: usize,
    /// The piece.
    pub piece: Piece,
    /// The person who said that it was a mistake; none where nobody did.
    pub taken_back: Option<Who>,
}

impl Fall {
    /// True if the piece is missing.
    #[must_use]
    pub const fn counts(&self) -> bool {
        self.taken_back.is_none()
    }

    /// True if it was one of these, whichever. Of a drill without a known setting older programs recorded the name alone.
    #[must_use]
    pub fn is_of(&self, kind: SlotKind, entry: &str) -> bool {
        match &self.piece {
            Piece::Drill(drill) => kind == SlotKind::Drill && drill.drill == entry,
            Piece::Thing(fallen) => (fallen.of, fallen.entry.as_str()) == (kind, entry),
            Piece::Other(name) => *name == entry,
            Piece::Gauge(_) | Piece::Guide(_) => false,
        }
    }

    /// True if it may have been this thing: of equal ones without a setting nobody knows which.
    #[must_use]
    pub fn may_be(&self, thing: &ThingKey) -> bool {
        let same = match &self.piece {
            Piece::Drill(drill) => drill.copy == thing.copy,
            Piece::Thing(fallen) => fallen.may_be(thing),
            _ => true,
        };
        same && self.is_of(thing.of, &thing.entry)
    }
}

/// Every report of a fall in its order. A void one stands all the same, since what fell is not there; a
/// void taking back does not, nor one that names another piece, nor, for a patient, one in practice. What fell in practice is not missing for a patient.
pub(super) fn falls(
    (timed, live): (&[TimedEvent<'_>], &[TimedEvent<'_>]),
    purposes: &Purposes<'_>,
    plan: Purpose,
) -> Vec<Fall> {
    let begun = || {
        let begins = |this: &&TimedEvent<'_>| {
            matches!(this.event.kind, EventKind::SurgeryBegun(_)) && purposes.counts(this)
        };
        let mut anew = live.iter().filter(begins);
        let anew = anew.rfind(|this| begins_anew(&this.event.kind));
        anew.or_else(|| live.iter().find(begins))
    };
    let begun = begun();
    let taken_back = |id: &EventId, fell: &Piece| {
        let mut all = live.iter().map(|this| this.event);
        let of = |kind: &EventKind| match kind {
            EventKind::FallTakenBack {
                fall,
                piece,
                purpose,
            } => fall == id && piece == fell && !is_practised(Some(*purpose), plan),
            _ => false,
        };
        all.find(|event| of(&event.kind))
            .map(|event| event.who.clone())
    };
    let fell = timed.iter().enumerate();
    let fell = fell.filter_map(|(place, this)| match &this.event.kind {
        EventKind::Dropped { piece, purpose } if !is_practised(*purpose, plan) => Some(Fall {
            id: this.event.id(),
            who: this.event.who.clone(),
            at: this.event.at,
            in_surgery: begun.is_some_and(|begun| !this.clearly_before(begun)),
            place,
            piece: piece.clone(),
            taken_back: taken_back(&this.event.id(), piece),
        }),
        _ => None,
    });
    fell.collect()
}

impl EventKind {
    /// The piece that fell, or did not after all: which one is at hand, nobody knows any more.
    pub(crate) const fn fallen(&self) -> Option<&Piece> {
        match self {
            Self::Dropped { piece, .. } | Self::FallTakenBack { piece, .. } => Some(piece),
            _ => None,
        }
    }

    /// The drill of which the stop was moved: to be set anew, or taken off to drill by hand.
    pub(crate) fn moved_stop(&self) -> Option<&DrillKey> {
        match self {
            Self::Reset { drill, .. } => Some(drill),
            Self::StepDone(done) if done.by_hand.is_some() => done.piece.as_ref(),
            _ => None,
        }
    }

    /// True if it moved the stop of this drill. Of one that is read by a mark there was none to take off to drill by hand.
    pub(crate) fn moved_stop_of(&self, item: &ItemKey) -> bool {
        let by_hand = matches!(self, Self::StepDone(_));
        let moved = self.moved_stop();
        moved.is_some_and(|drill| item.is_drill(drill)) && (item.stop.is_some() || !by_hand)
    }

    /// The same, where it is a drill.
    pub(crate) const fn fallen_drill(&self) -> Option<&DrillKey> {
        match self.fallen() {
            Some(Piece::Drill(drill)) => Some(drill),
            _ => None,
        }
    }
}
