//! The foot: everything that can be done besides the step itself, each with its key.

use super::doing::{Asked, Listed};
use super::keys::{self, Pressed};
use super::scene::Scene;
use crate::view::loading::scale::{Weight, strong, target};
use egui::Ui;
use traywright_core::surgery::{NotReady, State, Work};

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, told: Option<&str>, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    if let Some(told) = told {
        strong(ui, told, scale.px(40.0), theme.fault());
    }
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(scale.px(10.0), scale.px(8.0));
        for (id, weight, pressed) in targets(scene) {
            let words = scene.word(id);
            let escape = scene.word("loading-key-escape");
            let key = match pressed {
                Pressed::Leave => escape.as_str(),
                _ => keys::shown(&pressed),
            };
            if target(ui, scale, (&words, key), weight, 0.0).clicked() {
                out.push(pressed);
            }
        }
    });
}

fn targets(scene: &Scene<'_>) -> Vec<(&'static str, Weight, Pressed)> {
    let leave = ("surgery-leave", Weight::Small, Pressed::Leave);
    if scene.doing.asked != Asked::Nothing {
        return vec![("surgery-cancel", Weight::Other, Pressed::Leave)];
    }
    if !scene.records() {
        return vec![leave];
    }
    if scene.doing.list == Listed::All {
        return vec![("surgery-list-back", Weight::Other, Pressed::List), leave];
    }
    let mut targets = Vec::new();
    if let Some((_, step)) = scene.step() {
        targets.extend(main(scene, step));
        targets.push(("surgery-back", Weight::Small, Pressed::Back));
        targets.push(("surgery-forward", Weight::Small, Pressed::Forward));
        if !scene.is_due() {
            targets.push(("surgery-due", Weight::Small, Pressed::Due));
        }
        if !step.state.is_over() {
            targets.push(("surgery-skip", Weight::Small, Pressed::Skip));
        }
        if matches!(step.state, State::Done(_) | State::Skipped(_)) {
            targets.push(("surgery-not-done", Weight::Small, Pressed::NotDone));
        }
        targets.push(("surgery-fell", Weight::Small, Pressed::Fell));
        targets.push(("surgery-change", Weight::Small, Pressed::Change));
        let lacks = step.not_ready.iter().any(|why| why.thing().is_some());
        if step.drill().is_some() || lacks {
            targets.push(("surgery-set-anew", Weight::Small, Pressed::SetAnew));
        }
    } else {
        targets.push(("surgery-back", Weight::Small, Pressed::Back));
        targets.push(("surgery-fell", Weight::Small, Pressed::Fell));
    }
    targets.push(("surgery-list", Weight::Small, Pressed::List));
    targets.push(("surgery-person", Weight::Small, Pressed::Person));
    targets.push(leave);
    targets
}

/// What is done in the step, by its keys.
fn main(
    scene: &Scene<'_>,
    step: &traywright_core::surgery::DayStep<'_>,
) -> Vec<(&'static str, Weight, Pressed)> {
    if step.state.is_over() {
        return Vec::new();
    }
    let forbidden = step.not_ready.iter().any(NotReady::forbids);
    let open = !step.is_ready();
    if step.not_ready.contains(&NotReady::GuideFell) {
        let which = ("surgery-guide-again", Weight::Main, Pressed::Despite);
        let by_hand = ("surgery-way-freehand", Weight::Other, Pressed::Freehand);
        let inserts = matches!(step.work, Work::Insert { .. });
        let by_hand = inserts.then_some(by_hand);
        return [which].into_iter().chain(by_hand).collect();
    }
    match &step.work {
        Work::Count(_) if matches!(step.state, State::Amiss(_)) && !scene.counts() => {
            vec![
                ("surgery-count-again", Weight::Main, Pressed::Enter),
                ("surgery-despite-count", Weight::Other, Pressed::Despite),
            ]
        }
        Work::Sound(_) | Work::Count(_) => vec![("surgery-enter", Weight::Main, Pressed::Enter)],
        Work::Insert { site, .. } => {
            let mut ways = Vec::new();
            if site.insertion.is_some() && !forbidden {
                ways.push(("surgery-way-guided", Weight::Main, Pressed::Guided));
                ways.push(("surgery-way-begun", Weight::Other, Pressed::Begun));
                ways.push(("surgery-way-freehand", Weight::Other, Pressed::Freehand));
            } else {
                ways.push(("surgery-way-freehand", Weight::Main, Pressed::Freehand));
            }
            ways
        }
        Work::SetAnew { .. } => vec![("surgery-to-passes", Weight::Main, Pressed::Done)],
        _ if forbidden || open => {
            let despite = ("surgery-despite", Weight::Other, Pressed::Despite);
            let by_hand = ("surgery-by-hand-alone", Weight::Other, Pressed::Freehand);
            let mut ways = Vec::new();
            ways.extend((!forbidden).then_some(despite));
            ways.extend(step.may_be_by_hand().then_some(by_hand));
            ways
        }
        _ => vec![("surgery-done", Weight::Main, Pressed::Done)],
    }
}
