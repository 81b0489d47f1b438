//! Everything in the arch in one list: the way to each thing by keyboard.

use super::super::Pick;
use super::super::pick::{Picked, picked};
use crate::action::Action;
use crate::desk::Document;
use crate::field;
use crate::window::Stage;
use egui::Ui;
use traywright_core::case::Tooth;
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::{Label, SiteId};
use traywright_core::say::{Speaker, begin};

/// A thing in the arch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Thing {
    Site(SiteId),
    Pin(Label),
    Tooth(ToothPosition),
}

/// The things of a case, each in words: sites, pins, then the tooth positions from the patient's
/// right to the left.
pub(super) fn things(document: &Document, stage: &Stage<'_>) -> Vec<(Thing, String)> {
    let case = document.case();
    let speaker = document.speaker(stage.desk.settings.notation());
    let site = |id: &SiteId| stage.text("arch-thing-site", &[("site", &speaker.site(id))]);
    let sites = case
        .sites
        .iter()
        .map(|s| (Thing::Site(s.id.clone()), site(&s.id)));
    let pins = case.guide.pins.iter().map(|pin| {
        let place = speaker.pin_place(pin);
        let args = [("name", pin.name.as_str()), ("place", place.as_str())];
        (
            Thing::Pin(pin.name.clone()),
            stage.text("arch-thing-pin", &args),
        )
    });
    let teeth = ToothPosition::all_of(case.jaw).map(|position| {
        let state = speaker.tooth_state(tooth_of(document, position));
        let tooth = speaker.tooth(position);
        let args = [("tooth", tooth.as_str()), ("state", state.as_str())];
        (
            Thing::Tooth(position),
            stage.text("arch-thing-tooth", &args),
        )
    });
    sites.chain(pins).chain(teeth).collect()
}

/// What was entered of a tooth position.
pub(super) fn tooth_of(document: &Document, position: ToothPosition) -> Option<Tooth> {
    let mut teeth = document.case().teeth.iter();
    teeth.find(|tooth| tooth.position == position).copied()
}

/// The name of a tooth with a capital, as a title.
pub(super) fn titled(speaker: &Speaker<'_>, position: ToothPosition) -> String {
    begin(&speaker.tooth(position))
}

/// Looks at a thing.
pub(super) fn look_at(stage: &mut Stage<'_>, thing: Option<Thing>) {
    match thing {
        Some(Thing::Site(id)) => stage.act(Action::Choose(Some(id))),
        Some(Thing::Pin(name)) => stage.sight.arch.pick = Pick::Pin(name),
        Some(Thing::Tooth(position)) => stage.sight.arch.pick = Pick::Tooth(position),
        None => stage.sight.arch.pick = Pick::Nothing,
    }
}

/// Shows the list.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let things = things(document, stage);
    let now = match picked(stage) {
        Picked::Site(site, _) => Some(Thing::Site(site.id.clone())),
        Picked::Pin(pin) => Some(Thing::Pin(pin.name.clone())),
        Picked::Tooth(position) => Some(Thing::Tooth(position)),
        Picked::Nothing => None,
    };
    let label = stage.word("arch-choose");
    let nothing = stage.word("arch-choose-nothing");
    let new = field::row(ui, &label, |ui, _| {
        let (drafts, value) = (&stage.sight.drafts, now.as_ref());
        field::choice(ui, drafts, "arch.choose", &label, &nothing, value, &things)
    });
    if let Some(field::New(thing)) = new {
        look_at(stage, thing);
    }
}
