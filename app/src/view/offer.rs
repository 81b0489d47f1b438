//! The parts of the kit that a view offers, and edits together with what they need of it.

use crate::action::Change;
use crate::context::CaseContext;
use traywright_core::case::{Edit, GuidedExtent, NeighbourKind, supplied};
use traywright_core::kit::{Kit, Label};
use traywright_core::wording::Formatter;

/// Entries of a list: those of the case's copy, which count for it, then what the live kit has
/// besides.
#[must_use]
pub fn offered<'a, S, T: 'a, I: PartialEq>(
    cx: &CaseContext<'a, S>,
    list: impl Fn(&'a Kit) -> &'a [T],
    id: impl Fn(&T) -> &I,
) -> Vec<&'a T> {
    let own = list(&cx.document.case().kit);
    let live = cx.desk.offered_kit().map_or(&[][..], list);
    let new = live
        .iter()
        .filter(|entry| own.iter().all(|other| id(other) != id(entry)));
    own.iter().chain(new).collect()
}

/// The same by id and name, to choose from.
#[must_use]
pub fn choices<'a, S, T: 'a, I: PartialEq + Clone>(
    cx: &CaseContext<'a, S>,
    list: impl Fn(&'a Kit) -> &'a [T],
    named: impl Fn(&T) -> (&I, &Label),
) -> Vec<(I, String)> {
    let entries = offered(cx, list, |entry| named(entry).0).into_iter();
    entries
        .map(|entry| {
            let (id, name) = named(entry);
            (id.clone(), name.to_string())
        })
        .collect()
}

/// The kinds of neighbour, to choose from.
#[must_use]
pub fn neighbour_kinds(formatter: &Formatter<'_>) -> [(NeighbourKind, String); 6] {
    [
        NeighbourKind::Natural,
        NeighbourKind::RootFilled,
        NeighbourKind::Implant,
        NeighbourKind::Pontic,
        NeighbourKind::Impacted,
        NeighbourKind::Remnant,
    ]
    .map(|kind| (kind, formatter.neighbour_kind(kind)))
}

/// How far a guide can lead, to choose from.
#[must_use]
pub fn extents(formatter: &Formatter<'_>) -> [(GuidedExtent, String); 3] {
    [
        GuidedExtent::PilotOnly,
        GuidedExtent::AllDrilling,
        GuidedExtent::DrillingAndImplant,
    ]
    .map(|extent| (extent, formatter.extent(extent)))
}

/// The edits together with the kit entries that the case lacks for them.
#[must_use]
pub fn with_kit<S>(cx: &CaseContext<'_, S>, edits: Vec<Edit>) -> Vec<Edit> {
    match cx.desk.offered_kit() {
        Some(live) => supplied(cx.document.case(), edits, live),
        None => edits,
    }
}

/// Edits under one name, with the kit entries that they need, from a field or none.
pub fn edit_with_kit<S>(
    cx: &mut CaseContext<'_, S>,
    name: String,
    edits: Vec<Edit>,
    field: Option<String>,
) {
    let edits = with_kit(cx, edits);
    cx.edit(Change {
        field,
        ..Change::of(name, edits)
    });
}
