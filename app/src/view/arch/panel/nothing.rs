//! Nothing is chosen: what can be done, and everything that there is as a table.

use super::choose::{look_at, things};
use super::{heading, title};
use crate::action::View;
use crate::action::{Action, Change, Command};
use crate::desk::Document;
use crate::look::remark;
use crate::view::arch::Context;
use egui::Ui;
use traywright_core::case::{Edit, GuideState, NeighbourKind, Tooth, ToothState};
use traywright_core::dentition::ToothPosition;

/// Shows what to do.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    title(ui, &cx.word("arch-what-to-do"));
    for id in ["arch-do-place", "arch-do-move", "arch-do-keys"] {
        ui.add(egui::Label::new(cx.word(id)).wrap());
    }
    if document.case().guide.state == GuideState::Made {
        remark(ui, cx.word("arch-guide-made"));
    }
    arch_ui(ui, cx, document);
    teeth_ui(ui, cx, document);
    heading(ui, &cx.word("arch-all"));
    for (thing, words) in things(document, cx) {
        if ui.link(words).clicked() {
            look_at(cx, Some(thing));
        }
    }
}

/// The arch's size, where it was not entered.
fn arch_ui(ui: &mut Ui, cx: &mut Context<'_>, document: &Document) {
    if document.case().arch.is_some() {
        return;
    }
    heading(ui, &cx.word("arch-no-size"));
    remark(ui, cx.word("arch-no-size-why"));
    if ui.button(cx.word("arch-enter-size")).clicked() {
        cx.act(Action::Do(Command::Show(View::Case)));
    }
}

/// The teeth that were not entered, all at once.
fn teeth_ui(ui: &mut Ui, cx: &mut Context<'_>, document: &Document) {
    let case = document.case();
    let open: Vec<ToothPosition> = ToothPosition::all_of(case.jaw)
        .filter(|position| case.teeth.iter().all(|tooth| tooth.position != *position))
        .collect();
    if open.is_empty() {
        return;
    }
    let count = &[("count", open.len())];
    heading(ui, &cx.counted("arch-teeth-open", count, &[]));
    ui.horizontal(|ui| {
        let natural = Some(NeighbourKind::Natural);
        for (state, kind, id) in [
            (ToothState::Present, natural, "arch-rest-present"),
            (ToothState::Missing, None, "arch-rest-missing"),
        ] {
            if ui.button(cx.word(id)).clicked() {
                let edits = open.iter().map(|position| {
                    Edit::SetTooth(Tooth {
                        position: *position,
                        state,
                        kind,
                    })
                });
                let name = cx.word(id);
                cx.edit(Change::of(name, edits.collect()));
            }
        }
    });
}
