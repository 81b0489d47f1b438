//! Reading a problem file, and what its parts say of each other.

use super::{Chain, Id, ORDER_VERSION, Problem, SleeveUse, Unsolvable, ValidProblem};
use crate::document::{self, Checks, Fault, Faults, Kind, Path, Rule};

/// The problem file.
pub const ORDER_KIND: Kind = Kind {
    key: "traywright_order",
    name: "run-order",
    oldest: 1,
    version: ORDER_VERSION as u64,
    rules: None,
    is_printed: false,
};

/// A reason why a problem is not solved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refused {
    /// The document is not sound.
    Faults(Faults),
    /// It is, but no order can obey it.
    Unsolvable(Vec<Unsolvable>),
}

/// Reads a problem file.
///
/// # Errors
///
/// All faults of the document; where it has none, all reasons for which no order is possible.
pub fn read_problem(bytes: &[u8]) -> Result<ValidProblem, Refused> {
    let problem = document::read::<Problem>(bytes, &ORDER_KIND, &[ORDER_KIND], check_problem)
        .map_err(Refused::Faults)?;
    ValidProblem::try_from(problem)
}

/// Checks of a problem beyond its schema: ids given once, references that lead somewhere.
#[must_use]
pub fn check_problem(problem: &Problem) -> Vec<Fault> {
    let mut checks = Checks::default();
    let root = Path::root();
    let tools = || problem.tools.iter().map(|tool| tool.id.as_str());
    let sleeves = || problem.sleeves.iter().map(|sleeve| sleeve.id.as_str());
    checks.unique(&root.key("tools"), "id", tools());
    checks.unique(&root.key("sleeves"), "id", sleeves());
    checks.unique(
        &root.key("sites"),
        "id",
        problem.sites.iter().map(|c| &c.id),
    );
    // Of those that continue nothing each is one by itself; no id holds a blank.
    let sites = problem.sites.iter().enumerate();
    let continued = sites.map(|(n, chain)| match &chain.continues {
        Some(before) => before.to_string(),
        None => format!(" {n}"),
    });
    checks.unique(&root.key("sites"), "continues", continued);
    let known = || problem.sites.iter().map(|chain| chain.id.as_str());
    for (n, chain) in problem.sites.iter().enumerate() {
        if let Some(before) = &chain.continues {
            let at = root.key("sites").item(n).key("continues");
            checks.reference(at.clone(), "site", before.as_str(), known());
            if *before == chain.id {
                checks.push(Fault::new(at, Rule::RefersToItself).with("id", before.as_str()));
            }
        }
        for (k, step) in chain.steps.iter().enumerate() {
            let at = root.key("sites").item(n).key("steps").item(k);
            if let Some(instrument) = &step.instrument {
                let at = at.key("instrument").key("tool");
                checks.reference(at, "tool", instrument.tool.as_str(), tools());
            }
            if let SleeveUse::Place(sleeve) = &step.sleeve {
                let at = at.key("sleeve").key("place");
                checks.reference(at, "sleeve", sleeve.as_str(), sleeves());
            }
        }
    }
    arcs(problem, &mut checks);
    checks.into_faults()
}

fn arcs(problem: &Problem, checks: &mut Checks) {
    let chain = |id: &Id| problem.sites.iter().find(|chain| chain.id == *id);
    let mut step = |at: Path, given: Option<u32>, chain: Option<&Chain>| {
        if let (Some(given), Some(chain)) = (given, chain) {
            let count = u32::try_from(chain.steps.len()).unwrap_or(u32::MAX);
            checks.at_most(at, &given, &count, "steps");
        }
    };
    for (n, rule) in problem.rules.before.iter().enumerate() {
        let at = Path::root().key("rules").key("before").item(n);
        step(at.key("first_step"), rule.first_step, chain(&rule.first));
        step(at.key("then_step"), rule.then_step, chain(&rule.then));
    }
    for (n, rule) in problem.rules.before.iter().enumerate() {
        let at = Path::root().key("rules").key("before").item(n);
        for (key, id) in [("first", &rule.first), ("then", &rule.then)] {
            let known = problem.sites.iter().map(|chain| chain.id.as_str());
            checks.reference(at.key(key), "site", id.as_str(), known);
        }
        if rule.first == rule.then {
            let fault = Fault::new(at.key("then"), Rule::RefersToItself);
            checks.push(fault.with("id", rule.then.as_str()));
        }
    }
}
