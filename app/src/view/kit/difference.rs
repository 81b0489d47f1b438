//! The differences, each with what taking it over would do, and a button that does it.

use super::compare::{Compared, Outcome, Replacement, Row};
use crate::action::Change;
use crate::look::{Font, Theme, aside, part_heading, words};
use crate::view::kit::Context;
use egui::{Label, RichText, Ui};
use traywright_core::case::DifferenceKind;
use traywright_core::wording::begin;

/// Fields and settings that are listed one by one; the rest are counted.
const MOST: usize = 12;

/// Shows the differences.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let Some(live) = &cx.desk.live_kit else {
        return;
    };
    let notation = cx.desk.settings.notation;
    let kept = cx.own.compared.take();
    let compared = Compared::of(kept, document, live, notation);
    part_heading(ui, cx.word("kit-view-differences"));
    match &compared.all {
        None => words(ui, cx.word("kit-view-same")),
        Some(all) => {
            let count = &[("count", compared.rows.len())];
            aside(ui, cx.counted("kit-view-differ", count, &[]));
            for (n, row) in compared.rows.iter().enumerate() {
                ui.separator();
                ui.push_id(n, |ui| row_ui(ui, cx, row));
            }
            ui.separator();
            part_heading(ui, cx.word("kit-view-all"));
            outcome_ui(ui, cx, &all.outcome);
            let name = cx.word("kit-view-all-taken");
            take_ui(ui, cx, all, "kit-view-take-all", name);
        }
    }
    cx.own.compared = Some(compared);
}

fn row_ui(ui: &mut Ui, cx: &mut Context<'_>, row: &Row) {
    let id = match row.kind {
        DifferenceKind::Changed => "kit-view-changed",
        DifferenceKind::Gone => "kit-view-gone",
        DifferenceKind::Added => "kit-view-added",
    };
    let name = match &row.list {
        Some(list) => {
            let args = [("list", list.as_str()), ("name", row.name.as_str())];
            cx.text("kit-view-entry", &args)
        }
        None => row.name.clone(),
    };
    let args = [("name", name.as_str())];
    ui.add(Label::new(RichText::new(begin(&cx.text(id, &args))).strong()).wrap());
    let nothing = cx.word("kit-view-nothing");
    for (name, old, new) in row.fields.iter().take(MOST) {
        let args = [
            ("field", name.as_str()),
            ("old", old.as_ref().unwrap_or(&nothing)),
            ("new", new.as_ref().unwrap_or(&nothing)),
        ];
        words(ui, cx.text("kit-view-field", &args));
    }
    more(ui, cx, row.fields.len());
    outcome_ui(ui, cx, &row.taking.outcome);
    let name = cx.text("kit-view-taken", &[("name", &row.name)]);
    take_ui(ui, cx, &row.taking, "kit-view-take", name);
}

/// The effect of taking it over.
fn outcome_ui(ui: &mut Ui, cx: &Context<'_>, outcome: &Outcome) {
    match outcome {
        Outcome::NoFigure => aside(ui, cx.word("kit-view-no-figure")),
        Outcome::Refused(why) => {
            let colour = Theme::of(ui).fault();
            let why = cx.text("kit-view-refused", &[("why", why)]);
            let why = Font::Caption.text(why).color(colour);
            ui.add(Label::new(why).wrap());
        }
        Outcome::Figures { settings, open } => {
            let id = if settings.is_empty() {
                "kit-view-no-setting"
            } else {
                "kit-view-figures"
            };
            aside(ui, cx.word(id));
            for line in settings.iter().take(MOST) {
                words(ui, line);
            }
            more(ui, cx, settings.len());
            let counts = &[("before", open.0), ("after", open.1)];
            aside(ui, cx.counted("kit-view-open", counts, &[]));
        }
    }
}

fn more(ui: &mut Ui, cx: &Context<'_>, all: usize) {
    if let Some(count) = all.checked_sub(MOST).filter(|count| *count > 0) {
        aside(ui, cx.counted("kit-view-more", &[("count", count)], &[]));
    }
}

fn take_ui(ui: &mut Ui, cx: &mut Context<'_>, taking: &Replacement, id: &str, name: String) {
    let refused = matches!(taking.outcome, Outcome::Refused(_));
    let button = egui::Button::new(cx.word(id));
    let why = cx.word("kit-view-cannot");
    let take = ui.add_enabled(!refused, button).on_disabled_hover_text(why);
    if take.clicked() {
        cx.edit(Change::new(name, taking.edit.clone()));
    }
}
