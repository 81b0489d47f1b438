//! All fields of one entry.

use crate::look::{Font, Theme};
use egui::{Grid, Label, Ui};
use traywright_core::drawing::Ink;
use traywright_core::wording::{KitFormatter, begin};

/// Shows them.
pub(super) fn ui(ui: &mut Ui, say: &KitFormatter<'_>, list: &str, id: &str) {
    let soft = Theme::of(ui).fill(Ink::Soft);
    let width = ui.available_width();
    ui.spacing_mut().interact_size.y = Font::Body.size() + 4.0;
    Grid::new(("kit-fields", list, id))
        .num_columns(2)
        .spacing([16.0, 3.0])
        .max_col_width((width - 16.0) * 0.6)
        .show(ui, |ui| {
            for field in say.kit.fields(list, id) {
                let name = begin(&say.field(&field.keys));
                let name = Font::Caption.text(name).color(soft);
                ui.add(Label::new(name).wrap());
                ui.add(Label::new(say.value(&field.keys, &field.value)).wrap());
                ui.end_row();
            }
        });
}
