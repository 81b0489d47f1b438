//! Undo and redo of everything: whole cases, each with the name of what changed it.

use std::sync::Arc;
use traywright_core::case::ValidCase;

/// Mark of one gesture: all edits of the same gesture are one step.
pub type Gesture = u64;

/// Greatest number of steps that can be undone.
const MOST_STEPS: usize = 500;

#[derive(Debug, Clone)]
struct Step {
    name: String,
    before: Arc<ValidCase>,
    gesture: Option<Gesture>,
}

/// Steps that can be undone and redone.
#[derive(Debug, Clone, Default)]
pub(super) struct History {
    done: Vec<Step>,
    undone: Vec<Step>,
}

impl History {
    /// Notes a change. A change of the gesture that the last one belongs to adds no step.
    pub(super) fn note(&mut self, name: String, before: Arc<ValidCase>, gesture: Option<Gesture>) {
        self.undone.clear();
        let goes_on = gesture.is_some() && self.done.last().is_some_and(|s| s.gesture == gesture);
        if goes_on {
            return;
        }
        if self.done.len() == MOST_STEPS {
            self.done.remove(0);
        }
        self.done.push(Step {
            name,
            before,
            gesture,
        });
    }

    /// Takes back the last step: the case before it.
    pub(super) fn undo(&mut self, now: Arc<ValidCase>) -> Option<Arc<ValidCase>> {
        let step = self.done.pop()?;
        self.undone.push(Step {
            name: step.name,
            before: now,
            gesture: None,
        });
        Some(step.before)
    }

    /// Does the last undone step again: the case after it.
    pub(super) fn redo(&mut self, now: Arc<ValidCase>) -> Option<Arc<ValidCase>> {
        let step = self.undone.pop()?;
        self.done.push(Step {
            name: step.name,
            before: now,
            gesture: None,
        });
        Some(step.before)
    }

    /// Name of what would be undone.
    pub(super) fn undo_name(&self) -> Option<&str> {
        self.done.last().map(|step| step.name.as_str())
    }

    /// Name of what would be done again.
    pub(super) fn redo_name(&self) -> Option<&str> {
        self.undone.last().map(|step| step.name.as_str())
    }

    /// Names of the steps done since the case was last so; nothing where it never was.
    pub(super) fn since(&self, was_so: impl Fn(&ValidCase) -> bool) -> Option<Vec<&str>> {
        let from = self.done.iter().rposition(|step| was_so(&step.before))?;
        let names = self.done[from..].iter();
        Some(names.map(|step| step.name.as_str()).collect())
    }

    /// Number of steps that can be undone.
    pub(super) fn len(&self) -> usize {
        self.done.len()
    }
}
