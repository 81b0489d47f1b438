//! The keys on the strip and on the list: arrows choose a step, with Alt or Ctrl they move it.

use super::cached::CachedOrder;
use super::pointer;
use crate::action::Action;
use crate::view::order::Context;
use egui::{EventFilter, Id, Key, Modifiers, Ui};

/// The one of the two that has the keyboard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Focus {
    Strip,
    List,
}

const BACK: [Key; 2] = [Key::ArrowLeft, Key::ArrowUp];
const ON: [Key; 2] = [Key::ArrowRight, Key::ArrowDown];
const MOVE: [Modifiers; 2] = [Modifiers::ALT, Modifiers::COMMAND];

/// Listens, while the control of this id has the keyboard.
pub(super) fn handle(ui: &Ui, cx: &mut Context<'_>, told: &CachedOrder, id: Id, on: Focus) {
    let arrows = || BACK.into_iter().chain(ON);
    let held = ui.input(|input| arrows().any(|key| input.key_down(key)));
    if cx.own.moving && !held {
        cx.own.moving = false;
        cx.act(Action::EndGesture);
    }
    if !ui.memory(|memory| memory.has_focus(id)) {
        return;
    }
    let filter = EventFilter {
        horizontal_arrows: true,
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
    let Some(at) = cx.own.chosen else {
        return;
    };
    for modifiers in MOVE {
        for (keys, back) in [(BACK, true), (ON, false)] {
            for key in keys {
                if ui.input_mut(|input| input.count_and_consume_key(modifiers, key)) == 0 {
                    continue;
                }
                let to = if back {
                    at.checked_sub(1)
                } else {
                    Some(at + 1)
                };
                pointer::put(cx, told, at, to.unwrap_or(usize::MAX));
                cx.own.moving = true;
                show(cx, on);
                return;
            }
        }
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let last = told.said.len().saturating_sub(1);
    let to = if BACK.into_iter().any(pressed) {
        at.saturating_sub(1)
    } else if ON.into_iter().any(pressed) {
        (at + 1).min(last)
    } else if pressed(Key::Home) {
        0
    } else if pressed(Key::End) {
        last
    } else {
        return;
    };
    cx.own.chosen = Some(to);
    cx.own.said = None;
    show(cx, on);
}

/// Brings the chosen step into sight where the keyboard is.
fn show(cx: &mut Context<'_>, on: Focus) {
    match on {
        Focus::Strip => cx.own.to_step = true,
        Focus::List => cx.own.to_row = true,
    }
}
