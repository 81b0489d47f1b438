//! The best order of a case, what the order costs that is followed, and why.

use super::chains::{NoRun, Phase, RunProblem, run_problem};
use crate::case::{RunWishes, ValidCase};
use crate::kit::DrillId;
use crate::order::{
    Budget, Change, Cost, Entry, Group, Id, Rules, Tally, ValidProblem, Watch, cost_of_order,
    events, solve,
};
use crate::plan::{Operation, OrderBy, Worksheet};

/// The run order of a case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunOrder {
    /// The origin of the order that the worksheet follows.
    pub by: OrderBy,
    /// That order with the drills as the worksheet lays them, and what it costs.
    pub followed: PricedOrder,
    /// Its adherence to the rules that are wished; a barrier it always keeps.
    pub adherence: Adherence,
    /// It keeps the rules and is proved to be the least possible.
    pub followed_is_least: bool,
    /// The best order found, with the drills as they are laid where it is followed, and what it costs.
    pub best: PricedOrder,
    /// No order that keeps the rules is better than this.
    pub bound: Cost,
    /// The best order found is the best that there is.
    pub proved: bool,
    /// States that were looked at.
    pub states_expanded: u64,
    /// It was ended by whoever waited for it.
    pub cancelled: bool,
}

/// An order's adherence to the rules that are wished.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Adherence {
    Full,
    Partial,
}

/// An order with what it costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PricedOrder {
    /// The cost.
    pub cost: Cost,
    /// Its steps.
    pub steps: Vec<RunStep>,
}

/// A step of a run order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunStep {
    /// The operation.
    pub what: Operation,
    /// The number of the equal drill or carrier that is taken, from 1; none where there is no such
    /// thing. Of drills it is the one that the worksheet of this order lays by that number.
    pub copy: Option<usize>,
    /// The changes before it.
    pub changes: Tally,
}

/// Something that is wished of the run order, to see what it costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wish {
    /// The rule with this index: one site before another.
    Before(usize),
    /// A rule about what stays together.
    Group(Group),
    /// The sites that hold the guide come first.
    HoldGuide,
    /// The weight of a change.
    Weight(Change),
}

/// The least cost without one wish.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WishCost {
    /// The wish that is left out.
    pub without: Wish,
    /// The cost of the best order found without it.
    pub cost: Cost,
    /// No order is better without it.
    pub proved: bool,
}

/// The slow part of a run order: it does not depend on the order that is followed, which only bounds
/// it from above.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BestOrder {
    /// The best order found, and what it costs.
    pub order: PricedOrder,
    /// No order that keeps the rules is better than this.
    pub bound: Cost,
    /// States that were looked at.
    pub states_expanded: u64,
    /// It was ended by whoever waited for it.
    pub cancelled: bool,
}

/// The run order of a case. `worksheet` is the one worked out from it.
///
/// The order that is followed is among those that the answer is never worse than, where it keeps the
/// rules.
///
/// # Errors
///
/// The reason why there is none.
pub fn run_order(
    case: &ValidCase,
    worksheet: &Worksheet,
    budget: &Budget,
    watch: &mut Watch<'_>,
) -> Result<RunOrder, NoRun> {
    let run = run_problem(case, worksheet)?;
    let best = run.best(&worksheet.order, budget, watch);
    run.against(worksheet, &best)
}

/// The cost of each wish: the best order without it. `best` is the order that was found with all of
/// them.
#[must_use]
pub fn why(
    case: &ValidCase,
    worksheet: &Worksheet,
    best: &PricedOrder,
    budget: &Budget,
    watch: &mut Watch<'_>,
) -> Vec<WishCost> {
    let done: Vec<Operation> = best.steps.iter().map(|step| step.what.clone()).collect();
    let wishes = Wish::all_of(case);
    let each = wishes.into_iter().filter_map(|without| {
        let mut other = (**case).clone();
        without.leave_out(&mut other.run);
        let other = ValidCase::try_from(other).ok()?;
        // With less wished there are no more reasons against an order.
        let run = run_problem(&other, worksheet).ok()?;
        let found = run.best(&done, budget, watch);
        let value = |cost| run.problem.value(cost);
        Some(WishCost {
            without,
            cost: found.order.cost,
            proved: value(found.bound) == value(found.order.cost),
        })
    });
    each.collect()
}

impl RunProblem {
    /// The chains of an order, step by step; the guide coming off is none.
    #[must_use]
    pub fn chains_of(&self, order: &[Operation]) -> Vec<usize> {
        let chain = |one: &Operation| self.uses.iter().position(|chain| chain.contains(one));
        order.iter().filter_map(chain).collect()
    }

    /// The best order, as far as the work allowed goes; slow. It is never worse than `known`, where
    /// that keeps the rules.
    #[must_use]
    pub fn best(&self, known: &[Operation], budget: &Budget, watch: &mut Watch<'_>) -> BestOrder {
        let known = self.chains_of(known);
        let outcome = solve(&self.problem, budget, &[known], watch);
        BestOrder {
            order: self.priced(&self.problem, &outcome.schedule, outcome.cost),
            bound: outcome.bound,
            states_expanded: outcome.states_expanded,
            cancelled: outcome.cancelled,
        }
    }

    /// The order that is followed held against the best one; at once.
    ///
    /// # Errors
    ///
    /// The reason why the followed order has no cost.
    pub fn against(&self, worksheet: &Worksheet, best: &BestOrder) -> Result<RunOrder, NoRun> {
        let value = |cost| self.problem.value(cost);
        let followed = self.price(&worksheet.order)?;
        let adherence = self.adherence(&worksheet.order);
        let kept = adherence == Adherence::Full;
        // What was made by hand meanwhile may be better than what was found.
        let better = kept && value(followed.cost) < value(best.order.cost);
        let order = if better { &followed } else { &best.order };
        let proved = value(best.bound) == value(order.cost);
        Ok(RunOrder {
            by: worksheet.order_by,
            adherence,
            followed_is_least: kept && proved && value(followed.cost) == value(order.cost),
            best: order.clone(),
            followed,
            bound: best.bound,
            proved,
            states_expanded: best.states_expanded,
            cancelled: best.cancelled,
        })
    }

    /// The price of an order, whether or not it keeps the rules that are wished; at once. Its drills are
    /// those that the worksheet lays where it is followed: both ask [`lay`](crate::order).
    ///
    /// # Errors
    ///
    /// It does not hold every step once, each site's in their sequence.
    pub fn price(&self, order: &[Operation]) -> Result<PricedOrder, NoRun> {
        let mut problem = (*self.problem).clone();
        problem.rules = Rules::default();
        let problem = ValidProblem::try_from(problem).map_err(NoRun::Refused)?;
        let costed = cost_of_order(&problem, &self.chains_of(order));
        let costed = costed.map_err(|_| NoRun::Nothing)?;
        Ok(self.priced(&problem, &costed.schedule, costed.cost))
    }

    /// The adherence of an order to the rules that are wished.
    #[must_use]
    pub fn adherence(&self, order: &[Operation]) -> Adherence {
        match cost_of_order(&self.problem, &self.chains_of(order)) {
            Ok(_) => Adherence::Full,
            Err(_) => Adherence::Partial,
        }
    }

    fn priced(&self, problem: &ValidProblem, schedule: &[Entry], cost: Cost) -> PricedOrder {
        let events = events(problem, schedule).unwrap_or_default();
        let mut steps: Vec<RunStep> = Vec::with_capacity(schedule.len() + 1);
        let mut phase = Phase::Pins;
        let mut drills: Vec<(&DrillId, &Id, usize)> = Vec::new();
        let mut reach = |to: Phase, steps: &mut Vec<RunStep>| {
            if phase < Phase::Guided && to >= Phase::Guided {
                steps.extend(self.before_guided.iter().cloned().map(for_the_jaw));
            }
            if phase < Phase::Freehand && to == Phase::Freehand {
                steps.push(for_the_jaw(Operation::GuideOff));
            }
            phase = phase.max(to);
        };
        for (entry, event) in schedule.iter().zip(events) {
            reach(self.phases[entry.site], &mut steps);
            let set = self.sets[entry.site][event.step].as_ref();
            let operation = &problem.sites[entry.site].steps[event.step];
            let copy = match (entry.copy, set, &operation.instrument) {
                // A drill that takes several sorts of stops is several tools, and all are counted.
                (Some(copy), Some(set), Some(instrument)) => {
                    let piece = (&set.drill, &instrument.tool, copy);
                    if !drills.contains(&piece) {
                        drills.push(piece);
                    }
                    let own = drills.iter().filter(|other| *other.0 == set.drill);
                    own.enumerate()
                        .find(|(_, one)| **one == piece)
                        .map(|(n, _)| n + 1)
                }
                (copy, _, _) => copy.map(|copy| copy + 1),
            };
            steps.push(RunStep {
                what: self.uses[entry.site][event.step].clone(),
                copy,
                changes: event.changes,
            });
        }
        reach(Phase::Freehand, &mut steps);
        PricedOrder { cost, steps }
    }
}

/// A step for the whole jaw: it costs no change that is counted.
fn for_the_jaw(what: Operation) -> RunStep {
    RunStep {
        what,
        copy: None,
        changes: Tally::default(),
    }
}

impl Wish {
    /// All that is wished in a case and could be left out.
    #[must_use]
    pub fn all_of(case: &ValidCase) -> Vec<Self> {
        let run = &case.run;
        let mut all: Vec<Self> = (0..run.before.len()).map(Self::Before).collect();
        all.extend(run.groups.iter().copied().map(Self::Group));
        if !super::rules::holding(case).is_empty() {
            all.push(Self::HoldGuide);
        }
        let weighs = |change: &Change| *change.weight_in(&mut run.weights.clone()) > 0;
        all.extend(Change::ALL.into_iter().filter(weighs).map(Self::Weight));
        all
    }

    fn leave_out(self, run: &mut RunWishes) {
        match self {
            Self::Before(n) => drop(run.before.remove(n)),
            Self::Group(group) => drop(run.groups.remove(&group)),
            Self::HoldGuide => run.hold_guide = Some(Vec::new()),
            Self::Weight(change) => *change.weight_in(&mut run.weights) = 0,
        }
    }
}
