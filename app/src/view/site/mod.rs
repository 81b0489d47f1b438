//! One site: what was entered for it, its sequence, and the section drawing to scale.

mod alternatives;
mod concerns;
mod derivation;
mod form;
mod here;
mod keys;
mod panes;
mod picture;
mod sequence;
mod state;

pub use state::State;

use crate::context::CaseContext;
use crate::look::aside;
use derivation::Derivation;
use egui::{ScrollArea, Ui, UiBuilder, vec2};
use here::Here;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// Between two columns, points.
const GAP: f32 = 18.0;

/// Widths of form, sequence and what is found where the drawing has a column of its own, points.
const COLUMNS: [f32; 3] = [400.0, 500.0, 400.0];

/// From this width on it has, so that it is no narrower than in the smallest window, points.
const WIDE: f32 = 1300.0 + 3.0 * GAP + 360.0;

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let kit = cx.offered_kit();
    let Some(here) = Here::of(cx, kit) else {
        aside(ui, cx.word("site-none"));
        return;
    };
    let fresh = cx.own.look_at(&here.site.id);
    keys::handle(ui, cx, &here);
    let width = ui.available_width();
    if width >= WIDE {
        wide(ui, cx, &here, fresh);
    } else if width >= 1000.0 {
        medium(ui, cx, &here, fresh);
    } else {
        narrow(ui, cx, &here, fresh);
    }
}

/// Four columns: form, sequence, what is found, drawing.
fn wide(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>, fresh: bool) {
    let mut told = None;
    let [form, middle, found, drawing] = columns(ui, COLUMNS);
    named(ui, form, here, fresh, |ui| {
        form::ui(ui, cx, here, &mut told);
    });
    let (above, below) = split(middle, derivation::HEIGHT);
    column(ui, "sequence", above, fresh, |ui| {
        sequence::table(ui, cx, here, &mut told);
        sequence::chosen(ui, cx, here);
        sequence::others(ui, cx, here, &mut told);
    });
    told_ui(ui, cx, here, told, below);
    column(ui, "found", found, fresh, |ui| {
        concerns::ui(ui, cx, here);
        alternatives::ui(ui, cx, here);
    });
    place(ui, drawing, |ui| picture::ui(ui, cx, here));
}

/// Three columns: form, sequence over one of what is found, the step, other implants; drawing.
fn medium(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>, fresh: bool) {
    let mut told = None;
    let width = ui.available_width();
    let [form, middle, drawing, _] = columns(ui, [width * 0.32, width * 0.37, width * 0.27]);
    named(ui, form, here, fresh, |ui| {
        form::ui(ui, cx, here, &mut told);
    });
    let (above, below) = split(middle, derivation::HEIGHT);
    let (above, pane) = split(above, panes::height(above.height()));
    column(ui, "sequence", above, fresh, |ui| {
        sequence::table(ui, cx, here, &mut told);
        sequence::others(ui, cx, here, &mut told);
    });
    place(ui, pane, |ui| panes::ui(ui, cx, here));
    told_ui(ui, cx, here, told, below);
    let drawing = drawing.with_max_x(ui.max_rect().right());
    place(ui, drawing, |ui| picture::ui(ui, cx, here));
}

/// One below the other, the drawing first.
fn narrow(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>, fresh: bool) {
    let mut told = None;
    form::head(ui, here);
    at_top(ScrollArea::vertical(), fresh).show(ui, |ui| {
        let size = vec2(ui.available_width(), 460.0);
        ui.allocate_ui(size, |ui| picture::ui(ui, cx, here));
        sequence::table(ui, cx, here, &mut told);
        sequence::chosen(ui, cx, here);
        sequence::others(ui, cx, here, &mut told);
        derivation::ui(ui, cx, here, told.take());
        concerns::ui(ui, cx, here);
        alternatives::ui(ui, cx, here);
        form::ui(ui, cx, here, &mut told);
    });
}

fn told_ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    here: &Here<'_>,
    told: Option<Derivation>,
    rect: egui::Rect,
) {
    place(ui, rect, |ui| derivation::ui(ui, cx, here, told));
}

/// Columns of these widths and one of what is left.
fn columns(ui: &Ui, widths: [f32; 3]) -> [egui::Rect; 4] {
    let room = ui.available_rect_before_wrap();
    let mut left = room.left();
    let mut next = |width: f32| {
        let size = vec2(width, room.height());
        let rect = egui::Rect::from_min_size(egui::pos2(left, room.top()), size);
        left += width + GAP;
        rect
    };
    let [a, b, c] = widths.map(&mut next);
    let rest = (room.right() - c.right() - GAP).max(0.0);
    [a, b, c, next(rest)]
}

/// The part above and the part of this height below.
fn split(rect: egui::Rect, below: f32) -> (egui::Rect, egui::Rect) {
    let (above, below) = rect.split_top_bottom_at_y(rect.bottom() - below);
    (above.with_max_y(above.bottom() - 6.0), below)
}

/// The form below the site's name.
fn named(ui: &mut Ui, rect: egui::Rect, here: &Here<'_>, fresh: bool, add: impl FnOnce(&mut Ui)) {
    let mut below = rect;
    place(ui, rect, |ui| {
        form::head(ui, here);
        below.min.y = ui.min_rect().bottom() + 4.0;
    });
    column(ui, "form", below, fresh, add);
}

/// Scrolled to its top where another site is looked at.
fn at_top(area: ScrollArea, fresh: bool) -> ScrollArea {
    if fresh {
        area.vertical_scroll_offset(0.0)
    } else {
        area
    }
}

/// A column that scrolls where it is too long.
fn column(ui: &mut Ui, name: &str, rect: egui::Rect, fresh: bool, add: impl FnOnce(&mut Ui)) {
    place(ui, rect, |ui| {
        at_top(ScrollArea::vertical(), fresh)
            .id_salt(name)
            .auto_shrink([false, false])
            .show(ui, |ui| {
                // The scroll bar lies over the column; nothing may lie under it.
                ui.set_max_width(ui.available_width() - 12.0);
                add(ui);
            });
    });
}

fn place(ui: &mut Ui, rect: egui::Rect, add: impl FnOnce(&mut Ui)) {
    let builder = UiBuilder::new().max_rect(rect);
    let mut child = ui.new_child(builder);
    child.shrink_clip_rect(rect);
    add(&mut child);
}
