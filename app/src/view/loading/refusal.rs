//! What is said of a reading that does not confirm the setting. Of a second one nothing that would
//! tell what figure is looked for.

use super::keys::Pressed;
use super::scale::{Weight, line, strong, target};
use super::scene::Scene;
use super::session::{GaugeFell, Input};
use super::task::{Task, Turned};
use egui::Ui;
use traywright_core::drawing::Ink;
use traywright_core::sign::{Against, Judged, Turn};

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
        (Turned::Refused { judged, .. }, Turn::First) => first(scene, judged),
        (Turned::Refused { .. }, Turn::Second) => (
            vec![scene.word("loading-second-refused")],
            "loading-second-remedy",
        ),
        (Turned::Unsound { .. }, _) => (gauge(scene, task), "loading-gauge-remedy"),
        (Turned::Open | Turned::Stands { .. }, _) => return,
    };
    for words in words {
        strong(ui, words, scale.px(50.0), theme.fault());
    }
    line(
        ui,
        scene.word(remedy),
        scale.text(),
        theme.fill(Ink::Strong),
    );
    if anew {
        let verb = scene.word("loading-reset");
        if target(ui, scale, (&verb, "R"), Weight::Main, scale.px(420.0)).clicked() {
            out.push(Pressed::Input(Input::Reset));
        }
    } else if matches!(turned, Turned::Unsound { .. }) {
        let verb = scene.word("loading-check-gauge");
        if target(ui, scale, (&verb, "G"), Weight::Main, scale.px(420.0)).clicked() {
            out.push(Pressed::Input(Input::Gauge(GaugeFell::No)));
        }
    }
}

/// A first reading: how it disagrees, and whether it looks mistyped.
fn first(scene: &Scene<'_>, judged: &Judged) -> (Vec<String>, &'static str) {
    if judged.mistyped.is_empty() {
        return (
            vec![scene.message(&judged.judgement.message())],
            "loading-first-remedy",
        );
    }
    // The last one found says most: that the decimal mark slipped, before that it is far off.
    let why = judged.mistyped.last();
    let words = why.map(|why| scene.message(&why.message()));
    (words.into_iter().collect(), "loading-mistyped-remedy")
}

/// What speaks against the gauge.
fn gauge(scene: &Scene<'_>, task: &Task) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for against in &task.record.against {
        let of_gauge = matches!(
            against,
            Against::GaugeNotChecked { .. }
                | Against::GaugeCheckOld { .. }
                | Against::GaugeOff { .. }
                | Against::GaugeFell { .. }
        );
        let said = scene.message(&against.message());
        if of_gauge && !words.contains(&said) {
            words.push(said);
        }
    }
    words
}
