//! Everything about preparing guided implant surgery that is true without a screen.
pub mod document;
pub mod measure;
pub mod store;
