//! The copy of a tool that each step takes, for an order that is given: tool by tool, as [`lay`](super::lay) says.

use super::ValidProblem;
use super::lay::{Effort, PieceRates, PieceUse, lay_with};
use super::valid::Op;

/// The copy for each step; none where the step has no instrument.
pub(super) fn best(
    problem: &ValidProblem,
    steps: &[Option<Op>],
    effort: Effort,
) -> Vec<Option<usize>> {
    let mut chosen = vec![None; steps.len()];
    let rates = PieceRates::of_rates(&problem.rates);
    for (tool, stock) in problem.tools.iter().enumerate() {
        let (at, uses): (Vec<usize>, Vec<PieceUse>) = uses(steps, tool).into_iter().unzip();
        let copies = lay_with(&uses, stock.copies as usize, rates, effort);
        for (at, copy) in at.into_iter().zip(copies) {
            chosen[at] = Some(copy);
        }
    }
    chosen
}

/// The uses of a tool, each with its place.
fn uses(steps: &[Option<Op>], tool: usize) -> Vec<(usize, PieceUse)> {
    let mut uses = Vec::new();
    let mut in_hand = false;
    for (at, step) in steps.iter().enumerate() {
        match step.and_then(|op| op.tool) {
            Some((used, setting)) if used == tool => {
                uses.push((at, PieceUse { setting, in_hand }));
                in_hand = true;
            }
            Some(_) => in_hand = false,
            None => {}
        }
    }
    uses
}
