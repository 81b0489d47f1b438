//! What is asked beside the step itself: initials, a reason, what fell, what an insertion reached.

use super::barrier::keys_ui;
use super::change::offered;
use super::doing::{Asked, For};
use super::keys::{self, Pressed};
use super::scene::{Scene, implant_of};
use super::take::{in_hand, on_the_tray, typed_number};
use crate::view::loading::reading::figure_box;
use crate::view::loading::scale::{Weight, line, strong, target};
use crate::view::loading::session::Refused;
use crate::view::loading::start::field_ui;
use egui::Ui;
use traywright_core::sign::{DayEvent, InsertionWay, Who};
use traywright_core::surgery::{lifted, recorded_since};

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, field: &mut String, out: &mut Vec<Pressed>) {
    match scene.doing.asked {
        Asked::Nothing => {}
        Asked::Person => who_ui(ui, scene, "surgery-ask-person", field, out),
        Asked::Second => who_ui(ui, scene, "surgery-ask-second", field, out),
        Asked::Reason(of) => reason_ui(ui, scene, of, field, out),
        Asked::Sitting => sitting_ui(ui, scene, out),
        Asked::Fell => fell_ui(ui, scene, out),
        Asked::FellOfAll => fell_of_all_ui(ui, scene, out),
        Asked::Change => change_ui(ui, scene, out),
        Asked::Torque(way) => {
            about(ui, scene, way);
            let names = ["surgery-ask-torque", "surgery-ncm"].map(|id| scene.word(id));
            figure_ui(
                ui,
                scene,
                (&names[0], &names[1]),
                &["surgery-torque-how"],
                out,
            );
            if let Some((_, step)) = scene.step()
                && let Some(implant) = implant_of(step)
            {
                let limit = scene.formatter.implant_torque(&implant);
                line(ui, limit, scene.scale.px(40.0), scene.ink());
            }
        }
        Asked::Depth(way, _) => {
            about(ui, scene, way);
            let names = ["surgery-ask-depth", "loading-mm"].map(|id| scene.word(id));
            figure_ui(
                ui,
                scene,
                (&names[0], &names[1]),
                &["surgery-depth-how"],
                out,
            );
            let scale = scene.scale;
            for (id, pressed) in [
                ("surgery-at-depth", Pressed::Done),
                ("surgery-apical", Pressed::Apical),
            ] {
                let words = scene.word(id);
                let words = (words.as_str(), keys::shown(&pressed));
                if target(ui, scale, words, Weight::Other, scale.px(560.0)).clicked() {
                    out.push(pressed);
                }
            }
        }
    }
}

/// Asks for initials.
pub(super) fn who_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    id: &str,
    field: &mut String,
    out: &mut Vec<Pressed>,
) {
    let ask = match id {
        "surgery-ask-second" => scene.word("surgery-ask-second"),
        _ => scene.word("surgery-ask-person"),
    };
    let refused = scene.doing.entry.refused.as_ref();
    let refused = refused.map(|refused| refused_words(scene, refused));
    let width = scene.scale.px(520.0);
    if field_ui(ui, scene.brush(), (&ask, width), refused, field) {
        out.push(Pressed::Given);
    }
}

/// Why initials were not taken.
fn refused_words(scene: &Scene<'_>, refused: &Refused) -> String {
    match refused {
        Refused::Name(fault) => {
            let reason = scene.formatter.message(&fault.message());
            scene.text("window-sign-name", &[("reason", &reason)])
        }
        Refused::SamePerson(who) => scene.text("surgery-same-person", &[("who", who.as_str())]),
        Refused::New {
            who,
            near: Some(near),
        } => {
            let args = [("who", who.as_str()), ("near", near.as_str())];
            scene.text("loading-new-person-near", &args)
        }
        Refused::New { who, near: None } => {
            let known: Vec<&str> = scene.people.iter().map(Who::as_str).collect();
            let args = [("who", who.as_str()), ("known", &known.join(", "))];
            scene.text("loading-new-person", &args)
        }
        _ => String::new(),
    }
}

fn reason_ui(ui: &mut Ui, scene: &Scene<'_>, of: For, field: &mut String, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    let of_jaw = matches!(
        of,
        For::GoOn | For::NotLifted | For::Abandon | For::NotAbandoned
    );
    if let Some((_, step)) = scene.step().filter(|_| !of_jaw) {
        let words = scene.formatter.day_step(&step.key);
        strong(
            ui,
            traywright_core::wording::begin(&words),
            scale.big(),
            scene.ink(),
        );
    }
    if of == For::GoOn {
        for (_, words) in scene.lies_wrong {
            line(ui, words, scale.px(40.0), scene.ink());
        }
    }
    let day = &scene.document.record.standing.day;
    match of {
        For::NotLifted => since_ui(ui, scene, lifted(day)),
        For::NotAbandoned => since_ui(ui, scene, scene.day.abandoned),
        For::Abandon => {
            let words = scene.word("surgery-change-abandon");
            strong(ui, words, scale.big(), scene.ink());
        }
        _ => {}
    }
    let ask = match of {
        For::NotLifted | For::NotAbandoned => scene.word("surgery-ask-not-lifted"),
        For::Abandon => scene.word("surgery-ask-abandon"),
        For::Skip => scene.word("surgery-ask-skip"),
        For::StopHere => scene.word("surgery-ask-stop-here"),
        For::Despite | For::Insertion(_) => scene.word("surgery-ask-despite"),
        For::GoOn => scene.word("surgery-ask-go-on"),
    };
    ui.add_space(scale.px(20.0));
    if field_ui(ui, scene.brush(), (&ask, scale.px(1300.0)), None, field) {
        out.push(Pressed::Given);
    }
}

/// What was recorded since the guide was said to have come off, or to be abandoned.
fn since_ui(ui: &mut Ui, scene: &Scene<'_>, of: Option<&DayEvent>) {
    let scale = scene.scale;
    let day = &scene.document.record.standing.day;
    let Some(of) = of else { return };
    let title = scene.formatter.record_run(of);
    strong(ui, title, scale.px(50.0), scene.ink());
    let since = recorded_since(day, of);
    let id = if since.is_empty() {
        "surgery-since-none"
    } else {
        "surgery-since"
    };
    let said = match id {
        "surgery-since" => scene.word("surgery-since"),
        _ => scene.word("surgery-since-none"),
    };
    line(ui, said, scale.px(40.0), scene.ink());
    for one in since {
        let words = scene.formatter.record_run(one);
        line(ui, words, scale.px(36.0), scene.ink());
    }
}

/// The changes that there are at the site.
fn change_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    strong(
        ui,
        scene.word("surgery-ask-change"),
        scale.big(),
        scene.ink(),
    );
    line(
        ui,
        scene.word("surgery-change-how"),
        scale.px(36.0),
        scene.soft(),
    );
    let Some((_, step)) = scene.step() else {
        return;
    };
    for (number, one) in (1_u8..).zip(offered(scene, step)) {
        let key = number.to_string();
        let words = (one.name.as_str(), key.as_str());
        if target(ui, scale, words, Weight::Other, scale.px(1100.0)).clicked() {
            out.push(Pressed::Digit(number));
        }
    }
}

/// Whether the sitting of the record goes on, long after its last step.
fn sitting_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    if let Some(last) = scene.left_long_ago() {
        let at = last.at.strftime("%Y-%m-%d %H:%M").to_string();
        let args = [("at", at.as_str()), ("who", last.who.as_str())];
        let words = scene.text("surgery-sitting-last", &args);
        strong(ui, words, scale.big(), scene.ink());
    }
    line(
        ui,
        scene.word("surgery-sitting-how"),
        scale.px(40.0),
        scene.ink(),
    );
    let same = scene.word("surgery-sitting-same");
    let another = scene.word("surgery-sitting-another");
    for (number, words) in [(1, same), (2, another)] {
        let key = number.to_string();
        let words = (words.as_str(), key.as_str());
        if target(ui, scale, words, Weight::Other, scale.px(1100.0)).clicked() {
            out.push(Pressed::Digit(number));
        }
    }
}

fn fell_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    strong(ui, scene.word("surgery-ask-fell"), scale.big(), scene.ink());
    line(
        ui,
        scene.word("surgery-fell-how"),
        scale.px(36.0),
        scene.soft(),
    );
    let Some((_, step)) = scene.step() else {
        return;
    };
    for (number, one) in (1_u8..).zip(in_hand(scene, step)) {
        let key = number.to_string();
        let words = (one.name.as_str(), key.as_str());
        if target(ui, scale, words, Weight::Other, scale.px(900.0)).clicked() {
            out.push(Pressed::Digit(number));
        }
    }
    let other = scene.word("surgery-fell-other");
    let key = 0.to_string();
    let words = (other.as_str(), key.as_str());
    if target(ui, scale, words, Weight::Other, scale.px(900.0)).clicked() {
        out.push(Pressed::Digit(0));
    }
}

/// Everything that lies on the tray, by its number.
fn fell_of_all_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    let all = on_the_tray(scene);
    strong(ui, scene.word("surgery-ask-fell"), scale.big(), scene.ink());
    let typed = scene.doing.entry.typed.as_str();
    let named = typed_number(scene.doing).and_then(|number| all.get(number.checked_sub(1)?));
    let name = named.map_or("", |one| one.name.as_str());
    let said = if typed.is_empty() {
        scene.word("surgery-fell-of-all-how")
    } else {
        scene.text("surgery-fell-typed", &[("number", typed), ("name", name)])
    };
    line(ui, said, scale.px(44.0), scene.ink());
    for (number, one) in (1_usize..).zip(&all) {
        let key = number.to_string();
        let words = (one.name.as_str(), key.as_str());
        if target(ui, scale, words, Weight::Small, scale.px(900.0)).clicked() {
            out.push(Pressed::Pick(number));
        }
    }
}

/// The implant and the way that is being recorded.
fn about(ui: &mut Ui, scene: &Scene<'_>, way: InsertionWay) {
    let id = match way {
        InsertionWay::Guided => "surgery-way-guided",
        InsertionWay::Begun => "surgery-way-begun",
        InsertionWay::Ended => "surgery-way-ended",
        InsertionWay::Freehand => "surgery-way-freehand",
    };
    if let Some((_, step)) = scene.step() {
        let words = traywright_core::wording::begin(&scene.formatter.day_step(&step.key));
        strong(ui, words, scene.scale.px(54.0), scene.ink());
    }
    line(ui, scene.word(id), scene.scale.px(40.0), scene.soft());
}

fn figure_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (ask, unit): (&str, &str),
    how: &[&str],
    out: &mut Vec<Pressed>,
) {
    let scale = scene.scale;
    ui.horizontal_top(|ui| {
        let width = ui.available_width() - scale.px(700.0);
        ui.vertical(|ui| {
            ui.set_width(width);
            strong(ui, ask, scale.big(), scene.ink());
            for id in how {
                let words = match *id {
                    "surgery-torque-how" => scene.word("surgery-torque-how"),
                    _ => scene.word("surgery-depth-how"),
                };
                line(ui, words, scale.px(36.0), scene.ink());
            }
            figure_box(
                ui,
                scene.brush(),
                (ask, unit),
                scene.doing.entry.typed.as_str(),
            );
        });
        ui.vertical(|ui| keys_ui(ui, scene, out));
    });
}
