//! The strip on the screen: names on the left, steps scrolled beside them.

use super::cached::{CachedOrder, NAMES};
use super::keys::{self, Focus};
use super::{Moved, pointer};
use crate::canvas::Camera;
use crate::look::{Font, Theme};
use crate::view::order::Context;
use egui::{
    Key, Label, Pos2, Rect, Response, ScrollArea, Sense, Stroke, StrokeKind, Ui, pos2, vec2,
};
use traywright_core::drawing::Ink;
use traywright_core::order::Cost;

/// Points of the screen for a millimetre of the strip.
const PER_MM: f32 = 4.2;
/// So near the edge a dragged step scrolls the strip, and so far at a time, points.
const EDGE: (f32, f32) = (28.0, 9.0);

#[expect(
    clippy::cast_possible_truncation,
    reason = "pixels need no more than a float holds"
)]
fn px(mm: f64) -> f32 {
    mm as f32 * PER_MM
}

/// Shows the strip and what moving a step comes to.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, told: &CachedOrder) {
    let height = px(told.strip.height_mm) + 2.0;
    let names = px(NAMES);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        let (rect, _) = ui.allocate_exact_size(vec2(names, height), Sense::hover());
        let camera = Camera {
            origin: rect.min,
            per_mm: PER_MM,
        };
        let key = told.key();
        let cached = cx
            .state
            .drawings
            .drawing("order names", key, || told.strip.names.clone());
        cached.paint(ui, camera);
        ScrollArea::horizontal()
            .id_salt("order-strip")
            .auto_shrink([false, true])
            .show(ui, |ui| steps_ui(ui, cx, told, height));
    });
    said_ui(ui, cx, told.priced.cost);
}

fn steps_ui(ui: &mut Ui, cx: &mut Context<'_>, told: &CachedOrder, height: f32) {
    let width = told.strip.columns.last().map_or(0.0, |(_, to)| px(*to)) + 12.0;
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click_and_drag());
    let camera = Camera {
        origin: rect.min + vec2(8.0, 0.0),
        per_mm: PER_MM,
    };
    let name = cx.word("order-strip");
    let chosen = cx.own.chosen;
    if let Some(at) = chosen {
        let fill = ui.visuals().selection.bg_fill;
        let column = column(told, camera, at, rect);
        ui.painter().rect_filled(column, 0.0, fill);
        edge(ui, column, response.has_focus());
    }
    let draw = || told.strip.steps.clone();
    let cached = cx.state.drawings.drawing("order steps", told.key(), draw);
    cached.paint(ui, camera);
    cached.describe(ui, response.id, rect, &name);
    if let Some(at) = chosen
        && std::mem::take(&mut cx.own.to_step)
    {
        ui.scroll_to_rect(column(told, camera, at, rect).expand(40.0), None);
    }
    pointer(ui, cx, told, camera, rect, &response);
    keys::handle(ui, cx, told, response.id, Focus::Strip);
}

fn column(told: &CachedOrder, camera: Camera, at: usize, whole: Rect) -> Rect {
    let (from, to) = told.strip.columns.get(at).copied().unwrap_or_default();
    let x = |mm: f64| camera.origin.x + px(mm);
    Rect::from_min_max(pos2(x(from), whole.top()), pos2(x(to), whole.bottom()))
}

fn edge(ui: &Ui, column: Rect, focused: bool) {
    let accent = Theme::of(ui).fill(Ink::Accent);
    let stroke = Stroke::new(if focused { 2.0 } else { 1.0 }, accent);
    ui.painter()
        .rect_stroke(column, 0.0, stroke, StrokeKind::Inside);
}

/// The step under a place.
fn step_at(told: &CachedOrder, camera: Camera, place: Pos2) -> usize {
    let mm = f64::from((place.x - camera.origin.x) / PER_MM);
    let columns = told.strip.columns.iter();
    let after = columns.take_while(|(_, to)| *to <= mm).count();
    after.min(told.strip.columns.len().saturating_sub(1))
}

fn pointer(
    ui: &Ui,
    cx: &mut Context<'_>,
    told: &CachedOrder,
    camera: Camera,
    whole: Rect,
    response: &Response,
) {
    let place = response.interact_pointer_pos();
    if response.clicked()
        && let Some(place) = place
    {
        response.request_focus();
        cx.own.chosen = Some(step_at(told, camera, place));
        cx.own.said = None;
    }
    if response.drag_started() {
        response.request_focus();
        let pressed = ui.input(|input| input.pointer.press_origin());
        if let Some(place) = pressed {
            let from = step_at(told, camera, place);
            cx.own.chosen = Some(from);
            pointer::hold(cx, from, from);
        }
    }
    let Some(from) = cx.own.drag.as_ref().map(|drag| drag.from) else {
        return;
    };
    if ui.input(|input| input.key_pressed(Key::Escape)) {
        cx.own.drag = None;
        return;
    }
    if let Some(place) = place.filter(|_| response.dragged()) {
        pointer::hold(cx, from, step_at(told, camera, place));
        scroll_along(ui, place);
    }
    if let Some(drag) = &cx.own.drag
        && drag.to != from
    {
        let column = column(told, camera, drag.to, whole);
        let x = if drag.to > from {
            column.right()
        } else {
            column.left()
        };
        let theme = Theme::of(ui);
        let colour = match drag.outcome {
            Ok(_) => theme.fill(Ink::Accent),
            Err(_) => theme.fault(),
        };
        ui.painter()
            .vline(x, whole.y_range(), Stroke::new(3.0, colour));
    }
    if response.drag_stopped() || !ui.input(|input| input.pointer.any_down()) {
        pointer::let_go(cx, told);
    }
}

/// A step that is held near the edge scrolls on.
fn scroll_along(ui: &Ui, place: Pos2) {
    let seen = ui.clip_rect();
    let by = if place.x < seen.left() + EDGE.0 {
        EDGE.1
    } else if place.x > seen.right() - EDGE.0 {
        -EDGE.1
    } else {
        return;
    };
    ui.scroll_with_delta(vec2(by, 0.0));
    ui.ctx().request_repaint();
}

/// The result of the step that is held, or was moved last; else the keys. The line is always there,
/// so that nothing below it jumps.
fn said_ui(ui: &mut Ui, cx: &Context<'_>, now: Cost) {
    let theme = Theme::of(ui);
    let (text, colour) = if let Some(drag) = &cx.own.drag {
        match &drag.outcome {
            Ok(cost) => (
                compared(cx, "order-there", *cost, now),
                theme.fill(Ink::Strong),
            ),
            Err(why) => (why.clone(), theme.fault()),
        }
    } else {
        match &cx.own.said {
            Some(Moved::Stays(why)) => (why.clone(), theme.fault()),
            Some(Moved::From(before)) => {
                let said = compared(cx, "order-moved", now, *before);
                (said, theme.fill(Ink::Strong))
            }
            None => (cx.word("order-keys"), theme.fill(Ink::Soft)),
        }
    };
    ui.add_space(2.0);
    let text = Font::Body.text(text).color(colour);
    ui.add(Label::new(text).wrap());
    ui.add_space(4.0);
}

/// Cost of an order, and its difference from another one.
fn compared(cx: &Context<'_>, id: &str, cost: Cost, than: Cost) -> String {
    let formatter = cx.formatter();
    let differs = formatter.run_difference(cost, than);
    let cost = formatter.run_cost(cost);
    cx.text(id, &[("cost", &cost), ("differs", &differs)])
}
