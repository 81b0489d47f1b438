//! The view of the same name.

use crate::window::Stage;
use egui::Ui;

/// What the view remembers.
#[derive(Debug, Default)]
pub struct State {}

/// Shows the view.
pub fn ui(_ui: &mut Ui, _stage: &mut Stage<'_>) {}
