//! What a view gets: the desk to read, the state that all views share, and a place for its actions.

mod case;
mod notice;
mod state;

pub use case::{BY, CaseContext};
pub use notice::Notice;
pub use state::ViewState;

use crate::action::{Action, Change};
use crate::desk::{Desk, Document};
use std::cell::OnceCell;
use traywright_core::case::Site;
use traywright_core::kit::Kit;
use traywright_core::plan::SiteSheet;
use traywright_core::text::Whole;

/// The context of a view.
pub struct ViewContext<'a> {
    /// The desk.
    pub desk: &'a Desk,
    /// The state that all views share.
    pub state: &'a mut ViewState,
    /// The actions to carry out after this frame.
    pub actions: &'a mut Vec<Action>,
    /// The time of this frame. Nothing on the screen goes by it but what says when it was made.
    pub now: jiff::Timestamp,
    /// The kit to offer entries from, once a view asked for it in this frame.
    pub offered: &'a OnceCell<Kit>,
}

impl<'a> ViewContext<'a> {
    /// Says that something is to be done.
    pub fn act(&mut self, action: Action) {
        self.actions.push(action);
    }

    /// Says that the case is to be changed.
    pub fn edit(&mut self, change: Change) {
        self.actions.push(Action::Edit(change));
    }

    /// A text without arguments.
    #[must_use]
    pub fn word(&self, id: &str) -> String {
        self.desk.texts.get(id, &[])
    }

    /// A text with arguments.
    #[must_use]
    pub fn text(&self, id: &str, args: &[(&str, &str)]) -> String {
        self.desk.texts.get(id, args)
    }

    /// A text with whole numbers in it, and its other arguments.
    #[must_use]
    pub fn counted(
        &self,
        id: &str,
        numbers: &[(&str, impl Whole)],
        args: &[(&str, &str)],
    ) -> String {
        self.desk.texts.counted(id, numbers, args)
    }

    /// The open case.
    #[must_use]
    pub fn document(&self) -> Option<&'a Document> {
        self.desk.document.as_ref()
    }

    /// The site that is looked at, with its figures: the first where none was chosen.
    #[must_use]
    pub fn site(&self) -> Option<(&'a Site, &'a SiteSheet)> {
        let document = self.document()?;
        let sites = &document.case().sites;
        let chosen = self.state.site.as_ref();
        let site = chosen
            .and_then(|id| sites.iter().find(|site| site.id == *id))
            .or_else(|| sites.first())?;
        let sheets = &document.worksheet().sites;
        Some((site, sheets.iter().find(|sheet| sheet.id == site.id)?))
    }

    /// The context of a view with a state of its own, which looks at this case.
    pub fn on_case<'b, S>(
        &'b mut self,
        document: &'b Document,
        own: &'b mut S,
    ) -> CaseContext<'b, S> {
        let shared = ViewContext {
            desk: self.desk,
            state: self.state,
            actions: self.actions,
            now: self.now,
            offered: self.offered,
        };
        CaseContext {
            document,
            own,
            shared,
        }
    }
}
