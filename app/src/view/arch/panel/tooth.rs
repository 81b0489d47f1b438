//! A tooth position: its state, and what may be put there.

use super::super::{Pick, keys};
use super::choose::{titled, tooth_of};
use super::{heading, place, title};
use crate::action::{Action, Change, key_name};
use crate::field::{self, New};
use crate::look::remark;
use crate::view::arch::Context;
use crate::view::offer::{edit_with_kit, neighbour_kinds};
use egui::Ui;
use traywright_core::case::{CasePin, Edit, GuideState, Tooth, ToothState};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::Label;
use traywright_core::measure::Length;

/// Shows a tooth position.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, position: ToothPosition) {
    let (document, formatter) = (cx.document, cx.formatter());
    let now = tooth_of(document, position);
    title(ui, &titled(&formatter, position));
    remark(ui, formatter.tooth_state(now));
    let label = cx.word("arch-tooth-state");
    field::row(ui, &label, |ui, _| {
        ui.horizontal_wrapped(|ui| {
            for (key, state) in keys::TOOTH {
                let here = now.map(|tooth| tooth.state) == state;
                let id = match state {
                    Some(ToothState::Present) => "chart-tooth-present",
                    Some(ToothState::Missing) => "chart-tooth-missing",
                    Some(ToothState::ToExtract) => "chart-tooth-to-extract",
                    None => "chart-tooth-not-entered",
                };
                let button = ui.selectable_label(here, cx.word(id));
                let hint = cx.text("arch-key-hint", &[("key", key_name(key))]);
                if button.on_hover_text(hint).clicked() && !here {
                    set_state(cx, position, state);
                }
            }
        });
    });
    kind_ui(ui, cx, position, now);
    remark(ui, cx.word("arch-tooth-keys"));
    let site = document.case().sites.iter().find(|s| s.tooth == position);
    if let Some(site) = site {
        heading(ui, &cx.word("arch-site-here"));
        if ui.button(cx.word("arch-look-at-site")).clicked() {
            cx.act(Action::Choose(Some(site.id.clone())));
        }
    } else {
        place::ui(ui, cx, position);
    }
    pin_ui(ui, cx, position);
}

/// The kind of neighbour, asked for once the state of the position is known.
fn kind_ui(ui: &mut Ui, cx: &mut Context<'_>, position: ToothPosition, now: Option<Tooth>) {
    let formatter = cx.formatter();
    let kinds = neighbour_kinds(&formatter);
    let label = cx.word("arch-tooth-kind");
    let open = cx.word("arch-tooth-kind-open");
    let key = format!("arch.tooth.{position}.kind");
    let kind = now.and_then(|tooth| tooth.kind);
    let new = ui.add_enabled_ui(now.is_some(), |ui| {
        field::row(ui, &label, |ui, _| {
            let (drafts, value) = (&cx.state.drafts, kind.as_ref());
            field::choice(ui, drafts, &key, &label, &open, value, &kinds)
        })
    });
    if let Some((tooth, New(kind))) = now.zip(new.inner) {
        set(cx, Tooth { kind, ..tooth }, Some(key));
    }
}

fn set(cx: &mut Context<'_>, tooth: Tooth, field: Option<String>) {
    let name = undo_name(cx, tooth.position);
    cx.edit(Change {
        field,
        ..Change::new(name, Edit::SetTooth(tooth))
    });
}

fn undo_name(cx: &Context<'_>, position: ToothPosition) -> String {
    let tooth = cx.formatter().tooth(position);
    cx.text("arch-tooth-set", &[("tooth", &tooth)])
}

/// Sets the state of a position; nothing: it is unknown again. The kind of neighbour stays.
pub(in super::super) fn set_state(
    cx: &mut Context<'_>,
    position: ToothPosition,
    state: Option<ToothState>,
) {
    let now = tooth_of(cx.document, position);
    match state {
        Some(state) => {
            let kind = now.and_then(|tooth| tooth.kind);
            set(
                cx,
                Tooth {
                    position,
                    state,
                    kind,
                },
                None,
            );
        }
        None if now.is_some() => {
            let name = undo_name(cx, position);
            cx.edit(Change::new(name, Edit::ForgetTooth(position)));
        }
        None => {}
    }
}

/// Puts a fixation pin at the position.
fn pin_ui(ui: &mut Ui, cx: &mut Context<'_>, position: ToothPosition) {
    let document = cx.document;
    let kit = cx.offered_kit();
    if kit.pins.is_empty() {
        return;
    }
    heading(ui, &cx.word("arch-pin"));
    let case = document.case();
    let made = case.guide.state == GuideState::Made;
    ui.horizontal_wrapped(|ui| {
        for pin in &kit.pins {
            let text = cx.text("arch-put-pin", &[("pin", pin.name.as_str())]);
            let button = ui.add_enabled(!made, egui::Button::new(text));
            let why = cx.word("arch-guide-made");
            if !button.on_disabled_hover_text(why).clicked() {
                continue;
            }
            let name = free_name(&case.guide.pins);
            let mut guide = case.guide.clone();
            guide.pins.push(CasePin {
                name: name.clone(),
                pin: pin.id.clone(),
                at: position,
                along_mm: Length::ZERO,
                buccal_mm: Length::ZERO,
            });
            let told = cx.text("arch-pin-put", &[("name", name.as_str())]);
            let edits = vec![Edit::SetGuide(Box::new(guide))];
            edit_with_kit(cx, told, edits, None);
            cx.own.pick = Pick::Pin(name);
        }
    });
}

/// The lowest number that no pin is called by.
fn free_name(pins: &[CasePin]) -> Label {
    let mut number = 1;
    loop {
        let name = Label::from(format!("{number}").as_str());
        if pins.iter().all(|pin| pin.name != name) {
            return name;
        }
        number += 1;
    }
}
