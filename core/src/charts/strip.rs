//! The true-scale strip.
/// x
#[derive(Debug)]
pub struct TrueScale;
/// x
pub fn true_scale() {}
