//! A problem made ready for the search: what is left to do at a site as a node, and tools as the
//! search has to distinguish them.
//!
//! A site with those that continue it is one to the search. Two sites with the same steps left, under the same rules, are at the same node: they can change
//! places, and the search need not look at both.

use super::ValidProblem;
use super::kinds::{Kind, kinds};
use super::valid::{Contiguity, Op, Place, Rates, SleeveOp};
use std::collections::{BTreeMap, BTreeSet};

/// The node of a site where nothing is left.
pub(super) const END: usize = 0;

/// The rest of a site: a step, and the node after it.
#[derive(Debug, Clone)]
pub(super) struct Node {
    /// Kind of tool and setting of it, as the search distinguishes them.
    pub(super) tool: Option<(usize, usize)>,
    pub(super) speed: Option<usize>,
    pub(super) sleeve: SleeveOp,
    pub(super) next: usize,
    /// The sleeve that the site's next step that does anything with it asks for.
    pub(super) wants: Option<usize>,
    /// Nodes that no site may have ahead, as bits; none where nothing has to come before.
    pub(super) needs: Option<Vec<u64>>,
    /// The step begins a site that continues the one before: a sleeve of that is none of its own, and
    /// another site may come between.
    pub(super) begins: bool,
}

/// A problem made ready for the search.
pub(super) struct Model {
    pub(super) nodes: Vec<Node>,
    /// The node of each site before anything is done.
    pub(super) starts: Vec<usize>,
    /// For each of them the sites of the problem, one for each step.
    pub(super) lines: Vec<Vec<usize>>,
    pub(super) kinds: Vec<Kind>,
    pub(super) speeds: usize,
    pub(super) pieces: Vec<i64>,
    pub(super) rates: Rates,
    pub(super) contiguity: Contiguity,
    /// For each node what it and those after it need, as bits; see [`Ahead`].
    pub(super) ahead: Ahead,
    /// Copies in a state, all tools together.
    pub(super) copies: usize,
    pub(super) steps: usize,
}

/// Everything ahead at each node, as bits: nodes, then kinds, then settings, then speeds.
pub(super) struct Ahead {
    pub(super) words: usize,
    pub(super) bits: Vec<u64>,
    pub(super) kinds_from: usize,
    pub(super) settings_from: usize,
    pub(super) speeds_from: usize,
}

impl Ahead {
    /// Everything ahead at a node.
    pub(super) fn of(&self, node: usize) -> &[u64] {
        &self.bits[node * self.words..(node + 1) * self.words]
    }
}

/// True if a bit is set.
pub(super) fn has(bits: &[u64], bit: usize) -> bool {
    bits[bit / 64] >> (bit % 64) & 1 == 1
}

fn set(bits: &mut [u64], bit: usize) {
    bits[bit / 64] |= 1 << (bit % 64);
}

impl Model {
    pub(super) fn new(problem: &ValidProblem) -> Self {
        let (kinds, kind_of) = kinds(problem);
        let speeds: BTreeSet<u32> = problem
            .ops
            .iter()
            .flatten()
            .filter_map(|o| o.speed)
            .collect();
        let speeds: Vec<u32> = speeds.into_iter().collect();
        let mut build = Build::new(problem);
        let mut lines: Vec<Vec<usize>> = Vec::new();
        for first in (0..problem.ops.len()).filter(|site| problem.continues[*site].is_none()) {
            let then = |site: &usize| problem.continues.iter().position(|c| *c == Some(*site));
            let sites: Vec<usize> = std::iter::successors(Some(first), then).collect();
            let mut next = END;
            for site in sites.iter().rev() {
                for (step, op) in problem.ops[*site].iter().enumerate().rev() {
                    let speed = op.speed.and_then(|speed| speeds.binary_search(&speed).ok());
                    let tool = op.tool.map(|tool| kind_of[&tool]);
                    next = build.node((*site, step), op, tool, speed, next);
                }
            }
            build.starts.push(next);
            let all = sites.into_iter();
            lines.push(
                all.flat_map(|site| problem.ops[site].iter().map(move |_| site))
                    .collect(),
            );
        }
        let settings = kinds.iter().map(|kind| kind.settings.1).sum();
        let copies = kinds
            .iter()
            .filter_map(|kind| kind.copies)
            .map(|(_, n)| n)
            .sum();
        let ahead = ahead(&build.nodes, &kinds, settings, speeds.len());
        build.needs(ahead.words);
        Self {
            nodes: build.nodes,
            starts: build.starts,
            lines,
            speeds: speeds.len(),
            pieces: problem
                .sleeves
                .iter()
                .map(|s| i64::from(s.pieces))
                .collect(),
            rates: problem.rates,
            contiguity: problem.contiguity,
            ahead,
            copies,
            kinds,
            steps: problem.step_count(),
        }
    }

    /// An order of what the search takes for sites as one of the sites of the problem.
    pub(super) fn in_problem(&self, order: &[usize]) -> Vec<usize> {
        let mut lines: Vec<_> = self.lines.iter().map(|line| line.iter()).collect();
        order
            .iter()
            .filter_map(|line| lines[*line].next().copied())
            .collect()
    }
}

/// The traits that make two nodes one: the step, the node after it, and the rules into and out of it.
type Likeness = (
    Option<(usize, usize)>,
    Option<usize>,
    SleeveOp,
    usize,
    Vec<Place>,
    Vec<Place>,
    bool,
);

struct Build<'a> {
    problem: &'a ValidProblem,
    nodes: Vec<Node>,
    starts: Vec<usize>,
    known: BTreeMap<Likeness, usize>,
    /// For each step the steps that wait for it.
    waiting: BTreeMap<Place, Vec<Place>>,
    /// The node of each step, and a step of each node.
    node_of: BTreeMap<Place, usize>,
    step_of: Vec<Place>,
}

impl<'a> Build<'a> {
    fn new(problem: &'a ValidProblem) -> Self {
        let mut waiting: BTreeMap<Place, Vec<Place>> = BTreeMap::new();
        for (site, chain) in problem.needs.iter().enumerate() {
            for (step, needs) in chain.iter().enumerate() {
                for need in needs {
                    waiting.entry(*need).or_default().push((site, step));
                }
            }
        }
        let end = Node {
            tool: None,
            speed: None,
            sleeve: SleeveOp::Keep,
            next: END,
            wants: None,
            needs: None,
            begins: false,
        };
        Self {
            problem,
            nodes: vec![end],
            starts: Vec::new(),
            known: BTreeMap::new(),
            waiting,
            node_of: BTreeMap::new(),
            step_of: vec![(usize::MAX, usize::MAX)],
        }
    }

    fn node(
        &mut self,
        at: Place,
        op: &Op,
        tool: Option<(usize, usize)>,
        speed: Option<usize>,
        next: usize,
    ) -> usize {
        let needs = self.problem.needs[at.0][at.1].clone();
        let waiting = self.waiting.get(&at).cloned().unwrap_or_default();
        let begins = at.1 == 0 && self.problem.continues[at.0].is_some();
        let likeness = (tool, speed, op.sleeve, next, needs, waiting, begins);
        let fresh = self.nodes.len();
        let node = *self.known.entry(likeness).or_insert(fresh);
        if node == fresh {
            let wants = match op.sleeve {
                SleeveOp::Keep if self.nodes[next].begins => None,
                SleeveOp::Keep => self.nodes[next].wants,
                SleeveOp::Out => None,
                SleeveOp::Place(sleeve) => Some(sleeve),
            };
            self.nodes.push(Node {
                tool,
                speed,
                sleeve: op.sleeve,
                next,
                wants,
                needs: None,
                begins,
            });
            self.step_of.push(at);
        }
        self.node_of.insert(at, node);
        node
    }

    /// Puts into each node the nodes that no site may have ahead. Nodes made of several steps have the
    /// same rules out of each, so that a node is needed whole or not at all.
    fn needs(&mut self, words: usize) {
        for (node, (site, step)) in self.step_of.iter().enumerate().skip(1) {
            let needs = &self.problem.needs[*site][*step];
            if !needs.is_empty() {
                let mut bits = vec![0; words];
                for need in needs {
                    set(&mut bits, self.node_of[need]);
                }
                self.nodes[node].needs = Some(bits);
            }
        }
    }
}

fn ahead(nodes: &[Node], kinds: &[Kind], settings: usize, speeds: usize) -> Ahead {
    let kinds_from = nodes.len();
    let settings_from = kinds_from + kinds.len();
    let speeds_from = settings_from + settings;
    let words = (speeds_from + speeds).div_ceil(64);
    let mut bits = vec![0; words * nodes.len()];
    // A node comes after the one it leads to.
    for (n, node) in nodes.iter().enumerate().skip(1) {
        let (before, own) = bits.split_at_mut(n * words);
        let own = &mut own[..words];
        own.copy_from_slice(&before[node.next * words..(node.next + 1) * words]);
        set(own, n);
        if let Some((kind, setting)) = node.tool {
            set(own, kinds_from + kind);
            set(own, settings_from + kinds[kind].settings.0 + setting);
        }
        if let Some(speed) = node.speed {
            set(own, speeds_from + speed);
        }
    }
    Ahead {
        words,
        bits,
        kinds_from,
        settings_from,
        speeds_from,
    }
}
