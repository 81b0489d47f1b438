//! Verdict on an order, in one sentence.

use super::super::Formatter;
use crate::order::{Cost, Objective};
use crate::run::{Adherence, RunOrder};

impl Formatter<'_> {
    /// Verdict on the order that is followed.
    #[must_use]
    pub fn run_verdict(&self, run: &RunOrder) -> String {
        if run.adherence == Adherence::Partial {
            return self.word("run-breaks");
        }
        if run.followed_is_least {
            return self.word("run-least");
        }
        let above = self.run_above(run.followed.cost, run.bound);
        match (run.proved, self.is_as_good(run)) {
            (true, _) => self.text("run-above", &[("above", &above)]),
            (false, true) => self.text("run-at-most-none-better", &[("above", &above)]),
            (false, false) => {
                let better = self.run_above(run.followed.cost, run.best.cost);
                let args = [("above", above.as_str()), ("better", &better)];
                self.text("run-at-most", &args)
            }
        }
    }

    /// Verdict on the best order that was found.
    #[must_use]
    pub fn run_best_verdict(&self, run: &RunOrder) -> String {
        if run.proved {
            return self.word("run-best-least");
        }
        let above = self.run_above(run.best.cost, run.bound);
        let id = if run.cancelled {
            "run-best-stopped"
        } else {
            "run-best-at-most"
        };
        self.text(id, &[("above", &above)])
    }

    /// Excess of one cost over another that is not greater, as the objective compares them: in
    /// re-sets where those come first and differ, else in time.
    #[must_use]
    pub fn run_above(&self, cost: Cost, than: Cost) -> String {
        let resets = cost.resets.saturating_sub(than.resets);
        if self.case.run.objective == Objective::FewestResets && resets > 0 {
            return self.run_resets(resets);
        }
        self.run_time(cost.time_ds.saturating_sub(than.time_ds))
    }

    /// Difference of one cost from another: "1 re-set more, 30 s less", "the same".
    #[must_use]
    pub fn run_difference(&self, cost: Cost, than: Cost) -> String {
        let resets = match (cost.resets, than.resets) {
            (now, before) if now > before => Some(("run-more", self.run_resets(now - before))),
            (now, before) if now < before => Some(("run-less", self.run_resets(before - now))),
            _ => None,
        };
        let time = match (cost.time_ds, than.time_ds) {
            (now, before) if now > before => Some(("run-more", self.run_time(now - before))),
            (now, before) if now < before => Some(("run-less", self.run_time(before - now))),
            _ => None,
        };
        let parts = [resets, time].into_iter().flatten();
        let parts = parts.map(|(id, size)| self.text(id, &[("size", &size)]));
        self.joined("run-and", parts)
            .unwrap_or_else(|| self.word("run-same"))
    }

    /// True if the order that is followed is as good as the best one found.
    fn is_as_good(&self, run: &RunOrder) -> bool {
        let (followed, best) = (run.followed.cost, run.best.cost);
        match self.case.run.objective {
            Objective::FewestResets => followed == best,
            Objective::LeastTime => followed.time_ds == best.time_ds,
        }
    }
}
