//! Desks whose clocks are ahead.

use super::plan::Policy;
use crate::sign::Message;
use crate::sign::log::Log;
use crate::sign::merge::Merged;
use crate::sign::message::ToArgument;
use crate::sign::names::WriterId;

/// A desk whose events bear times that have not come yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClockAhead {
    /// The desk.
    pub writer: WriterId,
    /// The latest time that it wrote.
    pub at: jiff::Timestamp,
}

/// The desks whose clocks, or this one's, are wrong: they wrote times later than now, by more than clocks may differ.
#[must_use]
pub fn clocks_ahead(events: &Merged, now: jiff::Timestamp, policy: &Policy) -> Vec<ClockAhead> {
    let until = now.as_second().saturating_add(policy.clocks_apart_s);
    let latest = |log: &Log| log.events().iter().map(|event| event.at).max();
    events
        .logs()
        .filter_map(|log| {
            let at = latest(log).filter(|at| at.as_second() > until)?;
            let writer = log.writer().clone();
            Some(ClockAhead { writer, at })
        })
        .collect()
}

impl ClockAhead {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        Message::new(
            "sign-clock-ahead",
            [
                ("writer", &self.writer as &dyn ToArgument),
                ("at", &self.at),
            ],
        )
    }
}
