//! What is in doubt, to be set anew or not to be used is told wherever somebody goes on from.

use super::beside_the_way::{changed, one_read};
use super::screen::{STANDING, Screen};
use egui::{Key, Modifiers};
use traywright::action::View;

/// Found off by MK and left: the choice of passes tells it and what is in doubt, also after a restart, until it is sound.
#[test]
fn a_gauge_found_off_and_what_is_in_doubt_stand_at_the_choice_of_passes() {
    let mut screen = one_read();
    screen.key(Key::B);
    screen.name("MK");
    for _ in 0..2 {
        screen.type_in("21.4");
    }
    assert!(screen.says("The gauge reads 0.3 mm too low"));
    screen.key(Key::Escape);
    for restarted in [false, true] {
        if restarted {
            screen.cut_off();
            screen.press(Modifiers::COMMAND, View::Loading.key());
        }
        assert!(
            screen.says("operates this program: sterile hands"),
            "{:?}",
            screen.said()
        );
        assert!(
            screen.says("The gauge was found off at its last check: it reads 0.3 mm too low"),
            "{restarted}: {:?}",
            screen.said()
        );
        assert!(screen.says("In doubt, to be read again: "));
    }
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21.7");
    screen.key(Key::T);
    screen.key(Key::T);
    assert!(!screen.says("The gauge was found off"));
    assert!(screen.says("In doubt, to be read again: "));
}

/// One drill was refused twice and set aside: nobody is told that nothing is to be read.
#[test]
fn a_drill_to_be_set_anew_is_told_where_nothing_else_is_read() {
    let mut screen = one_read();
    screen.key(Key::A);
    screen.name("KE");
    screen.type_in("21.7");
    for _ in 0..2 {
        screen.type_in("18.5");
    }
    assert!(
        screen.says("1 to be set and read anew"),
        "{:?}",
        screen.said()
    );
    screen.key(Key::E);
    screen.key(Key::A);
    screen.name("JH");
    screen.type_in("21.7");
    assert!(
        screen.says("1 to be set and read anew"),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("Nothing is to be read again"));
}

/// Its stop does not fit: the second reader is told so, and not that a figure is missing.
#[test]
fn what_does_not_fit_is_told_by_name_in_a_second_reading() {
    let mut screen = changed(|case| {
        for drill in case["kit"]["drills"].as_array_mut().unwrap() {
            if drill["id"] == "tip-257" {
                let to = drill["clamp"]["to_mm"].as_f64().unwrap();
                drill["clamp"]["from_mm"] = to.floor().into();
            }
        }
    });
    screen.key(Key::A);
    screen.name("KE");
    screen.type_in("21.7");
    assert!(screen.says("Tip drill 2.57"), "{:?}", screen.said());
    assert!(screen.says("does not fit"), "{:?}", screen.said());
    assert!(!screen.says("have no figure"));
    assert!(
        screen.settings_shown().is_empty(),
        "{:?}",
        screen.settings_shown()
    );
}

/// Something fell and nobody took that back: the list of what was set and read names it.
#[test]
fn a_fall_that_stands_is_in_the_record() {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    screen.key(Key::F);
    screen.key(Key::F);
    screen.key(Key::V);
    assert!(
        screen.says("dropped, reported by MK"),
        "{:?}",
        screen.said()
    );
}

/// The gauge adds to its check piece: what it should show is said before it is read and where it is asked back.
#[test]
fn what_the_gauge_should_show_of_its_piece_is_told_with_its_constant() {
    let mut screen = changed(|case| {
        for gauge in case["kit"]["gauges"].as_array_mut().unwrap() {
            gauge["constant_mm"] = 2.0.into();
        }
    });
    screen.key(Key::B);
    screen.name("MK");
    assert!(screen.says("It should show 23.7 mm"), "{:?}", screen.said());
    screen.type_in("23.4");
    assert!(
        screen.says("23.4 mm is not what the gauge should show"),
        "{:?}",
        screen.said()
    );
}
