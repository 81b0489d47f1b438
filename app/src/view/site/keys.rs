//! Keys of the view: through the steps, and a step up or down.

use super::here::Here;
use super::sequence;
use crate::action::Action;
use crate::view::site::Context;
use egui::{Key, Modifiers, Ui};

/// Ctrl with up or down, or a square bracket, looks at another step; Alt with up or down moves it.
pub(super) fn handle(ui: &Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    if cx.state.ask.is_some() {
        return;
    }
    let typing = ui.ctx().text_edit_focused();
    let (to, by) = ui.input_mut(|input| {
        let mut way =
            |modifiers, key, typed: bool| (!typed || !typing) && input.consume_key(modifiers, key);
        let to = i8::from(way(Modifiers::COMMAND, Key::ArrowDown, false))
            + i8::from(way(Modifiers::NONE, Key::CloseBracket, true))
            - i8::from(way(Modifiers::COMMAND, Key::ArrowUp, false))
            - i8::from(way(Modifiers::NONE, Key::OpenBracket, true));
        let by = i8::from(way(Modifiers::ALT, Key::ArrowDown, true))
            - i8::from(way(Modifiers::ALT, Key::ArrowUp, true));
        (to, by)
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
