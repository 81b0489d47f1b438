//! Which kit the case's copy is of, and which one it is held against.

use super::{aside, heading, words};
use crate::action::Action;
use crate::outside::Purpose;
use crate::window::{Ask, Stage};
use egui::Ui;

/// Shows both, and lets another be chosen.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let named = |kit: &traywright_core::kit::Kit| {
        let args = [
            ("kit", kit.name.as_str()),
            ("revision", kit.revision.as_str()),
        ];
        stage.text("kit-view-named", &args)
    };
    heading(ui, stage.word("kit-view-copy"));
    words(ui, named(&document.case().kit));
    aside(ui, stage.word("kit-view-copy-what"));
    heading(ui, stage.word("kit-view-live"));
    match &stage.desk.live_kit {
        Some(live) => {
            words(ui, named(live));
            match &stage.desk.settings.kit {
                Some(file) => aside(ui, file.display().to_string()),
                None => aside(ui, stage.word("kit-view-invented")),
            }
        }
        None => aside(ui, stage.word("kit-view-no-live")),
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button(stage.word("kit-view-choose")).clicked() {
            let path = stage.desk.settings.kit.as_ref();
            let path = path.map_or_else(String::new, |path| path.display().to_string());
            stage.act(Action::Ask(Ask::file(Purpose::OpenKit, path)));
        }
        if ui.button(stage.word("kit-view-demo")).clicked() {
            stage.act(Action::UseDemoKit);
        }
    });
}
