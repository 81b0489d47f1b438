//! Things beside the tray that no slot is for: asked for one by one once the tray is loaded.

use super::scale::{line, strong};
use super::scene::Scene;
use super::task::AskedFor;
use egui::Ui;
use traywright_core::drawing::Ink;

/// Asks for the next of it, if it is its turn.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let Some(one) = scene.session.beside(scene.board) else {
        return;
    };
    let ink = theme.fill(Ink::Strong);
    ui.add_space(scale.px(20.0));
    let id = match one.asked {
        AskedFor::First if scene.session.asks_first(scene.board).is_some() => {
            "loading-beside-first"
        }
        _ => "loading-beside",
    };
    strong(ui, scene.word(id), scale.px(50.0), ink);
    strong(ui, one.what.as_str(), scale.big(), ink);
    let place = scene.board.beside.iter().position(|other| other == one);
    let number = place.map_or(0, |place| place + 1);
    let numbers = &[("number", number), ("all", scene.board.beside.len())];
    let words = scene.counted("loading-beside-of", numbers, &[]);
    line(ui, words, scale.text(), theme.fill(Ink::Soft));
}
