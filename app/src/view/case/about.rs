//! The case's name, its people and the note.

use super::{CasePart, edit, heading};
use crate::field::{self, Named};
use crate::look::{remark, reserved};
use crate::view::case::Context;
use crate::view::form::{Form, entry};
use egui::{Key, TextEdit, Ui};
use traywright_core::case::Edit;

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    reference_ui(ui, cx);
    team_ui(ui, cx);
    note_ui(ui, cx);
}

fn reference_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let case = document.case();
    heading(ui, &cx.word("case-about"));
    // What was signed names the case by its code.
    let signed = !document.record.events.in_order().is_empty();
    let reference = CasePart {
        value: &case.reference,
        edit: Edit::SetReference,
    };
    let mut form = Form {
        ui,
        cx,
        on: &reference,
    };
    form.enabled(!signed, |form| {
        let now = &case.reference;
        if let Some(new) = form.needed_label("case-reference", "reference", now) {
            form.change("case-reference-set", "reference", |now| *now = new);
        }
    });
    remark(
        ui,
        cx.word(if signed {
            "case-reference-signed"
        } else {
            "case-reference-code"
        }),
    );
    let label = cx.word("case-jaw");
    field::row(ui, &label, |ui, _| {
        ui.horizontal(|ui| ui.label(formatter.jaw()));
    });
    let practice = CasePart {
        value: &case.demonstration,
        edit: Edit::SetDemonstration,
    };
    let purposes = [
        (false, cx.word("case-for-surgery")),
        (true, cx.word("case-for-practice")),
    ];
    let asked = entry("case-purpose", "purpose", "case-purpose-set");
    let now = &case.demonstration;
    let mut form = Form {
        ui,
        cx,
        on: &practice,
    };
    form.pick(asked, now, &purposes, |practice, new| *practice = new);
    reserved(ui, 2, |ui| {
        if case.demonstration {
            remark(ui, cx.word("case-purpose-what"));
        }
    });
    let other = CasePart {
        value: &case.other_jaw_case,
        edit: Edit::SetOtherJawCase,
    };
    let asked = entry("case-other-jaw", "other", "case-other-jaw-set");
    let now = case.other_jaw_case.as_ref();
    Form { ui, cx, on: &other }.label(asked, now, |other, new| *other = new);
    remark(ui, cx.word("case-other-jaw-what"));
}

fn team_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    const SET: &str = "case-team-set";
    let document = cx.document;
    let team = &document.case().team;
    heading(ui, &cx.word("case-team"));
    let part = CasePart {
        value: team,
        edit: Edit::SetTeam,
    };
    let mut form = Form { ui, cx, on: &part };
    let asked = entry("case-surgeon", "surgeon", SET);
    form.label(asked, team.surgeon.as_ref(), |team, new| team.surgeon = new);
    let asked = entry("case-nurse", "nurse", SET);
    form.label(asked, team.nurse.as_ref(), |team, new| team.nurse = new);
    let asked = entry("case-second", "second", SET);
    form.label(asked, team.second_checker.as_ref(), |team, new| {
        team.second_checker = new;
    });
}

fn note_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    const KEY: &str = "case.note";
    let document = cx.document;
    let note = document.case().note.as_deref().unwrap_or_default();
    heading(ui, &cx.word("case-note"));
    let drafts = &cx.state.drafts;
    let mut text = drafts.draft(KEY).unwrap_or(note).to_owned();
    let field = TextEdit::multiline(&mut text)
        .id(field::field_id(KEY))
        .desired_rows(3)
        .desired_width(f32::INFINITY);
    let response = ui.add(field);
    if response.changed() {
        let named = Named {
            id: response.id,
            text: cx.word("case-note"),
        };
        cx.state.drafts.keep_value(KEY, &named, text.clone());
    }
    if response.lost_focus() {
        if ui.input(|input| input.key_pressed(Key::Escape)) || text == note {
            cx.state.drafts.settle(KEY);
        } else {
            let text = text.trim().to_owned();
            let new = (!text.is_empty()).then_some(text);
            edit(cx, "case-note-set", Edit::SetNote(new), KEY);
        }
    }
    field::fault_ui(ui, &cx.state.drafts, KEY);
    response.accessible_name(cx.word("case-note"));
    remark(ui, cx.word("case-note-what"));
}
