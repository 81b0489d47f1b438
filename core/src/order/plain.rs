//! Orders by a plain rule: quick, never wrong, seldom best.

use super::ValidProblem;
use super::valid::{Contiguity, Op};

/// A plain rule for an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlainRule {
    /// Each site to its end, as far as the rules let.
    SiteBySite,
    /// The narrowest next step of all sites, that of the same tool first; what does not drill when
    /// its site comes to it.
    ByDiameter,
}

/// The order of a problem by a plain rule, as sites.
#[must_use]
pub fn plain_order(problem: &ValidProblem, rule: PlainRule) -> Vec<usize> {
    let mut done = vec![0; problem.ops.len()];
    let mut order: Vec<usize> = Vec::with_capacity(problem.step_count());
    let mut tool = None;
    while order.len() < problem.step_count() {
        let before = order.last().copied();
        let open = |site: &usize| problem.ops[*site].len() > done[*site];
        let free = |site: &usize| {
            let needs = open(site).then(|| &problem.needs[*site][done[*site]]);
            needs.is_some_and(|needs| needs.iter().all(|(other, step)| done[*other] > *step))
        };
        let same = before.filter(|site| open(site) && free(site));
        let tied = problem.contiguity == Contiguity::SiteBySite || rule == PlainRule::SiteBySite;
        let next = same.filter(|_| tied).or_else(|| {
            let sites = (0..done.len()).filter(free);
            sites.min_by_key(|site| {
                let op = &problem.ops[*site][done[*site]];
                let used = op.tool.map(|(tool, _)| tool);
                let key = (rule == PlainRule::ByDiameter).then(|| {
                    let rank = rank(problem, op);
                    (rank, used != tool, used, op.tool)
                });
                (key, before != Some(*site))
            })
        });
        // Sound rules lead in no circle, so some step is always free.
        let Some(site) = next else { break };
        tool = problem.ops[site][done[site]].tool.map(|(tool, _)| tool);
        done[site] += 1;
        order.push(site);
    }
    order
}

/// Place of a step: by diameter; one that does not drill comes at once.
fn rank(problem: &ValidProblem, op: &Op) -> crate::measure::Length {
    let diameter = op
        .tool
        .and_then(|(tool, _)| problem.tools[tool].diameter_mm);
    diameter.unwrap_or_default()
}
