//! A lower bound for what is left to do in a state.
//!
//! Each step that is left is reached either from the step before it at its site (`stay`) or from
//! another site (`come`), and either with the tool that is in the hand (`same`) or with another one
//! (`mount`). For each step the cheapest way of both sorts is taken by itself; then, of all steps
//! of one tool that is not at hand, at least one has to be a mount, and each re-set or copy more
//! than one counts as in a tray with that tool alone.
//!
//! Coming with the same tool needs a step of that tool whose own successor is left for later. There
//! are only so many: each tool has a price for such steps (`prices`), paid by who comes so and returned
//! to who leaves. Any prices from 0 up give a true bound (they are Lagrange multipliers); good ones are
//! looked for once, for the start.
//!
//! A sleeve that the next step of its site uses again can stay in. But all that stay from one mount of
//! the earlier tool stay at the same time, and so do all that stay until one mount of the later one:
//! each mount lets no more stay than there are pieces, and the others have to be put in again (`Stay`).

mod kind;
mod stays;
mod tables;
mod ways;

use super::model::{END, Model, has};
use super::state::{ELSEWHERE, EMPTY, FIRST, Layout, small};
use kind::Uses;
use stays::Stay;

/// A cost that no step can have.
const NEVER: i64 = i64::MAX / 1024;

/// The place where changes of speed are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Speeds {
    /// With the steps: where a step follows its own site's last one, their speeds are compared.
    WithSteps,
    /// By themselves: each speed that is left has to come at least once, and each site has its changes.
    Apart,
}

/// Tables of a bound for one set of prices.
pub(super) struct Bound<'m> {
    model: &'m Model,
    layout: Layout,
    speeds: Speeds,
    prices: Vec<i64>,
    /// For each node the cheapest ways of all steps after it.
    after: Vec<i64>,
    /// For each node and kind the least that a mount costs more, among the steps after it.
    dearer: Vec<i64>,
    /// For each node, without and with its sleeve in, what putting sleeves in costs at the least.
    sleeves: Vec<[i64; 2]>,
    /// For each node and speed before it, how often the speed changes at its site alone.
    changes: Vec<i64>,
    /// For each kind: a mount of it always changes the speed.
    own_speed: Vec<bool>,
    /// For each kind: who comes with it from another site has lost the only piece of the sleeve.
    loses_sleeve: Vec<bool>,
    /// Sleeves that could stay in after a step, with the kind of the step's tool.
    stays: Vec<Stay>,
    /// For each node and each of those, how often, the node's own step among them.
    staying: Vec<i64>,
    /// The highest price: what a step without an instrument may hand on.
    highest: i64,
}

impl<'m> Bound<'m> {
    pub(super) fn new(model: &'m Model, speeds: Speeds, prices: Vec<i64>) -> Self {
        let kinds = model.kinds.len();
        let mut bound = Self {
            model,
            layout: Layout::of(model),
            speeds,
            highest: prices.iter().copied().max().unwrap_or_default(),
            prices,
            after: vec![0; model.nodes.len()],
            dearer: vec![NEVER; model.nodes.len() * kinds],
            sleeves: vec![[0; 2]; model.nodes.len()],
            changes: vec![0; model.nodes.len() * model.speeds],
            own_speed: ways::own_speed(model),
            loses_sleeve: stays::loses_sleeve(model),
            stays: Vec::new(),
            staying: Vec::new(),
        };
        for at in 1..model.nodes.len() {
            bound.fill(at);
        }
        bound.find_stays();
        bound
    }

    /// Numbers looked at for a state.
    pub(super) fn numbers(&self) -> u64 {
        (self.layout.sites * (self.model.kinds.len() + self.stays.len())) as u64
    }

    /// A lower bound for what is left in a state; `ahead` is what is ahead in it.
    pub(super) fn of(&self, row: &[u16], ahead: &[u64], room: &mut Vec<i64>) -> i64 {
        let l = &self.layout;
        let model = self.model;
        let kinds = model.kinds.len();
        let place = row[l.place()];
        let hand = row[l.hand()];
        room.clear();
        room.resize(kinds, NEVER);
        room.resize(kinds + self.stays.len(), 0);
        let (dearer, staying) = room.split_at_mut(kinds);
        let mut total = 0;
        let mut ready = false;
        let mut site_changes = 0;
        let speed = row[l.speed()];
        for (slot, told) in row[..l.sites].iter().enumerate() {
            let at = usize::from(told / 2);
            if at == END {
                break;
            }
            let node = &model.nodes[at];
            let ways = self.first(row, node, place == small(slot));
            total += self.after[at] + ways.same.min(ways.mount);
            total += self.sleeves[at][usize::from(told % 2)];
            for (all, own) in dearer.iter_mut().zip(&self.dearer[at * kinds..]) {
                *all = (*all).min(*own);
            }
            for (all, own) in staying
                .iter_mut()
                .zip(&self.staying[at * self.stays.len()..])
            {
                *all += own;
            }
            match node.tool {
                Some((kind, _)) => {
                    dearer[kind] = dearer[kind].min((ways.mount - ways.same).max(0));
                    ready |= small(kind) == hand;
                }
                None => ready = true,
            }
            if self.speeds == Speeds::Apart && l.tells_speed && speed != FIRST {
                let from = at * model.speeds + usize::from(speed);
                site_changes = self.changes[from].max(site_changes);
            }
        }
        if place >= ELSEWHERE && hand != EMPTY {
            total -= self.prices[usize::from(hand)];
        }
        if place == FIRST {
            total -= model.rates.go;
        }
        if self.speeds == Speeds::WithSteps && l.tells_speed && speed == FIRST {
            total -= model.rates.speed;
        }
        for (kind, dearer) in dearer.iter().enumerate() {
            if has(ahead, model.ahead.kinds_from + kind) {
                let uses = Uses {
                    kind,
                    dearer: *dearer,
                    staying,
                    at_hand: ready && hand == small(kind),
                };
                total += self.for_kind(row, ahead, &uses);
            }
        }
        if self.speeds == Speeds::Apart && l.tells_speed {
            total += model.rates.speed * self.turns(ahead, speed).max(site_changes);
        }
        total.max(0)
    }

    /// The number of speeds that are left to be turned to.
    fn turns(&self, ahead: &[u64], speed: u16) -> i64 {
        let from = self.model.ahead.speeds_from;
        let left = (0..self.model.speeds).filter(|s| has(ahead, from + s));
        let (mut count, mut now) = (0, speed == FIRST);
        for other in left {
            count += 1;
            now |= small(other) == speed;
        }
        count - i64::from(now && count > 0)
    }
}
