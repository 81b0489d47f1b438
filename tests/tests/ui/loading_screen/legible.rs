//! What stands in the window is whole, large enough and where it belongs, and what must not be seen is not.

use super::screen::{STANDING, Screen, mm, text_of};
use egui::{Event, Key, Modifiers, Rect, pos2, vec2};
use traywright::action::View;
use traywright_core::sign::{EventKind, PassEnd};

/// Two drills set and read; then the other person's pass from its first screen to its last.
#[test]
fn in_a_second_reading_no_setting_and_no_first_reading_stands_anywhere() {
    for (size, patient) in [(STANDING, false), (vec2(1280.0, 800.0), true)] {
        let mut screen = if patient {
            Screen::for_a_patient(size, "two-molars")
        } else {
            Screen::new(size, "two-molars")
        };
        screen.begin();
        screen.set();
        screen.type_in("19.0");
        assert!(
            screen.says("19.0") || screen.says("19.1"),
            "in sight of who sets"
        );
        screen.key(Key::Space);
        screen.set();
        let shown = screen.settings_shown();
        assert!(!shown.is_empty(), "the check finds what is shown");
        screen.type_in("20.7");
        screen.key(Key::Space);
        screen.key(Key::T);
        screen.key(Key::T);
        let mut moments = vec![("passes", screen.settings_shown())];
        screen.key(Key::A);
        moments.push(("initials", screen.settings_shown()));
        for same in ["mk", "Maria Krone"] {
            screen.name(same);
            assert!(screen.says("with their figures in sight"), "{same}");
        }
        screen.name("JH");
        moments.push(("gauge", screen.settings_shown()));
        screen.type_in("21,7");
        moments.push(("reading", screen.settings_shown()));
        assert!(
            screen.says("0 of 2 found as planned"),
            "{:?}",
            screen.said()
        );
        screen.type_in("20");
        moments.push(("mistyped", screen.settings_shown()));
        assert!(screen.says("20: mistyped, and not recorded"));
        screen.type_in("20.3");
        moments.push(("refused", screen.settings_shown()));
        assert!(
            screen.says("20.3 mm is not accepted"),
            "what was typed is told"
        );
        for key in [
            Key::L,
            Key::V,
            Key::R,
            Key::P,
            Key::O,
            Key::Space,
            Key::T,
            Key::Escape,
        ] {
            screen.key(key);
            moments.push(("another key", screen.settings_shown()));
            assert!(screen.says("Read again · bench"), "{key:?}");
        }
        screen.press(Modifiers::NONE, Key::F1);
        moments.push(("help", screen.settings_shown()));
        screen.key(Key::Escape);
        screen.press(Modifiers::COMMAND, Key::Z);
        moments.push(("undo", screen.settings_shown()));
        screen.type_in("20.7");
        moments.push(("the next", screen.settings_shown()));
        screen.type_in("18.9");
        screen.type_in("18.8");
        moments.push(("set aside", screen.settings_shown()));
        assert!(screen.says("Set it aside, not back on the tray"));
        let off = |kind: &EventKind| matches!(kind, EventKind::ThingPlaced { slot: None, .. });
        assert!(screen.recorded().iter().any(off), "it lies nowhere now");
        assert!(screen.says("it is to be re-set") && screen.says("1 of 2 found as planned"));
        assert!(
            screen.says("1 to be set and read anew"),
            "{:?}",
            screen.said()
        );
        for (moment, shown) in moments {
            assert!(shown.is_empty(), "{moment}: {shown:?}");
        }
        screen.key(Key::E);
        // One is to be set and read anew, perhaps by the same reader: the record has no end of it yet.
        let ended = |kind: &EventKind| matches!(kind, EventKind::PassEnded { .. });
        assert!(!screen.recorded().iter().any(ended));
        assert_eq!(
            screen.settings_shown(),
            Vec::<String>::new(),
            "passes again"
        );
    }
}

/// A key that is held is pressed once: it asks, and leaves nothing.
#[test]
fn a_held_escape_leaves_no_second_reading() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.begin_again("JH");
    let escape = |pressed| Event::Key {
        key: Key::Escape,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: Modifiers::NONE,
    };
    // The system repeats a key that is held, without a release between.
    for _ in 0..4 {
        screen.frames(vec![escape(true)]);
        assert!(screen.says("Press Esc again"));
    }
    screen.frames(vec![escape(false)]);
    screen.key(Key::Escape);
    assert!(!screen.says("0 of 1 found as planned"));
}

/// Whoever leaves it for the desk ends it, by whatever way, and reads no more today.
#[test]
fn whoever_leaves_a_second_reading_for_the_desk_ends_it_and_cannot_begin_another() {
    let leave = |screen: &mut Screen| {
        screen.key(Key::Escape);
        assert!(screen.says("Press Esc again"));
        screen.key(Key::Escape);
    };
    // A slip of the hand is none: the keys of the desk leave nothing.
    let elsewhere = |screen: &mut Screen| {
        for key in [View::Site.key(), View::History.key(), Key::W] {
            screen.press(Modifiers::COMMAND, key);
            assert!(screen.says("Esc, pressed twice, leaves them"));
            assert!(screen.says("0 of 1 found as planned"));
        }
        leave(screen);
    };
    // Ended before all is read, and then away.
    let ended = |screen: &mut Screen| {
        screen.key(Key::E);
        screen.press(Modifiers::COMMAND, View::Tray.key());
    };
    for way in [&leave as &dyn Fn(&mut Screen), &elsewhere, &ended] {
        let mut screen = Screen::new(STANDING, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("19.1");
        screen.key(Key::Space);
        screen.begin_again("JH");
        assert!(screen.says("0 of 1 found as planned"));
        way(&mut screen);
        let last = screen.recorded().pop().unwrap();
        assert!(
            matches!(
                last,
                EventKind::PassEnded {
                    end: PassEnd::Left,
                    ..
                }
            ),
            "{last:?}"
        );
        screen.press(Modifiers::COMMAND, View::Loading.key());
        screen.key(Key::A);
        screen.name("JH");
        assert!(screen.says("went from a second reading to where figures stand"));
        screen.name("OW");
        assert!(screen.says("First the gauge"));
    }
}

/// A change of the plan ends it, and does not say which setting is another.
#[test]
fn a_plan_saved_elsewhere_ends_a_second_reading_without_a_figure() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.begin_again("JH");
    screen.save_elsewhere();
    screen.disk_is_looked_at();
    assert!(
        screen.says("STOP") && screen.says("This pass ends here"),
        "{:?}",
        screen.said()
    );
    assert_eq!(screen.settings_shown(), Vec::<String>::new());
    assert!(!screen.says("19.1") && !screen.says("18.6"));
    screen.key(Key::E);
    // What is wrong now is told to who sets next.
    assert_eq!(screen.settings_shown(), Vec::<String>::new());
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    assert!(screen.says("STOP") && screen.says("now planned at 18.6 mm"));
    let recorded = screen.recorded();
    let [
        ..,
        EventKind::GaugeChecked { .. },
        EventKind::PassEnded {
            end: PassEnd::Unseen,
            ..
        },
        EventKind::PassBegun { .. },
        EventKind::Told { .. },
    ] = &recorded[..]
    else {
        panic!("{recorded:?}")
    };
    screen.key(Key::U);
    let recorded = screen.recorded();
    let note = recorded.iter().rev().find_map(|kind| match kind {
        EventKind::Note { text } => Some(text),
        _ => None,
    });
    let text = note.expect("it is recorded");
    assert!(text.contains("now planned at 18.6 mm"), "{text}");
}

/// One tip drill 2.57 for two settings: 20.7 at the first molar, then 19.1 at the second.
pub(super) fn one_drill_for_two() -> String {
    let mut case: serde_json::Value = serde_json::from_str(&text_of("two-molars")).unwrap();
    for drill in case["kit"]["drills"].as_array_mut().unwrap() {
        if drill["id"] == "tip-257" {
            drill["quantity"] = 1.into();
        }
    }
    case.to_string()
}

#[test]
fn what_is_set_anew_in_surgery_is_told_at_its_drill_and_read_blind_when_it_is_made() {
    let mut screen = Screen::with_case(STANDING, &one_drill_for_two());
    screen.key(Key::S);
    screen.name("MK");
    screen.type_in("21,7");
    // At the drill it is told, and only the first setting is asked for.
    screen.go_to(
        Key::ArrowRight,
        "To be re-set during surgery from 20.7 mm to 19.1 mm",
    );
    assert!(screen.says("Tip drill 2.57") && screen.says("for lower right first molar (46)"));
    screen.set();
    screen.type_in("20.7");
    screen.key(Key::Space);
    screen.go_to(Key::ArrowRight, "Not now: in surgery");
    assert!(screen.says("Re-set Tip drill 2.57, slot Crane 6, from 20.7 mm to 19.1 mm."));
    // It takes away what was read: pressed twice.
    let before = screen.recorded().len();
    screen.key(Key::O);
    assert!(screen.says("Is its step over or left out? Press O again"));
    assert_eq!(screen.recorded().len(), before);
    screen.key(Key::O);
    assert!(matches!(
        screen.recorded().last(),
        Some(EventKind::Reset { .. })
    ));
    assert!(screen.says("Take it from Crane 6") && screen.says("from 20.7 mm to 19.1 mm"));
    screen.set();
    assert!(screen.says("19.1"));
    screen.type_in("19.1");
    screen.key(Key::Space);
    assert!(
        matches!(screen.recorded().last(), Some(EventKind::Placed { item, .. }) if item.setting_mm == mm("19.1"))
    );
    // In the sterile field one reads it aloud and another enters it, neither seeing the figure.
    screen.key(Key::T);
    screen.key(Key::T);
    screen.key(Key::C);
    screen.name("JH");
    screen.name("j.h.");
    assert!(screen.says("may be the person who reads aloud"));
    screen.name("OW");
    assert_eq!(screen.settings_shown(), Vec::<String>::new());
    assert!(screen.says("JH reads aloud") && screen.says("OW enters"));
    screen.type_in("19.1");
    let [.., EventKind::Reading(read), EventKind::PassEnded { .. }] = &screen.recorded()[..] else {
        panic!("{:?}", screen.recorded())
    };
    assert_eq!(read.entered_by.as_ref().unwrap().as_str(), "OW");
    assert!(
        screen.says("1 read again and found as planned"),
        "{:?}",
        screen.said()
    );
}

#[test]
fn what_matters_is_read_from_two_metres_and_hit_by_a_thumb() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.write("19.1");
    // 0.0064 of the distance, 12.8 mm at 2 m, is 48 points at 96 to the inch (design's own figure,
    // common practice, no source).
    for words in [
        "Tip drill 2.57",
        "for lower right second molar (47)",
        "→ Crane 8",
        "Read the gauge",
        "19.1",
        "mm",
        "7",
        "0",
        ".",
    ] {
        let height = screen.capitals(words);
        assert!(height >= 47.99, "{words}: {height}");
    }
    let buttons = screen.buttons();
    assert!(buttons.len() > 15, "{buttons:?}");
    for (name, rect) in buttons {
        assert!(
            rect.height() >= 75.0 && rect.width() >= 75.0,
            "{name}: {rect:?}"
        );
    }
}

/// The words on a refused reading are whole below the text typed, not scrolled away or cut.
#[test]
fn why_a_reading_was_refused_stands_whole_below_the_figure() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::new(size, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("911");
        screen.is_whole("mistyped", &["Mistyped?", "It is recorded."]);
        screen.type_in("19.2");
        let deep = "19.2 mm: Too deep by 0.1 mm. Do not use the drill";
        screen.is_whole("deep", &[deep, "It is recorded."]);
        if size == STANDING {
            let height = screen.capitals(deep);
            assert!(height >= 47.99, "{height}");
        }
        assert!(!screen.says("Look-alikes"));
    }
}

/// Set anew before anything was used: the tray is not loaded as its first use wants it, and what sets
/// it back is named and does so.
#[test]
fn a_drill_that_stands_at_a_later_setting_is_open_and_can_be_set_back() {
    let mut screen = Screen::with_case(STANDING, &one_drill_for_two());
    screen.key(Key::S);
    screen.name("MK");
    screen.type_in("21,7");
    screen.go_to(Key::ArrowRight, "Not now: in surgery");
    screen.key(Key::O);
    screen.key(Key::O);
    screen.set();
    screen.type_in("19.1");
    screen.key(Key::Space);
    assert!(
        screen.says("0 of ") && screen.says("At a later setting: 1."),
        "{:?}",
        screen.said()
    );
    screen.go_to(Key::ArrowRight, "Its stop was re-set since");
    assert!(screen.says("is at 19.1 mm, a later setting, not at 20.7 mm"));
    assert!(screen.says("Press R and set it back to 20.7 mm."));
    screen.key(Key::R);
    assert!(screen.says("Set the stop on the gauge") && !screen.says("At a later setting"));
}

/// The other setting of a drill that is set anew in surgery, typed from memory.
#[test]
fn why_the_setting_before_is_refused_after_setting_anew_stands_whole() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::with_case(size, &one_drill_for_two());
        screen.key(Key::S);
        screen.name("MK");
        screen.type_in("21,7");
        screen.go_to(Key::ArrowRight, "Not now: in surgery");
        screen.key(Key::O);
        screen.key(Key::O);
        screen.set();
        screen.type_in("20.7");
        let deep = "20.7 mm: Too deep by 1.6 mm. Do not use the drill";
        screen.is_whole("20.7", &[deep, "It is recorded."]);
        if size == STANDING {
            let height = screen.capitals(deep);
            assert!(height >= 47.99, "{height}");
        }
    }
}

#[test]
fn nothing_hangs_over_the_edge_in_any_window() {
    for size in [STANDING, vec2(1280.0, 800.0), vec2(640.0, 400.0)] {
        let mut screen = Screen::new(size, "two-molars");
        let room = Rect::from_min_size(pos2(0.0, 0.0), size).expand(1.0);
        let check = |screen: &Screen, moment: &str| {
            for (name, rect) in screen.buttons() {
                assert!(room.contains_rect(rect), "{size} {moment} {name}: {rect:?}");
            }
        };
        check(&screen, "stage");
        screen.begin();
        check(&screen, "take");
        screen.set();
        check(&screen, "read");
        screen.type_in("19");
        check(&screen, "mistyped");
        screen.type_in("19.1");
        check(&screen, "place");
        screen.key(Key::Space);
        screen.key(Key::T);
        screen.key(Key::T);
        check(&screen, "passes");
        screen.key(Key::A);
        check(&screen, "initials");
        screen.name("JH");
        check(&screen, "gauge");
        screen.type_in("21.7");
        check(&screen, "second");
        screen.type_in("202");
        check(&screen, "refused");
        screen.type_in("19.1");
        check(&screen, "over");
    }
}

/// The figure that a hand acts on is whole above the foot at each step at which it stands there.
#[test]
fn the_figure_is_whole_while_the_stop_is_set_locked_and_tugged() {
    for size in [
        STANDING,
        vec2(1280.0, 800.0),
        vec2(1366.0, 768.0),
        vec2(2560.0, 1440.0),
    ] {
        // Of one drill for one site, and of one for four of them with many words.
        for (demo, set, patient) in [
            ("two-molars", "19.1", true),
            ("two-molars", "19.1", false),
            ("full-arch-upper", "24.2", true),
            ("full-arch-upper", "24.2", false),
        ] {
            let mut screen = if patient {
                Screen::for_a_patient(size, demo)
            } else {
                Screen::new(size, demo)
            };
            screen.begin();
            if demo == "full-arch-upper" {
                screen.key(Key::ArrowLeft);
            }
            for step in ["set", "lock", "tug"] {
                screen.key(Key::Space);
                let foot = screen.place_of("Left: ").top();
                let figure = screen.place_of_exactly(set);
                // Figures have nothing below their line, which is at four fifths of the letters' room.
                let ends = figure.top() + 0.82 * figure.height();
                assert!(
                    ends <= foot,
                    "{demo} {size} {step} {patient}: {figure:?} {foot}"
                );
            }
        }
    }
}

/// So is that of a drill that is set anew in surgery, from the moment that it is taken, and it is the largest thing
/// beside the tray.
#[test]
fn the_figure_of_a_re_set_is_whole_and_the_largest_at_every_step() {
    let practice = one_drill_for_two();
    let patient = practice.replace("\"demonstration\":true", "\"demonstration\":false");
    assert_ne!(practice, patient);
    for size in [
        STANDING,
        vec2(1280.0, 800.0),
        vec2(1366.0, 768.0),
        vec2(2560.0, 1440.0),
    ] {
        for case in [&practice, &patient] {
            let mut screen = Screen::with_case(size, case);
            screen.key(Key::S);
            screen.name("MK");
            screen.type_in("21,7");
            screen.go_to(Key::ArrowRight, "Not now: in surgery");
            screen.key(Key::O);
            screen.key(Key::O);
            let foot = |screen: &Screen| screen.place_of("Left: ").top();
            let told = screen.place_of("from 20.7 mm to 19.1 mm");
            assert!(told.bottom() <= foot(&screen), "{size} take: {told:?}");
            for step in ["set", "lock", "tug", "read"] {
                screen.key(Key::Space);
                let figure = screen.place_of_exactly("19.1");
                let ends = figure.top() + 0.82 * figure.height();
                let foot = foot(&screen);
                assert!(ends <= foot, "{size} {step}: {figure:?} {foot}");
                let site = screen.place_of("for lower right second molar (47)");
                assert!(site.bottom() <= foot, "{size} {step}: {site:?} {foot}");
                let high = screen.capitals("19.1");
                for other in ["Tip drill 2.57", "Crane 6", "for lower right"] {
                    assert!(high > 2.0 * screen.capitals(other), "{size} {step} {other}");
                }
            }
        }
    }
}
