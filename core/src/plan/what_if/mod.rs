//! The outcome of what was not planned: mix-ups, trials, other implants and distances.

pub(super) mod alternatives;
pub(super) mod harm;
pub(super) mod mix_ups;
