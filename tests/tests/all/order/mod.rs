//! The run order against its statement: a checker and a search through everything, both written apart
//! from the library, closed forms, and another solver.

mod budget;
mod closed;
mod hand;
mod larger;
mod least;
mod outside;
mod random;
mod refused;
mod statement;

use statement::{Price, Statement};
use std::ops::ControlFlow;
use traywright_core::order::{Budget, Outcome, Problem, ValidProblem, solve};

fn valid(problem: &Problem) -> ValidProblem {
    ValidProblem::try_from(problem.clone()).expect("some order obeys it")
}

/// Solves with the usual budget; the checker has replayed the schedule and found the same cost.
fn solved(problem: &Problem) -> Outcome {
    solved_within(problem, &Budget::default())
}

fn solved_within(problem: &Problem, budget: &Budget) -> Outcome {
    let valid = valid(problem);
    let outcome = solve(&valid, budget, &[], &mut |_| ControlFlow::Continue(()));
    let replayed = Statement::of(problem).cost(&outcome.schedule);
    assert_eq!(replayed, Some(price(&outcome)), "{outcome:?}");
    assert!(valid.value(outcome.bound) <= valid.value(outcome.cost));
    assert_eq!(outcome.proved, outcome.bound == outcome.cost, "{outcome:?}");
    outcome
}

fn price(outcome: &Outcome) -> Price {
    (outcome.cost.resets.into(), outcome.cost.time_ds)
}
