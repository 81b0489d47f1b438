//! The things to be loaded, the pieces that bear their settings, and the number that there is.

pub(super) mod actionable;
pub(super) mod lines;
pub(super) mod loading;
pub(super) mod pieces;
pub(super) mod pools;
pub(super) mod share;
