//! The desktop program and its headless commands.
//!
//! The window is not part of this version; what it will show is all here already: the worksheet as
//! data, the findings for people, and the printed checklist.

mod command;

pub use command::{Outcome, run};
