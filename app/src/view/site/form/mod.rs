//! The form: everything that was entered for a site.

mod common;
mod cut_before;
mod distance;
mod face;
mod heights;
mod insertion;
mod list;
mod neighbours;
mod obstacles;
mod plan;
mod state_of_bone;
mod structures;
mod walls;

use super::derivation::Derivation;
use super::here::Here;
use crate::look::{Font, caption};
use crate::view::form::Form;
use crate::view::site::Context;
use egui::Ui;
use traywright_core::case::{Distance, Obstacle, Structure};
use traywright_core::plan::stale_values;
use traywright_core::wording::begin;

/// The form of a site.
type SiteForm<'f, 'c, 'h> = Form<'f, 'c, Here<'h>>;

/// Shows the site's name, which stays while the form scrolls.
pub(super) fn head(ui: &mut Ui, here: &Here<'_>) {
    ui.heading(begin(&here.name()));
    let tilt = here.formatter.tilt(here.site);
    caption(ui, tilt);
    if here.held().axis {
        let said = here.formatter.guide_state(here.document.case().guide.state);
        ui.label(Font::Caption.text(said));
    }
}

/// Shows the form.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    here: &Here<'_>,
    told: &mut Option<Derivation>,
) {
    let form = &mut Form { ui, cx, on: here };
    plan::ui(form);
    distance::ui(form, told);
    let stale = stale_values(here.document.case(), here.site);
    state_of_bone::ui(form, stale.gap);
    heights::ui(form, stale.heights, stale.rim);
    walls::ui(form, &stale.walls);
    list::ui::<Distance>(form, &stale.distances);
    neighbours::add(form);
    list::ui::<Structure>(form, &stale.structures);
    structures::add(form);
    list::ui::<Obstacle>(form, &stale.obstacles);
    obstacles::add(form);
    insertion::ui(form);
}
