//! A tooth position: what stands there, and what may be put there.

use super::super::Pick;
use super::choose::{titled, tooth_of};
use super::{heading, place, remark, title};
use crate::action::{Action, Change};
use crate::field::{self, New};
use crate::view::offer::{edit_with_kit, offered};
use crate::window::Stage;
use egui::Ui;
use traywright_core::case::{CasePin, Edit, GuideState, NeighbourKind, Tooth, ToothState};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::Label;
use traywright_core::measure::Length;

/// Shows a tooth position.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>, position: ToothPosition) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let now = tooth_of(document, position);
    title(ui, &titled(&speaker, position));
    remark(ui, &speaker.tooth_state(now));
    let label = stage.word("arch-tooth-state");
    field::row(ui, &label, |ui, _| {
        ui.horizontal_wrapped(|ui| {
            for (state, id, key) in [
                (Some(ToothState::Present), "chart-tooth-present", "P"),
                (Some(ToothState::Missing), "chart-tooth-missing", "M"),
                (Some(ToothState::ToExtract), "chart-tooth-to-extract", "X"),
                (None, "chart-tooth-not-entered", "Del"),
            ] {
                let here = now.map(|tooth| tooth.state) == state;
                let button = ui.selectable_label(here, stage.word(id));
                let hint = stage.text("arch-key-hint", &[("key", key)]);
                if button.on_hover_text(hint).clicked() && !here {
                    set_state(stage, position, state);
                }
            }
        });
    });
    if let Some(tooth) = now {
        kind_ui(ui, stage, tooth);
    }
    remark(ui, &stage.word("arch-tooth-keys"));
    let site = document.case().sites.iter().find(|s| s.tooth == position);
    if let Some(site) = site {
        heading(ui, &stage.word("arch-site-here"));
        if ui.button(stage.word("arch-look-at-site")).clicked() {
            stage.act(Action::Choose(Some(site.id.clone())));
        }
    } else {
        place::ui(ui, stage, position);
    }
    pin_ui(ui, stage, position);
}

fn kind_ui(ui: &mut Ui, stage: &mut Stage<'_>, tooth: Tooth) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let kinds = [
        NeighbourKind::Natural,
        NeighbourKind::RootFilled,
        NeighbourKind::Implant,
        NeighbourKind::Pontic,
        NeighbourKind::Impacted,
        NeighbourKind::Remnant,
    ]
    .map(|kind| (kind, speaker.neighbour_kind(kind)));
    let label = stage.word("arch-tooth-kind");
    let open = stage.word("arch-tooth-kind-open");
    let key = format!("arch.tooth.{}.kind", tooth.position);
    let new = field::row(ui, &label, |ui, _| {
        let (drafts, value) = (&stage.sight.drafts, tooth.kind.as_ref());
        field::choice(ui, drafts, &key, &label, &open, value, &kinds)
    });
    if let Some(New(kind)) = new {
        set(stage, Tooth { kind, ..tooth }, Some(key));
    }
}

fn set(stage: &mut Stage<'_>, tooth: Tooth, field: Option<String>) {
    let name = undo_name(stage, tooth.position);
    let mut change = Change::new(name, Edit::SetTooth(tooth));
    change.field = field;
    stage.edit(change);
}

fn undo_name(stage: &Stage<'_>, position: ToothPosition) -> String {
    let notation = stage.desk.settings.notation();
    let tooth = stage
        .document()
        .map(|d| d.speaker(notation).tooth(position));
    stage.text("arch-tooth-set", &[("tooth", &tooth.unwrap_or_default())])
}

/// Says what stands at a position; nothing: it is unknown again. The kind of neighbour stays.
pub(in super::super) fn set_state(
    stage: &mut Stage<'_>,
    position: ToothPosition,
    state: Option<ToothState>,
) {
    let now = stage.document().and_then(|d| tooth_of(d, position));
    match state {
        Some(state) => {
            let kind = now.and_then(|tooth| tooth.kind);
            set(
                stage,
                Tooth {
                    position,
                    state,
                    kind,
                },
                None,
            );
        }
        None if now.is_some() => {
            let name = undo_name(stage, position);
            stage.edit(Change::new(name, Edit::ForgetTooth(position)));
        }
        None => {}
    }
}

/// Puts a fixation pin at the position.
fn pin_ui(ui: &mut Ui, stage: &mut Stage<'_>, position: ToothPosition) {
    let Some(document) = stage.document() else {
        return;
    };
    let pins = offered(stage, |kit| &kit.pins, |pin| pin.id.as_str());
    if pins.is_empty() {
        return;
    }
    heading(ui, &stage.word("arch-pin"));
    let case = document.case();
    let made = case.guide.state == GuideState::Made;
    ui.horizontal_wrapped(|ui| {
        for pin in pins {
            let text = stage.text("arch-put-pin", &[("pin", pin.name.as_str())]);
            let button = ui.add_enabled(!made, egui::Button::new(text));
            let why = stage.word("arch-guide-made");
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
            let told = stage.text("arch-pin-put", &[("name", name.as_str())]);
            let edits = vec![Edit::SetGuide(Box::new(guide))];
            edit_with_kit(stage, told, edits, None);
            stage.sight.arch.pick = Pick::Pin(name);
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
