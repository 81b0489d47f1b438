//! The strip at the foot: every site with its setting and its worst finding, always in sight, and
//! the title block.

use super::{Stage, title_block};
use crate::action::Action;
use crate::canvas::mark;
use crate::look::{Theme, bold, size};
use egui::{
    Align, FontId, Frame, Layout, Margin, Panel, Rect, RichText, ScrollArea, Sense, Stroke, Ui,
    WidgetInfo, vec2,
};
use traywright_core::drawing::Ink;
use traywright_core::kit::SiteId;
use traywright_core::plan::{Finding, Severity, SiteSheet, StepSheet};

/// Size of a site's card, points.
const CARD: egui::Vec2 = vec2(236.0, 84.0);

/// Shows the strip.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let theme = Theme::of(ui);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(Margin::symmetric(20, 10));
    Panel::bottom("strip").frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            let room = vec2(ui.available_width() - title_block::WIDTH, CARD.y);
            ui.allocate_ui_with_layout(room, Layout::left_to_right(Align::Center), |ui| {
                ui.set_min_size(room);
                ScrollArea::horizontal().id_salt("sites").show(ui, |ui| {
                    for site in &document.worksheet().sites {
                        card(ui, stage, site);
                    }
                    if document.worksheet().sites.is_empty() {
                        ui.label(RichText::new(stage.word("strip-empty")).weak());
                    }
                });
            });
            title_block::ui(ui, stage);
        });
    });
}

/// The step whose setting stands on a site's card: the deepest of full depth.
#[must_use]
pub(crate) fn telling_step(site: &SiteSheet) -> Option<&StepSheet> {
    let full = site.steps.iter().filter(|step| step.is_full_depth());
    let by_set = |step: &&StepSheet| step.set.length();
    full.max_by_key(by_set)
        .or_else(|| site.steps.iter().max_by_key(by_set))
}

fn card(ui: &mut Ui, stage: &mut Stage<'_>, site: &SiteSheet) {
    let Some(document) = stage.document() else {
        return;
    };
    let notation = stage.desk.settings.notation();
    let speaker = document.speaker(notation);
    let theme = Theme::of(ui);
    let chosen = stage.site().is_some_and(|(_, sheet)| sheet.id == site.id);
    let (rect, response) = ui.allocate_exact_size(CARD, Sense::click());
    let name = speaker.site(&site.id);
    let findings = &document.worksheet().findings;
    let word = speaker.worst_word(site.worst, &[&site.id], findings);
    let setting = telling_step(site).map_or_else(
        || stage.word("strip-no-steps"),
        |step| speaker.set_length(&step.set.known_length()),
    );
    let worst = worst_finding(findings, &site.id, site.worst);
    let worst = worst.map_or(word.clone(), |finding| {
        let headline = speaker.finding(finding).headline;
        match site.worst {
            Severity::Accepted => format!("{word}: {headline}"),
            _ => headline,
        }
    });
    response.widget_info(|| {
        let said = format!("{name}, {word}, {setting}");
        WidgetInfo::selected(egui::Role::Button, true, chosen, said)
    });
    if response.clicked() {
        stage.act(Action::Choose(Some(site.id.clone())));
    }
    if response.double_clicked() {
        stage.act(Action::Do(crate::action::Command::Show(super::View::Site)));
    }
    let focused = response.has_focus();
    let edge = if chosen || focused {
        Stroke::new(2.0, theme.fill(Ink::Accent))
    } else {
        Stroke::new(1.0, theme.fill(Ink::Hairline))
    };
    let ground = if response.hovered() {
        Ink::Shade
    } else {
        Ink::Tooth
    };
    let painter = ui.painter();
    painter.rect(
        rect,
        4.0,
        theme.fill(ground),
        edge,
        egui::StrokeKind::Inside,
    );
    let inner = rect.shrink2(vec2(10.0, 8.0));
    mark(
        ui,
        Rect::from_min_size(inner.min, vec2(16.0, 16.0)),
        site.worst,
    );
    let strong = theme.fill(Ink::Strong);
    let title = inner.min + vec2(22.0, 0.0);
    line(ui, title, inner.width() - 22.0, &name, 13.0, true, strong);
    let figure = painter.layout_no_wrap(setting, FontId::new(24.0, bold()), strong);
    let figure_width = figure.rect.width();
    let low = egui::pos2(inner.right() - figure_width, inner.top() + 18.0);
    painter.galley(low, figure, strong);
    let implant = speaker.implant(&site.implant);
    let soft = theme.fill(Ink::Soft);
    let left = inner.width() - figure_width - 8.0;
    line(
        ui,
        inner.min + vec2(0.0, 26.0),
        left,
        &implant,
        size::CAPTION,
        false,
        soft,
    );
    line(
        ui,
        inner.min + vec2(0.0, 50.0),
        inner.width(),
        &worst,
        size::CAPTION,
        false,
        strong,
    );
    response.on_hover_text(worst);
}

/// The first finding of a site's worst severity.
fn worst_finding<'a>(
    findings: &'a [Finding],
    site: &SiteId,
    worst: Severity,
) -> Option<&'a Finding> {
    findings
        .iter()
        .filter(|f| f.site.as_ref() == Some(site) && f.severity() == worst)
        .min_by_key(|f| f.verdict)
}

/// One line of text that ends in an ellipsis where it is too long.
fn line(
    ui: &Ui,
    place: egui::Pos2,
    width: f32,
    text: &str,
    size: f32,
    strong: bool,
    colour: egui::Color32,
) {
    let font = if strong {
        FontId::new(size, bold())
    } else {
        FontId::proportional(size)
    };
    let mut job = egui::text::LayoutJob::simple(text.to_owned(), font, colour, width);
    job.wrap = egui::text::TextWrapping::truncate_at_width(width);
    let galley = ui.painter().layout_job(job);
    ui.painter().galley(place, galley, colour);
}
