//! The words on what was not accepted: a first reading that does not confirm the setting, initials, a
//! gauge that is off.

use super::entry::Entry;
use super::keys::{self, Pressed};
use super::scale::{Scale, Weight, line, strong, target};
use super::scene::Scene;
use super::session::{GaugeFell, Input, Refused, Step, is_off};
use super::task::{GaugeFacts, ReadingState, Task};
use crate::look::bold;
use egui::{Color32, FontId, Ui};
use traywright_core::drawing::Ink;
use traywright_core::measure::Length;
use traywright_core::plan::Known;
use traywright_core::sign::{FiguresSeen, Objection, ReadingVerdict, Who};

/// True if a reading was just refused where figures are typed: the words on it take the place of all
/// that is not needed then, so that none of it is scrolled out of sight.
pub(super) fn is_due(scene: &Scene<'_>) -> bool {
    let Some(task) = scene.session.task(scene.board) else {
        return false;
    };
    if scene.session.asks_who(scene.board) {
        return false;
    }
    let refused = matches!(
        task.record.first,
        ReadingState::Refused { .. } | ReadingState::Unsound { .. }
    );
    match scene.session.step(scene.board) {
        Some(Step::Read) => refused,
        Some(Step::Set) => is_off(&task.record.first) && task.hand().is_some(),
        _ => false,
    }
}

/// The largest capitals at which the sentences and the remedy have room below what is there.
fn size(
    ui: &Ui,
    scale: Scale,
    (words, remedy, remedy_size): (&[String], &str, f32),
    rest: f32,
) -> f32 {
    let (width, room) = (ui.available_width(), ui.available_height() - rest);
    let gap = ui.spacing().item_spacing.y;
    let height = |text: &str, font| {
        let laid = ui.painter();
        let laid = laid.layout(text.to_owned(), font, Color32::BLACK, width);
        laid.size().y + gap
    };
    let remedy = height(remedy, FontId::proportional(remedy_size));
    let sizes = [66.0, 60.0, 54.0, 50.0, 46.0, 42.0, 38.0].map(|points| scale.px(points));
    let fits = |size: &f32| {
        let words = words.iter();
        let words: f32 = words
            .map(|text| height(text, FontId::new(*size, bold())))
            .sum();
        words + remedy <= room
    };
    let least = scale.text();
    sizes.into_iter().find(fits).unwrap_or(least)
}

/// Shows what is wrong and what helps.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let to_check = !scene.gauge_is_sound(task);
    let (words, remedy) = match &task.record.first {
        ReadingState::Refused { value, verdict, .. } => first(scene, *value, verdict),
        ReadingState::Unsound { .. } if !to_check => (gauge(scene, task), "loading-gauge-sound"),
        ReadingState::Unsound { .. } => (gauge(scene, task), "loading-gauge-remedy"),
        ReadingState::Open | ReadingState::Confirmed { .. } => return,
    };
    let remedy = scene.word(remedy);
    let unsound = to_check && matches!(task.record.first, ReadingState::Unsound { .. });
    let rest = if unsound {
        scale.target() + ui.spacing().item_spacing.y
    } else {
        0.0
    };
    // What helps is as large as a sentence only where what is wrong keeps its size.
    let of = |remedy_size: f32| size(ui, scale, (&words, &remedy, remedy_size), rest);
    let remedy_size = if of(scale.told()) >= scale.big() {
        scale.told()
    } else {
        scale.text()
    };
    let size = of(remedy_size);
    for words in words {
        strong(ui, words, size, theme.fault());
    }
    line(ui, remedy, remedy_size, theme.fill(Ink::Strong));
    if unsound {
        let pressed = Pressed::Input(Input::Gauge(GaugeFell::No));
        let verb = scene.word("loading-check-gauge");
        let words = (verb.as_str(), keys::shown(&pressed));
        if target(ui, scale, words, Weight::Main, scale.px(420.0)).clicked() {
            out.push(pressed);
        }
    }
}

/// A first reading: what was typed, how it disagrees, and whether it looks mistyped.
fn first(
    scene: &Scene<'_>,
    value: Length,
    verdict: &ReadingVerdict,
) -> (Vec<String>, &'static str) {
    let value = scene.formatter.set_length_with_unit(&Known::Is(value));
    let typed =
        |words: String| scene.text("loading-read-as", &[("value", &value), ("words", &words)]);
    if verdict.mistyped.is_empty() {
        let words = scene.message(&verdict.deviation.message());
        return (vec![typed(words)], "loading-first-remedy");
    }
    // The last one found says most: that the decimal mark slipped, before that it is far off.
    let why = verdict.mistyped.last();
    let words = why.map(|why| typed(scene.message(&why.message())));
    (words.into_iter().collect(), "loading-mistyped-remedy")
}

/// The objections to the gauge.
fn gauge(scene: &Scene<'_>, task: &Task) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for objection in &task.record.objections {
        let of_gauge = matches!(
            objection,
            Objection::GaugeNotChecked { .. }
                | Objection::GaugeNoFigure { .. }
                | Objection::GaugeCheckOld { .. }
                | Objection::GaugeOff { .. }
                | Objection::GaugeFell { .. }
                | Objection::GaugeFoundOff { .. }
        );
        let said = scene.message(&objection.message());
        if of_gauge && !words.contains(&said) {
            words.push(said);
        }
    }
    words
}

/// The reason why the last input was not taken, in words.
pub(super) fn refused(scene: &Scene<'_>) -> Option<String> {
    let refused = scene.session.entry.refused.as_ref()?;
    Some(refused_words(scene, refused))
}

/// The words on the last input at the gauge's check, and on what stands asked back of the gauge.
pub(super) fn at_the_gauge(scene: &Scene<'_>, entry: &Entry) -> Vec<String> {
    let last = entry.refused.as_ref();
    let of_gauge = |refused: &Refused| {
        matches!(
            refused,
            Refused::GaugeMistyped(_)
                | Refused::GaugeNoFigure(_)
                | Refused::GaugeDoubted(_)
                | Refused::GaugeOff(_)
        )
    };
    let gauge = scene.board.gauge.as_ref();
    let stands = gauge.and_then(GaugeFacts::stands_asked_back);
    let stands = stands.filter(|_| !last.is_some_and(of_gauge));
    let all = last.into_iter().chain(&stands);
    all.map(|refused| refused_words(scene, refused)).collect()
}

/// The question for what the gauge shows of a check piece of this length, and what it should show where that is another
/// figure.
pub(super) fn ask_piece(scene: &Scene<'_>, gauge: &GaugeFacts, piece: Length) -> Vec<String> {
    let length = |length| scene.formatter.set_length_with_unit(&Known::Is(length));
    let ask = scene.text("loading-gauge-piece", &[("piece", &length(piece))]);
    let shown = length(piece + gauge.constant);
    let should = scene.text("loading-gauge-should", &[("shown", &shown)]);
    let adds = gauge.constant != Length::ZERO;
    std::iter::once(ask).chain(adds.then_some(should)).collect()
}

/// The words on the code of another thing than the one in hand.
pub(super) fn other_code(scene: &Scene<'_>, entry: &Entry, task: Option<&Task>) -> Option<String> {
    let scanned = entry.other.as_ref()?;
    let wanted = task.and_then(|task| scene.item(task));
    let wanted = wanted.map_or("", |item| item.name.as_str());
    let args = [("scanned", scanned.as_str()), ("wanted", wanted)];
    Some(scene.text("loading-code-other", &args))
}

/// A reason why an input was not taken, in words.
pub(super) fn refused_words(scene: &Scene<'_>, refused: &Refused) -> String {
    let length = |length| scene.formatter.set_length_with_unit(&Known::Is(length));
    match refused {
        Refused::NoLength => scene.word("loading-no-length"),
        Refused::Mistyped(typed) => scene.text("loading-mistyped", &[("typed", typed)]),
        Refused::UnknownCode(code) => scene.text("loading-code-unknown", &[("code", code)]),
        Refused::CodeNotAsked(name) => {
            scene.text("loading-code-not-asked", &[("name", name.as_str())])
        }
        Refused::MovedOn => scene.word("loading-moved-on"),
        Refused::Name(fault) => {
            let reason = scene.message(&fault.message());
            scene.text("window-sign-name", &[("reason", &reason)])
        }
        Refused::CutOff(who) => scene.text("loading-blind-cut-off", &[("who", who.as_str())]),
        Refused::New {
            who,
            near: Some(near),
        } => {
            let args = [("who", who.as_str()), ("near", near.as_str())];
            scene.text("loading-new-person-near", &args)
        }
        Refused::New { who, near: None } => {
            let known: Vec<&str> = scene.board.people.iter().map(Who::as_str).collect();
            let args = [("who", who.as_str()), ("known", &known.join(", "))];
            scene.text("loading-new-person", &args)
        }
        Refused::SamePerson(who) => scene.text("loading-same-person", &[("who", who.as_str())]),
        Refused::Saw(who, sight) => {
            let id = match sight {
                FiguresSeen::Approved => "loading-saw-approved",
                FiguresSeen::Set => "loading-saw-set",
                FiguresSeen::Read => "loading-saw-read",
                FiguresSeen::Worked => "loading-saw-worked",
                FiguresSeen::Left => "loading-saw-left",
            };
            scene.text(id, &[("who", who.as_str())])
        }
        Refused::GaugeMistyped(value) => {
            scene.text("loading-gauge-mistyped", &[("value", &length(*value))])
        }
        Refused::GaugeNoFigure(value) => {
            scene.text("loading-gauge-no-figure", &[("value", &length(*value))])
        }
        Refused::GaugeDoubted(value) => {
            scene.text("loading-gauge-doubted", &[("value", &length(*value))])
        }
        Refused::GaugeOff(off) => {
            let id = if off.um() > 0 {
                "loading-gauge-more"
            } else {
                "loading-gauge-less"
            };
            scene.text(id, &[("by", &length(off.abs()))])
        }
    }
}
