//! Journals: what is not saved yet, line by line, outside the folder of the case.

use super::error::{StoreError, StoreFault};
use super::events::free_name;
use super::read::read_open;
use super::{Private, read_file};
use sha2::{Digest as _, Sha256};
use std::fs::{self, File};
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// Most bytes of a journal that are read.
const MOST_BYTES: u64 = 256 * 1024 * 1024;

/// Ending of a journal.
const ENDING: &str = "journal";

/// A journal that is being written. Nobody else takes it for one that was left as long as this is held.
#[derive(Debug)]
pub struct JournalFile {
    path: PathBuf,
    open: File,
}

/// A journal that a program left behind that is no more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftJournal {
    /// The file.
    pub path: PathBuf,
    /// Its content, or why it cannot be read.
    pub bytes: Result<Vec<u8>, StoreError>,
    /// The time of the last change, by the disk.
    pub changed: Option<std::time::SystemTime>,
}

/// The beginning of the names of all journals of one case file, or of cases without a file.
fn stem(case_file: Option<&Path>) -> String {
    let Some(file) = case_file else {
        return "unsaved".to_owned();
    };
    let digest = Sha256::digest(file.as_os_str().as_encoded_bytes());
    data_encoding::HEXLOWER.encode(digest.get(..8).unwrap_or_default())
}

impl JournalFile {
    /// Begins a journal of a case file, or of a case without one, with its first line.
    ///
    /// # Errors
    ///
    /// Fails if the folder cannot be made or the file not be written.
    pub fn begin(folder: &Path, case_file: Option<&Path>, first: &str) -> Result<Self, StoreError> {
        Private::OWN
            .folder_and_above(folder)
            .map_err(|error| StoreError::writing(folder, &error))?;
        let stem = stem(case_file);
        for n in 1_u32.. {
            let path = folder.join(format!("{stem}-{n}.{ENDING}"));
            let refused = |error: std::io::Error| StoreError::writing(&path, &error);
            match Private::OWN.file().write(true).create_new(true).open(&path) {
                Ok(open) => {
                    open.lock().map_err(refused)?;
                    let mut journal = Self { path, open };
                    journal.append(first)?;
                    return Ok(journal);
                }
                Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(refused(error)),
            }
        }
        Err(StoreError::new(folder, StoreFault::NoName))
    }

    /// Adds lines and brings them to the disk.
    ///
    /// # Errors
    ///
    /// The disk refuses.
    pub fn append(&mut self, lines: &str) -> Result<(), StoreError> {
        let refused = |error: std::io::Error| StoreError::writing(&self.path, &error);
        self.open.write_all(lines.as_bytes()).map_err(refused)?;
        self.open.sync_data().map_err(refused)
    }

    /// Takes the journal away: everything of it is saved, or a person gave it up.
    pub fn remove(self) {
        // One that stays is asked about once more and hides nothing.
        let _ = fs::remove_file(&self.path);
    }
}

impl LeftJournal {
    /// The journals of a case file, or of cases without one, that nobody writes any more; the oldest first.
    #[must_use]
    pub fn of(folder: &Path, case_file: Option<&Path>) -> Vec<Self> {
        let stem = format!("{}-", stem(case_file));
        Self::found(folder, |name| name.starts_with(&stem))
    }

    /// All journals that nobody writes any more, of whatever case; the oldest first.
    #[must_use]
    pub fn all(folder: &Path) -> Vec<Self> {
        Self::found(folder, |_| true)
    }

    fn found(folder: &Path, takes: impl Fn(&str) -> bool) -> Vec<Self> {
        let ending = format!(".{ENDING}");
        let entries =
            match fs::read_dir(folder).and_then(Iterator::collect::<std::io::Result<Vec<_>>>) {
                Ok(entries) => entries,
                Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Vec::new(),
                // Nobody knows what lies there: that is told like a journal that cannot be read.
                Err(error) => {
                    return vec![Self {
                        path: folder.to_owned(),
                        bytes: Err(StoreError::reading(folder, &error)),
                        changed: None,
                    }];
                }
            };
        let mut found: Vec<(Option<std::time::SystemTime>, PathBuf)> = entries
            .into_iter()
            .filter(|entry| {
                let name = entry.file_name();
                let name = name.to_string_lossy();
                takes(&name) && name.ends_with(&ending)
            })
            .map(|entry| {
                let changed = entry.metadata().and_then(|about| about.modified()).ok();
                (changed, entry.path())
            })
            .collect();
        found.sort();
        let left = |(changed, path): (Option<std::time::SystemTime>, PathBuf)| {
            // One that cannot be opened is none that a program of this user writes; to open a pipe would wait for a writer.
            let is_plain = fs::metadata(&path).is_ok_and(|about| about.is_file());
            let open = is_plain.then(|| File::open(&path).ok()).flatten();
            let bytes = match &open {
                // Held while it is read: whoever is just beginning it has written nothing of it then.
                Some(open) => {
                    open.try_lock().ok()?;
                    read_open(&path, open, MOST_BYTES)
                }
                None => read_file(&path, MOST_BYTES),
            };
            Some(Self {
                path,
                bytes,
                changed,
            })
        };
        found.into_iter().filter_map(left).collect()
    }

    /// Takes it away: a person took over what it holds, or gave it up.
    pub fn remove(&self) {
        let _ = fs::remove_file(&self.path);
    }
}

/// Sets a journal aside: it stays whole under the first free name behind its own, and is no journal any more. Gives back
/// where.
///
/// # Errors
///
/// The disk refuses.
pub fn set_journal_aside(journal: &Path) -> Result<PathBuf, StoreError> {
    let aside = free_name(journal, "aside");
    fs::rename(journal, &aside).map_err(|error| StoreError::writing(journal, &error))?;
    Ok(aside)
}

/// The checksum of the lines of a journal up to one: a line that was damaged, left out or moved has another.
#[derive(Debug, Default, Clone)]
pub struct JournalSum(String);

impl JournalSum {
    /// Between a line and its checksum; JSON ends with no such sign.
    const MARK: char = '#';

    /// A line with its checksum and its end.
    #[must_use]
    pub fn sealed(&mut self, line: &str) -> String {
        self.take(line);
        format!("{line}{}{}\n", Self::MARK, self.0)
    }

    /// A line without its checksum; nothing where that is not its own.
    #[must_use]
    pub fn of<'a>(&mut self, line: &'a str) -> Option<&'a str> {
        let (line, sum) = line.rsplit_once(Self::MARK)?;
        self.take(line);
        (self.0 == sum).then_some(line)
    }

    fn take(&mut self, line: &str) {
        let digest = Sha256::new().chain_update(&self.0).chain_update(line);
        let digest = digest.finalize();
        self.0 = data_encoding::HEXLOWER.encode(digest.get(..8).unwrap_or_default());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_left_is_found_and_what_is_being_written_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path().join("unsaved");
        let case = Path::new("/somewhere/case.json");
        let mut one = JournalFile::begin(&folder, Some(case), "first\n").unwrap();
        one.append("second\n").unwrap();
        assert_eq!(LeftJournal::of(&folder, Some(case)), []);
        drop(one);
        let other = JournalFile::begin(&folder, Some(case), "other\n").unwrap();
        let left = LeftJournal::of(&folder, Some(case));
        assert_eq!(left.len(), 1);
        assert_eq!(left[0].bytes.as_deref(), Ok(&b"first\nsecond\n"[..]));
        assert_eq!(LeftJournal::of(&folder, None), []);
        assert_eq!(LeftJournal::of(&folder, Some(Path::new("/other"))), []);
        other.remove();
        left[0].remove();
        assert_eq!(fs::read_dir(&folder).unwrap().count(), 0);
    }

    #[cfg(unix)]
    #[test]
    fn a_folder_that_cannot_be_read_is_none_without_journals() {
        let above = tempfile::tempdir().unwrap();
        let folder = above.path().join("unsaved");
        assert_eq!(LeftJournal::all(&folder), []);
        std::os::unix::fs::symlink(&folder, &folder).unwrap();
        let left = LeftJournal::of(&folder, None);
        assert_eq!(left.len(), 1);
        assert!(left[0].path == folder && left[0].bytes.is_err());
    }

    #[cfg(unix)]
    #[test]
    fn nobody_else_can_read_it() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path().join("unsaved");
        let journal = JournalFile::begin(&folder, None, "first\n").unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!((mode(&folder), mode(&journal.path)), (0o700, 0o600));
    }
}
