//! The title block: case, jaw, revision, fingerprint and state, in the same place on every screen.

use crate::context::ViewContext;
use crate::look::{Font, Theme};
use egui::{Frame, Grid, Label, Margin, Stroke, Ui};
use traywright_core::drawing::Ink;

/// Width that the block takes, points.
pub(super) const WIDTH: f32 = 500.0;

/// Width of the state, points: a longer one takes two lines.
const STATE: f32 = 104.0;

/// Shows the title block.
pub(super) fn ui(ui: &mut Ui, cx: &ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    let worksheet = document.worksheet();
    let formatter = document.formatter(cx.desk.settings.notation);
    let theme = Theme::of(ui);
    let revision = worksheet.revision.to_string();
    let fingerprint = worksheet.fingerprint.to_string();
    let changed = if document.is_changed() {
        cx.text("title-changed", &[("revision", &revision)])
    } else {
        revision
    };
    let cells = [
        ("title-case", worksheet.reference.clone()),
        ("title-jaw", formatter.jaw()),
        ("title-revision", changed),
        ("title-fingerprint", fingerprint),
        ("title-state", state(cx)),
    ];
    ui.vertical(|ui| {
        if worksheet.demonstration {
            let text = Font::StrongCaption
                .text(cx.word("title-demonstration"))
                .color(theme.fault());
            ui.label(text);
        }
        Frame::NONE
            .stroke(Stroke::new(1.5, theme.fill(Ink::Strong)))
            .inner_margin(Margin::symmetric(10, 6))
            .show(ui, |ui| {
                Grid::new("title")
                    .num_columns(cells.len())
                    .spacing([16.0, 2.0])
                    .show(ui, |ui| {
                        let soft = theme.fill(Ink::Soft);
                        for (id, _) in &cells {
                            ui.label(Font::Fine.text(cx.word(id)).color(soft));
                        }
                        ui.end_row();
                        for (id, text) in &cells {
                            let text = Font::StrongLine.text(text);
                            ui.vertical(|ui| {
                                if *id == "title-state" {
                                    ui.set_max_width(STATE);
                                    ui.add(Label::new(text).wrap());
                                } else {
                                    ui.add(Label::new(text).extend());
                                }
                            });
                        }
                        ui.end_row();
                    });
            });
    });
}

/// The approval of the plan, in words.
#[must_use]
pub(super) fn state(cx: &ViewContext<'_>) -> String {
    let Some(document) = cx.document() else {
        return String::new();
    };
    let approvals = || document.record.standing.approvals.iter().rev();
    if document.record.standing.broken {
        cx.word("title-record-broken")
    } else if let Some(valid) = approvals().find(|approval| approval.is_valid()) {
        cx.text("title-approved", &[("by", valid.who.as_str())])
    } else if let Some(practised) = approvals().find(|approval| approval.is_practised()) {
        cx.text("title-practised", &[("by", practised.who.as_str())])
    } else if approvals().next().is_some() {
        cx.word("title-lapsed")
    } else {
        cx.word("title-open")
    }
}
