//! A case of older rules: what the newer ones change, and taking them.

use crate::look::{aside, fault};
use crate::view::case::{Context, edit, heading};
use egui::Ui;
use traywright_core::case::Edit;
use traywright_core::plan::older_rules;

/// Key of the button.
const KEY: &str = "case.rules";

/// Shows what the rules change; nothing for a case of the newest.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let worksheet = document.worksheet();
    let Some(older) = older_rules(document.case(), worksheet) else {
        return;
    };
    heading(ui, &cx.word("rules-view"));
    let said = cx.formatter().older_rules(&older, worksheet);
    for (n, line) in said.iter().enumerate() {
        if n == 0 {
            fault(ui, line);
        } else {
            aside(ui, line);
        }
    }
    if ui.button(cx.word("rules-take")).clicked() {
        edit(cx, "rules-taken", Edit::TakeRules, KEY);
    }
    ui.add_space(12.0);
}
