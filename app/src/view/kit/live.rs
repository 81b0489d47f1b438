//! The kit that the case's copy is of, and the one that it is held against.

use crate::action::Action;
use crate::action::Ask;
use crate::look::{aside, part_heading, words};
use crate::platform::Purpose;
use crate::view::kit::Context;
use egui::Ui;

/// Shows both, and lets another be chosen.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let named = |kit: &traywright_core::kit::Kit| {
        let args = [
            ("kit", kit.name.as_str()),
            ("revision", kit.revision.as_str()),
        ];
        cx.text("kit-view-named", &args)
    };
    part_heading(ui, cx.word("kit-view-copy"));
    words(ui, named(&document.case().kit));
    aside(ui, cx.word("kit-view-copy-what"));
    part_heading(ui, cx.word("kit-view-live"));
    match &cx.desk.live_kit {
        Some(live) => {
            words(ui, named(live));
            match &cx.desk.settings.kit {
                Some(file) => aside(ui, file.display().to_string()),
                None => aside(ui, cx.word("kit-view-invented")),
            }
        }
        None => aside(ui, cx.word("kit-view-no-live")),
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button(cx.word("kit-view-choose")).clicked() {
            let path = cx.desk.settings.kit.as_ref();
            let path = path.map_or_else(String::new, |path| path.display().to_string());
            cx.act(Action::Ask(Ask::file(Purpose::OpenKit, path)));
        }
        if ui.button(cx.word("kit-view-demo")).clicked() {
            cx.act(Action::UseDemoKit);
        }
    });
}
