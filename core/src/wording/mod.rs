//! Every sentence that people read about a plan and its worksheet, in the trade's plain words.
//!
//! The command line, the printed sheet and the window all take their words from this room, so they
//! say the same of the same figure. Nothing clinical is worked out here: a value is looked up,
//! rounded for reading to the side that its number's words promise, and put into the text of its id
//! (see [`crate::text`]). What is unknown is said to be unknown, with the input that is missing.
//!
//! Fragments (headlines, reasons, words) begin small and have no full stop, so that they can be
//! used in a table or after a place; [`begin`] gives one a capital. Remedies are sentences.

mod accepted;
mod approval;
mod at_the_tray;
mod cause;
mod caution;
mod days;
mod fault;
mod figure;
mod finding;
mod guide;
mod history;
mod insertion;
mod kit;
mod loading;
mod measured;
mod message;
mod mix_up;
mod names;
mod order;
mod origin;
mod part;
mod place;
mod placing;
mod reason;
mod record;
mod remedy;
mod reset;
mod rim;
mod rules;
mod run;
mod setting;
mod step;
mod sum;
mod surgery;
mod unrecorded;
mod wear;

#[cfg(test)]
mod tests;

pub use crate::number::{degrees, mm, seconds, seconds_with_unit, typed};
pub(crate) use at_the_tray::shorter_implants;
pub use cause::CauseText;
pub use caution::{CAUTIONS, cautions};
pub use fault::{fault, faults};
pub use figure::TermText;
pub use finding::FindingText;
pub(crate) use finding::readable;
pub use history::{EventText, HistoryText};
pub use kit::KitFormatter;
pub use loading::LoadItemText;
pub use message::message;
pub use mix_up::MixUpText;
pub use part::ValueText;
pub use place::PlaceKey;
pub(crate) use place::structure;
pub use record::RecordFieldText;
pub use reset::ResetText;
pub use run::{CostWords, RunStepText};
pub use surgery::LookAlikeText;
pub use wear::{WearDrillText, WearSource, WearText};

use crate::case::Case;
use crate::dentition::Notation;
use crate::text::{Texts, Whole};

/// Wording about a case in one language and one notation of teeth.
#[derive(Clone, Copy)]
pub struct Formatter<'a> {
    /// The texts of the language.
    pub texts: &'static Texts,
    /// The case that is spoken of.
    pub case: &'a Case,
    /// The numbering of teeth.
    pub notation: Notation,
}

impl<'a> Formatter<'a> {
    /// A formatter in English.
    #[must_use]
    pub fn english(case: &'a Case, notation: Notation) -> Self {
        Self {
            texts: Texts::english(),
            case,
            notation,
        }
    }

    /// The text of an id with its arguments.
    pub(crate) fn text(&self, id: &str, args: &[(&str, &str)]) -> String {
        self.texts.get(id, args)
    }

    /// The text of an id with whole numbers in it, and its other arguments.
    pub(crate) fn counted(
        &self,
        id: &str,
        numbers: &[(&str, impl Whole)],
        args: &[(&str, &str)],
    ) -> String {
        self.texts.counted(id, numbers, args)
    }

    /// The text of an id without arguments.
    pub(crate) fn word(&self, id: &str) -> String {
        self.texts.get(id, &[])
    }

    /// Items put together two by two by a text with `$first` and `$rest`; nothing for none.
    pub(crate) fn joined(
        &self,
        id: &str,
        items: impl IntoIterator<Item = String>,
    ) -> Option<String> {
        items
            .into_iter()
            .reduce(|first, rest| self.text(id, &[("first", &first), ("rest", &rest)]))
    }
}

/// A fragment with a capital at its start.
#[must_use]
pub fn begin(fragment: &str) -> String {
    let mut letters = fragment.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
