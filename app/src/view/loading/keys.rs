//! Keys of the loading view. Every target has one.

use super::session::{GaugeFell, Input, Phase, Session};
use crate::action::key_name;
use egui::{Event, Key, Modifiers, Ui};
use traywright_core::sign::Stage;

/// A request by the keys of this frame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Pressed {
    /// Something that the session takes.
    Input(Input),
    /// The list of everything, or back from it.
    List,
    /// The record of what was set and read, or back from it.
    Record,
    /// Leave to the desk.
    Leave,
    /// The list of what a change made wrong was read.
    Understood,
}

/// Every key with what it asks for. Digits, marks and Escape are read apart.
const KEYS: [(Key, Pressed); 17] = [
    (Key::Backspace, Pressed::Input(Input::Back)),
    (Key::Enter, Pressed::Input(Input::Enter)),
    (Key::Space, Pressed::Input(Input::Done)),
    (Key::ArrowLeft, Pressed::Input(Input::Previous)),
    (Key::ArrowRight, Pressed::Input(Input::Next)),
    (Key::B, Pressed::Input(Input::Stage(Stage::Bench))),
    (Key::S, Pressed::Input(Input::Stage(Stage::SterileField))),
    (Key::P, Pressed::Input(Input::OtherPerson)),
    (Key::R, Pressed::Input(Input::Reset)),
    (Key::T, Pressed::Input(Input::OtherStage)),
    (Key::F, Pressed::Input(Input::Fell)),
    (Key::G, Pressed::Input(Input::Gauge(GaugeFell::No))),
    (Key::D, Pressed::Input(Input::Gauge(GaugeFell::Yes))),
    (Key::O, Pressed::Input(Input::Open)),
    (Key::L, Pressed::List),
    (Key::V, Pressed::Record),
    (Key::U, Pressed::Understood),
];

fn key_of(pressed: &Pressed) -> Option<Key> {
    let mut keys = KEYS.iter();
    keys.find(|(_, own)| own == pressed).map(|(key, _)| *key)
}

/// The key of a request, as a target shows it.
pub(super) fn shown(pressed: &Pressed) -> &'static str {
    key_of(pressed).map_or("", key_name)
}

/// Keys that mean something now. What is typed into a field, and what a focused target is pressed
/// by, is left to them.
pub(super) fn pressed(ui: &Ui, session: &Session) -> Vec<Pressed> {
    let typing = ui.ctx().text_edit_focused();
    let focused = ui.ctx().memory(|memory| memory.focused().is_some());
    ui.ctx().input_mut(|input| {
        let mut found = Vec::new();
        if input.consume_key(Modifiers::NONE, Key::Escape) {
            found.push(Pressed::Leave);
        }
        if typing {
            return found;
        }
        input.events.retain(|event| {
            let Some(pressed) = one(event, session, focused) else {
                return true;
            };
            found.push(pressed);
            false
        });
        found
    })
}

/// True if any key but this input's was pressed, also one that the window takes for itself.
pub(super) fn any_but(events: &[Event], input: &Input) -> bool {
    let own = match input {
        Input::Reset
        | Input::OtherStage
        | Input::Open
        | Input::Fell
        | Input::Gauge(GaugeFell::Yes) => key_of(&Pressed::Input(input.clone())),
        _ => return false,
    };
    events.iter().any(|event| match event {
        Event::Key {
            key,
            pressed: true,
            modifiers,
            ..
        } => Some(*key) != own || !modifiers.is_none(),
        _ => false,
    })
}

fn one(event: &Event, session: &Session, focused: bool) -> Option<Pressed> {
    match event {
        Event::Text(text) => match text.as_bytes() {
            b"," | b"." => Some(Pressed::Input(Input::Mark)),
            [digit @ b'0'..=b'9'] => Some(Pressed::Input(Input::Digit(digit - b'0'))),
            _ => None,
        },
        Event::Key {
            key,
            pressed: true,
            repeat: false,
            modifiers,
            ..
        } if modifiers.is_none() => of_key(*key, session, focused),
        _ => None,
    }
}

fn of_key(key: Key, session: &Session, focused: bool) -> Option<Pressed> {
    let (_, pressed) = KEYS.into_iter().find(|(own, _)| *own == key)?;
    match pressed {
        Pressed::Input(Input::Enter | Input::Done) if focused => None,
        Pressed::Input(Input::Stage(_)) if session.phase != Phase::Stage => None,
        pressed => Some(pressed),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(key: Key) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: Modifiers::NONE,
        }
    }

    #[test]
    fn no_two_keys_ask_for_the_same_and_no_two_requests_share_a_key() {
        for (key, pressed) in KEYS {
            assert_eq!(key_of(&pressed), Some(key));
            assert_eq!(KEYS.iter().filter(|(own, _)| *own == key).count(), 1);
        }
    }

    #[test]
    fn digits_and_both_marks_go_to_the_keypad() {
        let session = Session::default();
        let typed = |text: &str| one(&Event::Text(text.to_owned()), &session, false);
        assert_eq!(typed("7"), Some(Pressed::Input(Input::Digit(7))));
        for mark in [",", "."] {
            assert_eq!(typed(mark), Some(Pressed::Input(Input::Mark)));
        }
        assert_eq!(typed("x"), None);
        assert_eq!(typed("12"), None);
    }

    #[test]
    fn a_held_key_is_pressed_once_and_a_focused_target_keeps_its_keys() {
        let session = Session::default();
        let mut held = key(Key::Space);
        assert_eq!(
            one(&held, &session, false),
            Some(Pressed::Input(Input::Done))
        );
        assert_eq!(one(&held, &session, true), None);
        if let Event::Key { repeat, .. } = &mut held {
            *repeat = true;
        }
        assert_eq!(one(&held, &session, false), None);
    }

    #[test]
    fn the_stage_is_chosen_by_a_key_only_while_it_is_asked_for() {
        let mut session = Session::default();
        let bench = Some(Pressed::Input(Input::Stage(Stage::Bench)));
        assert_eq!(one(&key(Key::B), &session, false), bench);
        session.phase = Phase::Load;
        assert_eq!(one(&key(Key::B), &session, false), None);
    }
}
