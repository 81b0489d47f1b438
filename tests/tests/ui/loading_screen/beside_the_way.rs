//! What is done beside the way: a wrong key, a program that is ended, a gauge that is checked again.

use super::screen::{STANDING, Screen, text_of};
use egui::{Key, Modifiers};
use traywright::action::View;
use traywright_core::sign::EventKind;

/// One drill of a patient's case set and read by MK, and the pass put down.
pub(super) fn one_read() -> Screen {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.0");
    screen.key(Key::Space);
    screen.key(Key::T);
    screen.key(Key::T);
    screen
}

/// The kinds of what is recorded, as files name them.
fn kinds(screen: &Screen) -> Vec<String> {
    let recorded = screen.recorded().into_iter();
    let kind = |kind: EventKind| serde_json::to_value(kind).unwrap()["kind"].clone();
    let kinds = recorded.map(|one| kind(one).as_str().unwrap().to_owned());
    kinds.collect()
}

/// The figure that was asked back stands where it stood after the program was ended, in both passes, and counts
/// with the next one that speaks against the gauge.
#[test]
fn a_figure_of_the_gauge_that_was_asked_back_outlives_the_program() {
    for blind in [false, true] {
        let mut screen = one_read();
        screen.key(if blind { Key::A } else { Key::B });
        screen.name(if blind { "KE" } else { "MK" });
        screen.type_in("21.9");
        assert!(screen.says("21.9 mm is not what the gauge should show"));
        assert_eq!(kinds(&screen).last().unwrap(), "gauge_asked_back");
        screen.cut_off();
        if blind {
            assert!(screen.says("The pass of KE was cut off"));
        } else {
            screen.press(Modifiers::COMMAND, View::Loading.key());
            assert!(screen.says("The last check of the gauge was not finished"));
            screen.key(Key::B);
        }
        screen.name(if blind { "KE" } else { "MK" });
        assert!(
            screen.says("21.9 mm is not what the gauge should show"),
            "{:?}",
            screen.said()
        );
        assert!(screen.settings_shown().is_empty());
        screen.type_in("21.5");
        assert!(screen.says("The gauge reads 0.2 mm too low"));
        screen.type_in("21.7");
        if blind {
            screen.press(Modifiers::COMMAND, View::History.key());
            assert!(screen.says("Esc, pressed twice, leaves them"));
            screen.key(Key::Escape);
            screen.key(Key::Escape);
        }
        screen.press(Modifiers::COMMAND, View::History.key());
        assert!(
            screen.says("read 21.9 mm: asked back"),
            "{:?}",
            screen.said()
        );
        assert!(
            screen.says("read 21.5 mm. The gauge is OFF. Entered before and asked back: 21.9 mm")
        );
    }
}

/// The key of the pass with figures, pressed by who is to read without: nothing was shown, so nothing is held
/// against that person.
#[test]
fn the_wrong_key_locks_nobody_out_before_a_figure_is_shown() {
    let mut screen = one_read();
    screen.key(Key::B);
    screen.name("KE");
    assert!(screen.says("First the gauge") && screen.settings_shown().is_empty());
    assert!(
        screen.says("Back to the passes"),
        "the way back is in sight"
    );
    screen.key(Key::Escape);
    assert!(screen.says("Load the tray") && screen.settings_shown().is_empty());
    screen.key(Key::B);
    screen.key(Key::Escape);
    assert!(screen.says("Load the tray"), "{:?}", screen.said());
    assert!(!kinds(&screen)[2..].contains(&"pass_begun".to_owned()));
    screen.key(Key::A);
    screen.key(Key::Escape);
    assert!(screen.says("Load the tray"), "{:?}", screen.said());
    screen.key(Key::A);
    screen.name("KE");
    screen.type_in("21,7");
    screen.type_in("19.0");
    assert!(screen.says("1 read again and found as planned"));
}

/// Once the gauge is sound figures are drawn: that is recorded before the first of them, whatever ends the program
/// then; and where it cannot be recorded none is drawn.
#[test]
fn who_comes_to_figures_counts_as_having_seen_them_from_the_first_frame() {
    let mut screen = one_read();
    screen.key(Key::B);
    screen.name("KE");
    screen.block_record(true);
    screen.type_in("21,7");
    assert!(screen.says("First the gauge") && screen.settings_shown().is_empty());
    screen.block_record(false);
    screen.key(Key::Enter);
    assert!(!screen.settings_shown().is_empty());
    assert_eq!(
        kinds(&screen)[kinds(&screen).len() - 2..],
        ["gauge_checked", "pass_begun"]
    );
    screen.cut_off();
    screen.press(Modifiers::COMMAND, View::Loading.key());
    screen.key(Key::A);
    screen.name("KE");
    assert!(screen.says("KE set stops of this case today"));
    // Checked again in the same pass, the gauge tells nobody anew.
    let mut screen = one_read();
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    screen.key(Key::G);
    screen.type_in("21,7");
    let begun = kinds(&screen)
        .into_iter()
        .filter(|kind| kind == "pass_begun");
    assert_eq!(begun.count(), 2);
}

/// What was read on a gauge that was found off is read again; the gauge itself was checked since and is sound.
#[test]
fn the_remedy_is_the_next_step_once_the_gauge_was_found_sound() {
    let mut screen = one_read();
    screen.key(Key::B);
    screen.name("MK");
    for figure in ["21.9", "21.9", "21,7"] {
        screen.type_in(figure);
    }
    screen.go_to(
        Key::ArrowRight,
        "at its next check: nobody knows since when",
    );
    assert!(
        !screen.says("Check the gauge with its check piece"),
        "{:?}",
        screen.said()
    );
    assert!(screen.says("The gauge was checked since and is sound. Read it again"));
    // Found off at another desk meanwhile, it is to be checked first.
    let checked = screen.recorded().into_iter().rev();
    let mut off = checked.filter(|kind| matches!(kind, EventKind::GaugeChecked { .. }));
    let off = off.nth(1).unwrap();
    screen.record_elsewhere(Some("room"), "OW", off);
    assert!(screen.looks_until(|screen| screen.says("Check the gauge with its check piece")));
    assert!(!screen.says("is sound. Read it again"));
}

/// The case of two molars with something else in it, for practice.
pub(super) fn changed(change: impl FnOnce(&mut serde_json::Value)) -> Screen {
    let mut case: serde_json::Value = serde_json::from_str(&text_of("two-molars")).unwrap();
    change(&mut case);
    Screen::with_case(STANDING, &case.to_string())
}

/// What carries no stop has no setting: it is named by its mark in the history, in what a change made wrong and where
/// readings are counted.
#[test]
fn a_drill_that_is_used_by_its_mark_is_named_by_it() {
    let mut screen = changed(|case| {
        let step = &mut case["sites"][1]["steps"][1];
        assert!(step.as_object_mut().unwrap().remove("stop").is_some());
    });
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    screen.go_to(Key::ArrowRight, "No stop: to the");
    screen.key(Key::Space);
    screen.key(Key::Space);
    let Some(EventKind::Placed { item, .. }) = screen.recorded().pop() else {
        panic!("{:?}", screen.recorded())
    };
    assert_eq!(item.stop, None);
    screen.press(Modifiers::COMMAND, View::History.key());
    let said = screen.said();
    let put = said.iter().find(|said| said.contains("Put Tip drill 2.57"));
    let put = put.unwrap();
    assert!(
        put.contains("for its mark at ") && !put.contains("set"),
        "{put}"
    );
    // Nor is it counted among the stops that are read twice.
    screen.press(Modifiers::COMMAND, View::Sheet.key());
    let mark = traywright_core::wording::mm(item.setting_mm);
    let missing = format!("Tip drill 2.57, {mark}");
    assert!(!screen.says(&missing), "{:?}", screen.said());
    screen.press(Modifiers::COMMAND, View::Loading.key());
    for _ in 0..3 {
        screen.save_elsewhere();
    }
    screen.disk_is_looked_at();
    let said = screen.said();
    let mut wrong = said.iter().filter(|said| said.contains("Tip drill 2.57"));
    let wrong = wrong.find(|said| said.contains("second molar") && said.contains("planned"));
    let wrong = wrong.unwrap();
    assert!(wrong.contains("its mark at "), "{wrong}");
    assert!(!wrong.contains("set"), "{wrong}");
    screen.key(Key::U);
    screen.press(Modifiers::COMMAND, View::History.key());
    let said = screen.said();
    assert!(
        !said
            .iter()
            .any(|said| said.contains("the stop of Tip drill")),
        "{said:?}"
    );
}

/// A site without its distance: none of its drills has a setting. What is counted says what, the tray is nowhere told
/// to be laid, and all is nowhere told to be read.
#[test]
fn nothing_is_told_as_whole_while_drills_have_no_setting() {
    let mut screen = changed(|case| {
        let site = case["sites"][1].as_object_mut().unwrap();
        assert!(site.remove("platform_to_sleeve").is_some());
    });
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    let mut read = Vec::new();
    for _ in 0..400 {
        if screen.says("What the gauge shows") {
            let range = screen.said().into_iter();
            let mut figure = range.filter_map(|one| {
                let range = one.strip_prefix("accepted ")?;
                Some(range.rsplit(' ').next()?.to_owned())
            });
            let figure = figure.next().unwrap();
            screen.type_in(&figure);
            read.push(figure);
        } else if screen.says("Left: 0 to set, 0 to place") && !screen.says("Beside the tray") {
            break;
        } else {
            screen.key(Key::Space);
        }
    }
    assert!(
        screen.says("Left: 0 to set, 0 to place"),
        "{:?}",
        screen.said()
    );
    for whole in ["The tray is laid", "The tray is loaded", "31 of 31"] {
        assert!(!screen.says(whole), "{whole}: {:?}", screen.said());
    }
    assert!(
        screen.says("Missing or not to be used: 4. "),
        "{:?}",
        screen.said()
    );
    screen.press(Modifiers::COMMAND, View::Sheet.key());
    assert!(screen.says("4 more have no figure"), "{:?}", screen.said());
    screen.press(Modifiers::COMMAND, View::Loading.key());
    screen.key(Key::T);
    screen.key(Key::T);
    screen.key(Key::A);
    screen.name("KE");
    screen.type_in("21,7");
    assert!(screen.says("KE reads alone"));
    for figure in read.iter().rev() {
        screen.type_in(figure);
    }
    let said = screen.said();
    // Each stands there twice: painted, and as what is read aloud.
    let blocked: std::collections::BTreeSet<&String> = said
        .iter()
        .filter(|one| one.contains("no figure, do not set"))
        .collect();
    assert_eq!(blocked.len(), 4, "{said:?}");
}
