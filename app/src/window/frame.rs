//! The body of the window: the view that is looked at.

use super::{Stage, View};
use crate::view;
use egui::{CentralPanel, Frame, Margin, Ui};
use traywright_core::drawing::Ink;

/// Shows the view.
pub(super) fn body_ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let ground = crate::look::Theme::of(ui).fill(Ink::Ground);
    let frame = Frame::NONE
        .fill(ground)
        .inner_margin(Margin::symmetric(20, 12));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        if stage.document().is_none() {
            view::start::ui(ui, stage);
            return;
        }
        match stage.sight.view {
            View::Start => view::start::ui(ui, stage),
            View::Case => view::case::ui(ui, stage),
            View::Arch => view::arch::ui(ui, stage),
            View::Site => view::site::ui(ui, stage),
            View::Findings => view::findings::ui(ui, stage),
            View::Order => view::order::ui(ui, stage),
            View::Tray => view::tray::ui(ui, stage),
            View::Sheet => view::sheet::ui(ui, stage),
            View::Kit => view::kit::ui(ui, stage),
            // The loading view has the whole window.
            View::Loading => {}
        }
    });
}
