//! A file replaced only by who knows what it holds.

use super::lock::Held;
use super::write::{Content, write_content};
use super::{StoreError, StoreFault, read_file};
use sha2::{Digest as _, Sha256};
use std::path::Path;

/// The content of a file as it was read or written: nothing where there was none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Version(Option<[u8; 32]>);

impl Version {
    /// No file.
    pub const NONE: Self = Self(None);

    /// A file of these bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self(Some(Sha256::digest(bytes).into()))
    }
}

/// A reason why a file was not replaced. Nothing was written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotReplaced {
    /// The disk refused.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// It holds something else than it was known to hold: these bytes, or nothing where it is gone.
    #[error("the file is not what it was")]
    Changed(Option<Vec<u8>>),
}

/// A file that was replaced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Replaced {
    /// Its content now.
    pub version: Version,
    /// True if what lay there has another name besides (a hard link): under that it stays as it was.
    pub parted: bool,
}

/// Writes a file as [`super::write_safely`] does, if it still is what it was known to be. Nobody who writes it in
/// this way comes between the look and the writing.
///
/// # Errors
///
/// [`NotReplaced::Changed`] where it is not; of a file of more than `limit` bytes, and where the disk
/// refuses, the error of the disk.
pub fn replace(
    path: &Path,
    known: Version,
    limit: u64,
    content: Content<'_>,
) -> Result<Replaced, NotReplaced> {
    Held::hold(path, content.private)?.replace(known, limit, content)
}

impl Held {
    /// The same for the file that is held: whoever has to look at what lies there before it can be replaced holds it
    /// meanwhile, so that nobody is put off for good by others who are quicker.
    ///
    /// # Errors
    ///
    /// As [`replace`].
    pub fn replace(
        &self,
        known: Version,
        limit: u64,
        content: Content<'_>,
    ) -> Result<Replaced, NotReplaced> {
        let path = &self.file;
        let there = match read_file(path, limit) {
            Ok(bytes) => Some(bytes),
            Err(error) if error.fault == StoreFault::NotFound => None,
            Err(error) => return Err(error.into()),
        };
        let now = there.as_deref().map_or(Version::NONE, Version::of);
        if now != known {
            return Err(NotReplaced::Changed(there));
        }
        let parted = has_other_names(path);
        write_content(path, content)?;
        Ok(Replaced {
            version: Version::of(content.bytes),
            parted,
        })
    }
}

/// True if a file has another name besides (a hard link): a record lies beside each name, and saving parts the two.
#[cfg(unix)]
#[must_use]
pub fn has_other_names(path: &Path) -> bool {
    let about = std::fs::metadata(path);
    about.is_ok_and(|about| std::os::unix::fs::MetadataExt::nlink(&about) > 1)
}

/// True if a file has another name besides; where the system does not tell, false.
#[cfg(not(unix))]
#[must_use]
pub fn has_other_names(_: &Path) -> bool {
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::Private;

    fn plain(bytes: &[u8]) -> Content<'_> {
        Content {
            bytes,
            private: Private::USUAL,
            over_protection: false,
        }
    }

    #[test]
    fn what_is_not_as_known_is_not_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("file");
        let first = replace(&path, Version::NONE, 99, plain(b"first"))
            .unwrap()
            .version;
        assert_eq!(first, Version::of(b"first"));
        let refused = replace(&path, Version::NONE, 99, plain(b"new")).unwrap_err();
        assert_eq!(refused, NotReplaced::Changed(Some(b"first".to_vec())));
        std::fs::write(&path, b"other").unwrap();
        let refused = replace(&path, first, 99, plain(b"new")).unwrap_err();
        assert_eq!(refused, NotReplaced::Changed(Some(b"other".to_vec())));
        std::fs::remove_file(&path).unwrap();
        let refused = replace(&path, first, 99, plain(b"new")).unwrap_err();
        assert_eq!(refused, NotReplaced::Changed(None));
        assert!(!path.exists());
        let names = std::fs::read_dir(folder.path()).unwrap().count();
        assert_eq!(names, 0, "no lock is left");
    }

    /// Each of four threads adds its lines to what it read; where the file changed meanwhile it reads anew.
    #[test]
    fn of_many_who_write_at_once_nobody_loses_anything() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("file");
        replace(&path, Version::NONE, 9999, plain(b"")).unwrap();
        std::thread::scope(|scope| {
            for n in 0..4 {
                let path = &path;
                scope.spawn(move || {
                    let mut written = 0;
                    while written < 25 {
                        let mut bytes = read_file(path, 9999).unwrap();
                        let known = Version::of(&bytes);
                        bytes.extend(format!("{n} {written}\n").bytes());
                        match replace(path, known, 9999, plain(&bytes)) {
                            Ok(_) => written += 1,
                            Err(NotReplaced::Changed(_)) => {}
                            Err(error) => panic!("{error}"),
                        }
                    }
                });
            }
        });
        let text = String::from_utf8(read_file(&path, 9999).unwrap()).unwrap();
        let mut lines: Vec<&str> = text.lines().collect();
        lines.sort_unstable();
        lines.dedup();
        assert_eq!(lines.len(), 100);
    }

    #[test]
    fn a_protected_file_is_replaced_by_who_says_so_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("file");
        std::fs::write(&path, b"old").unwrap();
        let mut permissions = std::fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        std::fs::set_permissions(&path, permissions).unwrap();
        let known = Version::of(b"old");
        let refused = replace(&path, known, 99, plain(b"new")).unwrap_err();
        let protected = StoreError::new(&path, StoreFault::Protected);
        assert_eq!(refused, NotReplaced::Store(protected));
        assert_eq!(std::fs::read(&path).unwrap(), b"old");
        let over = Content {
            over_protection: true,
            ..plain(b"new")
        };
        replace(&path, known, 99, over).unwrap();
        assert_eq!(std::fs::read(&path).unwrap(), b"new");
        let about = std::fs::metadata(&path).unwrap();
        assert!(about.permissions().readonly(), "it stays protected");
    }

    #[cfg(unix)]
    #[test]
    fn a_second_name_that_keeps_the_old_content_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let (path, other) = (folder.path().join("file"), folder.path().join("other"));
        std::fs::write(&path, b"old").unwrap();
        std::fs::hard_link(&path, &other).unwrap();
        let first = replace(&path, Version::of(b"old"), 99, plain(b"new")).unwrap();
        assert!(first.parted);
        assert_eq!(std::fs::read(&other).unwrap(), b"old");
        let second = replace(&path, first.version, 99, plain(b"newer")).unwrap();
        assert!(!second.parted);
    }
}
