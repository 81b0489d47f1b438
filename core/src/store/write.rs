//! A file written whole or not at all.

use super::{StoreError, StoreFault};
use std::fs::{self, File, OpenOptions};
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};

/// Writes a file so that there is never half of it: beside it first, to the disk, then in its
/// place in one step.
///
/// A link is followed, so that the file it leads to is replaced and not the link; the permissions
/// of a file that is replaced are kept.
///
/// # Errors
///
/// Fails if the folder is not there or cannot be written, or the disk is full. The old file is then
/// still there, unchanged, and nothing is left beside it; only after [`StoreFault::Unsure`] the new
/// one is.
pub fn write_safely(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    write_with(path, |file| file.write_all(bytes))
}

/// The same, the bytes written by `write`.
pub(super) fn write_with(
    path: &Path,
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
    if !folder.is_dir() {
        return Err(StoreError::new(folder, StoreFault::NoFolder));
    }
    let failed = |error: std::io::Error| StoreError::writing(path, &error);
    let (mut file, beside) = open_beside(folder, name).map_err(failed)?;
    let written = write(&mut file)
        .and_then(|()| finish(&file, &target))
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

/// A new file in the folder, with a name that nothing has yet.
fn open_beside(folder: &Path, name: &std::ffi::OsStr) -> std::io::Result<(File, PathBuf)> {
    let mut last = ErrorKind::AlreadyExists.into();
    for n in 0..100 {
        let mut beside = std::ffi::OsString::from(".");
        beside.push(name);
        beside.push(format!(".{}-{n}.part", std::process::id()));
        let beside = folder.join(beside);
        match OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&beside)
        {
            Ok(file) => return Ok((file, beside)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

/// Brings the file to the disk, with the permissions of the one that it replaces.
fn finish(file: &File, target: &Path) -> std::io::Result<()> {
    if let Ok(about) = fs::metadata(target) {
        file.set_permissions(about.permissions())?;
    }
    file.sync_all()
}

/// Brings the new name to the disk. Only needed, and only possible, where a folder is a file.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> std::io::Result<()> {
    File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
#[expect(
    clippy::unnecessary_wraps,
    reason = "the same signature as where a folder can be brought to the disk"
)]
fn sync_folder(_: &Path) -> std::io::Result<()> {
    Ok(())
}
