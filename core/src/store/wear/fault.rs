//! Why something was not counted.

use crate::sign::{CaseJaw, Problem};
use crate::store::{EventsError, StoreError, StoreFault};
use std::path::{Path, PathBuf};

/// A ledger that could not be read or brought up to date, and why.
#[derive(Debug)]
pub enum WearFault {
    /// The disk refused.
    Store(StoreError),
    /// There is no ledger beside the kit.
    NotThere(PathBuf),
    /// It is no ledger, or a damaged one.
    Damaged(PathBuf),
    /// It was written by a newer program.
    Newer(PathBuf),
    /// It is the ledger of another kit.
    OtherKit {
        /// The ledger.
        file: PathBuf,
        /// The id of its kit.
        found: String,
    },
    /// The database refused, in its own words.
    Refused {
        /// The ledger.
        file: PathBuf,
        /// Its words.
        reason: String,
    },
    /// Cases that cannot be counted.
    Cases(Vec<UncountedCase>),
    /// Cases that the ledger has are not among those that were read.
    Gone(Vec<CaseJaw>),
}

/// A case that cannot be counted.
#[derive(Debug)]
pub struct UncountedCase {
    /// Its file.
    pub file: PathBuf,
    /// Why.
    pub why: Uncounted,
}

/// A reason why a case cannot be counted.
#[derive(Debug)]
pub enum Uncounted {
    /// The file cannot be read.
    Unread(StoreError),
    /// It was written by a newer program.
    Newer,
    /// It is damaged, or no case.
    Damaged,
    /// What was recorded of it cannot be read.
    Events(EventsError),
    /// Its record is broken: what is missing may be a use.
    Broken,
    /// Another file is a copy of the same case, and both went on.
    Apart(PathBuf),
}

impl From<StoreError> for WearFault {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}

impl WearFault {
    pub(super) fn of_database(file: &Path, error: &rusqlite::Error) -> Self {
        use rusqlite::ErrorCode as Code;
        let file = file.to_owned();
        let Some(code) = error.sqlite_error_code() else {
            // What stands in it has another form than any ledger.
            return Self::Damaged(file);
        };
        let fault = match code {
            Code::NotADatabase | Code::DatabaseCorrupt | Code::ConstraintViolation => {
                return Self::Damaged(file);
            }
            Code::DiskFull => StoreFault::DiskFull,
            Code::ReadOnly => StoreFault::MayNotWrite,
            Code::PermissionDenied | Code::CannotOpen => StoreFault::MayNotRead,
            _ => {
                let reason = error.to_string();
                return Self::Refused { file, reason };
            }
        };
        Self::Store(StoreError::new(&file, fault))
    }
}

impl Uncounted {
    /// Faults of the record, where it is that.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        match self {
            Self::Events(EventsError::Damaged { problems, .. }) => problems,
            _ => &[],
        }
    }
}
