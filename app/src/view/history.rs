//! The history: all that was recorded of the case, in the order of the record, and what of it counts now.

use crate::action::{Action, Command};
use crate::context::CaseContext;
use crate::desk::said_ahead;
use crate::field::kept_text;
use crate::look::{aside, caption, fault, heading, pane, part_heading, reserved, words};
use egui::{Button, Ui};
use traywright_core::dentition::Notation;
use traywright_core::sign::{HeadCode, Heads, Holds};
use traywright_core::wording::HistoryText;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    /// The words, as long as they are those of the case and its record.
    told: Option<CachedHistory>,
}

/// The words on a record, and of which state of it they are.
#[derive(Debug)]
struct CachedHistory {
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
        let why_not = Command::Pack.why_not(cx.desk);
        let pack = Button::new(cx.word(Command::Pack.text_id()));
        let pack = ui.add_enabled(why_not.is_none(), pack);
        if pack
            .on_disabled_hover_text(why_not.map_or(String::new(), |id| cx.word(id)))
            .clicked()
        {
            cx.act(Action::Do(Command::Pack));
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
    if !told.of.1.is_empty() {
        on_paper(ui, cx);
    }
    for event in &told.history.events {
        ui.add_space(6.0);
        words(ui, &event.line);
        ui.indent(&event.line, |ui| {
            if event.lapsed {
                words(ui, &event.standing);
            } else {
                aside(ui, &event.standing);
            }
            for why in &event.why {
                caption(ui, why);
            }
        });
    }
    if let [heading, saves @ ..] = &told.history.saves[..] {
        ui.add_space(12.0);
        part_heading(ui, heading);
        for save in saves {
            words(ui, save);
        }
    }
    cx.own.told = Some(told);
}

/// The place in which an end of the record is typed from paper.
const PAPER: &str = "history.paper";

/// Whether the record holds what is on paper.
fn on_paper(ui: &mut Ui, cx: &mut Context<'_>) {
    ui.add_space(6.0);
    let label = cx.word("history-paper-field");
    let typed = kept_text(ui, &mut cx.state.drafts, PAPER, label, "", 320.0);
    let means = cx.word("history-paper-means");
    reserved(ui, 2, |ui| match typed.parse::<HeadCode>() {
        Ok(head) => {
            let holds = cx.document.record.events.holds(&head);
            let said = cx.formatter().on_paper(&head, holds);
            match holds {
                Holds::Yes => words(ui, said),
                _ => fault(ui, said),
            }
        }
        Err(_) if typed.trim().is_empty() => caption(ui, means),
        Err(_) => caption(ui, cx.text("history-paper-no-code", &[("text", &typed)])),
    });
}

/// The words on the record, made anew only where they are old.
fn told(cx: &mut Context<'_>) -> CachedHistory {
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
            CachedHistory { of, history }
        }
    }
}
