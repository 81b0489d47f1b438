//! A state of the search as a row of small numbers.
//!
//! `[site, site, …, where, hand, hand's setting, speed, copy, copy, …]`
//!
//! - Each site is twice its node, plus one where it holds the sleeve that it asks for next. A
//!   sleeve that its site does not ask for next is as good as free, so it is left out. Sites are in
//!   the order of that number: which is which does not matter.
//! - `where` is the place of the site at hand among them.
//! - A copy is its setting. Settings and tools that nobody asks for any more are all alike.
//!
//! Parts that cost nothing are left out: `where`, for instance, with no weight on moves.

use super::model::{END, Model, has};
use super::valid::Contiguity;

/// Nothing was done yet: the first site, the first speed cost nothing.
pub(super) const FIRST: u16 = u16::MAX;
/// At a site where nothing is left, or one that does not matter.
pub(super) const ELSEWHERE: u16 = u16::MAX - 1;
/// No tool that is needed again is in the hand.
pub(super) const EMPTY: u16 = u16::MAX;
/// A copy that was not used yet.
pub(super) const FRESH: u16 = u16::MAX;
/// A copy that is set to what nobody asks for any more.
pub(super) const SPENT: u16 = u16::MAX - 1;

/// A number that is known to be small: nodes, tools and settings are bounded by the steps.
pub(super) fn small(number: usize) -> u16 {
    u16::try_from(number).unwrap_or(u16::MAX)
}

/// Places of the parts in a row, and the parts that matter.
#[derive(Debug, Clone, Copy)]
pub(super) struct Layout {
    pub(super) sites: usize,
    pub(super) width: usize,
    /// True if the site at hand matters; so for the speed of the motor and the places of sleeves.
    pub(super) tells_site: bool,
    pub(super) tells_speed: bool,
    pub(super) tells_sleeves: bool,
}

impl Layout {
    pub(super) fn of(model: &Model) -> Self {
        let sites = model.starts.len();
        Self {
            sites,
            width: sites + 4 + model.copies,
            tells_site: model.rates.go > 0 || model.contiguity == Contiguity::SiteBySite,
            tells_speed: model.rates.speed > 0 && model.speeds > 0,
            tells_sleeves: model.rates.sleeve > 0,
        }
    }

    pub(super) const fn place(&self) -> usize {
        self.sites
    }
    pub(super) const fn hand(&self) -> usize {
        self.sites + 1
    }
    pub(super) const fn hand_setting(&self) -> usize {
        self.sites + 2
    }
    pub(super) const fn speed(&self) -> usize {
        self.sites + 3
    }
    pub(super) const fn copies(&self) -> usize {
        self.sites + 4
    }

    /// The state before anything is done, and the place of each site in it.
    pub(super) fn start(&self, model: &Model) -> (Vec<u16>, Vec<usize>) {
        let mut row = vec![0; self.width];
        for (slot, node) in row.iter_mut().zip(&model.starts) {
            *slot = small(node * 2);
        }
        let first = if self.tells_site { FIRST } else { ELSEWHERE };
        row[self.place()] = first;
        row[self.hand()] = EMPTY;
        row[self.hand_setting()] = EMPTY;
        row[self.speed()] = FIRST;
        row[self.copies()..].fill(FRESH);
        let mut moved = Vec::new();
        self.settle(model, &mut row, &mut Vec::new(), &mut moved);
        (row, moved)
    }

    /// Everything ahead at any site of a row.
    pub(super) fn ahead(&self, model: &Model, row: &[u16], ahead: &mut Vec<u64>) {
        ahead.clear();
        ahead.resize(model.ahead.words, 0);
        for slot in &row[..self.sites] {
            let node = usize::from(slot / 2);
            if node != END {
                for (all, own) in ahead.iter_mut().zip(model.ahead.of(node)) {
                    *all |= own;
                }
            }
        }
    }

    /// Brings a row into its one form. `moved` gets for each place the former place of its site,
    /// `ahead` what is ahead.
    pub(super) fn settle(
        &self,
        model: &Model,
        row: &mut [u16],
        ahead: &mut Vec<u64>,
        moved: &mut Vec<usize>,
    ) {
        self.ahead(model, row, ahead);
        let hand = row[self.hand()];
        if hand != EMPTY {
            let kind = usize::from(hand);
            if !has(ahead, model.ahead.kinds_from + kind) {
                row[self.hand()] = EMPTY;
                row[self.hand_setting()] = EMPTY;
            } else if row[self.hand_setting()] < SPENT {
                let setting = model.kinds[kind].settings.0 + usize::from(row[self.hand_setting()]);
                if !has(ahead, model.ahead.settings_from + setting) {
                    row[self.hand_setting()] = SPENT;
                }
            }
        }
        for kind in &model.kinds {
            let Some((from, count)) = kind.copies else {
                continue;
            };
            let copies = &mut row[self.copies() + from..self.copies() + from + count];
            for copy in copies.iter_mut().filter(|copy| **copy < SPENT) {
                let setting = kind.settings.0 + usize::from(*copy);
                if !has(ahead, model.ahead.settings_from + setting) {
                    *copy = SPENT;
                }
            }
            copies.sort_unstable();
        }
        self.settle_speed(model, row, ahead);
        self.settle_sites(row, moved);
    }

    fn settle_speed(&self, model: &Model, row: &mut [u16], ahead: &[u64]) {
        let from = model.ahead.speeds_from;
        let any = || (0..model.speeds).any(|speed| has(ahead, from + speed));
        if !self.tells_speed || !any() {
            row[self.speed()] = FIRST;
        }
    }

    fn settle_sites(&self, row: &mut [u16], moved: &mut Vec<usize>) {
        let place = row[self.place()];
        moved.clear();
        moved.extend(0..self.sites);
        // The site at hand comes before those that are like it. Insertion: rows are nearly in order.
        let key = |row: &[u16], slot: usize| (row[slot], small(slot) == place);
        for end in 1..self.sites {
            let own = key(row, moved[end]);
            let mut at = end;
            while at > 0 && key(row, moved[at - 1]) < own {
                moved.swap(at, at - 1);
                at -= 1;
            }
        }
        if moved.windows(2).any(|pair| pair[0] > pair[1]) {
            let mut sorted = [0; 64];
            for (to, from) in sorted.iter_mut().zip(&*moved) {
                *to = row[*from];
            }
            row[..self.sites].copy_from_slice(&sorted[..self.sites]);
        }
        if place < ELSEWHERE {
            let now = moved.iter().position(|from| small(*from) == place);
            let now = now.filter(|now| row[*now] > 1);
            row[self.place()] = now.map_or(ELSEWHERE, small);
        }
    }
}
