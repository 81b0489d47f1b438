//! Keys of the surgery view. Every target has one.

use crate::action::key_name;
use egui::{Event, Key, Modifiers, Ui};

/// A request by the keys of this frame, or by a target.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Pressed {
    /// The step is done.
    Done,
    /// What is typed is accepted.
    Enter,
    /// Looks at the step before.
    Back,
    /// Looks at the next step.
    Forward,
    /// Looks at the step that is due.
    Due,
    /// Leaves the step out, for a reason.
    Skip,
    /// Does it, or goes on, although something is open, for a reason.
    Despite,
    /// Something fell.
    Fell,
    /// Of what is listed it is this, by its number.
    Pick(usize),
    /// The stop of its drill is set anew, or read, in the sterile field.
    SetAnew,
    /// What was recorded of the step was recorded by mistake.
    NotDone,
    /// The list of all steps, or back from it.
    List,
    /// Something is to be done otherwise than planned.
    Change,
    /// Another person records from now on.
    Person,
    /// The implant goes in by its carrier.
    Guided,
    /// It is begun through its sleeve.
    Begun,
    /// It goes in without the guide.
    Freehand,
    /// It stopped apical of its planned depth, by what is typed.
    Apical,
    /// A digit.
    Digit(u8),
    /// The decimal mark.
    Mark,
    /// Takes the last sign away.
    Rub,
    /// A text was given in the field.
    Given,
    /// The plan as it is now is gone on with.
    GoOn,
    /// To what is open in the plan, and back from there.
    Findings,
    /// A scanner typed a code.
    Scanned,
    /// Leaves what is asked, or to the desk.
    Leave,
}

impl Pressed {
    /// True if a letter asks for it.
    pub(super) fn is_letter(&self) -> bool {
        let mut keys = KEYS.iter();
        let key = keys.find(|(_, own)| own == self).map(|(key, _)| *key);
        key.is_some_and(|key| key.name().len() == 1)
    }

    /// True for a sign that is typed or taken away: by itself it acts on nothing.
    const fn is_typing(&self) -> bool {
        matches!(self, Self::Digit(_) | Self::Mark | Self::Rub)
    }
}

/// Every key with what it asks for. Digits, marks and Escape are read apart.
static KEYS: [(Key, Pressed); 21] = [
    (Key::Space, Pressed::Done),
    (Key::Enter, Pressed::Enter),
    (Key::Backspace, Pressed::Rub),
    (Key::ArrowLeft, Pressed::Back),
    (Key::ArrowRight, Pressed::Forward),
    (Key::Home, Pressed::Due),
    (Key::S, Pressed::Skip),
    (Key::A, Pressed::Despite),
    (Key::F, Pressed::Fell),
    (Key::R, Pressed::SetAnew),
    (Key::N, Pressed::NotDone),
    (Key::L, Pressed::List),
    (Key::P, Pressed::Person),
    (Key::T, Pressed::Change),
    (Key::G, Pressed::Guided),
    (Key::B, Pressed::Begun),
    (Key::H, Pressed::Freehand),
    (Key::D, Pressed::Apical),
    (Key::U, Pressed::GoOn),
    (Key::O, Pressed::Findings),
    (Key::Escape, Pressed::Leave),
];

/// The key of a request, as a target shows it.
pub(super) fn shown(pressed: &Pressed) -> &'static str {
    let mut keys = KEYS.iter();
    keys.find(|(_, own)| own == pressed)
        .map_or("", |(key, _)| key_name(*key))
}

/// The presses of a frame up to the first that acts: what comes after it was pressed before anybody saw what it did.
pub(super) fn up_to_one_act(mut pressed: Vec<Pressed>) -> Vec<Pressed> {
    let acts = pressed.iter().position(|one| !one.is_typing());
    pressed.truncate(acts.map_or(pressed.len(), |at| at + 1));
    pressed
}

/// Keys that mean something now. What is typed into a field, and what a focused target is pressed by, is left to them.
pub(super) fn pressed(ui: &Ui) -> Vec<Pressed> {
    let typing = ui.ctx().text_edit_focused();
    let focused = ui.ctx().memory(|memory| memory.focused().is_some());
    ui.ctx().input_mut(|input| {
        let mut found = Vec::new();
        input.events.retain(|event| {
            let Some(pressed) = one(event, typing, focused) else {
                return true;
            };
            found.push(pressed);
            false
        });
        found
    })
}

/// True if any key but this request's was pressed, also one that the window takes for itself.
pub(super) fn any_but(events: &[Event], pressed: &Pressed) -> bool {
    let mut keys = KEYS.iter();
    let own = keys.find(|(_, one)| one == pressed).map(|(key, _)| *key);
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

fn one(event: &Event, typing: bool, focused: bool) -> Option<Pressed> {
    match event {
        Event::Text(text) if !typing => match text.as_bytes() {
            b"," | b"." => Some(Pressed::Mark),
            [digit @ b'0'..=b'9'] => Some(Pressed::Digit(digit - b'0')),
            _ => None,
        },
        Event::Key {
            key,
            pressed: true,
            repeat: false,
            modifiers,
            ..
        } if *modifiers == Modifiers::NONE => {
            let (_, pressed) = KEYS.iter().find(|(own, _)| own == key)?;
            match pressed {
                Pressed::Leave => Some(Pressed::Leave),
                _ if typing => None,
                Pressed::Enter | Pressed::Done if focused => None,
                pressed => Some(pressed.clone()),
            }
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(key: Key, repeat: bool) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat,
            modifiers: Modifiers::NONE,
        }
    }

    #[test]
    fn no_two_requests_share_a_key_and_each_shows_its_own() {
        for (key, pressed) in &KEYS {
            assert_eq!(KEYS.iter().filter(|(own, _)| own == key).count(), 1);
            assert_eq!(KEYS.iter().filter(|(_, own)| own == pressed).count(), 1);
            assert_eq!(shown(pressed), key_name(*key));
        }
    }

    #[test]
    fn a_held_key_a_field_and_a_focused_target_act_on_nothing() {
        assert_eq!(
            one(&key(Key::Space, false), false, false),
            Some(Pressed::Done)
        );
        assert_eq!(one(&key(Key::Space, true), false, false), None);
        assert_eq!(one(&key(Key::Space, false), false, true), None);
        assert_eq!(one(&key(Key::S, false), true, true), None);
        assert_eq!(
            one(&key(Key::Escape, false), true, true),
            Some(Pressed::Leave)
        );
        assert_eq!(
            one(&Event::Text("7".to_owned()), false, false),
            Some(Pressed::Digit(7))
        );
        assert_eq!(one(&Event::Text("7".to_owned()), true, true), None);
    }
}
