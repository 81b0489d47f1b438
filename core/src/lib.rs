//! Everything about preparing guided implant surgery that is true without a screen.
pub mod measure;
pub mod sign;
