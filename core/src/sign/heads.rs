//! What a writer had seen of the others when it wrote: by this, not by clocks, events are in order.

use super::event::{Event, EventHash, EventId};
use super::log::Log;
use super::names::WriterId;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The last event of each other writer that the writer of an event had read.
pub type Heads = BTreeMap<WriterId, Head>;

/// The last event of a log that was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Head {
    /// Its place in the file.
    #[schemars(range(min = 1))]
    pub seq: u64,
    /// Its hash.
    pub hash: EventHash,
}

/// The events known to an event: of each writer up to this number, its own included.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Known(BTreeMap<WriterId, u64>);

impl Known {
    /// True if it includes this event.
    pub(super) fn includes(&self, event: &Event) -> bool {
        self.0
            .get(&event.writer)
            .is_some_and(|seq| event.seq <= *seq)
    }

    fn take(&mut self, writer: &WriterId, seq: u64) {
        let mine = self.0.entry(writer.clone()).or_default();
        *mine = seq.max(*mine);
    }

    fn take_all(&mut self, other: &Self) {
        for (writer, seq) in &other.0 {
            self.take(writer, *seq);
        }
    }
}

/// An event with what is derived from what its writer had seen.
#[derive(Debug, Clone)]
pub(crate) struct TimedEvent<'a> {
    pub(crate) event: &'a Event,
    /// The time that it counts from: no earlier than anything that it had seen.
    pub(super) at: jiff::Timestamp,
    pub(super) known: Known,
    /// Length of the longest line of events that lead to it.
    depth: usize,
}

impl TimedEvent<'_> {
    /// The same place of the record with the event in other words.
    pub(super) fn worded<'b>(&self, event: &'b Event) -> TimedEvent<'b> {
        TimedEvent {
            event,
            at: self.at,
            known: self.known.clone(),
            depth: self.depth,
        }
    }

    /// True if `self` happened before `other` beyond doubt: in the file of one writer, or because the writer
    /// of `other` had read it. Clocks say nothing of that.
    pub(crate) fn clearly_before(&self, other: &TimedEvent<'_>) -> bool {
        let is_other =
            (&self.event.writer, self.event.seq) != (&other.event.writer, other.event.seq);
        is_other && other.known.includes(self.event)
    }
}

/// An event that was read by the writer of another one, and that no file has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LostEvent {
    /// Its writer.
    pub writer: WriterId,
    /// Its place in the file.
    pub seq: u64,
    /// The event whose writer had read it.
    pub read_by: EventId,
}

/// All events of these logs in an order in which nothing stands before what it had seen; among what leaves the
/// order open by time, then writer, then number. And the heads that no log has.
pub(super) fn in_order(logs: &BTreeMap<WriterId, Log>) -> (Vec<TimedEvent<'_>>, Vec<LostEvent>) {
    let find = |writer: &WriterId, head: &Head| {
        let index = usize::try_from(head.seq.checked_sub(1)?).ok()?;
        let event = logs.get(writer)?.events().get(index)?;
        (event.hash == head.hash).then_some(event)
    };
    let mut placed: BTreeMap<&WriterId, Vec<TimedEvent<'_>>> = BTreeMap::new();
    let mut lost = Vec::new();
    let total: usize = logs.values().map(|log| log.events().len()).sum();
    let (mut done, mut stuck) = (0, false);
    while done < total {
        let before = done;
        for (writer, log) in logs {
            let next = placed.get(writer).map_or(0, Vec::len);
            for event in log.events().iter().skip(next) {
                let seen: Vec<&Event> = event
                    .seen
                    .iter()
                    .filter_map(|(writer, head)| find(writer, head))
                    .collect();
                let there = |one: &&Event| {
                    let of_writer = placed.get(&one.writer).map_or(0, Vec::len);
                    usize::try_from(one.seq).is_ok_and(|seq| seq <= of_writer)
                };
                // Hashes lead back in time only, so nothing waits in a circle, but in logs made to.
                if !stuck && !seen.iter().all(there) {
                    break;
                }
                let own = placed.get(writer).and_then(|events| events.last());
                let others = seen.iter().filter(|one| there(one)).filter_map(|one| {
                    let index = usize::try_from(one.seq.checked_sub(1)?).ok()?;
                    placed.get(&one.writer)?.get(index)
                });
                let mut this = TimedEvent {
                    event,
                    at: event.at,
                    known: Known::default(),
                    depth: 0,
                };
                for earlier in own.into_iter().chain(others) {
                    this.at = this.at.max(earlier.at);
                    this.known.take_all(&earlier.known);
                    this.depth = this.depth.max(earlier.depth + 1);
                }
                this.known.take(writer, event.seq);
                placed.entry(writer).or_default().push(this);
                done += 1;
                stuck = false;
            }
        }
        stuck = done == before;
    }
    for event in logs.values().flat_map(Log::events) {
        let gone = event
            .seen
            .iter()
            .filter(|(writer, head)| find(writer, head).is_none());
        lost.extend(gone.map(|(writer, head)| LostEvent {
            writer: writer.clone(),
            seq: head.seq,
            read_by: event.id(),
        }));
    }
    let mut all: Vec<TimedEvent<'_>> = placed.into_values().flatten().collect();
    all.sort_by(|a, b| {
        let key = |one: &TimedEvent<'_>| (one.at, one.depth);
        key(a)
            .cmp(&key(b))
            .then_with(|| (&a.event.writer, a.event.seq).cmp(&(&b.event.writer, b.event.seq)))
    });
    (all, lost)
}
