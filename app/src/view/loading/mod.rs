//! Loading the tray: the whole window, read standing from two metres.

mod changed;
mod session;
mod task;
mod typed;

#[cfg(test)]
mod tests;

use crate::window::Stage;
use egui::Ui;

/// What the view remembers.
#[derive(Debug, Default)]
pub struct State {}

/// Shows the view.
pub fn ui(_ui: &mut Ui, _stage: &mut Stage<'_>) {}
