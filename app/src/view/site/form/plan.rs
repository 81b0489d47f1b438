//! Tooth, implant, master sleeve, guided extent.

use super::SiteForm;
use crate::look::caption;
use crate::view::form::entry;
use crate::view::offer::{extents, no_kit_ui};
use traywright_core::case::{Placement, at_another_tooth};
use traywright_core::dentition::ToothPosition;

/// Shows the part.
pub(super) fn ui(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    let (site, formatter) = (here.site, &here.formatter);
    let teeth: Vec<_> = ToothPosition::all_of(here.document.case().jaw)
        .map(|position| (position, formatter.tooth(position)))
        .collect();
    if let Some(new) = form.choice("site-tooth", "tooth", &site.tooth, &teeth) {
        let edits = at_another_tooth(here.document.case(), site, new);
        here.edit(form.cx, "site-what-tooth", Some("tooth"), edits);
    }
    elsewhere(form);
    let implants = here.kit.implants.iter();
    let implants: Vec<_> = implants
        .map(|implant| (implant.id.clone(), formatter.implant_measured(implant)))
        .collect();
    let asked = entry("site-implant", "implant", "site-what-implant");
    form.pick(asked, &site.implant, &implants, |site, new| {
        site.implant = new;
    });
    let masters = here.kit.master_sleeves.iter();
    let masters: Vec<_> = masters
        .map(|sleeve| (sleeve.id.clone(), sleeve.name.to_string()))
        .collect();
    let asked = entry("site-master", "master_sleeve", "site-what-master");
    form.enabled(!here.held().axis, |form| {
        form.pick(asked, &site.master_sleeve, &masters, |site, new| {
            site.master_sleeve = new;
        });
    });
    no_kit_ui(form.ui, form.cx, &masters);
    let extents = extents(formatter);
    let asked = entry("site-extent", "guided_extent", "site-what-extent");
    form.pick(asked, &site.guided_extent, &extents, |site, new| {
        site.guided_extent = new;
    });
    left(form);
    super::cut_before::ui(form);
}

/// Says that the guide was left here during surgery; it leads again where that is taken back.
fn left(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    if here.site.without_guide.is_none() {
        return;
    }
    caption(form.ui, here.formatter.extent_at(here.site));
    let button = egui::Button::new(form.word("site-leads-again")).small();
    if form.ui.add(button).clicked() {
        form.change("site-what-extent", "guided_extent", |site| {
            site.without_guide = None;
        });
    }
}

/// Says where the arch has the site, where that is not at its tooth; a corrected number does not
/// move it.
fn elsewhere(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    let tooth = here.site.tooth;
    let Placement::OnArch { at, .. } = here.site.placement else {
        return;
    };
    if at == tooth {
        return;
    }
    let place = here.formatter.tooth(at);
    let text = form.cx.text("site-placed-at", &[("tooth", &place)]);
    caption(form.ui, &text);
    let button = egui::Button::new(form.word("site-place-there")).small();
    if form.ui.add_enabled(!here.held().axis, button).clicked() {
        form.change("site-what-placement", "tooth", |site| {
            if let Placement::OnArch { at, .. } = &mut site.placement {
                *at = tooth;
            }
        });
    }
}
