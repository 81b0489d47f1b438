//! The surgeon's word on a finding: accepted or intended with a reason, or taken back.

use super::Focus;
use super::cached::Row;
use crate::action::Change;
use crate::context::BY;
use crate::field::{fault_ui, kept_text};
use crate::look::{aside, part_heading};
use crate::view::findings::Context;
use egui::{Id, Key, KeyboardShortcut, Modifiers, TextEdit, Ui};
use traywright_core::case::{Decision, DecisionKind, Edit, is_name};
use traywright_core::kit::Label;
use traywright_core::plan::{Finding, Verdict, may_be_accepted, may_be_intended};

/// Shows the decision that holds, the one that lapsed, and the form for a new one.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, finding: &Finding, row: &Row) {
    if let Some(lapsed) = &row.said.lapsed {
        part_heading(ui, cx.word("findings-lapsed"));
        aside(ui, traywright_core::wording::begin(lapsed));
        take_back(ui, cx, row, "findings-drop-lapsed");
    }
    if let Some(decision) = &row.said.decision {
        part_heading(ui, cx.word("findings-word"));
        ui.add(egui::Label::new(traywright_core::wording::begin(decision)).wrap());
        take_back(ui, cx, row, "findings-take-back");
        return;
    }
    if !matches!(
        finding.verdict,
        Verdict::Short | Verdict::Unknown | Verdict::Tight
    ) {
        return;
    }
    if !may_be_accepted(finding) {
        aside(ui, cx.word("findings-not-acceptable"));
        return;
    }
    form(ui, cx, finding, row);
}

fn take_back(ui: &mut Ui, cx: &mut Context<'_>, row: &Row, id: &str) {
    if ui.button(cx.word(id)).clicked() {
        let name = cx.text("findings-undo-take-back", &[("what", &row.line)]);
        cx.edit(Change::new(name, Edit::Unjudge(row.key.clone())));
    }
}

fn form(ui: &mut Ui, cx: &mut Context<'_>, finding: &Finding, row: &Row) {
    part_heading(ui, cx.word("findings-accept-heading"));
    aside(ui, cx.word("findings-accept-what"));
    let reason_key = format!("findings.reason {}", row.key);
    let named = ui.label(cx.word("findings-reason")).id;
    let mut reason = cx.state.drafts.draft(&reason_key).unwrap_or("").to_owned();
    let enter = KeyboardShortcut::new(Modifiers::SHIFT, Key::Enter);
    let edit = TextEdit::multiline(&mut reason)
        .id(Id::unique(("field", &reason_key)))
        .desired_width(f32::INFINITY)
        .desired_rows(2)
        .return_key(enter);
    let response = ui.add(edit).labelled_by(named);
    if cx.own.focus == Some(Focus::Reason) {
        cx.own.focus = None;
        response.request_focus();
        response.scroll_to_me(None);
        ui.ctx().request_repaint();
    }
    if response.changed() {
        cx.state.drafts.keep(&reason_key, reason.clone());
    }
    fault_ui(ui, &cx.state.drafts, &reason_key);
    let entered = response.has_focus()
        && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));

    let (label, first) = (cx.word("findings-by"), cx.whose_word());
    let first = first.as_ref().map_or("", Label::as_str);
    let by = kept_text(ui, &mut cx.state.drafts, BY, label, first, 220.0);
    let filled = Decision::is_reason(&reason) && is_name(&by);
    let why = cx.word("findings-fill");
    let mut judged = (entered && filled).then_some(DecisionKind::Accepted);
    ui.horizontal_wrapped(|ui| {
        let mut offer = |ui: &mut Ui, id: &str, word: DecisionKind| {
            let button = egui::Button::new(cx.word(id));
            let response = ui.add_enabled(filled, button).on_disabled_hover_text(&why);
            if response.clicked() {
                judged = Some(word);
            }
        };
        offer(ui, "findings-accept", DecisionKind::Accepted);
        if may_be_intended(finding) {
            offer(ui, "findings-intend", DecisionKind::Intended);
        }
    });
    if !filled {
        aside(ui, why);
    }
    let made = judged.and_then(|judged| {
        let word = decision(finding, judged, &reason, &by)?;
        Some((judged, word))
    });
    if let Some((judged, decision)) = made {
        let id = match judged {
            DecisionKind::Accepted => "findings-undo-accept",
            DecisionKind::Intended => "findings-undo-intend",
        };
        let name = cx.text(id, &[("what", &row.line)]);
        cx.edit(Change::new(name, Edit::Judge(decision)).at(reason_key));
        cx.own.focus = Some(Focus::Row);
    }
}

/// The decision to be recorded, and what the finding showed when it was given; nothing
/// for a reason that says nothing.
fn decision(finding: &Finding, judged: DecisionKind, reason: &str, by: &str) -> Option<Decision> {
    Decision::new((finding.key(), finding.digest()), judged, reason, by)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, Document, demo_case};
    use traywright_core::plan::Severity;

    #[test]
    fn a_word_from_the_form_holds_until_it_is_taken_back() {
        let (_, bytes) = DEMOS[1];
        let mut document = Document::unsaved(demo_case(bytes));
        let finding = document.worksheet().findings[0].clone();
        assert_eq!(finding.severity(), Severity::Short);
        let said = |reason| decision(&finding, DecisionKind::Accepted, reason, "N. Quill");
        assert_eq!(said("x"), None);
        let word = said(" seen on the scan ").unwrap();
        document
            .edit("accept".into(), &[Edit::Judge(word)], None)
            .unwrap();
        let same = |document: &Document| {
            let mut all = document.worksheet().findings.iter();
            all.find(|f| f.key() == finding.key()).cloned().unwrap()
        };
        let judged = same(&document);
        assert_eq!(judged.severity(), Severity::Accepted);
        assert_eq!(judged.decision.unwrap().reason, "seen on the scan");
        let back = Edit::Unjudge(finding.key());
        document.edit("take back".into(), &[back], None).unwrap();
        assert_eq!(same(&document).severity(), Severity::Short);
    }
}
