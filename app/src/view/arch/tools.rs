//! The tools above the chart: which jaws are shown, and how closely.

use super::chart::Viewport;
use crate::look::Font;
use crate::view::arch::Context;
use egui::{Key, Modifiers, Rect, Ui};
use traywright_core::charts::Arches;

/// One step closer.
const CLOSER: f32 = 1.25;

/// Shows the tools.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    ui.horizontal(|ui| {
        for (arches, id) in [
            (Arches::Both, "arch-both-jaws"),
            (Arches::Own, "arch-own-jaw"),
        ] {
            let here = cx.own.arches == arches;
            if ui.selectable_label(here, cx.word(id)).clicked() {
                cx.own.arches = arches;
                cx.own.viewport = Viewport::default();
            }
        }
        ui.add_space(12.0);
        let room = ui.available_rect_before_wrap();
        for (id, hint, factor) in [
            ("arch-farther", "arch-farther-hint", 1.0 / CLOSER),
            ("arch-closer", "arch-closer-hint", CLOSER),
        ] {
            let button = ui.button(cx.word(id)).on_hover_text(cx.word(hint));
            if button.clicked() {
                zoom(cx, room, factor);
            }
        }
        let whole = cx.own.viewport == Viewport::default();
        let button = egui::Button::new(cx.word("arch-whole"));
        let button = ui.add_enabled(!whole, button);
        if button.on_hover_text(cx.word("arch-whole-hint")).clicked() {
            cx.own.viewport = Viewport::default();
        }
        let hint = Font::Caption.text(cx.word("arch-zoom-hint")).weak();
        ui.add(egui::Label::new(hint).truncate());
    });
}

/// The keys that look closer.
pub(super) fn zoom_keys(ui: &Ui, cx: &mut Context<'_>, room: Rect) {
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::Plus) || pressed(Key::Equals) {
        zoom(cx, room, CLOSER);
    }
    if pressed(Key::Minus) {
        zoom(cx, room, 1.0 / CLOSER);
    }
    if pressed(Key::Num0) {
        cx.own.viewport = Viewport::default();
    }
}

/// Closer about what is chosen would be a guess; the middle of the room stays.
fn zoom(cx: &mut Context<'_>, room: Rect, factor: f32) {
    let room = cx.own.room.unwrap_or(room);
    cx.own.viewport.closer(room, room.center(), factor);
}
