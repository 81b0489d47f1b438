//! A pack taken out of its file, into a new folder, whole or not at all.

use super::super::pdf::is_of_case;
use super::super::write::sync_folder;
use super::super::{Private, StoreError, StoreFault, read_file};
use super::{
    CONTENTS, Contents, MOST_BYTES, MOST_PARTS, PackFault, Part, VERSION, record_of, seal,
};
use std::fs;
use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};

/// Takes everything out of a pack into a folder that is not there yet, each file as private as the pack. Gives back
/// the case file.
///
/// # Errors
///
/// [`StoreFault::Exists`] where something has the folder's name; a pack that is none, is damaged, or holds what no pack
/// does; a passphrase that does not open it; the disk. Nothing was written.
pub fn unpack(pack: &Path, to: &Path, passphrase: Option<&str>) -> Result<PathBuf, PackFault> {
    let bytes = read_file(pack, MOST_BYTES)?;
    let bytes = if seal::is_sealed(&bytes) {
        seal::open(&bytes, passphrase)?
    } else {
        bytes
    };
    let (contents, files) = taken_out(&bytes)?;
    if is_of_case(to, None) {
        return Err(StoreError::new(to, StoreFault::OfCase).into());
    }
    if to.symlink_metadata().is_ok() {
        return Err(StoreError::new(to, StoreFault::Exists).into());
    }
    let case = to.join(&contents.case);
    let private = Private::like(pack);
    let mut name = std::ffi::OsString::from(".");
    name.push(
        to.file_name()
            .ok_or_else(|| StoreError::new(to, StoreFault::NoName))?,
    );
    name.push(format!(".{}.part", std::process::id()));
    let beside = to.with_file_name(name);
    let written = write_all(&beside, &record_of(&contents.case), &files, private)
        .and_then(|()| fs::rename(&beside, to))
        .map_err(|error| StoreError::writing(to, &error));
    if let Err(error) = written {
        // The error to tell is the first one; what is left here is no case.
        let _ = fs::remove_dir_all(&beside);
        return Err(error.into());
    }
    let above = to.parent().filter(|above| !above.as_os_str().is_empty());
    sync_folder(above.unwrap_or(Path::new(".")))
        .map_err(|error| StoreError::new(to, StoreFault::Unsure(error.to_string())))?;
    Ok(case)
}

/// What a pack lists, and its files as it lists them. Every length is known before anything of it is read.
pub(super) fn taken_out(bytes: &[u8]) -> Result<(Contents, Vec<(String, Vec<u8>)>), PackFault> {
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
    let contents = match next(MOST_BYTES)? {
        Some((name, content)) if name == CONTENTS => content,
        _ => return Err(PackFault::NotAPack),
    };
    let contents = listed(&contents)?;
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
        None => Ok((contents, files)),
    }
}

fn listed(bytes: &[u8]) -> Result<Contents, PackFault> {
    let value: serde_json::Value =
        serde_json::from_slice(bytes).map_err(|_| PackFault::NotAPack)?;
    let version = value
        .get("traywright_pack")
        .and_then(serde_json::Value::as_u64);
    match version.map(u32::try_from) {
        Some(Ok(version)) if version > VERSION => return Err(PackFault::Newer(version)),
        Some(Ok(VERSION)) => {}
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

/// Writes all files into a new folder and brings them to the disk.
fn write_all(
    folder: &Path,
    record: &str,
    files: &[(String, Vec<u8>)],
    private: Private,
) -> std::io::Result<()> {
    private.new_folder(folder)?;
    let record = folder.join(record);
    private.new_folder(&record)?;
    for (name, bytes) in files {
        let mut file = private
            .file()
            .write(true)
            .create_new(true)
            .open(folder.join(name))?;
        file.write_all(bytes)?;
        file.sync_all()?;
    }
    sync_folder(&record)?;
    sync_folder(folder)
}
