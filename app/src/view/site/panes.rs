//! Below the sequence one of three: what was found, the step to be changed, another implant tried.

use super::here::Here;
use super::{alternatives, concerns, sequence};
use crate::look::{Font, Theme};
use crate::view::site::Context;
use egui::{RichText, ScrollArea, Stroke, Ui};
use traywright_core::drawing::Ink;

/// The pane that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Pane {
    #[default]
    Found,
    Step,
    Implants,
}

/// Share of a column's height that it takes, whichever is shown: nothing moves as another is chosen.
const SHARE: f32 = 0.4;

/// Height of it within a column of this height, points.
pub(super) fn height(column: f32) -> f32 {
    (column * SHARE).max(150.0)
}

/// Shows the names of the three and the one that is chosen.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    let theme = Theme::of(ui);
    let strong = Stroke::new(1.0, theme.fill(Ink::Strong));
    let room = ui.max_rect();
    ui.painter().hline(room.x_range(), room.top(), strong);
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        for (pane, id) in [
            (Pane::Found, "site-findings-short"),
            (Pane::Step, "site-pane-step"),
            (Pane::Implants, "site-other-implants"),
        ] {
            let chosen = cx.own.pane == pane;
            let text = RichText::new(cx.word(id)).font(if chosen {
                Font::StrongLine.id()
            } else {
                Font::Line.id()
            });
            if ui.selectable_label(chosen, text).clicked() {
                cx.own.pane = pane;
            }
        }
    });
    let pane = cx.own.pane;
    ScrollArea::vertical()
        .id_salt(("pane", pane as u8))
        .auto_shrink([false, false])
        .show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 12.0);
            ui.style_mut().spacing.item_spacing.y = 4.0;
            match pane {
                Pane::Found => concerns::list(ui, cx, here),
                Pane::Step => sequence::chosen(ui, cx, here),
                Pane::Implants => alternatives::list(ui, cx, here),
            }
        });
}
