//! Changes that were never saved and whose case is not where it was: shown until a person does something with them.

use crate::action::{Action, Ask};
use crate::context::ViewContext;
use crate::desk::{AstrayChanges, InPlace};
use crate::look::{aside, fault, heading, words};
use crate::platform::Purpose;
use egui::Ui;
use std::path::Path;
use traywright_core::store::shown;
use traywright_core::wording::Formatter;

/// Shows them; nothing where there are none.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let desk = cx.desk;
    let Some(astray) = desk.astray.found() else {
        return;
    };
    // What the open case took over goes when that is saved.
    let taken = |one: &AstrayChanges| {
        let open = desk.document.as_ref();
        open.is_some_and(|open| open.has_taken(&one.unsaved))
    };
    let left: Vec<&AstrayChanges> = astray.unsaved.iter().filter(|one| !taken(one)).collect();
    if left.is_empty() && astray.unread.is_empty() {
        return;
    }
    ui.add_space(12.0);
    heading(ui, cx.word("start-astray"));
    aside(ui, cx.word("start-astray-what"));
    for one in left {
        ui.push_id(one.unsaved.journal(), |ui| changes(ui, cx, one));
    }
    for journal in &astray.unread {
        ui.push_id(journal, |ui| {
            fault(
                ui,
                cx.text("start-astray-unread", &[("file", &shown(journal))]),
            );
            aside_button(ui, cx, journal);
        });
    }
}

fn changes(ui: &mut Ui, cx: &mut ViewContext<'_>, one: &AstrayChanges) {
    let case = &one.unsaved.case;
    let formatter = Formatter::english(case, cx.desk.settings.notation);
    let at = one.unsaved.at;
    let at = at.map(|at| at.strftime("%Y-%m-%d %H:%M UTC").to_string());
    let (jaw, parts) = (formatter.jaw(), formatter.parts(&one.changed));
    let args = [
        ("reference", case.reference.as_str()),
        ("jaw", &jaw),
        ("at", at.as_deref().unwrap_or("?")),
        ("parts", &parts),
    ];
    ui.add_space(6.0);
    words(ui, cx.text("start-astray-case", &args));
    let id = match one.there {
        InPlace::NoFile => "start-astray-no-file",
        InPlace::Nothing => "start-astray-nothing",
        InPlace::Other => "start-astray-other",
        InPlace::Unanswered => "start-astray-unanswered",
    };
    let file = one.unsaved.file().map(shown).unwrap_or_default();
    aside(ui, cx.text(id, &[("file", &file)]));
    if one.unsaved.is_cut {
        fault(ui, cx.word("unsaved-cut"));
    }
    ui.horizontal(|ui| {
        if ui.button(cx.word("start-astray-open")).clicked() {
            let take = Action::TakeUnsaved(Box::new(one.unsaved.clone()));
            let take = cx.state.guarded(cx.desk, take);
            cx.act(take);
        }
        if one.there != InPlace::NoFile && ui.button(cx.word("start-astray-find")).clicked() {
            let folder = one.unsaved.file().and_then(Path::parent);
            let folder = folder.map_or(String::new(), |folder| {
                folder.join("").display().to_string()
            });
            cx.act(Action::Ask(Ask::file(Purpose::OpenCase, folder)));
        }
        aside_button(ui, cx, one.unsaved.journal());
    });
}

fn aside_button(ui: &mut Ui, cx: &mut ViewContext<'_>, journal: &Path) {
    if ui.button(cx.word("start-astray-aside")).clicked() {
        cx.act(Action::SetUnsavedAside(journal.to_owned()));
    }
}
