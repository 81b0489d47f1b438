//! Keys of the loading view. Every target has one.

use super::session::{GaugeFell, Input};
use super::wedge::{Came, Wedge};
use crate::action::key_name;
use egui::{Event, Key, Modifiers, Ui};
use traywright_core::sign::{Pass, Stage};

/// A request by the keys of this frame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::view) enum Pressed {
    /// Something that the session takes.
    Input(Input),
    /// The list of everything, or back from it.
    List,
    /// The record of what was set and read, or back from it.
    Record,
    /// Say which piece the drill in hand is.
    Piece,
    /// It is the piece with this mark.
    Marked(String),
    /// Leave to the desk.
    Leave,
    /// The list of what a change made wrong was read.
    Understood,
    /// A hand took what the STOP asks about, and moved its stop.
    Taken,
    /// What the STOP asks about was in no hand.
    Stays,
}

impl Pressed {
    /// True for a sign that is typed or taken away: by itself it acts on nothing.
    pub(super) const fn is_typing(&self) -> bool {
        matches!(
            self,
            Self::Input(Input::Digit(_) | Input::Mark | Input::Sign(_) | Input::Back)
        )
    }
}

/// The presses of a frame up to the first that acts: what comes after it was pressed before anybody saw what
/// it did.
pub(super) fn up_to_one_act(mut pressed: Vec<Pressed>) -> Vec<Pressed> {
    let acts = pressed.iter().position(|one| !one.is_typing());
    pressed.truncate(acts.map_or(pressed.len(), |at| at + 1));
    pressed
}

/// Every key with what it asks for. Digits, marks and Escape are read apart.
static KEYS: [(Key, Pressed); 25] = [
    (Key::Backspace, Pressed::Input(Input::Back)),
    (Key::Enter, Pressed::Input(Input::Enter)),
    (Key::Space, Pressed::Input(Input::Done)),
    (Key::ArrowLeft, Pressed::Input(Input::Previous)),
    (Key::ArrowRight, Pressed::Input(Input::Next)),
    (Key::B, begin(Stage::Bench, Pass::Setting)),
    (Key::A, begin(Stage::Bench, Pass::Blind)),
    (Key::S, begin(Stage::SterileField, Pass::Setting)),
    (Key::C, begin(Stage::SterileField, Pass::Blind)),
    (Key::E, Pressed::Input(Input::End)),
    (Key::P, Pressed::Input(Input::OtherPerson)),
    (Key::R, Pressed::Input(Input::Reset)),
    (Key::T, Pressed::Input(Input::OtherStage)),
    (Key::F, Pressed::Input(Input::Fell)),
    (Key::N, Pressed::Input(Input::DidNotFall)),
    (Key::G, Pressed::Input(Input::Gauge(GaugeFell::No))),
    (Key::D, Pressed::Input(Input::Gauge(GaugeFell::Yes))),
    (Key::O, Pressed::Input(Input::Open)),
    (Key::I, Pressed::Input(Input::Singly)),
    (Key::L, Pressed::List),
    (Key::V, Pressed::Record),
    (Key::M, Pressed::Piece),
    (Key::U, Pressed::Understood),
    (Key::Y, Pressed::Taken),
    (Key::K, Pressed::Stays),
];

const fn begin(stage: Stage, pass: Pass) -> Pressed {
    Pressed::Input(Input::Begin(stage, pass))
}

fn key_of(pressed: &Pressed) -> Option<Key> {
    let mut keys = KEYS.iter();
    keys.find(|(_, own)| own == pressed).map(|(key, _)| *key)
}

/// The key of a request, as a target shows it.
pub(super) fn shown(pressed: &Pressed) -> &'static str {
    key_of(pressed).map_or("", key_name)
}

/// True while a pass is chosen, so that the keys of the passes mean something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Choosing {
    Pass,
    Nothing,
}

/// Keys that mean something now, those of a scanner apart. What is typed into a field, and what a focused target is pressed
/// by, is left to them.
pub(super) fn pressed(ui: &Ui, choosing: Choosing, wedge: &mut Wedge) -> Vec<Pressed> {
    let typing = ui.ctx().text_edit_focused();
    let focused = ui.ctx().memory(|memory| memory.focused().is_some());
    let found = ui.ctx().input_mut(|input| {
        let now_s = input.time;
        let mut found = Vec::new();
        if typing {
            wedge.clear();
        } else {
            wedge.look(now_s, &mut found);
        }
        // One that is held is pressed once.
        let held = input.events.iter().any(is_held_escape);
        if input.consume_key(Modifiers::NONE, Key::Escape) && !held {
            wedge.take(Came::Other(Pressed::Leave), now_s, &mut found);
        }
        if typing {
            return found;
        }
        input.events.retain(|event| {
            // Enter ends a code, whatever has the keyboard.
            let focused = focused && !wedge.is_scanning(now_s);
            let Some(came) = one(event, choosing, focused) else {
                return true;
            };
            wedge.take(came, now_s, &mut found);
            false
        });
        found
    });
    if wedge.waits() {
        // The clock is looked at again.
        ui.ctx().request_repaint();
    }
    found
}

/// True if any key but this input's was pressed, also one that the window takes for itself.
pub(super) fn any_but(events: &[Event], pressed: &Pressed) -> bool {
    let own = match pressed {
        Pressed::Leave => Some(Key::Escape),
        _ => key_of(pressed),
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

fn is_held_escape(event: &Event) -> bool {
    matches!(
        event,
        Event::Key {
            key: Key::Escape,
            pressed: true,
            repeat: true,
            ..
        }
    )
}

fn one(event: &Event, choosing: Choosing, focused: bool) -> Option<Came> {
    match event {
        Event::Text(text) => {
            let mut signs = text.chars();
            let sign = signs.next().filter(|_| signs.next().is_none())?;
            (!sign.is_whitespace() && !sign.is_control()).then_some(Came::Text(sign))
        }
        Event::Key {
            key,
            pressed: true,
            repeat: false,
            modifiers,
            ..
        } if modifiers.is_none() => {
            let pressed = of_key(*key, choosing, focused)?;
            let mut name = key_name(*key).chars();
            let sign = name.next().filter(|_| name.next().is_none());
            Some(match sign.filter(char::is_ascii_alphabetic) {
                Some(letter) => Came::Letter(letter, pressed),
                None => Came::Other(pressed),
            })
        }
        _ => None,
    }
}

fn of_key(key: Key, choosing: Choosing, focused: bool) -> Option<Pressed> {
    let (_, pressed) = KEYS.iter().find(|(own, _)| *own == key)?;
    match pressed {
        Pressed::Input(Input::Enter | Input::Done) if focused => None,
        Pressed::Input(Input::Begin(..)) if choosing == Choosing::Nothing => None,
        pressed => Some(pressed.clone()),
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
        for (key, pressed) in &KEYS {
            assert_eq!(key_of(pressed), Some(*key));
            assert_eq!(KEYS.iter().filter(|(own, _)| own == key).count(), 1);
        }
    }

    #[test]
    fn digits_and_both_marks_go_to_the_keypad() {
        let typed = |text: &str| {
            let came = one(&Event::Text(text.to_owned()), Choosing::Nothing, false)?;
            let mut out = Vec::new();
            Wedge::default().take(came, 1.0, &mut out);
            out.pop()
        };
        assert_eq!(typed("7"), Some(Pressed::Input(Input::Digit(7))));
        for mark in [",", "."] {
            assert_eq!(typed(mark), Some(Pressed::Input(Input::Mark)));
        }
        for nothing in ["x", "12", " ", "\n", ""] {
            assert_eq!(typed(nothing), None);
        }
    }

    #[test]
    fn a_held_key_is_pressed_once_and_a_focused_target_keeps_its_keys() {
        let session = Choosing::Nothing;
        let mut held = key(Key::Space);
        assert_eq!(
            one(&held, session, false),
            Some(Came::Other(Pressed::Input(Input::Done)))
        );
        assert_eq!(one(&held, session, true), None);
        if let Event::Key { repeat, .. } = &mut held {
            *repeat = true;
        }
        assert_eq!(one(&held, session, false), None);
    }

    #[test]
    fn a_pass_is_chosen_by_a_key_only_while_it_is_asked_for() {
        let bench = Some(Came::Letter('B', begin(Stage::Bench, Pass::Setting)));
        assert_eq!(one(&key(Key::B), Choosing::Pass, false), bench);
        assert_eq!(one(&key(Key::B), Choosing::Nothing, false), None);
    }
}
