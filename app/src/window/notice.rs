//! A line that says what was done or why not, until the next action or until it is closed.

use crate::context::{Notice, ViewContext};
use crate::look::Theme;
use egui::{Align2, Area, Frame, Id, Order, RichText, Ui, vec2};
use traywright_core::drawing::Ink;

/// Shows the notice, if there is one.
pub(super) fn ui(ui: &Ui, cx: &mut ViewContext<'_>) {
    let Some(notice) = cx.state.notice.clone() else {
        return;
    };
    let theme = Theme::of(ui);
    let (text, colour) = match &notice {
        Notice::Done(text) => (text, theme.fill(Ink::Strong)),
        Notice::Refused(text) => (text, theme.fault()),
    };
    let close = cx.word("notice-close");
    Area::new(Id::unique("notice"))
        .order(Order::Foreground)
        .anchor(Align2::CENTER_TOP, vec2(0.0, 52.0))
        .show(ui.ctx(), |ui| {
            Frame::popup(ui.style()).show(ui, |ui| {
                ui.set_max_width(640.0);
                ui.horizontal_top(|ui| {
                    ui.add(egui::Label::new(RichText::new(text).color(colour)).wrap());
                    if ui.button(&close).clicked() {
                        cx.state.notice = None;
                    }
                });
            });
        });
}
