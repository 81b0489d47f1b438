//! What keys do on the strip and on the list: arrows choose a step, with Alt or Ctrl they move it.

use super::hand;
use super::told::Told;
use crate::action::Action;
use crate::window::Stage;
use egui::{EventFilter, Id, Key, Modifiers, Ui};

/// On which of the two the keyboard is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    Strip,
    List,
}

const BACK: [Key; 2] = [Key::ArrowLeft, Key::ArrowUp];
const ON: [Key; 2] = [Key::ArrowRight, Key::ArrowDown];
const MOVE: [Modifiers; 2] = [Modifiers::ALT, Modifiers::COMMAND];

/// Listens, while the control of this id has the keyboard.
pub(super) fn listen(ui: &Ui, stage: &mut Stage<'_>, told: &Told, id: Id, on: On) {
    let arrows = || BACK.into_iter().chain(ON);
    let held = ui.input(|input| arrows().any(|key| input.key_down(key)));
    if stage.sight.order.moving && !held {
        stage.sight.order.moving = false;
        stage.act(Action::EndGesture);
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
    let Some(at) = stage.sight.order.chosen else {
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
                hand::put(stage, told, at, to.unwrap_or(usize::MAX));
                stage.sight.order.moving = true;
                show(stage, on);
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
    stage.sight.order.chosen = Some(to);
    stage.sight.order.said = None;
    show(stage, on);
}

/// Brings the chosen step into sight where the keyboard is.
fn show(stage: &mut Stage<'_>, on: On) {
    match on {
        On::Strip => stage.sight.order.to_step = true,
        On::List => stage.sight.order.to_row = true,
    }
}
