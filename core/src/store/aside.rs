//! A damaged record put aside, so that one can begin anew.

use super::error::StoreError;
use super::events::{
    ENDING, EventsError, MOST_BYTES, append_event, events_folder, free_name, mend_torn,
};
use super::read_file;
use super::record::read_events_knowing;
use super::write::{is_file, is_free, is_link};
use crate::sign::{
    CaseJaw, Effect, EventHash, EventKind, Heads, Mended, Problem, ProblemKind, Who, WriterId,
    sound_log_of,
};
use jiff::Timestamp;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// What was put aside of a record.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct RecordAside {
    /// The names under which damaged files are kept: nothing that was signed before counts.
    pub files: Vec<String>,
    /// The torn last line of the writer's own file.
    pub torn: Option<Mended>,
}

impl RecordAside {
    /// True if the record had no break.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.files.is_empty() && self.torn.is_none()
    }
}

/// Puts every event file with a break aside, under a name of its own, and records that: nothing signed
/// before counts any more. Of the writer's own file with a torn last line, that line alone ([`mend_torn`]).
///
/// `known` are the heads that the caller read earlier.
///
/// Where it is broken off, the record stays broken, and it can be done again.
///
/// # Errors
///
/// Fails if the disk refuses, or if sound events of another case lie there: they stay where they are, and so does all else.
pub fn put_record_aside(
    case_file: &Path,
    case_jaw: &CaseJaw,
    writer: &WriterId,
    at: Timestamp,
    who: &Who,
    known: &mut Heads,
) -> Result<RecordAside, EventsError> {
    let folder = events_folder(case_file);
    let problems = read_events_knowing(case_file, case_jaw, known)?.problems;
    no_other_case(&folder, case_jaw, &problems)?;
    let torn = mend_torn(case_file, case_jaw, writer, at, who)?;
    let problems = match &torn {
        Some(mended) => {
            // What was read of it here before is told as lost.
            if mended.lost.is_none() {
                known.remove(writer);
            }
            read_events_knowing(case_file, case_jaw, known)?.problems
        }
        None => problems,
    };
    let stops = problems.iter().filter(|one| one.effect() == Effect::Stops);
    let files: BTreeSet<(&str, bool)> = stops
        .map(|one| {
            let is_aside = matches!(one.kind, ProblemKind::PutAsideInSilence);
            (one.file.as_str(), is_aside)
        })
        .collect();
    let mut kept = Vec::new();
    for (name, is_aside) in files {
        let file = folder.join(name);
        let of = writer_of(name).unwrap_or_else(|| writer.clone());
        // Of a file that is gone there is nothing to keep but that it is.
        if is_free(&file).map_err(|error| StoreError::reading(&file, &error))? {
            kept.push((of, name.to_owned(), EventHash::of_file(b"")));
            continue;
        }
        // Of what is no plain file there is nothing to read; one of which the system does not answer may be one.
        let is_plain = match is_file(&file) {
            Err(_) if is_link(&file) => false,
            is_plain => is_plain?,
        };
        let bytes = if is_plain {
            read_file(&file, MOST_BYTES)?
        } else {
            Vec::new()
        };
        let content = EventHash::of_file(&bytes);
        if is_aside {
            kept.push((of, name.to_owned(), content));
            continue;
        }
        let aside = free_name(&file, "damaged");
        fs::rename(&file, &aside).map_err(|error| StoreError::writing(&file, &error))?;
        // One in a folder of the record stays there.
        let aside = aside.strip_prefix(&folder).unwrap_or(&aside);
        kept.push((of, aside.to_string_lossy().into_owned(), content));
    }
    let mut files_kept = Vec::new();
    for (of, file, content) in kept {
        files_kept.push(file.clone());
        let kind = EventKind::SetAside { of, file, content };
        append_event(case_file, case_jaw, writer, at, who.clone(), kind)?;
    }
    Ok(RecordAside {
        files: files_kept,
        torn,
    })
}

/// Refuses where sound events of another case or jaw lie in the folder: two cases may share it.
fn no_other_case(
    folder: &Path,
    case_jaw: &CaseJaw,
    problems: &[Problem],
) -> Result<(), EventsError> {
    let files: BTreeSet<&str> = problems.iter().map(|one| one.file.as_str()).collect();
    for name in files {
        let file = folder.join(name);
        // Of what is no plain file, or too large, there is nothing to read.
        let Ok(true) = is_file(&file) else { continue };
        let Ok(bytes) = read_file(&file, MOST_BYTES) else {
            continue;
        };
        let Some(found) = sound_log_of(&bytes).filter(|of| of != case_jaw) else {
            continue;
        };
        let (file, kind) = (name.to_owned(), ProblemKind::elsewhere(found, case_jaw));
        return Err(EventsError::OfAnotherCase(Problem {
            file,
            line: 1,
            kind,
        }));
    }
    Ok(())
}

/// The writer of a file by its name.
fn writer_of(name: &str) -> Option<WriterId> {
    let (before, _) = name.split_once(ENDING)?;
    let before = before.rsplit('/').next()?;
    WriterId::new(before).ok()
}
