//! What takes something away for good is pressed twice: nothing undoes it. Neither too soon, as a key that
//! bounces would, nor so long after that nobody remembers the first press.

use super::fresh::APART_S;

/// A second press later than this is none, in seconds of the window's clock. Common practice, no source.
const WAITS_S: f64 = 10.0;

/// The press that waits for its second.
#[derive(Debug)]
pub(in crate::view) struct Twice<P> {
    waits: Option<Waiting<P>>,
}

impl<P> Default for Twice<P> {
    fn default() -> Self {
        Self { waits: None }
    }
}

#[derive(Debug)]
struct Waiting<P> {
    pressed: P,
    /// The time of its last press.
    last_s: f64,
}

/// The press of what is pressed twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::view) enum Press {
    /// The first, or one so near to the one before that both are one.
    First,
    /// The second.
    Second,
}

impl<P: Clone + PartialEq> Twice<P> {
    /// Takes a press.
    pub(in crate::view) fn press(&mut self, pressed: &P, now_s: f64) -> Press {
        let before = self.waits.take().filter(|one| one.pressed == *pressed);
        let rests = before.map(|one| now_s - one.last_s);
        if rests.is_some_and(|rests| (APART_S..WAITS_S).contains(&rests)) {
            return Press::Second;
        }
        self.waits = Some(Waiting {
            pressed: pressed.clone(),
            last_s: now_s,
        });
        Press::First
    }

    /// The press that waits.
    pub(in crate::view) fn waiting(&self) -> Option<&P> {
        self.waits.as_ref().map(|one| &one.pressed)
    }

    /// Seconds for which it still waits; nothing where nothing waits.
    pub(in crate::view) fn waits_s(&self, now_s: f64) -> Option<f64> {
        let waits = self.waits.as_ref();
        waits.map(|one| WAITS_S - (now_s - one.last_s))
    }

    /// Forgets it; true if something waited.
    pub(in crate::view) fn forget(&mut self) -> bool {
        self.waits.take().is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::loading::keys::Pressed;
    use crate::view::loading::session::Input;

    #[test]
    fn a_press_acts_neither_in_a_burst_nor_long_after() {
        let (fell, reset) = (Pressed::Input(Input::Fell), Pressed::Input(Input::Reset));
        let mut twice = Twice::default();
        for (pressed, at, want) in [
            (&fell, 10.0, Press::First),
            (&fell, 10.3, Press::First),
            (&fell, 10.6, Press::First),
            (&fell, 11.0, Press::Second),
            (&fell, 12.0, Press::First),
            (&fell, 22.0, Press::First),
            (&reset, 23.0, Press::First),
            (&fell, 24.0, Press::First),
            (&fell, 33.9, Press::Second),
        ] {
            assert_eq!(twice.press(pressed, at), want, "{at}");
        }
        assert_eq!(twice.waits_s(34.0), None);
    }
}
