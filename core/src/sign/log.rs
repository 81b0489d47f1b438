//! One writer's event file: a header and events, each bound to the line before.

use super::event::{Event, EventHash, EventKind, KindFault, json, text};
use super::names::{Who, WriterId};
use serde::{Deserialize, Serialize};
use std::fmt;

/// The jaw that a case is about.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Jaw {
    /// The maxilla.
    Upper,
    /// The mandible.
    Lower,
}

/// The case that events belong to, and its jaw. Nothing of one jaw verifies the other.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CaseJaw {
    /// The case's reference.
    pub case: String,
    /// Its jaw.
    pub jaw: Jaw,
}

/// The first line of an event file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Header {
    /// Version of the file's format; [`Header::VERSION`].
    pub(super) traywright_events: u32,
    /// The case's reference.
    pub(super) case: String,
    /// The case's jaw.
    pub(super) jaw: Jaw,
    /// The desk that writes the file.
    pub(super) writer: WriterId,
}

impl Header {
    /// The version of the format that this program writes, and the only one that it reads.
    pub const VERSION: u32 = 1;

    /// Its line in the file, without the line's end.
    #[must_use]
    pub fn line(&self) -> String {
        text(self)
    }

    /// What the first event names as the hash of the line before it.
    #[must_use]
    pub fn hash(&self) -> EventHash {
        EventHash::of(&json(self))
    }

    pub(super) fn case_jaw(&self) -> CaseJaw {
        CaseJaw {
            case: self.case.clone(),
            jaw: self.jaw,
        }
    }
}

/// Everything that one writer recorded about a case.
///
/// **Invariant:** the chain is sound. A log comes from [`Log::new`] and [`Log::append`] or from
/// reading a file, which takes nothing after the first break.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Log {
    header: Header,
    events: Vec<Event>,
}

/// Why an event cannot be appended.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AppendFault {
    /// The event says what cannot be.
    #[error(transparent)]
    Kind(#[from] KindFault),
    /// The line would be longer than a reader takes.
    #[error("the line has {found} bytes, the limit is {limit}")]
    Long {
        /// Bytes of the line.
        found: usize,
        /// Bytes that a line may have.
        limit: usize,
    },
}

impl Log {
    /// Greatest length of a line in bytes, its end left out.
    pub const LINE_LIMIT: usize = 64 * 1024;

    /// A log without events.
    #[must_use]
    pub fn new(case_jaw: &CaseJaw, writer: WriterId) -> Self {
        Self::of_header(Header {
            traywright_events: Header::VERSION,
            case: case_jaw.case.clone(),
            jaw: case_jaw.jaw,
            writer,
        })
    }

    pub(super) const fn of_header(header: Header) -> Self {
        Self {
            header,
            events: Vec::new(),
        }
    }

    /// Takes an event that was checked against the last one.
    pub(super) fn take(&mut self, event: Event) {
        self.events.push(event);
    }

    /// The case and the jaw.
    #[must_use]
    pub fn case_jaw(&self) -> CaseJaw {
        self.header.case_jaw()
    }

    /// The writer of every event.
    #[must_use]
    pub const fn writer(&self) -> &WriterId {
        &self.header.writer
    }

    /// The first line.
    #[must_use]
    pub const fn header(&self) -> &Header {
        &self.header
    }

    /// The events by `seq`.
    #[must_use]
    pub fn events(&self) -> &[Event] {
        &self.events
    }

    /// The hash that the next event has to name.
    #[must_use]
    pub fn last_hash(&self) -> EventHash {
        let last = self.events.last().map(|event| event.hash);
        last.unwrap_or_else(|| self.header.hash())
    }

    /// Adds an event and gives it back with its line, the line's end included, for the file.
    ///
    /// A file that does not exist yet is begun with [`Log::text`].
    ///
    /// # Errors
    ///
    /// What cannot be or would not be read again; the log is then unchanged.
    pub fn append(
        &mut self,
        at: jiff::Timestamp,
        who: Who,
        kind: EventKind,
    ) -> Result<(Event, String), AppendFault> {
        kind.check()?;
        let prev_hash = self.last_hash();
        let mut event = Event {
            writer: self.writer().clone(),
            seq: self.events.len() as u64 + 1,
            at,
            who,
            kind,
            prev_hash,
            hash: prev_hash,
        };
        event.hash = event.computed_hash();
        let mut line = event.line();
        let (found, limit) = (line.len(), Self::LINE_LIMIT);
        if found > limit {
            return Err(AppendFault::Long { found, limit });
        }
        line.push('\n');
        self.events.push(event.clone());
        Ok((event, line))
    }

    /// The whole file.
    #[must_use]
    pub fn text(&self) -> String {
        let lines = self.events.iter().map(Event::line);
        std::iter::once(self.header.line())
            .chain(lines)
            .flat_map(|line| [line, "\n".to_owned()])
            .collect()
    }
}

impl fmt::Display for Jaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        })
    }
}
