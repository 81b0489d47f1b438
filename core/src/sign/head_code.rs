//! The end of a log as it stands on paper: so many events of a desk, and a short code of the last.

use super::event::{EventId, EventKind};
use super::fingerprint::Fingerprint;
use super::heads::Head;
use super::merge::Merged;
use super::names::WriterId;
use std::fmt;
use std::str::FromStr;

/// The end of a desk's log when something was printed: `desk 12: 8RWD 5JTC 0N4K`.
///
/// Each event holds the hash of the one before it and of what its desk had read of others, so that the code of
/// one stands for all of them up to it. It proves nothing of what came later, nor who wrote it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeadCode {
    /// The desk.
    pub writer: WriterId,
    /// Number of its events.
    pub seq: u64,
    /// The first 60 bits of a digest of the last event's hash.
    pub code: Fingerprint,
}

/// Whether a record still holds the end of a log that is on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// It does, and so everything up to there as it was: the desk's own events and all that it had read of others.
    Yes,
    /// The event is there, but not all that it stands for can be shown to be as it was: the record is broken, or
    /// something of it is gone or was put aside.
    Apart,
    /// The desk's log ends before it, at this event; 0: there is none of it.
    EndsAt(u64),
    /// What can be read of the desk's log ends before it, at this event, and the record is broken.
    Unread(u64),
    /// A log of the desk was put aside, and what is there now does not hold it.
    PutAside,
    /// The event of that number is another one.
    Other,
}

impl HeadCode {
    fn of(writer: &WriterId, head: Head) -> Self {
        Self {
            writer: writer.clone(),
            seq: head.seq,
            code: Fingerprint::of_bytes(head.hash.to_string().as_bytes()),
        }
    }
}

impl Merged {
    /// The end of each log, for paper.
    #[must_use]
    pub fn head_codes(&self) -> Vec<HeadCode> {
        let heads = self.all_heads();
        let of = |(writer, head): (&WriterId, &Head)| HeadCode::of(writer, *head);
        heads.iter().map(of).collect()
    }

    /// Whether the record holds the end of a log that is on paper.
    #[must_use]
    pub fn holds(&self, on_paper: &HeadCode) -> Holds {
        let log = self.logs().find(|log| *log.writer() == on_paper.writer);
        let events = log.map_or(&[][..], |log| log.events());
        let (timed, lost) = self.timed_and_lost();
        let put_aside = || {
            let mut kinds = timed.iter().map(|timed| &timed.event.kind);
            kinds.any(
                |kind| matches!(kind, EventKind::SetAside { of, .. } if *of == on_paper.writer),
            )
        };
        let Some(event) = events.iter().find(|event| event.seq == on_paper.seq) else {
            let has = events.last().map_or(0, |last| last.seq);
            return if self.is_broken() {
                Holds::Unread(has)
            } else if put_aside() {
                Holds::PutAside
            } else {
                Holds::EndsAt(has)
            };
        };
        let (seq, hash) = (event.seq, event.hash);
        if HeadCode::of(&on_paper.writer, Head { seq, hash }) != *on_paper {
            return if put_aside() {
                Holds::PutAside
            } else {
                Holds::Other
            };
        }
        // Also what was put aside since, which breaks nothing any more, is not as it was.
        let this = timed.iter().find(|timed| timed.event.id() == event.id());
        let has_read = |id: &EventId| {
            let read = self.event(id);
            read.is_some_and(|read| this.is_some_and(|this| this.known.includes(read)))
        };
        if self.is_broken() || lost.iter().any(|lost| has_read(&lost.read_by)) {
            Holds::Apart
        } else {
            Holds::Yes
        }
    }
}

impl fmt::Display for HeadCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}: {}", self.writer, self.seq, self.code)
    }
}

/// A text that is no code of a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("not a desk, a number of events and a code of twelve characters")]
pub struct NoHeadCode;

impl FromStr for HeadCode {
    type Err = NoHeadCode;

    /// Reads what a person types from paper: desk, number and code, with or without the colon.
    fn from_str(text: &str) -> Result<Self, NoHeadCode> {
        let text = text.trim();
        let (writer, rest) = text.split_once(char::is_whitespace).ok_or(NoHeadCode)?;
        let rest = rest.trim_start();
        let (seq, code) = rest
            .split_once(|c: char| c.is_whitespace() || c == ':')
            .ok_or(NoHeadCode)?;
        Ok(Self {
            writer: WriterId::new(&writer.to_lowercase()).map_err(|_| NoHeadCode)?,
            seq: seq.parse().ok().filter(|seq| *seq > 0).ok_or(NoHeadCode)?,
            code: code
                .trim_start_matches(':')
                .parse()
                .map_err(|_| NoHeadCode)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sign::samples::*;
    use crate::sign::{EventKind, Log};

    fn notes(desk: &str, texts: &[&str]) -> Log {
        let note = |text: &&str| EventKind::Note {
            text: (*text).to_owned(),
        };
        log_of(desk, texts.iter().map(note))
    }

    fn record(logs: impl IntoIterator<Item = Log>) -> Merged {
        Merged::of(case_jaw(), logs).unwrap()
    }

    #[test]
    fn what_was_removed_or_replaced_since_is_found_and_what_was_added_is_not_asked_for() {
        let printed = record([notes("desk", &["a", "b"]), notes("room-2", &["c"])]).head_codes();
        let [desk, room] = &printed[..] else {
            panic!("{printed:?}")
        };
        for (logs, want) in [
            (
                vec![notes("desk", &["a", "b"])],
                [Holds::Yes, Holds::EndsAt(0)],
            ),
            (
                vec![notes("desk", &["a"]), notes("room-2", &["c", "d"])],
                [Holds::EndsAt(1), Holds::Yes],
            ),
            (
                vec![notes("desk", &["x", "b", "z"]), notes("room-2", &["c"])],
                [Holds::Other, Holds::Yes],
            ),
            (vec![], [Holds::EndsAt(0), Holds::EndsAt(0)]),
        ] {
            let now = record(logs);
            assert_eq!([now.holds(desk), now.holds(room)], want);
        }
    }

    #[test]
    fn a_code_is_read_as_it_is_printed_and_as_it_is_typed() {
        let code = &record([notes("room-2", &["a", "b"])]).head_codes()[0];
        let printed = code.to_string();
        let bare = printed.replace(':', "");
        let tight = format!("room-2 2 {}", code.code.to_string().replace(' ', ""));
        for text in [
            &printed,
            &bare,
            &tight.to_lowercase(),
            &format!(" {printed} "),
        ] {
            assert_eq!(text.parse(), Ok(code.clone()), "{text}");
        }
        for text in [
            "",
            "room-2",
            "room-2 2",
            "room-2 x 8RWD 5JTC 0N4K",
            "room-2 0 8RWD 5JTC 0N4K",
            "2 8RWD 5JTC 0N4",
        ] {
            assert_eq!(text.parse::<HeadCode>(), Err(NoHeadCode), "{text}");
        }
    }
}
