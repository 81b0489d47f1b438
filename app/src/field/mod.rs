//! Fields of forms: each shows a value, keeps what is being typed, and says what is wrong with it
//! beside it. A value is taken on Enter, Tab or leaving; Escape brings the old one back.

mod choice;
mod number;
mod row;
mod words;

pub use choice::{choice, choice_known};
pub use number::{InCase, Quantity, Tenths, needed, number, size};
pub use row::{Named, fault_ui, row, unseen_name};
pub use words::{kept_text, label, text, wide_text};

use egui::{Align, Id, Response};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// A value that was just taken from a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct New<T>(pub T);

/// Text being typed into a field.
#[derive(Debug)]
struct Draft {
    text: String,
    /// What the field is called, where its text is to become a value of the case.
    name: Option<String>,
    /// Later ones have higher numbers.
    nth: u64,
}

/// What was typed into a field and is no value of the case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotTaken {
    /// The key of the field.
    pub key: String,
    /// What the field is called.
    pub name: String,
    /// The text.
    pub text: String,
    /// What is wrong with it, where it was looked at.
    pub fault: Option<String>,
}

/// Text being typed into fields and the faults found in it, by the field's key.
#[derive(Debug, Default)]
pub struct Drafts {
    typed: BTreeMap<String, Draft>,
    faults: BTreeMap<String, String>,
    /// Number of the last text.
    count: u64,
    /// The field that the keyboard is to go to, and for how many frames that is looked for.
    lead: RefCell<Option<(String, u8)>>,
}

/// The widget of the field of this key.
pub(crate) fn field_id(key: &str) -> Id {
    Id::unique(("field", key))
}

/// A view that opens anew needs a frame or two until its field is there.
const LEAD_FRAMES: u8 = 4;

impl Drafts {
    /// Leads the keyboard to the field of this key, once it is shown.
    pub fn lead_to(&mut self, key: String) {
        *self.lead.get_mut() = Some((key, LEAD_FRAMES));
    }

    /// Gives the keyboard to a field where it is led there.
    pub(crate) fn follow_lead(&self, key: &str, response: &Response) {
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
        self.typed.get(key).map(|draft| draft.text.as_str())
    }

    /// Keeps what is being typed there and is no value of the case; an earlier fault no longer speaks of it.
    pub fn keep(&mut self, key: &str, text: String) {
        self.put(key, None, text);
    }

    /// Keeps what is being typed there to become a value of the case, in the field of this name.
    pub(crate) fn keep_value(&mut self, key: &str, named: &Named, text: String) {
        self.put(key, Some(named.text.clone()), text);
    }

    fn put(&mut self, key: &str, name: Option<String>, text: String) {
        self.faults.remove(key);
        self.count += 1;
        let nth = self.count;
        let draft = Draft { text, name, nth };
        self.typed.insert(key.to_owned(), draft);
    }

    /// Everything that was typed to become a value of the case and is none, the first first.
    #[must_use]
    pub fn not_taken(&self) -> Vec<NotTaken> {
        let named = |(key, draft): (&String, &Draft)| {
            let not_taken = NotTaken {
                key: key.clone(),
                name: draft.name.clone()?,
                text: draft.text.clone(),
                fault: self.faults.get(key).cloned(),
            };
            Some((draft.nth, not_taken))
        };
        let mut all: Vec<_> = self.typed.iter().filter_map(named).collect();
        all.sort_by_key(|(nth, _)| *nth);
        all.into_iter().map(|(_, not_taken)| not_taken).collect()
    }

    /// The field of the case that has the keyboard and text that it has not taken yet.
    #[must_use]
    pub fn being_typed(&self, focused: Option<Id>) -> Option<Id> {
        let named = self.typed.iter().filter(|(_, draft)| draft.name.is_some());
        let mut ids = named.map(|(key, _)| field_id(key));
        ids.find(|id| focused == Some(*id))
    }

    /// Forgets the drafts of all fields whose key begins so: what they were of is gone.
    pub fn forget_under(&mut self, start: &str) {
        self.typed.retain(|key, _| !key.starts_with(start));
        self.faults.retain(|key, _| !key.starts_with(start));
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
