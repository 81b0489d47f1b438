//! All that was signed beside a case, from whatever lies in its folder.

use super::beside::is_of as is_beside;
use super::error::{StoreError, StoreFault};
use super::events::{ENDING, EventsError, MOST_BYTES, events_folder};
use super::read_file;
use super::write::{is_file, is_free, is_link};
use crate::sign::{
    CaseJaw, Effect, EventHash, EventKind, Heads, Log, MergeFault, Merged, Problem, ProblemKind,
    WriterId, read_log,
};
use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

/// The events that were read beside a case.
#[derive(Debug)]
pub struct EventsBeside {
    /// All sound events. They are marked as broken where a problem stops.
    pub events: Merged,
    /// The problems of the files. Nothing of them is changed or lost.
    pub problems: Vec<Problem>,
}

/// How often a record with another break each time is read anew (no source).
const TRIES: usize = 10;

/// Bytes that every event has and hardly anything else.
const OF_EVENTS: &[u8] = b"\"prev_hash\"";

/// What a file in the folder is by its name.
enum Named {
    /// The events of a writer.
    Events,
    /// Events that were put aside.
    PutAside,
    /// The rest of a line that was never finished.
    Torn,
    /// Anything else.
    Other,
}

impl Named {
    fn of(name: &str) -> Self {
        let numbered = |ending: &str| {
            let number = name.rsplit_once(ending).map(|(_, number)| number);
            number.is_some_and(|n| !n.is_empty() && n.bytes().all(|digit| digit.is_ascii_digit()))
        };
        if name.ends_with(ENDING) {
            Self::Events
        } else if numbered(".damaged-") {
            Self::PutAside
        } else if numbered(".torn-") {
            Self::Torn
        } else {
            Self::Other
        }
    }

    /// True where what has this name may be a log, whatever it is and however the name is written.
    fn is_as_of_a_log(&self, name: &str) -> bool {
        !matches!(self, Self::PutAside | Self::Torn) && name.to_lowercase().contains(ENDING)
    }
}

/// What every `AppleDouble` file begins with: what other systems write beside each file on a disk that keeps no more of
/// it. Source: RFC 1740, appendix A.
const APPLE_DOUBLE: &[u8] = b"\x00\x05\x16\x07";

/// True for what systems leave in every folder by themselves and that holds nothing of events: it is none of a record.
pub(super) fn is_of_system(name: &str, bytes: &[u8]) -> bool {
    let is_named = match name.strip_prefix("._") {
        Some(_) => bytes.starts_with(APPLE_DOUBLE),
        None => [".DS_Store", "Thumbs.db", "desktop.ini"]
            .iter()
            .any(|system| name.eq_ignore_ascii_case(system)),
    };
    is_named && !holds_events(bytes)
}

/// True for bytes that may be of a log.
fn holds_events(bytes: &[u8]) -> bool {
    bytes.windows(OF_EVENTS.len()).any(|part| part == OF_EVENTS)
}

/// True for what a desk left or is leaving beside its log as it writes that anew: it holds nothing of events, or less than a
/// whole log, and the log lies beside it.
fn is_being_written(folder: &Path, name: &str, bytes: &[u8], case_jaw: &CaseJaw) -> bool {
    let log = name.strip_prefix('.').and_then(|name| {
        let end = name.find(ENDING)? + ENDING.len();
        name.get(..end)
    });
    let Some(log) = log.filter(|log| is_beside(OsStr::new(name), OsStr::new(log))) else {
        return false;
    };
    let is_whole = || {
        let problems = read_log(name, bytes, case_jaw).problems;
        problems.iter().all(|one| one.effect() == Effect::Noted)
    };
    let is_there = || is_file(&folder.join(log)).unwrap_or(false);
    !holds_events(bytes) || is_there() && !is_whole()
}

/// Names of logs that lie in a folder of the record, where none is read.
fn logs_within(folder: &Path) -> Result<Vec<String>, StoreError> {
    let refused = |error: std::io::Error| StoreError::reading(folder, &error);
    let entries = fs::read_dir(folder).map_err(refused)?;
    let entries = all_of(entries.map(|entry| entry.map(|entry| entry.path()))).map_err(refused)?;
    let mut found = Vec::new();
    for entry in entries {
        let name = entry.file_name().unwrap_or_default().to_string_lossy();
        let of_system = || {
            let bytes = read_file(&entry, MOST_BYTES);
            bytes.is_ok_and(|bytes| is_of_system(&name, &bytes))
        };
        if Named::of(&name).is_as_of_a_log(&name) && !of_system() {
            found.push(name.into_owned());
        }
    }
    Ok(found)
}

/// True if all that breaks a record is the torn last line of this writer's own file, which is mended as it signs.
#[must_use]
pub fn is_torn_alone(problems: &[Problem], writer: &WriterId) -> bool {
    let own = format!("{writer}{ENDING}");
    let mut stops = problems.iter().filter(|one| one.effect() == Effect::Stops);
    stops.all(|one| one.file == own && matches!(one.kind, ProblemKind::CutShort { .. }))
}

/// Reads all events beside a case, under whatever name. No folder means no events.
///
/// A problem that stops marks them all as broken: what cannot be read may have revoked the rest. Where another desk signs
/// between the reading of one file and of the next, or half a line is there yet, that is no problem a moment later.
///
/// # Errors
///
/// Fails if a file cannot be read from the disk, or the system does not answer what one is.
pub fn read_events(case_file: &Path, case_jaw: &CaseJaw) -> Result<EventsBeside, EventsError> {
    let mut read = read_once(case_file, case_jaw)?;
    for _ in 0..TRIES {
        if !read.events.is_broken() {
            break;
        }
        let again = read_once(case_file, case_jaw)?;
        let is_as_it_was = again.problems == read.problems;
        read = again;
        if is_as_it_was {
            break;
        }
    }
    Ok(read)
}

fn read_once(case_file: &Path, case_jaw: &CaseJaw) -> Result<EventsBeside, EventsError> {
    let folder = events_folder(case_file);
    let files: Vec<PathBuf> = match fs::read_dir(&folder) {
        Ok(entries) => all_of(entries.map(|entry| entry.map(|entry| entry.path())))
            .map_err(|error| StoreError::reading(&folder, &error))?,
        // A link that leads nowhere is a record that cannot be read.
        Err(error)
            if error.kind() == std::io::ErrorKind::NotFound
                && is_free(&folder).unwrap_or(false) =>
        {
            Vec::new()
        }
        Err(error) if error.kind() == std::io::ErrorKind::NotADirectory => {
            return Err(StoreError::new(&folder, StoreFault::NotFolder).into());
        }
        Err(error) => return Err(StoreError::reading(&folder, &error).into()),
    };
    let mut read = Read::default();
    for file in files {
        let name = file
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let named = Named::of(&name);
        match is_file(&file) {
            Ok(true) => {}
            Ok(false) => {
                if named.is_as_of_a_log(&name) {
                    read.problem(name, 1, ProblemKind::NoFile);
                } else if file.is_dir() && !matches!(named, Named::PutAside) {
                    for inner in logs_within(&file)? {
                        read.problem(format!("{name}/{inner}"), 1, ProblemKind::Within);
                    }
                }
                continue;
            }
            // A link whose end nobody can tell is itself no file, and can be put aside as that.
            Err(_) if is_link(&file) && named.is_as_of_a_log(&name) => {
                read.problem(name, 1, ProblemKind::NoFile);
                continue;
            }
            Err(_) if is_link(&file) && matches!(named, Named::PutAside) => {
                read.aside.push((name, EventHash::of_file(b"")));
                continue;
            }
            // Whatever its name, nobody knows what is in it.
            Err(error) => return Err(error.into()),
        }
        match read_file(&file, MOST_BYTES) {
            Ok(bytes) if is_of_system(&name, &bytes) => {}
            // What is being written beside a log is there whole or not at all.
            Ok(bytes) if is_being_written(&folder, &name, &bytes, case_jaw) => {}
            Ok(bytes) => read.file(name, &named, &bytes, case_jaw),
            // Whatever its name, nobody knows what is in it.
            Err(StoreError {
                fault: StoreFault::TooLarge { .. },
                ..
            }) => {
                let limit = usize::try_from(MOST_BYTES).unwrap_or(usize::MAX);
                read.problem(name, 1, ProblemKind::FileTooLarge { limit });
            }
            Err(error) => return Err(error.into()),
        }
    }
    Ok(read.together(case_jaw))
}

/// The same, held against the heads that the caller read earlier, which take in what is there now: one that is gone
/// since is lost, as one is that another writer had read.
///
/// # Errors
///
/// As [`read_events`].
pub fn read_events_knowing(
    case_file: &Path,
    case_jaw: &CaseJaw,
    known: &mut Heads,
) -> Result<EventsBeside, EventsError> {
    let mut beside = read_events(case_file, case_jaw)?;
    let gone = beside.events.gone_of(known);
    for (writer, head) in &gone {
        beside.problems.push(Problem {
            file: format!("{writer}{ENDING}"),
            line: line_of(head.seq),
            kind: ProblemKind::Gone { seq: head.seq },
        });
        beside.events.set_broken();
    }
    *known = beside.events.all_heads();
    known.extend(gone);
    Ok(beside)
}

/// The line of an event in its file, below the header.
fn line_of(seq: u64) -> usize {
    usize::try_from(seq.saturating_add(1)).unwrap_or(usize::MAX)
}

/// The entries of a folder, sorted by name. One that cannot be read might be an event file.
fn all_of(
    entries: impl Iterator<Item = std::io::Result<PathBuf>>,
) -> std::io::Result<Vec<PathBuf>> {
    let mut files = entries.collect::<std::io::Result<Vec<PathBuf>>>()?;
    files.sort();
    Ok(files)
}

/// What was read so far.
#[derive(Default)]
struct Read {
    /// The writers' own files.
    own: Vec<(String, Log)>,
    /// Events under another name than their writer's.
    elsewhere: Vec<(String, Log)>,
    /// What was put aside: name and content.
    aside: Vec<(String, EventHash)>,
    problems: Vec<Problem>,
}

impl Read {
    fn file(&mut self, name: String, named: &Named, bytes: &[u8], case_jaw: &CaseJaw) {
        let looks = holds_events(bytes);
        match named {
            Named::PutAside => self.aside.push((name, EventHash::of_file(bytes))),
            Named::Events => {
                let reading = read_log(&name, bytes, case_jaw);
                self.problems.extend(reading.problems);
                if let Some(log) = reading.log {
                    let own = format!("{}{ENDING}", log.writer()) == name;
                    let list = if own {
                        &mut self.own
                    } else {
                        &mut self.elsewhere
                    };
                    list.push((name, log));
                }
            }
            // Whole lines are no rest of one.
            Named::Torn if looks && bytes.contains(&b'\n') => {
                self.problem(name, 1, ProblemKind::Unreadable);
            }
            Named::Other if looks || named.is_as_of_a_log(&name) => {
                let reading = read_log(&name, bytes, case_jaw);
                let sound = reading.problems.iter().all(|p| p.effect() == Effect::Noted);
                match reading.log {
                    Some(log) if sound => self.elsewhere.push((name, log)),
                    _ => self.problem(name, 1, ProblemKind::Unreadable),
                }
            }
            _ => {}
        }
    }

    fn problem(&mut self, file: String, line: usize, kind: ProblemKind) {
        self.problems.push(Problem { file, line, kind });
    }

    fn together(mut self, case_jaw: &CaseJaw) -> EventsBeside {
        let mut events = Merged::none(case_jaw.clone());
        let mut length: BTreeMap<WriterId, usize> = BTreeMap::new();
        for (name, log) in std::mem::take(&mut self.own) {
            length.insert(log.writer().clone(), log.events().len());
            events = self.take(events, name, log);
        }
        for (name, log) in std::mem::take(&mut self.elsewhere) {
            let (writer, found) = (log.writer().clone(), log.events().len());
            let has_all = length.get(&writer).is_some_and(|own| found <= *own);
            let kind = if has_all {
                ProblemKind::Copy { writer }
            } else {
                ProblemKind::NotInPlace { writer }
            };
            let before = self.problems.len();
            events = self.take(events, name.clone(), log);
            // Of one that parts from the other, that is what there is to say.
            if self.problems.len() == before {
                self.problem(name, 1, kind);
            }
        }
        for lost in events.lost() {
            let (seq, read_by) = (lost.seq, lost.read_by);
            let line = line_of(seq);
            let file = format!("{}{ENDING}", lost.writer);
            self.problem(file, line, ProblemKind::Lost { seq, read_by });
        }
        let told: Vec<(String, EventHash)> = events
            .in_order()
            .into_iter()
            .filter_map(|event| match &event.kind {
                EventKind::SetAside { file, content, .. } => Some((file.clone(), *content)),
                _ => None,
            })
            .collect();
        for aside in std::mem::take(&mut self.aside) {
            if !told.contains(&aside) {
                self.problem(aside.0, 1, ProblemKind::PutAsideInSilence);
            }
        }
        if self
            .problems
            .iter()
            .any(|problem| problem.effect() == Effect::Stops)
        {
            events.set_broken();
        }
        EventsBeside {
            events,
            problems: self.problems,
        }
    }

    fn take(&mut self, events: Merged, name: String, log: Log) -> Merged {
        match events.clone().with(log) {
            Ok(events) => events,
            Err(MergeFault::Forked { writer, seq }) => {
                self.problem(name, 1, ProblemKind::Forked { writer, seq });
                events
            }
            // A log is read for this case and jaw alone.
            Err(_) => {
                self.problem(name, 1, ProblemKind::Unreadable);
                events
            }
        }
    }
}

#[cfg(test)]
mod tests;
