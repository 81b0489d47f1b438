//! A writer that is killed: it writes one thing after another and says what it was told is written.

use super::Done;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use traywright::desk::Document;
use traywright_core::case::{Edit, SavedAt, ValidCase, read_case};
use traywright_core::plan::case_jaw;
use traywright_core::sign::{Event, EventKind, Who, WriterId};
use traywright_core::store::{
    self, EventsError, JournalFile, PackFault, StoreError, StoreFault, Version, append_event,
    read_file,
};

/// The most bytes that are read.
pub(super) const LIMIT: u64 = 1 << 26;

/// Where the case of a series lies.
pub(super) fn case_file(folder: &Path) -> PathBuf {
    folder.join("case.json")
}

/// The folder of the journals of a series.
pub(super) fn unsaved(folder: &Path) -> PathBuf {
    folder.join("unsaved")
}

/// Lays out what a series begins with.
pub(super) fn prepare(folder: &Path) -> Done<()> {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/full-arch-upper.json");
    std::fs::copy(demo, case_file(folder))?;
    Ok(())
}

/// The case as it is on the disk.
pub(super) fn case_in(folder: &Path) -> Done<(ValidCase, Version)> {
    let bytes = read_file(&case_file(folder), LIMIT)?;
    let case = read_case(&bytes).map_err(|faults| format!("{faults:?}"))?;
    Ok((case, Version::of(&bytes)))
}

/// The case as a desk opens it.
pub(super) fn opened(folder: &Path) -> Done<Document> {
    Ok(Document::opened(case_in(folder)?, case_file(folder)))
}

/// Writes a number into the note of a site and saves it.
pub(super) fn save_number(
    document: &mut Document,
    site: usize,
    number: usize,
    desk: &str,
) -> Done<()> {
    let mut site = document.case().sites[site].clone();
    site.note = Some(number.to_string());
    let edit = Edit::ChangeSite(Box::new(site));
    let edited = document.edit("number".to_owned(), &[edit], None);
    edited.map_err(|refused| format!("{refused:?}"))?;
    let file = document.file().ok_or("no file")?.to_owned();
    let by = SavedAt {
        at: jiff::Timestamp::now(),
        desk: desk.into(),
    };
    let saved = document.save(&file, None, &by);
    saved.map_err(|not| format!("{not:?}"))?;
    Ok(())
}

/// An event that says nothing but its number.
pub(super) fn numbered(number: usize) -> EventKind {
    EventKind::Note {
        text: number.to_string(),
    }
}

/// Writes until it is killed.
pub(super) fn write(kind: &str, folder: &Path) -> Done<()> {
    let mut out = std::io::stdout().lock();
    let mut say = |what: &str| -> Done<()> {
        out.write_all(format!("{what}\n").as_bytes())?;
        Ok(out.flush()?)
    };
    match kind {
        "save" => {
            let mut document = opened(folder)?;
            let first = number_in(document.case());
            say("ready")?;
            for number in first + 1.. {
                save_number(&mut document, 0, number, "desk")?;
                say(&format!("{number}."))?;
            }
        }
        "event" => {
            let jaw = case_jaw(&case_in(folder)?.0);
            let desk = WriterId::new("desk")?;
            let before = store::read_events(&case_file(folder), &jaw)?.events;
            let is_note = |event: &&Event| matches!(event.kind, EventKind::Note { .. });
            let first = before.in_order().into_iter().filter(is_note).count();
            say("ready")?;
            for number in first.. {
                let now = jiff::Timestamp::now();
                let who = Who::signing("Ida Hale")?;
                append_event(&case_file(folder), &jaw, &desk, now, who, numbered(number))?;
                say(&format!("{number}."))?;
            }
        }
        "journal" => {
            say("ready")?;
            let file = case_file(folder);
            let first = format!("first {}\n", std::process::id());
            let mut journal = JournalFile::begin(&unsaved(folder), Some(&file), &first)?;
            say(&format!("first {}.", std::process::id()))?;
            for number in 0.. {
                let line = format!("{number} {}", "x".repeat(number % 5_000));
                journal.append(&format!("{line}\n"))?;
                say(&format!("{line}."))?;
            }
        }
        "wear" => super::wear::write(folder, say)?,
        "day" => super::day::write(folder, say)?,
        _ => {
            say("ready")?;
            for number in 0.. {
                let name = format!("{}-{number}.pack", std::process::id());
                let now = (jiff::Timestamp::now(), Some("desk"));
                store::pack(&case_file(folder), None, &folder.join(&name), None, now)?;
                say(&format!("{name}."))?;
            }
        }
    }
    Ok(())
}

/// The number in the note of the first site.
pub(super) fn number_in(case: &ValidCase) -> usize {
    let note = case.sites[0].note.as_deref();
    note.and_then(|note| note.parse().ok()).unwrap_or(0)
}

/// What is done once: four kinds of writes, and reading what was signed.
pub(super) const ONCE: [&str; 5] = ["save", "event", "journal", "pack", "read"];

/// A name that nothing has: a look for it marks the beginning and the end of what is written.
pub(super) const MARK: &str = "/traywright-mark-that-is-not-there";

/// Lays out what is there before something is written once.
pub(super) fn before_once(kind: &str, folder: &Path) -> Done<()> {
    let desks: &[&str] = match kind {
        "journal" => &[],
        "read" => &["desk", "room"],
        _ => &["desk"],
    };
    let jaw = case_jaw(&case_in(folder)?.0);
    for desk in desks {
        let (desk, who) = (WriterId::new(desk)?, Who::signing("Ida Hale")?);
        let now = jiff::Timestamp::now();
        append_event(&case_file(folder), &jaw, &desk, now, who, numbered(0))?;
    }
    if kind == "read" {
        // A log under another name says the same as one in its place.
        let signed = store::events_folder(&case_file(folder));
        std::fs::rename(signed.join("room.events.jsonl"), signed.join("old"))?;
    }
    Ok(())
}

/// Writes something once, between two marks, and says how that ended: by the exit status, and why. What may be written
/// or not is called unsure.
/// Before it writes, something happens to its folder.
pub(super) fn once(kind: &str, folder: &Path, happens: fn(&Path) -> Done<()>) -> Done<()> {
    let file = case_file(folder);
    let mark = || drop(std::fs::symlink_metadata(MARK));
    let mut document = opened(folder)?;
    let jaw = case_jaw(document.case());
    let desk = WriterId::new("desk")?;
    let now = jiff::Timestamp::now();
    happens(folder)?;
    mark();
    let written: Result<(), (String, bool)> = match kind {
        "save" => save_number(&mut document, 0, 1, "desk").map_err(|error| {
            let told = error.to_string();
            let is_unsure = told.contains("it is not certain that it has reached the disk");
            (told, is_unsure)
        }),
        "event" => append_event(
            &file,
            &jaw,
            &desk,
            now,
            Who::signing("Ida Hale")?,
            numbered(1),
        )
        .map(drop)
        .map_err(|error| {
            let is_unsure = matches!(&error, EventsError::Store(error) if is_unsure(error));
            (format!("{error:?}"), is_unsure)
        }),
        "journal" => JournalFile::begin(&unsaved(folder), Some(&file), "first\n")
            .and_then(|mut journal| journal.append("second\n"))
            .map_err(|error| (error.to_string(), is_unsure(&error))),
        "read" => store::read_events(&file, &jaw)
            .map_err(|error| (format!("{error:?}"), false))
            .map(|beside| {
                let told = beside.problems.len();
                let there = beside.events.in_order().len();
                assert_eq!((there, told), (2, 1), "what is there is passed over");
            }),
        _ => store::pack(
            &file,
            None,
            &folder.join("new.pack"),
            None,
            (now, Some("desk")),
        )
        .map(|_| ())
        .map_err(|fault| {
            let is_unsure = matches!(&fault, PackFault::Store(error) if is_unsure(error));
            (format!("{fault:?}"), is_unsure)
        }),
    };
    mark();
    let Err((told, is_unsure)) = written else {
        return Ok(());
    };
    let mut out = std::io::stdout().lock();
    let word = if is_unsure { "unsure" } else { "refused" };
    out.write_all(format!("{word}: {told}\n").as_bytes())?;
    out.flush()?;
    std::process::exit(2)
}

fn is_unsure(error: &StoreError) -> bool {
    matches!(error.fault, StoreFault::Unsure(_) | StoreFault::Doubt(_))
}
