//! The reason for an order: its cost without one rule, or with one change for nothing.

use super::solve::{Budget, Outcome, Watch, solve};
use super::{Group, Problem, ValidProblem, Weights};

/// A part that is left out of a problem to see what it costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Omission {
    /// The rule with this index in `before`.
    Before(usize),
    /// A rule about what stays together.
    Group(Group),
    /// The weight of a change: it costs nothing.
    Weight(Change),
}

/// A change that costs time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// Another instrument in the handpiece.
    Mount,
    /// A stop set anew.
    Reset,
    /// Another site.
    Move,
    /// A sleeve put in.
    Sleeve,
    /// Another speed.
    Speed,
}

impl Change {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Mount,
        Self::Reset,
        Self::Move,
        Self::Sleeve,
        Self::Speed,
    ];

    /// The weight of this change.
    pub const fn weight_in(self, weights: &mut Weights) -> &mut u32 {
        match self {
            Self::Mount => &mut weights.mount_ds,
            Self::Reset => &mut weights.reset_ds,
            Self::Move => &mut weights.move_ds,
            Self::Sleeve => &mut weights.sleeve_ds,
            Self::Speed => &mut weights.speed_ds,
        }
    }
}

impl Omission {
    /// Everything that can be left out of a problem: each rule, and each weight that is not 0.
    #[must_use]
    pub fn all_of(problem: &Problem) -> Vec<Self> {
        let before = (0..problem.rules.before.len()).map(Self::Before);
        let groups = problem.rules.groups.iter().copied().map(Self::Group);
        let mut shown = problem.weights;
        let weights = Change::ALL
            .into_iter()
            .filter(|c| *c.weight_in(&mut shown) > 0);
        before
            .chain(groups)
            .chain(weights.map(Self::Weight))
            .collect()
    }
}

/// The best order of a problem with one thing left out: the difference is what that costs, as far as
/// both are proved. `known` is the order that was found with it; without a rule it still holds.
///
/// There is none where the thing is not in the problem.
pub fn solve_without(
    problem: &ValidProblem,
    without: Omission,
    budget: &Budget,
    known: &[Vec<usize>],
    watch: &mut Watch<'_>,
) -> Option<Outcome> {
    let mut other: Problem = (**problem).clone();
    match without {
        Omission::Before(n) if n < other.rules.before.len() => {
            other.rules.before.remove(n);
        }
        Omission::Group(group) if other.rules.groups.remove(&group) => {}
        Omission::Weight(change) if *change.weight_in(&mut other.weights) > 0 => {
            *change.weight_in(&mut other.weights) = 0;
        }
        _ => return None,
    }
    // With less in it a problem stays one that some order obeys.
    let other = ValidProblem::try_from(other).ok()?;
    Some(solve(&other, budget, known, watch))
}
