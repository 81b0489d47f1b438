//! Questions to the user, each in a window of its own.

use super::Action;
use crate::desk::{Question, Unsaved};
use crate::platform::Purpose;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use traywright_core::case::{Apart, Part, Side};
use traywright_core::store::ReadPack;

/// A question to the user.
pub enum Ask {
    /// The file: typed, or chosen in the system's dialog.
    File {
        /// Its purpose.
        purpose: Purpose,
        /// The file.
        path: PathField,
        /// What a pack needs beside its file.
        seal: Seal,
        /// Why what was given before does not do; nothing at first.
        refused: Option<String>,
    },
    /// The decision to open the copy in a pack.
    Copy {
        /// The pack.
        pack: PathBuf,
        /// What is in it.
        read: Arc<ReadPack>,
        /// When and where it was packed, in words.
        told: Vec<String>,
    },
    /// The decision to leave what is not saved, to do this.
    Leaving(Option<Box<Action>>),
    /// What is to become of what lies in the file that is to be written.
    Replace {
        /// The question.
        question: Box<Question>,
        /// The side chosen so far for each part that two desks changed.
        chosen: BTreeMap<Part, Side>,
    },
    /// What is to become of changes that were never saved.
    Unsaved {
        /// The changes.
        unsaved: Box<Unsaved>,
        /// The parts in which they differ from the case as it is in its file.
        beside: Vec<Apart>,
    },
    /// The keys and the cautions.
    Help,
}

/// A file that is being typed.
#[derive(Debug, Default)]
pub struct PathField {
    /// The text.
    pub text: String,
    /// Where the caret is to be put once the field has the keyboard.
    pub caret: Option<CaretTo>,
    /// Which of the offered names the arrow keys are at.
    pub row: usize,
    /// True if that name is to have the keyboard.
    pub to_row: bool,
}

/// A place of the caret.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CaretTo {
    /// Over the name behind the folder.
    Name,
    /// Behind all of it.
    End,
}

impl PathField {
    /// A field with a path to begin with, its name selected.
    #[must_use]
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            caret: Some(CaretTo::Name),
            row: 0,
            to_row: false,
        }
    }

    /// Puts another path there.
    pub fn put(&mut self, text: String) {
        *self = Self::new(text);
        self.caret = Some(CaretTo::End);
    }

    /// The folder and the name that was begun in it.
    #[must_use]
    pub fn parts(&self) -> (&str, &str) {
        let folder = self.text.rfind(std::path::is_separator);
        self.text.split_at(folder.map_or(0, |at| at + 1))
    }

    /// The folder; where none was typed, the one that the program was started in.
    #[must_use]
    pub fn folder(&self) -> PathBuf {
        match self.parts().0.trim_start() {
            "" => PathBuf::from("."),
            folder => Path::new(folder).to_owned(),
        }
    }
}

/// How a pack is encrypted: not at all without a passphrase.
#[derive(Default)]
pub struct Seal {
    /// True if it is to be.
    pub wanted: bool,
    /// The passphrase.
    pub passphrase: String,
    /// The same again, of a new one.
    pub again: String,
    /// True if its field is to have the keyboard.
    pub to_field: bool,
}

impl Ask {
    /// Asks for a file, with one to begin with.
    #[must_use]
    pub fn file(purpose: Purpose, path: impl Into<String>) -> Self {
        Self::File {
            purpose,
            path: PathField::new(path),
            seal: Seal::default(),
            refused: None,
        }
    }

    /// Asks for the passphrase of a pack, and says why what was given before does not do.
    #[must_use]
    pub fn passphrase(pack: &Path, refused: String) -> Self {
        let path = PathField {
            text: pack.display().to_string(),
            ..PathField::default()
        };
        Self::File {
            purpose: Purpose::OpenPack,
            path,
            seal: Seal {
                to_field: true,
                ..Seal::default()
            },
            refused: Some(refused),
        }
    }

    /// The folder of the file that is being typed.
    #[must_use]
    pub fn folder(&self) -> Option<PathBuf> {
        match self {
            Self::File { path, .. } => Some(path.folder()),
            _ => None,
        }
    }

    /// Asks what is to become of what lies in the file.
    #[must_use]
    pub fn replace(question: Box<Question>) -> Self {
        Self::Replace {
            question,
            chosen: BTreeMap::new(),
        }
    }

    /// True if it is asked on the way to a saved file.
    #[must_use]
    pub fn is_saving(&self) -> bool {
        matches!(self, Self::File { .. } | Self::Replace { .. })
    }

    /// Asks whether to leave what is not saved.
    #[must_use]
    pub fn leaving(action: Action) -> Self {
        Self::Leaving(Some(Box::new(action)))
    }
}
