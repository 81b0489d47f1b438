//! The case's copy of its kit entries, beside the live kit.

mod differences;
mod missing;
mod not_at_hand;
mod snapshot;
mod supply;
mod taken;

pub use differences::{Difference, DifferenceKind, kit_differences};
pub use not_at_hand::KitNotAtHand;
pub use supply::{supplied, taking};
