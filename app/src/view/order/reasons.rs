//! Why this order: what each rule and each kind of change costs.

use super::{aside, heading, words};
use crate::desk::Work;
use crate::window::Stage;
use egui::Ui;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let (Some(document), Some(run)) = (stage.document(), stage.desk.run.order()) else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    heading(ui, stage.word("order-why"));
    match stage.desk.run.reasons() {
        Work::Done(reasons) if reasons.is_empty() => aside(ui, stage.word("order-why-none")),
        Work::Done(reasons) => {
            for why in reasons {
                words(ui, speaker.run_why(why, run));
            }
        }
        Work::Going(_) => aside(ui, stage.word("order-why-going")),
        Work::Open | Work::Failed => aside(ui, stage.word("order-why-none")),
    }
}
