//! Before the first step, after the program was begun anew in the middle, and after the last step.

use super::ask;
use super::keys::Pressed;
use super::scene::Scene;
use crate::view::loading::scale::{line, strong};
use egui::Ui;
use traywright_core::wording::begin;

/// Asks who records.
pub(super) fn who_ui(ui: &mut Ui, scene: &Scene<'_>, field: &mut String, out: &mut Vec<Pressed>) {
    if !scene.day.steps.is_empty() {
        ask::who_ui(ui, scene, "surgery-ask-person", field, out);
    }
}

/// Shows what is open.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    if scene.day.steps.is_empty() {
        strong(ui, scene.word("surgery-nothing"), scale.big(), scene.ink());
        return;
    }
    let title = match scene.day.begun {
        None => scene.word("surgery-title"),
        Some(_) => match scene.step() {
            Some((at, step)) => {
                let said = scene.formatter.day_step(&step.key);
                let numbers = &[("at", at + 1), ("all", scene.day.steps.len())];
                scene.counted("surgery-goes-on", numbers, &[("step", &said)])
            }
            None => scene.word("surgery-goes-on-over"),
        },
    };
    strong(ui, title, scale.big(), scene.ink());
    line(
        ui,
        scene.word("loading-who-works"),
        scale.text(),
        scene.ink(),
    );
    for words in scene.open() {
        strong(ui, words, scale.px(40.0), theme.fault());
    }
    for words in scene.all_told_wrong() {
        line(ui, words, scale.px(36.0), theme.fault());
    }
    ui.add_space(scale.px(16.0));
    line(ui, scene.word("surgery-how"), scale.px(34.0), scene.soft());
}

/// Shows that all steps are over, and what is open all the same.
pub(super) fn over_ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let id = if scene.worksheet().demonstration {
        "surgery-over-practice"
    } else {
        "surgery-over"
    };
    let title = match id {
        "surgery-over" => scene.word("surgery-over"),
        _ => scene.word("surgery-over-practice"),
    };
    strong(ui, title, scale.big(), scene.ink());
    let left = scene.left();
    if left.is_empty() {
        line(
            ui,
            scene.word("surgery-nothing-left"),
            scale.px(44.0),
            scene.ink(),
        );
    }
    for words in left.into_iter().chain(scene.open()) {
        strong(ui, begin(&words), scale.px(40.0), theme.fault());
    }
}
