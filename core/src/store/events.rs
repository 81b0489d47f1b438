//! The event files beside a case: one folder, one file per writer, written by appending only.

use super::error::{StoreError, StoreFault};
use super::record::read_events;
use super::write::{is_file, is_free};
use super::{Private, read_file, write_safely};
use crate::sign::{
    CaseJaw, Effect, EventKind, Heads, Log, LostLine, Mended, Problem, ProblemKind, Who, WriterId,
    read_log,
};
use jiff::Timestamp;
use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// Most bytes of one event file.
pub(super) const MOST_BYTES: u64 = 64 * 1024 * 1024;

/// Ending of an event file; before it comes the writer.
pub(super) const ENDING: &str = ".events.jsonl";

/// A reason why event files could not be read or written.
#[derive(Debug, thiserror::Error)]
pub enum EventsError {
    /// The disk refused.
    #[error(transparent)]
    Store(#[from] StoreError),
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
    /// Events of another case lie there, which are not put aside from here.
    #[error("{0}")]
    OfAnotherCase(Problem),
    /// The event itself cannot be recorded.
    #[error(transparent)]
    Append(#[from] crate::sign::AppendFault),
}

/// The folder of event files beside a case: its file name with `.signed` in place of `.json`.
#[must_use]
pub fn events_folder(case_file: &Path) -> PathBuf {
    case_file.with_extension("signed")
}

/// Appends one event to a writer's file beside a case and brings it to the disk.
///
/// The torn rest of a last line, as a power cut leaves it, is first put aside in a file of its own; that is recorded by an
/// event before this one, and given back. A missing line end is added.
///
/// # Errors
///
/// Fails if the writer's file is damaged: it is left untouched, so that nothing is lost or hidden
/// by lines written after it; if the disk refuses; if the event cannot be recorded.
pub fn append_event(
    case_file: &Path,
    case_jaw: &CaseJaw,
    writer: &WriterId,
    at: Timestamp,
    who: Who,
    kind: EventKind,
) -> Result<Option<Mended>, EventsError> {
    let folder = events_folder(case_file);
    let file = folder.join(format!("{writer}{ENDING}"));
    let private = Private::like(case_file);
    // Only where the case is: a folder that was renamed meanwhile is not made anew for its record alone.
    private
        .folder(&folder)
        .map_err(|error| StoreError::writing(&folder, &error))?;
    // Two programs of one desk must not both continue from the same last event, nor both begin the
    // file: whether it is there is asked under the lock only. An empty file is no new one: its
    // events are gone, and that is told.
    let _held = hold(&folder.join(format!("{writer}.lock")), private)?;
    // What may be there, where the system does not answer, is never begun anew.
    if is_free(&file).map_err(|error| StoreError::reading(&file, &error))? {
        let first = Log::new(case_jaw, writer.clone()).text();
        write_safely(&file, first.as_bytes(), private)?;
    }
    let refused = |error: std::io::Error| StoreError::writing(&file, &error);
    // Looked at before it is opened: opening a pipe would wait for a reader.
    let bytes = read_file(&file, MOST_BYTES)?;
    let mut open = fs::OpenOptions::new()
        .append(true)
        .open(&file)
        .map_err(refused)?;
    let mut own = Own::of(case_file, &file, &bytes, (case_jaw, writer))?;
    let mended = own.mend(&file, at, &who)?;
    own.append(at, who, kind)?;
    if !own.rest.is_empty() {
        own.replace(&file, private)?;
        return Ok(mended);
    }
    let length = open.metadata().map_err(refused)?.len();
    add(&mut open, length, own.lines.as_bytes()).map_err(|(error, taken_back)| {
        if taken_back {
            refused(error)
        } else {
            StoreError::new(&file, StoreFault::Doubt(error.to_string()))
        }
    })?;
    Ok(None)
}

/// Puts the torn rest of a last line of a writer's own file aside, as a power cut leaves it, and records that; nothing where
/// the file has no such rest, or anything else is wrong with it, which is left for [`super::read_events`] to tell.
///
/// # Errors
///
/// The disk refuses.
pub fn mend_torn(
    case_file: &Path,
    case_jaw: &CaseJaw,
    writer: &WriterId,
    at: Timestamp,
    who: &Who,
) -> Result<Option<Mended>, EventsError> {
    let folder = events_folder(case_file);
    let file = folder.join(format!("{writer}{ENDING}"));
    // Of what is no plain file, or of which the system does not answer, the reader tells.
    let Ok(true) = is_file(&file) else {
        return Ok(None);
    };
    let private = Private::like(case_file);
    let _held = hold(&folder.join(format!("{writer}.lock")), private)?;
    let bytes = read_file(&file, MOST_BYTES)?;
    let mut own = match Own::of(case_file, &file, &bytes, (case_jaw, writer)) {
        Err(EventsError::Damaged { .. }) => return Ok(None),
        own => own?,
    };
    let mended = own.mend(&file, at, who)?;
    if mended.is_some() {
        own.replace(&file, private)?;
    }
    Ok(mended)
}

/// A writer's own log as it is continued.
struct Own<'a> {
    log: Log,
    /// Its part of the file.
    sound: &'a [u8],
    /// What stands behind it: a last line that was never finished, or blanks of one that was.
    rest: &'a [u8],
    /// True if that is a line that was never finished.
    is_torn: bool,
    /// What the writer had read of the others.
    seen: Heads,
    /// True if another writer had read an event of it that is not there.
    has_lost: bool,
    /// What is to stand behind the sound part.
    lines: String,
}

impl<'a> Own<'a> {
    fn of(
        case_file: &Path,
        file: &Path,
        bytes: &'a [u8],
        (case_jaw, writer): (&CaseJaw, &WriterId),
    ) -> Result<Self, EventsError> {
        let (log, sound_bytes, is_torn) = own_log(file, bytes, case_jaw, writer)?;
        let (sound, rest) = bytes.split_at(sound_bytes);
        let read = read_events(case_file, case_jaw)?.events;
        let ends = sound.is_empty() || sound.ends_with(b"\n");
        Ok(Self {
            log,
            sound,
            rest,
            is_torn,
            seen: read.heads(writer),
            has_lost: read.lost().iter().any(|lost| lost.writer == *writer),
            lines: if ends { "" } else { "\n" }.to_owned(),
        })
    }

    fn append(&mut self, at: Timestamp, who: Who, kind: EventKind) -> Result<(), EventsError> {
        let (_, line) = self.log.append_knowing(self.seen.clone(), at, who, kind)?;
        self.lines.push_str(&line);
        Ok(())
    }

    /// Adds the event that tells of a line that was never finished, where there is one. What another writer had read is lost whatever its rest says.
    fn mend(
        &mut self,
        file: &Path,
        at: Timestamp,
        who: &Who,
    ) -> Result<Option<Mended>, EventsError> {
        if !self.is_torn {
            return Ok(None);
        }
        let writer = self.log.writer().clone();
        let due = self.log.events().len() as u64 + 1;
        let lost = LostLine::of(self.rest, &writer, due).filter(|_| !self.has_lost);
        let aside = free_name(file, "torn");
        let aside = aside.file_name().unwrap_or_default().to_string_lossy();
        let mended = Mended {
            file: aside.into_owned(),
            lost,
        };
        let kind = mended.event(&writer, self.rest);
        self.append(at, who.clone(), kind)?;
        Ok(Some(mended))
    }

    /// Keeps the rest beside the file and puts the file with its new lines in its place, in one step: at no moment is there
    /// a sound file that says nothing of it.
    fn replace(&self, file: &Path, private: Private) -> Result<(), EventsError> {
        // Under the lock the name that is free is the one that was told.
        let beside = free_name(file, "torn");
        keep(&beside, file, self.rest).map_err(|error| StoreError::writing(&beside, &error))?;
        let whole = [self.sound, self.lines.as_bytes()].concat();
        Ok(write_safely(file, &whole, private)?)
    }
}

/// A file to which lines are added.
trait Lines: std::io::Write {
    /// Brings it to the disk.
    fn sync(&self) -> std::io::Result<()>;
    /// Takes everything behind this length away.
    fn cut(&self, length: u64) -> std::io::Result<()>;
}

impl Lines for fs::File {
    fn sync(&self) -> std::io::Result<()> {
        self.sync_all()
    }

    fn cut(&self, length: u64) -> std::io::Result<()> {
        self.set_len(length)
    }
}

/// Adds a line to a file of this length and brings it to the disk. Where that fails, whatever came of it is taken back:
/// gives the reason, and whether that was done, so that the file is what it was.
fn add(to: &mut impl Lines, length: u64, line: &[u8]) -> Result<(), (std::io::Error, bool)> {
    let added = to.write_all(line).and_then(|()| to.sync());
    added.map_err(|error| {
        let taken_back = to.cut(length).and_then(|()| to.sync());
        (error, taken_back.is_ok())
    })
}

/// Waits until nobody else holds this lock file, and holds it until it is dropped.
fn hold(lock: &Path, private: Private) -> Result<fs::File, StoreError> {
    let refused = |error: std::io::Error| StoreError::writing(lock, &error);
    let open = private
        .file()
        .create(true)
        .append(true)
        .open(lock)
        .map_err(refused)?;
    open.lock().map_err(refused)?;
    Ok(open)
}

/// A writer's own log and how much of the file it is.
///
/// The rest is a last line that was never finished, which is said too, or nothing but blanks.
fn own_log(
    file: &Path,
    bytes: &[u8],
    case_jaw: &CaseJaw,
    writer: &WriterId,
) -> Result<(Log, usize, bool), EventsError> {
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
    let is_cut = |problem: &Problem| matches!(problem.kind, ProblemKind::CutShort { .. });
    let mut problems = reading.problems.iter();
    let only_torn = problems.all(|one| one.effect() == Effect::Noted || is_cut(one));
    let is_torn = reading.problems.iter().any(is_cut);
    match reading.log {
        Some(log) if only_torn => Ok((log, reading.sound_bytes, is_torn)),
        _ => Err(EventsError::Damaged {
            file: name.into_owned(),
            line: reading.problems.first().map_or(0, |problem| problem.line),
            problems: reading.problems,
        }),
    }
}

/// True if events lie beside a case file, of whatever case.
///
/// # Errors
///
/// The system does not say what lies there.
pub fn has_events(case_file: &Path) -> Result<bool, StoreError> {
    let folder = events_folder(case_file);
    let refused = |error: std::io::Error| StoreError::reading(&folder, &error);
    if is_free(&folder).map_err(refused)? {
        return Ok(false);
    }
    for entry in fs::read_dir(&folder).map_err(refused)? {
        let name = entry.map_err(refused)?.file_name();
        if name.to_string_lossy().contains("events") {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Keeps the damaged content of a file in the first free `FILE.damaged-N` beside it, and says in which.
///
/// # Errors
///
/// The disk refuses.
pub fn keep_aside(file: &Path, bytes: &[u8]) -> Result<PathBuf, StoreError> {
    put_aside(file, "damaged", bytes)
}

/// Keeps bytes of a file in the first free `FILE.WHY-N` beside it. What was put aside before is never
/// written over.
fn put_aside(file: &Path, why: &str, bytes: &[u8]) -> Result<PathBuf, StoreError> {
    loop {
        let beside = free_name(file, why);
        match keep(&beside, file, bytes) {
            Ok(()) => return Ok(beside),
            // Another program was first.
            Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(StoreError::writing(&beside, &error)),
        }
    }
}

/// Writes bytes of a file into a new one beside it, as private as it, and brings them to the disk.
fn keep(beside: &Path, like: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let mut new = Private::like(like).file();
    let mut open = new.write(true).create_new(true).open(beside)?;
    open.write_all(bytes)?;
    open.sync_all()
}

/// The first of the names `FILE.WHY-1`, `FILE.WHY-2` … that nothing has.
pub(super) fn free_name(file: &Path, why: &str) -> PathBuf {
    let named = |n: u32| {
        let mut name = file.as_os_str().to_owned();
        name.push(format!(".{why}-{n}"));
        PathBuf::from(name)
    };
    let free = (1..u32::MAX)
        .map(named)
        .find(|name| is_free(name).unwrap_or(false));
    free.unwrap_or_else(|| named(u32::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dentition::Jaw;

    fn case_jaw() -> CaseJaw {
        CaseJaw {
            case: "T-1".to_owned(),
            jaw: Jaw::Lower,
        }
    }

    fn note(case_file: &Path, text: &str) -> Result<Option<Mended>, EventsError> {
        append_event(
            case_file,
            &case_jaw(),
            &WriterId::new("desk").unwrap(),
            "2026-03-04T05:06:07Z".parse().unwrap(),
            Who::new("R. T.").unwrap(),
            EventKind::Note {
                text: text.to_owned(),
            },
        )
    }

    #[test]
    fn two_that_begin_one_file_at_once_lose_nothing() {
        for _ in 0..20 {
            let folder = tempfile::tempdir().unwrap();
            let case = folder.path().join("case.json");
            std::thread::scope(|scope| {
                for n in 0..4 {
                    let case = &case;
                    scope.spawn(move || note(case, &format!("from {n}")).unwrap());
                }
            });
            let read = read_events(&case, &case_jaw()).unwrap();
            assert!(read.problems.is_empty(), "{:?}", read.problems);
            assert_eq!(read.events.in_order().len(), 4);
        }
    }

    /// A file on a disk that fails after so many bytes, at bringing them to the disk, or at taking them back.
    struct Failing {
        bytes: std::cell::RefCell<Vec<u8>>,
        room: usize,
        syncs: std::cell::Cell<usize>,
        cuts: bool,
    }

    impl std::io::Write for Failing {
        fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
            let mut held = self.bytes.borrow_mut();
            let free = self.room.saturating_sub(held.len()).min(bytes.len());
            if free == 0 {
                return Err(std::io::ErrorKind::StorageFull.into());
            }
            held.extend(&bytes[..free]);
            Ok(free)
        }

        fn flush(&mut self) -> std::io::Result<()> {
            Ok(())
        }
    }

    impl Lines for Failing {
        fn sync(&self) -> std::io::Result<()> {
            let left = self.syncs.get().checked_sub(1);
            let left = left.ok_or(std::io::ErrorKind::Other)?;
            self.syncs.set(left);
            Ok(())
        }

        fn cut(&self, length: u64) -> std::io::Result<()> {
            if !self.cuts {
                return Err(std::io::ErrorKind::PermissionDenied.into());
            }
            self.bytes
                .borrow_mut()
                .truncate(usize::try_from(length).unwrap());
            Ok(())
        }
    }

    /// "What is there is unchanged" is said only where it is.
    #[test]
    fn where_a_line_cannot_be_added_the_file_is_what_it_was_or_nobody_says_so() {
        for (room, syncs, cuts, want, taken_back) in [
            (99, 1, true, "old\nnew\n", None),
            (6, 1, true, "old\n", Some(true)),
            (4, 1, true, "old\n", Some(true)),
            (6, 1, false, "old\nne", Some(false)),
            // What is on the disk after it refused once nobody knows.
            (99, 0, true, "old\n", Some(false)),
            (99, 0, false, "old\nnew\n", Some(false)),
        ] {
            let mut file = Failing {
                bytes: b"old\n".to_vec().into(),
                room,
                syncs: syncs.into(),
                cuts,
            };
            let added = add(&mut file, 4, b"new\n");
            assert_eq!(added.err().map(|(_, taken_back)| taken_back), taken_back);
            assert_eq!(String::from_utf8(file.bytes.into_inner()).unwrap(), want);
        }
    }

    #[test]
    fn what_was_torn_before_is_never_written_over() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("desk.events.jsonl");
        for n in 1..=1002 {
            put_aside(&file, "torn", format!("{n}").as_bytes()).unwrap();
        }
        for n in [1, 999, 1000, 1001, 1002] {
            let kept = fs::read(format!("{}.torn-{n}", file.display())).unwrap();
            assert_eq!(kept, format!("{n}").as_bytes(), "{n}");
        }
    }
}
