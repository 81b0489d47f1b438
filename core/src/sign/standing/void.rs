//! What takes all that was signed: a record with a break, or one that was put aside for it.

use crate::sign::Message;
use crate::sign::event::{EventId, EventKind};
use crate::sign::heads::TimedEvent;
use crate::sign::merge::Merged;

/// A reason why nothing of a record counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Void {
    /// A file of it has a break, or events are missing: one of them may have revoked this.
    Broken,
    /// A damaged file was put aside, and this does not stand behind that.
    SetAside {
        /// The event that says so.
        by: EventId,
    },
}

/// The reason why an event counts for nothing, whatever it says; none where it may count.
pub(super) type VoidOf<'a> = dyn Fn(&TimedEvent<'_>) -> Option<Void> + 'a;

/// The reason of each of these events.
pub(super) fn void_of<'a>(
    events: &'a Merged,
    timed: &'a [TimedEvent<'a>],
) -> impl Fn(&TimedEvent<'_>) -> Option<Void> + 'a {
    let broken = events.is_broken();
    let set_aside: Vec<&TimedEvent<'_>> = timed
        .iter()
        .filter(|this| matches!(this.event.kind, EventKind::SetAside { .. }))
        .collect();
    move |this| {
        if broken {
            return Some(Void::Broken);
        }
        let by = set_aside
            .iter()
            .find(|other| other.event.id() != this.event.id() && !other.clearly_before(this))?;
        Some(Void::SetAside { by: by.event.id() })
    }
}

impl Void {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Broken => Message::new("sign-void-broken", []),
            Self::SetAside { by } => Message::new("sign-void-set-aside", [("by", by)]),
        }
    }
}
