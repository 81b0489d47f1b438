//! The findings of the site, worst first.

use super::here::Here;
use crate::action::Action;
use crate::canvas::mark_in;
use crate::look::{Font, Theme, aside, caption, heading};
use crate::view::site::Context;
use egui::{RichText, Sense, Ui, vec2};
use std::borrow::Cow;
use traywright_core::drawing::Ink;
use traywright_core::plan::{CommonCause, Finding, FindingLine, Severity, by_cause};
use traywright_core::wording::{Formatter, begin};

/// Shows the site's findings, worst first.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    ui.add_space(8.0);
    heading(ui, cx.word("site-findings"));
    list(ui, cx, here);
}

/// The list without its heading: a cause with what hangs on it in one line, as in the view of all findings.
pub(super) fn list(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    let found = here.document.worksheet().findings_of(&here.site.id);
    let found: Vec<Cow<'_, Finding>> = found.collect();
    for told in by_cause(found.iter().map(AsRef::as_ref).collect(), |one| one) {
        match told {
            FindingLine::One(finding) => one(ui, cx, here, finding),
            FindingLine::Cause(cause, on_it) => together(ui, cx, here, &cause, &on_it),
        }
    }
    if found.is_empty() {
        aside(ui, cx.word("site-no-findings"));
    }
    if let Some(accuracy) = here.formatter.accuracy(found.iter().map(AsRef::as_ref)) {
        caption(ui, begin(&accuracy));
    }
}

/// A finding, which leads to its step.
fn one(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>, finding: &Finding) {
    if row(ui, &here.formatter, finding, Detail::Full)
        && let Some(step) = &finding.step
    {
        cx.act(Action::ChooseStep(Some(step.clone())));
    }
}

/// A cause and what to do; a button lists what hangs on it beneath.
fn together(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    here: &Here<'_>,
    cause: &CommonCause,
    on_it: &[&Finding],
) {
    let said = here.formatter.cause(cause, on_it.iter().copied());
    let headline = begin(&said.headline);
    let is_unfolded = cx.own.unfolded.contains(cause);
    let fold = cx.word(if is_unfolded {
        "findings-fold"
    } else {
        "findings-unfold"
    });
    ui.horizontal_top(|ui| {
        mark_in(ui, vec2(15.0, 17.0), 14.0, Severity::Unknown);
        ui.vertical(|ui| {
            let text = RichText::new(&headline).font(Font::StrongLine.id());
            ui.add(egui::Label::new(text).wrap());
            aside(ui, &said.remedy);
            let button = ui.small_button(&fold);
            let name = format!("{headline}: {fold}");
            button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
            if button.clicked() && !cx.own.unfolded.remove(cause) {
                cx.own.unfolded.insert(cause.clone());
            }
        });
    });
    if is_unfolded {
        ui.indent(("site-cause", &headline), |ui| {
            for finding in on_it {
                one(ui, cx, here, finding);
            }
        });
    }
}

/// The extent to which a finding is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Detail {
    /// With what to do about it.
    Full,
    /// Its headline with the place, where it has one.
    Line,
}

/// A finding with its mark and word; true if it was clicked. More of it is in its tip.
pub(super) fn row(
    ui: &mut Ui,
    formatter: &Formatter<'_>,
    finding: &Finding,
    detail: Detail,
) -> bool {
    let said = formatter.finding(finding);
    let severity = finding.severity();
    let theme = Theme::of(ui);
    let soft = theme.fill(Ink::Soft);
    let strong = severity < Severity::Accepted;
    let mut clicked = false;
    let row = ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing = vec2(7.0, 1.0);
        mark_in(ui, vec2(15.0, 17.0), 14.0, severity);
        ui.vertical(|ui| {
            let what = match detail {
                Detail::Full => said.headline.clone(),
                Detail::Line => formatter.line(&said),
            };
            let text = format!("{}: {what}", begin(&said.word));
            let font = if strong {
                Font::StrongLine.id()
            } else {
                Font::Line.id()
            };
            let label = egui::Label::new(RichText::new(text).font(font))
                .wrap()
                .sense(Sense::click());
            clicked = ui.add(label).clicked();
            // Without it the figure would be read as measured here.
            if let Some(basis) = said.basis.as_ref().filter(|_| finding.is_confirmed()) {
                let line = Font::Caption.text(basis).color(soft);
                ui.add(egui::Label::new(line).wrap());
            }
            let below = said
                .decision
                .iter()
                .chain(&said.lapsed)
                .chain(said.remedy.iter().filter(|_| severity.is_open()));
            if detail == Detail::Full {
                for line in below {
                    let line = Font::Caption.text(line).color(soft);
                    ui.add(egui::Label::new(line).wrap());
                }
            }
        });
    });
    let more: Vec<&str> = [&said.detail, &said.remedy, &said.basis, &said.source]
        .into_iter()
        .filter_map(|part| part.as_deref())
        .collect();
    if !more.is_empty() {
        row.response.on_hover_text(more.join("\n"));
    }
    clicked
}
