//! What is asked beside the step itself: initials, a reason, what fell, what an insertion reached.

use super::barrier::keys_ui;
use super::change::{Kind, Offered, offered, one};
use super::doing::{Asked, For};
use super::keys::{self, Pressed};
use super::scene::{Scene, implant_of};
use super::take::{GUIDE, IN_HAND, in_hand, on_the_tray, typed_number};
use crate::view::loading::reading::figure_box;
use crate::view::loading::scale::{Weight, line, strong, target};
use crate::view::loading::session::Refused;
use crate::view::loading::start::field_ui;
use egui::Ui;
use traywright_core::kit::SlotKind;
use traywright_core::sign::{DayEvent, InsertionWay, WhichGuide, Who};
use traywright_core::surgery::{DayStep, guide_word, recorded_since};

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
        Asked::WhichGuide => which_guide_ui(ui, scene, out),
        Asked::Change => change_ui(ui, scene, out),
        Asked::Confirm(kind) => confirm_ui(ui, scene, kind, out),
        Asked::Aimed => aimed_ui(ui, scene, out),
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
    let of_jaw = matches!(of, For::GoOn | For::SeatAgain(_)) || kind_of(of).is_some();
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
        for words in scene.all_told_wrong() {
            line(ui, words, scale.px(40.0), scene.ink());
        }
    }
    if let Some((_, step)) = scene.step()
        && let Some(one) = kind_of(of).and_then(|kind| one(scene, step, kind))
    {
        change_title(ui, scene, &one);
        if let For::Change(_) = of {
            site_ui(ui, scene, step);
            let words = scene.word("surgery-changed-how");
            line(ui, words, scale.px(36.0), scene.ink());
        }
        if of == For::StopHere {
            let words = traywright_core::wording::begin(&scene.formatter.day_step(&step.key));
            line(ui, words, scale.px(44.0), scene.ink());
        }
    }
    if let For::ByHand(_) = of {
        let words = scene.word("surgery-by-hand-holds");
        strong(ui, words, scale.px(44.0), scene.theme.fault());
    }
    let day = &scene.document.record.standing.day;
    match of {
        For::NotLifted => since_ui(ui, scene, guide_word(day)),
        For::NotAbandoned => since_ui(ui, scene, scene.day.abandoned),
        _ => {}
    }
    let ask = match of {
        For::Lifted => scene.word("surgery-ask-lifted"),
        For::ByHand(_) => scene.word("surgery-ask-by-hand"),
        For::NotLifted | For::NotAbandoned => scene.word("surgery-ask-not-lifted"),
        For::Abandon => scene.word("surgery-ask-abandon"),
        For::SeatAgain(WhichGuide::Same) => scene.word("surgery-ask-same-guide"),
        For::SeatAgain(WhichGuide::Another) => scene.word("surgery-ask-another-guide"),
        For::Change(_) => scene.word("surgery-ask-changed"),
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
    ui.spacing_mut().item_spacing.y = scale.px(6.0);
    for one in offered(scene, step) {
        let key = one.number.to_string();
        match &one.what {
            Ok(_) => {
                let words = (one.name.as_str(), key.as_str());
                if target(ui, scale, words, Weight::Small, scale.px(1100.0)).clicked() {
                    out.push(Pressed::Digit(one.number));
                }
            }
            Err(why) => {
                let why = scene.text("surgery-not-now", &[("why", why)]);
                let args = [("number", &*key), ("name", &*one.name), ("why", &*why)];
                let words = scene.text("surgery-change-row", &args);
                line(ui, words, scale.px(30.0), scene.soft());
            }
        }
    }
}

/// The change that a reason is given for.
const fn kind_of(of: For) -> Option<Kind> {
    Some(match of {
        For::StopHere => Kind::StopHere,
        For::Lifted => Kind::Lifted,
        For::NotLifted => Kind::NotLifted,
        For::Abandon => Kind::Abandon,
        For::NotAbandoned => Kind::NotAbandoned,
        For::Change(kind) => kind,
        For::Skip
        | For::Despite
        | For::Insertion(_)
        | For::ByHand(_)
        | For::SeatAgain(_)
        | For::GoOn => return None,
    })
}

/// The change that is asked about, and what it makes possible and impossible.
fn change_title(ui: &mut Ui, scene: &Scene<'_>, one: &Offered) {
    let scale = scene.scale;
    strong(ui, &one.name, scale.px(50.0), scene.ink());
    for words in &scene.doing.foretold {
        line(ui, words, scale.px(34.0), scene.ink());
    }
}

/// The site of a step, in words.
fn site_ui(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>) {
    if let Some(site) = step.site() {
        let words = traywright_core::wording::begin(&scene.formatter.site(site));
        strong(ui, words, scene.scale.px(50.0), scene.ink());
    }
}

/// Which guide goes in after it fell.
fn which_guide_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    let ask = scene.word("surgery-ask-which-guide");
    strong(ui, ask, scale.big(), scene.ink());
    let how = scene.word("surgery-which-guide-how");
    line(ui, how, scale.px(36.0), scene.ink());
    let same = scene.word("surgery-which-guide-same");
    let another = scene.word("surgery-which-guide-another");
    let none = scene.word("surgery-which-guide-none");
    for (number, words) in [(1, same), (2, another), (3, none)] {
        let key = number.to_string();
        let words = (words.as_str(), key.as_str());
        if target(ui, scale, words, Weight::Other, scale.px(1500.0)).clicked() {
            out.push(Pressed::Digit(number));
        }
    }
}

/// Whether the case is changed so.
fn confirm_ui(ui: &mut Ui, scene: &Scene<'_>, kind: Kind, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    let Some((_, step)) = scene.step() else {
        return;
    };
    let Some(one) = one(scene, step, kind) else {
        return;
    };
    change_title(ui, scene, &one);
    if kind != Kind::PlanAbandoned {
        site_ui(ui, scene, step);
    }
    line(
        ui,
        scene.word("surgery-confirm-how"),
        scale.px(40.0),
        scene.ink(),
    );
    let words = scene.word("surgery-confirm");
    let words = (words.as_str(), keys::shown(&Pressed::Enter));
    if target(ui, scale, words, Weight::Main, scale.px(560.0)).clicked() {
        out.push(Pressed::Enter);
    }
}

/// The depth that is aimed at by hand.
fn aimed_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    if let Some((_, step)) = scene.step() {
        let words = traywright_core::wording::begin(&scene.formatter.day_step(&step.key));
        strong(ui, words, scale.px(54.0), scene.ink());
    }
    let words = scene.word("surgery-by-hand-holds");
    strong(ui, words, scale.px(44.0), scene.theme.fault());
    let names = ["surgery-ask-aimed", "loading-mm"].map(|id| scene.word(id));
    figure_ui(
        ui,
        scene,
        (&names[0], &names[1]),
        &["surgery-aimed-how"],
        out,
    );
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
    let all = in_hand(scene, step);
    let chosen = typed_number(scene.doing);
    for (number, kind) in (1_usize..).zip(IN_HAND) {
        let key = number.to_string();
        let Some(one) = all.iter().find(|one| one.number == number) else {
            let args = [("number", &*key), ("what", &*in_hand_of(scene, kind))];
            let words = scene.text("surgery-fell-not-here", &args);
            line(ui, words, scale.px(34.0), scene.soft());
            continue;
        };
        let words = (one.name.as_str(), key.as_str());
        if target(ui, scale, words, Weight::Other, scale.px(900.0)).clicked() {
            out.push(Pressed::Pick(number));
        }
    }
    let number = GUIDE.to_string();
    if let Some(guide) = all.iter().find(|one| one.number == GUIDE) {
        let words = (guide.name.as_str(), number.as_str());
        if target(ui, scale, words, Weight::Other, scale.px(900.0)).clicked() {
            out.push(Pressed::Pick(GUIDE));
        }
    } else {
        let what = scene.word("surgery-in-hand-guide");
        let args = [("number", &*number), ("what", &*what)];
        let words = scene.text("surgery-fell-guide-not-here", &args);
        line(ui, words, scale.px(34.0), scene.soft());
    }
    let other = scene.word("surgery-fell-other");
    let key = 0.to_string();
    let words = (other.as_str(), key.as_str());
    if target(ui, scale, words, Weight::Other, scale.px(900.0)).clicked() {
        out.push(Pressed::Digit(0));
    }
    let Some(chosen) = chosen else { return };
    let one = all.iter().find(|one| one.number == chosen);
    chosen_ui(ui, scene, one.map(|one| (chosen, &*one.name)), out);
}

/// A sort of what can be in a hand.
fn in_hand_of(scene: &Scene<'_>, kind: SlotKind) -> String {
    match kind {
        SlotKind::Drill => scene.word("surgery-in-hand-drill"),
        SlotKind::Sleeve => scene.word("surgery-in-hand-sleeve"),
        SlotKind::Implant => scene.word("surgery-in-hand-implant"),
        SlotKind::Carrier => scene.word("surgery-in-hand-carrier"),
        _ => scene.word("surgery-in-hand-pin"),
    }
}

/// What was chosen of what can fall, and the target that has it recorded.
fn chosen_ui(ui: &mut Ui, scene: &Scene<'_>, one: Option<(usize, &str)>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    let Some((number, name)) = one else {
        let words = scene.word("surgery-fell-none-chosen");
        strong(ui, words, scale.px(44.0), scene.theme.fault());
        return;
    };
    let number = number.to_string();
    let args = [("number", number.as_str()), ("name", name)];
    let words = scene.text("surgery-fell-typed", &args);
    strong(ui, words, scale.px(44.0), scene.ink());
    let words = scene.word("surgery-fell-record");
    let words = (words.as_str(), keys::shown(&Pressed::Enter));
    if target(ui, scale, words, Weight::Main, scale.px(560.0)).clicked() {
        out.push(Pressed::Enter);
    }
}

/// Everything that lies on the tray, by its number.
fn fell_of_all_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    let all = on_the_tray(scene);
    strong(ui, scene.word("surgery-ask-fell"), scale.big(), scene.ink());
    let typed = scene.doing.entry.typed.as_str();
    let number = typed_number(scene.doing);
    let named = number.and_then(|number| all.iter().find(|one| one.number == number));
    if typed.is_empty() {
        let said = scene.word("surgery-fell-of-all-how");
        line(ui, said, scale.px(44.0), scene.ink());
    } else {
        chosen_ui(ui, scene, named.map(|one| (one.number, &*one.name)), out);
    }
    let half = all.len().div_ceil(2).max(1);
    ui.columns(2, |columns| {
        for (column, all) in columns.iter_mut().zip(all.chunks(half)) {
            for one in all {
                let key = one.number.to_string();
                let words = (one.name.as_str(), key.as_str());
                let width = column.available_width() - scale.px(24.0);
                if target(column, scale, words, Weight::Small, width).clicked() {
                    out.push(Pressed::Pick(one.number));
                }
            }
        }
    });
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
                    "surgery-aimed-how" => scene.word("surgery-aimed-how"),
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
