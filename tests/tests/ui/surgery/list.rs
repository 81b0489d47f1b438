//! The list of all steps.

use super::room::Room;
use super::tray::{load, read};
use crate::hand::DESK;
use egui::{Key, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use std::path::Path;
use traywright_core::case::{Case, ValidCase};
use traywright_core::measure::Length;

/// Nobody can clamp a stop on this drill where it is planned.
fn misfit(case: &mut Case, name: &str) {
    let drills = case.kit.drills.iter_mut();
    for drill in drills.filter(|drill| drill.name.as_str() == name) {
        let clamp = drill.clamp.as_mut().expect("it takes stops");
        clamp.from_mm = clamp.to_mm - Length::from_um(1000);
    }
}

fn write(file: &Path, change: impl FnOnce(&mut Case)) {
    let mut case: Case = (*read(file)).clone();
    change(&mut case);
    let case = ValidCase::try_from(case).expect("no fault");
    let text = serde_json::to_string_pretty(&*case).expect("data");
    std::fs::write(file, text).expect("a file");
}

/// The lines that name a drill.
fn lines(room: &Room, words: &str) -> Vec<String> {
    let told = room.told().into_iter();
    told.filter(|text| text.contains(words)).collect()
}

/// A drill that does not fit has no setting to be named, in the list and beside a step that another plan had done.
#[test]
fn no_setting_of_what_does_not_fit_is_named() {
    let mut room = Room::with(
        "two-molars",
        DESK,
        |case| misfit(case, "Tip drill 2.57"),
        |_| {},
    );
    room.begin("KE");
    room.key(Key::L);
    let rows = lines(&room, "Tip drill 2.57");
    assert!(!rows.is_empty());
    for row in rows {
        assert!(
            row.contains("does not fit") && !row.contains("set to"),
            "{row}"
        );
    }
}

#[test]
fn a_stop_names_no_setting_of_what_does_not_fit() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::Space);
    write(&room.file, |case| {
        misfit(case, "Pilot drill 2.13");
        for site in &mut case.sites {
            let distance = site.platform_to_sleeve.as_mut().expect("a distance");
            distance.entered_mm += Length::from_um(500);
        }
    });
    let mut room = room.killed();
    room.begin("KE");
    room.expect("The plan is another one");
    let now: Vec<String> = lines(&room, "Now planned: ")
        .into_iter()
        .filter(|line| line.starts_with("Done: ") && line.contains("Pilot drill 2.13"))
        .collect();
    assert!(!now.is_empty());
    for line in now {
        let (_, now) = line.split_once("Now planned: ").expect("both");
        assert!(
            now.contains("does not fit") && !now.contains("set to"),
            "{line}"
        );
    }
}

/// A drill that is set otherwise by the record says so in the list.
#[test]
fn the_list_says_how_a_drill_is_set_where_that_is_otherwise() {
    let room = Room::at("two-molars", "read: ");
    write(&room.file, |case| {
        for site in &mut case.sites {
            let distance = site.platform_to_sleeve.as_mut().expect("a distance");
            distance.entered_mm += Length::from_um(500);
        }
    });
    let mut room = room.killed();
    room.begin("KE");
    room.key(Key::U);
    room.give("Going on as it is now, why? Who decided?", "RT: moved");
    room.key(Key::L);
    let rows = lines(&room, ", set to ");
    assert!(
        rows.iter()
            .any(|row| row.contains("by the record it is set to")),
        "{rows:#?}"
    );
}

/// What is only told at a step does not make it one that is not ready.
#[test]
fn what_is_only_told_is_no_step_that_is_not_ready() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    for _ in 0..2 {
        room.key(Key::S);
        room.give("Left out, why?", "no probe");
    }
    room.key(Key::L);
    let drills: Vec<String> = lines(&room, "set to ");
    assert!(!drills.is_empty());
    for row in &drills {
        assert!(!row.contains("not ready"), "{row}");
    }
    assert!(
        drills.iter().any(|row| row.contains("something to know")),
        "{drills:#?}"
    );
}

/// What comes after a screen that was rolled begins at its own beginning.
#[test]
fn each_new_screen_begins_at_its_top() {
    let mut room = Room::with("full-arch-upper", vec2(1280.0, 460.0), |_| {}, load);
    room.begin("KE");
    let place = |room: &Room| {
        let all = room.hand.harness.query_all_by(|_| true);
        let mut found = all.filter(|node| {
            let node = node.accesskit_node();
            let text = node.label().or_else(|| node.value());
            text.is_some_and(|text| text.contains("All steps"))
        });
        found.next().map(|node| node.rect().min.y)
    };
    room.key(Key::L);
    let at_top = place(&room);
    assert!(at_top.is_some());
    for _ in 0..3 {
        room.key(Key::PageDown);
    }
    assert_ne!(place(&room), at_top);
    // What fell is asked in a list that is longer than this window, too.
    room.key(Key::L);
    room.key(Key::F);
    for _ in 0..3 {
        room.key(Key::PageDown);
    }
    room.key(Key::Escape);
    room.key(Key::L);
    assert_eq!(place(&room), at_top);
}

/// Nor does it of what was left out because it does not fit.
#[test]
fn what_was_left_out_for_not_fitting_names_no_setting() {
    let mut room = Room::with(
        "two-molars",
        DESK,
        |case| misfit(case, "Tip drill 2.57"),
        load,
    );
    room.begin("KE");
    room.give("Going on as it is now, why? Who decided?", "RT: looked at");
    while room.due().0.is_some() {
        room.key(Key::S);
        room.give("Left out, why?", "only looked at");
    }
    room.key(Key::ArrowLeft);
    room.key(Key::L);
    let rows = lines(&room, "Tip drill 2.57");
    assert!(!rows.is_empty());
    for row in rows {
        assert!(row.contains("LEFT OUT") && !row.contains("set to"), "{row}");
    }
}

/// A STOP over another plan says of what was left out that it was, not that it was done.
#[test]
fn a_stop_does_not_tell_what_was_left_out_as_done() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::S);
    room.give("Left out, why?", "RT: not needed");
    super::tray::replan(&room.file);
    let mut room = room.killed();
    room.begin("KE");
    room.expect("The plan is another one");
    let told = lines(&room, "Pilot drill 2.13");
    assert!(!told.is_empty(), "{:#?}", room.told());
    for words in &told {
        assert!(!words.starts_with("Done"), "{words}");
    }
    assert!(
        told.iter().any(|words| words.starts_with("Left out: ")),
        "{told:#?}"
    );
    // Nor at its step.
    room.key(Key::U);
    room.give("Going on as it is now, why? Who decided?", "RT: moved");
    let here = |room: &Room| {
        let mut told = lines(room, "Pilot drill 2.13").into_iter();
        told.any(|words| words.starts_with("By another plan"))
    };
    for _ in 0..30 {
        if here(&room) {
            break;
        }
        room.key(Key::ArrowRight);
    }
    assert!(here(&room), "{:#?}", room.told());
    assert!(
        lines(&room, "By another plan")
            .iter()
            .all(|words| words.contains("Left out: ")),
        "{:#?}",
        room.told()
    );
}
