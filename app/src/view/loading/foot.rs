//! The foot: what is left, what is short, and everything that can be done besides the next step.

use super::Face;
use super::keys::{self, Pressed};
use super::scale::{Weight, line, strong, target};
use super::scene::Scene;
use super::session::{GaugeFell, Input, Now, Step};
use super::short;
use super::task::Task;
use egui::Ui;
use traywright_core::drawing::Ink;

/// Shows it.
pub(super) fn ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (told, face): (Option<&str>, Face),
    out: &mut Vec<Pressed>,
) {
    let (scale, theme) = (scene.scale, scene.theme);
    if let Some(told) = told {
        strong(ui, told, scale.px(44.0), theme.fault());
    }
    line(ui, left(scene), scale.px(30.0), theme.fill(Ink::Strong));
    if let Some(open) = scene.plan_open() {
        strong(ui, open, scale.px(30.0), theme.fault());
    }
    let mut targets = match face {
        Face::Hand => of_the_thing(scene),
        // It is not on the screen.
        Face::List | Face::Record | Face::Piece => Vec::new(),
    };
    if face != Face::Piece {
        targets.push(("loading-list", Pressed::List));
    }
    // At the keypad the row is full.
    let step = scene.session.step(scene.board);
    let task = scene.session.task(scene.board);
    let full =
        step.is_some_and(Step::is_reading) || task.is_some_and(|task| steps(scene, task).is_some());
    if face != Face::Piece && (face != Face::Hand || !full) {
        if face == Face::Hand {
            targets.push(("loading-other-stage", Pressed::Input(Input::OtherStage)));
        }
        targets.push(("loading-record", Pressed::Record));
    }
    let escape = scene.word("loading-key-escape");
    targets.push(("loading-leave", Pressed::Leave));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(scale.px(10.0), scale.px(8.0));
        for (id, pressed) in targets {
            let key = match pressed {
                Pressed::Leave => escape.as_str(),
                _ => keys::shown(&pressed),
            };
            if target(ui, scale, (&scene.word(id), key), Weight::Small, 0.0).clicked() {
                out.push(pressed);
            }
        }
    });
}

/// The way to take the steps of a thing that is set one by one, or again all at once; the id of its words.
fn steps(scene: &Scene<'_>, task: &Task) -> Option<&'static str> {
    let sets = scene.session.way(task).contains(&Step::Set);
    let could = scene.session.could_be_together(task).is_some();
    match scene.session.step(scene.board).filter(|_| sets && could)? {
        Step::SetAndRead | Step::Lay => Some("loading-singly"),
        Step::Take => Some("loading-together"),
        _ => None,
    }
}

/// What can be done with the thing that is shown, and beside it.
fn of_the_thing(scene: &Scene<'_>) -> Vec<(&'static str, Pressed)> {
    let mut targets = vec![
        ("loading-previous", Pressed::Input(Input::Previous)),
        ("loading-next", Pressed::Input(Input::Next)),
    ];
    let task = scene.session.task(scene.board);
    if let Some(task) = task.filter(|_| scene.session.asks_first(scene.board).is_none()) {
        if scene.session.can_reset(task) {
            targets.push(("loading-reset", Pressed::Input(Input::Reset)));
        }
        targets.extend(steps(scene, task).map(|id| (id, Pressed::Input(Input::Singly))));
        if task.is_sealed() && task.planned.is_some() {
            targets.push(("loading-open", Pressed::Input(Input::Open)));
        }
        if scene.session.may_set_anew(task, scene.board) {
            targets.push(("loading-anew", Pressed::Input(Input::Open)));
        }
        if scene.session.now(task) != Now::NoneLeft {
            targets.push(("loading-fell", Pressed::Input(Input::Fell)));
        }
        if task.fall.is_some() {
            let mistake = Pressed::Input(Input::DidNotFall);
            targets.push(("loading-not-fell", mistake));
        }
    }
    let first = scene.session.asks_first(scene.board).is_some();
    if first || scene.session.step(scene.board).is_some() {
        let other = Pressed::Input(Input::OtherPerson);
        targets.push(("loading-other-person", other));
    }
    if scene.board.gauge.is_some() {
        let check = Pressed::Input(Input::Gauge(GaugeFell::No));
        targets.push(("loading-check-gauge", check));
        let fell = Pressed::Input(Input::Gauge(GaugeFell::Yes));
        targets.push(("loading-gauge-fell", fell));
    }
    targets
}

/// The work left, and what is lacking.
fn left(scene: &Scene<'_>) -> String {
    let (mut set, mut lay) = (0_usize, 0_usize);
    for task in &scene.board.tasks {
        if let Now::Do(_) = scene.session.now(task) {
            let sets = scene.session.way(task).contains(&Step::Set);
            if sets { set += 1 } else { lay += 1 }
        }
    }
    let short = short::all(scene);
    let later = scene.session.set_anew_since(scene.board).count();
    let second = scene.session.waiting_for_second(scene.board);
    let left = scene.counted("loading-left", &[("set", set), ("lay", lay)], &[]);
    let left = if second > 0 {
        let second = scene.counted("loading-left-second", &[("count", second)], &[]);
        format!("{left} {second}")
    } else {
        left
    };
    let left = if later > 0 {
        let later = scene.counted("loading-left-later", &[("count", later)], &[]);
        format!("{left} {later}")
    } else {
        left
    };
    match short.first() {
        None => format!("{left} {}", scene.word("loading-nothing-short")),
        Some(first) => {
            let count = &[("count", short::count(scene))];
            let short = scene.counted("loading-short-first", count, &[("first", first)]);
            format!("{left} {short}")
        }
    }
}
