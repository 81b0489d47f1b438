//! Tooth, implant, master sleeve, guided extent.

use super::common::{hint, pick};
use crate::view::site::here::Here;
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::{GuidedExtent, Placement};
use traywright_core::dentition::ToothPosition;

/// Shows the part.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let site = here.site;
    let formatter = &here.formatter;
    let teeth: Vec<_> = ToothPosition::all_of(here.document.case().jaw)
        .map(|position| (position, formatter.tooth(position)))
        .collect();
    if let Some(new) = pick(ui, cx, here, ("site-tooth", "tooth"), &site.tooth, &teeth) {
        here.change(cx, "site-what-tooth", "tooth", |site| site.tooth = new);
    }
    elsewhere(ui, cx, here);
    let implants: Vec<_> = here
        .kit
        .implants
        .iter()
        .map(|implant| (implant.id.clone(), implant.name.to_string()))
        .collect();
    if let Some(new) = pick(
        ui,
        cx,
        here,
        ("site-implant", "implant"),
        &site.implant,
        &implants,
    ) {
        here.change(cx, "site-what-implant", "implant", |site| {
            site.implant = new;
        });
    }
    let masters: Vec<_> = here
        .kit
        .master_sleeves
        .iter()
        .map(|sleeve| (sleeve.id.clone(), sleeve.name.to_string()))
        .collect();
    let made = here.guide_is_made();
    let picked = ui.add_enabled_ui(!made, |ui| {
        let texts = ("site-master", "master_sleeve");
        pick(ui, cx, here, texts, &site.master_sleeve, &masters)
    });
    if let Some(new) = picked.inner {
        here.change(cx, "site-what-master", "master_sleeve", |site| {
            site.master_sleeve = new;
        });
    }
    let extents = [
        GuidedExtent::PilotOnly,
        GuidedExtent::AllDrilling,
        GuidedExtent::DrillingAndImplant,
    ]
    .map(|extent| (extent, formatter.extent(extent)));
    if let Some(new) = pick(
        ui,
        cx,
        here,
        ("site-extent", "guided_extent"),
        &site.guided_extent,
        &extents,
    ) {
        here.change(cx, "site-what-extent", "guided_extent", |site| {
            site.guided_extent = new;
        });
    }
}

/// Says where the arch has the site, where that is not at its tooth; a corrected number does not
/// move it.
fn elsewhere(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let tooth = here.site.tooth;
    let Placement::OnArch { at, .. } = here.site.placement else {
        return;
    };
    if at == tooth {
        return;
    }
    let place = here.formatter.tooth(at);
    hint(ui, &cx.text("site-placed-at", &[("tooth", &place)]));
    let there = cx.word("site-place-there");
    let button = egui::Button::new(there).small();
    if ui.add_enabled(!here.guide_is_made(), button).clicked() {
        here.change(cx, "site-what-placement", "tooth", |site| {
            if let Placement::OnArch { at, .. } = &mut site.placement {
                *at = tooth;
            }
        });
    }
}
