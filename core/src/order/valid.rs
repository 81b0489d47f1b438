//! A problem that some order obeys, with everything looked up.

use super::rules::{self, Edge};
use super::{
    Group, Id, Objective, Problem, Refused, SleeveUse, StepName, Unsolvable, check_problem,
};
use crate::document::{Coverage, Faults};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Deref;

/// Most steps of a problem, all sites together.
pub const MOST_STEPS: usize = 1536;
/// Most sites of a problem.
pub const MOST_SITES: usize = 64;

/// A problem whose references lead somewhere and that some order obeys: only such a one is solved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ValidProblem {
    problem: Problem,
    pub(super) ops: Vec<Vec<Op>>,
    /// For each step of each site the steps of other sites that have to be done before it.
    pub(super) needs: Vec<Vec<Vec<Place>>>,
    /// For each site the one that it continues.
    pub(super) continues: Vec<Option<usize>>,
    pub(super) rates: Rates,
    pub(super) contiguity: Contiguity,
}

/// A step: the site and the step's place in it, both from 0.
pub(super) type Place = (usize, usize);

/// A step with indices in place of names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Op {
    /// Tool, and which of the settings with which it is used anywhere.
    pub(super) tool: Option<(usize, usize)>,
    pub(super) sleeve: SleeveOp,
    pub(super) speed: Option<u32>,
}

/// The use that a step makes of its site's sleeve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum SleeveOp {
    Keep,
    Out,
    Place(usize),
}

/// The cost of each change as one number: with fewest re-sets first, a re-set costs more than all
/// other changes that an order can have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rates {
    pub(super) mount: i64,
    pub(super) reset: i64,
    pub(super) go: i64,
    pub(super) sleeve: i64,
    pub(super) speed: i64,
    /// The cost of a re-set beyond its time; 0 where only time counts.
    pub(super) ahead: i64,
}

/// The rule by which a site that was begun is finished before another one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Contiguity {
    Free,
    SiteBySite,
}

impl Deref for ValidProblem {
    type Target = Problem;
    fn deref(&self) -> &Problem {
        &self.problem
    }
}

impl TryFrom<Problem> for ValidProblem {
    type Error = Refused;

    /// # Errors
    ///
    /// All faults of the problem; where it has none, all reasons for which no order is possible.
    fn try_from(problem: Problem) -> Result<Self, Refused> {
        if let Some(faults) = Faults::from_list(check_problem(&problem), 0, Coverage::Whole) {
            return Err(Refused::Faults(faults));
        }
        let mut reasons = Vec::from_iter(too_large(&problem));
        reasons.extend(missing(&problem));
        let edges = rules::edges(&problem);
        reasons.extend(rules::falling(&problem));
        if reasons.is_empty() {
            reasons.extend(rules::contradiction(&problem, &edges));
        }
        if reasons.is_empty() {
            Ok(Self::with(problem, &edges))
        } else {
            Err(Refused::Unsolvable(reasons))
        }
    }
}

impl ValidProblem {
    fn with(problem: Problem, edges: &[Edge]) -> Self {
        let ops = lookup(&problem);
        let mut needs: Vec<Vec<Vec<Place>>> = ops
            .iter()
            .map(|chain| vec![Vec::new(); chain.len()])
            .collect();
        for edge in edges {
            let (site, step) = edge.then;
            needs[site][step].push(edge.first);
        }
        for need in needs.iter_mut().flatten() {
            need.sort_unstable();
            need.dedup();
        }
        let count: i64 = ops.iter().flatten().map(|_| 1).sum();
        let weights = problem.weights;
        let all = [
            weights.mount_ds,
            weights.reset_ds,
            weights.move_ds,
            weights.sleeve_ds,
            weights.speed_ds,
        ];
        let dearest: i64 = all.iter().map(|w| i64::from(*w)).sum();
        let ahead = match problem.objective {
            Objective::FewestResets => dearest * count + 1,
            Objective::LeastTime => 0,
        };
        let rates = Rates {
            mount: weights.mount_ds.into(),
            reset: i64::from(weights.reset_ds) + ahead,
            go: weights.move_ds.into(),
            sleeve: weights.sleeve_ds.into(),
            speed: weights.speed_ds.into(),
            ahead,
        };
        let contiguity = if problem.rules.groups.contains(&Group::SiteBySite) {
            Contiguity::SiteBySite
        } else {
            Contiguity::Free
        };
        Self {
            continues: rules::continues(&problem),
            problem,
            ops,
            needs,
            rates,
            contiguity,
        }
    }

    /// The number of steps.
    #[must_use]
    pub fn step_count(&self) -> usize {
        self.ops.iter().map(Vec::len).sum()
    }
}

fn too_large(problem: &Problem) -> Option<Unsolvable> {
    let steps = problem.sites.iter().map(|chain| chain.steps.len()).sum();
    let sites = problem.sites.len();
    (steps > MOST_STEPS || sites > MOST_SITES).then_some(Unsolvable::TooLarge { sites, steps })
}

/// Tools and sleeves that a step needs and nobody has.
fn missing(problem: &Problem) -> Vec<Unsolvable> {
    let mut found = Vec::new();
    let mut named = BTreeSet::new();
    for (site, chain) in problem.sites.iter().enumerate() {
        for (step, op) in chain.steps.iter().enumerate() {
            let at = || StepName::of(problem, (site, step));
            if let Some(instrument) = &op.instrument {
                let tool = problem.tools.iter().find(|tool| tool.id == instrument.tool);
                if tool.is_some_and(|tool| tool.copies == 0) && named.insert(&instrument.tool) {
                    let tool = instrument.tool.clone();
                    found.push(Unsolvable::NoCopy { tool, at: at() });
                }
            }
            if let SleeveUse::Place(id) = &op.sleeve {
                let sleeve = problem.sleeves.iter().find(|sleeve| sleeve.id == *id);
                if sleeve.is_some_and(|sleeve| sleeve.pieces == 0) && named.insert(id) {
                    let sleeve = id.clone();
                    found.push(Unsolvable::NoPiece { sleeve, at: at() });
                }
            }
        }
    }
    found
}

fn lookup(problem: &Problem) -> Vec<Vec<Op>> {
    let mut settings: Vec<BTreeMap<Option<Id>, usize>> = vec![BTreeMap::new(); problem.tools.len()];
    let mut step = |op: &super::Operation| {
        let tool = op.instrument.as_ref().and_then(|instrument| {
            let tool = problem.tools.iter().position(|t| t.id == instrument.tool)?;
            let known = &mut settings[tool];
            let next = known.len();
            Some((
                tool,
                *known.entry(instrument.setting.clone()).or_insert(next),
            ))
        });
        let sleeve = match &op.sleeve {
            SleeveUse::Keep => SleeveOp::Keep,
            SleeveUse::Out => SleeveOp::Out,
            SleeveUse::Place(id) => {
                let sleeve = problem.sleeves.iter().position(|sleeve| sleeve.id == *id);
                sleeve.map_or(SleeveOp::Keep, SleeveOp::Place)
            }
        };
        Op {
            tool,
            sleeve,
            speed: op.speed_rpm,
        }
    };
    problem
        .sites
        .iter()
        .map(|chain| chain.steps.iter().map(&mut step).collect())
        .collect()
}
