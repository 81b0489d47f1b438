//! Questions in a window of their own: a file, or what to do with what is not saved.

mod file;
mod path;
mod seal;

use crate::action::{Action, Ask, Command};
use crate::context::ViewContext;
use crate::desk::Document;
use crate::look::aside;
use egui::{Id, Modal, Ui};
use traywright_core::sheet::checklist::Printing;

/// Shows what is asked, if anything is.
pub(super) fn ui(ui: &Ui, cx: &mut ViewContext<'_>, printing: Printing) {
    let Some(mut ask) = cx.state.ask.take() else {
        return;
    };
    let mut left = false;
    let response = Modal::new(Id::unique("ask")).show(ui.ctx(), |ui| {
        ui.set_width(ui.ctx().content_rect().width().min(560.0) - 40.0);
        match &mut ask {
            Ask::File {
                purpose,
                path,
                seal,
                refused,
            } => {
                left = file::ui(
                    ui,
                    cx,
                    (*purpose, printing),
                    path,
                    (seal, refused.as_deref()),
                );
            }
            Ask::Copy { pack, read, told } => left = super::pack::ui(ui, cx, (pack, read), told),
            Ask::Leaving(action) => left = leaving_ui(ui, cx, action),
            Ask::Replace { question, chosen } => {
                left = super::replace::ui(ui, cx, question, chosen);
            }
            Ask::Unsaved { unsaved, beside } => left = super::unsaved::ui(ui, cx, unsaved, beside),
            Ask::Help => left = super::help::ui(ui, cx),
        }
    });
    if left {
        return;
    }
    if response.should_close() {
        // What was to follow a file's name does not follow later, when the case is saved some day.
        cx.state.after_save = None;
        return;
    }
    cx.state.ask = Some(ask);
}

fn leaving_ui(ui: &mut Ui, cx: &mut ViewContext<'_>, action: &mut Option<Box<Action>>) -> bool {
    let unsaved = cx.document().is_some_and(Document::is_changed);
    let typed = cx.state.not_taken(cx.desk.texts);
    if unsaved {
        ui.heading(cx.word("ask-leaving"));
        aside(ui, cx.word("ask-leaving-what"));
    } else {
        ui.heading(cx.word("ask-leaving-typed"));
    }
    if let Some(typed) = typed {
        ui.label(typed);
    }
    ui.horizontal(|ui| {
        if ui.button(cx.word("ask-save-first")).clicked() {
            cx.act(Action::Do(Command::Save));
            if let Some(action) = action.take() {
                cx.act(Action::OnceSaved(action));
            }
            return true;
        }
        if ui.button(cx.word("ask-leave")).clicked() {
            if let Some(action) = action.take() {
                cx.act(Action::Regardless(action));
            }
            return true;
        }
        ui.button(cx.word("ask-cancel")).clicked()
    })
    .inner
}
