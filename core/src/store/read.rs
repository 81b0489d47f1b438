//! A file as bytes.

use super::{StoreError, StoreFault};
use std::fs::{self, File};
use std::io::Read as _;
use std::path::Path;

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
    let too_large = |bytes| fault(StoreFault::TooLarge { bytes, limit });
    if about.len() > limit {
        return too_large(about.len());
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(failed)?;
    let mut file = file.take(limit.saturating_add(1));
    file.read_to_end(&mut bytes).map_err(failed)?;
    match u64::try_from(bytes.len()) {
        Ok(read) if read <= limit => Ok(bytes),
        read => too_large(read.unwrap_or(u64::MAX)),
    }
}
