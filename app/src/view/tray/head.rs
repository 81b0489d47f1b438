//! The head above the drawing: the tray's name, the commands, and the thing in hand.

use super::{aside, carried};
use crate::action::View;
use crate::action::{Action, Change, Command};
use crate::look::{Font, Theme};
use crate::view::tray::Context;
use egui::{Label, RichText, Ui, vec2};
use traywright_core::case::Edit;
use traywright_core::drawing::Ink;
use traywright_core::plan::LoadItem;

/// Least height of the line that says what is in hand, so that nothing jumps below it, points.
const LINE: f32 = 38.0;

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let case = document.case();
    let tray = case.setup.tray.as_ref().and_then(|id| case.kit.tray(id));
    let Some(tray) = tray else {
        ui.heading(cx.word("tray-title"));
        ui.label(cx.word("tray-none"));
        lead(ui, cx, "tray-none-lead", View::Case);
        return;
    };
    ui.horizontal_wrapped(|ui| {
        let title = cx.text("tray-title-of", &[("tray", tray.name.as_str())]);
        ui.heading(title);
        ui.add_space(12.0);
        by_program(ui, cx);
        lead(ui, cx, "tray-other-tray", View::Case);
    });
    if case.sites.is_empty() {
        ui.horizontal_wrapped(|ui| {
            ui.label(cx.word("tray-no-sites"));
            lead(ui, cx, "tray-no-sites-lead", View::Arch);
        });
    }
    standing(ui, cx);
    in_hand(ui, cx);
}

fn lead(ui: &mut Ui, cx: &mut Context<'_>, text: &str, view: View) {
    if ui.button(cx.word(text)).clicked() {
        cx.act(Action::Do(Command::Show(view)));
    }
}

/// Takes back all places that were chosen by hand.
fn by_program(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let any = !document.case().tray_places.is_empty();
    let button = egui::Button::new(cx.word("tray-by-program"));
    let response = ui.add_enabled(any, button);
    let response = response.on_disabled_hover_text(cx.word("tray-by-program-none"));
    if response.clicked() {
        let name = cx.word("tray-by-program-step");
        cx.edit(Change::new(name, Edit::SetTrayPlaces(Vec::new())));
    }
}

/// The parts of the record that a change here affects.
fn standing(ui: &mut Ui, cx: &Context<'_>) {
    let document = cx.document;
    let standing = &document.record.standing;
    let mut approvals = standing.approvals.iter();
    if approvals.any(|approval| approval.is_valid() || approval.is_practised()) {
        ui.label(cx.word("tray-approved"));
    }
    let begun =
        !standing.thing_slots.is_empty() || standing.items.iter().any(|i| i.placed.is_some());
    if begun {
        ui.label(cx.word("tray-begun"));
    }
}

/// The thing in hand and the effect of putting it down; else how to take something in hand.
fn in_hand(ui: &mut Ui, cx: &Context<'_>) {
    let document = cx.document;
    let from = ui.cursor().top();
    if let Some(carried) = &cx.own.carried {
        let text = RichText::new(carried::words(cx, document, carried));
        let font = Font::StrongBody.id();
        let accent = Theme::of(ui).fill(Ink::Accent);
        ui.add(Label::new(text.font(font).color(accent)).wrap());
    } else {
        aside(ui, cx.word("tray-hint"));
        let loading = &document.worksheet().loading;
        if loading.iter().any(LoadItem::is_by_hand) {
            aside(ui, cx.word("tray-by-hand-mark"));
        }
    }
    let used = ui.cursor().top() - from;
    ui.allocate_space(vec2(1.0, (LINE - used).max(0.0)));
}
