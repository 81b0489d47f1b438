//! Wishes for the order: what counts, the team's own times, and rules. Each is an edit.

mod hold;
mod rules;
mod weights;

use super::heading;
use crate::action::Change;
use crate::look::aside;
use crate::view::order::Context;
use egui::Ui;
use traywright_core::case::{Edit, RunWishes};
use traywright_core::order::Objective;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let run = &document.case().run;
    heading(ui, cx.word("order-wishes"));
    aside(ui, cx.word("order-wishes-what"));
    for (objective, id) in [
        (Objective::FewestResets, "order-fewest-resets"),
        (Objective::LeastTime, "order-least-time"),
    ] {
        let word = cx.word(id);
        if ui.radio(run.objective == objective, &word).clicked() && run.objective != objective {
            set(cx, &word, None, |run| run.objective = objective);
        }
    }
    weights::ui(ui, cx, run);
    rules::ui(ui, cx, run);
    hold::ui(ui, cx, run);
}

/// Changes the wishes, under a name for undo.
fn set(
    cx: &mut Context<'_>,
    what: &str,
    field: Option<String>,
    change: impl FnOnce(&mut RunWishes),
) {
    let document = cx.document;
    let mut run = document.case().run.clone();
    change(&mut run);
    let name = cx.text("order-undo-wish", &[("what", what)]);
    cx.edit(Change {
        field,
        ..Change::new(name, Edit::SetRun(Box::new(run)))
    });
}
