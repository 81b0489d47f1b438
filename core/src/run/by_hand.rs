//! One step put elsewhere in the order by hand, or why it stays where it is.

use super::chains::{RunProblem, run_problem};
use super::solve::{Adherence, Wish};
use crate::case::{RunWishes, ValidCase};
use crate::plan::{Operation, Worksheet};

/// A reason why a step stays in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MoveRefused {
    /// An action for the whole jaw comes where it has to.
    WholeJaw,
    /// It would pass this step of its own site.
    Sequence(Operation),
    /// It would pass this, which everything before has to be finished for.
    Barrier(Operation),
    /// The order would break this rule that is wished, and did not before.
    Wish(Wish),
    /// There is no place beyond the first and the last.
    End,
}

/// The order that is followed with the thing at `from` put at `to`, both places in it from 0. `run` is
/// the problem of the case, `worksheet` the one worked out from it.
///
/// # Errors
///
/// A step that cannot go there. Wished rules hold it only if the order kept all of them before.
pub fn moved(
    case: &ValidCase,
    worksheet: &Worksheet,
    run: &RunProblem,
    from: usize,
    to: usize,
) -> Result<Vec<Operation>, MoveRefused> {
    let mut order = worksheet.order.clone();
    if from >= order.len() || to >= order.len() {
        return Err(MoveRefused::End);
    }
    let one = order.remove(from);
    if one.ordered().is_none() {
        return Err(MoveRefused::WholeJaw);
    }
    let passed = &worksheet.order[from.min(to)..=from.max(to)];
    // The nearest that is in the way is told.
    let mut passed: Vec<&Operation> = passed.iter().filter(|other| **other != one).collect();
    if to < from {
        passed.reverse();
    }
    for other in passed {
        if other.ordered().is_none() || is_pin(other) != is_pin(&one) {
            return Err(MoveRefused::Barrier(other.clone()));
        }
        if site(other).is_some() && site(other) == site(&one) {
            return Err(MoveRefused::Sequence(other.clone()));
        }
    }
    order.insert(to, one);
    if run.adherence(&worksheet.order) == Adherence::Full
        && run.adherence(&order) == Adherence::Partial
    {
        return Err(broken(case, worksheet, &order).map_or(MoveRefused::End, MoveRefused::Wish));
    }
    Ok(order)
}

const fn is_pin(one: &Operation) -> bool {
    matches!(one, Operation::Pin { .. })
}

fn site(one: &Operation) -> Option<&crate::kit::SiteId> {
    match one {
        Operation::Drill { site, .. } | Operation::Insert { site } => Some(site),
        _ => None,
    }
}

/// The first rule that is wished and that an order breaks. `worksheet` is the one of the case.
#[must_use]
pub fn broken(case: &ValidCase, worksheet: &Worksheet, order: &[Operation]) -> Option<Wish> {
    let rules = Wish::all_of(case).into_iter();
    let mut rules = rules.filter(|wish| !matches!(wish, Wish::Weight(_)));
    rules.find(|wish| {
        let mut other = (**case).clone();
        other.run = only(*wish, &case.run);
        let other = ValidCase::try_from(other).ok();
        let run = other.and_then(|other| run_problem(&other, worksheet).ok());
        run.is_some_and(|run| run.adherence(order) == Adherence::Partial)
    })
}

/// The wishes with one rule alone.
fn only(wish: Wish, all: &RunWishes) -> RunWishes {
    let mut alone = RunWishes {
        before: Vec::new(),
        groups: std::collections::BTreeSet::new(),
        hold_guide: Some(Vec::new()),
        ..all.clone()
    };
    match wish {
        Wish::Before(n) => alone.before.extend(all.before.get(n).cloned()),
        Wish::Group(group) => drop(alone.groups.insert(group)),
        Wish::HoldGuide => alone.hold_guide.clone_from(&all.hold_guide),
        Wish::Weight(_) => {}
    }
    alone
}
