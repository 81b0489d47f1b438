//! The figures that were set and read.

use super::scale::{line, strong};
use super::scene::Scene;
use super::task::{Task, does_not_fit};
use egui::{ScrollArea, Ui};
use traywright_core::drawing::Ink;
use traywright_core::plan::Known;
use traywright_core::sign::{Purpose, ReadingStanding, SettingState, Turn};

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let ink = theme.fill(Ink::Strong);
    strong(ui, scene.word("loading-record-title"), scale.big(), ink);
    ScrollArea::vertical()
        .id_salt("loading record")
        .show(ui, |ui| {
            let tasks = scene.board.tasks.iter();
            let read = tasks.filter_map(|task| Some((task, row(scene, task)?)));
            let mut any = false;
            let read = read.map(|(_, words)| words);
            for words in read.chain(falls(scene)) {
                any = true;
                line(ui, words, scale.px(40.0), ink);
            }
            if !any {
                line(ui, scene.word("loading-record-none"), scale.text(), ink);
            }
        });
}

/// Falls, those too that were said to have been reported by mistake, with who said what.
fn falls(scene: &Scene<'_>) -> impl Iterator<Item = String> {
    let falls = scene.document.record.standing.fallen.iter();
    falls.map(|fall| {
        let what = scene.formatter.piece(&fall.piece);
        let args = [("what", what.as_str()), ("who", fall.who.as_str())];
        match &fall.taken_back {
            None => scene.text("loading-record-fell", &args),
            Some(by) => {
                let args = [args[0], args[1], ("by", by.as_str())];
                scene.text("loading-record-not-fell", &args)
            }
        }
    })
}

/// A drill with its setting and the readings of it at this stage, those marked that do not count; nothing for what was not
/// read.
fn row(scene: &Scene<'_>, task: &Task) -> Option<String> {
    if let Some(over) = &task.record.passed_over {
        let item = scene.item(task)?;
        let args = [
            ("number", &*(task.item + 1).to_string()),
            ("name", item.name.as_str()),
            ("slot", &scene.formatter.slot(item)),
            ("setting", &scene.setting(task)),
            ("who", over.who.as_str()),
        ];
        let id = if does_not_fit(task) {
            "loading-record-misfit"
        } else {
            "loading-record-passed-over"
        };
        return Some(scene.text(id, &args));
    }
    let planned = task.planned.as_ref();
    let planned = planned.filter(|planned| planned.state == SettingState::Now)?;
    let standing = &scene.document.record.standing;
    let last = |turn: Turn| {
        let readings = standing.readings.iter().rev();
        let mut here = readings.filter(|one| {
            let reading = &one.reading;
            (&reading.item, reading.stage, reading.turn)
                == (&planned.key, scene.session.stage, turn)
        });
        here.find(|one| one.counts_or_is_practised(scene.board.purpose))
    };
    let said = |reading: Option<&ReadingStanding>| match reading {
        None => scene.word("loading-record-open"),
        Some(one) if !one.confirms(scene.board.purpose) => marked(scene, one),
        Some(one) => {
            let value = Known::Is(one.reading.value_mm);
            let value = scene.formatter.set_length_with_unit(&value);
            let args = [("value", &*value), ("who", one.who.as_str())];
            scene.text("loading-record-reading", &args)
        }
    };
    let (first, second) = (last(Turn::First), last(Turn::Second));
    // What was refused or lapsed is not hidden: it was read.
    let here = standing.readings.iter().filter(|one| {
        let reading = &one.reading;
        (&reading.item, reading.stage) == (&planned.key, scene.session.stage)
    });
    let others = here.filter(|one| {
        let shown = [first, second].into_iter().flatten();
        !shown.into_iter().any(|shown| std::ptr::eq(shown, *one))
    });
    let others: Vec<String> = others.map(|one| marked(scene, one)).collect();
    if first.is_none() && second.is_none() && others.is_empty() {
        return None;
    }
    let item = scene.item(task)?;
    let set = |length| scene.formatter.set_length_with_unit(&Known::Is(length));
    let setting = set(planned.key.setting_mm);
    let figure = planned.gauge_figure_mm.map(set);
    let figure = figure.unwrap_or_else(|| scene.word("setting-none"));
    let args = [
        ("number", &*(task.item + 1).to_string()),
        ("name", item.name.as_str()),
        ("slot", &scene.formatter.slot(item)),
        ("setting", &setting),
        ("figure", &figure),
        ("first", &said(first)),
        ("second", &said(second)),
    ];
    let row = scene.text("loading-record-row", &args);
    Some([vec![row], others].concat().join("; "))
}

/// A reading that does not count, and whether it was refused.
fn marked(scene: &Scene<'_>, one: &ReadingStanding) -> String {
    let refused = one
        .verdict
        .as_ref()
        .is_some_and(|verdict| !verdict.confirms());
    let id = if refused {
        "loading-record-refused"
    } else if one.counts_or_is_practised(scene.board.purpose) {
        // Right by itself, but not on a gauge that was checked and sound.
        "loading-record-doubt"
    } else if one.reading.purpose == Purpose::Practice {
        // It never counted.
        "loading-record-practice"
    } else {
        "loading-record-lapsed"
    };
    let value = Known::Is(one.reading.value_mm);
    let value = scene.formatter.set_length_with_unit(&value);
    scene.text(id, &[("value", &*value), ("who", one.who.as_str())])
}
