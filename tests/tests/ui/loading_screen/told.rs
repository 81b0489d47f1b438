//! What the view tells: who is new, what is gone, what was passed over, what is done.

use super::legible::one_drill_for_two;
use super::screen::{STANDING, Screen, press_of};
use egui::{Key, Modifiers, vec2};
use traywright::action::View;
use traywright_core::sign::EventKind;

/// The team of the case is RT, OW and KE. Enter that is held says nothing twice.
#[test]
fn new_initials_are_asked_back_with_those_that_are_known() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::A);
    screen.type_in("eCD");
    assert!(
        screen.says("New here: eCD (known: RT, OW, KE)."),
        "{:?}",
        screen.said()
    );
    assert!(screen.recorded().is_empty());
    // The key is down, and stays it.
    let down = || {
        press_of(Key::Enter, Modifiers::NONE)
            .into_iter()
            .take(1)
            .collect()
    };
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::A);
    screen.write("eCD");
    for _ in 0..3 {
        screen.frames(down());
    }
    assert!(screen.says("New here: eCD ("));
    assert!(screen.recorded().is_empty(), "Enter was held");
    screen.frames(press_of(Key::Enter, Modifiers::NONE).split_off(1));
    screen.key(Key::Enter);
    // Begun once, and ended since nothing is there to be read.
    let kinds = screen.recorded();
    assert!(
        matches!(
            kinds[..],
            [EventKind::PassBegun { .. }, EventKind::PassEnded { .. }]
        ),
        "{kinds:?}"
    );
    assert!(screen.says("eCD reads alone"));
    // Nearly those of somebody who is known: the words say whose.
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::A);
    screen.type_in("KE\u{e9}");
    assert!(
        screen.says("New here: KE\u{e9}, close to KE: only if KE\u{e9} is another person than KE"),
        "{:?}",
        screen.said()
    );
    assert!(screen.recorded().is_empty());
    // Known ones cost no more than Enter.
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::B);
    screen.type_in("ow");
    assert!(screen.says("First the gauge"));
}

#[test]
fn what_fell_without_a_spare_is_missing_at_its_row_in_the_list_and_at_the_end() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::with_case(size, &one_drill_for_two());
        screen.begin();
        screen.go_to(Key::ArrowLeft, "To be re-set during surgery from 20.7 mm");
        screen.key(Key::F);
        screen.key(Key::F);
        assert!(screen.says("There is no spare in stock."));
        assert!(screen.says("None left") && !screen.says("Take it"));
        assert!(screen.says("It is missing from the tray."));
        let before = screen.recorded().len();
        screen.key(Key::F);
        screen.key(Key::F);
        assert_eq!(screen.recorded().len(), before, "it falls once");
        screen.key(Key::L);
        assert!(screen.says("dropped, none left") && screen.says("Tip drill 2.57: dropped"));
        screen.key(Key::L);
        assert!(screen.says("Missing or not to be used: 2. Tip drill 2.57: dropped, none left"));
    }
}

/// Before it is begun: who it takes, and that the setting before it was not read twice.
#[test]
fn a_setting_that_was_not_read_twice_is_passed_over_only_in_so_many_words() {
    let mut screen = Screen::with_case(STANDING, &one_drill_for_two());
    screen.key(Key::S);
    screen.name("OW");
    screen.type_in("21,7");
    screen.go_to(Key::ArrowRight, "To be re-set during surgery from 20.7 mm");
    screen.set();
    screen.type_in("20.7");
    screen.key(Key::Space);
    screen.go_to(Key::ArrowRight, "Not now: in surgery");
    assert!(screen.says("It takes a second sterile person"));
    assert!(screen.says("At 20.7 mm, before it, it was not read twice."));
    screen.key(Key::O);
    assert!(screen.says("it is recorded as passed over, and a second sterile person"));
    screen.key(Key::O);
    let Some(EventKind::Reset { passed_over, .. }) = screen.recorded().pop() else {
        panic!("it is recorded")
    };
    assert!(passed_over.is_some());
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.key(Key::V);
    assert!(
        screen.says("set 20.7 mm, passed over by OW, not read twice"),
        "{:?}",
        screen.said()
    );
    screen.key(Key::V);
    screen.key(Key::L);
    assert!(screen.says("passed over, not read twice"));
    screen.key(Key::L);
    screen.go_to(Key::ArrowRight, "Its stop was re-set since");
    assert!(screen.says("Passed over by OW"));
}

/// Whoever begins to read what was read twice already is told so, and no gauge is asked for.
#[test]
fn a_pass_with_nothing_to_read_says_which_nothing_it_is() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::A);
    screen.name("KE");
    assert!(screen.says("First the stops are set and read."));
    assert!(!screen.says("First the gauge"));
    let mut screen = Screen::new(STANDING, "one-figure");
    let set = set_all(&mut screen, "set and read once. Press T");
    screen.begin_again("KE");
    for figure in set.iter().rev() {
        screen.type_in(figure);
    }
    screen.key(Key::E);
    screen.key(Key::A);
    screen.name("KE");
    assert!(
        screen.says("All that can be read here are read twice.") && screen.says("1 sealed: set"),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("First the gauge"));
}

/// Sets, reads and lays everything up to these words; the figures that were read, one after the other.
fn set_all(screen: &mut Screen, until: &str) -> Vec<String> {
    screen.begin();
    let mut set = Vec::new();
    while !screen.says(until) {
        if screen.says("What the gauge shows") {
            let accepted = screen.said().iter().find_map(|one| {
                let range = one.strip_prefix("accepted ")?;
                Some(range.rsplit(' ').next()?.to_owned())
            });
            let figure = accepted.unwrap();
            screen.type_in(&figure);
            set.push(figure);
        } else {
            screen.key(Key::Space);
        }
    }
    set
}

/// Asked whether another pass is wanted, who loads still sees what is asked for beside the tray.
#[test]
fn what_is_asked_for_beside_the_tray_stays_in_sight_under_a_question() {
    let mut screen = Screen::new(vec2(1280.0, 800.0), "one-figure");
    set_all(&mut screen, "Beside the tray");
    screen.key(Key::T);
    let question = screen.place_of("Another pass or person?");
    for words in ["Beside the tray", "1 of "] {
        let asked = screen.place_of(words);
        assert!(
            asked.bottom() <= question.top(),
            "{words}: {asked:?} {question:?}"
        );
    }
}

/// What was asked back at the check piece stands in the history beside the check, sound or not.
#[test]
fn what_was_asked_back_at_the_check_piece_is_told() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21.9");
    assert!(screen.says("21.9 mm is not what the gauge should show"));
    screen.type_in("21.7");
    screen.press(Modifiers::COMMAND, View::History.key());
    assert!(
        screen.says("read 21.7 mm. Entered before and asked back: 21.9 mm"),
        "{:?}",
        screen.said()
    );
}

/// A fall that was taken back stands in the record of what was set and read, with both who said so.
#[test]
fn a_fall_that_was_taken_back_has_a_line_in_the_record() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    for key in [Key::F, Key::F, Key::N, Key::N] {
        screen.key(key);
    }
    screen.go_to(Key::V, "What was set and read");
    let line = "Tip drill 2.57 no. 2: reported dropped by MK, not dropped after all by MK";
    assert!(screen.says(line), "{:?}", screen.said());
}

/// A wrapping that is open is not closed again: its key is pressed twice.
#[test]
fn one_press_opens_no_wrapping() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.go_to(Key::ArrowRight, "It stays sealed. Open it only when");
    let opened = |screen: &Screen| {
        let mut all = screen.recorded().into_iter();
        all.any(|kind| matches!(kind, EventKind::Opened { .. }))
    };
    screen.key(Key::O);
    assert!(!opened(&screen) && screen.says("Press O again"));
    screen.key(Key::O);
    assert!(opened(&screen));
}

/// The figure stands until the drill is in its slot: what is placed can be held against it.
#[test]
fn the_figure_is_in_sight_as_the_drill_is_placed() {
    for size in [STANDING, vec2(1280.0, 800.0), vec2(1024.0, 600.0)] {
        let mut screen = Screen::new(size, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("19.0");
        assert!(screen.says("Place it in Crane 8"), "{:?}", screen.said());
        assert!(
            screen.capitals("19.1") > 20.0,
            "{size}: {:?}",
            screen.said()
        );
    }
}

/// What does not fit has no figure, also where its later setting is begun: it is passed over, and nothing of it is read.
#[test]
fn no_figure_of_what_does_not_fit_stands_beside_the_later_setting() {
    let mut case: serde_json::Value = serde_json::from_str(&one_drill_for_two()).unwrap();
    for drill in case["kit"]["drills"].as_array_mut().unwrap() {
        if drill["id"] == "tip-257" {
            drill["clamp"]["to_mm"] = 24.0.into();
        }
    }
    let mut screen = Screen::with_case(STANDING, &case.to_string());
    screen.key(Key::S);
    screen.name("OW");
    screen.type_in("21,7");
    // Others are set to as much: only what is told of the tip drill is looked at.
    let told = |screen: &Screen| {
        let said = screen.said().into_iter();
        let of = |one: &String| one.contains("before it") || one.contains("passed over");
        said.filter(of).collect::<Vec<_>>().join(" ")
    };
    screen.go_to(Key::ArrowRight, "Not now: in surgery");
    for words in ["At 20.7", "from 20.7", "to 20.7"] {
        assert!(!screen.says(words), "{words}: {:?}", screen.said());
    }
    assert!(!screen.says("Read that first"));
    assert!(
        screen.says("does not fit") && screen.says("Press O: it is recorded as passed over"),
        "{:?}",
        screen.said()
    );
    screen.key(Key::O);
    assert!(!told(&screen).contains("read twice"), "{}", told(&screen));
    screen.key(Key::O);
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.key(Key::V);
    assert!(
        told(&screen).contains("passed over by OW"),
        "{:?}",
        screen.said()
    );
    assert!(!told(&screen).contains("20.7"), "{}", told(&screen));
}
