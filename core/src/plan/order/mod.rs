//! The sequence of each site and the order of use over all of them.

pub(super) mod accepted;
mod differences;
pub(super) mod holding;
pub(super) mod operations;
pub(super) mod sequence;
pub(super) mod sequence_rules;
mod shaping;
