//! Insertion of the implant, and the note.

use super::SiteForm;
use super::common::title;
use crate::view::form::entry;

/// Shows the part.
pub(super) fn ui(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    title(form.ui, &form.cx.word("site-insertion-title"));
    let insertion = &here.site.insertion;
    let now = insertion.carrier.as_ref();
    let carriers = here.kit.carriers.iter().filter(|carrier| {
        carrier.families.contains(&here.implant.family) || now == Some(&carrier.id)
    });
    let carriers: Vec<_> = carriers
        .map(|carrier| {
            let name = here.formatter.named(&carrier.name, &carrier.marking);
            (carrier.id.clone(), name)
        })
        .collect();
    let asked = entry("site-carrier", "carrier", "site-what-carrier");
    form.pick_open(asked, "site-carrier-none", now, &carriers, |site, new| {
        site.insertion.carrier = new;
    });
    let asked = entry(
        "site-insertion-sleeve",
        "insertion-sleeve",
        "site-what-insertion-sleeve",
    );
    let now = insertion.sleeve.as_ref();
    let sleeves = here.fitting_sleeves(now);
    form.pick_open(asked, "site-sleeve-none", now, &sleeves, |site, new| {
        site.insertion.sleeve = new;
    });
    note(form);
}

fn note(form: &mut SiteForm<'_, '_, '_>) {
    title(form.ui, &form.cx.word("site-note"));
    let value = form.on.site.note.as_deref().unwrap_or("");
    if let Some(new) = form.text("site-note-what", "note", value) {
        let new = new.trim();
        let new = (!new.is_empty()).then(|| new.to_owned());
        form.change("site-what-note", "note", |site| site.note = new);
    }
}
