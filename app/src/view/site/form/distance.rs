//! The distance from the platform to the sleeve, together with the face that it was given to.

use super::SiteForm;
use super::common::title;
use super::face;
use crate::field::{InCase, New};
use crate::look::{Font, caption, reserved};
use crate::view::form::FormSubject;
use crate::view::site::Context;
use crate::view::site::derivation::{self, Derivation};
use crate::view::site::here::Here;
use egui::Ui;
use traywright_core::case::{PlatformToSleeve, SleeveFace};

/// Lines that the words take which ask for the face.
const FACE_FIRST: u8 = 3;

const PLACE: InCase = InCase("sites[].platform_to_sleeve.entered_mm");

/// Shows the part.
pub(super) fn ui(form: &mut SiteForm<'_, '_, '_>, told: &mut Option<Derivation>) {
    let here = form.on;
    title(form.ui, &form.cx.word("site-distance-title"));
    let entered = here.site.platform_to_sleeve;
    let face = entered.map(|entered| entered.to).or(form.cx.own.face);
    let held = here.held().distance;
    let picked = form.enabled(!held, |form| face::ui(form.ui, form.cx, here, face));
    match (picked, entered) {
        (Some(to), Some(entered)) if to != entered.to => {
            form.change("site-what-face", "distance", |site| {
                site.platform_to_sleeve = Some(PlatformToSleeve { to, ..entered });
            });
        }
        // It stays as it was; what was said of another face is settled.
        (Some(_), Some(_)) => form.cx.state.drafts.settle(&here.key("distance")),
        (Some(to), None) => form.cx.own.face = Some(to),
        _ => {}
    }
    let label = form.word(match face {
        None => "site-distance",
        Some(SleeveFace::Apical) => "site-distance-apical",
        Some(SleeveFace::Coronal) => "site-distance-coronal",
    });
    let value = entered.map(|entered| entered.entered_mm);
    let asked = !held && face.is_some();
    let new = form.enabled(asked, |form| form.number(&label, "distance", value, PLACE));
    if let Some((New(new), to)) = new.zip(face) {
        form.cx.own.face = Some(to);
        form.change("site-what-distance", "distance", |site| {
            site.platform_to_sleeve = new.map(|entered_mm| PlatformToSleeve { entered_mm, to });
        });
    }
    // The room below is the same whatever was picked.
    reserved(form.ui, FACE_FIRST, |ui| match face {
        // Without its face a distance could mean either of two, a sleeve's height apart.
        None => caption(ui, form.cx.word("site-distance-face-first")),
        Some(SleeveFace::Coronal) => lower(ui, form.cx, here, told),
        Some(SleeveFace::Apical) => {}
    });
}

/// How far the platform is from the lower face, where it was given to the upper one.
fn lower(ui: &mut Ui, cx: &Context<'_>, here: &Here<'_>, told: &mut Option<Derivation>) {
    let figure = &here.sheet.distance;
    let name = cx.word("site-distance-lower");
    ui.horizontal(|ui| {
        caption(ui, &name);
        let text = here.formatter.set_length_with_unit(&figure.known_length());
        let font = Font::StrongLine;
        derivation::figure(ui, 80.0, &text, font, &name, told, |name| {
            Derivation::figure(here, name, figure)
        });
    });
}
