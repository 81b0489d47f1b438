//! The logs of several writers as one.

use super::event::{Event, EventId, EventKind};
use super::heads::{Head, Heads, LostEvent, TimedEvent, in_order};
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
    /// True if something that was signed may be missing.
    broken: bool,
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
            broken: false,
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
    pub fn union(mut self, other: Self) -> Result<Self, MergeFault> {
        self.case_jaw.same_as(&other.case_jaw)?;
        self.broken |= other.broken;
        other.logs.into_values().try_fold(self, Self::with)
    }

    pub(crate) fn with(mut self, log: Log) -> Result<Self, MergeFault> {
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

    /// Says that something that was signed may be missing: a file has a break, or is not what it was.
    pub fn set_broken(&mut self) {
        self.broken = true;
    }

    /// True if something that was signed may be missing. Then nothing counts of what is there: what is
    /// missing may have revoked it.
    #[must_use]
    pub const fn is_broken(&self) -> bool {
        self.broken
    }

    /// The last event of each writer but this one, for what it writes next.
    #[must_use]
    pub fn heads(&self, but: &WriterId) -> Heads {
        let others = self.logs.iter().filter(|(writer, _)| *writer != but);
        let heads = others.filter_map(|(writer, log)| Some((writer.clone(), log.head()?)));
        heads.collect()
    }

    /// The last event of each writer.
    #[must_use]
    pub fn all_heads(&self) -> Heads {
        let logs = self.logs.iter();
        logs.filter_map(|(writer, log)| Some((writer.clone(), log.head()?)))
            .collect()
    }

    /// Events that a writer had read and that are not here, unless the file that they were in was put aside
    /// and that is recorded.
    #[must_use]
    pub fn lost(&self) -> Vec<LostEvent> {
        let (timed, mut lost) = in_order(&self.logs);
        let is_put_aside = |one: &LostEvent| {
            let reader = timed.iter().find(|this| this.event.id() == one.read_by);
            timed.iter().any(|this| {
                matches!(&this.event.kind, EventKind::SetAside { of, .. } if *of == one.writer)
                    && reader.is_none_or(|reader| !this.clearly_before(reader))
            })
        };
        lost.retain(|one| !is_put_aside(one));
        lost
    }

    /// The heads of these, read earlier, that are not here, unless the log that they were in was put aside since.
    #[must_use]
    pub fn gone_of(&self, heads: &Heads) -> Heads {
        let put_aside = |writer: &WriterId| {
            self.timed().iter().any(|this| {
                let event = this.event;
                let is_new = |head: &Head| event.seq > head.seq;
                matches!(&event.kind, EventKind::SetAside { of, .. } if of == writer)
                    && heads.get(&event.writer).is_none_or(is_new)
            })
        };
        let is_here = |writer: &WriterId, head: &Head| {
            let id = EventId {
                writer: writer.clone(),
                seq: head.seq,
            };
            self.event(&id).is_some_and(|event| event.hash == head.hash)
        };
        let gone = heads
            .iter()
            .filter(|(w, head)| !is_here(w, head) && !put_aside(w));
        gone.map(|(writer, head)| (writer.clone(), *head)).collect()
    }

    /// The log of each writer.
    pub(super) fn logs(&self) -> impl Iterator<Item = &Log> {
        self.logs.values()
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

    /// All events, each behind all that its writer had read; where that leaves the order open by time, then
    /// writer, then number.
    #[must_use]
    pub fn in_order(&self) -> Vec<&Event> {
        self.timed().into_iter().map(|timed| timed.event).collect()
    }

    /// The same, and the events that a writer had read and that are not here, put aside or not.
    pub(super) fn timed_and_lost(&self) -> (Vec<TimedEvent<'_>>, Vec<LostEvent>) {
        in_order(&self.logs)
    }

    /// Every event with what its writer had read, in order.
    pub(crate) fn timed(&self) -> Vec<TimedEvent<'_>> {
        in_order(&self.logs).0
    }
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
