//! The panel beside the chart: what is chosen, and what can be done with it.

mod choose;
mod nothing;
mod pin;
mod place;
mod site;
mod tooth;

pub(super) use pin::remove as remove_pin;
pub(super) use place::Draft as NewSiteDraft;
pub(super) use site::remove as remove_site;
pub(super) use tooth::set_state as set_tooth_state;

use super::pick::{Picked, picked};
use crate::look::{self};
use crate::view::arch::Context;
use egui::Ui;

/// Shows the panel.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    ui.push_id("arch-panel", |ui| {
        choose::ui(ui, cx);
        ui.add_space(4.0);
        match picked(cx) {
            Picked::Site(site, sheet) => site::ui(ui, cx, site, sheet),
            Picked::Tooth(position) => tooth::ui(ui, cx, position),
            Picked::Pin(pin) => pin::ui(ui, cx, pin),
            Picked::Nothing => nothing::ui(ui, cx),
        }
    });
}

/// The heading of the panel.
fn title(ui: &mut Ui, text: &str) {
    ui.heading(text);
}

/// A heading within the panel.
fn heading(ui: &mut Ui, text: &str) {
    ui.add_space(5.0);
    look::heading(ui, text);
}
