//! One program at a time: a lock file beside what is written.

use super::write::{is_free, target_of};
use super::{Private, StoreError};
use std::fs::{self, File};
use std::path::{Path, PathBuf};

/// Holds the lock of one file until it is dropped. Whoever reads a file, decides and writes it holds it
/// meanwhile; who only reads needs none.
#[derive(Debug)]
pub struct Held {
    /// The file, as it was named.
    pub(super) file: PathBuf,
    lock: PathBuf,
    _open: File,
}

impl Held {
    /// Waits until no other program holds the lock of this file: `.NAME.lock` beside it, or beside what a
    /// link leads to. A new lock is as private as the file, or as that is to be.
    ///
    /// # Errors
    ///
    /// Fails if the folder is not there or nothing can be written in it.
    pub fn hold(file: &Path, private: Private) -> Result<Self, StoreError> {
        let target = target_of(file)?;
        let mut name = std::ffi::OsString::from(".");
        name.push(target.file_name().unwrap_or_default());
        name.push(".lock");
        let lock = target.with_file_name(name);
        let private = match is_free(&target) {
            Ok(true) => private,
            _ => Private::like(&target),
        };
        let refused = |error: std::io::Error| StoreError::writing(file, &error);
        loop {
            let made = !lock.exists();
            let open = private.file().create(true).append(true).open(&lock);
            let open = open.map_err(|error| {
                if made {
                    StoreError::making(file, &error)
                } else {
                    refused(error)
                }
            })?;
            open.lock().map_err(refused)?;
            // Whoever held it before took it away; a new one of the name is another lock.
            if is_still(&open, &lock).map_err(refused)? {
                return Ok(Self {
                    file: file.to_owned(),
                    lock,
                    _open: open,
                });
            }
        }
    }
}

impl Drop for Held {
    fn drop(&mut self) {
        // While it is held; where it stays it holds nobody up.
        #[cfg(unix)]
        let _ = fs::remove_file(&self.lock);
    }
}

#[cfg(unix)]
fn is_still(open: &File, lock: &Path) -> std::io::Result<bool> {
    use std::os::unix::fs::MetadataExt as _;
    let held = open.metadata()?;
    match fs::metadata(lock) {
        Ok(there) => Ok((held.dev(), held.ino()) == (there.dev(), there.ino())),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(false),
        // To try it again and again would wait for a system that does not answer.
        Err(error) => Err(error),
    }
}

#[cfg(not(unix))]
#[expect(
    clippy::unnecessary_wraps,
    reason = "the same signature as where a file can be told from another"
)]
fn is_still(_: &File, _: &Path) -> std::io::Result<bool> {
    Ok(true)
}
