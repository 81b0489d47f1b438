//! Look-alikes laid apart: an exact search with a limit on its work.
//!
//! Laying is colouring a graph, so no quick rule finds every arrangement that there is; and
//! a look-alike beside another where the tray had room is a mix-up invited. So all arrangements are
//! looked through, those that cannot be better left out, best bets first: the first one reached is
//! what a greedy hand would lay, and whatever work is left only betters it. The limit is on work and
//! not on time, so that the same case is laid alike on every machine.

/// So many slots are looked at, at the most, once a first arrangement is there. The search of a
/// common case proves its answer with less; a tray of a hundred look-alikes does not hold up an edit.
const MOST_WORK: usize = 400_000;

/// Things of one kind, in the order of use, and the slots for them in the order in which they are
/// filled; no more things than slots.
pub(super) struct Laying {
    slots: usize,
    /// For each thing the earlier ones that look like it.
    alike: Vec<Vec<usize>>,
    /// For each pair of slots whether they lie side by side; empty where nothing looks alike.
    beside: Vec<bool>,
}

impl Laying {
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

    const fn things(&self) -> usize {
        self.alike.len()
    }

    /// Look-alikes that a thing would lie beside in a slot, of those that are laid.
    fn pairs(&self, thing: usize, slot: usize, place: &[usize]) -> usize {
        let others = self.alike[thing].iter();
        others
            .filter(|other| self.beside[slot * self.slots + place[**other]])
            .count()
    }
}

/// What is wrong with an arrangement, the worse first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Blame {
    /// Look-alikes that lie side by side.
    pairs: usize,
    /// Pairs of things that lie the other way round than they are used.
    turned: usize,
}

/// A slot for each thing: with the fewest look-alikes side by side, then the fewest pairs of things the
/// other way round than they are used; as far as the work goes.
pub(super) fn laid_apart(laying: &Laying) -> Vec<usize> {
    if laying.beside.is_empty() {
        return (0..laying.things()).collect();
    }
    let mut search = Search {
        laying,
        place: Vec::with_capacity(laying.things()),
        taken: vec![false; laying.slots],
        best: None,
        work: 0,
    };
    search.descend(Blame {
        pairs: 0,
        turned: 0,
    });
    search.best.map(|(_, place)| place).unwrap_or_default()
}

struct Search<'a> {
    laying: &'a Laying,
    /// Slots of the things laid so far.
    place: Vec<usize>,
    taken: Vec<bool>,
    best: Option<(Blame, Vec<usize>)>,
    work: usize,
}

impl Search<'_> {
    fn descend(&mut self, so_far: Blame) {
        let thing = self.place.len();
        if thing == self.laying.things() {
            self.best = Some((so_far, self.place.clone()));
            return;
        }
        for (bound, so_far, slot) in self.ways(thing, so_far) {
            let worse = self.best.as_ref().is_some_and(|(best, _)| *best <= bound);
            if worse || (self.best.is_some() && self.work > MOST_WORK) {
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
    /// what it comes to so far; the best bet first.
    fn ways(&mut self, thing: usize, so_far: Blame) -> Vec<(Blame, Blame, usize)> {
        let mut ways: Vec<(Blame, Blame, usize)> = Vec::new();
        let left = self.laying.things() - thing - 1;
        let mut before = self.place.len();
        for slot in 0..self.laying.slots {
            if self.taken[slot] {
                // From here on one fewer lies behind.
                before -= 1;
                continue;
            }
            let now = Blame {
                pairs: so_far.pairs + self.laying.pairs(thing, slot, &self.place),
                turned: so_far.turned + before,
            };
            let bound = Blame {
                turned: now.turned + self.least_turned(slot, left),
                ..now
            };
            ways.push((bound, now, slot));
        }
        ways.sort_unstable();
        ways
    }

    /// So many pairs at the least are turned by what is left to lay, once a thing lies in `slot`:
    /// each of them takes a slot of its own and is turned with all that lie behind it.
    fn least_turned(&mut self, slot: usize, left: usize) -> usize {
        let (mut behind, mut turned, mut to_lay) = (0, 0, left);
        for other in (0..self.laying.slots).rev() {
            if to_lay == 0 {
                break;
            }
            self.work += 1;
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
