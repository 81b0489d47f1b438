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
use crate::window::Stage;
use egui::{RichText, Ui};
use traywright_core::plan::stale_values;
use traywright_core::say::begin;

/// Shows the form.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>, here: &Here<'_>, told: &mut Option<Told>) {
    ui.heading(begin(&here.name()));
    let tilt = here.speaker.tilt(here.site);
    ui.label(RichText::new(tilt).size(size::CAPTION).weak());
    if here.guide_is_made() {
        let said = here.speaker.guide_state(here.document.case().guide.state);
        ui.label(RichText::new(said).size(size::CAPTION));
    }
    plan::ui(ui, stage, here);
    distance::ui(ui, stage, here, told);
    state_of_bone::ui(ui, stage, here);
    let stale = stale_values(here.document.case(), here.site);
    heights::ui(ui, stage, here, stale.heights);
    walls::ui(ui, stage, here, &stale.walls);
    neighbours::ui(ui, stage, here, &stale.distances);
    structures::ui(ui, stage, here, &stale.structures);
    obstacles::ui(ui, stage, here, &stale.obstacles);
    insertion::ui(ui, stage, here);
}
