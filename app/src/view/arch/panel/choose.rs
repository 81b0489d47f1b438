//! Everything in the arch in one list: the way to each thing by keyboard.

use super::super::Pick;
use super::super::pick::{Picked, picked};
use crate::action::Action;
use crate::desk::Document;
use crate::field;
use crate::view::arch::Context;
use egui::Ui;
use traywright_core::case::Tooth;
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::{Label, SiteId};
use traywright_core::wording::{Formatter, begin};

/// A thing in the arch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Thing {
    Site(SiteId),
    Pin(Label),
    Tooth(ToothPosition),
}

/// The things of a case, each in words: sites, pins, then the tooth positions from the patient's
/// right to the left.
pub(super) fn things(document: &Document, cx: &Context<'_>) -> Vec<(Thing, String)> {
    let case = document.case();
    let formatter = cx.formatter();
    let site = |id: &SiteId| cx.text("arch-thing-site", &[("site", &formatter.site(id))]);
    let sites = case
        .sites
        .iter()
        .map(|s| (Thing::Site(s.id.clone()), site(&s.id)));
    let pins = case.guide.pins.iter().map(|pin| {
        let place = formatter.pin_place(pin);
        let args = [("name", pin.name.as_str()), ("place", place.as_str())];
        (
            Thing::Pin(pin.name.clone()),
            cx.text("arch-thing-pin", &args),
        )
    });
    let teeth = ToothPosition::all_of(case.jaw).map(|position| {
        let state = formatter.tooth_state(tooth_of(document, position));
        let tooth = formatter.tooth(position);
        let args = [("tooth", tooth.as_str()), ("state", state.as_str())];
        (Thing::Tooth(position), cx.text("arch-thing-tooth", &args))
    });
    sites.chain(pins).chain(teeth).collect()
}

/// The entry of a tooth position.
pub(super) fn tooth_of(document: &Document, position: ToothPosition) -> Option<Tooth> {
    let mut teeth = document.case().teeth.iter();
    teeth.find(|tooth| tooth.position == position).copied()
}

/// The name of a tooth with a capital, as a title.
pub(super) fn titled(formatter: &Formatter<'_>, position: ToothPosition) -> String {
    begin(&formatter.tooth(position))
}

/// Looks at a thing.
pub(super) fn look_at(cx: &mut Context<'_>, thing: Option<Thing>) {
    match thing {
        Some(Thing::Site(id)) => cx.act(Action::Choose(Some(id))),
        Some(Thing::Pin(name)) => cx.own.pick = Pick::Pin(name),
        Some(Thing::Tooth(position)) => cx.own.pick = Pick::Tooth(position),
        None => cx.own.pick = Pick::Nothing,
    }
}

/// Shows the list.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let things = things(document, cx);
    let now = match picked(cx) {
        Picked::Site(site, _) => Some(Thing::Site(site.id.clone())),
        Picked::Pin(pin) => Some(Thing::Pin(pin.name.clone())),
        Picked::Tooth(position) => Some(Thing::Tooth(position)),
        Picked::Nothing => None,
    };
    let label = cx.word("arch-choose");
    let nothing = cx.word("arch-choose-nothing");
    let new = field::row(ui, &label, |ui, _| {
        let (drafts, value) = (&cx.state.drafts, now.as_ref());
        field::choice(ui, drafts, "arch.choose", &label, &nothing, value, &things)
    });
    if let Some(field::New(thing)) = new {
        look_at(cx, thing);
    }
}
