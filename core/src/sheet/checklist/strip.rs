//! The true-scale strip: each drill with its stop, as large as life, under a ruler to check first.

use super::Source;
use crate::sheet::{Block, Frame};

/// Is there a drill with a setting to lay on it?
pub(super) fn is_needed(_source: &Source<'_>) -> bool {
    false
}

pub(super) fn blocks(_source: &Source<'_>, _frame: Frame) -> Vec<Block> {
    Vec::new()
}
