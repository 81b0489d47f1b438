//! Fields of forms: each shows a value, keeps what is being typed, and says what is wrong with it
//! beside it. A value is taken on Enter, Tab or leaving; Escape brings the old one back.

mod choice;
mod number;
mod row;
mod words;

pub use choice::{choice, choice_known};
pub use number::{InCase, Quantity, Tenths, needed, number, size};
pub use row::{fault_ui, row, unseen_name};
pub use words::{kept_text, label, text, wide_text};

use std::collections::BTreeMap;

/// A value that was just taken from a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct New<T>(pub T);

/// Text being typed into fields and the faults found in it, by the field's key.
#[derive(Debug, Default)]
pub struct Drafts {
    drafts: BTreeMap<String, String>,
    faults: BTreeMap<String, String>,
}

impl Drafts {
    /// The text being typed there.
    #[must_use]
    pub fn draft(&self, key: &str) -> Option<&str> {
        self.drafts.get(key).map(String::as_str)
    }

    /// Keeps what is being typed there; an earlier fault no longer speaks of it.
    pub fn keep(&mut self, key: &str, text: String) {
        self.faults.remove(key);
        self.drafts.insert(key.to_owned(), text);
    }

    /// The fault there.
    #[must_use]
    pub fn fault(&self, key: &str) -> Option<&str> {
        self.faults.get(key).map(String::as_str)
    }

    /// Says what is wrong there; what was typed stays.
    pub fn refuse(&mut self, key: &str, fault: String) {
        self.faults.insert(key.to_owned(), fault);
    }

    /// Forgets the draft and the fault of a field: its value was taken, or given up.
    pub fn settle(&mut self, key: &str) {
        self.drafts.remove(key);
        self.faults.remove(key);
    }

    /// Forgets what was refused where nothing typed is left to be mended: the case has changed.
    pub fn forget_refusals(&mut self) {
        let drafts = &self.drafts;
        self.faults.retain(|key, _| drafts.contains_key(key));
    }

    /// Forgets all.
    pub fn clear(&mut self) {
        self.drafts.clear();
        self.faults.clear();
    }
}
