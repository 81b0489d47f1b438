//! STOP: the plan, its approval, the tray or the case's file is not what surgery was begun or gone on with.

use super::keys::{self, Pressed};
use super::scene::Scene;
use super::why::{Changed, since_begun};
use crate::action::{Command, View};
use crate::view::loading::scale::{Weight, line, strong, target};
use crate::view::loading::start::Gate;
use egui::Ui;
use traywright_core::plan::Finding;
use traywright_core::sign::StepKey;
use traywright_core::surgery::DayStep;
use traywright_core::wording::begin;

/// Shows what is otherwise now.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, changed: &Changed) {
    let (scale, theme) = (scene.scale, scene.theme);
    strong(
        ui,
        scene.word("loading-stop"),
        scale.px(110.0),
        theme.fault(),
    );
    if scene.day.abandoned_while_led().is_some() {
        let words = scene.word("surgery-stop-follow-first");
        strong(ui, words, scale.px(44.0), theme.fault());
    }
    for words in sentences(scene, changed) {
        strong(ui, words, scale.px(38.0), scene.ink());
    }
    for words in scene.open() {
        line(ui, words, scale.px(40.0), theme.fault());
    }
    open_ui(ui, scene);
}

/// What is open in the plan, with what to do for each; the rest counted.
fn open_ui(ui: &mut Ui, scene: &Scene<'_>) {
    const MOST: usize = 6;
    let scale = scene.scale;
    let findings = scene.worksheet().findings.iter();
    let open: Vec<&Finding> = findings.filter(|one| one.severity().is_open()).collect();
    if open.is_empty() {
        return;
    }
    let key = Command::Show(View::Surgery).key();
    let key = ui.ctx().format_shortcut(&key);
    let words = scene.text("surgery-stop-open", &[("key", &key)]);
    strong(ui, words, scale.px(34.0), scene.ink());
    for one in open.iter().take(MOST) {
        let said = scene.formatter.finding(one);
        let remedy = said.remedy.as_deref().unwrap_or_default();
        let head = scene.formatter.line(&said);
        let args = [
            ("what", &*format!("{}: {head}", begin(&said.word))),
            ("remedy", &*begin(remedy)),
        ];
        let words = scene.text("surgery-stop-open-line", &args);
        line(ui, words, scale.px(30.0), scene.ink());
    }
    let more = open.len().saturating_sub(MOST);
    if more > 0 {
        let words = scene.counted("surgery-stop-open-more", &[("count", more)], &[]);
        line(ui, words, scale.px(30.0), scene.ink());
    }
}

/// The ways on from it: always in sight.
pub(super) fn foot_ui(ui: &mut Ui, scene: &Scene<'_>, told: Option<&str>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    if let Some(told) = told {
        strong(ui, told, scale.px(40.0), scene.theme.fault());
    }
    // The plan follows before the tray is laid for it.
    let follows = scene.day.abandoned_while_led().is_some();
    let follow = follows.then_some(("surgery-follow", Weight::Main, Pressed::Change));
    let tray = if follows { Weight::Other } else { Weight::Main };
    let others = [
        ("surgery-to-tray", tray, Pressed::SetAnew),
        ("surgery-go-on", Weight::Other, Pressed::GoOn),
        ("surgery-to-findings", Weight::Other, Pressed::Findings),
        ("surgery-fell", Weight::Other, Pressed::Fell),
        ("surgery-leave", Weight::Other, Pressed::Leave),
    ];
    ui.horizontal_wrapped(|ui| {
        for (id, weight, pressed) in follow.into_iter().chain(others) {
            let open = || {
                let mut findings = scene.worksheet().findings.iter();
                findings.any(|one| one.severity().is_open())
            };
            if pressed == Pressed::Findings && !open() {
                continue;
            }
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

fn sentences(scene: &Scene<'_>, changed: &Changed) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(then) = &changed.plan {
        let now = scene.worksheet().fingerprint.to_string();
        let args = [("then", then.as_str()), ("now", &*now)];
        said.push(scene.text("surgery-stop-plan", &args));
        let open = scene.day.open_from(0).map(|(_, step)| step);
        let otherwise = open.filter_map(|step| {
            let args = [
                (
                    "then",
                    &*scene.formatter.recorded_then(&step.otherwise?.kind),
                ),
                ("now", &*scene.formatter.day_step_planned(step)),
            ];
            Some(scene.text("surgery-stop-otherwise", &args))
        });
        said.extend(otherwise);
        said.extend(
            scene
                .day
                .abandoned
                .map(|one| scene.formatter.record_run(one)),
        );
        let gone = scene.day.of_no_step.iter().filter(|one| {
            let of_guide = StepKey::is_of_no_plan;
            !one.step().is_some_and(of_guide)
        });
        let gone = gone.map(|one| {
            let then = scene.formatter.recorded_then(&one.kind);
            scene.text("surgery-stop-no-step", &[("then", &then)])
        });
        said.extend(gone);
    }
    if changed.withdrawn.is_some() {
        said.push(scene.word("surgery-stop-withdrawn"));
    }
    let wrong = changed.lies_wrong.iter();
    said.extend(wrong.map(|words| scene.told_wrong(words)));
    // What is told off the tray as it is set may still be used otherwise.
    if scene.day.steps.iter().any(DayStep::may_be_by_hand) {
        said.push(scene.word("surgery-stop-by-hand"));
    }
    if changed.plan.is_some() {
        let drills = scene.day.steps.iter().filter(|step| step.drill().is_some());
        let ready = drills.filter(|step| !step.state.is_over() && step.is_ready());
        said.push(scene.counted("surgery-stop-stay", &[("count", ready.count())], &[]));
    }
    said
}

/// Shows why nothing can be recorded; gives back the way out where it is chosen.
pub(super) fn gate_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    gate: Gate,
    out: &mut Vec<Pressed>,
) -> Option<Command> {
    let (scale, theme) = (scene.scale, scene.theme);
    let (why, verb, command) = gate.told();
    if scene.day.begun.is_some() {
        strong(
            ui,
            scene.word("loading-stop"),
            scale.px(150.0),
            theme.fault(),
        );
    }
    strong(
        ui,
        scene.formatter.texts.get(why, &[]),
        scale.big(),
        scene.ink(),
    );
    let verb = scene.formatter.texts.get(verb, &[]);
    let key = ui.ctx().format_shortcut(&command.key());
    let mut wanted = None;
    ui.horizontal_wrapped(|ui| {
        if target(ui, scale, (&verb, &key), Weight::Main, scale.px(420.0)).clicked() {
            wanted = Some(command);
        }
        let leave = scene.word("surgery-leave");
        let escape = scene.word("loading-key-escape");
        let words = (leave.as_str(), escape.as_str());
        if target(ui, scale, words, Weight::Other, 0.0).clicked() {
            out.push(Pressed::Leave);
        }
    });
    // What the change does is told before it is saved, too.
    if gate == Gate::Unsaved && scene.day.begun.is_some() {
        line(
            ui,
            scene.word("loading-stop-unsaved"),
            scale.text(),
            theme.fault(),
        );
        for words in sentences(scene, &since_begun(scene)) {
            line(ui, words, scale.px(40.0), scene.ink());
        }
    }
    for words in &scene.document.record.problems {
        line(ui, words, scale.text(), theme.fault());
    }
    wanted
}
