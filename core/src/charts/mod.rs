//! What is drawn of a case: its arch and its tray.
//!
//! A chart reads the case and its worksheet and works out no clinical figure. Words come from the
//! texts, sentences about findings from the caller.

mod arch;
mod marking;
mod tray;

#[cfg(test)]
mod samples;

pub use arch::{ArchOptions, Arches, arch};
pub use marking::{marking, shape};
pub use tray::{SlotLook, TrayOptions, tray};
