//! Costs of an order and bounds for them, in words: of a case and of a bare problem alike.

use super::super::Formatter;
use crate::number;
use crate::order::{Cost, Objective};
use crate::text::Texts;

/// Words about costs.
#[derive(Clone, Copy)]
pub struct CostWords<'a> {
    /// The texts.
    pub texts: &'a Texts,
    /// The measure by which orders are compared.
    pub objective: Objective,
}

impl CostWords<'_> {
    /// A time in tenths of a second: "45 s", "4 min 10 s", "12.5 s".
    #[must_use]
    pub fn time(&self, time_ds: u64) -> String {
        let (minutes, tenths) = match time_ds {
            0..1200 => (0, time_ds),
            _ => (time_ds / 600, time_ds % 600),
        };
        let seconds = number::seconds_with_unit(tenths);
        if minutes == 0 {
            return seconds;
        }
        let args = &[("seconds", seconds.as_str())];
        let minutes = &[("minutes", minutes)];
        if tenths == 0 {
            return self.texts.counted("run-whole-minutes", minutes, &[]);
        }
        self.texts.counted("run-minutes", minutes, args)
    }

    /// Number of re-sets: "no re-set", "1 re-set", "3 re-sets".
    #[must_use]
    pub fn resets(&self, resets: u32) -> String {
        self.texts.counted("run-resets", &[("count", resets)], &[])
    }

    /// A cost: "1 re-set, 4 min 10 s".
    #[must_use]
    pub fn cost(&self, cost: Cost) -> String {
        let (resets, time) = (self.resets(cost.resets), self.time(cost.time_ds));
        let args = [("resets", resets.as_str()), ("time", &time)];
        self.texts.get("run-cost", &args)
    }

    /// A bound in a sentence. Where re-sets come first it has two parts, and the time is that of orders with
    /// so few re-sets: one with more may take less. A time of zero, which holds of anything, is no bound.
    #[must_use]
    pub fn bound(&self, bound: Cost) -> String {
        let time = self.time(bound.time_ds);
        let args = &[("time", time.as_str())];
        let count = &[("count", bound.resets)];
        match (self.objective, bound.resets, bound.time_ds) {
            (Objective::FewestResets, 0, 0) | (Objective::LeastTime, _, 0) => {
                self.texts.get("run-bound-none", &[])
            }
            (Objective::FewestResets, _, 0) => self.texts.counted("run-bound-resets", count, &[]),
            (Objective::FewestResets, ..) => self.texts.counted("run-bound", count, args),
            (Objective::LeastTime, ..) => self.texts.get("run-bound-time", args),
        }
    }

    /// How far a search is: states looked at, the best so far, and the bound.
    #[must_use]
    pub fn how_far(&self, states: u64, best: Cost, bound: Cost) -> String {
        let (best, bound) = (self.cost(best), self.bound(bound));
        let args = [("best", best.as_str()), ("bound", &bound)];
        self.texts
            .counted("run-how-far", &[("states", states)], &args)
    }
}

impl Formatter<'_> {
    /// Words about costs in this case.
    #[must_use]
    pub fn costs(&self) -> CostWords<'_> {
        CostWords {
            texts: self.texts,
            objective: self.case.run.objective,
        }
    }

    /// A time in tenths of a second: "45 s", "4 min 10 s", "12.5 s".
    #[must_use]
    pub fn run_time(&self, time_ds: u64) -> String {
        self.costs().time(time_ds)
    }

    /// Number of re-sets: "no re-set", "1 re-set", "3 re-sets".
    #[must_use]
    pub fn run_resets(&self, resets: u32) -> String {
        self.costs().resets(resets)
    }

    /// A cost: "1 re-set, 4 min 10 s".
    #[must_use]
    pub fn run_cost(&self, cost: Cost) -> String {
        self.costs().cost(cost)
    }
}
