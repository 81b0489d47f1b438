//! Questions to the user, each in a window of its own.

use super::Action;
use crate::desk::{Question, Unsaved};
use crate::platform::Purpose;
use std::collections::BTreeMap;
use traywright_core::case::{Apart, Part, Side};

/// A question to the user.
pub enum Ask {
    /// The file: typed, or chosen in the system's dialog.
    File {
        /// Its purpose.
        purpose: Purpose,
        /// The text typed.
        path: String,
        /// True if the field was given the keyboard already.
        focused: bool,
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

impl Ask {
    /// Asks for a file, with one to begin with.
    #[must_use]
    pub fn file(purpose: Purpose, path: impl Into<String>) -> Self {
        Self::File {
            purpose,
            path: path.into(),
            focused: false,
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
