//! The state of each tooth position.

use super::heading;
use crate::action::Change;
use crate::field::{self, New};
use crate::look::{Font, remark};
use crate::view::case::Context;
use crate::view::offer::neighbour_kinds;
use egui::{Grid, Ui};
use traywright_core::case::{Edit, Tooth, ToothState};
use traywright_core::dentition::ToothPosition;

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    heading(ui, &cx.word("case-teeth"));
    remark(ui, cx.word("case-teeth-what"));
    let jaw = document.case().jaw;
    Grid::new("case-teeth")
        .num_columns(3)
        .spacing([6.0, 3.0])
        .show(ui, |ui| {
            for position in ToothPosition::all_of(jaw) {
                row(ui, cx, position);
                ui.end_row();
            }
        });
}

fn row(ui: &mut Ui, cx: &mut Context<'_>, position: ToothPosition) {
    let (document, formatter) = (cx.document, cx.formatter());
    let teeth = &document.case().teeth;
    let now = teeth
        .iter()
        .find(|tooth| tooth.position == position)
        .copied();
    let name = formatter.tooth(position);
    ui.label(Font::Line.text(&name));
    let states = [
        (ToothState::Present, "chart-tooth-present"),
        (ToothState::Missing, "chart-tooth-missing"),
        (ToothState::ToExtract, "chart-tooth-to-extract"),
    ]
    .map(|(state, id)| (state, cx.word(id)));
    let state = now.map(|tooth| tooth.state);
    let key = format!("case.tooth.{position}.state");
    let open = cx.word("chart-tooth-not-entered");
    let drafts = &cx.state.drafts;
    let new = ui
        .scope(|ui| {
            ui.set_max_width(96.0);
            field::choice(ui, drafts, &key, &name, &open, state.as_ref(), &states)
        })
        .inner;
    if let Some(New(state)) = new {
        let edit = state.map_or(Edit::ForgetTooth(position), |state| {
            let kind = now.and_then(|tooth| tooth.kind);
            Edit::SetTooth(Tooth {
                position,
                state,
                kind,
            })
        });
        set(cx, &name, edit, key);
    }
    let Some(tooth) = now else {
        ui.label("");
        return;
    };
    let kinds = neighbour_kinds(&formatter);
    let key = format!("case.tooth.{position}.kind");
    let label = cx.text("case-tooth-kind", &[("tooth", &name)]);
    let open = cx.word("arch-tooth-kind-open");
    let drafts = &cx.state.drafts;
    let new = ui
        .scope(|ui| {
            ui.set_max_width(104.0);
            field::choice(ui, drafts, &key, &label, &open, tooth.kind.as_ref(), &kinds)
        })
        .inner;
    if let Some(New(kind)) = new {
        set(cx, &name, Edit::SetTooth(Tooth { kind, ..tooth }), key);
    }
}

fn set(cx: &mut Context<'_>, tooth: &str, edit: Edit, field: String) {
    let name = cx.text("arch-tooth-set", &[("tooth", tooth)]);
    cx.edit(Change::new(name, edit).at(field));
}
