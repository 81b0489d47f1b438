//! The file beside the one that is to be written, `.NAME.PROCESS-N.part`; and the folder beside one, named likewise.

use super::Private;
use std::ffi::OsStr;
use std::fs::{self, File, TryLockError};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Ending of such a file.
const ENDING: &str = ".part";

/// Age from which one that nobody holds was left by a program that is no more: far longer than any file
/// here takes to be written (no source).
const STALE: Duration = Duration::from_hours(1);

/// A new file in the folder, with a name that nothing has yet. It is held as long as it is open.
pub(super) fn open(
    folder: &Path,
    name: &OsStr,
    private: Private,
) -> std::io::Result<(File, PathBuf)> {
    let make = |beside: &Path| private.file().write(true).create_new(true).open(beside);
    let (file, beside) = first_free(folder, name, make)?;
    // Where a file cannot be held its age alone tells that it is being written.
    let _ = file.try_lock();
    Ok((file, beside))
}

/// Makes something under the first such name that nothing has yet.
fn first_free<T>(
    folder: &Path,
    name: &OsStr,
    make: impl Fn(&Path) -> std::io::Result<T>,
) -> std::io::Result<(T, PathBuf)> {
    let mut last = ErrorKind::AlreadyExists.into();
    for n in 0..100 {
        let mut beside = std::ffi::OsString::from(".");
        beside.push(name);
        beside.push(format!(".{}-{n}{ENDING}", std::process::id()));
        let beside = folder.join(beside);
        match make(&beside) {
            Ok(made) => return Ok((made, beside)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

/// A new folder beside the one of a name, held as long as what comes with it is there; where the system does not hold
/// folders, its age alone tells that it is being written.
pub(super) fn folder_beside(
    above: &Path,
    name: &OsStr,
    private: Private,
) -> std::io::Result<(PathBuf, Option<File>)> {
    let ((), beside) = first_free(above, name, |beside| private.new_folder(beside))?;
    let held = File::open(&beside).ok();
    if let Some(held) = &held {
        let _ = held.try_lock();
    }
    Ok((beside, held))
}

/// Takes away the folders that were left beside one of this name: nobody holds them, by the clock of the disk they are far
/// older than `now`, which was just made, and they hold what an unpacking makes and nothing else. What cannot be told stays.
pub(super) fn clear_stale_folders(above: &Path, name: &OsStr, now: &Path) {
    let Some(now) = fs::metadata(now).and_then(|about| about.modified()).ok() else {
        return;
    };
    for entry in fs::read_dir(above).into_iter().flatten().flatten() {
        let path = entry.path();
        let is_folder = fs::symlink_metadata(&path).is_ok_and(|about| about.is_dir());
        let changed = || entry.metadata().and_then(|about| about.modified()).ok();
        let is_old = || changed().and_then(|at| now.duration_since(at).ok()) >= Some(STALE);
        // Those of earlier programs have the number of the process alone.
        if matches!(numbers_of(&entry.file_name(), name), Some(1 | 2))
            && is_folder
            && is_old()
            && is_of_unpacking(&path, true)
            && is_let_go(&path)
        {
            let _ = fs::remove_dir_all(path);
        }
    }
}

/// True for a folder of plain files and, in the outer one, one of a record at most.
fn is_of_unpacking(folder: &Path, is_outer: bool) -> bool {
    let Ok(entries) = fs::read_dir(folder) else {
        return false;
    };
    let mut records = 0;
    for entry in entries {
        let Some((path, about)) = entry
            .ok()
            .and_then(|one| Some((one.path(), one.metadata().ok()?)))
        else {
            return false;
        };
        let is_record = path.extension().is_some_and(|ending| ending == "signed");
        records += usize::from(about.is_dir());
        let is_ours = about.is_file()
            || about.is_dir() && is_outer && is_record && is_of_unpacking(&path, false);
        if !is_ours {
            return false;
        }
    }
    records <= 1
}

/// Takes away what was left beside a file of this name: nobody holds it, and by the clock of the disk it is
/// far older than `now`, which was just made. What cannot be told stays.
pub(super) fn clear_stale(folder: &Path, name: &OsStr, now: &File) {
    let Some(now) = now.metadata().and_then(|about| about.modified()).ok() else {
        return;
    };
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let changed = || entry.metadata().and_then(|about| about.modified()).ok();
        let is_old = || changed().and_then(|at| now.duration_since(at).ok()) >= Some(STALE);
        let path = entry.path();
        let is_file = || fs::symlink_metadata(&path).is_ok_and(|about| about.is_file());
        if is_of(&entry.file_name(), name) && is_old() && is_file() && is_let_go(&path) {
            let _ = fs::remove_file(path);
        }
    }
}

/// True for a name as [`open`] gives it.
pub(super) fn is_of(found: &OsStr, name: &OsStr) -> bool {
    numbers_of(found, name) == Some(2)
}

/// How many numbers a name as [`open`] gives it has; nothing for another one.
fn numbers_of(found: &OsStr, name: &OsStr) -> Option<usize> {
    let found = found.as_encoded_bytes();
    let middle = found
        .strip_prefix(b".")
        .and_then(|rest| rest.strip_prefix(name.as_encoded_bytes()))
        .and_then(|rest| rest.strip_prefix(b"."))
        .and_then(|rest| rest.strip_suffix(ENDING.as_bytes()));
    let is_number = |part: &[u8]| !part.is_empty() && part.iter().all(u8::is_ascii_digit);
    let parts: Vec<&[u8]> = middle?.split(|byte| *byte == b'-').collect();
    let all = parts.iter().all(|part| is_number(part));
    all.then_some(parts.len())
}

/// True if no program holds the file. A link is none of ours.
fn is_let_go(path: &Path) -> bool {
    let is_link = fs::symlink_metadata(path).is_ok_and(|about| about.is_symlink());
    !is_link
        && File::open(path)
            .is_ok_and(|file| !matches!(file.try_lock(), Err(TryLockError::WouldBlock)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::write_safely;
    use std::time::SystemTime;

    /// A kill in the middle of a save leaves the file beside it: the next save clears it, once it is old.
    #[test]
    fn what_a_killed_program_left_is_cleared_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let old = SystemTime::now() - STALE - Duration::from_mins(1);
        let left = |name: &str, when: SystemTime| {
            let file = File::create(at(name)).unwrap();
            file.set_modified(when).unwrap();
            file
        };
        let young = SystemTime::now() - STALE / 2;
        drop(left(".case.json.4711-0.part", old));
        drop(left(".case.json.4712-0.part", young));
        let live = left(".case.json.4713-0.part", old);
        live.lock().unwrap();
        for name in [
            ".other.json.4711-0.part",
            ".case.json.part",
            ".case.json.x-0.part",
            "case.json.4711-0.part",
            ".case.json.4711-0-1.part",
            ".case.json.4711-0.parts",
        ] {
            drop(left(name, old));
        }
        write_safely(&at("case.json"), b"{}", Private::USUAL).unwrap();
        let mut names: Vec<String> = fs::read_dir(folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        let kept = [
            ".case.json.4711-0-1.part",
            ".case.json.4711-0.parts",
            ".case.json.4712-0.part",
            ".case.json.4713-0.part",
            ".case.json.part",
            ".case.json.x-0.part",
            ".other.json.4711-0.part",
            "case.json",
            "case.json.4711-0.part",
        ];
        assert_eq!(names, kept);
    }
}
