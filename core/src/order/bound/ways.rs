//! The cheapest ways to a single step.

use super::super::model::{Model, Node};
use super::super::state::{EMPTY, FIRST};
use super::super::valid::{Contiguity, SleeveOp};
use super::{Bound, NEVER, Speeds};

/// The two sorts of ways to a step.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ways {
    pub(super) same: i64,
    pub(super) mount: i64,
}

impl Bound<'_> {
    pub(super) fn price(&self, kind: Option<usize>) -> i64 {
        kind.map_or(0, |kind| self.prices[kind])
    }

    /// The cost of turning the motor from one speed to another, where steps count that.
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
    pub(super) fn between(&self, before: &Node, at: usize) -> Ways {
        let node = &self.model.nodes[at];
        let from = before.tool.map(|(kind, _)| kind);
        let stay = self.turn(before.speed, node.speed);
        let come = if self.model.contiguity == Contiguity::SiteBySite && !node.begins {
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
                if before.sleeve == SleeveOp::Place(s) && !node.begins);
            let lost = kept && self.loses_sleeve[kind];
            let sleeve = if lost { self.model.rates.sleeve } else { 0 };
            come + self.prices[kind] + sleeve
        };
        let mount = self.model.rates.mount + stay.min(come + self.own_turn(kind));
        Ways { same, mount }
    }

    /// The cheapest ways to the next step of a site: `at_hand` where one is there.
    pub(super) fn first(&self, row: &[u16], node: &Node, at_hand: bool) -> Ways {
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
        let tied = self.model.contiguity == Contiguity::SiteBySite && !node.begins;
        let come = if at_hand && tied { NEVER } else { come };
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
}

/// For each kind whether its speed is one that no other kind and no bare step has.
pub(super) fn own_speed(model: &Model) -> Vec<bool> {
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
