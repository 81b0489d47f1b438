//! What stands there where there is no run order: why, and the order as far as it goes.

use super::{aside, heading, words};
use crate::window::Stage;
use egui::Ui;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let Some(Err(none)) = stage.desk.run.problem() else {
        return;
    };
    heading(ui, stage.word("order-none"));
    for sentence in speaker.no_run(none) {
        words(ui, sentence);
    }
    let worksheet = document.worksheet();
    if document.case().sites.is_empty() && worksheet.pins.is_empty() {
        return;
    }
    heading(ui, stage.word("order-list"));
    aside(ui, stage.word("order-list-without-cost"));
    for (n, one) in worksheet.order.iter().enumerate() {
        let line = speaker.use_line(one, worksheet);
        let number = (n + 1).to_string();
        words(
            ui,
            stage.text("order-row", &[("number", &number), ("line", &line)]),
        );
    }
}
