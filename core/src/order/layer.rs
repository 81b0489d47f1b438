//! All states with the same count of steps done, each once.

use super::dominance::catch_up;
use super::model::Model;
use super::state::Layout;

/// No place in a table.
const NONE: u32 = u32::MAX;

/// States side by side, found by their row.
pub(super) struct Layer {
    width: usize,
    rows: Vec<u16>,
    /// The cost of coming to each.
    pub(super) costs: Vec<i64>,
    /// That, and the bound for what is left.
    pub(super) sums: Vec<i64>,
    /// For each the state before, and which of the ways out of that.
    pub(super) came: Vec<(u32, u32)>,
    table: Vec<u32>,
}

/// Slot of a row, taken or free.
pub(super) enum Found {
    At(usize),
    Free(usize),
}

impl Layer {
    pub(super) fn new(width: usize) -> Self {
        Self {
            width,
            rows: Vec::new(),
            costs: Vec::new(),
            sums: Vec::new(),
            came: Vec::new(),
            table: vec![NONE; 64],
        }
    }

    pub(super) fn len(&self) -> usize {
        self.costs.len()
    }

    pub(super) fn row(&self, at: usize) -> &[u16] {
        &self.rows[at * self.width..(at + 1) * self.width]
    }

    pub(super) fn find(&self, row: &[u16]) -> Found {
        let mask = self.table.len() - 1;
        let mut slot = hash(row) & mask;
        loop {
            match self.table[slot] {
                NONE => return Found::Free(slot),
                at if self.row(at as usize) == row => return Found::At(at as usize),
                _ => slot = (slot + 1) & mask,
            }
        }
    }

    /// Adds a row that is not there at the place where it belongs.
    pub(super) fn add(&mut self, slot: usize, row: &[u16], cost: i64, sum: i64, came: (u32, u32)) {
        self.table[slot] = u32::try_from(self.len()).unwrap_or(NONE);
        self.rows.extend_from_slice(row);
        self.costs.push(cost);
        self.sums.push(sum);
        self.came.push(came);
        if self.len() * 2 > self.table.len() {
            self.index(self.table.len() * 2);
        }
    }

    fn index(&mut self, size: usize) {
        self.table.clear();
        self.table.resize(size, NONE);
        for at in 0..self.len() {
            if let Found::Free(slot) = self.find(self.row(at)) {
                self.table[slot] = u32::try_from(at).unwrap_or(NONE);
            }
        }
    }

    /// Empties the layer; its room stays.
    pub(super) fn clear(&mut self) {
        self.rows.clear();
        self.costs.clear();
        self.sums.clear();
        self.came.clear();
        self.table.clear();
        self.table.resize(64, NONE);
    }

    /// Keeps only these states, in this order.
    pub(super) fn retain(&mut self, kept: &[u32]) {
        let mut rows = Vec::with_capacity(kept.len() * self.width);
        for at in kept {
            rows.extend_from_slice(self.row(*at as usize));
        }
        self.rows = rows;
        self.costs = kept.iter().map(|at| self.costs[*at as usize]).collect();
        self.sums = kept.iter().map(|at| self.sums[*at as usize]).collect();
        self.came = kept.iter().map(|at| self.came[*at as usize]).collect();
        self.index((kept.len() * 4).next_power_of_two().max(64));
    }
}

/// Groups of states with the same left to do, for the search for needless ones.
pub(super) struct Groups {
    table: Vec<u32>,
    /// The next member of the same group.
    next: Vec<u32>,
}

impl Groups {
    pub(super) fn new(count: usize) -> Self {
        Self {
            table: vec![NONE; (count * 2).next_power_of_two().max(64)],
            next: vec![NONE; count],
        }
    }

    /// True if a state is made needless by one of its group that was looked at before. If not, it
    /// joins the group.
    pub(super) fn is_needless(
        &mut self,
        model: &Model,
        layout: &Layout,
        layer: &Layer,
        at: usize,
    ) -> bool {
        let row = layer.row(at);
        let sites = layout.sites;
        let same = |other: &[u16]| (0..sites).all(|s| row[s] / 2 == other[s] / 2);
        let mask = self.table.len() - 1;
        let mut slot = hash_nodes(&row[..sites]) & mask;
        while self.table[slot] != NONE && !same(layer.row(self.table[slot] as usize)) {
            slot = (slot + 1) & mask;
        }
        let mut member = self.table[slot];
        // The first few of a group are the cheapest, and those that matter.
        for _ in 0..MOST_COMPARED {
            if member == NONE {
                break;
            }
            let other = member as usize;
            if layer.costs[other] <= layer.costs[at] {
                let price = catch_up(model, layout, layer.row(other), row);
                if price.is_some_and(|price| layer.costs[other] + price <= layer.costs[at]) {
                    return true;
                }
            }
            member = self.next[other];
        }
        let own = u32::try_from(at).unwrap_or(NONE);
        match self.table[slot] {
            NONE => self.table[slot] = own,
            // Behind the first one, which is the best so far.
            first => {
                self.next[at] = self.next[first as usize];
                self.next[first as usize] = own;
            }
        }
        false
    }
}

/// So many states of a group are compared with each that comes.
const MOST_COMPARED: usize = 8;

/// A number from a row that is the same on every machine.
fn hash(row: &[u16]) -> usize {
    mix(row.iter().copied())
}

fn hash_nodes(row: &[u16]) -> usize {
    mix(row.iter().map(|slot| slot / 2))
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "any bits of the number will do"
)]
fn mix(numbers: impl Iterator<Item = u16>) -> usize {
    let mut mixed = 0x9E37_79B9_7F4A_7C15_u64;
    for number in numbers {
        mixed = (mixed ^ u64::from(number)).wrapping_mul(0x2127_599B_F432_5C37);
        mixed ^= mixed >> 29;
    }
    mixed as usize
}
