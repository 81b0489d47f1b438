//! State of the views: everything that the window knows and the case does not.

use super::{Ask, Notice, View};
use crate::action::{Action, Change};
use crate::canvas::DrawingCache;
use crate::desk::{Desk, Document};
use crate::field::Drafts;
use crate::platform::Purpose;
use crate::view;
use std::path::PathBuf;
use traywright_core::case::Site;
use traywright_core::kit::{SiteId, StepId};
use traywright_core::plan::SiteSheet;
use traywright_core::text::Whole;
use traywright_core::wording::Formatter;

/// State of the views.
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
    /// Of the start page.
    pub start: view::start::State,
    /// Of the case view.
    pub case: view::case::State,
    /// Of the arch view.
    pub arch: view::arch::State,
    /// Of the site view.
    pub site_view: view::site::State,
    /// Of the findings.
    pub findings: view::findings::State,
    /// Of the tray.
    pub tray: view::tray::State,
    /// Of the order of use.
    pub order: view::order::State,
    /// Of the loading view.
    pub loading: view::loading::State,
    /// Of the sheet.
    pub sheet: view::sheet::State,
    /// Of the kit.
    pub kit: view::kit::State,
}

impl ViewState {
    /// The action, or where it would lose what is not saved, the question about that.
    #[must_use]
    pub fn guarded(&self, desk: &Desk, action: Action) -> Action {
        let unsaved = desk.document.as_ref().is_some_and(Document::is_changed);
        if unsaved {
            Action::Ask(Ask::leaving(action))
        } else {
            action
        }
    }

    /// Takes the answer of a dialog: it goes into the field of the question, or is acted on.
    pub fn answer(&mut self, purpose: Purpose, file: Option<PathBuf>, actions: &mut Vec<Action>) {
        let Some(file) = file else { return };
        match &mut self.ask {
            Some(Ask::File { path, .. }) => *path = file.display().to_string(),
            _ => match purpose {
                Purpose::OpenCase => actions.push(Action::Open(file)),
                Purpose::OpenKit => actions.push(Action::UseKit(file)),
                Purpose::SaveCase => actions.push(Action::SaveTo(file)),
                Purpose::SaveSheet => self.sheet.path = file.display().to_string(),
            },
        }
    }
}

/// The context of a view: the desk to read, its state, and a place for its actions.
pub struct ViewContext<'a> {
    /// The desk.
    pub desk: &'a Desk,
    /// The state of the views.
    pub state: &'a mut ViewState,
    /// The actions to carry out after this frame.
    pub actions: &'a mut Vec<Action>,
    /// The time of this frame. Nothing on the screen goes by it but what says when it was made.
    pub now: jiff::Timestamp,
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

    /// The open case, and who speaks about it.
    #[must_use]
    pub fn open_case(&self) -> Option<(&'a Document, Formatter<'a>)> {
        let document = self.document()?;
        let formatter = document.formatter(self.desk.settings.notation());
        Some((document, formatter))
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
}
