//! A step counts once it is written: one that could not be is taken back, with the reason.

use super::State;
use super::session::Effect;

impl State {
    /// True if something that was to be recorded in this frame was not: then nothing after it is either.
    #[must_use]
    pub fn is_halted(&self) -> bool {
        self.halted
    }

    /// Takes back what a press did that could not be recorded, and says so in these words. Nothing that waits for a
    /// record goes on without it: no pass begins, no gauge counts as checked.
    pub fn not_written(&mut self, words: &str) {
        self.unwritten = Some(words.to_owned());
        let Some(before) = self.before.take() else {
            return;
        };
        self.halted = true;
        self.doing = before;
        // Nor is it told what to do about a thing that fell.
        self.told = None;
    }

    /// The view is about to be left for figures: what is recorded of that. Where it cannot be, what there
    /// was stays, and so does the view.
    pub fn leave(&mut self) -> Vec<Effect> {
        let before = self.doing.clone();
        let effects = self.look_away();
        self.before = (!effects.is_empty()).then_some(before);
        effects
    }

    /// Something was recorded: the reason why the step before was not is of the past.
    pub fn written(&mut self) {
        self.unwritten = None;
    }
}
