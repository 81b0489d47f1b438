//! Insertion of the implant, and the note.

use super::common::{pick_open, title};
use crate::field::{self, New};
use crate::view::site::here::Here;
use crate::window::ViewContext;
use egui::Ui;

/// Shows the part.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    title(ui, &cx.word("site-insertion-title"));
    let insertion = &here.site.insertion;
    let carriers: Vec<_> = here
        .kit
        .carriers
        .iter()
        .filter(|carrier| {
            carrier.families.contains(&here.implant.family)
                || insertion.carrier.as_ref() == Some(&carrier.id)
        })
        .map(|carrier| {
            let name = here.formatter.named(&carrier.name, &carrier.marking);
            (carrier.id.clone(), name)
        })
        .collect();
    let texts = ("site-carrier", "carrier", "site-carrier-none");
    let value = insertion.carrier.as_ref();
    if let Some(New(new)) = pick_open(ui, cx, here, texts, value, &carriers) {
        here.change(cx, "site-what-carrier", "carrier", |site| {
            site.insertion.carrier = new;
        });
    }
    let sleeves: Vec<_> = here
        .kit
        .drill_sleeves
        .iter()
        .filter(|sleeve| {
            sleeve.fits.contains(&here.master.id) || insertion.sleeve.as_ref() == Some(&sleeve.id)
        })
        .map(|sleeve| {
            let name = here.formatter.named(&sleeve.name, &sleeve.marking);
            (sleeve.id.clone(), name)
        })
        .collect();
    let texts = (
        "site-insertion-sleeve",
        "insertion-sleeve",
        "site-sleeve-none",
    );
    let value = insertion.sleeve.as_ref();
    if let Some(New(new)) = pick_open(ui, cx, here, texts, value, &sleeves) {
        here.change(
            cx,
            "site-what-insertion-sleeve",
            "insertion-sleeve",
            |site| {
                site.insertion.sleeve = new;
            },
        );
    }
    note(ui, cx, here);
}

fn note(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    title(ui, &cx.word("site-note"));
    let key = here.key("note");
    let value = here.site.note.as_deref().unwrap_or("");
    let new = field::row(ui, &cx.word("site-note-what"), |ui, named| {
        field::text(ui, &mut cx.state.drafts, &key, named, value)
    });
    if let Some(new) = new {
        let new = new.trim();
        let new = (!new.is_empty()).then(|| new.to_owned());
        here.change(cx, "site-what-note", "note", |site| site.note = new);
    }
}
