//! The states that can come next.

use super::model::{END, Model, Node};
use super::state::{ELSEWHERE, EMPTY, FIRST, FRESH, Layout, SPENT, small};
use super::valid::{Contiguity, SleeveOp};

/// Gives all states that can come next. It holds the room that it works in, so that nothing is taken
/// from the heap for each state.
pub(super) struct Expander<'m> {
    pub(super) model: &'m Model,
    pub(super) layout: Layout,
    ahead: Vec<u64>,
    child: Vec<u16>,
    sleeves: Vec<Option<usize>>,
    ways: Vec<CopyChoice>,
    /// Everything ahead in the state just given.
    pub(super) child_ahead: Vec<u64>,
    /// For each site in the state just given, its place in the state before.
    pub(super) moved: Vec<usize>,
}

/// A state that can come next.
pub(super) struct Child<'a> {
    pub(super) row: &'a [u16],
    /// Everything ahead in it.
    pub(super) ahead: &'a [u64],
    /// The cost of coming here from the state before.
    pub(super) price: i64,
    /// The place in the state before of the site whose step is done.
    pub(super) site: usize,
    /// For each site, its place in the state before.
    pub(super) moved: &'a [usize],
}

/// A copy that may be taken.
#[derive(Debug, Clone, Copy)]
struct CopyChoice {
    price: i64,
    /// Its place among the copies of its kind, where it has one, and not in the hand.
    copy: Option<usize>,
    /// It stays in the hand.
    held: bool,
}

impl<'m> Expander<'m> {
    pub(super) fn new(model: &'m Model) -> Self {
        Self {
            model,
            layout: Layout::of(model),
            ahead: Vec::new(),
            child: Vec::new(),
            sleeves: Vec::new(),
            ways: Vec::new(),
            child_ahead: Vec::new(),
            moved: Vec::new(),
        }
    }

    /// Calls `give` for each state that can come next, always in the same order.
    ///
    /// A step that costs nothing and changes neither hand nor site nor speed is done at once: from any
    /// other way it could be taken out and put here, and nothing would get dearer.
    pub(super) fn expand(&mut self, row: &[u16], give: &mut dyn FnMut(&Child<'_>)) {
        let mut ahead = std::mem::take(&mut self.ahead);
        self.layout.ahead(self.model, row, &mut ahead);
        let place = row[self.layout.place()];
        if let Some(site) = (0..self.layout.sites).find(|s| self.is_free(row, *s, &ahead)) {
            self.step(row, site, give);
        } else if self.is_tied(row) {
            self.step(row, usize::from(place), give);
        } else {
            for site in 0..self.layout.sites {
                // Sites that are alike are all as good; the one at hand comes first among them.
                let alike = site > 0 && row[site] == row[site - 1];
                if alike && place != small(site - 1) {
                    continue;
                }
                if self.may(row, site, &ahead) {
                    self.step(row, site, give);
                }
            }
        }
        self.ahead = ahead;
    }

    fn node(&self, row: &[u16], site: usize) -> (&'m Node, bool) {
        let slot = row[site];
        (&self.model.nodes[usize::from(slot / 2)], slot % 2 == 1)
    }

    /// True if a site has a step left for which nothing else has to be done before.
    fn may(&self, row: &[u16], site: usize, ahead: &[u64]) -> bool {
        let node = &self.model.nodes[usize::from(row[site] / 2)];
        let waits = |needs: &Vec<u64>| needs.iter().zip(ahead).any(|(n, a)| n & a != 0);
        usize::from(row[site] / 2) != END && !node.needs.as_ref().is_some_and(waits)
    }

    /// True if the site at hand has to be finished before another one.
    fn is_tied(&self, row: &[u16]) -> bool {
        let place = row[self.layout.place()];
        let tied = self.model.contiguity == Contiguity::SiteBySite && place < ELSEWHERE;
        tied && !self.node(row, usize::from(place)).0.begins
    }

    fn is_free(&self, row: &[u16], site: usize, ahead: &[u64]) -> bool {
        let l = &self.layout;
        let here = row[l.place()] == small(site) || !l.tells_site;
        if !here || !self.may(row, site, ahead) {
            return false;
        }
        let (node, held) = self.node(row, site);
        if node.begins && self.model.contiguity == Contiguity::SiteBySite {
            // Whoever begins it has to finish it.
            return false;
        }
        let tool = node.tool.is_none_or(|(kind, setting)| {
            let set =
                self.model.kinds[kind].copies.is_none() || row[l.hand_setting()] == small(setting);
            row[l.hand()] == small(kind) && set
        });
        let speed = node
            .speed
            .is_none_or(|speed| !l.tells_speed || row[l.speed()] == small(speed));
        let sleeve = !matches!(node.sleeve, SleeveOp::Place(_)) || held || !l.tells_sleeves;
        tool && speed && sleeve
    }

    /// Does the next step of a site, in each way that is worth it.
    fn step(&mut self, row: &[u16], site: usize, give: &mut dyn FnMut(&Child<'_>)) {
        let (node, held) = self.node(row, site);
        let l = self.layout;
        let rates = &self.model.rates;
        let place = row[l.place()];
        let mut price = 0;
        if l.tells_site && place != FIRST && place != small(site) {
            price += rates.go;
        }
        let speed = node.speed.map(small).filter(|_| l.tells_speed);
        let now = row[l.speed()];
        if speed.is_some_and(|speed| now != FIRST && now != speed) {
            price += rates.speed;
        }
        let puts_in = l.tells_sleeves && matches!(node.sleeve, SleeveOp::Place(_)) && !held;
        if puts_in {
            price += rates.sleeve;
        }
        let mut sleeves = std::mem::take(&mut self.sleeves);
        self.victims(row, site, puts_in, &mut sleeves);
        let mut ways = std::mem::take(&mut self.ways);
        self.copies(row, node, &mut ways);
        for taken in &ways {
            for victim in &sleeves {
                let mut child = std::mem::take(&mut self.child);
                child.clear();
                child.extend_from_slice(row);
                self.take(&mut child, node, *taken);
                let next = &self.model.nodes[node.next];
                // A sleeve stays told only where the site asks for the same one next.
                let keeps = match node.sleeve {
                    _ if next.begins => false,
                    SleeveOp::Place(sleeve) => next.wants == Some(sleeve),
                    SleeveOp::Keep => held,
                    SleeveOp::Out => false,
                };
                child[site] = small(node.next * 2) + u16::from(keeps && l.tells_sleeves);
                if let Some(from) = victim {
                    child[*from] -= 1;
                }
                if let Some(speed) = speed {
                    child[l.speed()] = speed;
                }
                if l.tells_site {
                    child[l.place()] = small(site);
                }
                l.settle(
                    self.model,
                    &mut child,
                    &mut self.child_ahead,
                    &mut self.moved,
                );
                give(&Child {
                    row: &child,
                    ahead: &self.child_ahead,
                    price: price + taken.price,
                    site,
                    moved: &self.moved,
                });
                self.child = child;
            }
        }
        self.sleeves = sleeves;
        self.ways = ways;
    }

    /// The sites from which the sleeve may be taken, or none where a piece is free.
    fn victims(&self, row: &[u16], site: usize, puts_in: bool, sleeves: &mut Vec<Option<usize>>) {
        sleeves.clear();
        let (node, _) = self.node(row, site);
        let SleeveOp::Place(sleeve) = node.sleeve else {
            sleeves.push(None);
            return;
        };
        if puts_in {
            for other in 0..self.layout.sites {
                let (at, held) = self.node(row, other);
                if held && at.wants == Some(sleeve) {
                    sleeves.push(Some(other));
                }
            }
        }
        if !puts_in || (sleeves.len() as u64) < self.model.pieces[sleeve].unsigned_abs() {
            sleeves.clear();
            sleeves.push(None);
        }
    }

    /// Puts the copy that is taken into the hand, set as the step asks for.
    fn take(&self, child: &mut [u16], node: &Node, taken: CopyChoice) {
        let l = &self.layout;
        let Some((kind, setting)) = node.tool else {
            return;
        };
        child[l.hand()] = small(kind);
        let Some((from, count)) = self.model.kinds[kind].copies else {
            child[l.hand_setting()] = 0;
            return;
        };
        let copies = l.copies() + from..l.copies() + from + count;
        let copy = if taken.held {
            let in_hand = child[l.hand_setting()];
            copies.clone().find(|at| child[*at] == in_hand)
        } else {
            taken.copy.map(|copy| copies.start + copy)
        };
        if let Some(copy) = copy {
            child[copy] = small(setting);
        }
        child[l.hand_setting()] = small(setting);
    }

    /// The copies that are worth taking. One set as asked for is as good as any such; a fresh one is
    /// better than one to be set anew, one that nobody asks for better than one that somebody does.
    fn copies(&self, row: &[u16], node: &Node, ways: &mut Vec<CopyChoice>) {
        let l = &self.layout;
        let rates = &self.model.rates;
        ways.clear();
        let Some((kind, setting)) = node.tool else {
            ways.push(CopyChoice {
                price: 0,
                copy: None,
                held: true,
            });
            return;
        };
        let in_hand = row[l.hand()] == small(kind);
        let Some((from, count)) = self.model.kinds[kind].copies else {
            let price = if in_hand { 0 } else { rates.mount };
            ways.push(CopyChoice {
                price,
                copy: None,
                held: in_hand,
            });
            return;
        };
        let wanted = small(setting);
        if in_hand {
            let set = row[l.hand_setting()] == wanted;
            let price = if set { 0 } else { rates.reset };
            ways.push(CopyChoice {
                price,
                copy: None,
                held: true,
            });
            if set {
                return;
            }
        }
        let copies = &row[l.copies() + from..l.copies() + from + count];
        // The one in the hand is among them once; it is not there to be taken.
        let held_at = in_hand.then(|| copies.iter().position(|c| *c == row[l.hand_setting()]));
        let held_at = held_at.flatten();
        let others = || (0..count).filter(|at| Some(*at) != held_at);
        let find = |wanted: u16| others().find(|at| copies[*at] == wanted);
        for (setting, price) in [(wanted, 0), (FRESH, 0), (SPENT, rates.reset)] {
            if let Some(copy) = find(setting) {
                let price = rates.mount + price;
                ways.push(CopyChoice {
                    price,
                    copy: Some(copy),
                    held: false,
                });
                return;
            }
        }
        let mut before = EMPTY;
        for copy in others() {
            if copies[copy] != before {
                before = copies[copy];
                let price = rates.mount + rates.reset;
                ways.push(CopyChoice {
                    price,
                    copy: Some(copy),
                    held: false,
                });
            }
        }
    }
}
