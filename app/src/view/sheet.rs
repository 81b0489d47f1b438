//! The printed sheet.

use crate::window::Stage;
use egui::Ui;
use traywright_core::sheet::Paper;

/// What the view remembers.
#[derive(Debug)]
pub struct State {
    /// The size of paper.
    pub paper: Paper,
    /// Where to write it.
    pub path: String,
}

impl Default for State {
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            path: String::new(),
        }
    }
}

/// Shows the view.
pub fn ui(_ui: &mut Ui, _stage: &mut Stage<'_>) {}
