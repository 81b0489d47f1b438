//! The thing in hand, the effect of putting it somewhere, and doing so.

use super::place_of;
use crate::action::Change;
use crate::context::Notice;
use crate::desk::Document;
use crate::view::tray::Context;
use egui::Pos2;
use traywright_core::case::{Edit, Held, TrayPlace};
use traywright_core::kit::{Label, SlotKind};
use traywright_core::plan::{Fits, LoadItem, PlaceRefused, moved};
use traywright_core::wording::Formatter;

/// A thing in hand.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Carried {
    /// The thing.
    pub(super) thing: Held,
    /// The slot that it is held over, whether or not it goes there.
    pub(super) over: Option<Label>,
    /// The means by which it is carried.
    pub(super) by: CarriedBy,
}

/// The means by which a thing is carried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum CarriedBy {
    /// The pointer, which is there.
    Pointer(Pos2),
    /// The keyboard.
    Keys,
}

/// The effect of putting a thing in a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum DropOutcome {
    /// It would be put there; this thing is there now and would change places with it.
    Moves(Vec<TrayPlace>, Option<usize>),
    /// It is there already.
    Stays,
    /// The slot is for things of this kind.
    OtherKind(SlotKind),
    /// There is no such slot.
    NotThere,
}

/// The effect of putting a thing in a slot.
pub(super) fn drop_outcome(document: &Document, thing: usize, slot: &Label) -> DropOutcome {
    let loading = &document.worksheet().loading;
    match moved(document.case(), loading, thing, slot) {
        Ok(places) => {
            let there = |item: &LoadItem| item.slot.as_ref() == Some(slot);
            DropOutcome::Moves(places, loading.iter().position(there))
        }
        Err(PlaceRefused::LiesThere) => DropOutcome::Stays,
        Err(PlaceRefused::OtherKind { slot, .. }) => DropOutcome::OtherKind(slot),
        Err(PlaceRefused::NotThere) => DropOutcome::NotThere,
    }
}

/// A thing by its number, its name and its setting.
pub(super) fn named(
    cx: &Context<'_>,
    formatter: &Formatter<'_>,
    (n, item): (usize, &LoadItem),
) -> String {
    let number = (n + 1).to_string();
    let args = [("number", number.as_str()), ("name", item.name.as_str())];
    let [number, name] = args;
    match formatter.actionable_figure(item) {
        Some(mark) if item.is_by_mark() => {
            cx.text("tray-thing-mark", &[number, name, ("mark", &mark)])
        }
        None if fits_not(item) => cx.text("tray-thing-misfit", &[number, name]),
        None if item.is_by_mark() => cx.text("tray-thing-no-mark", &[number, name]),
        Some(setting) => cx.text("tray-thing-set", &[number, name, ("setting", &setting)]),
        None if item.set.is_some() => cx.text("tray-thing-unset", &[number, name]),
        None => cx.text("tray-thing", &[number, name]),
    }
}

/// True for a drill whose setting is known and does not fit.
fn fits_not(item: &LoadItem) -> bool {
    let set = item.set.as_ref();
    set.is_some_and(|on| on.fits == Fits::No && on.set.value().is_some())
}

/// The thing in hand and the effect of putting it down, in words.
pub(super) fn words(cx: &Context<'_>, document: &Document, carried: &Carried) -> String {
    let loading = &document.worksheet().loading;
    let Some(thing) = place_of(loading, &carried.thing) else {
        return String::new();
    };
    let item = &loading[thing];
    let formatter = cx.formatter();
    let name = |n: usize| named(cx, &formatter, (n, &loading[n]));
    let own = name(thing);
    let own = ("thing", own.as_str());
    let Some(over) = &carried.over else {
        return cx.text("tray-in-hand", &[own]);
    };
    let slot = ("slot", over.as_str());
    match drop_outcome(document, thing, over) {
        DropOutcome::Moves(_, None) => cx.text("tray-to-free", &[own, slot]),
        DropOutcome::Moves(_, Some(other)) => {
            let there = name(other);
            cx.text("tray-to-other", &[own, slot, ("there", &there)])
        }
        DropOutcome::Stays => cx.text("tray-lies-there", &[own, slot]),
        DropOutcome::OtherKind(kind) => {
            let (takes, is) = (formatter.kind(kind), formatter.kind(item.kind));
            cx.text(
                "tray-other-kind",
                &[own, slot, ("takes", &takes), ("kind", &is)],
            )
        }
        DropOutcome::NotThere => String::new(),
    }
}

/// Puts the thing in hand where it is held; where it does not go, a notice says so.
pub(super) fn put_down(cx: &mut Context<'_>) {
    let document = cx.document;
    let Some(carried) = cx.own.carried.take() else {
        return;
    };
    let loading = &document.worksheet().loading;
    let (Some(thing), Some(slot)) = (place_of(loading, &carried.thing), &carried.over) else {
        return;
    };
    match drop_outcome(document, thing, slot) {
        DropOutcome::Moves(places, other) => {
            let name = step_name(cx, &loading[thing], slot, other.map(|n| &loading[n]));
            cx.edit(Change::new(name, Edit::SetTrayPlaces(places)));
        }
        DropOutcome::OtherKind(_) => {
            let told = words(cx, document, &carried);
            cx.state.notice = Some(Notice::Refused(told));
        }
        DropOutcome::Stays | DropOutcome::NotThere => {}
    }
}

/// The step's name in the history.
fn step_name(cx: &Context<'_>, item: &LoadItem, slot: &Label, other: Option<&LoadItem>) -> String {
    let name = ("name", item.name.as_str());
    let slot = ("slot", slot.as_str());
    match (other, &item.slot) {
        (None, _) => cx.text("tray-laid", &[name, slot]),
        (Some(other), Some(from)) => {
            let (other, from) = (("other", other.name.as_str()), ("from", from.as_str()));
            cx.text("tray-exchanged", &[name, slot, other, from])
        }
        (Some(other), None) => cx.text(
            "tray-pushed-out",
            &[name, slot, ("other", other.name.as_str())],
        ),
    }
}
