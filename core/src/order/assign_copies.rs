//! The best copies and victims for an order of sites that is given.
//!
//! With the order fixed, moves and speeds are fixed too, and what is left falls into parts that do not
//! touch each other: the copies of each tool (`copies`), and the pieces of each sleeve, where it is
//! best to take the piece that is needed last (Belady's rule for caches with equal prices).

use super::ValidProblem;
use super::copies;
use super::evaluate::{Cost, Entry, ScheduleError, evaluate};
use super::lay::Effort;
use super::valid::{Op, SleeveOp};

/// An order costed with its best copies and victims.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CostedOrder {
    /// The order with copies and victims.
    pub schedule: Vec<Entry>,
    /// The cost.
    pub cost: Cost,
}

/// The cost of an order with its best copies and victims. The order names for each step the site
/// whose next step is done, from 0.
///
/// # Errors
///
/// The first step that breaks a rule or the count of a site's steps.
pub fn cost_of_order(
    problem: &ValidProblem,
    order: &[usize],
) -> Result<CostedOrder, ScheduleError> {
    cost_with(problem, order, Effort::Exact)
}

pub(super) fn cost_with(
    problem: &ValidProblem,
    order: &[usize],
    effort: Effort,
) -> Result<CostedOrder, ScheduleError> {
    let schedule = assign_copies(problem, order, effort);
    let cost = evaluate(problem, &schedule)?;
    Ok(CostedOrder { schedule, cost })
}

/// An order as a schedule. Where the order is none, so is the schedule.
fn assign_copies(problem: &ValidProblem, order: &[usize], effort: Effort) -> Vec<Entry> {
    let mut done = vec![0; problem.ops.len()];
    let steps: Vec<Option<Op>> = order
        .iter()
        .map(|site| {
            let op = *problem.ops.get(*site)?.get(done[*site])?;
            done[*site] += 1;
            Some(op)
        })
        .collect();
    let copies = copies::best(problem, &steps, effort);
    let victims = victims(problem, order, &steps);
    let entries = order.iter().zip(copies).zip(victims);
    entries
        .map(|((site, copy), victim)| Entry {
            site: *site,
            copy,
            victim,
        })
        .collect()
}

fn victims(problem: &ValidProblem, order: &[usize], steps: &[Option<Op>]) -> Vec<Option<usize>> {
    let mut holds: Vec<Option<usize>> = vec![None; problem.ops.len()];
    let mut victims = Vec::with_capacity(order.len());
    for (n, (site, step)) in order.iter().zip(steps).enumerate() {
        let mut victim = None;
        match step.map(|op| op.sleeve) {
            Some(SleeveOp::Out) => holds[*site] = None,
            Some(SleeveOp::Place(sleeve)) if holds[*site] != Some(sleeve) => {
                let out = (0..holds.len()).filter(|k| holds[*k] == Some(sleeve));
                let out: Vec<usize> = out.collect();
                if out.len() == problem.sleeves[sleeve].pieces as usize {
                    let next = |k: &usize| next_use(&order[n..], &steps[n..], *k, sleeve);
                    victim = out.into_iter().max_by_key(next);
                }
                if let Some(from) = victim {
                    holds[from] = None;
                }
                holds[*site] = Some(sleeve);
            }
            _ => {}
        }
        victims.push(victim);
    }
    victims
}

/// Place in the order at which a site needs its sleeve again; as late as can be if it never does.
fn next_use(order: &[usize], steps: &[Option<Op>], site: usize, sleeve: usize) -> usize {
    let own = order.iter().zip(steps).enumerate();
    let mut uses = own.filter_map(|(n, (at, op))| match (*at == site, op) {
        (true, Some(op)) if op.sleeve != SleeveOp::Keep => Some((n, op.sleeve)),
        _ => None,
    });
    match uses.next() {
        Some((n, SleeveOp::Place(next))) if next == sleeve => n,
        _ => usize::MAX,
    }
}
