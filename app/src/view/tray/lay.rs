//! What is in hand, what laying it somewhere would do, and doing it.

use super::place_of;
use crate::action::Change;
use crate::desk::Document;
use crate::window::{Notice, Stage};
use egui::Pos2;
use traywright_core::case::{Edit, Held, TrayPlace};
use traywright_core::kit::{Label, SlotKind};
use traywright_core::plan::{CannotLay, Known, LoadItem, moved};
use traywright_core::say::Speaker;

/// A thing in hand.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Carried {
    /// The thing.
    pub(super) thing: Held,
    /// The slot that it is held over, whether or not it goes there.
    pub(super) over: Option<Label>,
    /// What carries it.
    pub(super) by: By,
}

/// What carries a thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum By {
    /// The pointer, which is there.
    Pointer(Pos2),
    /// The keyboard.
    Keys,
}

/// What laying a thing in a slot would do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Fate {
    /// It would lie there; this lies there now and would change places with it.
    Laid(Vec<TrayPlace>, Option<usize>),
    /// It lies there already.
    Stays,
    /// The slot is for things of this kind.
    OtherKind(SlotKind),
    /// There is no such slot.
    NotThere,
}

/// What laying a thing in a slot would do.
pub(super) fn fate(document: &Document, thing: usize, slot: &Label) -> Fate {
    let loading = &document.worksheet().loading;
    match moved(document.case(), loading, thing, slot) {
        Ok(places) => {
            let there = |item: &LoadItem| item.slot.as_ref() == Some(slot);
            Fate::Laid(places, loading.iter().position(there))
        }
        Err(CannotLay::LiesThere) => Fate::Stays,
        Err(CannotLay::OtherKind { slot, .. }) => Fate::OtherKind(slot),
        Err(CannotLay::NotThere) => Fate::NotThere,
    }
}

/// A thing by its number, its name and its setting.
pub(super) fn named(
    stage: &Stage<'_>,
    speaker: &Speaker<'_>,
    (n, item): (usize, &LoadItem),
) -> String {
    let number = (n + 1).to_string();
    let args = [("number", number.as_str()), ("name", item.name.as_str())];
    let [number, name] = args;
    match speaker.hand_figure(item) {
        Known::Is(setting) => stage.text("tray-thing-set", &[number, name, ("setting", &setting)]),
        Known::Unknown(_) if item.set.is_some() => stage.text("tray-thing-unset", &[number, name]),
        Known::Unknown(_) => stage.text("tray-thing", &[number, name]),
    }
}

/// What is in hand and what would become of it, in words.
pub(super) fn words(stage: &Stage<'_>, document: &Document, carried: &Carried) -> String {
    let loading = &document.worksheet().loading;
    let Some(thing) = place_of(loading, &carried.thing) else {
        return String::new();
    };
    let item = &loading[thing];
    let speaker = document.speaker(stage.desk.settings.notation());
    let name = |n: usize| named(stage, &speaker, (n, &loading[n]));
    let own = name(thing);
    let own = ("thing", own.as_str());
    let Some(over) = &carried.over else {
        return stage.text("tray-in-hand", &[own]);
    };
    let slot = ("slot", over.as_str());
    match fate(document, thing, over) {
        Fate::Laid(_, None) => stage.text("tray-to-free", &[own, slot]),
        Fate::Laid(_, Some(other)) => {
            let there = name(other);
            stage.text("tray-to-other", &[own, slot, ("there", &there)])
        }
        Fate::Stays => stage.text("tray-lies-there", &[own, slot]),
        Fate::OtherKind(kind) => {
            let (takes, is) = (speaker.kind(kind), speaker.kind(item.kind));
            stage.text(
                "tray-other-kind",
                &[own, slot, ("takes", &takes), ("kind", &is)],
            )
        }
        Fate::NotThere => String::new(),
    }
}

/// Lays what is in hand where it is held. Where it does not go nothing happens, and that is told.
pub(super) fn lay(stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let Some(carried) = stage.sight.tray.carried.take() else {
        return;
    };
    let loading = &document.worksheet().loading;
    let (Some(thing), Some(slot)) = (place_of(loading, &carried.thing), &carried.over) else {
        return;
    };
    match fate(document, thing, slot) {
        Fate::Laid(places, other) => {
            let name = step_name(stage, &loading[thing], slot, other.map(|n| &loading[n]));
            stage.edit(Change::new(name, Edit::SetTrayPlaces(places)));
        }
        Fate::OtherKind(_) => {
            let told = words(stage, document, &carried);
            stage.sight.notice = Some(Notice::Refused(told));
        }
        Fate::Stays | Fate::NotThere => {}
    }
}

/// What the step is called where it is undone.
fn step_name(stage: &Stage<'_>, item: &LoadItem, slot: &Label, other: Option<&LoadItem>) -> String {
    let name = ("name", item.name.as_str());
    let slot = ("slot", slot.as_str());
    match (other, &item.slot) {
        (None, _) => stage.text("tray-laid", &[name, slot]),
        (Some(other), Some(from)) => {
            let (other, from) = (("other", other.name.as_str()), ("from", from.as_str()));
            stage.text("tray-exchanged", &[name, slot, other, from])
        }
        (Some(other), None) => stage.text(
            "tray-pushed-out",
            &[name, slot, ("other", other.name.as_str())],
        ),
    }
}
