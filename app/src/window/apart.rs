//! Two versions of a case beside each other, part by part.

use egui::{Grid, Label, RichText, ScrollArea, Ui};
use traywright_core::case::Apart;
use traywright_core::wording::{Formatter, begin};

/// Shows each part with both versions of what differs in it; `head` shows what stands above the two, and
/// gets the part's name.
pub(super) fn ui(
    ui: &mut Ui,
    formatter: &Formatter<'_>,
    apart: &[Apart],
    mut head: impl FnMut(&mut Ui, &Apart, &str),
) {
    // Long texts are broken within their column: the answers stay in sight.
    let between = ui.spacing().item_spacing.x;
    let column = ((ui.available_width() - 3.0 * between) / 3.0).max(60.0);
    let height = ui.ctx().content_rect().height() * 0.55;
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
        for one in apart {
            let name = begin(&formatter.part(&one.part));
            ui.add_space(8.0);
            ui.label(RichText::new(&name).strong());
            let grid = Grid::new(("apart", one.part.keys())).num_columns(3);
            grid.striped(true).show(ui, |ui| {
                ui.label("");
                head(ui, one, &name);
                ui.end_row();
                for value in formatter.values_apart(one) {
                    for text in [value.name, value.here, value.there] {
                        ui.vertical(|ui| {
                            ui.set_max_width(column);
                            ui.add(Label::new(text).wrap());
                        });
                    }
                    ui.end_row();
                }
            });
        }
    });
}
