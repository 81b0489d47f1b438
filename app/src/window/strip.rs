//! The strip at the foot: every site with its setting and its worst finding, always in sight, and
//! the title block.

use super::title_block;
use crate::action::Action;
use crate::canvas::mark;
use crate::context::ViewContext;
use crate::look::{Font, Theme, aside};
use egui::{
    Align, Frame, Layout, Margin, Panel, Rect, ScrollArea, Sense, Stroke, Ui, WidgetInfo, vec2,
};
use std::borrow::Cow;
use traywright_core::dentition::words;
use traywright_core::drawing::Ink;
use traywright_core::kit::SiteId;
use traywright_core::plan::{Finding, Severity, SiteSheet, Worksheet};

/// Height of a site's card, points.
const HEIGHT: f32 = 84.0;

/// Width of a card, points: the least, and the most that it takes where there is room.
const WIDTH: (f32, f32) = (116.0, 236.0);

/// A card with less room than this has its settings in smaller type, points.
const NARROW: f32 = 130.0;

/// Room for the words that there are more sites than fit, points.
const MORE: f32 = 74.0;

/// Shows the strip.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    let theme = Theme::of(ui);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(Margin::symmetric(20, 10));
    let sites = &document.worksheet().sites;
    Panel::bottom("strip").frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            let all = vec2(ui.available_width() - title_block::WIDTH, HEIGHT);
            let fits = Fits::in_width(all.x, sites.len(), ui.spacing().item_spacing.x);
            let more = sites.len().saturating_sub(fits.count);
            let room = vec2(all.x - if more > 0 { MORE } else { 0.0 }, HEIGHT);
            ui.allocate_ui_with_layout(room, Layout::left_to_right(Align::Center), |ui| {
                ui.set_min_size(room);
                ScrollArea::horizontal().id_salt("sites").show(ui, |ui| {
                    for site in sites {
                        card(ui, cx, site, vec2(fits.width, HEIGHT));
                    }
                    if sites.is_empty() {
                        aside(ui, cx.word("strip-empty"));
                    }
                });
            });
            if more > 0 {
                let words = cx.counted("strip-more", &[("count", more)], &[]);
                ui.vertical(|ui| {
                    ui.set_max_width(MORE - 10.0);
                    ui.label(Font::Caption.text(words));
                });
            }
            title_block::ui(ui, cx);
        });
    });
}

/// Number of cards that fit beside each other, and their width.
struct Fits {
    count: usize,
    width: f32,
}

impl Fits {
    /// All of them where they can be narrow enough, else as many as there is room for.
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few cards in a window"
    )]
    fn in_width(room: f32, sites: usize, gap: f32) -> Self {
        let each = (room + gap) / sites.max(1) as f32 - gap;
        if each >= WIDTH.0 {
            let width = each.min(WIDTH.1);
            return Self {
                count: sites,
                width,
            };
        }
        let count = ((room - MORE + gap) / (WIDTH.0 + gap)).max(1.0) as usize;
        Self {
            count,
            width: WIDTH.0,
        }
    }
}

/// A site: its number and name, its settings from the least to the greatest, its worst finding.
fn card(ui: &mut Ui, cx: &mut ViewContext<'_>, site: &SiteSheet, card: egui::Vec2) {
    let Some(document) = cx.document() else {
        return;
    };
    let notation = cx.desk.settings.notation;
    let formatter = document.formatter(notation);
    let theme = Theme::of(ui);
    let chosen = cx.site().is_some_and(|(_, sheet)| sheet.id == site.id);
    let (rect, response) = ui.allocate_exact_size(card, Sense::click());
    let name = formatter.site(&site.id);
    let findings = &document.worksheet().findings;
    let word = formatter.worst_word(site.worst, &[&site.id], findings);
    let beside = formatter.worst_beside(site.worst, &[&site.id], findings);
    let setting = if site.steps.is_empty() {
        cx.word("strip-no-steps")
    } else {
        formatter.site_settings(site)
    };
    let tooth = document
        .case()
        .site(site.id.as_str())
        .map(|site| site.tooth);
    let number = tooth.map_or_else(String::new, |tooth| notation.show(tooth));
    let worst = worst_finding(document.worksheet(), &site.id, site.worst);
    let worst = worst.map_or(beside.clone(), |finding| {
        let headline = formatter.finding(&finding).headline;
        match site.worst {
            Severity::Accepted => format!("{word}: {headline}"),
            _ => headline,
        }
    });
    response.widget_info(|| {
        let said = format!("{name}, {beside}, {setting}");
        WidgetInfo::selected(egui::Role::Button, true, chosen, said)
    });
    if response.clicked() {
        cx.act(Action::Choose(Some(site.id.clone())));
    }
    if response.double_clicked() {
        cx.act(Action::Do(crate::action::Command::Show(super::View::Site)));
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
    // The number first: of the name as much as there is room for.
    let number = painter.layout_no_wrap(number, Font::StrongBody.id(), strong);
    let after = 22.0 + number.rect.width() + 6.0;
    painter.galley(inner.min + vec2(22.0, -2.0), number, strong);
    let soft = theme.fill(Ink::Soft);
    let row = |down: f32| inner.min + vec2(0.0, down);
    let width = inner.width();
    let words = tooth.map_or_else(|| name.clone(), |tooth| words(tooth, cx.desk.texts));
    line(
        ui,
        row(0.0) + vec2(after, 0.0),
        width - after,
        &words,
        Font::Caption,
        soft,
    );
    let figures = if width < NARROW {
        Font::StrongCaption
    } else {
        Font::StrongBody
    };
    line(ui, row(23.0), width, &setting, figures, strong);
    line(ui, row(50.0), width, &worst, Font::Caption, strong);
    let implant = formatter.implant(&site.implant);
    let told = format!("{name}\n{implant}\n{worst}");
    response.on_hover_text(told);
}

/// The first finding of a site's worst severity.
fn worst_finding<'a>(
    worksheet: &'a Worksheet,
    site: &'a SiteId,
    worst: Severity,
) -> Option<Cow<'a, Finding>> {
    let here = worksheet.findings_of(site);
    here.filter(|f| f.severity() == worst)
        .min_by_key(|f| f.verdict)
}

/// One line of text that ends in an ellipsis where it is too long.
fn line(ui: &Ui, place: egui::Pos2, width: f32, text: &str, font: Font, colour: egui::Color32) {
    let mut job = egui::text::LayoutJob::simple(text.to_owned(), font.id(), colour, width);
    job.wrap = egui::text::TextWrapping::truncate_at_width(width);
    let galley = ui.painter().layout_job(job);
    ui.painter().galley(place, galley, colour);
}
