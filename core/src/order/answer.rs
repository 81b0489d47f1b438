//! The answer as plain data with names, for whoever checks it from outside.

use super::evaluate::{Event, ScheduleError, events};
use super::{Id, Outcome, ValidProblem};
use schemars::JsonSchema;
use serde::Serialize;

/// The answer to a problem.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// The steps in order.
    pub schedule: Vec<Done>,
    /// The cost of the schedule.
    pub cost: Sum,
    /// No schedule costs less. Where only time counts, its re-sets say nothing and are left out.
    pub bound: Bound,
    /// Nothing is better than the schedule.
    pub proved: bool,
    /// States that were looked at.
    pub states_expanded: u64,
    /// Thousands of numbers that were looked at.
    pub work: u64,
    /// The search was interrupted: this is the best until then.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub interrupted: bool,
}

/// A step as it is done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// The site.
    pub site: Id,
    /// Its step, counted from 1.
    pub step: usize,
    /// The copy of the tool, counted from 1; absent where the step has no instrument.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub copy: Option<usize>,
    /// The site from which the sleeve is taken, where no piece of it is free.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub victim: Option<Id>,
    /// Another instrument is taken into the handpiece.
    pub mounts: u32,
    /// The stop is set anew.
    pub resets: u32,
    /// It is another site than before.
    pub moves: u32,
    /// A sleeve is put in.
    pub sleeves: u32,
    /// The speed is another one than before.
    pub speeds: u32,
}

/// A cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sum {
    /// Re-sets during surgery.
    pub resets: u32,
    /// Time of all changes in tenths of a second.
    pub time_ds: u64,
}

/// A bound for the cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Bound {
    /// Fewest re-sets that any schedule has, where they come first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub resets: Option<u32>,
    /// The least time: of schedules with so few re-sets, or of any where only time counts.
    pub time_ds: u64,
}

/// The answer with names.
///
/// # Errors
///
/// Fails if the schedule is none of the problem's.
pub fn answer(problem: &ValidProblem, outcome: &Outcome) -> Result<Answer, ScheduleError> {
    let events = events(problem, &outcome.schedule)?;
    let name = |site: usize| problem.sites[site].id.clone();
    let steps = outcome.schedule.iter().zip(events);
    let done = steps.map(|(entry, Event { step, changes })| Done {
        site: name(entry.site),
        step: step + 1,
        copy: entry.copy.map(|copy| copy + 1),
        victim: entry.victim.map(name),
        mounts: changes.mounts,
        resets: changes.resets,
        moves: changes.moves,
        sleeves: changes.sleeves,
        speeds: changes.speeds,
    });
    let resets_first = problem.objective == super::Objective::FewestResets;
    Ok(Answer {
        schedule: done.collect(),
        cost: Sum {
            resets: outcome.cost.resets,
            time_ds: outcome.cost.time_ds,
        },
        bound: Bound {
            resets: resets_first.then_some(outcome.bound.resets),
            time_ds: outcome.bound.time_ds,
        },
        proved: outcome.proved,
        states_expanded: outcome.states_expanded,
        work: outcome.work,
        interrupted: outcome.cancelled,
    })
}
