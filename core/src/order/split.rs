//! Parts of a problem that do not touch each other.
//!
//! If moves, sleeves and speeds cost nothing, only mounts and re-sets are left, and each tool has
//! its own. Say of two tools that one leads to the other where some step with the first has to come
//! before one with the second. Tools that lead to each other in a circle belong together; the
//! groups so made have an order, and any schedule sorted by it, the sequence within each group
//! kept, breaks no rule and costs no more. So each group is solved by itself.

use super::ValidProblem;
use super::valid::{Contiguity, Op, Place};
use std::collections::BTreeMap;

/// Steps that cannot be parted: a tool with all of its own, or one without an instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    Tool(usize),
    Bare(Place),
}

/// The parts of a problem, in an order in which they can be done one after another; one where it
/// cannot be split.
pub(super) fn split(problem: &ValidProblem) -> Vec<ValidProblem> {
    let rates = &problem.rates;
    if rates.go + rates.sleeve + rates.speed > 0 || problem.contiguity == Contiguity::SiteBySite {
        return Vec::new();
    }
    let groups = groups(problem);
    let count = groups.values().max().map_or(0, |last| last + 1);
    if count < 2 {
        return Vec::new();
    }
    (0..count)
        .map(|group| part(problem, &groups, group))
        .collect()
}

fn kind(place: Place, op: &Op) -> Kind {
    op.tool
        .map_or(Kind::Bare(place), |(tool, _)| Kind::Tool(tool))
}

/// For each kind the number of its group, in an order in which groups can be done.
fn groups(problem: &ValidProblem) -> BTreeMap<Kind, usize> {
    let mut kinds: BTreeMap<Kind, usize> = BTreeMap::new();
    for (site, chain) in problem.ops.iter().enumerate() {
        for (step, op) in chain.iter().enumerate() {
            let next = kinds.len();
            kinds.entry(kind((site, step), op)).or_insert(next);
        }
    }
    let number = |place: Place| kinds[&kind(place, &problem.ops[place.0][place.1])];
    let mut leads = vec![Vec::new(); kinds.len()];
    for (site, chain) in problem.ops.iter().enumerate() {
        for step in 0..chain.len() {
            let then = number((site, step));
            if step > 0 {
                leads[number((site, step - 1))].push(then);
            }
            for need in &problem.needs[site][step] {
                leads[number(*need)].push(then);
            }
        }
    }
    let group = circles(&leads);
    kinds
        .into_iter()
        .map(|(kind, n)| (kind, group[n]))
        .collect()
}

/// For each point the number of its group of points that lead to each other, those that lead to others
/// first (Kosaraju's two walks).
fn circles(leads: &[Vec<usize>]) -> Vec<usize> {
    let mut back = vec![Vec::new(); leads.len()];
    for (from, to) in leads.iter().enumerate() {
        for to in to {
            back[*to].push(from);
        }
    }
    let mut seen = vec![false; leads.len()];
    let mut left = Vec::new();
    for point in 0..leads.len() {
        walk(point, leads, &mut seen, &mut |done| left.push(done));
    }
    let mut group = vec![0; leads.len()];
    let mut count = 0;
    let mut seen = vec![false; leads.len()];
    for point in left.into_iter().rev() {
        let mut any = false;
        walk(point, &back, &mut seen, &mut |done| {
            group[done] = count;
            any = true;
        });
        count += usize::from(any);
    }
    group
}

/// Walks from a point to all that were not seen, telling each as it is left.
fn walk(start: usize, leads: &[Vec<usize>], seen: &mut [bool], leave: &mut dyn FnMut(usize)) {
    if std::mem::replace(&mut seen[start], true) {
        return;
    }
    let mut way = vec![(start, 0)];
    while let Some((point, next)) = way.last_mut() {
        if let Some(to) = leads[*point].get(*next) {
            *next += 1;
            if !std::mem::replace(&mut seen[*to], true) {
                way.push((*to, 0));
            }
        } else {
            leave(*point);
            way.pop();
        }
    }
}

/// The steps of one group, as a problem.
fn part(problem: &ValidProblem, groups: &BTreeMap<Kind, usize>, group: usize) -> ValidProblem {
    let mut part = problem.clone();
    let mut place_in_part: BTreeMap<Place, Place> = BTreeMap::new();
    for (site, chain) in problem.ops.iter().enumerate() {
        part.ops[site].clear();
        part.needs[site].clear();
        for (step, op) in chain.iter().enumerate() {
            if groups[&kind((site, step), op)] == group {
                place_in_part.insert((site, step), (site, part.ops[site].len()));
                part.ops[site].push(*op);
                part.needs[site].push(problem.needs[site][step].clone());
            }
        }
    }
    for needs in part.needs.iter_mut().flatten() {
        // What lies in another group comes before or after as a whole.
        *needs = needs
            .iter()
            .filter_map(|need| place_in_part.get(need))
            .copied()
            .collect();
    }
    part
}
