//! Solving: from an order at once to the best one, with a proof or as far as the work allowed goes.

use super::assign_copies::{CostedOrder, cost_of_order, cost_with};
use super::bounds::Bounds;
use super::evaluate::{Cost, Entry};
use super::lay::Effort;
use super::model::Model;
use super::plain::{PlainRule, plain_order};
use super::search::{PassLimits, PassResult, Room, Search, Stop};
use super::split::split;
use super::{Objective, ValidProblem};
use std::ops::ControlFlow;

/// The work that may be done. It is counted, never timed, so that the answer is the same on every machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Budget {
    /// So many thousand numbers of states and of their bounds may be looked at: a state of a full arch holds
    /// many more than one of two sites.
    pub work: u64,
    /// So many bytes may be used for them.
    pub bytes: usize,
}

impl Default for Budget {
    /// Half a minute of an optimised build on a desk of 2020 for what is not proved before, in half a gibibyte. Measured:
    /// 12 to 27 s, the longer the more sites and the less order there is in their protocols, 64 sites with 24 steps alike.
    /// Enough to prove eight sites with five steps each in shared or rising protocols, and most in any.
    fn default() -> Self {
        Self {
            work: 4_000_000,
            bytes: 512 << 20,
        }
    }
}

/// The answer: an order, and what is known about how good it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outcome {
    /// The best order found, with copies and victims.
    pub schedule: Vec<Entry>,
    /// The cost.
    pub cost: Cost,
    /// No order is better than this, compared as the objective says; for the least time its re-sets
    /// say nothing.
    pub bound: Cost,
    /// Nothing is better: cost and bound are the same.
    pub proved: bool,
    /// States that were looked at.
    pub states_expanded: u64,
    /// The work that was done, counted as in [`Budget`].
    pub work: u64,
    /// It was ended by whoever waited for it.
    pub cancelled: bool,
}

/// The progress of a search.
#[derive(Debug, Clone, Copy)]
pub struct Progress<'a> {
    /// States that were looked at.
    pub states_expanded: u64,
    /// The best order so far.
    pub best: &'a CostedOrder,
    /// No order is better than this.
    pub bound: Cost,
}

/// The callback that is told how far a search is and says whether it goes on.
pub type Watch<'a> = dyn FnMut(&Progress<'_>) -> ControlFlow<()> + 'a;

/// Widths of the layers in one pass after another.
const WIDTHS: &[usize] = &[1, 24, 256, 2048, 16_384, 131_072];

/// The best order of a problem, as far as the work allowed goes. `known` are orders that somebody has
/// already: the answer is never worse than any of them.
pub fn solve(
    problem: &ValidProblem,
    budget: &Budget,
    known: &[Vec<usize>],
    watch: &mut Watch<'_>,
) -> Outcome {
    let best = first(problem, known);
    let mut run = Run {
        problem,
        best,
        bound: 0,
        expanded: 0,
        work: 0,
        watch,
    };
    // The order at once had to be quick; with more care a plain one may cost less.
    for rule in PLAIN {
        run.take(&plain_order(problem, rule));
    }
    let parts = split(problem);
    let stop = if parts.len() > 1 {
        run.parts(&parts, budget)
    } else {
        run.whole(budget)
    };
    run.outcome(stop)
}

/// An order at once: the best of the plain ones and of those that are known.
#[must_use]
pub fn first_order(problem: &ValidProblem) -> CostedOrder {
    first(problem, &[])
}

const PLAIN: [PlainRule; 2] = [PlainRule::ByDiameter, PlainRule::SiteBySite];

fn first(problem: &ValidProblem, known: &[Vec<usize>]) -> CostedOrder {
    let plain = PLAIN.map(|rule| plain_order(problem, rule));
    let mut best: Option<CostedOrder> = None;
    let plain = plain
        .iter()
        .map(|order| cost_with(problem, order, Effort::Quick));
    // An order that somebody had may break a rule that came later.
    let known = known.iter().map(|order| cost_of_order(problem, order));
    for costed in plain.chain(known).flatten() {
        let better = |known: &CostedOrder| problem.value(costed.cost) < problem.value(known.cost);
        if best.as_ref().is_none_or(better) {
            best = Some(costed);
        }
    }
    // A plain order of a sound problem breaks no rule.
    best.unwrap_or_else(|| CostedOrder {
        schedule: Vec::new(),
        cost: Cost::default(),
    })
}

impl ValidProblem {
    /// A cost as one number by which orders are compared: the less the better.
    #[must_use]
    pub fn value(&self, cost: Cost) -> i64 {
        let time = i64::try_from(cost.time_ds).unwrap_or(i64::MAX);
        time + i64::from(cost.resets) * self.rates.ahead
    }

    /// A number by which orders are compared as a cost.
    pub(super) fn cost_of_value(&self, value: i64) -> Cost {
        let (resets, time) = match self.objective {
            Objective::FewestResets => (value / self.rates.ahead, value % self.rates.ahead),
            Objective::LeastTime => (0, value),
        };
        Cost {
            resets: u32::try_from(resets).unwrap_or_default(),
            time_ds: u64::try_from(time).unwrap_or_default(),
        }
    }
}

struct Run<'a, 'w> {
    problem: &'a ValidProblem,
    best: CostedOrder,
    bound: i64,
    expanded: u64,
    work: u64,
    watch: &'a mut Watch<'w>,
}

impl Run<'_, '_> {
    fn value(&self) -> i64 {
        self.problem.value(self.best.cost)
    }

    fn ask(&mut self, expanded: u64) -> ControlFlow<()> {
        let bound = self.problem.cost_of_value(self.bound.min(self.value()));
        (self.watch)(&Progress {
            states_expanded: self.expanded + expanded,
            best: &self.best,
            bound,
        })
    }

    fn take(&mut self, order: &[usize]) {
        if let Ok(costed) = cost_of_order(self.problem, order)
            && self.problem.value(costed.cost) < self.value()
        {
            self.best = costed;
        }
    }

    /// Pass after pass, each wider, until nothing better can be left.
    fn whole(&mut self, budget: &Budget) -> Option<Stop> {
        let model = Model::new(self.problem);
        let mut search = Search::new(&model, Bounds::quick(&model), budget.work);
        let widest = search.width_within(budget.bytes, 0, 0);
        let widths = WIDTHS.iter().copied().filter(|w| *w < widest);
        let widths = widths.map(Room::Width).chain([Room::Bytes(budget.bytes)]);
        let mut stop = None;
        for (n, room) in widths.enumerate() {
            if n == 1 {
                if self.ask(search.expanded).is_break() {
                    stop = Some(Stop::Asked);
                    break;
                }
                search.take_bounds(Bounds::good(&model));
                self.bound = self.bound.max(search.start_bound());
            }
            if self.bound >= self.value() {
                break;
            }
            let reach = PassLimits {
                room,
                below: self.value(),
            };
            let PassResult {
                best,
                bound,
                stopped,
            } = search.pass(reach, &mut |expanded| self.ask(expanded));
            self.bound = self.bound.max(bound);
            if let Some((value, order)) = best {
                self.bound = self.bound.min(value);
                self.take(&order);
            }
            stop = stopped;
            if stop.is_some() {
                break;
            }
        }
        self.expanded += search.expanded;
        self.work += search.work();
        stop
    }

    /// Each part by itself; put together they cost what they cost alone.
    fn parts(&mut self, parts: &[ValidProblem], budget: &Budget) -> Option<Stop> {
        let mut stop = None;
        let mut order = Vec::with_capacity(self.problem.step_count());
        let mut bound = 0;
        let mut left = budget.work;
        for part in parts {
            let own = Budget {
                work: left,
                ..*budget
            };
            let mut end = ControlFlow::Continue(());
            let (expanded, best) = (self.expanded, &self.best);
            let problem = self.problem;
            let watch = &mut *self.watch;
            let outcome = solve(part, &own, &[], &mut |progress| {
                end = watch(&Progress {
                    states_expanded: expanded + progress.states_expanded,
                    best,
                    bound: problem.cost_of_value(bound + problem.value(progress.bound)),
                });
                end
            });
            left = left.saturating_sub(outcome.work);
            self.work += outcome.work;
            self.expanded += outcome.states_expanded;
            bound += self.problem.value(outcome.bound);
            order.extend(outcome.schedule.iter().map(|entry| entry.site));
            if end.is_break() {
                stop = Some(Stop::Asked);
                // The other parts have an order at once, and nobody is asked again.
                left = 0;
            }
        }
        self.take(&order);
        self.bound = bound;
        stop
    }

    fn outcome(self, stop: Option<Stop>) -> Outcome {
        let value = self.value();
        let bound = self.bound.min(value);
        Outcome {
            proved: bound == value,
            bound: if bound == value {
                self.best.cost
            } else {
                self.problem.cost_of_value(bound)
            },
            cost: self.best.cost,
            schedule: self.best.schedule,
            states_expanded: self.expanded,
            work: self.work,
            cancelled: stop == Some(Stop::Asked),
        }
    }
}
