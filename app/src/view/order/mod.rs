//! The order of use, as it is followed.

use crate::window::Stage;
use egui::{Label, RichText, ScrollArea, Ui};

/// Shows the view.
pub fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let worksheet = document.worksheet();
    ui.heading(stage.word("order-title"));
    if worksheet.order.is_empty() {
        ui.label(stage.word("order-nothing"));
    }
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for (n, one) in worksheet.order.iter().enumerate() {
            let line = format!("{}. {}", n + 1, speaker.use_line(one, worksheet));
            ui.add(Label::new(RichText::new(line)).wrap());
        }
    });
}
