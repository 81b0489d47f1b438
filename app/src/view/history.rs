//! The history: all that was recorded of the case, in the order of the record, and what of it counts now.

use crate::context::CaseContext;
use crate::desk::said_ahead;
use crate::look::{aside, caption, fault, heading, pane, words};
use egui::Ui;
use traywright_core::dentition::Notation;
use traywright_core::sign::Heads;
use traywright_core::wording::HistoryText;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    /// The words, as long as they are those of the case and its record.
    told: Option<Told>,
}

/// The words on a record, and of which state of it they are.
#[derive(Debug)]
struct Told {
    of: (u64, Heads, bool, Notation),
    history: HistoryText,
}

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    pane::middle(ui, (0, 0), |ui| record(ui, cx));
}

fn record(ui: &mut Ui, cx: &mut Context<'_>) {
    heading(ui, cx.word("view-history"));
    let document = cx.document;
    if document.file().is_none() {
        aside(ui, cx.word("history-unsaved"));
        return;
    }
    let told = told(cx);
    ui.horizontal(|ui| {
        if ui.button(cx.word("history-copy")).clicked() {
            let lines = document.record.problems.iter().cloned();
            let lines: Vec<String> = lines.chain(told.history.lines()).collect();
            ui.copy_text(lines.join("\n"));
        }
    });
    for problem in &document.record.problems {
        fault(ui, problem);
    }
    for ahead in said_ahead(&document.record.events, cx.now) {
        fault(ui, ahead);
    }
    for said in &told.history.top {
        if document.record.standing.broken {
            fault(ui, said);
        } else {
            words(ui, said);
        }
    }
    for past in &told.history.past {
        ui.add_space(6.0);
        words(ui, &past.line);
        ui.indent(&past.line, |ui| {
            if past.lapsed {
                words(ui, &past.worth);
            } else {
                aside(ui, &past.worth);
            }
            for why in &past.why {
                caption(ui, why);
            }
        });
    }
    cx.own.told = Some(told);
}

/// The words on the record, made anew only where they are old.
fn told(cx: &mut Context<'_>) -> Told {
    let document = cx.document;
    let record = &document.record;
    let notation = cx.desk.settings.notation;
    let heads = record.events.all_heads();
    let broken = record.standing.broken;
    let of = (document.generation(), heads, broken, notation);
    match cx.own.told.take() {
        Some(told) if told.of == of => told,
        _ => {
            let standing = (&record.view, &record.standing);
            let history = cx
                .formatter()
                .history(document.worksheet(), &record.events, standing);
            Told { of, history }
        }
    }
}
