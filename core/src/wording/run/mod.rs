//! The run order: what it costs, how good it is, what happens at each step, why, and why there is
//! none.

mod cost;
mod none;
mod step;
mod stock;
mod verdict;
mod why;

#[cfg(test)]
mod tests;

pub use cost::CostWords;
pub use step::RunStepText;

use super::Formatter;
use crate::order::Change;

impl Change {
    /// Its name in text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Mount => "mount",
            Self::Reset => "reset",
            Self::Move => "move",
            Self::Sleeve => "sleeve",
            Self::Speed => "speed",
        }
    }
}

impl Formatter<'_> {
    /// A change in one word: "mount", "re-set".
    #[must_use]
    pub fn run_change(&self, change: Change) -> String {
        self.word(&format!("run-change-{}", change.key()))
    }

    /// A change in full: "another instrument in the handpiece".
    #[must_use]
    pub fn run_change_in_full(&self, change: Change) -> String {
        self.word(&format!("run-change-full-{}", change.key()))
    }
}
