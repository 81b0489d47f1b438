//! One writer's event file: a header and events, each bound to the line before.

use super::event::{Event, EventHash, EventKind, KindFault, text};
use super::heads::{Head, Heads};
use super::message::Message;
use super::names::{Who, WriterId};
use crate::dentition::Jaw;
use serde::{Deserialize, Serialize};

/// The case that events belong to, and its jaw. Nothing of one jaw verifies the other.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CaseJaw {
    /// The case's reference.
    pub case: String,
    /// Its jaw.
    pub jaw: Jaw,
}

/// One line of an event file. The first is the header, every other an event; the file is those
/// lines, each with a line feed at its end.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, schemars::JsonSchema)]
#[serde(untagged)]
pub enum EventLine {
    /// The first line.
    Header(Header),
    /// Any other.
    Event(Box<Event>),
}

/// The first line of an event file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Header {
    /// Version of the file's format; [`Header::VERSION`].
    #[schemars(range(min = 1, max = 1))]
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

    /// The hash that the first event names as that of the line before it.
    #[must_use]
    pub fn hash(&self) -> EventHash {
        EventHash::of(self, |_, _| false)
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

/// A reason why an event cannot be appended. Its `Display` is for logs.
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

impl AppendFault {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Kind(fault) => fault.message(),
            Self::Long { found, limit } => {
                Message::new("sign-append-long", [("found", found), ("limit", limit)])
            }
        }
    }
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

    /// The last event, as another writer names it; nothing where there is none.
    #[must_use]
    pub fn head(&self) -> Option<Head> {
        let last = self.events.last()?;
        Some(Head {
            seq: last.seq,
            hash: last.hash,
        })
    }

    /// The hash that the next event has to name.
    #[must_use]
    pub fn last_hash(&self) -> EventHash {
        let last = self.events.last().map(|event| event.hash);
        last.unwrap_or_else(|| self.header.hash())
    }

    /// Adds an event of a writer that knows no other, as [`Self::append_knowing`] does.
    ///
    /// # Errors
    ///
    /// An event that cannot be or would not be read again; the log is then unchanged.
    pub fn append(
        &mut self,
        at: jiff::Timestamp,
        who: Who,
        kind: EventKind,
    ) -> Result<(Event, String), AppendFault> {
        self.append_knowing(Heads::new(), at, who, kind)
    }

    /// Adds an event of a writer that had read this of the others, and gives it back with its line, the
    /// line's end included, for the file.
    ///
    /// A file that does not exist yet is begun with [`Log::text`].
    ///
    /// # Errors
    ///
    /// An event that cannot be or would not be read again; the log is then unchanged.
    pub fn append_knowing(
        &mut self,
        seen: Heads,
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
            seen,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::SlotKind;
    use crate::sign::samples::*;

    /// Hashes of this very text by Python: `hashlib.sha256` over `json.dumps(value,
    /// sort_keys=True, separators=(",", ":"), ensure_ascii=False)` of each line without its `hash`.
    const FILE: &str = r#"{"traywright_events":1,"case":"INV-7","jaw":"lower","writer":"desk"}
{"writer":"desk","seq":1,"at":"2030-03-17T17:46:40Z","who":"A.B.","what":{"kind":"gauge_checked","gauge":"g","piece_mm":20,"value_mm":20},"prev_hash":"42c1848fcbae77166d16bf0980d448c6e631e737f44ecbe2922a92f9e41c3f31","hash":"564c18d0d3eefb2ac4f202abdf9333b386f5419040272b15bc646d332920077a"}
{"writer":"desk","seq":2,"at":"2030-03-17T17:47:40Z","who":"Жанна К","what":{"kind":"reading","item":{"drill":"kestrel","copy":1,"stop":"s2","setting_mm":24.3},"gauge":"g","value_mm":24.3,"stage":"bench","turn":"first","purpose":"patient"},"prev_hash":"564c18d0d3eefb2ac4f202abdf9333b386f5419040272b15bc646d332920077a","hash":"9f5eead3b202e1ccdcfd93ee2219b5e5d6a15e4ce20a95f81b70c53bf397569e"}
"#;

    #[test]
    fn the_file_is_as_promised_down_to_the_hashes() {
        let kinds = every_kind().into_iter().take(2);
        assert_eq!(log_of("desk", kinds).text(), FILE);
    }

    #[test]
    fn what_would_not_be_read_again_is_not_appended() {
        let mut log = log_of("desk", every_kind());
        let before = log.clone();
        let note = |text: String| EventKind::Note { text };
        let many: Vec<String> = (0..700).map(|n| format!("{n:0>100}")).collect();
        let many: Vec<&str> = many.iter().map(String::as_str).collect();
        let put = |slot: &str| EventKind::Placed {
            item: item("kestrel", 1, None, "24.3"),
            slot: slot.to_owned(),
            purpose: None,
        };
        for (kind, want) in [
            (note(String::new()), "text is empty"),
            (note(" \n".to_owned()), "text is empty"),
            (
                note("x".repeat(4001)),
                "text has 4001 characters, the limit is 4000",
            ),
            (put(""), "slot is empty"),
            (
                put(&"x".repeat(201)),
                "slot has 201 characters, the limit is 200",
            ),
            (thing_placed(SlotKind::Pin, " ", 1, None), "entry is empty"),
            (
                thing_placed(SlotKind::Pin, "wren", 1, Some("")),
                "slot is empty",
            ),
            (
                checked("0", "20"),
                "piece_mm is 0 mm: must be above 0 and at most 2000",
            ),
            (
                checked("20", "2000.001"),
                "value_mm is 2000.001 mm: must be above 0 and at most 2000",
            ),
            (
                approval(b"plan", &many, crate::sign::Purpose::Patient),
                "the limit is 65536",
            ),
        ] {
            let fault = log.append(at(0), who("AB"), kind).unwrap_err();
            assert!(fault.to_string().ends_with(want), "{fault}");
            assert_eq!(log, before);
        }
        assert!(log.append(at(0), who("AB"), note("x".repeat(4000))).is_ok());
    }

    #[test]
    fn every_kind_is_known_by_name() {
        let log = log_of("desk", every_kind().into_iter().chain(added_kinds()));
        let names = log.events().iter().map(|event| {
            let value: serde_json::Value = serde_json::from_str(&event.line()).unwrap();
            value["what"]["kind"].as_str().unwrap().to_owned()
        });
        let names: std::collections::BTreeSet<String> = names.collect();
        let known = EventKind::NAMES.map(str::to_owned);
        assert_eq!(names, known.into());
    }
}
