//! The approvals that were given: whether each holds, why not, and taking one back.

use super::held::Held;
use crate::action::Action;
use crate::field::{fault_ui, kept_text};
use crate::look::{aside, part_heading, words};
use crate::view::sheet::Context;
use egui::{RichText, Ui};
use traywright_core::sign::{ApprovalLapse, ApprovalStanding, EventKind};

/// Key of the field for the reason.
const REASON: &str = "sheet.withdraw.reason";

/// Shows the approvals, the last first.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    part_heading(ui, cx.word("sheet-view-approvals"));
    let approvals = &document.record.standing.approvals;
    if approvals.is_empty() {
        aside(ui, cx.word("sheet-view-no-approvals"));
    }
    let held = Held::of(cx.own.held.take(), document);
    for approval in approvals.iter().rev() {
        one(ui, cx, approval, &held);
    }
    cx.own.held = Some(held);
}

fn one(ui: &mut Ui, cx: &mut Context<'_>, approval: &ApprovalStanding, held: &Held) {
    let (document, formatter) = (cx.document, cx.formatter());
    let at = approval.at.strftime("%Y-%m-%d %H:%M").to_string();
    let revision = approval.approval.revision.to_string();
    let fingerprint = approval.approval.fingerprint.to_string();
    let given = cx.text(
        "sheet-view-approval",
        &[
            ("by", approval.who.as_str()),
            ("at", &at),
            ("revision", &revision),
            ("fingerprint", &fingerprint),
        ],
    );
    ui.add_space(4.0);
    let state = if approval.is_valid() {
        "sheet-view-holds"
    } else if approval.is_practised() {
        "sheet-view-practised"
    } else {
        "sheet-view-lapsed"
    };
    ui.label(RichText::new(cx.word(state)).strong());
    words(ui, given);
    let worksheet = document.worksheet();
    for lapse in &approval.lapses {
        aside(ui, formatter.approval_lapse(lapse, worksheet));
        if let ApprovalLapse::FingerprintDiffers { approved, .. } = lapse {
            match held.since(*approved) {
                Some(steps) => {
                    let list = steps.join("; ");
                    aside(ui, cx.text("sheet-view-since", &[("list", &list)]));
                }
                None => aside(ui, cx.word("sheet-view-since-unknown")),
            }
        }
    }
    let withdrawn = |lapse: &ApprovalLapse| matches!(lapse, ApprovalLapse::Withdrawn { .. });
    if !approval.lapses.iter().any(withdrawn) {
        withdraw_ui(ui, cx, approval);
    }
}

fn withdraw_ui(ui: &mut Ui, cx: &mut Context<'_>, approval: &ApprovalStanding) {
    if cx.own.withdrawing.as_ref() != Some(&approval.id) {
        ui.push_id(approval.id.to_string(), |ui| {
            if ui.button(cx.word("sheet-view-withdraw")).clicked() {
                cx.state.drafts.settle(REASON);
                cx.own.withdrawing = Some(approval.id.clone());
            }
        });
        return;
    }
    aside(ui, cx.word("sheet-view-withdraw-what"));
    let label = cx.word("sheet-view-withdraw-reason");
    let reason = kept_text(ui, &mut cx.state.drafts, REASON, label, "", f32::INFINITY);
    fault_ui(ui, &cx.state.drafts, REASON);
    let (key, label) = ("sheet.withdraw.by", cx.word("sheet-view-withdraw-by"));
    let first = &cx.desk.settings.person;
    let by = kept_text(ui, &mut cx.state.drafts, key, label, first, 240.0);
    ui.horizontal(|ui| {
        let filled = !reason.trim().is_empty() && !by.trim().is_empty();
        let button = egui::Button::new(cx.word("sheet-view-withdraw-now"));
        let why = cx.word("sheet-view-withdraw-fill");
        let button = ui.add_enabled(filled, button).on_disabled_hover_text(why);
        if button.clicked() {
            cx.act(Action::Sign {
                who: by.trim().to_owned(),
                kind: EventKind::ApprovalWithdrawn {
                    fingerprint: approval.approval.fingerprint,
                    reason: reason.trim().to_owned(),
                },
            });
            cx.own.withdrawing = None;
        }
        if ui.button(cx.word("ask-cancel")).clicked() {
            cx.own.withdrawing = None;
        }
    });
}
