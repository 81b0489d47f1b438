//! The logs of several writers as one.

use super::event::{Event, EventId};
use super::log::{CaseJaw, Log};
use super::message::Message;
use super::names::WriterId;
use crate::dentition::Jaw;
use std::collections::BTreeMap;

/// The union of several writers' logs of one case.
///
/// Taking a log twice, in another order or in other groups gives the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Merged {
    case_jaw: CaseJaw,
    logs: BTreeMap<WriterId, Log>,
}

/// A reason why two logs cannot be one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MergeFault {
    /// Two cases.
    OtherCase {
        /// The case that was to be added.
        found: String,
        /// The case there.
        expected: String,
    },
    /// Two jaws.
    OtherJaw {
        /// The jaw that was to be added.
        found: Jaw,
        /// The jaw there.
        expected: Jaw,
    },
    /// One writer with two histories: the file was copied and both were written on.
    Forked {
        /// The writer.
        writer: WriterId,
        /// The first event that differs.
        seq: u64,
    },
}

impl MergeFault {
    /// The fault.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::OtherCase { found, expected } => Message::new(
                "sign-merge-other-case",
                [("found", found), ("expected", expected)],
            ),
            Self::OtherJaw { found, expected } => Message::new(
                "sign-merge-other-jaw",
                [("found", found), ("expected", expected)],
            ),
            Self::Forked { writer, seq } => {
                Message::new("sign-merge-forked", [("writer", writer), ("seq", seq)])
            }
        }
    }
}

impl Merged {
    /// No events of a case.
    #[must_use]
    pub const fn none(case_jaw: CaseJaw) -> Self {
        Self {
            case_jaw,
            logs: BTreeMap::new(),
        }
    }

    /// The events of these logs.
    ///
    /// # Errors
    ///
    /// A log of another case or jaw; a writer with two histories.
    pub fn of(case_jaw: CaseJaw, logs: impl IntoIterator<Item = Log>) -> Result<Self, MergeFault> {
        logs.into_iter().try_fold(Self::none(case_jaw), Self::with)
    }

    /// These events and those.
    ///
    /// # Errors
    ///
    /// Another case or jaw; a writer with two histories.
    pub fn union(self, other: Self) -> Result<Self, MergeFault> {
        self.case_jaw.same_as(&other.case_jaw)?;
        other.logs.into_values().try_fold(self, Self::with)
    }

    fn with(mut self, log: Log) -> Result<Self, MergeFault> {
        self.case_jaw.same_as(&log.case_jaw())?;
        if let Some(there) = self.logs.get(log.writer()) {
            let mut pairs = there.events().iter().zip(log.events());
            if let Some((_, event)) = pairs.find(|(a, b)| a.hash != b.hash) {
                return Err(MergeFault::Forked {
                    writer: log.writer().clone(),
                    seq: event.seq,
                });
            }
            if there.events().len() >= log.events().len() {
                return Ok(self);
            }
        }
        self.logs.insert(log.writer().clone(), log);
        Ok(self)
    }

    /// The case and jaw that all events belong to.
    #[must_use]
    pub const fn case_jaw(&self) -> &CaseJaw {
        &self.case_jaw
    }

    /// The event of this id.
    #[must_use]
    pub fn event(&self, id: &EventId) -> Option<&Event> {
        let index = usize::try_from(id.seq.checked_sub(1)?).ok()?;
        self.logs.get(&id.writer)?.events().get(index)
    }

    /// All events by time, then writer, then number; a total order.
    ///
    /// A writer whose clock was set back does not change the order of its own events: each counts
    /// as no earlier than the one before it in its file.
    #[must_use]
    pub fn in_order(&self) -> Vec<&Event> {
        self.timed().into_iter().map(|timed| timed.event).collect()
    }

    /// Every event with the time that it counts from, in order.
    pub(super) fn timed(&self) -> Vec<TimedEvent<'_>> {
        let mut timed = Vec::new();
        for log in self.logs.values() {
            let mut latest = jiff::Timestamp::MIN;
            for event in log.events() {
                latest = latest.max(event.at);
                timed.push(TimedEvent { event, at: latest });
            }
        }
        timed.sort_by(|a, b| {
            (a.at, &a.event.writer, a.event.seq).cmp(&(b.at, &b.event.writer, b.event.seq))
        });
        timed
    }
}

/// An event and a time that never falls within one writer's file.
#[derive(Debug, Clone, Copy)]
pub(super) struct TimedEvent<'a> {
    pub(super) event: &'a Event,
    pub(super) at: jiff::Timestamp,
}

impl CaseJaw {
    /// Refuses another case or the other jaw.
    pub(super) fn same_as(&self, other: &Self) -> Result<(), MergeFault> {
        if self.case != other.case {
            return Err(MergeFault::OtherCase {
                found: other.case.clone(),
                expected: self.case.clone(),
            });
        }
        if self.jaw != other.jaw {
            return Err(MergeFault::OtherJaw {
                found: other.jaw,
                expected: self.jaw,
            });
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dentition::Jaw;
    use crate::sign::EventKind;
    use crate::sign::samples::*;

    fn note(text: &str) -> EventKind {
        let text = text.to_owned();
        EventKind::Note { text }
    }

    #[test]
    fn one_writer_with_two_histories_is_told_by_name_and_place() {
        let common = ["a", "b"].map(note);
        let here = log_of("desk", common.clone().into_iter().chain([note("c")]));
        let there = log_of("desk", common.into_iter().chain([note("d"), note("e")]));
        let fault = MergeFault::Forked {
            writer: writer("desk"),
            seq: 3,
        };
        let logs = [here.clone(), there.clone()];
        assert_eq!(Merged::of(case_jaw(), logs), Err(fault.clone()));
        let merged = |log: &Log| Merged::of(case_jaw(), [log.clone()]).unwrap();
        assert_eq!(merged(&there).union(merged(&here)), Err(fault));
    }

    #[test]
    fn other_cases_and_jaws_stay_apart() {
        let here = Merged::of(case_jaw(), [log_of("desk", [note("a")])]).unwrap();
        let mut jaw = case_jaw();
        jaw.jaw = Jaw::Upper;
        let mut case = case_jaw();
        case.case = "INV-8".to_owned();
        for (other, id) in [
            (jaw, "sign-merge-other-jaw"),
            (case, "sign-merge-other-case"),
        ] {
            let log = Log::new(&other, writer("room"));
            let fault = Merged::of(case_jaw(), [log]).unwrap_err();
            assert_eq!(fault.message().id, id);
            let fault = here.clone().union(Merged::none(other)).unwrap_err();
            assert_eq!(fault.message().id, id);
        }
    }

    #[test]
    fn desks_are_put_in_order_by_time_then_writer_then_number() {
        let mut logs = Vec::new();
        for (desk, times) in [("room", [0, 60, 60]), ("desk", [60, 30, 90])] {
            let mut log = Log::new(&case_jaw(), writer(desk));
            for time in times {
                log.append(at(time), who("AB"), note("n")).unwrap();
            }
            logs.push(log);
        }
        let merged = Merged::of(case_jaw(), logs).unwrap();
        let order: Vec<String> = merged
            .in_order()
            .iter()
            .map(|e| e.id().to_string())
            .collect();
        // The desk's second event says 30 but was written after one of 60.
        let want = ["room 1", "desk 1", "desk 2", "room 2", "room 3", "desk 3"];
        assert_eq!(order, want);
    }
}
