//! Packs: a case, everything of its record and, if wished, a kit in one file, byte for byte.
//!
//! A pack is a tar archive (POSIX.1-2017, `pax`) of plain files. The first of them lists the others with their length
//! and SHA-256, and says when and where they were packed; nothing else is taken out of it, and it stays beside them, so
//! that a case that came out of a pack says so. With a passphrase a pack is encrypted as age-encryption.org/v1.

mod origin;
mod read;
mod seal;
#[cfg(test)]
mod tests;

pub use origin::{FromPack, Packed, from_pack};
pub(super) use origin::{PackList, list_in};
pub use read::{ReadPack, read_pack, unpack};
pub use seal::is_sealed;

use super::events::{MOST_BYTES as MOST_OF_RECORD, events_folder};
use super::pdf::is_of_case;
use super::record::is_of_system;
use super::write::{is_file, is_free};
use super::{
    EventsError, Held, Private, StoreError, StoreFault, read_events, read_file, write_safely,
};
use crate::case::read_case;
use crate::document::MOST_BYTES as MOST_OF_CASE;
use crate::plan::case_jaw;
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use std::fs;
use std::path::{Path, PathBuf};

/// The first file of a pack.
const CONTENTS: &str = "traywright-pack.json";

/// Version of packs that are written; older ones are read. The first did not say when and where it was packed.
const VERSION: u32 = 2;

/// Most bytes of a pack that are read or written: a case, a kit and a record of years (no source).
const MOST_BYTES: u64 = 512 * 1024 * 1024;

/// Most files of a pack (no source).
const MOST_PARTS: usize = 10_000;

/// Files by their name in a pack.
type Files = Vec<(String, Vec<u8>)>;

/// What a pack holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Contents {
    traywright_pack: u32,
    /// The name of the case file. Its record is in the folder that belongs to it.
    case: String,
    /// The name of a kit file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    kit: Option<String>,
    /// When and where; nothing in packs of version 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    packed: Option<Packed>,
    parts: Vec<Part>,
}

/// A file of a pack.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Part {
    name: String,
    bytes: u64,
    sha256: String,
}

/// A reason why nothing was packed or unpacked.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PackFault {
    /// The disk refused.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// It is no pack, or only a part of one.
    #[error("no pack")]
    NotAPack,
    /// A newer program wrote it.
    #[error("version {0} is newer than {VERSION}")]
    Newer(u32),
    /// It holds what no pack holds: a link, a folder, a name that leads elsewhere, too much.
    #[error("{0} has no place in a pack")]
    Unsafe(String),
    /// A part is not what the contents say.
    #[error("{0} is damaged")]
    Damaged(String),
    /// The passphrase does not open it, or it was changed.
    #[error("the passphrase does not open it")]
    Passphrase,
    /// The record of the case has a break: packed without what cannot be read it would look sound.
    #[error("the record has a break")]
    Broken,
    /// A file to be packed has a name that no other system may have.
    #[error("{0} cannot be packed under its name")]
    Name(String),
    /// The case or its record was written meanwhile, again and again.
    #[error("the case or its record was written meanwhile")]
    Meanwhile,
}

impl PackFault {
    /// The id of its text and what the text names; nothing for a fault of the disk, which says it itself.
    #[must_use]
    pub fn text(&self) -> Option<(&'static str, String)> {
        Some(match self {
            Self::Store(_) => return None,
            Self::NotAPack => ("pack-not", String::new()),
            Self::Newer(version) => ("pack-newer", version.to_string()),
            Self::Unsafe(name) => ("pack-unsafe", name.clone()),
            Self::Damaged(name) => ("pack-damaged", name.clone()),
            Self::Passphrase => ("pack-passphrase", String::new()),
            Self::Broken => ("pack-broken", String::new()),
            Self::Name(name) => ("pack-name", name.clone()),
            Self::Meanwhile => ("pack-meanwhile", String::new()),
        })
    }
}

/// True if a file begins as a pack does, encrypted or not.
#[must_use]
pub fn is_pack(bytes: &[u8]) -> bool {
    bytes.starts_with(CONTENTS.as_bytes()) || is_sealed(bytes)
}

/// Writes a case file, everything in the folder of its record and perhaps a kit file into a new file, as private as
/// the case, with the time and the desk at which that was done. Gives back how many files it holds.
///
/// Everything is read until it is twice the same: nobody is kept from signing meanwhile, nor, where the folder of the case
/// is for reading only, from writing it.
///
/// # Errors
///
/// [`StoreFault::Exists`] where something has the name; else a file that cannot be read, or the disk. Nothing was
/// written.
pub fn pack(
    case_file: &Path,
    kit_file: Option<&Path>,
    to: &Path,
    passphrase: Option<&str>,
    (at, desk): (Timestamp, Option<&str>),
) -> Result<usize, PackFault> {
    let private = Private::like(case_file);
    let held = held_if_it_can_be(case_file)?;
    if is_of_case(to, Some(case_file)) {
        return Err(StoreError::new(to, StoreFault::OfCase).into());
    }
    let files = settled(case_file, || files(case_file, kit_file))?;
    drop(held);
    let kit = kit_file.and(files.last());
    let contents = Contents {
        traywright_pack: VERSION,
        case: files
            .first()
            .map(|(name, _)| name.clone())
            .unwrap_or_default(),
        kit: kit.map(|(name, _)| name.clone()),
        packed: Some(Packed::now(at, desk, case_file)),
        parts: parts(&files),
    };
    if let Some(name) = contents.first_unsafe() {
        return Err(PackFault::Name(name));
    }
    let archive = archive(&contents, &files)
        .map_err(|error| StoreError::new(to, StoreFault::Other(error.to_string())))?;
    let bytes = match passphrase {
        Some(passphrase) => seal::seal(&archive, passphrase)
            .map_err(|reason| StoreError::new(to, StoreFault::Other(reason)))?,
        None => archive,
    };
    let _held = Held::hold(to, private)?;
    if !is_free(to).map_err(|error| StoreError::writing(to, &error))? {
        return Err(StoreError::new(to, StoreFault::Exists).into());
    }
    write_safely(to, &bytes, private)?;
    Ok(files.len())
}

/// How often everything is read anew while desks sign, each of which takes far longer for an event (no source).
const TRIES: usize = 10;

/// Everything that is packed, as it lay there at one moment, of a record without a break. Who holds the case keeps nobody
/// from signing: what one desk had read of another, which had been read before it signed, would be missing. So it is read
/// until it is twice the same.
fn settled(
    case_file: &Path,
    mut files: impl FnMut() -> Result<Files, PackFault>,
) -> Result<Files, PackFault> {
    let mut before = parts(&files()?);
    for _ in 0..TRIES {
        let is_broken = is_broken(case_file)?;
        let files = files()?;
        let now = parts(&files);
        if now == before {
            return if is_broken {
                Err(PackFault::Broken)
            } else {
                Ok(files)
            };
        }
        before = now;
    }
    Err(PackFault::Meanwhile)
}

/// Holds a case, so that nobody writes it meanwhile; nothing where nothing can be made in its folder: who packs it writes
/// nothing there.
fn held_if_it_can_be(case_file: &Path) -> Result<Option<Held>, StoreError> {
    match Held::hold(case_file, Private::like(case_file)) {
        Ok(held) => Ok(Some(held)),
        Err(error)
            if matches!(
                error.fault,
                StoreFault::FolderReadOnly | StoreFault::MayNotWrite
            ) =>
        {
            Ok(None)
        }
        Err(error) => Err(error),
    }
}

/// True if the record of a case has a break, or cannot be held against the case: what is missing in a pack would be
/// missed by nobody.
fn is_broken(case_file: &Path) -> Result<bool, StoreError> {
    let bytes = read_file(case_file, MOST_OF_CASE as u64)?;
    let Ok(case) = read_case(&bytes) else {
        return Ok(true);
    };
    match read_events(case_file, &case_jaw(&case)) {
        Ok(beside) => Ok(beside.events.is_broken()),
        Err(EventsError::Store(error)) => Err(error),
        Err(_) => Ok(true),
    }
}

/// The case, the files of its record by name, the kit: each with its name in the pack.
fn files(case_file: &Path, kit_file: Option<&Path>) -> Result<Files, PackFault> {
    let name = |path: &Path| {
        let name = path.file_name().unwrap_or_default();
        let lossy = || PackFault::Name(name.to_string_lossy().into_owned());
        name.to_str().map(str::to_owned).ok_or_else(lossy)
    };
    let case = name(case_file)?;
    let most_of_case = MOST_OF_CASE as u64;
    let mut files = vec![(case.clone(), read_file(case_file, most_of_case)?)];
    let folder = events_folder(case_file);
    for path in within(&folder)? {
        let own = name(&path)?;
        // Locks say nothing, and what is being written is not there yet.
        let passes = |ending: &str| own.ends_with(ending);
        // What systems leave in every folder is none of the record, which was read and has no break.
        let is_hidden = own.starts_with('.');
        if !passes(".lock") && !passes(".part") && !is_hidden && is_file(&path)? {
            let bytes = read_file(&path, MOST_OF_RECORD)?;
            if is_of_system(&own, &bytes) {
                continue;
            }
            files.push((format!("{}/{own}", record_of(&case)), bytes));
        }
    }
    if let Some(kit) = kit_file {
        files.push((name(kit)?, read_file(kit, most_of_case)?));
    }
    Ok(files)
}

/// The entries of a folder, sorted; none where there is none.
fn within(folder: &Path) -> Result<Vec<PathBuf>, StoreError> {
    let refused = |error: std::io::Error| StoreError::reading(folder, &error);
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries.map_err(refused)?,
    };
    let paths = entries.map(|entry| entry.map(|entry| entry.path()));
    let mut paths = paths
        .collect::<std::io::Result<Vec<_>>>()
        .map_err(refused)?;
    paths.sort();
    Ok(paths)
}

/// What a pack lists of its files.
fn parts(files: &[(String, Vec<u8>)]) -> Vec<Part> {
    let parts = files.iter().map(|(name, bytes)| Part::of(name, bytes));
    parts.collect()
}

/// The name of the folder of a case's record.
fn record_of(case: &str) -> String {
    events_folder(Path::new(case)).display().to_string()
}

fn archive(contents: &Contents, files: &[(String, Vec<u8>)]) -> std::io::Result<Vec<u8>> {
    let mut archive = tar::Builder::new(Vec::new());
    let mut add = |name: &str, bytes: &[u8]| {
        let mut header = tar::Header::new_ustar();
        header.set_size(bytes.len() as u64);
        header.set_mode(0o600);
        header.set_entry_type(tar::EntryType::Regular);
        archive.append_data(&mut header, name, bytes)
    };
    add(CONTENTS, &serde_json::to_vec_pretty(contents)?)?;
    for (name, bytes) in files {
        add(name, bytes)?;
    }
    archive.into_inner()
}

impl Part {
    fn of(name: &str, bytes: &[u8]) -> Self {
        Self {
            name: name.to_owned(),
            bytes: bytes.len() as u64,
            sha256: data_encoding::HEXLOWER.encode(&Sha256::digest(bytes)),
        }
    }
}

impl Contents {
    /// The first name that a pack cannot hold: the case has a plain one, each file of the record a plain one in the
    /// case's folder, the kit a plain one, and none is there twice, whatever system it is unpacked on.
    fn first_unsafe(&self) -> Option<String> {
        let folder = record_of(&self.case);
        let taken = [folder.to_lowercase(), CONTENTS.to_owned()];
        let mut names = std::collections::BTreeSet::from(taken);
        let unsafe_part = self.parts.iter().enumerate().find(|(n, part)| {
            let name = part.name.as_str();
            let of_record = name
                .strip_prefix(&folder)
                .and_then(|rest| rest.strip_prefix('/'));
            let own = match of_record {
                Some(of_record) => is_plain(of_record),
                None => {
                    is_plain(name)
                        && (*n == 0 && name == self.case || self.kit.as_deref() == Some(name))
                }
            };
            !own || !names.insert(name.to_lowercase())
        });
        let case = self
            .parts
            .first()
            .is_some_and(|part| part.name == self.case);
        let none = (!case).then(|| self.case.clone());
        unsafe_part.map(|(_, part)| part.name.clone()).or(none)
    }
}

/// True for the name of one file that every system takes as such, and that hides nothing.
fn is_plain(name: &str) -> bool {
    let of_path = |c: char| matches!(c, '/' | '\\' | ':');
    !name.is_empty()
        && name.len() <= 200
        && !name.starts_with('.')
        && !name.ends_with(['.', ' '])
        && !name
            .chars()
            .any(|c| of_path(c) || c.is_control() || crate::document::is_unseen(c))
}
