//! A fixation pin: its name, kind and place.

use super::super::Pick;
use super::super::pointer::may_change;
use super::super::sided;
use super::title;
use crate::action::{Change, REMOVE, key_name};
use crate::field::InCase;
use crate::look::remark;
use crate::view::arch::Context;
use crate::view::form::{Form, FormSubject, entry};
use crate::view::offer::{choices, edit_with_kit};
use egui::{Button, Ui};
use traywright_core::case::{CasePin, Edit, GuideState};
use traywright_core::dentition::ToothPosition;

/// The id of a change of a pin.
const CHANGED: &str = "arch-pin-changed";

/// Shows a pin.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, pin: &CasePin) {
    let (document, formatter) = (cx.document, cx.formatter());
    title(
        ui,
        &cx.text("arch-pin-title", &[("name", pin.name.as_str())]),
    );
    remark(ui, formatter.pin_place(pin));
    remark(ui, cx.word("arch-pins-not-assessed"));
    let made = document.case().guide.state == GuideState::Made;
    if made {
        remark(ui, cx.word("arch-guide-made"));
    }
    ui.add_enabled_ui(!made, |ui| fields(ui, cx, pin));
    ui.add_space(8.0);
    let button = ui.add_enabled(!made, Button::new(cx.word("arch-pin-remove")));
    if button.on_hover_text(key_name(REMOVE)).clicked() {
        remove(cx, pin);
    }
}

fn fields(ui: &mut Ui, cx: &mut Context<'_>, pin: &CasePin) {
    let (document, formatter) = (cx.document, cx.formatter());
    let form = &mut Form { ui, cx, on: pin };
    if let Some(name) = form.needed_label("arch-pin-name", "name", &pin.name) {
        form.change(CHANGED, "name", |pin| pin.name = name.clone());
        let taken = &document.case().guide.pins;
        if taken.iter().all(|other| other.name != name) {
            form.cx.own.pick = Pick::Pin(name);
        }
    }
    let kinds = choices(form.cx, |kit| &kit.pins, |entry| (&entry.id, &entry.name));
    let asked = entry("arch-pin-kind", "kind", CHANGED);
    form.pick(asked, &pin.pin, &kinds, |pin, new| pin.pin = new);
    let positions: Vec<_> = ToothPosition::all_of(document.case().jaw)
        .map(|position| (position, formatter.tooth(position)))
        .collect();
    let asked = entry("arch-pin-at", "at", CHANGED);
    form.pick(asked, &pin.at, &positions, |pin, new| pin.at = new);
    let (along, across) = (formatter.ways_along(), formatter.ways_across());
    let asked = entry("arch-along", "along", CHANGED);
    let value = (pin.along_mm, InCase("guide.pins[].along_mm"));
    sided::row(form, asked, value, &along, |pin, new| pin.along_mm = new);
    let asked = entry("arch-across", "buccal", CHANGED);
    let value = (pin.buccal_mm, InCase("guide.pins[].buccal_mm"));
    sided::row(form, asked, value, &across, |pin, new| pin.buccal_mm = new);
}

impl FormSubject for CasePin {
    type Value = Self;
    type State = crate::view::arch::State;

    fn value(&self) -> &Self {
        self
    }

    fn key(&self, field: &str) -> String {
        format!("arch.pin.{}.{field}", self.name)
    }

    fn one_of_several(&self) -> Option<&str> {
        Some(self.name.as_str())
    }

    fn change(
        &self,
        cx: &mut Context<'_>,
        what: &str,
        field: &str,
        change: impl FnOnce(&mut Self),
    ) {
        let document = cx.document;
        let mut guide = document.case().guide.clone();
        let Some(pin) = guide.pins.iter_mut().find(|pin| pin.name == self.name) else {
            return;
        };
        change(pin);
        let name = cx.text(what, &[("name", self.name.as_str())]);
        let edits = vec![Edit::SetGuide(Box::new(guide))];
        edit_with_kit(cx, name, edits, Some(self.key(field)));
    }
}

/// Takes a pin away.
pub(in super::super) fn remove(cx: &mut Context<'_>, pin: &CasePin) {
    let document = cx.document;
    if !may_change(cx) {
        return;
    }
    let mut guide = document.case().guide.clone();
    guide.pins.retain(|other| other.name != pin.name);
    let name = cx.text("arch-pin-removed", &[("name", pin.name.as_str())]);
    cx.edit(Change::new(name, Edit::SetGuide(Box::new(guide))));
    cx.own.pick = Pick::Nothing;
}
