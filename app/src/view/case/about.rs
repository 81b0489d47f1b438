//! What the case is called, who does what, and the note.

use super::{edit, heading, remark};
use crate::field::{self, New};
use crate::window::Stage;
use egui::{Id, Key, TextEdit, Ui};
use traywright_core::case::{Edit, Team};
use traywright_core::kit::Label;

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    reference_ui(ui, stage);
    team_ui(ui, stage);
    note_ui(ui, stage);
}

fn reference_ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let case = document.case();
    heading(ui, &stage.word("case-about"));
    // What was signed names the case by its code.
    let signed = !document.record.events.in_order().is_empty();
    ui.add_enabled_ui(!signed, |ui| {
        if let Some(New(new)) = asked(
            ui,
            stage,
            "case.reference",
            "case-reference",
            Some(&case.reference),
        ) {
            if let Some(reference) = new {
                let new = Edit::SetReference(reference);
                edit(stage, "case-reference-set", new, "case.reference");
            } else {
                let needed = stage.word("field-empty");
                stage.sight.drafts.refuse("case.reference", needed);
            }
        }
    });
    remark(
        ui,
        &stage.word(if signed {
            "case-reference-signed"
        } else {
            "case-reference-code"
        }),
    );
    let speaker = document.speaker(stage.desk.settings.notation());
    let label = stage.word("case-jaw");
    field::row(ui, &label, |ui, _| {
        ui.horizontal(|ui| ui.label(speaker.jaw()));
    });
    let (key, other) = ("case.other", case.other_jaw_case.as_ref());
    if let Some(New(new)) = asked(ui, stage, key, "case-other-jaw", other) {
        edit(stage, "case-other-jaw-set", Edit::SetOtherJawCase(new), key);
    }
    remark(ui, &stage.word("case-other-jaw-what"));
}

/// A field for a label. Gives the new one when one was taken.
fn asked(
    ui: &mut Ui,
    stage: &mut Stage<'_>,
    key: &str,
    label: &str,
    value: Option<&Label>,
) -> Option<New<Option<Label>>> {
    let label = stage.word(label);
    let drafts = &mut stage.sight.drafts;
    field::row(ui, &label, |ui, named| {
        field::label(ui, drafts, key, named, value)
    })
}

/// The place of a person in a team.
type Place = fn(&mut Team) -> &mut Option<Label>;

fn team_ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let team = &document.case().team;
    heading(ui, &stage.word("case-team"));
    let places: [(&str, &str, Option<&Label>, Place); 3] = [
        ("case.surgeon", "case-surgeon", team.surgeon.as_ref(), |t| {
            &mut t.surgeon
        }),
        ("case.nurse", "case-nurse", team.nurse.as_ref(), |t| {
            &mut t.nurse
        }),
        (
            "case.second",
            "case-second",
            team.second_checker.as_ref(),
            |t| &mut t.second_checker,
        ),
    ];
    for (key, label, value, place) in places {
        if let Some(New(new)) = asked(ui, stage, key, label, value) {
            let mut team = team.clone();
            *place(&mut team) = new;
            edit(stage, "case-team-set", Edit::SetTeam(team), key);
        }
    }
}

fn note_ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    const KEY: &str = "case.note";
    let Some(document) = stage.document() else {
        return;
    };
    let note = document.case().note.as_deref().unwrap_or_default();
    heading(ui, &stage.word("case-note"));
    let drafts = &mut stage.sight.drafts;
    let mut text = drafts.draft(KEY).unwrap_or(note).to_owned();
    let field = TextEdit::multiline(&mut text)
        .id(Id::unique(("field", KEY)))
        .desired_rows(3)
        .desired_width(f32::INFINITY);
    let response = ui.add(field);
    if response.changed() {
        drafts.keep(KEY, text.clone());
    }
    if response.lost_focus() {
        if ui.input(|input| input.key_pressed(Key::Escape)) || text == note {
            drafts.settle(KEY);
        } else {
            let text = text.trim().to_owned();
            let new = (!text.is_empty()).then_some(text);
            edit(stage, "case-note-set", Edit::SetNote(new), KEY);
        }
    }
    field::fault_ui(ui, &stage.sight.drafts, KEY);
    response.accessible_name(stage.word("case-note"));
    remark(ui, &stage.word("case-note-what"));
}
