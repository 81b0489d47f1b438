//! Tables of a bound for each node, made before any state is looked at.

use super::super::model::END;
use super::super::valid::SleeveOp;
use super::Bound;

impl Bound<'_> {
    /// Fills the tables for a node; those after it are filled already.
    pub(super) fn fill(&mut self, at: usize) {
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
            let then = &self.model.nodes[next];
            let (puts_in, keeps) = match node.sleeve {
                SleeveOp::Keep => (false, held),
                SleeveOp::Out => (false, false),
                SleeveOp::Place(sleeve) => (!held, then.wants == Some(sleeve)),
            };
            let keeps = keeps && !then.begins;
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
}
