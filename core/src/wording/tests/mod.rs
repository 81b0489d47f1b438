//! The sentences as people read them, from an invented case and its edits.

mod figures;
mod findings;
pub(super) mod sample;
mod short;
mod source;
mod style;
mod tray;
mod wear;
mod words;
