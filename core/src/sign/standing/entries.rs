//! What was entered for the record, and what came to it since it was signed.

use super::Purposes;
use crate::sign::Who;
use crate::sign::event::{EventId, EventKind};
use crate::sign::heads::TimedEvent;
use crate::sign::record::RecordSigned;

/// An event that the record of the day consists of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordEvent {
    /// The event.
    pub id: EventId,
    /// The person who recorded it.
    pub who: Who,
    /// The time.
    pub at: jiff::Timestamp,
    /// What was recorded.
    pub kind: EventKind,
}

/// A signature under the record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordSignature {
    /// The event.
    pub id: EventId,
    /// The person who signed.
    pub who: Who,
    /// The time.
    pub at: jiff::Timestamp,
    /// What was signed.
    pub signed: RecordSigned,
    /// What the desk that signed had not read: it came since, or at the same time elsewhere. Clocks say nothing of that.
    pub since: Vec<RecordEvent>,
}

impl RecordEvent {
    fn of(this: &TimedEvent<'_>) -> Self {
        Self {
            id: this.event.id(),
            who: this.event.who.clone(),
            at: this.event.at,
            kind: this.event.kind.clone(),
        }
    }
}

/// True for what the record of the day consists of.
const fn is_told(kind: &EventKind) -> bool {
    let of_day = matches!(kind, EventKind::SurgeryBegun(_)) || kind.step_of_day().is_some();
    let entered = matches!(kind, EventKind::Recorded(_) | EventKind::RecordCorrected(_));
    let fell = matches!(
        kind,
        EventKind::Dropped { .. } | EventKind::FallTakenBack { .. }
    );
    of_day || entered || fell
}

/// What was entered and corrected, in the order of the record.
pub(super) fn entries(live: &[TimedEvent<'_>], purposes: &Purposes<'_>) -> Vec<RecordEvent> {
    let entered = |this: &&TimedEvent<'_>| {
        matches!(
            this.event.kind,
            EventKind::Recorded(_) | EventKind::RecordCorrected(_)
        )
    };
    let counting = live.iter().filter(|this| purposes.counts(this));
    counting.filter(entered).map(RecordEvent::of).collect()
}

/// Every signature under the record, in order.
pub(super) fn signatures(live: &[TimedEvent<'_>], purposes: &Purposes<'_>) -> Vec<RecordSignature> {
    let counting = || live.iter().filter(|this| purposes.counts(this));
    let signed = counting().filter_map(|this| match &this.event.kind {
        EventKind::RecordSigned(signed) => Some((this, signed)),
        _ => None,
    });
    let signatures = signed.map(|(this, signed)| {
        let told = counting().filter(|other| is_told(&other.event.kind));
        let since = told.filter(|other| !other.clearly_before(this));
        RecordSignature {
            id: this.event.id(),
            who: this.event.who.clone(),
            at: this.event.at,
            signed: signed.clone(),
            since: since.map(RecordEvent::of).collect(),
        }
    });
    signatures.collect()
}
