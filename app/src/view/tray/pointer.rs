//! The pointer on the tray: it chooses a thing, takes it in hand, puts it in another slot.

use super::carried::{Carried, CarriedBy, put_down, words};
use crate::desk::Document;
use crate::look::{Font, Theme};
use crate::view::tray::Context;
use egui::{CursorIcon, Key, Modifiers, Order, Pos2, Rect, Response, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::kit::Label;
use traywright_core::plan::LoadItem;

/// Listens to the pointer on the drawing.
pub(super) fn handle(ui: &Ui, cx: &mut Context<'_>, document: &Document, response: &Response) {
    let loading = &document.worksheet().loading;
    let thing_at = |cx: &Context<'_>, place: Pos2| {
        let slot = slot_at(cx, place)?;
        let mut items = loading.iter();
        items
            .find(|item| item.slot.as_ref() == Some(&slot))
            .map(LoadItem::held)
    };
    if response.drag_started() {
        let pressed = ui.input(|input| input.pointer.press_origin());
        if let Some(place) = pressed
            && let Some(thing) = thing_at(cx, place)
        {
            take(cx, thing, place);
        }
    } else if response.clicked()
        && let Some(place) = response.interact_pointer_pos()
        && let Some(thing) = thing_at(cx, place)
    {
        cx.own.chosen = Some(thing);
        cx.own.focus = true;
    }
    if let Some(place) = response.hover_pos()
        && thing_at(cx, place).is_some()
    {
        ui.set_cursor_icon(CursorIcon::Grab);
    }
}

/// Takes a thing in hand with the pointer.
pub(super) fn take(cx: &mut Context<'_>, thing: traywright_core::case::Held, place: Pos2) {
    cx.own.chosen = Some(thing.clone());
    cx.own.carried = Some(Carried {
        thing,
        over: None,
        by: CarriedBy::Pointer(place),
    });
}

/// Follows the pointer while it carries something, wherever it is.
pub(super) fn follow(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let Some(CarriedBy::Pointer(before)) = cx.own.carried.as_ref().map(|c| c.by) else {
        return;
    };
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        cx.own.carried = None;
        return;
    }
    let place = ui
        .input(|input| input.pointer.interact_pos())
        .unwrap_or(before);
    let over = slot_at(cx, place);
    if let Some(carried) = &mut cx.own.carried {
        carried.by = CarriedBy::Pointer(place);
        carried.over = over;
    }
    if !ui.input(|input| input.pointer.any_down()) {
        put_down(cx);
        return;
    }
    ui.set_cursor_icon(CursorIcon::Grabbing);
    if let Some(carried) = cx.own.carried.clone() {
        let text = words(cx, document, &carried);
        beside(ui, place, text);
    }
}

/// The words beside the pointer.
fn beside(ui: &Ui, place: Pos2, text: String) {
    let theme = Theme::of(ui);
    let layer = egui::LayerId::new(Order::Tooltip, egui::Id::unique("tray in hand"));
    let painter = ui.ctx().layer_painter(layer);
    let font = Font::Caption.id();
    let galley = painter.layout(text, font, theme.fill(Ink::Strong), 280.0);
    let room = ui.ctx().content_rect().shrink(6.0);
    let size = galley.size() + vec2(16.0, 12.0);
    let corner = (place + vec2(16.0, 18.0))
        .min(room.max - size)
        .max(room.min);
    let area = Rect::from_min_size(corner, size);
    let edge = egui::Stroke::new(1.0, theme.line(Ink::Guide));
    painter.rect(
        area,
        3.0,
        theme.fill(Ink::Tooth),
        edge,
        egui::StrokeKind::Inside,
    );
    painter.galley(area.min + vec2(8.0, 6.0), galley, theme.fill(Ink::Strong));
}

fn slot_at(cx: &Context<'_>, place: Pos2) -> Option<Label> {
    let mut slots = cx.own.slots.iter();
    let found = slots.find(|(_, rect)| rect.contains(place));
    found.map(|(name, _)| Label::from(name.as_str()))
}
