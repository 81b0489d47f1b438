//! One finding in full: how it came about, what to do, where it leads, the surgeon's word.

use super::cached::CachedFindings;
use super::{judge, lead};
use crate::canvas::mark_in;
use crate::look::{Font, Theme, aside, heading, part_heading};
use crate::view::findings::Context;
use crate::view::shortage;
use egui::{Grid, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::Finding;
use traywright_core::wording::begin;

/// Shows the finding at a place of the worksheet.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, told: &CachedFindings, at: usize) {
    let document = cx.document;
    let (Some(finding), Some(row)) = (document.worksheet().findings.get(at), told.rows.get(at))
    else {
        return;
    };
    let said = &row.said;
    ui.horizontal(|ui| {
        mark_in(ui, vec2(22.0, 22.0), 18.0, finding.severity());
        heading(ui, begin(&said.word));
    });
    heading(ui, begin(&row.line));
    for part in [&said.basis, &said.source].into_iter().flatten() {
        aside(ui, begin(part));
    }
    if let Some(remedy) = &said.remedy {
        part_heading(ui, cx.word("findings-remedy"));
        ui.add(egui::Label::new(remedy).wrap());
    }
    if let Some(line) = shortage::line_of(finding, &document.worksheet().stock) {
        shortage::remedies_ui(ui, cx, line);
    }
    ui.add_space(6.0);
    let view = cx.word(lead::view(finding).text_id());
    let place = match &said.place {
        Some(place) => cx.text("findings-go-to-place", &[("view", &view), ("place", place)]),
        None => cx.text("findings-go", &[("view", &view)]),
    };
    let go = ui.button(place).on_hover_text(cx.word("findings-go-key"));
    if go.clicked() {
        lead::go(cx, finding);
    }
    judge::ui(ui, cx, finding, row);
    came_about(ui, cx, finding, said.detail.as_deref());
}

/// Derivation of the value: the sum, and each term with its origin.
fn came_about(ui: &mut Ui, cx: &Context<'_>, finding: &Finding, detail: Option<&str>) {
    let Some(figure) = &finding.figure else {
        return;
    };
    let formatter = cx.formatter();
    part_heading(ui, cx.word("findings-came-about"));
    if let Some(detail) = detail {
        ui.add(egui::Label::new(begin(detail)).wrap());
    } else {
        ui.add(egui::Label::new(begin(&formatter.rule(figure))).wrap());
    }
    let soft = Theme::of(ui).fill(Ink::Soft);
    let small = |text| Font::Caption.text(text);
    Grid::new("findings-terms")
        .num_columns(3)
        .striped(false)
        .spacing([12.0, 3.0])
        .max_col_width(170.0)
        .show(ui, |ui| {
            for term in formatter.figure_terms(figure) {
                ui.add(egui::Label::new(small(term.name)).wrap());
                ui.add(egui::Label::new(small(term.value).strong()).wrap());
                let from = format!("{}, {}", term.origin, term.basis);
                ui.add(egui::Label::new(small(from).color(soft)).wrap());
                ui.end_row();
            }
        });
}
