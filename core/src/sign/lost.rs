//! The rest of a last line that was never finished: what it was to record, and what its loss means.

use super::event::{EventHash, EventKind};
use super::message::Message;
use super::names::{Who, WriterId};
use serde::{Deserialize, Serialize};

/// A kind of event whose loss lets nothing count that should not. Of any other that cannot be said: a placement may have
/// moved a thing, a reading may have disagreed, a landing, a fall or a withdrawal takes what was signed before.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum LostKind {
    /// An approval. Who gave it saw the figures all the same.
    Approval,
    /// That a thing was taken out of its wrapping.
    Opened,
    /// That something without a slot was there.
    Beside,
    /// A note.
    Note,
}

/// What a line was to record that was never finished.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LostLine {
    /// Its kind.
    pub kind: LostKind,
    /// The person who was to be recorded with it.
    pub by: Who,
}

/// The beginning of an event's line, up to its kind.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Begun {
    writer: WriterId,
    seq: u64,
    #[serde(rename = "at")]
    _at: jiff::Timestamp,
    who: Who,
    what: What,
}

#[derive(Deserialize)]
struct What {
    kind: LostKind,
}

impl LostLine {
    /// Reads the rest of a line of this writer and number; nothing where its kind cannot be read, or is one whose loss may let
    /// something count that should not.
    #[must_use]
    pub fn of(rest: &[u8], writer: &WriterId, seq: u64) -> Option<Self> {
        // Within a text each quote has a backslash before it: what is found first is the event's own key.
        const KIND: &str = "\"what\":{\"kind\":\"";
        let text = match str::from_utf8(rest) {
            Ok(text) => text,
            Err(error) => str::from_utf8(&rest[..error.valid_up_to()]).ok()?,
        };
        let (before, behind) = text.split_once(KIND)?;
        let (kind, _) = behind.split_once('"')?;
        let begun: Begun = serde_json::from_str(&format!("{before}{KIND}{kind}\"}}}}")).ok()?;
        let is_due = begun.writer == *writer && begun.seq == seq;
        is_due.then_some(Self {
            kind: begun.what.kind,
            by: begun.who,
        })
    }
}

/// A torn last line that was mended: its rest was put aside as something was recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mended {
    /// The name under which the rest is kept.
    pub file: String,
    /// What it was to record, where all else counts on; none: nothing that was signed before counts.
    pub lost: Option<LostLine>,
}

impl Mended {
    /// The event that records it, in the log of this writer.
    pub(crate) fn event(&self, of: &WriterId, rest: &[u8]) -> EventKind {
        let (file, content) = (self.file.clone(), EventHash::of_file(rest));
        match &self.lost {
            Some(LostLine { kind, by }) => EventKind::LineLost {
                file,
                content,
                lost: *kind,
                by: by.clone(),
            },
            None => EventKind::SetAside {
                of: of.clone(),
                file,
                content,
            },
        }
    }

    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match &self.lost {
            Some(LostLine { kind, by }) => Message::new(
                "sign-torn-lost",
                [("file", &self.file), ("lost", &kind.key()), ("by", by)],
            ),
            None => Message::new("sign-torn-aside", [("file", &self.file)]),
        }
    }
}

impl LostKind {
    /// The key by which a text chooses its words.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Approval => "approval",
            Self::Opened => "opened",
            Self::Beside => "beside",
            Self::Note => "note",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sign::samples::*;

    /// Cut at any byte, each kind is read whole or not at all, and only those that take nothing are.
    #[test]
    fn of_a_line_that_was_cut_only_what_takes_nothing_is_read() {
        let mut seen = std::collections::BTreeSet::new();
        for kind in every_kind().into_iter().chain(added_kinds()) {
            let log = log_of("desk", [kind.clone()]);
            let line = log.events()[0].line();
            let name: serde_json::Value = serde_json::from_str(&line).unwrap();
            let name = name["what"]["kind"].as_str().unwrap().to_owned();
            let takes_nothing = ["approval", "opened", "beside", "note"].contains(&&*name);
            let end_of_kind = line.find(&format!("\"kind\":\"{name}\"")).unwrap();
            let end_of_kind = end_of_kind + name.len() + "\"kind\":\"\"".len();
            for end in 0..line.len() {
                let read = LostLine::of(&line.as_bytes()[..end], log.writer(), 1);
                let want = takes_nothing && end >= end_of_kind;
                assert_eq!(read.is_some(), want, "{name} {end}");
                if let Some(read) = read {
                    assert_eq!(read.kind.key(), name);
                    assert_eq!(read.by, log.events()[0].who);
                    seen.insert(name.clone());
                }
            }
            let rest = &line.as_bytes()[..line.len() - 3];
            let other = WriterId::new("room").unwrap();
            assert_eq!(LostLine::of(rest, &other, 1), None);
            assert_eq!(LostLine::of(rest, log.writer(), 2), None);
        }
        assert_eq!(seen.len(), 4);
        let zeros = [0; 512];
        assert_eq!(
            LostLine::of(&zeros, &WriterId::new("desk").unwrap(), 1),
            None
        );
    }
}
