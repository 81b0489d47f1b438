//! The keys and the cautions.

use crate::action::Command;
use crate::context::ViewContext;
use egui::{Grid, RichText, ScrollArea, Ui};
use traywright_core::wording::cautions;

/// Gives back whether it is to be closed.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) -> bool {
    ui.heading(cx.word("help-title"));
    let height = ui.ctx().content_rect().height() * 0.65;
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
        Grid::new("keys").num_columns(2).show(ui, |ui| {
            for command in Command::all() {
                ui.label(cx.word(command.text_id()));
                let keys = std::iter::once(command.key()).chain(command.other_key());
                let keys: Vec<String> = keys.map(|key| ui.ctx().format_shortcut(&key)).collect();
                ui.label(RichText::new(keys.join(", ")).strong());
                ui.end_row();
            }
        });
        ui.separator();
        for caution in cautions(cx.desk.texts) {
            ui.label(caution);
        }
    });
    ui.button(cx.word("notice-close")).clicked()
}
