//! The findings on the tray, each with its lead.

use super::aside;
use crate::action::{Action, Command};
use crate::canvas::mark_in;
use crate::look::{bold, size};
use crate::window::{View, ViewContext};
use egui::{FontId, Label, RichText, Ui, vec2};
use traywright_core::plan::{Finding, Severity};
use traywright_core::wording::begin;

/// Rules about the places of things.
const RULES: [&str; 3] = [
    "no-slot",
    "look-alikes-side-by-side",
    "tray-place-does-not-fit",
];

/// Shows them.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some((document, formatter)) = cx.open_case() else {
        return;
    };
    let findings = &document.worksheet().findings;
    let told: Vec<&Finding> = findings
        .iter()
        .filter(|f| RULES.contains(&f.rule))
        .collect();
    let font = FontId::new(size::HEADING, bold());
    ui.label(RichText::new(cx.word("tray-told")).font(font));
    let beside = told.iter().any(|f| f.rule == "look-alikes-side-by-side");
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
            cx.state.findings.look_at(finding.key());
            cx.act(Action::Do(Command::Show(View::Findings)));
        }
    }
}

fn one(ui: &mut Ui, severity: Severity, words: &str) {
    ui.horizontal_top(|ui| {
        mark_in(ui, vec2(18.0, 20.0), 15.0, severity);
        ui.add(Label::new(words).wrap());
    });
}
