//! Reading an event file: every problem is reported, and what is sound is kept.

use super::event::{Event, EventHash, EventKind};
use super::log::{CaseJaw, Header, Log};
use super::problem::{Effect, Problem, ProblemKind};
use serde_json::Value;
use serde_json::error::Category;

/// Greatest size of an event file in bytes: a hundred thousand events.
const FILE_LIMIT: usize = 64 * 1024 * 1024;

/// The content of an event file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogReading {
    /// The events before the first problem that stops, none when the header is not sound.
    pub log: Option<Log>,
    /// Everything wrong, from top to bottom.
    pub problems: Vec<Problem>,
    /// End of the sound part, in bytes from the start of the file. Before the next event is
    /// appended, what comes behind has to be put aside and a missing line end be added.
    pub sound_bytes: usize,
}

/// Reads an event file of this case and jaw.
///
/// A line that ends with the file is *cut short*, as a power cut leaves it; a line whose hash is
/// not the hash of its content is *edited*. Events behind a problem that stops are not taken, but
/// their own problems are reported as well.
#[must_use]
pub fn read_log(file: &str, bytes: &[u8], expected: &CaseJaw) -> LogReading {
    let mut reader = Reader {
        file,
        expected,
        log: None,
        problems: Vec::new(),
        sound_bytes: 0,
        stopped: false,
        next: NextLine::default(),
    };
    reader.file(bytes);
    LogReading {
        log: reader.log,
        problems: reader.problems,
        sound_bytes: reader.sound_bytes,
    }
}

/// The case and jaw whose sound events these bytes are, whatever case they lie beside; a last line of them may be torn.
#[must_use]
pub fn sound_log_of(bytes: &[u8]) -> Option<CaseJaw> {
    let bare = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let first = bare.split(|byte| *byte == b'\n').next()?;
    let first = first.strip_suffix(b"\r").unwrap_or(first);
    let of = parse_header(first).ok()?.case_jaw();
    let reading = read_log("", bytes, &of);
    let is_torn = |kind: &ProblemKind| matches!(kind, ProblemKind::CutShort { .. });
    let mut problems = reading.problems.iter().map(|problem| &problem.kind);
    let is_sound = problems.all(|kind| kind.effect() == Effect::Noted || is_torn(kind));
    is_sound.then_some(of)
}

/// The things that the next line has to continue; nothing where the line before could not be read.
#[derive(Default)]
struct NextLine {
    seq: Option<u64>,
    prev_hash: Option<EventHash>,
    not_before: Option<jiff::Timestamp>,
    writer: Option<super::names::WriterId>,
}

struct Reader<'a> {
    file: &'a str,
    expected: &'a CaseJaw,
    log: Option<Log>,
    problems: Vec<Problem>,
    sound_bytes: usize,
    stopped: bool,
    next: NextLine,
}

/// The reason why a line is no JSON of the asked type, and the hash that it bears if it has one.
struct LineFault {
    kind: ProblemKind,
    hash: Option<EventHash>,
}

impl Reader<'_> {
    fn report(&mut self, line: usize, kind: ProblemKind) {
        self.stopped |= kind.effect() == Effect::Stops;
        self.problems.push(Problem {
            file: self.file.to_owned(),
            line,
            kind,
        });
    }

    fn file(&mut self, bytes: &[u8]) {
        if bytes.len() > FILE_LIMIT {
            return self.report(1, ProblemKind::FileTooLarge { limit: FILE_LIMIT });
        }
        if let Some(name) = other_encoding(bytes) {
            return self.report(1, ProblemKind::OtherEncoding { name });
        }
        let mut end = 0;
        let mut rest = bytes;
        if let Some(behind) = bytes.strip_prefix(b"\xef\xbb\xbf") {
            self.report(1, ProblemKind::ByteOrderMark);
            end = bytes.len() - behind.len();
            rest = behind;
        }
        if rest.is_empty() {
            return self.report(1, ProblemKind::Empty);
        }
        let mut returns_told = false;
        let mut number = 0;
        while !rest.is_empty() {
            number += 1;
            let feed = rest.iter().position(|byte| *byte == b'\n');
            let (line, behind) = rest.split_at(feed.map_or(rest.len(), |i| i + 1));
            rest = behind;
            if feed.is_none() {
                self.last_line(number, line, end);
                return;
            }
            end += line.len();
            let mut line = &line[..line.len() - 1];
            if let Some(bare) = line.strip_suffix(b"\r") {
                line = bare;
                if !returns_told {
                    self.report(number, ProblemKind::CarriageReturns);
                    returns_told = true;
                }
            }
            self.whole_line(number, line);
            if self.is_foreign() {
                return;
            }
            if !self.stopped {
                self.sound_bytes = end;
            }
        }
    }

    /// True if the first line shows that the rest is nothing that this program can read.
    fn is_foreign(&self) -> bool {
        self.problems.iter().any(|problem| {
            use ProblemKind::{NewerVersion, NotAnEventFile};
            matches!(problem.kind, NotAnEventFile { .. } | NewerVersion { .. })
        })
    }

    fn whole_line(&mut self, number: usize, line: &[u8]) {
        if number == 1 {
            self.header(line);
        } else if line.iter().all(u8::is_ascii_whitespace) {
            self.report(number, ProblemKind::BlankLine);
        } else {
            self.event(number, line);
        }
    }

    /// The bytes behind the last line end.
    fn last_line(&mut self, number: usize, bytes: &[u8], start: usize) {
        // Some file systems leave zero bytes where the data of an interrupted write should be.
        let zeros = bytes.iter().rev().take_while(|byte| **byte == 0).count();
        let line = bytes[..bytes.len() - zeros].trim_ascii_end();
        if is_cut(line) {
            let bytes = bytes.len();
            return self.report(number, ProblemKind::CutShort { bytes });
        }
        self.whole_line(number, line);
        if !self.stopped {
            self.report(number, ProblemKind::NoLineEnd);
            self.sound_bytes = start + line.len();
        }
    }

    fn header(&mut self, line: &[u8]) {
        let header = match parse_header(line) {
            Ok(header) => header,
            Err(kind) => return self.report(1, kind),
        };
        self.next = NextLine {
            seq: Some(1),
            prev_hash: Some(header.hash()),
            not_before: None,
            writer: Some(header.writer.clone()),
        };
        if header.case != self.expected.case {
            let kind = ProblemKind::OtherCase {
                found: header.case.clone(),
                expected: self.expected.case.clone(),
            };
            self.report(1, kind);
        }
        if header.jaw != self.expected.jaw {
            let kind = ProblemKind::OtherJaw {
                found: header.jaw,
                expected: self.expected.jaw,
            };
            self.report(1, kind);
        }
        if !self.stopped {
            self.log = Some(Log::of_header(header));
        }
    }

    fn event(&mut self, number: usize, line: &[u8]) {
        let event = match parse_event(line) {
            Ok(event) => event,
            Err(fault) => {
                self.report(number, fault.kind);
                // A line that bears a hash was an event; of any other nobody knows what it was.
                let seq = self.next.seq.filter(|_| fault.hash.is_some());
                self.next.seq = seq.map(|seq| seq.saturating_add(1));
                self.next.prev_hash = fault.hash;
                return;
            }
        };
        if let Some(kind) = self.fault_of(&event, line) {
            // A line that does not belong here leaves what is due as it was.
            if !matches!(
                kind,
                ProblemKind::OtherWriter { .. } | ProblemKind::Repeated { .. }
            ) {
                self.next.prev_hash = Some(event.hash);
                let seq = match kind {
                    ProblemKind::Missing { found, .. } => Some(found),
                    _ => self.next.seq,
                };
                self.next.seq = seq.map(|seq| seq.saturating_add(1));
            }
            return self.report(number, kind);
        }
        if let Some(before) = self.next.not_before.filter(|before| event.at < *before) {
            let at = event.at;
            self.report(number, ProblemKind::ClockWentBack { before, at });
        }
        self.next.seq = Some(event.seq.saturating_add(1));
        self.next.prev_hash = Some(event.hash);
        self.next.not_before = Some(event.at);
        if let Some(log) = self.log.as_mut().filter(|_| !self.stopped) {
            log.take(event);
        }
    }

    /// The first thing wrong with an event that could be read.
    fn fault_of(&self, event: &Event, line: &[u8]) -> Option<ProblemKind> {
        if let Some(expected) = self.next.writer.as_ref().filter(|w| **w != event.writer) {
            return Some(ProblemKind::OtherWriter {
                found: event.writer.clone(),
                expected: expected.clone(),
            });
        }
        if event.computed_hash() != event.hash {
            return Some(ProblemKind::Edited);
        }
        if event.line().as_bytes() != line {
            return Some(ProblemKind::NotAsWritten);
        }
        if let Err(fault) = event.kind.check() {
            return Some(ProblemKind::Impossible(fault));
        }
        let found = event.seq;
        match self.next.seq {
            Some(expected) if found < expected => {
                return Some(ProblemKind::Repeated { found, expected });
            }
            Some(expected) if found > expected => {
                return Some(ProblemKind::Missing { found, expected });
            }
            _ => {}
        }
        let follows = self.next.prev_hash.is_none_or(|due| due == event.prev_hash);
        (!follows).then_some(ProblemKind::ChainBroken)
    }
}

fn other_encoding(bytes: &[u8]) -> Option<&'static str> {
    match bytes {
        [0xff, 0xfe, 0, 0, ..] | [0, 0, 0xfe, 0xff, ..] => Some("UTF-32"),
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] | [b'{', 0, ..] | [0, b'{', ..] => Some("UTF-16"),
        _ => None,
    }
}

/// True if the bytes are the beginning of a line and not a whole one.
fn is_cut(line: &[u8]) -> bool {
    match str::from_utf8(line) {
        Ok(text) => serde_json::from_str::<Value>(text).is_err_and(|e| e.is_eof()),
        Err(e) => {
            let before = serde_json::from_slice::<Value>(&line[..e.valid_up_to()]);
            e.error_len().is_none() && before.is_err_and(|e| e.is_eof())
        }
    }
}

/// The only place that turns a line into JSON.
fn parse(line: &[u8]) -> Result<(Value, &str), ProblemKind> {
    let (found, limit) = (line.len(), Log::LINE_LIMIT);
    if found > limit {
        return Err(ProblemKind::LineTooLong { found, limit });
    }
    let text = str::from_utf8(line).map_err(|e| ProblemKind::NotUtf8 {
        column: e.valid_up_to() + 1,
    })?;
    let value = serde_json::from_str(text).map_err(|e| ProblemKind::NotJson {
        column: e.column(),
        detail: detail(&e),
    })?;
    Ok((value, text))
}

fn parse_header(line: &[u8]) -> Result<Header, ProblemKind> {
    let not = |detail: String| ProblemKind::NotAnEventFile { detail };
    let (value, text) = match parse(line) {
        Ok(parsed) => parsed,
        Err(ProblemKind::NotJson { detail, .. }) => return Err(not(detail)),
        Err(other) => return Err(other),
    };
    let known = Header::VERSION;
    match value.get("traywright_events").and_then(Value::as_u64) {
        Some(found) if found > u64::from(known) => {
            return Err(ProblemKind::NewerVersion { found, known });
        }
        Some(found) if found == u64::from(known) => {}
        _ => return Err(not("no traywright_events of this version".to_owned())),
    }
    let header: Header = serde_json::from_str(text).map_err(|e| not(detail(&e)))?;
    if header.line() == text {
        Ok(header)
    } else {
        Err(ProblemKind::NotAsWritten)
    }
}

fn parse_event(line: &[u8]) -> Result<Event, LineFault> {
    let (value, text) = parse(line).map_err(|kind| LineFault { kind, hash: None })?;
    let hash = value.get("hash").cloned();
    let hash = hash.and_then(|hash| serde_json::from_value(hash).ok());
    let kind = value.pointer("/what/kind").and_then(Value::as_str);
    if let Some(name) = kind.filter(|name| !EventKind::NAMES.contains(name)) {
        let name = name.to_owned();
        let kind = ProblemKind::UnknownKind { name };
        return Err(LineFault { kind, hash });
    }
    serde_json::from_str(text).map_err(|e| LineFault {
        kind: ProblemKind::NotAnEvent { detail: detail(&e) },
        hash,
    })
}

/// The reader's own words without the place, which is given in the file's terms.
fn detail(error: &serde_json::Error) -> String {
    let text = error.to_string();
    debug_assert!(
        error.classify() != Category::Io,
        "bytes are read from memory"
    );
    match text.rsplit_once(" at line ") {
        Some((words, _)) => words.to_owned(),
        None => text,
    }
}
