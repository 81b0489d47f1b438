//! Problems of an event file.

use super::event::{EventId, KindFault};
use super::log::CaseJaw;
use super::message::{Message, ToArgument};
use super::names::WriterId;
use crate::dentition::Jaw;
use crate::document::legible;
use std::fmt;

/// Something wrong with an event file, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The file as the caller named it.
    pub file: String,
    /// The line, from 1.
    pub line: usize,
    /// The fault.
    pub kind: ProblemKind,
}

/// The effect of a problem on the reading of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effect {
    /// The line is taken all the same; the problem is reported.
    Noted,
    /// Neither this line nor any below it is taken.
    Stops,
}

/// A kind of problem of an event file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ProblemKind {
    /// No line at all.
    Empty,
    /// More bytes than a file of events can have.
    FileTooLarge {
        /// Bytes that it may have.
        limit: usize,
    },
    /// Not written as UTF-8.
    OtherEncoding {
        /// The encoding by its first bytes.
        name: &'static str,
    },
    /// A byte order mark before the header.
    ByteOrderMark,
    /// Lines end in carriage return and line feed.
    CarriageReturns,
    /// The first line is no header.
    NotAnEventFile {
        /// The reader's expectation.
        detail: String,
    },
    /// A newer program wrote the file.
    NewerVersion {
        /// Version of the file.
        found: u64,
        /// The newest version that this program reads.
        known: u32,
    },
    /// Events of another case.
    OtherCase {
        /// The reference in the file.
        found: String,
        /// The reference asked for.
        expected: String,
    },
    /// Events of the other jaw.
    OtherJaw {
        /// The jaw in the file.
        found: Jaw,
        /// The jaw asked for.
        expected: Jaw,
    },
    /// A line with nothing on it.
    BlankLine,
    /// More bytes than a line can have.
    LineTooLong {
        /// Bytes of the line.
        found: usize,
        /// Bytes that it may have.
        limit: usize,
    },
    /// Bytes that are no UTF-8.
    NotUtf8 {
        /// The first such byte of the line, from 1.
        column: usize,
    },
    /// No JSON.
    NotJson {
        /// The place in the line, from 1.
        column: usize,
        /// The reader's expectation.
        detail: String,
    },
    /// JSON, but no event: an unknown, missing or repeated key, a value of a wrong type.
    NotAnEvent {
        /// The reader's expectation, with the key's name.
        detail: String,
    },
    /// An event of a kind that a newer program knows.
    UnknownKind {
        /// The kind's name in the file.
        name: String,
    },
    /// The event says what cannot be.
    Impossible(KindFault),
    /// The line's hash is not the hash of what the line says.
    Edited,
    /// The content is unchanged, but the line is not spelled as the program spells it.
    NotAsWritten,
    /// A line of another writer.
    OtherWriter {
        /// The writer of the line.
        found: WriterId,
        /// The writer of the file.
        expected: WriterId,
    },
    /// A line that was there before.
    Repeated {
        /// The line's number.
        found: u64,
        /// The number that is due.
        expected: u64,
    },
    /// Lines are missing before this one.
    Missing {
        /// The line's number.
        found: u64,
        /// The number that is due.
        expected: u64,
    },
    /// The line was written after another line than the one before it.
    ChainBroken,
    /// The event is earlier than the one before it.
    ClockWentBack {
        /// Time of the event before.
        before: jiff::Timestamp,
        /// Time of this event.
        at: jiff::Timestamp,
    },
    /// The file ends within the line, as after a power cut.
    CutShort {
        /// Bytes after the last sound line.
        bytes: usize,
    },
    /// The last line is whole, but its end is missing.
    NoLineEnd,
    /// A copy of a writer's events under another name, with nothing that the writer's own file lacks.
    Copy {
        /// The writer.
        writer: WriterId,
    },
    /// Events of a writer under another name than its own, which its own file lacks.
    NotInPlace {
        /// The writer.
        writer: WriterId,
    },
    /// Something that looks like events, under a name that no event file has, and is none that can be read.
    Unreadable,
    /// Something of the name of an event file that is no plain file: a link that leads nowhere, a folder, a device.
    NoFile,
    /// Something of the name of an event file in a folder of the record.
    Within,
    /// A file that was put aside, of which no event says so.
    PutAsideInSilence,
    /// Two files of one writer that differ: it was copied and both were written on.
    Forked {
        /// The writer.
        writer: WriterId,
        /// The first event that differs.
        seq: u64,
    },
    /// This program had read an event that is not there any more.
    Gone {
        /// The event that is not there.
        seq: u64,
    },
    /// Another writer had read an event that is not there.
    Lost {
        /// The event that is not there.
        seq: u64,
        /// The event whose writer had read it.
        read_by: EventId,
    },
}

impl ProblemKind {
    /// Its effect on the reading.
    #[must_use]
    pub const fn effect(&self) -> Effect {
        match self {
            Self::ByteOrderMark
            | Self::CarriageReturns
            | Self::BlankLine
            | Self::ClockWentBack { .. }
            | Self::NoLineEnd
            | Self::Copy { .. } => Effect::Noted,
            _ => Effect::Stops,
        }
    }

    fn message(&self) -> Message {
        match self {
            Self::Empty => Message::new("sign-file-empty", []),
            Self::FileTooLarge { limit } => Message::new("sign-file-too-large", [("limit", limit)]),
            Self::OtherEncoding { name } => {
                Message::new("sign-file-other-encoding", [("name", name)])
            }
            Self::ByteOrderMark => Message::new("sign-file-byte-order-mark", []),
            Self::CarriageReturns => Message::new("sign-file-carriage-returns", []),
            Self::NotAnEventFile { detail } => {
                Message::new("sign-file-not-an-event-file", [("detail", detail)])
            }
            Self::NewerVersion { found, known } => Message::new(
                "sign-file-newer-version",
                [("found", found), ("known", known)],
            ),
            Self::OtherCase { found, expected } => Message::new(
                "sign-file-other-case",
                [("found", found), ("expected", expected)],
            ),
            Self::OtherJaw { found, expected } => Message::new(
                "sign-file-other-jaw",
                [("found", found), ("expected", expected)],
            ),
            Self::BlankLine => Message::new("sign-file-blank-line", []),
            Self::LineTooLong { found, limit } => Message::new(
                "sign-file-line-too-long",
                [("found", found), ("limit", limit)],
            ),
            Self::NotUtf8 { column } => Message::new("sign-file-not-utf8", [("column", column)]),
            Self::NotJson { column, detail } => Message::new(
                "sign-file-not-json",
                [("column", column), ("detail", detail)],
            ),
            Self::NotAnEvent { detail } => {
                Message::new("sign-file-not-an-event", [("detail", detail)])
            }
            Self::UnknownKind { name } => Message::new("sign-file-unknown-kind", [("name", name)]),
            Self::Impossible(fault) => {
                Message::new("sign-file-impossible", [("detail", &fault.message())])
            }
            Self::Edited => Message::new("sign-file-edited", []),
            Self::NotAsWritten => Message::new("sign-file-not-as-written", []),
            Self::OtherWriter { found, expected } => Message::new(
                "sign-file-other-writer",
                [("found", found), ("expected", expected)],
            ),
            Self::Repeated { found, expected } => Message::new(
                "sign-file-repeated",
                [("found", found), ("expected", expected)],
            ),
            Self::Missing { found, expected } => Message::new(
                "sign-file-missing",
                [("found", found), ("expected", expected)],
            ),
            Self::ChainBroken => Message::new("sign-file-chain-broken", []),
            Self::ClockWentBack { before, at } => Message::new(
                "sign-file-clock-went-back",
                [("before", before), ("at", at)],
            ),
            Self::CutShort { bytes } => Message::new("sign-file-cut-short", [("bytes", bytes)]),
            Self::NoLineEnd => Message::new("sign-file-no-line-end", []),
            Self::Copy { writer } => Message::new("sign-file-copy", [("writer", writer)]),
            Self::NotInPlace { writer } => {
                Message::new("sign-file-not-in-place", [("writer", writer)])
            }
            Self::Unreadable => Message::new("sign-file-unreadable", []),
            Self::NoFile => Message::new("sign-file-no-file", []),
            Self::Within => Message::new("sign-file-within", []),
            Self::PutAsideInSilence => Message::new("sign-file-put-aside-in-silence", []),
            Self::Forked { writer, seq } => {
                Message::new("sign-file-forked", [("writer", writer), ("seq", seq)])
            }
            Self::Gone { seq } => Message::new("sign-file-gone", [("seq", seq)]),
            Self::Lost { seq, read_by } => {
                Message::new("sign-file-lost", [("seq", seq), ("by", read_by)])
            }
        }
    }

    /// Problems with one cause have one remedy.
    const fn remedy(&self) -> &'static str {
        match self {
            Self::ByteOrderMark | Self::CarriageReturns | Self::OtherEncoding { .. } => {
                "sign-remedy-converted"
            }
            Self::NewerVersion { .. } | Self::UnknownKind { .. } => "sign-remedy-update",
            Self::OtherCase { .. } | Self::OtherJaw { .. } => "sign-remedy-move",
            Self::BlankLine | Self::NoLineEnd | Self::Copy { .. } => "sign-remedy-none",
            Self::NotInPlace { .. } => "sign-remedy-rename",
            Self::Within => "sign-remedy-within",
            Self::ClockWentBack { .. } => "sign-remedy-clock",
            Self::CutShort { .. } => "sign-remedy-redo",
            Self::Empty | Self::FileTooLarge { .. } | Self::NotAnEventFile { .. } => {
                "sign-remedy-replace"
            }
            _ => "sign-remedy-restore",
        }
    }
}

impl ProblemKind {
    /// Of sound events of another case or jaw than was expected.
    pub(crate) fn elsewhere(found: CaseJaw, expected: &CaseJaw) -> Self {
        if found.case == expected.case {
            Self::OtherJaw {
                found: found.jaw,
                expected: expected.jaw,
            }
        } else {
            Self::OtherCase {
                found: found.case,
                expected: expected.case.clone(),
            }
        }
    }

    /// True for events of another case or jaw.
    #[must_use]
    pub const fn is_elsewhere(&self) -> bool {
        matches!(self, Self::OtherCase { .. } | Self::OtherJaw { .. })
    }
}

impl Problem {
    /// Its effect on the reading.
    #[must_use]
    pub const fn effect(&self) -> Effect {
        self.kind.effect()
    }

    /// The sentence that tells it; besides the arguments of its own, `file` and `line`.
    #[must_use]
    pub fn message(&self) -> Message {
        let mut message = self.kind.message();
        message
            .args
            .insert("file", legible(&self.file).to_argument());
        message.args.insert("line", self.line.to_argument());
        message
    }

    /// The remedy.
    #[must_use]
    pub fn remedy(&self) -> Message {
        Message::new(self.kind.remedy(), [("file", &legible(&self.file))])
    }
}

impl fmt::Display for Problem {
    /// For logs and tests: file, line, id and arguments.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}: {}", self.file, self.line, self.kind.message())
    }
}
