//! The mark of a verdict beside a word.

use super::{Camera, shapes};
use crate::look::Theme;
use egui::{Rect, Sense, Ui, Vec2};
use traywright_core::charts::mark_of;
use traywright_core::drawing::{Drawing, at};
use traywright_core::plan::Severity;

/// Shows a severity's mark of this size in the middle of a room of its own. The word beside it says
/// the same.
pub fn mark_in(ui: &mut Ui, room: Vec2, size: f32, severity: Severity) {
    let (room, _) = ui.allocate_exact_size(room, Sense::hover());
    let square = Rect::from_center_size(room.center(), Vec2::splat(size));
    mark(ui, square, severity);
}

/// Paints a severity's mark into a square. The word beside it says the same.
pub fn mark(ui: &Ui, square: Rect, severity: Severity) {
    let mut drawing = Drawing::new();
    drawing.mark(at(0.0, 0.0), 4.0, mark_of(severity));
    let camera = Camera {
        origin: square.center(),
        per_mm: square.width() / 4.4,
    };
    ui.painter()
        .extend(shapes(&drawing, camera, Theme::of(ui), ui.painter()));
}
