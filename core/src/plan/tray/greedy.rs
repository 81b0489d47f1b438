//! A greedy arrangement, for trays that are too large to look through every one: thing by
//! thing in the order of use, then exchanges as long as they part more look-alikes, or turn fewer pairs.

use super::apart::{ArrangementCost, SlotProblem};

/// So many pairs of things are looked at while exchanging, at the most: a few milliseconds.
const MOST_LOOKS: usize = 1_000_000;

/// An arrangement: the better of two, one that goes on along the tray and one that fills it.
pub(super) fn arrange(problem: &SlotProblem) -> Vec<usize> {
    let onward = exchanged(problem, by_turn(problem, |cost, slot| (cost, slot)));
    let filling = exchanged(
        problem,
        by_turn(problem, |cost, slot| {
            let first = ArrangementCost { turned: 0, ..cost };
            (first, slot)
        }),
    );
    if problem.cost(&filling) < problem.cost(&onward) {
        filling
    } else {
        onward
    }
}

/// Thing by thing, each in the free slot that `rank` puts first.
fn by_turn(
    problem: &SlotProblem,
    rank: impl Fn(ArrangementCost, usize) -> (ArrangementCost, usize),
) -> Vec<usize> {
    let mut place: Vec<usize> = Vec::with_capacity(problem.things());
    let mut taken = vec![false; problem.slots];
    for thing in 0..problem.things() {
        let mut behind = place.len();
        let mut best: Option<(ArrangementCost, usize)> = None;
        for (slot, is_taken) in taken.iter().enumerate() {
            if *is_taken {
                behind -= 1;
                continue;
            }
            let cost = ArrangementCost {
                pairs: problem.pairs(thing, slot, &place),
                turned: behind,
            };
            let way = rank(cost, slot);
            if best.is_none_or(|best| way < best) {
                best = Some(way);
            }
        }
        // There are as many slots as things.
        let Some((_, slot)) = best else { break };
        taken[slot] = true;
        place.push(slot);
    }
    place
}

/// The same after exchanges: first of things beside a look-alike with whatever parts them best,
/// then of turned pairs, where that brings none together.
fn exchanged(problem: &SlotProblem, place: Vec<usize>) -> Vec<usize> {
    let mut alike: Vec<Vec<usize>> = vec![Vec::new(); problem.things()];
    for (thing, before) in problem.alike.iter().enumerate() {
        for other in before {
            alike[thing].push(*other);
            alike[*other].push(thing);
        }
    }
    let mut lies = vec![None; problem.slots];
    for (thing, slot) in place.iter().enumerate() {
        lies[*slot] = Some(thing);
    }
    let mut exchanger = Exchanger {
        problem,
        alike,
        place,
        lies,
        left: MOST_LOOKS,
    };
    while exchanger.part() {}
    while exchanger.turn() {}
    exchanger.place
}

struct Exchanger<'a> {
    problem: &'a SlotProblem,
    /// All look-alikes of each thing.
    alike: Vec<Vec<usize>>,
    place: Vec<usize>,
    /// The thing in each slot.
    lies: Vec<Option<usize>>,
    left: usize,
}

impl Exchanger<'_> {
    /// The best exchange of each thing that is beside a look-alike. True if there was any.
    fn part(&mut self) -> bool {
        let mut any = false;
        for thing in 0..self.place.len() {
            if self.left == 0 || self.pairs_in(thing, self.place[thing], None) == 0 {
                continue;
            }
            let slots = 0..self.problem.slots;
            let gains = slots
                .map(|slot| (self.gain(thing, slot), slot))
                .collect::<Vec<_>>();
            let best = gains.into_iter().min();
            if let Some((gain, slot)) = best
                && gain < 0
            {
                self.exchange(thing, slot);
                any = true;
            }
        }
        any
    }

    /// Each turned pair, where that brings no look-alikes together. True if there was any.
    fn turn(&mut self) -> bool {
        let mut any = false;
        for thing in 0..self.place.len() {
            for other in thing + 1..self.place.len() {
                if self.left == 0 {
                    return false;
                }
                let slot = self.place[other];
                if self.place[thing] > slot && self.gain(thing, slot) <= 0 {
                    self.exchange(thing, slot);
                    any = true;
                }
            }
        }
        any
    }

    /// Look-alikes that a thing is beside in a slot, one left aside.
    fn pairs_in(&mut self, thing: usize, slot: usize, aside: Option<usize>) -> i64 {
        self.left = self.left.saturating_sub(self.alike[thing].len() + 1);
        let others = self.alike[thing].iter();
        let others = others.filter(|other| Some(**other) != aside);
        let beside = others.filter(|other| self.problem.is_beside(slot, self.place[**other]));
        i64::try_from(beside.count()).unwrap_or(i64::MAX)
    }

    /// The number of pairs by which it gets worse when a thing goes into a slot and the thing there
    /// into its own; the two of them are beside each other afterwards as before.
    fn gain(&mut self, thing: usize, slot: usize) -> i64 {
        let from = self.place[thing];
        if from == slot {
            return 0;
        }
        let other = self.lies[slot];
        let own = self.pairs_in(thing, slot, other) - self.pairs_in(thing, from, other);
        let others = other.map_or(0, |other| {
            self.pairs_in(other, from, Some(thing)) - self.pairs_in(other, slot, Some(thing))
        });
        own + others
    }

    fn exchange(&mut self, thing: usize, slot: usize) {
        let from = self.place[thing];
        self.lies.swap(from, slot);
        self.place[thing] = slot;
        if let Some(other) = self.lies[from] {
            self.place[other] = from;
        }
    }
}
