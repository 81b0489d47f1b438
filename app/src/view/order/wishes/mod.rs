//! What is wished of the order: what counts, the team's own times, and rules. Each is an edit.

mod hold;
mod rules;
mod weights;

use super::{aside, heading};
use crate::action::Change;
use crate::window::Stage;
use egui::Ui;
use traywright_core::case::{Edit, RunWishes};
use traywright_core::order::Objective;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let run = &document.case().run;
    heading(ui, stage.word("order-wishes"));
    aside(ui, stage.word("order-wishes-what"));
    for (objective, id) in [
        (Objective::FewestResets, "order-fewest-resets"),
        (Objective::LeastTime, "order-least-time"),
    ] {
        let word = stage.word(id);
        if ui.radio(run.objective == objective, &word).clicked() && run.objective != objective {
            let new = RunWishes {
                objective,
                ..run.clone()
            };
            set(stage, word, new, None);
        }
    }
    weights::ui(ui, stage, run);
    rules::ui(ui, stage, run);
    hold::ui(ui, stage, run);
}

/// Changes the wishes, under a name for undo.
fn set(stage: &mut Stage<'_>, what: impl Into<String>, new: RunWishes, field: Option<String>) {
    let what = what.into();
    let name = stage.text("order-undo-wish", &[("what", &what)]);
    let mut change = Change::new(name, Edit::SetRun(Box::new(new)));
    change.field = field;
    stage.edit(change);
}
