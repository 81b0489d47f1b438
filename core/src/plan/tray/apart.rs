//! Look-alikes laid apart: an exact search with a limit on its work, and a greedy one for what is too
//! large for it.
//!
//! Laying is colouring a graph, so no quick rule finds every arrangement that there is; and
//! a look-alike beside another where the tray had room is a mix-up invited. So all arrangements are
//! looked through, those that cannot be better left out, best bets first. Where that takes too long
//! the better of what it had and of the greedy arrangement is taken ([`super::greedy`]). The limit is on
//! work and not on time, so that the same case is laid alike on every machine.

use super::greedy;

/// So many pairs of things or slots are looked at, at the most: about a millisecond. Laying is part of
/// every worksheet, so of every edit.
const MOST_LOOKS: usize = 60_000;

/// Things of one kind, in the order of use, and the slots for them in the order in which they are
/// filled; no more things than slots.
pub(super) struct SlotProblem {
    pub(super) slots: usize,
    /// For each thing the earlier ones that look like it.
    pub(super) alike: Vec<Vec<usize>>,
    /// For each pair of slots: they are side by side or not; empty where nothing looks alike.
    beside: Vec<bool>,
}

impl SlotProblem {
    pub(super) fn new(
        things: usize,
        slots: usize,
        are_alike: impl Fn(usize, usize) -> bool,
        are_beside: impl Fn(usize, usize) -> bool,
    ) -> Self {
        debug_assert!(things <= slots, "what has no slot is left out before");
        let alike: Vec<Vec<usize>> = (0..things)
            .map(|thing| {
                (0..thing)
                    .filter(|other| are_alike(*other, thing))
                    .collect()
            })
            .collect();
        let beside = if alike.iter().all(Vec::is_empty) {
            Vec::new()
        } else {
            let pairs = (0..slots).flat_map(|a| (0..slots).map(move |b| (a, b)));
            pairs.map(|(a, b)| a != b && are_beside(a, b)).collect()
        };
        Self {
            slots,
            alike,
            beside,
        }
    }

    pub(super) const fn things(&self) -> usize {
        self.alike.len()
    }

    pub(super) fn is_beside(&self, slot: usize, other: usize) -> bool {
        self.beside[slot * self.slots + other]
    }

    /// Look-alikes that a thing would be beside in a slot, of those before it.
    pub(super) fn pairs(&self, thing: usize, slot: usize, place: &[usize]) -> usize {
        let others = self.alike[thing].iter();
        others
            .filter(|other| self.is_beside(slot, place[**other]))
            .count()
    }

    /// The faults of an arrangement.
    pub(super) fn cost(&self, place: &[usize]) -> ArrangementCost {
        let things = || 0..place.len();
        let turned = |thing: usize| {
            let before = place[..thing].iter();
            before.filter(|other| **other > place[thing]).count()
        };
        ArrangementCost {
            pairs: things()
                .map(|thing| self.pairs(thing, place[thing], place))
                .sum(),
            turned: things().map(turned).sum(),
        }
    }
}

/// The faults of an arrangement, the worse first.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct ArrangementCost {
    /// Look-alikes that are side by side.
    pub(super) pairs: usize,
    /// Pairs of things that are the other way round than they are used.
    pub(super) turned: usize,
}

/// A slot for each thing: with the fewest look-alikes side by side, then the fewest pairs of things the
/// other way round than they are used; as far as the work goes.
pub(super) fn arrange_apart(problem: &SlotProblem) -> Vec<usize> {
    if problem.beside.is_empty() {
        return (0..problem.things()).collect();
    }
    let mut search = Search {
        problem,
        place: Vec::with_capacity(problem.things()),
        taken: vec![false; problem.slots],
        best: None,
        left: MOST_LOOKS,
    };
    search.descend(ArrangementCost::default());
    let is_whole = search.left > 0;
    match search.best {
        Some((_, place)) if is_whole => place,
        found => {
            let greedy = greedy::arrange(problem);
            let found = found.filter(|(cost, _)| *cost <= problem.cost(&greedy));
            found.map_or(greedy, |(_, place)| place)
        }
    }
}

struct Search<'a> {
    problem: &'a SlotProblem,
    /// Slots of the things laid so far.
    place: Vec<usize>,
    taken: Vec<bool>,
    best: Option<(ArrangementCost, Vec<usize>)>,
    /// Looks that may still be taken; with none left it ends.
    left: usize,
}

impl Search<'_> {
    fn descend(&mut self, so_far: ArrangementCost) {
        let thing = self.place.len();
        if thing == self.problem.things() {
            self.best = Some((so_far, self.place.clone()));
            return;
        }
        for (bound, so_far, slot) in self.ways(thing, so_far) {
            let worse = self.best.as_ref().is_some_and(|(best, _)| *best <= bound);
            if worse || self.left == 0 {
                return;
            }
            self.place.push(slot);
            self.taken[slot] = true;
            self.descend(so_far);
            self.taken[slot] = false;
            self.place.pop();
        }
    }

    /// The slots that a thing may go in: with the least that any arrangement after it can come to, and
    /// what it comes to so far; the best bet first. None once there is no work left.
    fn ways(
        &mut self,
        thing: usize,
        so_far: ArrangementCost,
    ) -> Vec<(ArrangementCost, ArrangementCost, usize)> {
        let mut ways: Vec<(ArrangementCost, ArrangementCost, usize)> = Vec::new();
        let to_lay = self.problem.things() - thing - 1;
        let mut before = self.place.len();
        for slot in 0..self.problem.slots {
            if self.taken[slot] {
                // From here on one fewer lies behind.
                before -= 1;
                continue;
            }
            self.left = self
                .left
                .saturating_sub(self.problem.alike[thing].len() + 1);
            let now = ArrangementCost {
                pairs: so_far.pairs + self.problem.pairs(thing, slot, &self.place),
                turned: so_far.turned + before,
            };
            let bound = ArrangementCost {
                turned: now.turned + self.least_turned(slot, to_lay),
                ..now
            };
            if self.left == 0 {
                return Vec::new();
            }
            ways.push((bound, now, slot));
        }
        ways.sort_unstable();
        ways
    }

    /// So many pairs at the least are turned by what is left to lay, once a thing lies in `slot`:
    /// each of them takes a slot of its own and is turned with all that are behind it.
    fn least_turned(&mut self, slot: usize, mut to_lay: usize) -> usize {
        let (mut behind, mut turned) = (0, 0);
        for other in (0..self.problem.slots).rev() {
            if to_lay == 0 {
                break;
            }
            self.left = self.left.saturating_sub(1);
            if self.taken[other] || other == slot {
                behind += 1;
            } else {
                turned += behind;
                to_lay -= 1;
            }
        }
        turned
    }
}
