//! Questions in a window of their own: a file, or what to do with what is not saved.

use crate::action::{Action, Ask, Command};
use crate::context::ViewContext;
use crate::desk::Document;
use crate::look::aside;
use crate::platform::Purpose;
use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Id, Key, Modal, TextEdit, Ui};
use std::path::PathBuf;
use traywright_core::sheet::Paper;

/// Shows what is asked, if anything is.
pub(super) fn ui(ui: &Ui, cx: &mut ViewContext<'_>, paper: Paper) {
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
                focused,
            } => left = file_ui(ui, cx, (*purpose, paper), path, focused),
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

/// Gives back whether the question is settled.
fn file_ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    (purpose, paper): (Purpose, Paper),
    path: &mut String,
    focused: &mut bool,
) -> bool {
    let (title, verb) = match purpose {
        Purpose::OpenCase => ("ask-open-case", "ask-open"),
        Purpose::OpenKit => ("ask-open-kit", "ask-open"),
        Purpose::SaveCase => ("ask-save-case", "ask-save"),
        Purpose::SaveSheet => ("ask-save-sheet", "ask-save"),
    };
    ui.heading(cx.word(title));
    let named = ui.label(cx.word("ask-path")).id;
    let id = Id::unique("ask path");
    let field = TextEdit::singleline(path).id(id);
    let field = ui
        .add(field.desired_width(f32::INFINITY))
        .labelled_by(named);
    if !*focused && field.has_focus() {
        select_name(ui, id, path);
        *focused = true;
    } else if !*focused {
        field.request_focus();
    }
    let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    ui.horizontal(|ui| {
        let given = !path.trim().is_empty();
        let go = ui.add_enabled(given, egui::Button::new(cx.word(verb)));
        if go.clicked() || (entered && given) {
            let file = PathBuf::from(path.trim());
            let action = match purpose {
                Purpose::OpenCase => cx.state.guarded(cx.desk, Action::Open(file)),
                Purpose::OpenKit => Action::UseKit(file),
                Purpose::SaveCase => Action::SaveTo(with_ending(file, "json")),
                Purpose::SaveSheet => Action::WriteSheet {
                    to: with_ending(file, "pdf"),
                    paper,
                    view: crate::action::ThenView::Leave,
                },
            };
            cx.act(action);
            return true;
        }
        if ui.button(cx.word("ask-browse")).clicked() {
            cx.act(Action::Browse(purpose));
        }
        let cancelled = ui.button(cx.word("ask-cancel")).clicked();
        if cancelled {
            cx.state.after_save = None;
        }
        cancelled
    })
    .inner
}

/// Selects the name of the file behind its folder, with the caret at its end.
fn select_name(ui: &Ui, id: Id, path: &str) {
    let folder = path.rfind(std::path::is_separator).map_or(0, |at| at + 1);
    let [from, to] = [&path[..folder], path].map(|part| CCursor::new(part.chars().count()));
    let mut state = TextEditState::default();
    state
        .cursor
        .set_char_range(Some(CCursorRange::two(from, to)));
    state.store(ui.ctx(), id);
}

fn with_ending(file: PathBuf, ending: &str) -> PathBuf {
    if file.extension().is_none() {
        file.with_extension(ending)
    } else {
        file
    }
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
