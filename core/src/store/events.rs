//! The event files beside a case: one folder, one file per writer, written by appending only.

use super::error::StoreError;
use super::{read_file, write_safely};
use crate::sign::{
    CaseJaw, Effect, EventKind, Log, MergeFault, Merged, Problem, ProblemKind, Who, WriterId,
    read_log,
};
use jiff::Timestamp;
use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// Most bytes of one event file.
const MOST_BYTES: u64 = 64 * 1024 * 1024;

/// Ending of an event file.
const ENDING: &str = "events.jsonl";

/// What was read beside a case.
#[derive(Debug)]
pub struct EventsBeside {
    /// All sound events.
    pub events: Merged,
    /// What is wrong with the files. Nothing of them is changed or lost.
    pub problems: Vec<Problem>,
}

/// Why event files could not be read or written.
#[derive(Debug, thiserror::Error)]
pub enum EventsError {
    /// The disk refused.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The files do not belong together.
    #[error("{}", .0.message())]
    Merge(MergeFault),
    /// The writer's own file is damaged; it is left as it is.
    #[error("{file} is damaged at line {line}")]
    Damaged {
        /// The file.
        file: String,
        /// The first bad line.
        line: usize,
        /// Everything that is wrong with it.
        problems: Vec<Problem>,
    },
    /// The event itself cannot be recorded.
    #[error(transparent)]
    Append(#[from] crate::sign::AppendFault),
}

/// The folder of event files beside a case: its file name with `.signed` in place of `.json`.
#[must_use]
pub fn events_folder(case_file: &Path) -> PathBuf {
    case_file.with_extension("signed")
}

/// Reads all event files beside a case. No folder means no events.
///
/// # Errors
///
/// When a file cannot be read from the disk, or two files of one writer tell different stories.
pub fn read_events(case_file: &Path, case_jaw: &CaseJaw) -> Result<EventsBeside, EventsError> {
    let folder = events_folder(case_file);
    let mut files: Vec<PathBuf> = match fs::read_dir(&folder) {
        Ok(entries) => entries
            .filter_map(|entry| entry.ok().map(|entry| entry.path()))
            .filter(|path| path.to_string_lossy().ends_with(ENDING))
            .collect(),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Vec::new(),
        Err(error) => return Err(StoreError::reading(&folder, &error).into()),
    };
    files.sort();
    let mut logs = Vec::new();
    let mut problems = Vec::new();
    for file in files {
        let bytes = read_file(&file, MOST_BYTES)?;
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let reading = read_log(&name, &bytes, case_jaw);
        problems.extend(reading.problems);
        logs.extend(reading.log);
    }
    Ok(EventsBeside {
        events: Merged::of(case_jaw.clone(), logs).map_err(EventsError::Merge)?,
        problems,
    })
}

/// Appends one event to a writer's file beside a case and brings it to the disk.
///
/// What a power cut left of a last line is first put aside in a file of its own; a missing line end
/// is added.
///
/// # Errors
///
/// When the writer's file is damaged: it is left untouched, so that nothing is lost or hidden by
/// what is written after it; when the disk refuses; when the event cannot be recorded.
pub fn append_event(
    case_file: &Path,
    case_jaw: &CaseJaw,
    writer: WriterId,
    at: Timestamp,
    who: Who,
    kind: EventKind,
) -> Result<(), EventsError> {
    let folder = events_folder(case_file);
    let file = folder.join(format!("{writer}.{ENDING}"));
    if !file.exists() {
        fs::create_dir_all(&folder).map_err(|error| StoreError::writing(&folder, &error))?;
        write_safely(&file, Log::new(case_jaw, writer.clone()).text().as_bytes())?;
    }
    let refused = |error: std::io::Error| StoreError::writing(&file, &error);
    let mut open = fs::OpenOptions::new()
        .append(true)
        .open(&file)
        .map_err(refused)?;
    // Two programs of one desk must not both continue from the same last event.
    open.lock().map_err(refused)?;
    let bytes = read_file(&file, MOST_BYTES)?;
    let (mut log, sound_bytes) = own_log(&file, &bytes, case_jaw, &writer)?;
    let (_, mut line) = log.append(at, who, kind)?;
    let torn = bytes.get(sound_bytes..).unwrap_or_default();
    if !torn.is_empty() {
        put_aside(&file, torn)?;
        open.set_len(sound_bytes as u64).map_err(refused)?;
    }
    if sound_bytes > 0 && bytes.get(sound_bytes - 1) != Some(&b'\n') {
        line.insert(0, '\n');
    }
    open.write_all(line.as_bytes()).map_err(refused)?;
    open.sync_all().map_err(refused)?;
    Ok(())
}

/// A writer's own log and how much of the file it is.
///
/// The rest is a last line that was never finished, or nothing.
fn own_log(
    file: &Path,
    bytes: &[u8],
    case_jaw: &CaseJaw,
    writer: &WriterId,
) -> Result<(Log, usize), EventsError> {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let mut reading = read_log(&name, bytes, case_jaw);
    // A copy under another desk's name: going on in it would give its writer two histories.
    let other = reading.log.as_ref().map(Log::writer);
    if let Some(found) = other.filter(|found| *found != writer).cloned() {
        reading.problems.push(Problem {
            file: name.clone().into_owned(),
            line: 1,
            kind: ProblemKind::OtherWriter {
                found,
                expected: writer.clone(),
            },
        });
    }
    let only_torn = reading.problems.iter().all(|problem| {
        problem.effect() == Effect::Noted || matches!(problem.kind, ProblemKind::CutShort { .. })
    });
    match reading.log {
        Some(log) if only_torn => Ok((log, reading.sound_bytes)),
        _ => Err(EventsError::Damaged {
            file: name.into_owned(),
            line: reading.problems.first().map_or(0, |problem| problem.line),
            problems: reading.problems,
        }),
    }
}

/// Keeps what was torn off an event file in the first free `FILE.torn-N` beside it.
fn put_aside(file: &Path, torn: &[u8]) -> Result<(), StoreError> {
    let beside = |n: u32| {
        let mut name = file.as_os_str().to_owned();
        name.push(format!(".torn-{n}"));
        PathBuf::from(name)
    };
    let free = (1..1000).map(beside).find(|path| !path.exists());
    write_safely(&free.unwrap_or_else(|| beside(1000)), torn)
}
