//! A damaged record put aside, so that one can begin anew.

use super::error::StoreError;
use super::events::{ENDING, EventsError, MOST_BYTES, append_event, events_folder, free_name};
use super::read_file;
use super::record::read_events_knowing;
use super::write::{is_file, is_free, is_link};
use crate::sign::{CaseJaw, Effect, EventHash, EventKind, Heads, ProblemKind, Who, WriterId};
use jiff::Timestamp;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Puts every event file with a break aside, under a name of its own, and records that: nothing signed
/// before counts any more. Gives back the names under which they are kept.
///
/// `known` are the heads that the caller read earlier.
///
/// Where it is broken off, the record stays broken, and it can be done again.
///
/// # Errors
///
/// Fails if the disk refuses.
pub fn put_record_aside(
    case_file: &Path,
    case_jaw: &CaseJaw,
    writer: &WriterId,
    at: Timestamp,
    who: &Who,
    known: &mut Heads,
) -> Result<Vec<String>, EventsError> {
    let folder = events_folder(case_file);
    let problems = read_events_knowing(case_file, case_jaw, known)?.problems;
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
        let aside = aside
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        kept.push((of, aside, content));
    }
    let mut names = Vec::new();
    for (of, file, content) in kept {
        names.push(file.clone());
        let kind = EventKind::SetAside { of, file, content };
        append_event(case_file, case_jaw, writer, at, who.clone(), kind)?;
    }
    Ok(names)
}

/// The writer of a file by its name.
fn writer_of(name: &str) -> Option<WriterId> {
    let (before, _) = name.split_once(ENDING)?;
    WriterId::new(before).ok()
}
