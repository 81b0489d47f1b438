//! The parts of the kit that a view offers, and edits together with what they need of it.

use crate::action::{Action, Ask, Change};
use crate::context::CaseContext;
use crate::look::remark;
use crate::platform::Purpose;
use egui::Ui;
use traywright_core::case::{Edit, GuidedExtent, NeighbourKind, supplied};
use traywright_core::kit::{Kit, Label};
use traywright_core::wording::Formatter;

/// Entries of a list of the offered kit by id and name, to choose from.
#[must_use]
pub fn choices<S, T, I: Clone>(
    cx: &CaseContext<'_, S>,
    list: impl Fn(&Kit) -> &[T],
    named: impl Fn(&T) -> (&I, &Label),
) -> Vec<(I, String)> {
    let kit = cx.offered_kit();
    let entries = list(kit).iter().map(named);
    entries
        .map(|(id, name)| (id.clone(), name.to_string()))
        .collect()
}

/// Says where this desk has no kit, so that only what the case holds is offered, with the way to one; else
/// where nothing is `offered`.
pub fn no_kit_ui<S, T>(ui: &mut Ui, cx: &mut CaseContext<'_, S>, offered: &[T]) {
    if let Some(live) = &cx.desk.live_kit {
        if offered.is_empty() {
            remark(ui, cx.text("offer-none", &[("kit", live.name.as_str())]));
        }
        return;
    }
    remark(ui, cx.word("offer-no-kit"));
    if ui.button(cx.word("offer-choose-kit")).clicked() {
        cx.act(Action::Ask(Ask::file(Purpose::OpenKit, "")));
    }
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

/// Edits under one name, with the kit entries that they need, from a field or none.
pub fn edit_with_kit<S>(
    cx: &mut CaseContext<'_, S>,
    name: String,
    edits: Vec<Edit>,
    field: Option<String>,
) {
    let edits = supplied(cx.document.case(), edits, cx.kit_at_hand());
    cx.edit(Change {
        field,
        ..Change::of(name, edits)
    });
}
