//! The cases of a folder, each by the head of its file alone: quick enough for a thousand of them.
//!
//! Nothing is worked out and nothing is checked: whether a case can be opened, and what is open in
//! it, is known once it is opened.

use super::pack::{PackList, list_in};
use super::{StoreError, StoreFault, read_file};
use crate::case::CASE_VERSION;
use crate::dentition::{Jaw, ToothPosition};
use crate::document::MOST_BYTES;
use jiff::Timestamp;
use serde::Deserialize;
use std::cmp::Reverse;
use std::fs;
use std::num::NonZero;
use std::path::{Path, PathBuf};

/// A case file of a folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedCase {
    /// The file.
    pub file: PathBuf,
    /// The time of its last change, where the system tells one.
    pub changed: Option<Timestamp>,
    /// True if it came out of a pack, and says so still.
    pub is_unpacked: bool,
    /// Its head, or the reason why nothing is known of it.
    pub head: Result<CaseHead, Unlisted>,
}

/// The head of a case file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CaseHead {
    /// The code for the case.
    pub reference: String,
    /// Invented, for practice.
    pub demonstration: bool,
    /// The jaw.
    pub jaw: Jaw,
    /// The revision.
    pub revision: u32,
    /// The teeth that implants are planned for, in the order of the file.
    pub sites: Vec<ToothPosition>,
}

/// The reason why the head of a case file is not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unlisted {
    /// It was written by a newer program.
    Newer,
    /// It is damaged, or no such file as a case is.
    Damaged,
    /// It cannot be read from the disk.
    Unread(StoreError),
}

/// The case files of a folder, the last changed first. Files of other kinds are left out, and so is
/// what lies in folders within.
///
/// # Errors
///
/// Fails if the folder itself cannot be read.
pub fn cases_in(folder: &Path) -> Result<Vec<ListedCase>, StoreError> {
    let failed = |error: std::io::Error| StoreError::reading(folder, &error);
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let file = entry.map_err(failed)?.path();
        let ending = file.extension();
        if ending.is_some_and(|ending| ending.eq_ignore_ascii_case("json")) {
            files.push(file);
        }
    }
    let mut cases = listed(&files, list_in(folder).as_ref());
    cases.sort_by(|a, b| (Reverse(a.changed), &a.file).cmp(&(Reverse(b.changed), &b.file)));
    Ok(cases)
}

/// Fewer files than these are read sooner than a thread begins (no source).
const LEAST_EACH: usize = 32;

/// Those of some files that are cases, read on as many threads as the machine has for it: nearly all the time of a long list
/// goes into reading their JSON.
fn listed(files: &[PathBuf], pack: Option<&PackList>) -> Vec<ListedCase> {
    let threads = std::thread::available_parallelism().map_or(1, NonZero::get);
    let each = files.len().div_ceil(threads).max(LEAST_EACH);
    let part = |files: &[PathBuf]| -> Vec<ListedCase> {
        let cases = files.iter().filter_map(|file| listed_case(file, pack));
        cases.collect()
    };
    std::thread::scope(|scope| {
        let begin = |files| {
            let thread = std::thread::Builder::new().name("list cases".to_owned());
            (files, thread.spawn_scoped(scope, move || part(files)))
        };
        let begun: Vec<_> = files.chunks(each).map(begin).collect();
        let ended = begun.into_iter().map(|(files, thread)| match thread {
            Ok(thread) => thread.join().unwrap_or_else(|_| part(files)),
            // The system gives no thread.
            Err(_) => part(files),
        });
        ended.flatten().collect()
    })
}

/// A case file; nothing for one of another kind.
fn listed_case(file: &Path, pack: Option<&PackList>) -> Option<ListedCase> {
    let head = head_of(file)?;
    let changed = fs::metadata(file).and_then(|about| about.modified()).ok();
    Some(ListedCase {
        file: file.to_owned(),
        changed: changed.and_then(|at| Timestamp::try_from(at).ok()),
        is_unpacked: pack.is_some_and(|list| list.names(file)),
        head,
    })
}

/// Something in a folder.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct FolderEntry {
    /// Its name there.
    pub name: String,
    /// True for a folder, also behind a link.
    pub is_folder: bool,
}

/// Everything in a folder by name, in the order of the names. What has a name that is no text is left out: nobody can
/// type it.
///
/// # Errors
///
/// Fails if the folder cannot be read.
pub fn entries_in(folder: &Path) -> Result<Vec<FolderEntry>, StoreError> {
    let failed = |error: std::io::Error| StoreError::reading(folder, &error);
    let mut entries = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        if let Ok(name) = entry.file_name().into_string() {
            let is_folder = entry.path().is_dir();
            entries.push(FolderEntry { name, is_folder });
        }
    }
    entries.sort();
    Ok(entries)
}

/// The key that each case file begins with.
const KEY: &[u8] = b"\"traywright_case\"";

/// The head of a case file; nothing for a file of another kind.
fn head_of(file: &Path) -> Option<Result<CaseHead, Unlisted>> {
    let bytes = match read_file(file, MOST_BYTES as u64) {
        Ok(bytes) => bytes,
        Err(error) if error.fault == StoreFault::IsFolder => return None,
        Err(error) => return Some(Err(Unlisted::Unread(error))),
    };
    if !bytes.windows(KEY.len()).any(|part| part == KEY) {
        return None;
    }
    let newer = |version: u32| version > CASE_VERSION;
    // Read once: most of the time of a long list goes into it.
    let head = match serde_json::from_slice::<Head>(&bytes) {
        Ok(head) if newer(head.traywright_case) => Err(Unlisted::Newer),
        Ok(head) => Ok(CaseHead {
            reference: head.reference,
            demonstration: head.demonstration,
            jaw: head.jaw,
            revision: head.revision,
            sites: head.sites.into_iter().map(|site| site.tooth).collect(),
        }),
        // A newer one may have another head.
        Err(_) => match serde_json::from_slice::<Version>(&bytes) {
            Ok(found) if newer(found.traywright_case) => Err(Unlisted::Newer),
            _ => Err(Unlisted::Damaged),
        },
    };
    Some(head)
}

#[derive(Deserialize)]
struct Version {
    traywright_case: u32,
}

#[derive(Deserialize)]
struct Head {
    traywright_case: u32,
    reference: String,
    #[serde(default)]
    demonstration: bool,
    jaw: Jaw,
    revision: u32,
    #[serde(default)]
    sites: Vec<SiteHead>,
}

#[derive(Deserialize)]
struct SiteHead {
    tooth: ToothPosition,
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::{Duration, SystemTime};

    #[test]
    fn entries_are_told_by_name_and_folders_from_files() {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir(folder.path().join("cases")).unwrap();
        fs::write(folder.path().join("a.json"), "").unwrap();
        let told = entries_in(folder.path()).unwrap();
        let told: Vec<_> = told.iter().map(|e| (&*e.name, e.is_folder)).collect();
        assert_eq!(told, [("a.json", false), ("cases", true)]);
        assert!(entries_in(&folder.path().join("a.json")).is_err());
    }

    const CASE: &str = r#"{"traywright_case":1,"reference":"A-1","jaw":"lower","revision":4,
        "sites":[{"id":"a","tooth":"46","steps":[]},{"id":"b","tooth":"36"}],"kit":{}}"#;

    fn told(folder: &Path) -> Vec<(String, Result<String, Unlisted>)> {
        let all = cases_in(folder).unwrap().into_iter();
        all.map(|one| {
            let name = one.file.file_name().unwrap().to_string_lossy().into_owned();
            let head = one.head.map(|head| {
                let sites: Vec<String> = head.sites.iter().map(ToString::to_string).collect();
                let (reference, jaw, revision) = (head.reference, head.jaw, head.revision);
                format!("{reference} {jaw:?} {revision} {}", sites.join(" "))
            });
            (name, head)
        })
        .collect()
    }

    #[test]
    fn the_cases_of_a_folder_are_told_the_last_changed_first_and_other_files_are_left_out() {
        let folder = tempfile::tempdir().unwrap();
        let damaged = CASE.replace("4,", "-4,");
        let newer = r#"{"traywright_case":9,"name":["of another form"]}"#;
        let files = [
            ("old.json", CASE),
            ("damaged.JSON", damaged.as_str()),
            ("newer.json", newer),
            ("last.json", &CASE.replace("A-1", "B-2")),
            ("kit.json", r#"{"traywright_kit":1}"#),
            ("note.txt", CASE),
        ];
        for (age, (name, text)) in files.iter().enumerate() {
            let file = folder.path().join(name);
            std::fs::write(&file, text).unwrap();
            let at = SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000 + age as u64);
            let open = std::fs::File::options().write(true).open(&file).unwrap();
            open.set_modified(at).unwrap();
        }
        std::fs::create_dir(folder.path().join("within.json")).unwrap();
        let wanted = [
            ("last.json", Ok("B-2 Lower 4 46 36")),
            ("newer.json", Err(Unlisted::Newer)),
            ("damaged.JSON", Err(Unlisted::Damaged)),
            ("old.json", Ok("A-1 Lower 4 46 36")),
        ];
        let wanted = wanted.map(|(name, head)| (name.to_owned(), head.map(str::to_owned)));
        assert_eq!(told(folder.path()), wanted);
    }

    #[test]
    fn a_folder_that_is_not_there_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let missing = folder.path().join("missing");
        let fault = cases_in(&missing).unwrap_err().fault;
        assert_eq!(fault, StoreFault::NotFound);
    }
}
