//! The guide: what it rests on, whether it is made, and the scan that it was planned on.

use super::{edit, heading, receipt};
use crate::field::{self, New};
use crate::look::remark;
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::{Access, Edit, Guide, GuideState, Support};

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    let guide = &document.case().guide;
    let formatter = document.formatter(cx.desk.settings.notation());
    heading(ui, &cx.word("case-guide"));
    let supports = [
        Support::Teeth,
        Support::TeethAndMucosa,
        Support::Mucosa,
        Support::Bone,
    ]
    .map(|support| (support, formatter.support(support)));
    if let Some(support) = known(ui, cx, "support", &guide.support, &supports) {
        set(
            cx,
            Guide {
                support,
                ..guide.clone()
            },
            "case.support",
        );
    }
    let accesses = [Access::Flap, Access::Punch].map(|access| (access, formatter.access(access)));
    if let Some(access) = known(ui, cx, "access", &guide.access, &accesses) {
        set(
            cx,
            Guide {
                access,
                ..guide.clone()
            },
            "case.access",
        );
    }
    let states = [
        (GuideState::Planned, cx.word("case-guide-planned")),
        (GuideState::Made, cx.word("case-guide-made")),
    ];
    if let Some(state) = known(ui, cx, "state", &guide.state, &states) {
        set(
            cx,
            Guide {
                state,
                ..guide.clone()
            },
            "case.state",
        );
    }
    remark(
        ui,
        &cx.word(match guide.state {
            GuideState::Planned => "case-guide-planned-means",
            GuideState::Made => "case-guide-made-means",
        }),
    );
    scan_ui(ui, cx, guide);
    let label = cx.word("case-guide-code");
    let drafts = &mut cx.state.drafts;
    let new = field::row(ui, &label, |ui, named| {
        field::label(ui, drafts, "case.code", named, guide.code.as_ref())
    });
    if let Some(New(code)) = new {
        set(
            cx,
            Guide {
                code,
                ..guide.clone()
            },
            "case.code",
        );
    }
    receipt::ui(ui, cx);
}

fn known<T: PartialEq + Clone>(
    ui: &mut Ui,
    cx: &ViewContext<'_>,
    what: &str,
    value: &T,
    offered: &[(T, String)],
) -> Option<T> {
    let (label, key) = (cx.word(&format!("case-{what}")), format!("case.{what}"));
    field::row(ui, &label, |ui, _| {
        field::choice_known(ui, &cx.state.drafts, &key, &label, value, offered)
    })
}

/// Sets the guide.
pub(super) fn set(cx: &mut ViewContext<'_>, guide: Guide, field: &str) {
    edit(cx, "case-guide-set", Edit::SetGuide(Box::new(guide)), field);
}

/// The date of the scan, as `2026-10-02`.
fn scan_ui(ui: &mut Ui, cx: &mut ViewContext<'_>, guide: &Guide) {
    const KEY: &str = "case.scan";
    let shown = guide.scan_date.map(|date| date.to_string());
    let shown = shown.unwrap_or_default();
    let label = cx.word("case-scan-date");
    let drafts = &mut cx.state.drafts;
    let new = field::row(ui, &label, |ui, named| {
        field::text(ui, drafts, KEY, named, &shown)
    });
    let Some(text) = new else { return };
    let text = text.trim();
    let date = if text.is_empty() {
        Ok(None)
    } else {
        text.parse::<jiff::civil::Date>().map(Some)
    };
    if let Ok(scan_date) = date {
        let guide = Guide {
            scan_date,
            ..guide.clone()
        };
        set(cx, guide, KEY);
    } else {
        let told = cx.word("case-no-date");
        cx.state.drafts.refuse(KEY, told);
    }
}
