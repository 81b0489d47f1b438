//! The wear of the kit's drills: each piece with what was counted of it, its limit and what that says.

use super::formatter;
use crate::canvas::mark;
use crate::desk::Ledger;
use crate::look::{Font, Theme, aside, part_heading, words};
use crate::view::kit::Context;
use egui::{Label, RichText, ScrollArea, Sense, Ui, vec2};
use traywright_core::plan::Severity;
use traywright_core::store::shown;
use traywright_core::wear::WearVerdict;
use traywright_core::wording::begin;

/// Shows it. It is of the kit on the desk: the case's copy has no limits and no pieces.
pub(super) fn ui(ui: &mut Ui, cx: &Context<'_>) {
    part_heading(ui, cx.word("kit-view-wear"));
    let Some(kit) = &cx.desk.live_kit else {
        aside(ui, cx.word("kit-view-wear-no-kit"));
        return;
    };
    aside(ui, cx.word("kit-view-wear-of"));
    let ledger = cx.desk.wear.ledger.found();
    match ledger {
        Ledger::Counted(_) => {}
        Ledger::NoFile => words(ui, cx.word("kit-view-wear-no-file")),
        Ledger::Reading => aside(ui, cx.word("kit-view-wear-reading")),
        Ledger::NotThere(file) => {
            words(ui, cx.text("wear-not-there", &[("file", &shown(file))]));
        }
        Ledger::Unread(why) => fault(ui, why),
    }
    let told = formatter(cx, kit).wear(ledger.counted());
    if told.drills.is_empty() {
        words(ui, cx.word("kit-view-wear-none"));
        return;
    }
    for line in &told.top {
        aside(ui, line);
    }
    ScrollArea::vertical()
        .id_salt("kit-wear")
        .auto_shrink(false)
        .show(ui, |ui| {
            for drill in &told.drills {
                ui.add_space(8.0);
                ui.add(Label::new(Font::StrongBody.text(&drill.line)).wrap());
                for (line, verdict) in &drill.pieces {
                    piece_ui(ui, line, *verdict);
                }
                for line in &drill.besides {
                    aside(ui, begin(line));
                }
            }
        });
}

/// A piece, with the mark of what its limit says where that is open.
fn piece_ui(ui: &mut Ui, line: &str, verdict: WearVerdict) {
    let severity = match verdict {
        WearVerdict::NoLimit | WearVerdict::Within => None,
        WearVerdict::Unknown => Some(Severity::Unknown),
        WearVerdict::Near => Some(Severity::Tight),
        WearVerdict::Beyond | WearVerdict::Reached => {
            fault(ui, line);
            return;
        }
    };
    ui.horizontal_top(|ui| {
        let side = Font::Body.size();
        let (square, _) = ui.allocate_exact_size(vec2(side, side), Sense::hover());
        if let Some(severity) = severity {
            mark(ui, square, severity);
        }
        ui.add(Label::new(line).wrap());
    });
}

fn fault(ui: &mut Ui, text: &str) {
    let text = RichText::new(text).color(Theme::of(ui).fault());
    ui.add(Label::new(text).wrap());
}
