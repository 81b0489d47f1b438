//! Where a case came from that was taken out of a pack: told as long as the list of the pack lies beside it.

use super::super::{StoreFault, read_file};
use super::{CONTENTS, Contents, MOST_PARTS, read};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use std::path::Path;

/// Most bytes of the list of a pack that are read, by the longest names of its most parts.
const MOST_BYTES: u64 = MOST_PARTS as u64 * 1024;

/// When and where a case was packed, as the pack says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Packed {
    /// The time, by the clock there.
    pub at: Timestamp,
    /// The desk; nothing where it had no name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub desk: Option<String>,
    /// The case file there.
    pub file: String,
}

/// A pack that a case came out of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FromPack {
    /// When and where it was packed; nothing where the pack did not say, or its list cannot be read.
    pub packed: Option<Packed>,
    /// True if the list names the file, or cannot be read: then it is a copy. Else it may be one under another name.
    pub is_named: bool,
}

impl Packed {
    pub(super) fn now(at: Timestamp, desk: Option<&str>, case_file: &Path) -> Self {
        let file = std::fs::canonicalize(case_file);
        let file = file.unwrap_or_else(|_| case_file.to_owned());
        Self {
            at,
            desk: desk.map(str::to_owned),
            file: file.display().to_string(),
        }
    }
}

/// The pack that a case file came out of; nothing where no list of one lies beside it. The file may have another
/// name by now, and the list be one that this program cannot read: it is a copy all the same.
#[must_use]
pub fn from_pack(case_file: &Path) -> Option<FromPack> {
    let list = list_in(case_file.parent()?)?;
    let is_named = list.names(case_file);
    let packed = list.0.and_then(|contents| contents.packed);
    Some(FromPack { packed, is_named })
}

/// The list of a pack that lies in a folder; nothing in it where it cannot be read.
pub(in crate::store) struct PackList(Option<Contents>);

impl PackList {
    /// True if a case file is the one that was packed, by its name, or nobody can say.
    pub(in crate::store) fn names(&self, case_file: &Path) -> bool {
        let is_its = |name: &Contents| case_file.file_name().is_some_and(|own| own == &*name.case);
        self.0.as_ref().is_none_or(is_its)
    }
}

/// The list of the pack that what is in a folder came out of.
pub(in crate::store) fn list_in(folder: &Path) -> Option<PackList> {
    match read_file(&folder.join(CONTENTS), MOST_BYTES) {
        Ok(bytes) => Some(PackList(read::listed(&bytes).ok())),
        Err(error) if error.fault == StoreFault::NotFound => None,
        Err(_) => Some(PackList(None)),
    }
}
