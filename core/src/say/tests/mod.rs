//! The sentences as people read them, from an invented case and its edits.

mod findings;
mod sample;
mod source;
