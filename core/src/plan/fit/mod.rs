//! The fit of instruments to each other, to the guide and to the plan.

pub(super) mod figures;
pub(super) mod insertion;
pub(super) mod label;
pub(super) mod made_by;
pub(super) mod pins;
pub(super) mod play;
pub(super) mod receipt;
pub(super) mod running;
pub(super) mod sleeves;
pub(super) mod steps;
pub(super) mod stop;
pub(super) mod support;
