//! Everything about preparing guided implant surgery that is true without a screen.
pub mod drawing;
pub mod measure;
pub mod sheet;
