//! The desktop program and its headless commands.
//!
//! One way: a view reads the desk and gives back actions; `window::perform` makes edits of them; an
//! edit makes a new case, from which everything is derived anew. A view computes no clinical number.

pub mod action;
pub mod canvas;
mod command;
pub mod context;
pub mod desk;
pub mod field;
pub mod look;
pub mod platform;
pub mod view;
pub mod window;

pub use command::{Outcome, run};
