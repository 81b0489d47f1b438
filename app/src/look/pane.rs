//! Panes of a view beside each other.

use egui::{CentralPanel, Frame, Margin, Panel, ScrollArea, Ui};

/// A pane of this width at a side, which scrolls; `edges` is the room on its left and right, points.
pub fn side(ui: &mut Ui, panel: Panel, width: f32, edges: (i8, i8), add: impl FnOnce(&mut Ui)) {
    panel
        .resizable(false)
        .exact_size(width)
        .frame(frame(edges))
        .show(ui, |ui| {
            ScrollArea::vertical().auto_shrink(false).show(ui, add);
        });
}

/// What the panes at the sides leave.
pub fn middle(ui: &mut Ui, edges: (i8, i8), add: impl FnOnce(&mut Ui)) {
    CentralPanel::default().frame(frame(edges)).show(ui, add);
}

/// What scrolls within a pane.
pub fn scroll(ui: &mut Ui, name: &str, add: impl FnOnce(&mut Ui)) {
    let area = ScrollArea::vertical().id_salt(name).auto_shrink(false);
    area.show(ui, add);
}

fn frame((left, right): (i8, i8)) -> Frame {
    Frame::NONE.inner_margin(Margin {
        left,
        right,
        ..Margin::ZERO
    })
}
