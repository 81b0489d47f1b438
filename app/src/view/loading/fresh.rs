//! A press that says "done" is a fresh one: neither a key that is held nor the second half of a double
//! press says so of the next thing, which nobody has looked at yet.

use super::keys::Pressed;
use super::session::Input;
use egui::{Event, Key, Ui};

/// Two presses nearer to each other than this are one, in seconds of the window's clock. Common practice, no
/// source; a hand that has looked at the next thing takes longer.
pub(in crate::view) const APART_S: f64 = 0.35;

/// The time at which a step was last reported done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::view) struct Fresh {
    last_s: f64,
}

impl Default for Fresh {
    fn default() -> Self {
        Self {
            last_s: f64::NEG_INFINITY,
        }
    }
}

impl Fresh {
    /// The presses without any "done" that comes too soon after the press before.
    pub(super) fn only(&mut self, ui: &Ui, pressed: Vec<Pressed>) -> Vec<Pressed> {
        let (now, held) = ui.input(|input| (input.time, input.events.iter().any(is_held)));
        let fresh = pressed.into_iter().filter(|one| {
            if *one != Pressed::Input(Input::Done) {
                return true;
            }
            self.is_fresh(now) && !held
        });
        fresh.collect()
    }

    /// True if a press at this time is one of its own. Each press counts, also one that is not
    /// taken: a burst ends only when the hand rests.
    pub(in crate::view) fn is_fresh(&mut self, now_s: f64) -> bool {
        let fresh = now_s - self.last_s >= APART_S;
        self.last_s = now_s;
        fresh
    }
}

/// A key that presses a target and is held down.
pub(in crate::view) fn is_held(event: &Event) -> bool {
    matches!(
        event,
        Event::Key {
            key: Key::Space | Key::Enter,
            pressed: true,
            repeat: true,
            ..
        }
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_burst_of_presses_is_one() {
        let mut fresh = Fresh::default();
        let taken = |at: &f64| fresh.is_fresh(*at);
        let presses = [10.0, 10.0, 10.1, 10.4, 10.7, 11.2, 11.3, 20.0];
        let taken: Vec<bool> = presses.iter().map(taken).collect();
        assert_eq!(taken, [true, false, false, false, false, true, false, true]);
    }
}
