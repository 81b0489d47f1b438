//! The same steps as a list: what is done, and the changes before it.

use super::cached::CachedOrder;
use super::heading;
use super::keys::{self, Focus};
use crate::look::{Font, Theme, row};
use crate::view::order::Context;
use egui::{Id, Sense, Ui, vec2};
use traywright_core::drawing::Ink;

/// Room for the number, points.
const INDENT: f32 = 40.0;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, told: &CachedOrder) {
    heading(ui, cx.word("order-list"));
    let chosen = cx.own.chosen.unwrap_or_default();
    keys::handle(ui, cx, told, id_of(chosen), Focus::List);
    ui.spacing_mut().item_spacing.y = 0.0;
    for n in 0..told.said.len() {
        row(ui, cx, told, n);
    }
}

fn id_of(n: usize) -> Id {
    Id::unique(("order step", n))
}

fn row(ui: &mut Ui, cx: &mut Context<'_>, told: &CachedOrder, n: usize) {
    let theme = Theme::of(ui);
    let said = &told.said[n];
    let chosen = cx.own.chosen == Some(n);
    let width = ui.available_width();
    let room = (width - INDENT - 8.0).max(80.0);
    let (strong, soft) = (theme.fill(Ink::Strong), theme.fill(Ink::Soft));
    let changes: Vec<&str> = said
        .changes
        .iter()
        .map(|(_, words)| words.as_str())
        .collect();
    let changes = changes.join("; ");
    let caption = Font::Caption.id();
    let painter = ui.painter();
    let above = painter.layout(changes.clone(), caption, soft, room);
    let body = Font::Body.id();
    let line = painter.layout(said.line.clone(), body, strong, room);
    let number = Font::StrongBody.id();
    let number = painter.layout_no_wrap((n + 1).to_string(), number, strong);
    let top = if changes.is_empty() {
        0.0
    } else {
        above.rect.height() + 1.0
    };
    let height = 6.0 + top + line.rect.height() + 6.0;
    let whole = if changes.is_empty() {
        format!("{}. {}", n + 1, said.line)
    } else {
        format!("{}. {changes}. {}", n + 1, said.line)
    };
    let to_it = chosen && std::mem::take(&mut cx.own.to_row);
    let look = (height, id_of(n));
    let (rect, response) = row::row(ui, look, Sense::CLICK, (chosen, to_it), &whole);
    if response.clicked() {
        cx.own.chosen = Some(n);
        cx.own.said = None;
        cx.own.to_row = true;
    }
    if !ui.is_rect_visible(rect) {
        return;
    }
    row::ground(ui, rect, 0.0, chosen, &response);
    let painter = ui.painter();
    let at = rect.min + vec2(INDENT, 6.0);
    painter.galley(at, above, soft);
    painter.galley(at + vec2(0.0, top), line, strong);
    painter.galley(rect.min + vec2(8.0, 6.0 + top), number, strong);
}
