//! The form: everything that was entered for a site.

mod common;
mod distance;
mod face;
mod heights;
mod insertion;
mod neighbours;
mod obstacles;
mod plan;
mod state_of_bone;
mod structures;
mod walls;

pub(super) use common::pick_open;

use super::here::Here;
use super::told::Told;
use crate::look::size;
use crate::window::ViewContext;
use egui::{RichText, Ui};
use traywright_core::plan::stale_values;
use traywright_core::wording::begin;

/// Shows the form.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, told: &mut Option<Told>) {
    ui.heading(begin(&here.name()));
    let tilt = here.formatter.tilt(here.site);
    ui.label(RichText::new(tilt).size(size::CAPTION).weak());
    if here.guide_is_made() {
        let said = here.formatter.guide_state(here.document.case().guide.state);
        ui.label(RichText::new(said).size(size::CAPTION));
    }
    plan::ui(ui, cx, here);
    distance::ui(ui, cx, here, told);
    state_of_bone::ui(ui, cx, here);
    let stale = stale_values(here.document.case(), here.site);
    heights::ui(ui, cx, here, stale.heights);
    walls::ui(ui, cx, here, &stale.walls);
    neighbours::ui(ui, cx, here, &stale.distances);
    structures::ui(ui, cx, here, &stale.structures);
    obstacles::ui(ui, cx, here, &stale.obstacles);
    insertion::ui(ui, cx, here);
}
