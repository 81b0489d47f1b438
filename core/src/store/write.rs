//! A file written whole or not at all.

use super::{Private, StoreError, StoreFault, beside};
use std::fs::{self, File};
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};

/// What a file is to hold.
#[derive(Debug, Clone, Copy)]
pub struct Content<'a> {
    /// The bytes.
    pub bytes: &'a [u8],
    /// Who may read it where it is new; of a file that is replaced the permissions are kept.
    pub private: Private,
    /// True to replace even a file that is protected against writing: a person said so.
    pub over_protection: bool,
}

/// Writes a file so that there is never half of it: beside it first, to the disk, then in its
/// place in one step. One that is protected against writing is not replaced.
///
/// A link is followed, so that the file it leads to is replaced and not the link; the permissions
/// of a file that is replaced are kept. What a program that is no more left beside it is cleared away.
///
/// # Errors
///
/// Fails if the folder is not there or cannot be written, or the disk is full. The old file is then
/// still there, unchanged, and nothing is left beside it; only after [`StoreFault::Unsure`] the new
/// one is.
pub fn write_safely(path: &Path, bytes: &[u8], private: Private) -> Result<(), StoreError> {
    let over_protection = false;
    write_content(
        path,
        Content {
            bytes,
            private,
            over_protection,
        },
    )
}

/// The same, with what is said of the file.
pub(super) fn write_content(path: &Path, content: Content<'_>) -> Result<(), StoreError> {
    write_with(path, content, |file| file.write_all(content.bytes))
}

/// The same, the bytes written by `write`.
pub(super) fn write_with(
    path: &Path,
    content: Content<'_>,
    write: impl FnOnce(&mut File) -> std::io::Result<()>,
) -> Result<(), StoreError> {
    let target = target_of(path)?;
    let (Some(folder), Some(name)) = (target.parent(), target.file_name()) else {
        return Err(StoreError::new(path, StoreFault::NoName));
    };
    let folder = if folder.as_os_str().is_empty() {
        Path::new(".")
    } else {
        folder
    };
    let failed = |error: std::io::Error| StoreError::writing(path, &error);
    match fs::metadata(folder) {
        Ok(about) if about.is_dir() => {}
        Err(error) if !is_of_none(&error) => return Err(failed(error)),
        _ => return Err(StoreError::new(folder, StoreFault::NoFolder)),
    }
    let there = match fs::metadata(&target) {
        Ok(there) => Some(there),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        Err(error) => return Err(failed(error)),
    };
    let is_protected = there
        .as_ref()
        .is_some_and(|about| about.permissions().readonly());
    if is_protected && !content.over_protection {
        return Err(StoreError::new(path, StoreFault::Protected));
    }
    let private = there.as_ref().map_or(content.private, Private::of);
    let (mut file, beside) =
        beside::open(folder, name, private).map_err(|error| StoreError::making(path, &error))?;
    beside::clear_stale(folder, name, &file);
    let written = write(&mut file)
        .and_then(|()| finish(&file, there.as_ref()))
        .and_then(|()| fs::rename(&beside, &target))
        .map_err(failed);
    if written.is_err() {
        // The error to tell is the first one; what is left here hides nothing and breaks nothing.
        let _ = fs::remove_file(&beside);
        return written;
    }
    sync_folder(folder)
        .map_err(|error| StoreError::new(path, StoreFault::Unsure(error.to_string())))
}

/// True if nothing has this name. Where the system does not answer that is an error and no free name: what may be there is
/// not written over.
pub(super) fn is_free(path: &Path) -> std::io::Result<bool> {
    match fs::symlink_metadata(path) {
        Ok(_) => Ok(false),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(true),
        Err(error) => Err(error),
    }
}

/// True where the system says that there is none, and not that it cannot tell.
fn is_of_none(error: &std::io::Error) -> bool {
    matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory)
}

/// True for a file, also behind a link. One of which the system does not answer is not taken for one that is not there.
pub(super) fn is_file(path: &Path) -> Result<bool, StoreError> {
    is_file_by(path, fs::metadata(path))
}

/// The same by what the system answered.
fn is_file_by(path: &Path, about: std::io::Result<fs::Metadata>) -> Result<bool, StoreError> {
    match about {
        Ok(about) => Ok(about.is_file()),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(StoreError::reading(path, &error)),
    }
}

/// True for a link, wherever it leads.
pub(super) fn is_link(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|about| about.is_symlink())
}

/// The file behind a link; the path itself where there is no link or no file yet.
pub(super) fn target_of(path: &Path) -> Result<PathBuf, StoreError> {
    match fs::metadata(path) {
        Ok(about) if about.is_dir() => Err(StoreError::new(path, StoreFault::IsFolder)),
        Ok(about) if !about.is_file() => Err(StoreError::new(path, StoreFault::NoFile)),
        Ok(_) => fs::canonicalize(path).map_err(|error| StoreError::writing(path, &error)),
        Err(error) if error.kind() == ErrorKind::NotFound => {
            // A link that leads nowhere: the file is made where it leads to.
            Ok(match fs::read_link(path) {
                Ok(to) => path.parent().unwrap_or(Path::new("")).join(to),
                Err(_) => path.to_owned(),
            })
        }
        Err(error) => Err(StoreError::writing(path, &error)),
    }
}

/// Brings the file to the disk, with the permissions of the one that it replaces.
fn finish(file: &File, replaced: Option<&fs::Metadata>) -> std::io::Result<()> {
    if let Some(about) = replaced {
        file.set_permissions(about.permissions())?;
    }
    file.sync_all()
}

/// Brings the new name to the disk. Only needed, and only possible, where a folder is a file.
#[cfg(unix)]
pub(super) fn sync_folder(folder: &Path) -> std::io::Result<()> {
    File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
#[expect(
    clippy::unnecessary_wraps,
    reason = "the same signature as where a folder can be brought to the disk"
)]
pub(super) fn sync_folder(_: &Path) -> std::io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A disk that fails, a share that does not answer.
    #[test]
    fn what_the_system_does_not_answer_of_is_none_that_is_not_there() {
        let path = Path::new("desk.events.jsonl");
        let by = |kind: ErrorKind| is_file_by(path, Err(kind.into()));
        assert_eq!(by(ErrorKind::NotFound), Ok(false));
        for kind in [
            ErrorKind::Other,
            ErrorKind::TimedOut,
            ErrorKind::PermissionDenied,
            ErrorKind::Interrupted,
        ] {
            assert!(by(kind).is_err(), "{kind}");
        }
    }
}
