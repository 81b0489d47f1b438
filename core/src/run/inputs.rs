//! The inputs of the best order, so that whoever keeps an answer knows when it is old.

use super::chains::{NoRun, RunProblem, run_problem};
use super::rules::holding;
use crate::case::{RunWishes, ValidCase};
use crate::kit::SiteId;
use crate::plan::Worksheet;
use std::collections::BTreeSet;

/// Everything that the best order and its reasons depend on. The order that is followed is not among
/// it: held against the best one it is at once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunInputs {
    /// The problem, or why there is none.
    pub run: Result<RunProblem, NoRun>,
    wishes: RunWishes,
    held: BTreeSet<SiteId>,
}

impl RunInputs {
    /// Those of a case. `worksheet` is the one worked out from it.
    #[must_use]
    pub fn of(case: &ValidCase, worksheet: &Worksheet) -> Self {
        Self {
            run: run_problem(case, worksheet),
            wishes: case.run.clone(),
            held: holding(case),
        }
    }
}
