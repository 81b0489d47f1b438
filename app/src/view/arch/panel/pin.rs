//! A fixation pin: its name, kind and place.

use super::super::Pick;
use super::super::hand::may_change;
use super::super::signed::{self, Asked};
use super::title;
use crate::action::Change;
use crate::field::{self, InCase, New};
use crate::look::remark;
use crate::view::offer::{edit_with_kit, offered};
use crate::window::ViewContext;
use egui::{Button, Ui};
use traywright_core::case::{CasePin, Edit, GuideState};
use traywright_core::dentition::ToothPosition;

/// Shows a pin.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, pin: &CasePin) {
    let Some(document) = cx.document() else {
        return;
    };
    let formatter = document.formatter(cx.desk.settings.notation());
    title(
        ui,
        &cx.text("arch-pin-title", &[("name", pin.name.as_str())]),
    );
    remark(ui, &formatter.pin_place(pin));
    remark(ui, &cx.word("arch-pins-not-assessed"));
    let made = document.case().guide.state == GuideState::Made;
    if made {
        remark(ui, &cx.word("arch-guide-made"));
    }
    ui.add_enabled_ui(!made, |ui| fields(ui, cx, pin));
    ui.add_space(8.0);
    let button = ui.add_enabled(!made, Button::new(cx.word("arch-pin-remove")));
    if button.on_hover_text("Del").clicked() {
        remove(cx, pin);
    }
}

fn fields(ui: &mut Ui, cx: &mut ViewContext<'_>, pin: &CasePin) {
    let Some(document) = cx.document() else {
        return;
    };
    let formatter = document.formatter(cx.desk.settings.notation());
    let label = cx.word("arch-pin-name");
    let drafts = &mut cx.state.drafts;
    let new = field::row(ui, &label, |ui, named| {
        field::label(ui, drafts, "arch.pin.name", named, Some(&pin.name))
    });
    if let Some(New(name)) = new {
        if let Some(name) = name {
            let renamed = CasePin {
                name: name.clone(),
                ..pin.clone()
            };
            change(cx, pin, renamed, "arch.pin.name");
            let taken = &document.case().guide.pins;
            if taken.iter().all(|other| other.name != name) {
                cx.state.arch.pick = Pick::Pin(name);
            }
        } else {
            let needed = cx.word("field-empty");
            cx.state.drafts.refuse("arch.pin.name", needed);
        }
    }
    let kinds = offered(cx, |kit| &kit.pins, |entry| entry.id.as_str());
    let kinds: Vec<_> = kinds
        .into_iter()
        .map(|entry| (entry.id.clone(), entry.name.to_string()))
        .collect();
    let label = cx.word("arch-pin-kind");
    let new = field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice_known(ui, drafts, "arch.pin.kind", &label, &pin.pin, &kinds)
    });
    if let Some(kind) = new {
        let other = CasePin {
            pin: kind,
            ..pin.clone()
        };
        change(cx, pin, other, "arch.pin.kind");
    }
    let positions: Vec<_> = ToothPosition::all_of(document.case().jaw)
        .map(|position| (position, formatter.tooth(position)))
        .collect();
    let label = cx.word("arch-pin-at");
    let new = field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice_known(ui, drafts, "arch.pin.at", &label, &pin.at, &positions)
    });
    if let Some(at) = new {
        change(cx, pin, CasePin { at, ..pin.clone() }, "arch.pin.at");
    }
    let (along, across) = (formatter.ways_along(), formatter.ways_across());
    let no_side = cx.word("arch-no-side");
    let arch = &mut cx.state.arch;
    let drafts = &mut cx.state.drafts;
    let label = cx.desk.word("arch-along");
    let asked = Asked {
        key: "arch.pin.along",
        label: &label,
        value: pin.along_mm,
        place: InCase("guide.pins[].along_mm"),
        sides: &along,
        no_side: &no_side,
    };
    let new_along = signed::field(ui, drafts, &mut arch.sides, &asked);
    let label = cx.desk.word("arch-across");
    let asked = Asked {
        key: "arch.pin.buccal",
        label: &label,
        value: pin.buccal_mm,
        place: InCase("guide.pins[].buccal_mm"),
        sides: &across,
        no_side: &no_side,
    };
    let new_across = signed::field(ui, drafts, &mut arch.sides, &asked);
    if let Some(along_mm) = new_along {
        let moved = CasePin {
            along_mm,
            ..pin.clone()
        };
        change(cx, pin, moved, "arch.pin.along");
    }
    if let Some(buccal_mm) = new_across {
        let moved = CasePin {
            buccal_mm,
            ..pin.clone()
        };
        change(cx, pin, moved, "arch.pin.buccal");
    }
}

fn change(cx: &mut ViewContext<'_>, pin: &CasePin, new: CasePin, field: &str) {
    let Some(document) = cx.document() else {
        return;
    };
    let mut guide = document.case().guide.clone();
    let Some(old) = guide.pins.iter_mut().find(|old| old.name == pin.name) else {
        return;
    };
    *old = new;
    let name = cx.text("arch-pin-changed", &[("name", pin.name.as_str())]);
    let edits = vec![Edit::SetGuide(Box::new(guide))];
    edit_with_kit(cx, name, edits, Some(field.to_owned()));
}

/// Takes a pin away.
pub(in super::super) fn remove(cx: &mut ViewContext<'_>, pin: &CasePin) {
    let Some(document) = cx.document() else {
        return;
    };
    if !may_change(cx) {
        return;
    }
    let mut guide = document.case().guide.clone();
    guide.pins.retain(|other| other.name != pin.name);
    let name = cx.text("arch-pin-removed", &[("name", pin.name.as_str())]);
    cx.edit(Change::new(name, Edit::SetGuide(Box::new(guide))));
    cx.state.arch.pick = Pick::Nothing;
}
