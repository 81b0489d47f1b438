//! A file as bytes.

use super::{StoreError, StoreFault};
use std::fs::{self, File};
use std::io::Read as _;
use std::path::{Path, PathBuf};

/// The first bytes of a file, enough to tell its kind.
///
/// # Errors
///
/// As [`read_file`], of a file of any size.
pub fn read_beginning(path: &Path) -> Result<Vec<u8>, StoreError> {
    let failed = |error: std::io::Error| StoreError::reading(path, &error);
    let about = fs::metadata(path).map_err(failed)?;
    if about.is_dir() {
        return Err(StoreError::new(path, StoreFault::IsFolder));
    }
    if !about.is_file() {
        return Err(StoreError::new(path, StoreFault::NoFile));
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(failed)?;
    file.take(64).read_to_end(&mut bytes).map_err(failed)?;
    Ok(bytes)
}

/// The path of a file that is there, behind every link: what is signed for it lies beside that.
///
/// # Errors
///
/// The system does not tell.
pub fn behind_links(path: &Path) -> Result<PathBuf, StoreError> {
    fs::canonicalize(path).map_err(|error| StoreError::reading(path, &error))
}

/// The bytes of a file of at most `limit` bytes.
///
/// # Errors
///
/// Fails if there is no such file, it is none, is too large, or the system does not let it be read.
/// A file that grows while it is read is cut off nowhere: it is too large as soon as it passes the
/// limit.
pub fn read_file(path: &Path, limit: u64) -> Result<Vec<u8>, StoreError> {
    let failed = |error: std::io::Error| StoreError::reading(path, &error);
    // Looked at before it is opened: opening a pipe would wait for a writer.
    let about = fs::metadata(path).map_err(failed)?;
    let fault = |fault| Err(StoreError::new(path, fault));
    if about.is_dir() {
        return fault(StoreFault::IsFolder);
    }
    if !about.is_file() {
        return fault(StoreFault::NoFile);
    }
    read_open(path, &File::open(path).map_err(failed)?, limit)
}

/// The bytes of a file that is open, as [`read_file`] reads them.
pub(super) fn read_open(path: &Path, file: &File, limit: u64) -> Result<Vec<u8>, StoreError> {
    let failed = |error: std::io::Error| StoreError::reading(path, &error);
    let too_large = |bytes| Err(StoreError::new(path, StoreFault::TooLarge { bytes, limit }));
    let length = file.metadata().map_err(failed)?.len();
    if length > limit {
        return too_large(length);
    }
    // At once as much as there is: to grow on the way takes as long as reading a small file.
    let mut bytes = Vec::with_capacity(usize::try_from(length).map_or(0, |length| length + 1));
    file.take(limit.saturating_add(1))
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    match u64::try_from(bytes.len()) {
        Ok(read) if read <= limit => Ok(bytes),
        read => too_large(read.unwrap_or(u64::MAX)),
    }
}
