//! The distance from the platform to the sleeve, together with the face that it was given to.

use super::common::{hint, length, title};
use super::face;
use crate::field::{Bounds, New};
use crate::look::{bold, size};
use crate::view::site::here::Here;
use crate::view::site::told::{self, Told};
use crate::window::ViewContext;
use egui::{FontId, RichText, Ui};
use traywright_core::case::{PlatformToSleeve, SleeveFace};
use traywright_core::measure::Length;

/// Shows the part.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, told: &mut Option<Told>) {
    title(ui, &cx.word("site-distance-title"));
    let entered = here.site.platform_to_sleeve;
    let face = entered
        .map(|entered| entered.to)
        .or(cx.state.site_view.face);
    let made = here.guide_is_made();
    let picked = ui.add_enabled_ui(!made, |ui| face::ui(ui, cx, here, face));
    match (picked.inner, entered) {
        (Some(to), Some(entered)) if to != entered.to => {
            here.change(cx, "site-what-face", "distance", |site| {
                site.platform_to_sleeve = Some(PlatformToSleeve { to, ..entered });
            });
        }
        // It stays as it was; what was said of another face is settled.
        (Some(_), Some(_)) => cx.state.drafts.settle(&here.key("distance")),
        (Some(to), None) => cx.state.site_view.face = Some(to),
        _ => {}
    }
    let label = cx.word(match face {
        None => "site-distance",
        Some(SleeveFace::Apical) => "site-distance-apical",
        Some(SleeveFace::Coronal) => "site-distance-coronal",
    });
    let Some(to) = face else {
        // Without its face a distance could mean either of two, a sleeve's height apart.
        hint(ui, &cx.word("site-distance-face-first"));
        return;
    };
    let value = entered.map(|entered| entered.entered_mm);
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(60));
    let new = ui.add_enabled_ui(!made, |ui| {
        length(ui, cx, here, (&label, "distance"), value, bounds)
    });
    if let Some(New(new)) = new.inner {
        cx.state.site_view.face = Some(to);
        here.change(cx, "site-what-distance", "distance", |site| {
            site.platform_to_sleeve = new.map(|entered_mm| PlatformToSleeve { entered_mm, to });
        });
    }
    if to == SleeveFace::Apical {
        return;
    }
    let figure = &here.sheet.distance;
    ui.horizontal(|ui| {
        let name = cx.word("site-distance-lower");
        ui.label(RichText::new(&name).size(size::CAPTION).weak());
        let text = here.formatter.set_length_with_unit(&figure.known_length());
        let font = FontId::new(13.0, bold());
        told::figure(ui, 80.0, &text, font, &name, told, |name| {
            Told::figure(here, name, figure)
        });
    });
}
