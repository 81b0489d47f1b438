//! Faults of files, and what helps.

use crate::document::legible;
use std::io::{Error, ErrorKind};
use std::path::{Path, PathBuf};

/// A file or folder that could not be read or written, and the reason.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoreError {
    /// The file or folder.
    pub path: PathBuf,
    /// The fault.
    pub fault: StoreFault,
}

/// A path as people read it: nothing in it garbles a line or commands a terminal.
#[must_use]
pub fn shown(path: &Path) -> String {
    legible(&path.display().to_string())
}

/// A fault of a file or folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StoreFault {
    /// Nothing has this name.
    NotFound,
    /// It is a folder, where a file is needed.
    IsFolder,
    /// It is neither file nor folder, such as a pipe or a device.
    NoFile,
    /// The folder of the file is not there.
    NoFolder,
    /// Something else has the name of a folder.
    NotFolder,
    /// The name is empty or ends in a way that no file's does.
    NoName,
    /// The system does not let this user read it.
    MayNotRead,
    /// The system does not let this user write it.
    MayNotWrite,
    /// The system does not let this user make anything in the folder, or its disk is for reading only.
    FolderReadOnly,
    /// It is protected against writing, whatever else this user may do.
    Protected,
    /// Something has the name already.
    Exists,
    /// There is something else than a PDF, which a PDF never replaces.
    NotPdf,
    /// It is a file of a case, or has the name of one.
    OfCase,
    /// More bytes than are ever read.
    TooLarge {
        /// The bytes of the file.
        bytes: u64,
        /// The most that are read.
        limit: u64,
    },
    /// The disk, or the share of this user, is full.
    DiskFull,
    /// The new file is in its place, but the system could not confirm that it is on the disk.
    Unsure(String),
    /// A line was to be added, and whether it is on the disk nobody knows.
    Doubt(String),
    /// The system takes no such name: it is too long, or has what no name may have.
    BadName,
    /// Anything else, in the words of the system.
    Other(String),
}

impl StoreFault {
    /// The id of the fault's text.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        match self {
            Self::NotFound => "store-not-found",
            Self::IsFolder => "store-is-folder",
            Self::NoFile => "store-no-file",
            Self::NoFolder => "store-no-folder",
            Self::NotFolder => "store-not-folder",
            Self::NoName => "store-no-name",
            Self::MayNotRead => "store-may-not-read",
            Self::MayNotWrite => "store-may-not-write",
            Self::FolderReadOnly => "store-folder-read-only",
            Self::Protected => "store-protected",
            Self::Exists => "store-exists",
            Self::NotPdf => "store-not-pdf",
            Self::OfCase => "store-of-case",
            Self::TooLarge { .. } => "store-too-large",
            Self::DiskFull => "store-disk-full",
            Self::Unsure(_) => "store-unsure",
            Self::Doubt(_) => "store-doubt",
            Self::BadName => "store-bad-name",
            Self::Other(_) => "store-other",
        }
    }
}

impl StoreError {
    pub(super) fn new(path: &Path, fault: StoreFault) -> Self {
        Self {
            path: path.to_owned(),
            fault,
        }
    }

    pub(super) fn reading(path: &Path, error: &Error) -> Self {
        Self::new(path, fault_of(error, StoreFault::MayNotRead))
    }

    /// Where the file is not there yet, it is its folder that cannot be written.
    pub(super) fn writing(path: &Path, error: &Error) -> Self {
        let there = std::fs::symlink_metadata(path);
        if there.is_err_and(|error| error.kind() == ErrorKind::NotFound) {
            return Self::making(path, error);
        }
        Self::new(path, fault_of(error, StoreFault::MayNotWrite))
    }

    /// Of something new that was to be made in the folder of this file.
    pub(super) fn making(path: &Path, error: &Error) -> Self {
        let folder = path.parent().unwrap_or(path);
        match fault_of(error, StoreFault::FolderReadOnly) {
            StoreFault::FolderReadOnly => Self::new(folder, StoreFault::FolderReadOnly),
            fault => Self::new(path, fault),
        }
    }

    /// The error as a sentence: which file, what, remedy. `text` gives the text of an id.
    #[must_use]
    pub fn sentence(&self, text: impl Fn(&str, &[(&str, &str)]) -> String) -> String {
        let path = shown(&self.path);
        let (bytes, limit, reason) = match &self.fault {
            StoreFault::TooLarge { bytes, limit } => {
                (bytes.to_string(), limit.to_string(), String::new())
            }
            StoreFault::Unsure(reason) | StoreFault::Doubt(reason) | StoreFault::Other(reason) => {
                (String::new(), String::new(), reason.clone())
            }
            _ => Default::default(),
        };
        let args = [
            ("path", path.as_str()),
            ("bytes", &bytes),
            ("limit", &limit),
            ("reason", &reason),
        ];
        text(self.fault.id(), &args)
    }
}

fn fault_of(error: &Error, denied: StoreFault) -> StoreFault {
    match error.kind() {
        ErrorKind::NotFound => StoreFault::NotFound,
        ErrorKind::NotADirectory => StoreFault::NoFolder,
        ErrorKind::IsADirectory => StoreFault::IsFolder,
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => denied,
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
            StoreFault::DiskFull
        }
        ErrorKind::InvalidFilename | ErrorKind::InvalidInput => StoreFault::BadName,
        _ => StoreFault::Other(error.to_string()),
    }
}

impl std::fmt::Display for StoreError {
    /// A terse form for logs and tests; people read the text of [`StoreFault::id`].
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.path.display(), self.fault.id())?;
        match &self.fault {
            StoreFault::TooLarge { bytes, limit } => write!(f, " ({bytes} > {limit})"),
            StoreFault::Unsure(reason) | StoreFault::Doubt(reason) | StoreFault::Other(reason) => {
                write!(f, " ({reason})")
            }
            _ => Ok(()),
        }
    }
}

impl std::error::Error for StoreError {}
