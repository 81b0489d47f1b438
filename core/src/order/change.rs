//! The changes between two steps that cost time, each with its weight.

use super::Weights;

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
