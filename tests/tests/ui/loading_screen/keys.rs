//! Loading by keys: what is recorded, asked and listed on the way.

use super::screen::{STANDING, Screen, mm, press_of, text_of};
use egui::{Event, Key, Modifiers, vec2};
use std::time::Duration;
use traywright::action::View;
use traywright_core::sign::{EventKind, HandStep, Pass, PassEnd, Turn};

#[test]
fn a_drill_is_loaded_by_keys_and_recorded_beside_the_case() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.begin_again("JH");
    screen.type_in("19,1");
    screen.key(Key::E);
    let kinds = screen.recorded();
    let [
        EventKind::GaugeChecked { .. },
        EventKind::PassBegun {
            pass: Pass::Setting,
            ..
        },
        EventKind::Handled {
            step: HandStep::Set,
            ..
        },
        EventKind::Handled {
            step: HandStep::Locked,
            ..
        },
        EventKind::Handled {
            step: HandStep::Tugged,
            ..
        },
        EventKind::Reading(first),
        EventKind::Placed { slot, .. },
        EventKind::PassBegun {
            pass: Pass::Blind, ..
        },
        EventKind::GaugeChecked { .. },
        EventKind::Reading(second),
        EventKind::PassEnded {
            end: PassEnd::Unseen,
            ..
        },
    ] = &kinds[..]
    else {
        panic!("{kinds:?}")
    };
    assert_eq!((first.turn, second.turn), (Turn::First, Turn::Second));
    assert_eq!((first.value_mm, second.value_mm), (mm("19.1"), mm("19.1")));
    assert_eq!(slot, "Crane 8");
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    assert!(screen.says("1 of 31 in the tray"));
}

/// A plan for a patient that nobody approved says so on every page, and its readings verify
/// nothing; the open findings of a site are beside it.
#[test]
fn a_plan_that_is_not_approved_says_so_all_along() {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    // Before anybody begins.
    assert!(screen.says("Set and read"));
    assert!(screen.says("No approval of this plan holds: nothing that is read counts"));
    assert!(screen.says("The plan itself: 1 short, 1 unknown"));
    screen.begin();
    assert!(screen.says("NOT APPROVED") && screen.says("The plan itself: 1 short, 1 unknown"));
    assert!(screen.says("site: unknown") && !screen.says("DEMONSTRATION"));
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.begin_again("JH");
    assert!(screen.says("NOT APPROVED"));
    screen.type_in("19.1");
    assert!(screen.says("NOT APPROVED"));
    screen.key(Key::E);
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    screen.go_to(Key::ArrowRight, "is in Crane 8");
    assert!(screen.says("NOT APPROVED"));
    assert!(
        screen.says("nothing counts as verified"),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("Verified:"));
}

/// The same of an invented case, in words of practice.
#[test]
fn a_demonstration_says_at_the_start_what_is_open_and_that_nobody_approved_it() {
    let screen = Screen::new(STANDING, "two-molars");
    assert!(screen.says("Set and read"));
    assert!(screen.says(
        "For practice: this plan is not approved for a patient, and nothing that is read counts."
    ));
    assert!(
        screen.says("The plan itself: 1 short"),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("No approval of this plan holds"));
}

/// What another desk saved is a step that can be undone, but not from where stops are set by it.
#[test]
fn no_step_of_the_plan_is_taken_back_while_the_tray_is_loaded() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.save_elsewhere();
    screen.key(Key::Escape);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    assert!(screen.says("STOP"));
    let plan = screen.program.document().unwrap().case().fingerprint();
    for modifiers in [Modifiers::COMMAND, Modifiers::COMMAND | Modifiers::SHIFT] {
        screen.press(modifiers, Key::Z);
        assert_eq!(
            screen.program.document().unwrap().case().fingerprint(),
            plan
        );
    }
    assert!(screen.program.document().unwrap().undo_name().is_some());
}

#[test]
fn a_case_that_lies_in_no_file_is_saved_first() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("none.json");
    let mut screen = Screen::empty(STANDING, folder, file);
    let name = traywright_core::text::Texts::english().get("demo-two-molars", &[]);
    screen.click(&name);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    assert!(screen.says("Save it first") && screen.says("Save as…"));
    screen.key(Key::B);
    assert!(!screen.says("Initials"));
}

#[test]
fn a_plan_saved_elsewhere_stops_the_loading_until_it_was_read() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.read_again(&["19.1"]);
    screen.save_elsewhere();
    // Coming back to the view looks at the files at once; otherwise the watch wakes it.
    screen.key(Key::Escape);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    let wrong = "Tip drill 2.57 for lower right second molar (47) in Crane 8: set to 19.1 mm, now planned at 18.6 mm";
    assert!(
        screen.says("STOP") && screen.says(wrong),
        "{:?}",
        screen.said()
    );
    for key in [Key::Space, Key::Enter, Key::ArrowRight, Key::R] {
        screen.key(key);
        assert!(screen.says("STOP"), "{key:?}");
    }
    // It is said to be in a hand: from then on it lies nowhere, and nothing read before counts.
    assert!(screen.says("in a hand, and its stop loosened?"));
    screen.key(Key::Y);
    assert!(screen.says("STOP"), "{:?}", screen.said());
    assert!(!screen.says(wrong) && screen.says("All of it was taken."));
    let noted = screen.recorded();
    let [
        ..,
        EventKind::Reset { to: None, .. },
        EventKind::ThingPlaced { slot: None, .. },
    ] = &noted[..]
    else {
        panic!("{noted:?}")
    };
    screen.key(Key::U);
    assert!(!screen.says("STOP") && screen.says("0 of 31 in the tray"));
    let noted = screen.recorded();
    assert!(
        matches!(noted.last(), Some(EventKind::Note { .. })),
        "{noted:?}"
    );
}

/// A plan that only this window's memory holds is no plan to load by: it is saved, or undone, first.
#[test]
fn an_unsaved_change_stops_the_loading_until_it_is_saved() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.save_elsewhere();
    screen.disk_is_looked_at();
    screen.key(Key::U);
    assert!(!screen.says("STOP"));
    // At the desk what the other one saved is taken back.
    screen.key(Key::Escape);
    screen.press(Modifiers::COMMAND, Key::Z);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    assert!(screen.says("STOP") && screen.says("The change is not saved yet."));
    // The way to undo it is in sight.
    assert!(screen.says("or exit and undo it there"));
    let exit = |(name, _): &(String, _)| name.starts_with("Exit");
    assert!(screen.buttons().iter().any(exit), "{:?}", screen.buttons());
    let before = screen.recorded().len();
    screen.key(Key::U);
    screen.key(Key::Space);
    assert!(screen.says("STOP") && !screen.says("Read. Continue"));
    assert_eq!(screen.recorded().len(), before);
    screen.press(Modifiers::COMMAND, Key::S);
    assert!(screen.says("STOP") && screen.says("Read. Continue"));
    screen.key(Key::U);
    assert!(!screen.says("STOP"), "{:?}", screen.said());
}

#[test]
fn a_key_that_takes_readings_away_is_pressed_twice() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    let before = screen.recorded().len();
    screen.key(Key::F);
    assert!(screen.says("Press F again"));
    screen.key(Key::ArrowRight);
    screen.key(Key::F);
    assert_eq!(
        screen.recorded().len(),
        before,
        "another key between disarms it"
    );
    screen.key(Key::F);
    assert!(matches!(
        screen.recorded().last(),
        Some(EventKind::Dropped { .. })
    ));
    assert!(screen.says("dropped: set it aside"));
}

/// A key that bounces, and one that is pressed again long after, is no second press. 0.35 s and 10 s: common practice,
/// no source.
#[test]
fn a_second_press_at_once_or_long_after_does_not_act() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    let before = screen.recorded().len();
    screen.key(Key::F);
    for _ in 0..3 {
        screen.at_once(press_of(Key::F, Modifiers::NONE));
    }
    assert!(screen.says("Press F again"));
    assert_eq!(screen.recorded().len(), before, "it bounced");
    assert!(screen.repaint <= Duration::from_secs(10));
    for _ in 0..11 {
        screen.frames(Vec::new());
    }
    assert!(!screen.says("Press F again"), "it is forgotten");
    screen.key(Key::F);
    assert_eq!(screen.recorded().len(), before, "long after");
    assert!(screen.says("Press F again"));
    screen.key(Key::F);
    let fell = screen.recorded().pop();
    assert!(matches!(fell, Some(EventKind::Dropped { .. })), "{fell:?}");
}

/// The same in a pass without figures: a bounced Escape does not go to where figures stand.
#[test]
fn a_bounced_key_does_not_end_a_pass_without_figures() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.begin_again("JH");
    let before = screen.recorded().len();
    screen.key(Key::Escape);
    screen.at_once(press_of(Key::Escape, Modifiers::NONE));
    assert!(screen.says("Press Esc again") && screen.says("JH reads alone"));
    assert_eq!(screen.recorded().len(), before);
    screen.key(Key::Escape);
    assert!(!screen.says("JH reads alone"));
}

/// At the step at which it matters the other setting of the same drill is in sight, whole.
#[test]
fn a_look_alike_is_in_sight_while_the_stop_is_set() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::new(size, "two-molars");
        screen.begin();
        screen.is_left_of_tray(&screen.place_of("Look-alikes"), f32::INFINITY);
        screen.key(Key::Space);
        let foot = screen.place_of("Left: ").top();
        screen.is_left_of_tray(&screen.place_of("Look-alikes"), foot);
    }
}

/// The bench's session goes on in the sterile field without leaving the program.
#[test]
fn the_stage_is_chosen_anew_by_a_key() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    assert!(screen.capitals("Bench") >= 31.0);
    screen.key(Key::T);
    assert!(screen.says("Press T again"));
    screen.key(Key::T);
    screen.key(Key::S);
    screen.name("MK");
    screen.type_in("21,7");
    assert!(screen.capitals("Sterile field") >= 31.0);
    screen.key(Key::ArrowRight);
    assert!(screen.says("Place it in"));
}

/// Undoing in the plan, leaving and looking elsewhere are other keys too.
#[test]
fn what_is_armed_is_disarmed_by_any_other_key() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    let before = screen.recorded().len();
    let leave = |screen: &mut Screen| {
        screen.key(Key::Escape);
        screen.press(Modifiers::COMMAND, View::Loading.key());
    };
    let undo = |screen: &mut Screen| screen.press(Modifiers::COMMAND, Key::Z);
    let list = |screen: &mut Screen| {
        screen.key(Key::L);
        screen.key(Key::L);
    };
    for other in [&leave as &dyn Fn(&mut Screen), &undo, &list] {
        screen.key(Key::F);
        assert!(screen.says("Press F again") && screen.says("Any other key: no."));
        other(&mut screen);
        assert!(!screen.says("Press F again"));
    }
    screen.key(Key::F);
    assert_eq!(screen.recorded().len(), before);
}

/// A refused reading is listed among what was read, marked.
#[test]
fn a_refused_reading_is_listed_and_marked() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.2");
    screen.key(Key::V);
    assert!(
        screen.says("not accepted: 19.2 mm by MK"),
        "{:?}",
        screen.said()
    );
}

/// The record has its figures, with who read what.
#[test]
fn the_list_of_what_was_read_has_its_figures() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.key(Key::V);
    assert!(screen.says("Nothing was read at this stage yet."));
    screen.key(Key::V);
    screen.set();
    screen.type_in("19.0");
    screen.key(Key::Space);
    screen.read_again(&["19.1"]);
    screen.key(Key::V);
    let row = "5. Tip drill 2.57, slot Crane 8: set 19.1 mm, the gauge is to show 19.1 mm; \
               read 19.0 mm by MK; read 19.1 mm by JH";
    assert!(screen.says(row), "{:?}", screen.said());
}

/// The second fall of a drill of which one more was in stock is not told that there is one.
#[test]
fn what_fell_is_counted_against_the_stock() {
    let mut screen = Screen::with_case(STANDING, &text_of("two-molars"));
    screen.begin();
    let mut told = Vec::new();
    for _ in 0..8 {
        if screen.says("None left") {
            break;
        }
        screen.key(Key::F);
        screen.key(Key::F);
        let said = screen.said();
        let count = |said: &String| {
            let (_, rest) = said.split_once("set it aside. ")?;
            Some(
                rest.split_once(" more in stock")
                    .map_or(0, |(n, _)| n.parse().unwrap()),
            )
        };
        told.push(said.iter().find_map(count).unwrap());
    }
    let first: u32 = told[0];
    // Two are wanted on the tray: the last that fell was the other one's.
    let expected: Vec<u32> = (0..first + 2)
        .map(|fell| first.saturating_sub(fell))
        .collect();
    assert_eq!(told, expected);
}

/// Words that are needed at a glance are there from the start: slot, sleeve, the stop of a sealed
/// drill, the spares when something falls.
#[test]
fn slot_sleeve_stop_and_spares_are_named() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    for words in [
        "→ Crane 8",
        "Drop it through Wide sleeve for 2.57 (letter A, half dot, moss), slot Finch 2",
    ] {
        assert!(screen.says(words), "{words}: {:?}", screen.said());
    }
    screen.key(Key::F);
    screen.key(Key::F);
    assert!(screen.says("Check its stop") && !screen.says("Its spare:"));
    let pilot =
        |screen: &Screen| screen.says("Pilot drill 2.13") && screen.says("It stays sealed.");
    // Its spare is laid.
    screen.go_to(Key::ArrowRight, "→ Martin 9");
    screen.key(Key::Space);
    screen.key(Key::Space);
    for _ in 0..60 {
        if pilot(&screen) {
            break;
        }
        screen.key(Key::ArrowLeft);
    }
    for _ in 0..20 {
        if pilot(&screen) {
            break;
        }
        screen.key(Key::ArrowRight);
    }
    assert!(screen.says(
        "Its stop goes with it in the same slot, not set yet: Stop for 2.13 (letter P, slate)."
    ));
    screen.key(Key::F);
    screen.key(Key::F);
    let spare = "Its spare: Spare pilot drill 2.13, sealed, slot Martin 9.";
    assert!(screen.says(spare), "{:?}", screen.said());
    // It was taken: where another falls there is none.
    screen.key(Key::F);
    screen.key(Key::F);
    assert!(screen.says("Pilot drill 2.13") && !screen.says("Its spare:"));
}

/// Two presses in one burst, by key or by pointer, are one: the second would confirm what nobody has
/// looked at.
#[test]
fn a_double_press_does_not_confirm_the_next_thing() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    assert!(screen.says("Take it"));
    let space = || press_of(Key::Space, Modifiers::NONE);
    screen.frames([space(), space(), space()].concat());
    assert!(screen.says("Set the stop on the gauge"));
    for _ in 0..5 {
        screen.at_once(space());
    }
    assert!(screen.says("Set the stop on the gauge"));
    screen.frames(space());
    assert!(screen.says("Lock the stop"));
    // A double click, the pointer where it was.
    let mut buttons = screen.buttons().into_iter();
    let (_, done) = buttons.rfind(|(name, _)| name == "Done").unwrap();
    let click = |pressed| Event::PointerButton {
        pos: done.center(),
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    screen.frames(vec![Event::PointerMoved(done.center())]);
    screen.frames(vec![click(true)]);
    screen.at_once(vec![click(false)]);
    screen.at_once(vec![click(true)]);
    screen.at_once(vec![click(false)]);
    assert!(screen.says("Tug the stop"));
    screen.frames(space());
    assert!(screen.says("Read the gauge"));
}

/// A slow frame brings several presses at once: what comes after the first that acts was pressed before anybody
/// saw what it did. Signs that are typed act on nothing by themselves.
#[test]
fn of_the_presses_of_one_frame_the_first_that_acts_is_the_last() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    let frame = |keys: &[Key]| {
        let presses = keys.iter().map(|key| press_of(*key, Modifiers::NONE));
        presses.collect::<Vec<_>>().concat()
    };
    let before = screen.recorded().len();
    // To the next thing and taken, to the next and fallen, to the list and past another thing.
    screen.frames(frame(&[Key::ArrowRight, Key::Space]));
    assert!(screen.says("Take it"), "{:?}", screen.said());
    screen.frames(frame(&[Key::ArrowLeft, Key::F]));
    assert!(!screen.says("Press F again"));
    assert!(screen.says("Take it") && screen.says("Crane 8"));
    screen.frames(frame(&[Key::Space, Key::G]));
    assert!(screen.says("Set the stop on the gauge"));
    assert_eq!(screen.recorded().len(), before);
    for _ in 0..3 {
        screen.key(Key::Space);
    }
    // A figure typed and accepted within a frame is a whole one.
    let signs = ["1", "9", ",", "1"].map(|sign| Event::Text(sign.to_owned()));
    screen.frames([&signs[..], &frame(&[Key::Enter, Key::Space])].concat());
    let Some(EventKind::Reading(reading)) = screen.recorded().pop() else {
        panic!("{:?}", screen.recorded())
    };
    assert_eq!(reading.value_mm, mm("19.1"));
    assert!(screen.says("Place it in"));
}

#[test]
fn the_window_sleeps_until_something_happens() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.frames(Vec::new());
    assert!(
        screen.repaint >= Duration::from_secs(10),
        "{:?}",
        screen.repaint
    );
}

/// Before anything is loaded there is neither list nor record to go to, and none waits behind the gauge's check.
#[test]
fn at_the_check_of_the_gauge_the_keys_of_list_and_record_do_nothing() {
    for key in [Key::L, Key::V] {
        let mut screen = Screen::new(STANDING, "two-molars");
        screen.key(Key::B);
        screen.name("MK");
        screen.key(key);
        screen.type_in("21,7");
        assert!(!screen.says("Everything for the tray"), "{key:?}");
        assert!(!screen.says("What was set and read"), "{key:?}");
        assert!(screen.says("0 of 31"), "{key:?}: {:?}", screen.said());
    }
}

/// With list or record in front the thing in hand is not on the screen: no key acts on it, the first brings it back, and
/// a row of the list opens its thing.
#[test]
fn nothing_is_done_with_a_thing_that_is_not_on_the_screen() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    let before = screen.recorded().len();
    let title = [
        (Key::L, "Everything for the tray"),
        (Key::V, "What was set and read"),
    ];
    for (face, title) in title {
        for key in [Key::Space, Key::F, Key::O, Key::R, Key::N] {
            screen.key(face);
            assert!(screen.says(title), "{title}");
            screen.key(key);
            assert!(!screen.says(title), "{title} {key:?}");
            assert!(!screen.says("Press F again"), "{title}");
            assert_eq!(screen.recorded().len(), before, "{title} {key:?}");
        }
    }
    screen.key(Key::L);
    let said = screen.said();
    let row = said
        .iter()
        .find(|one| one.contains(". Wide sleeve for 2.57"));
    screen.click(row.unwrap());
    assert!(!screen.says("Everything for the tray"));
    assert!(screen.says("Wide sleeve for 2.57"));
}
