//! The guide: what it rests on, whether it is made, and the scan that it was planned on.

use super::{CasePart, heading, receipt};
use crate::action::Action;
use crate::look::{remark, reserved};
use crate::view::case::Context;
use crate::view::form::{Form, FormSubject, entry};
use egui::Ui;
use traywright_core::case::{Access, Edit, Guide, GuideState, Support};

/// The id of a change of the guide.
pub(super) const SET: &str = "case-guide-set";

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let guide = &document.case().guide;
    heading(ui, &cx.word("case-guide"));
    let supports = [
        Support::Teeth,
        Support::TeethAndMucosa,
        Support::Mucosa,
        Support::Bone,
    ]
    .map(|support| (support, formatter.support(support)));
    let accesses = [Access::Flap, Access::Punch].map(|access| (access, formatter.access(access)));
    let states = [
        (GuideState::Planned, cx.word("case-guide-planned")),
        (GuideState::Made, cx.word("case-guide-made")),
    ];
    let part = CasePart {
        value: guide,
        edit: |guide| Edit::SetGuide(Box::new(guide)),
    };
    let form = &mut Form { ui, cx, on: &part };
    let asked = entry("case-support", "support", SET);
    form.pick(asked, &guide.support, &supports, |guide, new| {
        guide.support = new;
    });
    let asked = entry("case-access", "access", SET);
    form.pick(asked, &guide.access, &accesses, |guide, new| {
        guide.access = new;
    });
    let asked = entry("case-state", "state", SET);
    let mut is_to_be_made_anew = false;
    form.pick(asked, &guide.state, &states, |guide, new| {
        is_to_be_made_anew = guide.state == GuideState::Made && new == GuideState::Planned;
        guide.state = new;
    });
    if is_to_be_made_anew && !guide.receipt.is_empty() {
        let told = form.word("case-guide-receipts-gone");
        form.cx.act(Action::Tell(told));
    }
    // One that was made is there still.
    let is_there = guide.is_there_still();
    let means = form.word(match guide.state {
        GuideState::Planned if is_there => "case-guide-there-means",
        GuideState::Planned => "case-guide-planned-means",
        GuideState::Made => "case-guide-made-means",
    });
    reserved(form.ui, 3, |ui| remark(ui, means));
    let mut is_another = false;
    form.enabled(is_there, |form| {
        let button = form.ui.button(form.word("case-guide-another"));
        is_another = button.clicked();
    });
    if is_another {
        form.change(SET, "another", Guide::another_is_made);
    }
    scan_ui(form);
    let asked = entry("case-guide-code", "code", SET);
    form.label(asked, guide.code.as_ref(), |guide, new| guide.code = new);
    receipt::ui(ui, cx);
}

/// The date of the scan, as `2026-10-02`.
fn scan_ui(form: &mut Form<'_, '_, CasePart<'_, Guide>>) {
    let shown = form.on.value.scan_date.map(|date| date.to_string());
    let shown = shown.unwrap_or_default();
    let Some(text) = form.text("case-scan-date", "scan", &shown) else {
        return;
    };
    let text = text.trim();
    let date = (!text.is_empty()).then(|| text.parse());
    if let Ok(scan_date) = date.transpose() {
        form.change(SET, "scan", |guide| guide.scan_date = scan_date);
    } else {
        let told = form.word("case-no-date");
        form.cx.state.drafts.refuse(&form.on.key("scan"), told);
    }
}
