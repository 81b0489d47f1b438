//! What the case is called, who does what, and the note.

use super::{edit, heading};
use crate::field::{self, New};
use crate::look::remark;
use crate::window::ViewContext;
use egui::{Id, Key, TextEdit, Ui};
use traywright_core::case::{Edit, Team};
use traywright_core::kit::Label;

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    reference_ui(ui, cx);
    team_ui(ui, cx);
    note_ui(ui, cx);
}

fn reference_ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    let case = document.case();
    heading(ui, &cx.word("case-about"));
    // What was signed names the case by its code.
    let signed = !document.record.events.in_order().is_empty();
    ui.add_enabled_ui(!signed, |ui| {
        if let Some(New(new)) = asked(
            ui,
            cx,
            "case.reference",
            "case-reference",
            Some(&case.reference),
        ) {
            if let Some(reference) = new {
                let new = Edit::SetReference(reference);
                edit(cx, "case-reference-set", new, "case.reference");
            } else {
                let needed = cx.word("field-empty");
                cx.state.drafts.refuse("case.reference", needed);
            }
        }
    });
    remark(
        ui,
        &cx.word(if signed {
            "case-reference-signed"
        } else {
            "case-reference-code"
        }),
    );
    let formatter = document.formatter(cx.desk.settings.notation());
    let label = cx.word("case-jaw");
    field::row(ui, &label, |ui, _| {
        ui.horizontal(|ui| ui.label(formatter.jaw()));
    });
    let (key, other) = ("case.other", case.other_jaw_case.as_ref());
    if let Some(New(new)) = asked(ui, cx, key, "case-other-jaw", other) {
        edit(cx, "case-other-jaw-set", Edit::SetOtherJawCase(new), key);
    }
    remark(ui, &cx.word("case-other-jaw-what"));
}

/// A field for a label. Gives the new one when one was taken.
fn asked(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    key: &str,
    label: &str,
    value: Option<&Label>,
) -> Option<New<Option<Label>>> {
    let label = cx.word(label);
    let drafts = &mut cx.state.drafts;
    field::row(ui, &label, |ui, named| {
        field::label(ui, drafts, key, named, value)
    })
}

/// The place of a person in a team.
type Place = fn(&mut Team) -> &mut Option<Label>;

fn team_ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    let team = &document.case().team;
    heading(ui, &cx.word("case-team"));
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
        if let Some(New(new)) = asked(ui, cx, key, label, value) {
            let mut team = team.clone();
            *place(&mut team) = new;
            edit(cx, "case-team-set", Edit::SetTeam(team), key);
        }
    }
}

fn note_ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    const KEY: &str = "case.note";
    let Some(document) = cx.document() else {
        return;
    };
    let note = document.case().note.as_deref().unwrap_or_default();
    heading(ui, &cx.word("case-note"));
    let drafts = &mut cx.state.drafts;
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
            edit(cx, "case-note-set", Edit::SetNote(new), KEY);
        }
    }
    field::fault_ui(ui, &cx.state.drafts, KEY);
    response.accessible_name(cx.word("case-note"));
    remark(ui, &cx.word("case-note-what"));
}
