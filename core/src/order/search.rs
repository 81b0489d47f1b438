//! The search: step by step through all states that could still lead to something better than what is
//! known, the most promising ones first where there are too many.
//!
//! Every schedule has the same count of steps, so the states fall into layers by the count of steps
//! done, and each layer comes from the one before alone. What A* would look at (states whose cost
//! and bound together are below the best) is what is looked at here, without a queue, and only two
//! layers are in memory. Where a layer is wider than allowed, its best are kept, as in a beam, and
//! the least sum of what was left out is still a true bound for the whole.

use super::bounds::Bounds;
use super::expand::Expander;
use super::layer::{Found, Groups, Layer};
use super::model::Model;
use super::state::Layout;
use std::ops::ControlFlow;

/// The callback that is told how far the search is and says whether it goes on.
pub(super) type ProgressCallback<'a> = dyn FnMut(u64) -> ControlFlow<()> + 'a;

/// After so many numbers it is asked whether to go on.
const ASK_EVERY: u64 = 1_000_000;
/// Work is counted in so many numbers.
const UNIT: u64 = 1000;

/// A search through one model.
pub(super) struct Search<'m> {
    model: &'m Model,
    layout: Layout,
    expander: Expander<'m>,
    bounds: Bounds<'m>,
    /// States looked at so far.
    pub(super) expanded: u64,
    /// Numbers of states and bounds looked at so far.
    numbers: u64,
    /// So many of them may be looked at altogether.
    limit: u64,
    /// At so many of them it is asked next.
    ask_at: u64,
}

/// The result of one pass through all layers.
pub(super) struct PassResult {
    /// The cost of the best order found that is better than what was known, and the order.
    pub(super) best: Option<(i64, Vec<usize>)>,
    /// Nothing can cost less than this, unless the best does.
    pub(super) bound: i64,
    /// The reason why the pass ended before its time.
    pub(super) stopped: Option<Stop>,
}

/// A reason why a pass ended before its time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stop {
    /// The work allowed is done.
    Budget,
    /// Whoever waits for it does not any more.
    Asked,
}

/// The width that a layer may have, and what is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct PassLimits {
    /// So many states of a layer are kept.
    pub(super) room: Room,
    /// Only what costs less than this is of interest.
    pub(super) below: i64,
}

/// The room for a pass.
#[derive(Debug, Clone, Copy)]
pub(super) enum Room {
    /// So many states in each layer.
    Width(usize),
    /// As many as there is memory for.
    Bytes(usize),
}

impl<'m> Search<'m> {
    pub(super) fn new(model: &'m Model, bounds: Bounds<'m>, work: u64) -> Self {
        Self {
            model,
            layout: Layout::of(model),
            expander: Expander::new(model),
            bounds,
            expanded: 0,
            numbers: 0,
            limit: work.saturating_mul(UNIT),
            ask_at: 0,
        }
    }

    /// The work done so far.
    pub(super) const fn work(&self) -> u64 {
        self.numbers.div_ceil(UNIT)
    }

    /// The width of a layer at which all fits into these bytes: two layers, one of which grows to three times
    /// the width before it is cut, and who came from whom in all of them. So many layers are behind it, with so
    /// many states that were kept.
    pub(super) fn width_within(&self, bytes: usize, layers: usize, states: usize) -> usize {
        let state = 2 * self.layout.width + 8 + 8 + 8 + 16 + 12;
        let came = 8 * (self.model.steps - layers);
        let left = bytes.saturating_sub(8 * states);
        (left / (5 * state + came)).max(1)
    }

    /// Takes other bounds; what was counted stays.
    pub(super) fn take_bounds(&mut self, bounds: Bounds<'m>) {
        self.bounds = bounds;
    }

    /// A lower bound from the start alone.
    pub(super) fn start_bound(&self) -> i64 {
        self.bounds.start(self.model)
    }

    /// Goes through all layers once.
    pub(super) fn pass(&mut self, reach: PassLimits, ask: &mut ProgressCallback<'_>) -> PassResult {
        let (row, _) = self.layout.start(self.model);
        let mut layer = Layer::new(self.layout.width);
        let mut next = Layer::new(self.layout.width);
        if let Found::Free(slot) = layer.find(&row) {
            layer.add(slot, &row, 0, self.start_bound(), (0, 0));
        }
        let mut history = Vec::with_capacity(self.model.steps);
        let mut bound = reach.below;
        let mut behind = 0;
        for n in 0..self.model.steps {
            let width = match reach.room {
                Room::Width(width) => width,
                Room::Bytes(bytes) => self.width_within(bytes, n, behind),
            };
            let limits = (width, reach.below);
            if let Some(stop) = self.expand_all(&layer, &mut next, limits, &mut bound, ask) {
                return PassResult {
                    best: None,
                    bound,
                    stopped: Some(stop),
                };
            }
            let kept = self.kept(&next, width, &mut bound);
            next.retain(&kept);
            behind += next.len();
            history.push(next.came.clone());
            std::mem::swap(&mut layer, &mut next);
            next.clear();
        }
        let ends = (0..layer.len()).min_by_key(|at| layer.costs[*at]);
        let best = ends.map(|at| (layer.costs[at], self.order(&history, at)));
        PassResult {
            best,
            bound,
            stopped: None,
        }
    }

    /// Fills the next layer with all that comes from this one and may lead to something better.
    fn expand_all(
        &mut self,
        layer: &Layer,
        next: &mut Layer,
        (width, below): (usize, i64),
        bound: &mut i64,
        ask: &mut ProgressCallback<'_>,
    ) -> Option<Stop> {
        for at in 0..layer.len() {
            let stop = if self.numbers >= self.limit {
                Some(Stop::Budget)
            } else if self.numbers >= self.ask_at {
                self.ask_at = self.numbers + ASK_EVERY;
                ask(self.expanded).is_break().then_some(Stop::Asked)
            } else {
                None
            };
            if stop.is_some() {
                let open = layer.sums[at..].iter().chain(&next.sums).min();
                *bound = open.copied().unwrap_or(*bound).min(*bound);
                return stop;
            }
            self.expanded += 1;
            self.expand_one(layer, at, next, below);
            if next.len() > width.saturating_mul(3) {
                let kept = self.kept(next, width, bound);
                next.retain(&kept);
            }
        }
        None
    }

    fn expand_one(&mut self, layer: &Layer, at: usize, next: &mut Layer, below: i64) {
        let bounds = &mut self.bounds;
        let (cost, sum) = (layer.costs[at], layer.sums[at]);
        let from = u32::try_from(at).unwrap_or(u32::MAX);
        let mut way = 0;
        let (row, bound_numbers) = (self.layout.width as u64, bounds.numbers());
        let mut numbers = row;
        self.expander.expand(layer.row(at), &mut |child| {
            let came = (from, way);
            way += 1;
            numbers += row;
            let cost = cost + child.price;
            if cost >= below {
                return;
            }
            let found = next.find(child.row);
            if let Found::At(known) = found
                && next.costs[known] <= cost
            {
                return;
            }
            numbers += bound_numbers;
            // What was true of the state before is true of this one.
            let sum = sum.max(cost + bounds.of(child.row, child.ahead, below - cost));
            if sum >= below {
                return;
            }
            match found {
                Found::At(known) => {
                    next.costs[known] = cost;
                    next.sums[known] = sum;
                    next.came[known] = came;
                }
                Found::Free(slot) => next.add(slot, child.row, cost, sum, came),
            }
        });
        self.numbers += numbers;
    }

    /// The states of a layer that are kept, the most promising first. The bound is lowered to what
    /// of the others could still come.
    fn kept(&self, layer: &Layer, width: usize, bound: &mut i64) -> Vec<u32> {
        let count = u32::try_from(layer.len()).unwrap_or(u32::MAX);
        let mut order: Vec<u32> = (0..count).collect();
        order.sort_unstable_by_key(|at| (layer.sums[*at as usize], *at));
        let mut groups = Groups::new(layer.len());
        let mut kept = Vec::with_capacity(layer.len().min(width));
        for at in order {
            if kept.len() == width {
                *bound = (*bound).min(layer.sums[at as usize]);
                break;
            }
            if !groups.is_needless(self.model, &self.layout, layer, at as usize) {
                kept.push(at);
            }
        }
        kept
    }

    /// The sites in order on the way to a state of the last layer.
    fn order(&mut self, history: &[Vec<(u32, u32)>], end: usize) -> Vec<usize> {
        let mut ways = Vec::with_capacity(history.len());
        let mut at = end;
        for came in history.iter().rev() {
            let (from, way) = came[at];
            ways.push(way);
            at = from as usize;
        }
        let (mut row, mut who) = self.layout.start(self.model);
        let mut order = Vec::with_capacity(history.len());
        for wanted in ways.into_iter().rev() {
            let mut way = 0;
            let mut taken = None;
            self.expander.expand(&row, &mut |child| {
                if way == wanted {
                    let moved: Vec<usize> = child.moved.iter().map(|from| who[*from]).collect();
                    taken = Some((child.row.to_vec(), moved, who[child.site]));
                }
                way += 1;
            });
            // The same state gives the same ways in the same order.
            let Some((next, moved, site)) = taken else {
                break;
            };
            (row, who) = (next, moved);
            order.push(site);
        }
        self.model.in_problem(&order)
    }
}
