//! The context of a view that looks at the open case.

use super::ViewContext;
use crate::desk::Document;
use std::ops::{Deref, DerefMut};
use traywright_core::case::is_name;
use traywright_core::kit::{Kit, Label};
use traywright_core::wording::Formatter;

/// Key of the field for whoever gives their word on something of the case.
pub const BY: &str = "by";

/// The context of a view that looks at the open case, with the state of that view alone. What all
/// views have is reached through it.
pub struct CaseContext<'a, S> {
    /// The open case.
    pub document: &'a Document,
    /// The state of this view.
    pub own: &'a mut S,
    /// What all views have.
    pub shared: ViewContext<'a>,
}

impl<'a, S> CaseContext<'a, S> {
    /// The formatter for sentences about the case.
    #[must_use]
    pub fn formatter(&self) -> Formatter<'a> {
        self.document.formatter(self.desk.settings.notation)
    }

    /// Whose word on the case it is to be: the name last typed for that ([`BY`]), else the surgeon of the
    /// team, else who last approved anything at this desk; nothing where none of them is a name.
    #[must_use]
    pub fn whose_word(&self) -> Option<Label> {
        let typed = self.state.drafts.draft(BY).map(str::to_owned);
        let surgeon = self.document.case().team.surgeon.as_ref();
        let at_desk = self.desk.settings.person.clone();
        let names = [typed, surgeon.map(Label::to_string), Some(at_desk)];
        let mut names = names.iter().flatten().map(|name| name.trim());
        names.find(|name| is_name(name)).map(Label::from)
    }

    /// The kit that is open beside the case; where none is, the case's own copy.
    #[must_use]
    pub fn kit_at_hand(&self) -> &'a Kit {
        let copy = &self.document.case().kit;
        self.desk.live_kit.as_ref().unwrap_or(copy)
    }

    /// The kit that a view offers entries from: those of the case's copy, which count for it, then
    /// those of the live kit that it lacks.
    #[must_use]
    pub fn offered_kit(&self) -> &'a Kit {
        let copy = &self.document.case().kit;
        match &self.desk.live_kit {
            Some(live) => self.offered.get_or_init(|| copy.together_with(live)),
            None => copy,
        }
    }
}

impl<'a, S> Deref for CaseContext<'a, S> {
    type Target = ViewContext<'a>;

    fn deref(&self) -> &Self::Target {
        &self.shared
    }
}

impl<S> DerefMut for CaseContext<'_, S> {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.shared
    }
}
