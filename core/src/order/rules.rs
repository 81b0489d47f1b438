//! Rules as pairs of steps of which one has to be done before the other, and whether they agree.

use super::valid::Place;
use super::{Group, Id, Link, LinkReason, Problem, StepName, Unsolvable};
use crate::measure::Length;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// One step before another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Edge {
    pub(super) first: Place,
    pub(super) then: Place,
    pub(super) reason: LinkReason,
}

/// All pairs that the rules make, beyond the sequence of each site. Where each site has to stay
/// together, a rule between two of their steps holds the whole second site back.
pub(super) fn edges(problem: &Problem) -> Vec<Edge> {
    let mut edges = arcs(problem);
    edges.extend(continued(problem));
    if problem.rules.groups.contains(&Group::ByDiameter) {
        edges.extend(by_diameter(problem));
    }
    if problem.rules.groups.contains(&Group::SiteBySite) {
        let mut known = BTreeSet::new();
        edges.retain(|edge| edge.first.0 != edge.then.0);
        edges.retain(|edge| known.insert((edge.first.0, edge.then.0)));
        for edge in &mut edges {
            edge.first.1 = last(problem, edge.first.0);
            edge.then.1 = 0;
        }
    }
    edges
}

fn last(problem: &Problem, site: usize) -> usize {
    problem.sites[site].steps.len().saturating_sub(1)
}

fn arcs(problem: &Problem) -> Vec<Edge> {
    let at = |id: &Id| problem.sites.iter().position(|chain| chain.id == *id);
    let step = |given: Option<u32>| given.map(|step| step.saturating_sub(1) as usize);
    let rules = problem.rules.before.iter().enumerate();
    rules
        .filter_map(|(n, rule)| {
            let (first, then) = (at(&rule.first)?, at(&rule.then)?);
            let first_step = step(rule.first_step).unwrap_or_else(|| last(problem, first));
            Some(Edge {
                first: (first, first_step),
                then: (then, step(rule.then_step).unwrap_or(0)),
                reason: LinkReason::Before(n),
            })
        })
        .collect()
}

/// A site waits for the end of the one that it continues.
fn continued(problem: &Problem) -> impl Iterator<Item = Edge> {
    let pairs = continues(problem).into_iter().enumerate();
    pairs.filter_map(|(then, before)| {
        let first = before?;
        Some(Edge {
            first: (first, last(problem, first)),
            then: (then, 0),
            reason: LinkReason::Sequence,
        })
    })
}

/// For each site the one that it continues.
pub(super) fn continues(problem: &Problem) -> Vec<Option<usize>> {
    let at = |id: &Id| problem.sites.iter().position(|chain| chain.id == *id);
    let sites = problem.sites.iter();
    sites.map(|chain| at(chain.continues.as_ref()?)).collect()
}

/// The diameter of each drilling step, in the order of sites and steps.
fn diameters(problem: &Problem) -> Vec<(Place, Length)> {
    let mut found = Vec::new();
    for (site, chain) in problem.sites.iter().enumerate() {
        for (step, op) in chain.steps.iter().enumerate() {
            let tool = op.instrument.as_ref().map(|instrument| &instrument.tool);
            let tool = tool.and_then(|id| problem.tools.iter().find(|tool| tool.id == *id));
            if let Some(diameter) = tool.and_then(|tool| tool.diameter_mm) {
                found.push(((site, step), diameter));
            }
        }
    }
    found
}

/// Each diameter waits for the next narrower one; that one for those before it.
fn by_diameter(problem: &Problem) -> Vec<Edge> {
    let mut levels: BTreeMap<Length, Vec<Place>> = BTreeMap::new();
    for (place, diameter) in diameters(problem) {
        levels.entry(diameter).or_default().push(place);
    }
    let contiguous = problem.rules.groups.contains(&Group::SiteBySite);
    let levels: Vec<Vec<Place>> = levels.into_values().collect();
    let mut edges = Vec::new();
    for (n, narrower) in levels.iter().enumerate() {
        // With sites that stay together, what lies between two levels may be at the same site, so
        // that the wider one is not held back by way of it.
        let wider = levels.iter().skip(n + 1);
        for wider in wider.take(if contiguous { usize::MAX } else { 1 }) {
            for first in narrower {
                edges.extend(wider.iter().map(|then| Edge {
                    first: *first,
                    then: *then,
                    reason: LinkReason::Diameter,
                }));
            }
        }
    }
    edges
}

/// Drilling steps after a wider one at their own site, where drilling is by diameter.
pub(super) fn falling(problem: &Problem) -> Vec<Unsolvable> {
    if !problem.rules.groups.contains(&Group::ByDiameter) {
        return Vec::new();
    }
    let all = diameters(problem);
    let mut found = Vec::new();
    for pair in all.windows(2) {
        let [(before, wide), (after, narrow)] = pair else {
            continue;
        };
        if before.0 == after.0 && narrow < wide {
            let at = StepName::of(problem, *after);
            found.push(Unsolvable::Falling { at });
        }
    }
    found
}

/// A shortest circle of rules, if there is any.
pub(super) fn contradiction(problem: &Problem, edges: &[Edge]) -> Option<Unsolvable> {
    let mut links: BTreeMap<Place, Vec<Edge>> = BTreeMap::new();
    for (site, chain) in problem.sites.iter().enumerate() {
        for step in 1..chain.steps.len() {
            links.entry((site, step - 1)).or_default().push(Edge {
                first: (site, step - 1),
                then: (site, step),
                reason: LinkReason::Sequence,
            });
        }
    }
    for edge in edges {
        links.entry(edge.first).or_default().push(*edge);
    }
    let left = in_circles(problem, &links);
    let shortest = left
        .iter()
        .filter_map(|place| circle(*place, &left, &links));
    let circle = shortest.min_by_key(Vec::len)?.into_iter();
    let circle = circle
        .map(|edge| Link {
            first: StepName::of(problem, edge.first),
            then: StepName::of(problem, edge.then),
            reason: edge.reason,
        })
        .collect();
    Some(Unsolvable::Contradiction { circle })
}

/// The steps that are never free to be done.
fn in_circles(problem: &Problem, links: &BTreeMap<Place, Vec<Edge>>) -> BTreeSet<Place> {
    let sites = problem.sites.iter().enumerate();
    let mut waits: BTreeMap<Place, usize> = sites
        .flat_map(|(site, chain)| (0..chain.steps.len()).map(move |step| ((site, step), 0)))
        .collect();
    for link in links.values().flatten() {
        *waits.entry(link.then).or_default() += 1;
    }
    let free = waits.iter().filter(|(_, count)| **count == 0);
    let mut free: Vec<Place> = free.map(|(place, _)| *place).collect();
    while let Some(place) = free.pop() {
        waits.remove(&place);
        for link in links.get(&place).into_iter().flatten() {
            if let Some(count) = waits.get_mut(&link.then) {
                *count -= 1;
                if *count == 0 {
                    free.push(link.then);
                }
            }
        }
    }
    waits.into_keys().collect()
}

/// A shortest way from a step back to itself.
fn circle(
    start: Place,
    among: &BTreeSet<Place>,
    links: &BTreeMap<Place, Vec<Edge>>,
) -> Option<Vec<Edge>> {
    let mut came: BTreeMap<Place, Edge> = BTreeMap::new();
    let mut ahead = VecDeque::from([start]);
    while let Some(place) = ahead.pop_front() {
        for link in links.get(&place).into_iter().flatten() {
            if !among.contains(&link.then) || came.contains_key(&link.then) {
                continue;
            }
            came.insert(link.then, *link);
            if link.then == start {
                let mut way = vec![*link];
                while let Some(before) = way.last().filter(|link| link.first != start) {
                    way.push(*came.get(&before.first)?);
                }
                way.reverse();
                return Some(way);
            }
            ahead.push_back(link.then);
        }
    }
    None
}
