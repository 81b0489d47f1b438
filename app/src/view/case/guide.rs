//! The guide: what it rests on, whether it is made, and the scan that it was planned on.

use super::{edit, heading, receipt, remark};
use crate::field::{self, New};
use crate::window::Stage;
use egui::Ui;
use traywright_core::case::{Access, Edit, Guide, GuideState, Support};

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let guide = &document.case().guide;
    let speaker = document.speaker(stage.desk.settings.notation());
    heading(ui, &stage.word("case-guide"));
    let supports = [
        Support::Teeth,
        Support::TeethAndMucosa,
        Support::Mucosa,
        Support::Bone,
    ]
    .map(|support| (support, speaker.support(support)));
    if let Some(support) = known(ui, stage, "support", &guide.support, &supports) {
        set(
            stage,
            Guide {
                support,
                ..guide.clone()
            },
            "case.support",
        );
    }
    let accesses = [Access::Flap, Access::Punch].map(|access| (access, speaker.access(access)));
    if let Some(access) = known(ui, stage, "access", &guide.access, &accesses) {
        set(
            stage,
            Guide {
                access,
                ..guide.clone()
            },
            "case.access",
        );
    }
    let states = [
        (GuideState::Planned, stage.word("case-guide-planned")),
        (GuideState::Made, stage.word("case-guide-made")),
    ];
    if let Some(state) = known(ui, stage, "state", &guide.state, &states) {
        set(
            stage,
            Guide {
                state,
                ..guide.clone()
            },
            "case.state",
        );
    }
    remark(
        ui,
        &stage.word(match guide.state {
            GuideState::Planned => "case-guide-planned-means",
            GuideState::Made => "case-guide-made-means",
        }),
    );
    scan_ui(ui, stage, guide);
    let label = stage.word("case-guide-code");
    let drafts = &mut stage.sight.drafts;
    let new = field::row(ui, &label, |ui, named| {
        field::label(ui, drafts, "case.code", named, guide.code.as_ref())
    });
    if let Some(New(code)) = new {
        set(
            stage,
            Guide {
                code,
                ..guide.clone()
            },
            "case.code",
        );
    }
    receipt::ui(ui, stage);
}

fn known<T: PartialEq + Clone>(
    ui: &mut Ui,
    stage: &Stage<'_>,
    what: &str,
    value: &T,
    offered: &[(T, String)],
) -> Option<T> {
    let (label, key) = (stage.word(&format!("case-{what}")), format!("case.{what}"));
    field::row(ui, &label, |ui, _| {
        field::choice_known(ui, &stage.sight.drafts, &key, &label, value, offered)
    })
}

/// Sets the guide.
pub(super) fn set(stage: &mut Stage<'_>, guide: Guide, field: &str) {
    edit(
        stage,
        "case-guide-set",
        Edit::SetGuide(Box::new(guide)),
        field,
    );
}

/// The date of the scan, as `2026-10-02`.
fn scan_ui(ui: &mut Ui, stage: &mut Stage<'_>, guide: &Guide) {
    const KEY: &str = "case.scan";
    let shown = guide.scan_date.map(|date| date.to_string());
    let shown = shown.unwrap_or_default();
    let label = stage.word("case-scan-date");
    let drafts = &mut stage.sight.drafts;
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
        set(stage, guide, KEY);
    } else {
        let told = stage.word("case-no-date");
        stage.sight.drafts.refuse(KEY, told);
    }
}
