//! The findings on the tray, each with its lead.

use super::aside;
use crate::action::Action;
use crate::canvas::mark_in;
use crate::look::heading;
use crate::view::tray::Context;
use egui::{Label, Ui, vec2};
use traywright_core::plan::{Finding, Rule, Severity};
use traywright_core::wording::begin;

/// Rules about the places of things.
const RULES: [Rule; 3] = [
    Rule::NoSlot,
    Rule::LookAlikesSideBySide,
    Rule::TrayPlaceDoesNotFit,
];

/// Shows them.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let findings = &document.worksheet().findings;
    let told: Vec<&Finding> = findings
        .iter()
        .filter(|f| RULES.contains(&f.rule))
        .collect();
    heading(ui, cx.word("tray-told"));
    let beside = told.iter().any(|f| f.rule == Rule::LookAlikesSideBySide);
    if !beside {
        one(ui, Severity::Clear, &cx.word("tray-none-beside"));
    }
    for finding in told {
        let said = formatter.finding(finding);
        let words = cx.text(
            "tray-told-one",
            &[("word", &begin(&said.word)), ("what", &said.headline)],
        );
        one(ui, finding.severity(), &words);
        if let Some(remedy) = &said.remedy {
            aside(ui, remedy);
        }
        let lead = ui.push_id(finding.key(), |ui| ui.button(cx.word("tray-told-lead")));
        if lead.inner.clicked() {
            cx.act(Action::LookAtFinding(finding.key()));
        }
    }
}

fn one(ui: &mut Ui, severity: Severity, words: &str) {
    ui.horizontal_top(|ui| {
        mark_in(ui, vec2(18.0, 20.0), 15.0, severity);
        ui.add(Label::new(words).wrap());
    });
}
