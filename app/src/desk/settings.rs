//! This user's preferences and recent files. Nothing of a case is in it but where files are.

use crate::look::Mode;
use serde::{Deserialize, Deserializer, Serialize};
use std::path::{Path, PathBuf};
use traywright_core::dentition::Notation;
use traywright_core::store::{StoreError, read_file, write_safely};

/// Number of files that the start page remembers.
pub const MOST_RECENT: usize = 8;

/// The most bytes of a settings file that are read.
const MOST_BYTES: u64 = 1024 * 1024;

/// The settings of one user.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Light or dark.
    pub mode: Mode,
    /// The numbering of teeth; a name of none is read as ISO, so that the rest is kept.
    #[serde(deserialize_with = "notation")]
    pub notation: Notation,
    /// Name of this desk; each desk signs in a file of its own.
    pub desk: String,
    /// Name of the person at the desk.
    pub person: String,
    /// Case files opened lately, the last first.
    pub recent: Vec<PathBuf>,
    /// The kit file that new entries are taken from.
    pub kit: Option<PathBuf>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            mode: Mode::Light,
            notation: Notation::Iso,
            desk: "desk".to_owned(),
            person: String::new(),
            recent: Vec::new(),
            kit: None,
        }
    }
}

impl Settings {
    /// Reads a settings file. One that is not there or cannot be understood gives the defaults:
    /// nothing of a case depends on it.
    #[must_use]
    pub fn read(file: &Path) -> Self {
        let bytes = read_file(file, MOST_BYTES).ok();
        let read = bytes.and_then(|bytes| Self::of_bytes(&bytes));
        read.unwrap_or_default()
    }

    fn of_bytes(bytes: &[u8]) -> Option<Self> {
        serde_json::from_slice(bytes).ok()
    }

    /// Writes them.
    ///
    /// # Errors
    ///
    /// The error of the disk.
    pub fn write(&self, file: &Path) -> Result<(), StoreError> {
        if let Some(folder) = file.parent() {
            // Where this fails, so does the writing, and that says why.
            let _ = std::fs::create_dir_all(folder);
        }
        let text = serde_json::to_string_pretty(self).unwrap_or_default();
        write_safely(file, text.as_bytes())
    }

    /// Remembers a file as the last one opened.
    pub fn remember(&mut self, file: &Path) {
        self.recent.retain(|other| other != file);
        self.recent.insert(0, file.to_owned());
        self.recent.truncate(MOST_RECENT);
    }
}

fn notation<'de, D: Deserializer<'de>>(from: D) -> Result<Notation, D::Error> {
    let name = String::deserialize(from)?;
    Ok(match name.as_str() {
        "universal" => Notation::Universal,
        "quadrant" => Notation::Quadrant,
        _ => Notation::Iso,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_numbering_of_no_name_does_not_lose_the_other_settings() {
        let read = |notation: &str| {
            let text = format!(r#"{{"notation":"{notation}","desk":"left"}}"#);
            serde_json::from_str::<Settings>(&text).unwrap()
        };
        for notation in Notation::ALL {
            let name = serde_json::to_value(notation).unwrap();
            assert_eq!(read(name.as_str().unwrap()).notation, notation);
        }
        let (read, desk) = (read("roman"), "left".to_owned());
        assert_eq!((read.notation, read.desk), (Notation::Iso, desk));
    }

    #[test]
    fn settings_are_read_and_written_the_same_or_are_none() {
        traywright_samples::inputs::read_all("settings", |bytes| {
            let Some(read) = Settings::of_bytes(bytes) else {
                return;
            };
            let text = serde_json::to_vec(&read).unwrap();
            assert_eq!(Settings::of_bytes(&text), Some(read));
        });
    }
}
