//! The question what is to become of what lies in the file that is to be written.

use crate::action::{Action, Command};
use crate::context::ViewContext;
use crate::desk::{About, Answer, Question};
use crate::look::aside;
use egui::Ui;
use std::collections::BTreeMap;
use traywright_core::case::{Apart, Part, Side};
use traywright_core::store::shown;

/// Gives back whether the question is settled.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    question: &Question,
    chosen: &mut BTreeMap<Part, Side>,
) -> bool {
    let file = shown(&question.file);
    let (verb, may) = match &question.about {
        About::Other(reference) => {
            ui.heading(cx.word("ask-replace"));
            let args = [("file", file.as_str()), ("reference", reference)];
            aside(ui, cx.text("ask-replace-what", &args));
            ("ask-replace-do", true)
        }
        About::Protected => {
            ui.heading(cx.word("ask-protected"));
            aside(ui, cx.text("ask-protected-what", &[("file", &file)]));
            ("ask-protected-do", true)
        }
        About::Damaged(why) => {
            ui.heading(cx.word("ask-damaged"));
            aside(ui, cx.text("ask-damaged-what", &[("why", why)]));
            ("ask-damaged-do", true)
        }
        About::Same { apart, unfit } => {
            ui.heading(cx.word("ask-apart"));
            let what = if *unfit {
                "ask-apart-unfit"
            } else {
                "ask-apart-what"
            };
            aside(ui, cx.word(what));
            apart_ui(ui, cx, apart, chosen);
            let all = apart.iter().all(|one| chosen.contains_key(&one.part));
            ("ask-apart-save", all)
        }
    };
    ui.horizontal(|ui| {
        let button = egui::Button::new(cx.word(verb));
        if ui.add_enabled(may, button).clicked() {
            let answer = Answer {
                version: question.version,
                chosen: std::mem::take(chosen),
                over_protection: question.about == About::Protected,
            };
            cx.act(Action::SaveOver(question.file.clone(), answer));
            return true;
        }
        if matches!(question.about, About::Other(_))
            && ui.button(cx.word("ask-replace-elsewhere")).clicked()
        {
            cx.act(Action::Do(Command::SaveAs));
            return true;
        }
        let cancelled = ui.button(cx.word("ask-cancel")).clicked();
        if cancelled {
            cx.state.after_save = None;
        }
        cancelled
    })
    .inner
}

/// Each part with both versions of what differs in it, and the choice between them.
fn apart_ui(ui: &mut Ui, cx: &ViewContext<'_>, apart: &[Apart], chosen: &mut BTreeMap<Part, Side>) {
    let Some(document) = cx.document() else {
        return;
    };
    let formatter = document.formatter(cx.desk.settings.notation);
    super::apart::ui(ui, &formatter, apart, |ui, one, name| {
        for (side, word) in [
            (Side::Here, "ask-apart-here"),
            (Side::There, "ask-apart-there"),
        ] {
            let word = cx.word(word);
            let is = chosen.get(&one.part) == Some(&side);
            let button = ui.radio(is, &word);
            button.widget_info(|| {
                let said = format!("{name}: {word}");
                egui::WidgetInfo::selected(egui::Role::RadioButton, true, is, said)
            });
            if button.clicked() {
                chosen.insert(one.part.clone(), side);
            }
        }
    });
}
