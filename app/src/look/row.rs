//! Rows of a list that is worked by the arrow keys.

use super::Theme;
use egui::{
    FocusDirection, Id, Key, Modifiers, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo,
    vec2,
};
use traywright_core::drawing::Ink;

/// Which of a list's rows the arrow keys lead to from the one that is looked at.
#[must_use]
pub fn arrows(ui: &Ui, at: Option<usize>, count: usize) -> Option<usize> {
    let last = count.checked_sub(1)?;
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let ways = [
        (Key::ArrowDown, at.map_or(0, |at| (at + 1).min(last))),
        (Key::ArrowUp, at.map_or(0, |at| at.saturating_sub(1))),
        (Key::Home, 0),
        (Key::End, last),
    ];
    let (_, to) = ways.into_iter().find(|(key, _)| pressed(*key))?;
    Some(to)
}

/// The keyboard stays in the list: whoever goes through the rows does not leave them by the arrow.
pub fn stay(ui: &Ui) {
    ui.memory_mut(|memory| memory.move_focus(FocusDirection::None));
}

/// Room for a row of this height, with what is said of it. Only the row that is `chosen` can be
/// reached by Tab; arrows lead on from there. `to_it` says that it is to be given the keyboard.
pub fn row(
    ui: &mut Ui,
    (height, id): (f32, Id),
    sense: Sense,
    (chosen, to_it): (bool, bool),
    said: &str,
) -> (Rect, Response) {
    let sense = if chosen {
        sense | Sense::FOCUSABLE
    } else {
        sense
    };
    let width = ui.available_width();
    let (_, rect) = ui.allocate_space(vec2(width, height));
    let response = ui.interact(rect, id, sense);
    response.widget_info(|| WidgetInfo::selected(egui::Role::ListItem, true, chosen, said));
    if chosen && to_it {
        response.request_focus();
        response.scroll_to_me(None);
    }
    (rect, response)
}

/// Paints what lies under a row: nothing, unless it is chosen, pointed at or has the keyboard.
pub fn ground(ui: &Ui, rect: Rect, corner: f32, chosen: bool, response: &Response) {
    let theme = Theme::of(ui);
    let painter = ui.painter();
    if chosen {
        painter.rect_filled(rect, corner, ui.visuals().selection.bg_fill);
    } else if response.hovered() {
        painter.rect_filled(rect, corner, theme.fill(Ink::Shade));
    }
    if response.has_focus() {
        let accent = Stroke::new(2.0, theme.fill(Ink::Accent));
        painter.rect_stroke(rect, corner, accent, StrokeKind::Inside);
    } else {
        let hair = Stroke::new(1.0, theme.fill(Ink::Hairline));
        painter.hline(rect.x_range(), rect.bottom(), hair);
    }
}

/// A frame around what has the keyboard.
pub fn focus_frame(ui: &Ui, rect: Rect) {
    let accent = Stroke::new(1.5, Theme::of(ui).fill(Ink::Accent));
    ui.painter()
        .rect_stroke(rect, 3.0, accent, StrokeKind::Inside);
}
