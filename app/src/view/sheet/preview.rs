//! The pages as they will be on paper: one large, all of them small beside it.

use super::leaf::{Leaf, Pages};
use crate::action::Ask;
use crate::action::{Action, ThenView};
use crate::canvas::Camera;
use crate::look::{Font, Mode, Theme};
use crate::platform::Purpose;
use crate::view::sheet::Context;
use egui::{
    Frame, Id, Key, Label, Margin, Modifiers, Panel, Rect, RichText, ScrollArea, Sense, Stroke, Ui,
    Vec2, WidgetInfo, vec2,
};
use std::path::{Path, PathBuf};
use traywright_core::drawing::Ink;
use traywright_core::sheet::Paper;
use traywright_core::sheet::checklist::{Readings, SheetPart};

/// The size at which a page is shown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) enum Zoom {
    /// All of it.
    #[default]
    Whole,
    /// As wide as there is room.
    Wide,
    /// So many points of the screen for a millimetre.
    Scale(f32),
}

/// Width of a small page, points.
const SMALL: f32 = 84.0;

/// Points of the screen for a millimetre: the least and the most, and by how much a step enlarges.
const SCALES: (f32, f32, f32) = (1.0, 12.0, 1.25);

/// Shows the pages and what can be done with them.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let (printing, now) = (cx.own.printing, cx.now);
    let notation = cx.desk.settings.notation;
    let kept = cx.own.pages.take();
    let mut pages = Pages::of(
        kept,
        document,
        cx.desk.run.best_of(document),
        printing,
        notation,
        now,
    );
    tools(ui, cx, &pages);
    match &mut pages.leaves {
        Ok(leaves) => {
            let last = leaves.len().saturating_sub(1);
            keys(ui, cx, last);
            cx.own.page = cx.own.page.min(last);
            small_ui(ui, cx, leaves);
            large_ui(ui, cx, leaves);
        }
        Err(refused) => {
            let colour = Theme::of(ui).fault();
            ui.add(Label::new(RichText::new(refused.as_str()).color(colour)).wrap());
        }
    }
    cx.own.pages = Some(pages);
}

/// Writing and its paper in one row, looking at the pages in another.
fn tools(ui: &mut Ui, cx: &mut Context<'_>, pages: &Pages) {
    let count = pages.leaves.as_ref().map_or(0, Vec::len);
    ui.horizontal_wrapped(|ui| {
        ui.set_row_height(ui.spacing().interact_size.y + 2.0);
        write_ui(ui, cx, count);
        ui.add_space(6.0);
        for (paper, id) in [
            (Paper::A4, "sheet-view-a4"),
            (Paper::Letter, "sheet-view-letter"),
        ] {
            let name = cx.word(id);
            ui.selectable_value(&mut cx.own.printing.paper, paper, name);
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.set_row_height(ui.spacing().interact_size.y + 2.0);
        for (part, pages) in pages.counts {
            let id = match part {
                SheetPart::Form => "sheet-view-part-form",
                SheetPart::Strip => "sheet-view-part-strip",
                SheetPart::Annex => "sheet-view-part-annex",
            };
            let mut on = cx.own.printing.parts.holds(part);
            let name = cx.counted(id, &[("count", pages)], &[]);
            if ui.checkbox(&mut on, name).changed() {
                cx.own.printing.parts = cx.own.printing.parts.turned(part);
                cx.own.page = 0;
            }
        }
        ui.add_space(6.0);
        for (readings, id) in [
            (Readings::Blank, "sheet-view-readings-blank"),
            (Readings::Filled, "sheet-view-readings-filled"),
        ] {
            let name = cx.word(id);
            let chosen = &mut cx.own.printing.readings;
            if ui.selectable_value(chosen, readings, name).changed() {
                cx.own.page = 0;
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.set_row_height(ui.spacing().interact_size.y + 2.0);
        let at = cx.own.page;
        let back = egui::Button::new(cx.word("sheet-view-before"));
        if ui.add_enabled(at > 0, back).clicked() {
            cx.own.page = at.saturating_sub(1);
        }
        let numbers = &[("page", at + 1), ("count", count)];
        ui.label(cx.counted("sheet-view-page", numbers, &[]));
        let on = egui::Button::new(cx.word("sheet-view-next"));
        if ui.add_enabled(at + 1 < count, on).clicked() {
            cx.own.page = at + 1;
        }
        ui.add_space(6.0);
        for (zoom, id) in [
            (Zoom::Whole, "sheet-view-whole"),
            (Zoom::Wide, "sheet-view-wide"),
        ] {
            let name = cx.word(id);
            ui.selectable_value(&mut cx.own.zoom, zoom, name);
        }
        for (id, factor) in [
            ("sheet-view-smaller", 1.0 / SCALES.2),
            ("sheet-view-larger", SCALES.2),
        ] {
            let button = ui.button(cx.word(id));
            if button.clicked() {
                let now: f32 = ui.data(|data| data.get_temp(shown_scale())).unwrap_or(2.0);
                let scale = (now * factor).clamp(SCALES.0, SCALES.1);
                cx.own.zoom = Zoom::Scale(scale);
            }
        }
    });
    ui.add_space(4.0);
}

/// Writes the pages as a PDF, or shows it in the viewer of the system.
fn write_ui(ui: &mut Ui, cx: &mut Context<'_>, count: usize) {
    let printing = cx.own.printing;
    let write = egui::Button::new(cx.word("sheet-view-write"));
    if ui.add_enabled(count > 0, write).clicked() {
        let path = proposed(cx);
        cx.act(Action::Ask(Ask::file(
            Purpose::SaveSheet,
            path.display().to_string(),
        )));
    }
    let view = egui::Button::new(cx.word("sheet-view-viewer"));
    let told = cx.word("sheet-view-viewer-what");
    if ui
        .add_enabled(count > 0, view)
        .on_hover_text(told)
        .clicked()
    {
        let to = file_name(cx);
        cx.act(Action::WriteSheet {
            to,
            printing,
            view: ThenView::Show,
        });
    }
}

/// The proposed file for the sheet: beside the case, under its name.
fn proposed(cx: &Context<'_>) -> PathBuf {
    if !cx.own.path.is_empty() {
        return PathBuf::from(&cx.own.path);
    }
    let file = cx.document.file();
    file.map_or_else(|| file_name(cx), |file| file.with_extension("pdf"))
}

/// A name for the sheet's file, of the case's reference.
fn file_name(cx: &Context<'_>) -> PathBuf {
    let reference = &cx.document.case().reference;
    Path::new(&plain(reference.as_str())).with_extension("pdf")
}

/// A reference with only what every system allows in a file's name.
fn plain(reference: &str) -> String {
    let kept = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_');
    let plain: String = reference
        .chars()
        .map(|c| if kept(c) { c } else { '-' })
        .collect();
    format!("traywright-{plain}")
}

/// Page up and down, unless words are typed.
fn keys(ui: &Ui, cx: &mut Context<'_>, last: usize) {
    if ui.ctx().text_edit_focused() || cx.state.ask.is_some() {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let page = &mut cx.own.page;
    if pressed(Key::PageDown) {
        *page = (*page + 1).min(last);
    } else if pressed(Key::PageUp) {
        *page = page.saturating_sub(1);
    } else if pressed(Key::Home) {
        *page = 0;
    } else if pressed(Key::End) {
        *page = last;
    }
}

/// All pages, small.
fn small_ui(ui: &mut Ui, cx: &mut Context<'_>, leaves: &mut [Leaf]) {
    let sheet = cx.own.printing.paper.rect();
    let per_mm = scale_of(SMALL, sheet.width());
    Panel::left("sheet-small")
        .resizable(false)
        .exact_size(SMALL + 28.0)
        .frame(Frame::NONE)
        .show(ui, |ui| {
            let around = Margin::same(3);
            ScrollArea::vertical()
                .auto_shrink(false)
                .content_margin(around)
                .show(ui, |ui| {
                    for (n, leaf) in leaves.iter_mut().enumerate() {
                        let here = cx.own.page == n;
                        let (rect, response) = page_rect(ui, cx.own.printing.paper, per_mm);
                        if here && cx.own.shown != Some(n) {
                            cx.own.shown = Some(n);
                            response.scroll_to_me(None);
                        }
                        let name = page_name(cx, n, &leaf.title);
                        response.widget_info(|| {
                            WidgetInfo::selected(egui::Role::Button, true, here, &name)
                        });
                        if response.clicked() {
                            cx.own.page = n;
                        }
                        if ui.is_rect_visible(rect) {
                            paper_ui(ui, rect, here || response.has_focus());
                            let camera = Camera {
                                origin: rect.min,
                                per_mm,
                            };
                            on_paper(ui, rect, |ui| leaf.thumb.paint(ui, camera));
                        }
                        response.on_hover_text(&name);
                        ui.add(Label::new(Font::Caption.text((n + 1).to_string())));
                    }
                });
        });
}

/// The page that is looked at.
fn large_ui(ui: &mut Ui, cx: &mut Context<'_>, leaves: &mut [Leaf]) {
    let at = cx.own.page;
    let Some(leaf) = leaves.get_mut(at) else {
        return;
    };
    let sheet = cx.own.printing.paper.rect();
    let inner = Margin::symmetric(8, 2);
    let room = ui.available_size() - vec2(36.0, 20.0);
    let per_mm = match cx.own.zoom {
        Zoom::Whole => scale_of(room.x, sheet.width()).min(scale_of(room.y, sheet.height())),
        Zoom::Wide => scale_of(room.x, sheet.width()),
        Zoom::Scale(scale) => scale,
    };
    ui.data_mut(|data| data.insert_temp(shown_scale(), per_mm));
    let name = page_name(cx, at, &leaf.title);
    Frame::NONE.inner_margin(inner).show(ui, |ui| {
        ScrollArea::both()
            .id_salt(("sheet-large", at))
            .auto_shrink(false)
            .content_margin(3)
            .show(ui, |ui| {
                let width = page_size(cx.own.printing.paper, per_mm).x;
                let beside = ((ui.available_width() - width) / 2.0).max(0.0);
                let (rect, response) = ui
                    .horizontal(|ui| {
                        ui.add_space(beside);
                        page_rect(ui, cx.own.printing.paper, per_mm)
                    })
                    .inner;
                response.widget_info(|| {
                    let mut info = WidgetInfo::labeled(egui::Role::Image, true, &name);
                    info.current_text_value = Some(leaf.text.clone());
                    info
                });
                paper_ui(ui, rect, response.has_focus());
                let camera = Camera {
                    origin: rect.min,
                    per_mm,
                };
                on_paper(ui, rect, |ui| leaf.cached.paint(ui, camera));
            });
    });
}

/// The place where the scale is kept at which the page was last shown.
fn shown_scale() -> Id {
    Id::unique("sheet-shown-scale")
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "pixels need no more than a float holds"
)]
fn scale_of(points: f32, mm: f64) -> f32 {
    (points / mm as f32).max(0.1)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "pixels need no more than a float holds"
)]
fn page_size(paper: Paper, per_mm: f32) -> Vec2 {
    let sheet = paper.rect();
    vec2(sheet.width() as f32, sheet.height() as f32) * per_mm
}

fn page_rect(ui: &mut Ui, paper: Paper, per_mm: f32) -> (Rect, egui::Response) {
    ui.allocate_exact_size(page_size(paper, per_mm), Sense::click())
}

/// The sheet itself, light in both modes as the paper that it will be printed on.
fn paper_ui(ui: &Ui, rect: Rect, marked: bool) {
    let theme = Theme::of(ui);
    let white = Theme::new(Mode::Light).fill(Ink::Ground);
    let edge = if marked {
        Stroke::new(2.0, theme.fill(Ink::Accent))
    } else {
        Stroke::new(1.0, theme.line(Ink::Guide))
    };
    ui.painter()
        .rect(rect, 0.0, white, edge, egui::StrokeKind::Outside);
}

/// Paints with the colours of paper, and nothing beside it.
fn on_paper(ui: &mut Ui, rect: Rect, paint: impl FnOnce(&Ui)) {
    ui.scope(|ui| {
        ui.visuals_mut().dark_mode = false;
        ui.shrink_clip_rect(rect);
        paint(ui);
    });
}

fn page_name(cx: &Context<'_>, at: usize, title: &str) -> String {
    let page = &[("page", at + 1)];
    cx.counted("sheet-view-page-named", page, &[("title", title)])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reference_becomes_a_file_name_that_leads_nowhere_else() {
        assert_eq!(plain("HV-0312"), "traywright-HV-0312");
        assert_eq!(plain("../a b/ç"), "traywright----a-b-ç");
    }
}
