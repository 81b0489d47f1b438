//! A file replaced only by who knows what it holds.

use super::lock::Held;
use super::{StoreError, StoreFault, read_file, write_safely};
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

/// Writes a file as [`write_safely`] does, if it still is what it was known to be. Nobody who writes it in
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
    bytes: &[u8],
) -> Result<Version, NotReplaced> {
    let _held = Held::hold(path)?;
    let there = match read_file(path, limit) {
        Ok(bytes) => Some(bytes),
        Err(error) if error.fault == StoreFault::NotFound => None,
        Err(error) => return Err(error.into()),
    };
    let now = there.as_deref().map_or(Version::NONE, Version::of);
    if now != known {
        return Err(NotReplaced::Changed(there));
    }
    write_safely(path, bytes)?;
    Ok(Version::of(bytes))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_as_known_is_not_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("file");
        let first = replace(&path, Version::NONE, 99, b"first").unwrap();
        assert_eq!(first, Version::of(b"first"));
        let refused = replace(&path, Version::NONE, 99, b"new").unwrap_err();
        assert_eq!(refused, NotReplaced::Changed(Some(b"first".to_vec())));
        std::fs::write(&path, b"other").unwrap();
        let refused = replace(&path, first, 99, b"new").unwrap_err();
        assert_eq!(refused, NotReplaced::Changed(Some(b"other".to_vec())));
        std::fs::remove_file(&path).unwrap();
        let refused = replace(&path, first, 99, b"new").unwrap_err();
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
        replace(&path, Version::NONE, 9999, b"").unwrap();
        std::thread::scope(|scope| {
            for n in 0..4 {
                let path = &path;
                scope.spawn(move || {
                    let mut written = 0;
                    while written < 25 {
                        let mut bytes = read_file(path, 9999).unwrap();
                        let known = Version::of(&bytes);
                        bytes.extend(format!("{n} {written}\n").bytes());
                        match replace(path, known, 9999, &bytes) {
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
}
