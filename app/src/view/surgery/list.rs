//! All steps, each with how far it is.

use super::scene::Scene;
use crate::view::loading::scale::{line, strong};
use egui::Ui;
use traywright_core::surgery::{DayStep, State};

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>) {
    let scale = scene.scale;
    strong(
        ui,
        scene.word("surgery-list-title"),
        scale.big(),
        scene.ink(),
    );
    let due = scene.day.next();
    for (at, step) in scene.day.steps.iter().enumerate() {
        let said = scene.formatter.day_step_planned(step);
        let state = state(scene, step, due == Some(at));
        let args = [("step", said.as_str()), ("state", state.as_str())];
        let words = scene.counted("surgery-list-row", &[("number", at + 1)], &args);
        if due == Some(at) {
            strong(ui, words, scale.px(40.0), scene.ink());
        } else {
            line(ui, words, scale.px(36.0), scene.ink());
        }
    }
}

fn state(scene: &Scene<'_>, step: &DayStep<'_>, due: bool) -> String {
    let told = |one: &traywright_core::sign::DayEvent| {
        let at = one.at.strftime("%H:%M").to_string();
        (one.who.to_string(), at)
    };
    match step.state {
        State::Done(one) => {
            let (who, at) = told(one);
            scene.text("surgery-state-done", &[("who", &who), ("at", &at)])
        }
        State::Skipped(one) => {
            let before = step.done_before();
            let (who, at) = told(before.unwrap_or(one));
            let args = [("who", who.as_str()), ("at", at.as_str())];
            if before.is_some() {
                scene.text("surgery-state-done-before", &args)
            } else {
                scene.text("surgery-state-left-out", &args)
            }
        }
        State::Set => scene.word("surgery-state-set"),
        State::Off(..) => scene.word("surgery-state-off"),
        State::Amiss(_) => scene.word("surgery-state-amiss"),
        State::Open if due => scene.word("surgery-state-due"),
        State::Open if !step.is_ready() => scene.word("surgery-state-not-ready"),
        State::Open if !step.not_ready.is_empty() => scene.word("surgery-state-told"),
        State::Open => scene.word("surgery-state-open"),
    }
}
