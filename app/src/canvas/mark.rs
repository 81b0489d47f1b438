//! The mark of a verdict beside a word.

use super::{Camera, shapes};
use crate::look::Theme;
use egui::{Rect, Ui};
use traywright_core::drawing::{Drawing, Mark, at};
use traywright_core::plan::Severity;

/// The mark of a severity.
#[must_use]
pub const fn mark_of(severity: Severity) -> Mark {
    match severity {
        Severity::Short => Mark::Short,
        Severity::Unknown => Mark::Unknown,
        Severity::Tight => Mark::Tight,
        Severity::Accepted => Mark::Accepted,
        Severity::Intended => Mark::Intended,
        Severity::Note => Mark::Note,
        Severity::Clear => Mark::Clear,
    }
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
