//! The sequence of each site and the order of use over all of them.

pub(super) mod accepted;
pub(super) mod cut_before;
mod differences;
pub(super) mod holding;
pub(super) mod operations;
pub(super) mod sequence;
pub(super) mod sequence_rules;
mod shaping;
