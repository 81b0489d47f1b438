//! State that all views share: everything that the window knows and the case does not.

use super::Notice;
use crate::action::{Action, Ask, View};
use crate::canvas::DrawingCache;
use crate::desk::{Desk, Document};
use crate::field::Drafts;
use traywright_core::kit::{SiteId, StepId};
use traywright_core::text::Texts;

/// State that all views share.
#[derive(Default)]
pub struct ViewState {
    /// The view.
    pub view: View,
    /// The site that is looked at.
    pub site: Option<SiteId>,
    /// The step of that site that is looked at; nothing: the one that decides.
    pub step: Option<StepId>,
    /// The text typed into fields.
    pub drafts: Drafts,
    /// Drawings, kept until what they show changes.
    pub drawings: DrawingCache,
    /// The question in a window of its own.
    pub ask: Option<Ask>,
    /// The notice that is shown.
    pub notice: Option<Notice>,
    /// The action that follows once the case is saved.
    pub after_save: Option<Box<Action>>,
    /// Number of the gesture that goes on; it rises when one ends.
    pub gesture: u64,
}

impl ViewState {
    /// The action, or where it would lose what is not saved, the question about that.
    #[must_use]
    pub fn guarded(&self, desk: &Desk, action: Action) -> Action {
        if self.would_lose(desk) {
            Action::Ask(Ask::leaving(action))
        } else {
            action
        }
    }

    /// True if something would be lost with the open case: a change that is not saved, or what was typed and
    /// is no value of it.
    #[must_use]
    pub fn would_lose(&self, desk: &Desk) -> bool {
        let unsaved = desk.document.as_ref().is_some_and(Document::is_changed);
        unsaved || !self.drafts.not_taken().is_empty()
    }

    /// What was typed and is no value of the case, in words, and why; nothing where there is none.
    #[must_use]
    pub fn not_taken(&self, texts: &Texts) -> Option<String> {
        let all = self.drafts.not_taken();
        let lines = all.iter().map(|one| {
            let waits = || texts.get("window-not-taken-yet", &[]);
            let fault = one.fault.clone().unwrap_or_else(waits);
            let args = [
                ("field", &*one.name),
                ("text", &*one.text),
                ("fault", &*fault),
            ];
            texts.get("window-not-saved", &args)
        });
        let lines: Vec<String> = lines.collect();
        (!lines.is_empty()).then(|| lines.join("\n"))
    }
}
