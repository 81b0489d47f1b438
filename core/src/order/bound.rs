//! A lower bound for what is left to do in a state.
//!
//! Each step that is left is reached either from the step before it at its site (`stay`) or from another
//! site (`come`), and either with the tool that is in the hand (`same`) or with another one (`mount`).
//! For each step the cheapest way of both sorts is taken by itself; then, of all steps of one tool that is
//! not at hand, at least one has to be a mount, and each re-set or copy more than one counts as in a tray
//! with that tool alone.
//!
//! Coming with the same tool needs a step of that tool whose own successor is left for later. There
//! are only so many: each tool has a price for such steps (`prices`), paid by who comes so and returned
//! to who leaves. Any prices from 0 up give a true bound (they are Lagrange multipliers); good ones are
//! looked for once, for the start.
//!
//! A sleeve that the next step of its site uses again can stay in. But all that stay from one mount of
//! the earlier tool stay at the same time, and so do all that stay until one mount of the later one:
//! each mount lets no more stay than there are pieces, and the others have to be put in again (`Stay`).

use super::model::{END, Kind, Model, Node, has};
use super::sound::{Contiguity, SleeveOp};
use super::state::{ELSEWHERE, EMPTY, FIRST, FRESH, Layout, SPENT, small};

/// A cost that no step can have.
const NEVER: i64 = i64::MAX / 1024;

/// How changes of speed are counted.
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
    /// Which sleeves could stay in after a step with which kind.
    stays: Vec<Stay>,
    /// For each node and each of those, how often, the node's own step among them.
    staying: Vec<i64>,
    /// The highest price: what a step without an instrument may hand on.
    highest: i64,
}

/// A sleeve that could stay in between two steps with two kinds of tools, counted with the mounts of
/// one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Stay {
    kind: usize,
    sleeve: usize,
    end: End,
}

/// With the mounts of which tool a sleeve that stays is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    /// Of the earlier one. Steps of the mount that is at hand may still come.
    Earlier,
    /// Of the later one. That mount is still to come.
    Later,
}

/// The two sorts of ways to a step.
#[derive(Debug, Clone, Copy)]
struct Ways {
    same: i64,
    mount: i64,
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
            own_speed: own_speed(model),
            loses_sleeve: loses_sleeve(model),
            stays: Vec::new(),
            staying: Vec::new(),
        };
        for at in 1..model.nodes.len() {
            bound.fill(at);
        }
        bound.find_stays();
        bound
    }

    fn price(&self, kind: Option<usize>) -> i64 {
        kind.map_or(0, |kind| self.prices[kind])
    }

    fn fill(&mut self, at: usize) {
        let node = &self.model.nodes[at];
        let next = node.next;
        let kinds = self.model.kinds.len();
        let kind = node.tool.map(|(kind, _)| kind);
        let own = if kind.is_none() { -self.highest } else { 0 };
        if next == END {
            // Nothing follows at this site, so that its tool is there for whoever comes.
            self.after[at] = own - self.price(kind);
        } else {
            let ways = self.between(node, next);
            self.after[at] = own + self.after[next] + ways.same.min(ways.mount);
            for k in 0..kinds {
                self.dearer[at * kinds + k] = self.dearer[next * kinds + k];
            }
            if let Some((k, _)) = self.model.nodes[next].tool {
                let dearer = &mut self.dearer[at * kinds + k];
                *dearer = (*dearer).min((ways.mount - ways.same).max(0));
            }
        }
        self.sleeves[at] = [false, true].map(|held| {
            let (puts_in, keeps) = match node.sleeve {
                SleeveOp::Keep => (false, held),
                SleeveOp::Out => (false, false),
                SleeveOp::Place(sleeve) => (!held, self.model.nodes[next].wants == Some(sleeve)),
            };
            let own = if puts_in { self.model.rates.sleeve } else { 0 };
            own + self.sleeves[next][usize::from(keeps)]
        });
        for before in 0..self.model.speeds {
            let now = node.speed.unwrap_or(before);
            let rest = match next {
                END => 0,
                next => self.changes[next * self.model.speeds + now],
            };
            self.changes[at * self.model.speeds + before] = rest + i64::from(now != before);
        }
    }

    fn find_stays(&mut self) {
        let nodes = &self.model.nodes;
        let kinds = self.model.kinds.len();
        let mut least = vec![NEVER; kinds];
        for (n, dearer) in self.dearer.iter().enumerate() {
            least[n % kinds] = least[n % kinds].min(*dearer);
        }
        let all = nodes.iter().map(|node| self.stay_after(node, &least));
        let all: Vec<Option<Stay>> = all.collect();
        for stay in all.iter().flatten() {
            if !self.stays.contains(stay) {
                self.stays.push(*stay);
            }
        }
        let count = self.stays.len();
        self.staying = vec![0; nodes.len() * count];
        for (at, node) in nodes.iter().enumerate().skip(1) {
            for (n, stay) in self.stays.iter().enumerate() {
                let own = i64::from(all[at] == Some(*stay));
                self.staying[at * count + n] = own + self.staying[node.next * count + n];
            }
        }
    }

    /// The sleeve that could stay in after a step, unless the way to the next one counts that already.
    /// It is counted where a mount more costs more.
    fn stay_after(&self, node: &Node, least: &[i64]) -> Option<Stay> {
        let next = &self.model.nodes[node.next];
        let (kind, then) = (node.tool?.0, next.tool?.0);
        let sleeve = match (node.sleeve, next.sleeve) {
            (SleeveOp::Place(a), SleeveOp::Place(b)) if a == b => a,
            _ => return None,
        };
        let counts = self.layout.tells_sleeves && kind != then && !self.loses_sleeve[then];
        let (kind, end) = if least[then] > least[kind] {
            (then, End::Later)
        } else {
            (kind, End::Earlier)
        };
        counts.then_some(Stay { kind, sleeve, end })
    }

    /// What it costs to turn the motor from one speed to another, where steps count that.
    fn turn(&self, before: Option<usize>, now: Option<usize>) -> i64 {
        match (self.speeds, before, now) {
            (Speeds::WithSteps, Some(before), Some(now)) if before != now => self.model.rates.speed,
            _ => 0,
        }
    }

    /// The turn of speed that comes with a mount from any other tool.
    fn own_turn(&self, kind: usize) -> i64 {
        if self.speeds == Speeds::WithSteps && self.own_speed[kind] {
            self.model.rates.speed
        } else {
            0
        }
    }

    /// The cheapest ways to a step that has another one before it at its site.
    fn between(&self, before: &Node, at: usize) -> Ways {
        let node = &self.model.nodes[at];
        let from = before.tool.map(|(kind, _)| kind);
        let stay = self.turn(before.speed, node.speed);
        let come = if self.model.contiguity == Contiguity::SiteBySite {
            NEVER
        } else {
            self.model.rates.go - self.price(from)
        };
        let Some((kind, _)) = node.tool else {
            let same = stay.min(come);
            return Ways { same, mount: NEVER };
        };
        let same = if from == Some(kind) || from.is_none() {
            stay.min(come + self.prices[kind])
        } else {
            // Whoever comes with the only piece of the sleeve in the other site has to put it back.
            let kept = matches!(node.sleeve, SleeveOp::Place(s)
                if before.sleeve == SleeveOp::Place(s));
            let lost = kept && self.loses_sleeve[kind];
            let sleeve = if lost { self.model.rates.sleeve } else { 0 };
            come + self.prices[kind] + sleeve
        };
        let mount = self.model.rates.mount + stay.min(come + self.own_turn(kind));
        Ways { same, mount }
    }

    /// The cheapest ways to the next step of a site: `at_hand` where one is there.
    fn first(&self, row: &[u16], node: &Node, at_hand: bool) -> Ways {
        let l = &self.layout;
        let rates = &self.model.rates;
        let hand = match row[l.hand()] {
            EMPTY => None,
            kind => Some(usize::from(kind)),
        };
        let kind = node.tool.map(|(kind, _)| kind);
        let (stay, come) = if at_hand {
            let speed = match row[l.speed()] {
                FIRST => None,
                speed => Some(usize::from(speed)),
            };
            (self.turn(speed, node.speed), rates.go - self.price(hand))
        } else {
            (NEVER, rates.go)
        };
        let come = if at_hand && self.model.contiguity == Contiguity::SiteBySite {
            NEVER
        } else {
            come
        };
        let Some(kind) = kind else {
            let same = stay.min(come);
            return Ways { same, mount: NEVER };
        };
        let same = if hand == Some(kind) {
            stay.min(come + self.prices[kind])
        } else {
            come + self.prices[kind]
        };
        let mount = rates.mount + stay.min(come + self.own_turn(kind));
        Ways { same, mount }
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
                let at_hand = ready && hand == small(kind);
                total += self.for_kind(row, ahead, kind, *dearer, staying, at_hand);
            }
        }
        if self.speeds == Speeds::Apart && l.tells_speed {
            total += model.rates.speed * self.turns(ahead, speed).max(site_changes);
        }
        total.max(0)
    }

    /// How many speeds are left to be turned to.
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

    /// What the uses of one kind cost beyond their cheapest ways: a mount where it is not at hand, and
    /// mounts of more copies, re-sets, or sleeves put in again, whichever is cheaper.
    fn for_kind(
        &self,
        row: &[u16],
        ahead: &[u64],
        kind: usize,
        dearer: i64,
        staying: &[i64],
        at_hand: bool,
    ) -> i64 {
        let least = i64::from(!at_hand);
        let (needed, set) = self.settings(row, ahead, kind, at_hand);
        let own = || {
            self.stays
                .iter()
                .zip(staying)
                .filter(|(stay, _)| stay.kind == kind)
        };
        let cost = |mounts: i64| {
            let again = own().map(|(stay, count)| {
                let pieces = self.model.pieces[stay.sleeve] as i64;
                let now = i64::from(at_hand && stay.end == End::Earlier);
                (count - pieces * (mounts + now)).max(0)
            });
            mounts * dearer
                + self.model.rates.sleeve * again.sum::<i64>()
                + self.model.rates.reset * (needed - mounts.min(set))
        };
        // Each mount more saves less than the one before.
        let (mut mounts, mut least_cost) = (least, cost(least));
        loop {
            mounts += 1;
            let more = cost(mounts);
            if more >= least_cost {
                return least_cost;
            }
            least_cost = more;
        }
    }

    /// How many settings of a kind are asked for beyond that in the hand, and for how many of them
    /// there is a copy that needs no re-set.
    fn settings(&self, row: &[u16], ahead: &[u64], kind: usize, at_hand: bool) -> (i64, i64) {
        let l = &self.layout;
        let Kind { copies, settings } = self.model.kinds[kind];
        let Some((from, count)) = copies else {
            return (0, 0);
        };
        let asked =
            |setting: usize| has(ahead, self.model.ahead.settings_from + settings.0 + setting);
        let needed = (0..settings.1).filter(|s| asked(*s)).count() as i64;
        let in_hand = row[l.hand_setting()];
        let set_in_hand = at_hand && in_hand < SPENT;
        let mut set = 0;
        let mut before = EMPTY;
        for copy in &row[l.copies() + from..l.copies() + from + count] {
            let other = *copy < SPENT && *copy != before && !(set_in_hand && *copy == in_hand);
            set += i64::from(*copy == FRESH || other);
            before = *copy;
        }
        let needed = needed - i64::from(set_in_hand);
        (needed, set.min(needed))
    }
}

/// For each kind whether its speed is one that no other kind and no bare step has.
fn own_speed(model: &Model) -> Vec<bool> {
    (0..model.kinds.len())
        .map(|kind| {
            let several = model.kinds[kind].copies.is_some();
            let nodes = || model.nodes.iter().skip(1);
            let own = |node: &&Node| node.tool.is_some_and(|(k, _)| k == kind);
            let speeds: Vec<_> = nodes().filter(own).map(|node| node.speed).collect();
            let all_told = speeds.iter().all(Option::is_some);
            let others = nodes().filter(|node| !own(node)).map(|node| node.speed);
            let mut others = others;
            !several && all_told && others.all(|s| s.is_some() && !speeds.contains(&s))
        })
        .collect()
}

/// For each kind whether all its steps use one sleeve of which there is one piece. Where any step
/// lacks an instrument the tool may come along without the sleeve.
fn loses_sleeve(model: &Model) -> Vec<bool> {
    let nodes = || model.nodes.iter().skip(1);
    let bare = nodes().any(|node| node.tool.is_none());
    (0..model.kinds.len())
        .map(|kind| {
            let own = nodes().filter(|node| node.tool.is_some_and(|(k, _)| k == kind));
            let mut sleeves = own.map(|node| match node.sleeve {
                SleeveOp::Place(sleeve) if model.pieces[sleeve] == 1 => Some(sleeve),
                _ => None,
            });
            let first = sleeves.next().flatten();
            !bare && first.is_some() && sleeves.all(|sleeve| sleeve == first)
        })
        .collect()
}
