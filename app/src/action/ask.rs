//! Questions to the user, each in a window of its own.

use super::Action;
use crate::platform::Purpose;

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

    /// Asks whether to leave what is not saved.
    #[must_use]
    pub fn leaving(action: Action) -> Self {
        Self::Leaving(Some(Box::new(action)))
    }
}
