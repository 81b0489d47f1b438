//! Cases and kits, read from their files.

use super::refusal::{Refusal, refused_by_disk, refused_document};
use std::path::Path;
use traywright_core::case::{ValidCase, read_case, read_kit};
use traywright_core::document::MOST_BYTES;
use traywright_core::kit::Kit;
use traywright_core::store::{Version, is_pack, read_file, shown};
use traywright_core::text::Texts;

/// Reads a case file: the case, and what the file held.
pub(crate) fn read_case_file(file: &Path) -> Result<(ValidCase, Version), Refusal> {
    let bytes = read_file(file, MOST_BYTES as u64).map_err(|error| refused_by_disk(&error))?;
    let case = read_case(&bytes).map_err(|faults| {
        if is_pack(&bytes) {
            let path = shown(file);
            Refusal(Texts::english().get("pack-is-one", &[("file", &path)]))
        } else {
            refused_document(file, &faults)
        }
    })?;
    Ok((case, Version::of(&bytes)))
}

/// Reads a kit file.
pub(crate) fn read_kit_file(file: &Path) -> Result<Kit, Refusal> {
    let bytes = read_file(file, MOST_BYTES as u64).map_err(|error| refused_by_disk(&error))?;
    read_kit(&bytes).map_err(|faults| refused_document(file, &faults))
}
