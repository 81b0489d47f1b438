//! The run order: what it costs, how good it is, what happens at each step, why, and why there is
//! none.

mod none;
mod step;
mod stock;
mod verdict;
mod why;

#[cfg(test)]
mod tests;

pub use step::RunStepText;

use super::Formatter;
use crate::number;
use crate::order::{Change, Cost};

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
    /// A time in tenths of a second: "45 s", "4 min 10 s", "12.5 s".
    #[must_use]
    pub fn run_time(&self, time_ds: u64) -> String {
        let (minutes, tenths) = match time_ds {
            0..1200 => (0, time_ds),
            _ => (time_ds / 600, time_ds % 600),
        };
        let seconds = number::seconds(tenths);
        if minutes == 0 {
            return self.text("run-seconds", &[("seconds", &seconds)]);
        }
        let minutes = &[("minutes", minutes)];
        if seconds == "0" {
            return self.counted("run-whole-minutes", minutes, &[]);
        }
        self.counted("run-minutes", minutes, &[("seconds", &seconds)])
    }

    /// Number of re-sets: "no re-set", "1 re-set", "3 re-sets".
    #[must_use]
    pub fn run_resets(&self, resets: u32) -> String {
        self.counted("run-resets", &[("count", resets)], &[])
    }

    /// A cost: "1 re-set, 4 min 10 s".
    #[must_use]
    pub fn run_cost(&self, cost: Cost) -> String {
        let (resets, time) = (self.run_resets(cost.resets), self.run_time(cost.time_ds));
        self.text("run-cost", &[("resets", &resets), ("time", &time)])
    }

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
