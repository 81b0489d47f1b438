//! Everything about preparing guided implant surgery that is true without a screen.
pub mod case;
pub mod dentition;
pub mod document;
pub mod kit;
pub mod measure;
pub mod plan;
pub mod say;
pub mod sign;
pub mod store;
pub mod text;
