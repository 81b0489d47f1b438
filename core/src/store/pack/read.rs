//! A pack taken out of its file, into a new folder, whole or not at all.

use super::super::beside::{clear_stale_folders, folder_beside};
use super::super::pdf::is_of_case;
use super::super::write::{is_free, sync_folder};
use super::super::{Private, StoreError, StoreFault, read_file};
use super::{
    CONTENTS, Contents, MOST_BYTES, MOST_PARTS, PackFault, Packed, Part, VERSION, record_of, seal,
};
use std::fs;
use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};

/// A pack that was read whole: everything in it is as it lists it.
#[derive(Debug, Clone)]
pub struct ReadPack {
    contents: Contents,
    /// The list as it is in the pack.
    list: Vec<u8>,
    files: Vec<(String, Vec<u8>)>,
    private: Private,
}

/// Reads a pack; nothing is written.
///
/// # Errors
///
/// A pack that is none, is damaged, or holds what no pack does; a passphrase that does not open it; the disk.
pub fn read_pack(pack: &Path, passphrase: Option<&str>) -> Result<ReadPack, PackFault> {
    let bytes = read_file(pack, MOST_BYTES)?;
    let bytes = if seal::is_sealed(&bytes) {
        seal::open(&bytes, passphrase)?
    } else {
        bytes
    };
    let (contents, list, files) = taken_out(&bytes)?;
    Ok(ReadPack {
        contents,
        list,
        files,
        private: Private::like(pack),
    })
}

/// Takes everything out of a pack as [`ReadPack::unpack`] does. Gives back the case file.
///
/// # Errors
///
/// As [`read_pack`] and [`ReadPack::unpack`]. Nothing was written.
pub fn unpack(pack: &Path, to: &Path, passphrase: Option<&str>) -> Result<PathBuf, PackFault> {
    read_pack(pack, passphrase)?.unpack(to)
}

impl ReadPack {
    /// When and where it was packed; nothing where it does not say.
    #[must_use]
    pub const fn packed(&self) -> Option<&Packed> {
        self.contents.packed.as_ref()
    }

    /// The bytes of the case in it.
    #[must_use]
    pub fn case(&self) -> &[u8] {
        self.files.first().map_or(&[], |(_, bytes)| bytes)
    }

    /// Writes everything into a folder that is not there yet, each file as private as the pack, with the list beside
    /// the case. Gives back the case file. What a killed program left of the same is cleared away.
    ///
    /// # Errors
    ///
    /// [`StoreFault::Exists`] where something has the folder's name; the disk. Nothing was written.
    pub fn unpack(&self, to: &Path) -> Result<PathBuf, PackFault> {
        if is_of_case(to, None) {
            return Err(StoreError::new(to, StoreFault::OfCase).into());
        }
        if !is_free(to).map_err(|error| StoreError::writing(to, &error))? {
            return Err(StoreError::new(to, StoreFault::Exists).into());
        }
        let case = to.join(&self.contents.case);
        let name = to
            .file_name()
            .ok_or_else(|| StoreError::new(to, StoreFault::NoName))?;
        let above = to.parent().filter(|above| !above.as_os_str().is_empty());
        let above = above.unwrap_or(Path::new("."));
        let failed = |error: std::io::Error| StoreError::writing(to, &error);
        let (beside, held) = folder_beside(above, name, self.private)
            .map_err(|error| StoreError::making(to, &error))?;
        clear_stale_folders(above, name, &beside);
        let written = self
            .write_into(&beside)
            .and_then(|()| fs::rename(&beside, to))
            .map_err(failed);
        drop(held);
        if let Err(error) = written {
            // The error to tell is the first one; what is left here is no case.
            let _ = fs::remove_dir_all(&beside);
            return Err(error.into());
        }
        sync_folder(above)
            .map_err(|error| StoreError::new(to, StoreFault::Unsure(error.to_string())))?;
        Ok(case)
    }

    /// Writes all files into a new folder and brings them to the disk.
    fn write_into(&self, folder: &Path) -> std::io::Result<()> {
        let record = folder.join(record_of(&self.contents.case));
        self.private.new_folder(&record)?;
        let list = (CONTENTS, &self.list);
        let files = self.files.iter().map(|(name, bytes)| (&**name, bytes));
        for (name, bytes) in files.chain([list]) {
            let options = &mut self.private.file();
            let mut file = options
                .write(true)
                .create_new(true)
                .open(folder.join(name))?;
            file.write_all(bytes)?;
            file.sync_all()?;
        }
        sync_folder(&record)?;
        sync_folder(folder)
    }
}

/// What a pack lists, the list as it is in it, and its files by name.
type TakenOut = (Contents, Vec<u8>, Vec<(String, Vec<u8>)>);

/// What a pack lists, and its files as it lists them. Every length is known before anything of it is read.
pub(super) fn taken_out(bytes: &[u8]) -> Result<TakenOut, PackFault> {
    let mut archive = tar::Archive::new(bytes);
    let mut entries = archive.entries().map_err(|_| PackFault::NotAPack)?;
    let mut next = |limit: u64| -> Result<Option<(String, Vec<u8>)>, PackFault> {
        let Some(entry) = entries.next() else {
            return Ok(None);
        };
        let mut entry = entry.map_err(|_| PackFault::NotAPack)?;
        let name = String::from_utf8_lossy(&entry.path_bytes()).into_owned();
        let length = entry.size();
        if entry.header().entry_type() != tar::EntryType::Regular || length > limit {
            return Err(PackFault::Unsafe(name));
        }
        let mut content = Vec::new();
        let read = entry.by_ref().take(limit).read_to_end(&mut content);
        match read {
            Ok(read) if read as u64 == length => Ok(Some((name, content))),
            _ => Err(PackFault::Damaged(name)),
        }
    };
    let list = match next(MOST_BYTES)? {
        Some((name, content)) if name == CONTENTS => content,
        _ => return Err(PackFault::NotAPack),
    };
    let contents = listed(&list)?;
    let mut files = Vec::new();
    for part in &contents.parts {
        let found = next(part.bytes)?.ok_or_else(|| PackFault::Damaged(part.name.clone()))?;
        if found.0 != part.name {
            return Err(PackFault::Unsafe(found.0));
        }
        if Part::of(&found.0, &found.1) != *part {
            return Err(PackFault::Damaged(found.0));
        }
        files.push(found);
    }
    match next(0)? {
        Some((name, _)) => Err(PackFault::Unsafe(name)),
        None => Ok((contents, list, files)),
    }
}

pub(super) fn listed(bytes: &[u8]) -> Result<Contents, PackFault> {
    let value: serde_json::Value =
        serde_json::from_slice(bytes).map_err(|_| PackFault::NotAPack)?;
    let version = value
        .get("traywright_pack")
        .and_then(serde_json::Value::as_u64);
    match version.map(u32::try_from) {
        Some(Ok(version)) if version > VERSION => return Err(PackFault::Newer(version)),
        Some(Ok(1..=VERSION)) => {}
        _ => return Err(PackFault::NotAPack),
    }
    let contents: Contents = serde_json::from_value(value).map_err(|_| PackFault::NotAPack)?;
    if let Some(name) = contents.first_unsafe() {
        return Err(PackFault::Unsafe(name));
    }
    let all = contents
        .parts
        .iter()
        .try_fold(0_u64, |sum, part| sum.checked_add(part.bytes));
    if contents.parts.len() > MOST_PARTS || all.is_none_or(|all| all > MOST_BYTES) {
        return Err(PackFault::Unsafe(CONTENTS.to_owned()));
    }
    Ok(contents)
}
