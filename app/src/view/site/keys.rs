//! Keys of the view: through the steps, and a step up or down.

use super::here::Here;
use super::sequence;
use crate::action::Action;
use crate::view::site::Context;
use egui::{Key, KeyboardShortcut, Modifiers, Ui};

const fn key(held: Modifiers, key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(held, key)
}

/// Looks at the step before.
pub(super) const BEFORE: [KeyboardShortcut; 2] = [
    key(Modifiers::COMMAND, Key::ArrowUp),
    key(Modifiers::NONE, Key::OpenBracket),
];
/// Looks at the next step.
pub(super) const NEXT: [KeyboardShortcut; 2] = [
    key(Modifiers::COMMAND, Key::ArrowDown),
    key(Modifiers::NONE, Key::CloseBracket),
];
/// Moves the step up.
pub(super) const EARLIER: [KeyboardShortcut; 1] = [key(Modifiers::ALT, Key::ArrowUp)];
/// Moves it down.
pub(super) const LATER: [KeyboardShortcut; 1] = [key(Modifiers::ALT, Key::ArrowDown)];

/// Takes these keys, while somebody types only those with Ctrl.
pub(super) fn handle(ui: &Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    if cx.state.ask.is_some() {
        return;
    }
    let typing = ui.ctx().text_edit_focused();
    let (to, by) = ui.input_mut(|input| {
        let mut presses = |keys: &[KeyboardShortcut]| -> i8 {
            let mut pressed = |key: &KeyboardShortcut| {
                (key.modifiers == Modifiers::COMMAND || !typing) && input.consume_shortcut(key)
            };
            keys.iter().map(|key| i8::from(pressed(key))).sum()
        };
        (
            presses(&NEXT) - presses(&BEFORE),
            presses(&LATER) - presses(&EARLIER),
        )
    });
    if to != 0 {
        step_on(cx, here, to);
    }
    if by != 0 {
        sequence::move_step(cx, here, by);
    }
}

/// Looks at the step so many further on; at either end it stays.
pub(super) fn step_on(cx: &mut Context<'_>, here: &Here<'_>, by: i8) {
    let steps = &here.site.steps;
    let at = here.step().map_or(0, |(at, _)| at);
    let next = at.saturating_add_signed(isize::from(by));
    if let Some(step) = steps.get(next.min(steps.len().saturating_sub(1))) {
        cx.act(Action::ChooseStep(Some(step.id.clone())));
    }
}
