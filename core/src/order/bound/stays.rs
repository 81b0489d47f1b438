//! Sleeves that could stay in between two steps of a site, and how few of them can.

use super::super::model::{Model, Node};
use super::super::valid::SleeveOp;
use super::{Bound, NEVER};

/// A sleeve that could stay in between two steps with two kinds of tools, counted with the mounts of
/// one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stay {
    pub(super) kind: usize,
    pub(super) sleeve: usize,
    pub(super) end: End,
}

/// With the mounts of which tool a sleeve that stays is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    /// Of the earlier one. Steps of the mount that is at hand may still come.
    Earlier,
    /// Of the later one. That mount is still to come.
    Later,
}

impl Bound<'_> {
    /// Finds them once the other tables are filled.
    pub(super) fn find_stays(&mut self) {
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
            (SleeveOp::Place(a), SleeveOp::Place(b)) if a == b && !next.begins => a,
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
}

/// For each kind whether all its steps use one sleeve of which there is one piece. Where any step
/// lacks an instrument the tool may come along without the sleeve.
pub(super) fn loses_sleeve(model: &Model) -> Vec<bool> {
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
