//! What is shown after a fault of the program itself: nothing is worked on any more, and nothing is lost.

use super::Program;
use egui::{CentralPanel, Ui, ViewportCommand};
use std::panic::{AssertUnwindSafe, catch_unwind};

impl Program {
    /// One frame. A fault of the program ends the work on the case: what was not saved is in its journal.
    pub fn frame(&mut self, ui: &mut Ui) {
        if !self.faulty {
            let frame = AssertUnwindSafe(|| self.guarded_frame(ui));
            if catch_unwind(frame).is_ok() {
                return;
            }
            self.faulty = true;
            if let Some(document) = &mut self.desk.document {
                document.flush_journal();
            }
            ui.ctx().request_repaint();
            return;
        }
        let texts = self.desk.texts;
        CentralPanel::default().show(ui, |ui| {
            ui.heading(texts.get("fault-of-program", &[]));
            ui.label(texts.get("fault-of-program-what", &[]));
            if ui.button(texts.get("command-quit", &[])).clicked() {
                ui.ctx().send_viewport_cmd(ViewportCommand::Close);
            }
        });
    }
}
