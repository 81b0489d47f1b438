//! The body of the window: the view that is looked at.

use super::{View, ViewContext};
use crate::view;
use egui::{CentralPanel, Frame, Margin, Ui};
use traywright_core::drawing::Ink;

/// Shows the view.
pub(super) fn body_ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let ground = crate::look::Theme::of(ui).fill(Ink::Ground);
    let frame = Frame::NONE
        .fill(ground)
        .inner_margin(Margin::symmetric(20, 12));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        if cx.document().is_none() {
            view::start::ui(ui, cx);
            return;
        }
        match cx.state.view {
            View::Start => view::start::ui(ui, cx),
            View::Case => view::case::ui(ui, cx),
            View::Arch => view::arch::ui(ui, cx),
            View::Site => view::site::ui(ui, cx),
            View::Findings => view::findings::ui(ui, cx),
            View::Order => view::order::ui(ui, cx),
            View::Tray => view::tray::ui(ui, cx),
            View::Sheet => view::sheet::ui(ui, cx),
            View::Kit => view::kit::ui(ui, cx),
            // The loading view has the whole window.
            View::Loading => {}
        }
    });
}
