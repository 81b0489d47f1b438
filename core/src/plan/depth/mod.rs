//! The arithmetic of depth: seats, preparations, settings, cuts, and where the implant ends.

pub(super) mod as_written;
pub(super) mod body;
pub(super) mod context;
pub(super) mod cuts;
pub(super) mod final_depth;
pub(super) mod fits;
pub(super) mod moved;
pub(super) mod partial;
pub(super) mod setting;
pub(super) mod shortfall;
pub(super) mod stale;
pub(super) mod steps;
