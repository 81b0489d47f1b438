//! The rules of the house for approvals and readings.

use traywright_core::sign::Policy;

/// Landings of a stop after which its reading lapses: a default of this program, no source.
const LANDINGS: u32 = 20;

/// The rules of the house. There is no place to enter others yet.
pub(crate) fn policy() -> Policy {
    Policy::strict(LANDINGS)
}
