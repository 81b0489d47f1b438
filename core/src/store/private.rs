//! Who may read a new file: settled as it is made, not after its first byte.

use super::write::sync_folder;
use std::fs::{self, DirBuilder, OpenOptions};
use std::path::Path;

/// Who may read and write a new file, as the permissions of the system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Private(u32);

impl Private {
    /// This user alone.
    pub const OWN: Self = Self(0o600);
    /// Whoever this user lets see new files.
    pub const USUAL: Self = Self(0o666);

    /// As a file that is there; the usual where it is not, and this user alone where the system does not tell.
    #[must_use]
    pub fn like(file: &Path) -> Self {
        match fs::metadata(file) {
            Ok(about) => Self::of(&about),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Self::USUAL,
            Err(_) => Self::OWN,
        }
    }

    pub(super) fn of(about: &fs::Metadata) -> Self {
        Self(mode(&about.permissions()))
    }

    /// For opening a file that may be new. The writer itself can always go on in it.
    pub(super) fn file(self) -> OpenOptions {
        let mut options = OpenOptions::new();
        #[cfg(unix)]
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, self.0 & 0o666 | 0o600);
        options
    }

    /// Makes a folder, with those above it: whoever may read its files may look into it.
    fn folders(self) -> DirBuilder {
        let mut folders = DirBuilder::new();
        #[cfg(unix)]
        {
            let looks = self.0 & 0o666 | (self.0 & 0o444) >> 2 | 0o700;
            std::os::unix::fs::DirBuilderExt::mode(&mut folders, looks);
        }
        folders
    }

    /// Makes a folder within one that is there, and brings its name to the disk: what is written in it
    /// lasts no longer than that.
    pub(super) fn folder(self, path: &Path) -> std::io::Result<()> {
        match self.folders().create(path) {
            Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => Ok(()),
            Err(error) => Err(error),
            Ok(()) => match path.parent() {
                Some(above) if !above.as_os_str().is_empty() => sync_folder(above),
                _ => sync_folder(Path::new(".")),
            },
        }
    }

    /// Makes a folder that is not there.
    pub(super) fn new_folder(self, path: &Path) -> std::io::Result<()> {
        self.folders().create(path)
    }

    /// Makes a folder and those above it that are not there.
    ///
    /// # Errors
    ///
    /// The system refuses.
    pub fn folder_and_above(self, path: &Path) -> std::io::Result<()> {
        self.folders().recursive(true).create(path)
    }
}

#[cfg(unix)]
fn mode(permissions: &fs::Permissions) -> u32 {
    std::os::unix::fs::PermissionsExt::mode(permissions)
}

#[cfg(not(unix))]
fn mode(_: &fs::Permissions) -> u32 {
    Private::USUAL.0
}
