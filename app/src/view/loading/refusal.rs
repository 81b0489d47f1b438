//! The words on a reading that does not confirm the setting. On a second one, nothing that would
//! give away the figure that is looked for.

use super::keys::{self, Pressed};
use super::scale::{Scale, Weight, line, strong, target};
use super::scene::Scene;
use super::session::{GaugeFell, Input, Step, is_off};
use super::task::{ReadingState, Task};
use crate::look::bold;
use egui::{Color32, FontId, Ui};
use traywright_core::drawing::Ink;
use traywright_core::sign::{Objection, ReadingVerdict, Turn};

/// The turn whose reading was just refused, where figures are typed: the words on it take the place
/// of all that is not needed then, so that none of it is scrolled out of sight.
pub(super) fn turn(scene: &Scene<'_>) -> Option<Turn> {
    let task = scene.session.task(scene.board)?;
    if scene.session.asks_for(scene.board).is_some() {
        return None;
    }
    let (turn, turned) = match scene.session.step(scene.board)? {
        Step::Read => (Turn::First, &task.record.first),
        Step::Set if is_off(&task.record.first) => return Some(Turn::First),
        Step::ReadAgain => (Turn::Second, &task.record.second),
        _ => return None,
    };
    let refused = matches!(
        turned,
        ReadingState::Refused { .. } | ReadingState::Unsound { .. }
    );
    (refused || scene.session.must_set_anew(scene.board)).then_some(turn)
}

/// The largest capitals at which the sentences and the remedy have room below what is there.
fn size(ui: &Ui, scale: Scale, (words, remedy): (&[String], &str), rest: f32) -> f32 {
    let (width, room) = (ui.available_width(), ui.available_height() - rest);
    let gap = ui.spacing().item_spacing.y;
    let height = |text: &str, font| {
        let laid = ui.painter();
        let laid = laid.layout(text.to_owned(), font, Color32::BLACK, width);
        laid.size().y + gap
    };
    let remedy = height(remedy, FontId::proportional(scale.text()));
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
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task, turn: Turn, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let turned = match turn {
        Turn::First => &task.record.first,
        Turn::Second => &task.record.second,
    };
    let anew = scene.session.must_set_anew(scene.board);
    let (words, remedy) = match (turned, turn) {
        _ if anew => (
            vec![scene.word("loading-second-refused")],
            "loading-second-set-anew",
        ),
        (ReadingState::Refused { verdict, .. }, Turn::First) => first(scene, verdict),
        (ReadingState::Refused { .. }, Turn::Second) => (
            vec![scene.word("loading-second-refused")],
            "loading-second-remedy",
        ),
        (ReadingState::Unsound { .. }, _) => (gauge(scene, task), "loading-gauge-remedy"),
        (ReadingState::Open | ReadingState::Confirmed { .. }, _) => return,
    };
    let remedy = scene.word(remedy);
    let unsound = matches!(turned, ReadingState::Unsound { .. });
    let rest = if anew || unsound {
        scale.target() + ui.spacing().item_spacing.y
    } else {
        0.0
    };
    let size = size(ui, scale, (&words, &remedy), rest);
    for words in words {
        strong(ui, words, size, theme.fault());
    }
    line(ui, remedy, scale.text(), theme.fill(Ink::Strong));
    let way_out = if anew {
        Some(("loading-reset", Input::Reset))
    } else if unsound {
        Some(("loading-check-gauge", Input::Gauge(GaugeFell::No)))
    } else {
        None
    };
    if let Some((verb, input)) = way_out {
        let (verb, pressed) = (scene.word(verb), Pressed::Input(input));
        let words = (verb.as_str(), keys::shown(&pressed));
        if target(ui, scale, words, Weight::Main, scale.px(420.0)).clicked() {
            out.push(pressed);
        }
    }
}

/// A first reading: how it disagrees, and whether it looks mistyped.
fn first(scene: &Scene<'_>, verdict: &ReadingVerdict) -> (Vec<String>, &'static str) {
    if verdict.mistyped.is_empty() {
        return (
            vec![scene.message(&verdict.deviation.message())],
            "loading-first-remedy",
        );
    }
    // The last one found says most: that the decimal mark slipped, before that it is far off.
    let why = verdict.mistyped.last();
    let words = why.map(|why| scene.message(&why.message()));
    (words.into_iter().collect(), "loading-mistyped-remedy")
}

/// The objections to the gauge.
fn gauge(scene: &Scene<'_>, task: &Task) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for objection in &task.record.objections {
        let of_gauge = matches!(
            objection,
            Objection::GaugeNotChecked { .. }
                | Objection::GaugeCheckOld { .. }
                | Objection::GaugeOff { .. }
                | Objection::GaugeFell { .. }
        );
        let said = scene.message(&objection.message());
        if of_gauge && !words.contains(&said) {
            words.push(said);
        }
    }
    words
}
