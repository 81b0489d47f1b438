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

use egui::{Align, Response};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// A value that was just taken from a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct New<T>(pub T);

/// Text being typed into fields and the faults found in it, by the field's key.
#[derive(Debug, Default)]
pub struct Drafts {
    typed: BTreeMap<String, String>,
    faults: BTreeMap<String, String>,
    /// The field that the keyboard is to go to, and for how many frames that is looked for.
    lead: RefCell<Option<(String, u8)>>,
}

/// A view that opens anew needs a frame or two until its field is there.
const LEAD_FRAMES: u8 = 4;

impl Drafts {
    /// Leads the keyboard to the field of this key, once it is shown.
    pub fn lead_to(&mut self, key: String) {
        *self.lead.get_mut() = Some((key, LEAD_FRAMES));
    }

    /// Gives the keyboard to a field where it is led there.
    fn follow_lead(&self, key: &str, response: &Response) {
        let lead = self.lead.take();
        match lead {
            Some((wanted, _)) if wanted == key => {
                response.request_focus();
                response.scroll_to_me(Some(Align::Center));
            }
            other => drop(self.lead.replace(other)),
        }
    }

    /// Once a frame: a field that is not there is no longer looked for after a few.
    pub fn frame(&self) {
        let lead = self.lead.take();
        let left = lead.and_then(|(key, left)| Some((key, left.checked_sub(1)?)));
        self.lead.replace(left);
    }

    /// The text being typed there.
    #[must_use]
    pub fn draft(&self, key: &str) -> Option<&str> {
        self.typed.get(key).map(String::as_str)
    }

    /// Keeps what is being typed there; an earlier fault no longer speaks of it.
    pub fn keep(&mut self, key: &str, text: String) {
        self.faults.remove(key);
        self.typed.insert(key.to_owned(), text);
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
        self.typed.remove(key);
        self.faults.remove(key);
    }

    /// Forgets what was refused where nothing typed is left to be mended: the case has changed.
    pub fn forget_refusals(&mut self) {
        let typed = &self.typed;
        self.faults.retain(|key, _| typed.contains_key(key));
    }

    /// Forgets all.
    pub fn clear(&mut self) {
        self.typed.clear();
        self.faults.clear();
    }
}
