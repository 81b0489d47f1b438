//! A tray that lies by another plan: told wherever somebody goes on from, and no second reading begins over it.

use super::beside_the_way::{changed, one_read};
use super::screen::{STANDING, Screen, text_of};
use egui::{Key, Modifiers, vec2};
use traywright::action::View;
use traywright_core::kit::SlotKind;
use traywright_core::sign::{EventKind, Pass, Purpose, ThingKey};

fn second_passes(screen: &Screen) -> usize {
    let recorded = screen.recorded();
    let begun = |kind: &&EventKind| {
        matches!(
            kind,
            EventKind::PassBegun {
                pass: Pass::Blind,
                ..
            }
        )
    };
    recorded.iter().filter(begun).count()
}

/// The plan is changed while nobody sets: the choice of passes names what lies otherwise, with no figure, and whoever
/// is to read is sent for the person who sets.
#[test]
fn no_second_reading_begins_over_a_tray_that_lies_by_another_plan() {
    let mut screen = one_read();
    screen.save_elsewhere();
    let told = "Tip drill 2.57 for lower right second molar (47) in Crane 8: set otherwise than planned now";
    assert!(
        screen.looks_until(|screen| screen.says(told)),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("Nothing is missing"));
    assert!(
        screen.settings_shown().is_empty(),
        "{:?}",
        screen.settings_shown()
    );
    for key in [Key::A, Key::C] {
        screen.key(key);
        assert!(
            screen.says("The tray does not lie as the plan has it"),
            "{:?}",
            screen.said()
        );
        assert!(screen.says("fetch the person who sets"));
        screen.name("KE");
        screen.name("RT");
        screen.type_in("21.7");
        assert_eq!(second_passes(&screen), 0);
        assert!(screen.settings_shown().is_empty());
        screen.key(Key::Escape);
        assert!(screen.says(told), "back at the choice");
    }
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    assert!(screen.says("STOP"), "{:?}", screen.said());
    screen.key(Key::U);
    screen.set();
    screen.type_in("18.6");
    screen.key(Key::Space);
    screen.begin_again("KE");
    assert!(screen.says("KE reads alone"), "{:?}", screen.said());
}

/// The hands do what the STOP says, the program is ended before that was confirmed, and the plan goes back: nothing of
/// the drill counts, and who sets next is told.
#[test]
fn what_a_stop_told_is_told_again_whatever_became_of_program_and_plan() {
    let mut screen = one_read();
    screen.key(Key::A);
    screen.name("KE");
    screen.type_in("21.7");
    screen.type_in("19.0");
    screen.key(Key::E);
    let plan = std::fs::read(screen.file()).unwrap();
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    screen.save_elsewhere();
    screen.disk_is_looked_at();
    let told = "in Crane 8: set to 19.1 mm, now planned at 18.6 mm";
    assert!(screen.says(told), "{:?}", screen.said());
    screen.cut_off();
    std::fs::write(screen.file(), &plan).unwrap();
    screen.cut_off();
    screen.press(Modifiers::COMMAND, View::Loading.key());
    let told = "Crane 8: it was told to be taken";
    let kept = "Crane 8: not as the plan has it now. Who sets puts it right.";
    assert!(
        screen.says(kept) && !screen.says(told),
        "{:?}",
        screen.said()
    );
    screen.key(Key::A);
    assert!(
        screen.says("fetch the person who sets"),
        "{:?}",
        screen.said()
    );
    screen.key(Key::Escape);
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    assert!(
        screen.says("STOP") && screen.says(told),
        "{:?}",
        screen.said()
    );
    screen.key(Key::Y);
    screen.key(Key::U);
    assert!(!screen.says("STOP"));
    assert!(screen.says("0 of 31 in the tray"), "{:?}", screen.said());
    // Once it was taken nobody is told again.
    screen.key(Key::T);
    screen.key(Key::T);
    assert!(!screen.says(kept), "{:?}", screen.said());
}

/// What does not fit and lies on the tray is told to be taken off, and not that it is not to be set.
#[test]
fn what_does_not_fit_and_lies_there_is_told_to_be_taken_off() {
    let mut screen = one_read();
    let text = std::fs::read_to_string(screen.file()).unwrap();
    let mut case: serde_json::Value = serde_json::from_str(&text).unwrap();
    for drill in case["kit"]["drills"].as_array_mut().unwrap() {
        if drill["id"] == "tip-257" {
            let to = drill["clamp"]["to_mm"].as_f64().unwrap();
            drill["clamp"]["from_mm"] = to.floor().into();
        }
    }
    std::fs::write(screen.file(), case.to_string()).unwrap();
    // The choice records nothing that it tells, so that it tells nothing for a hand to do.
    let told = "in Crane 8: not as the plan has it now. Who sets puts it right.";
    assert!(
        screen.looks_until(|screen| screen.says(told)),
        "{:?}",
        screen.said()
    );
    let both = |said: &String| said.contains("Crane 8") && said.contains("do not set");
    assert!(!screen.said().iter().any(both), "{:?}", screen.said());
    assert!(screen.says("Tip drill 2.57, slot Crane 6: does not fit, do not set"));
}

/// The plan has one site less while it is loaded: a drill that was set for that site is not told as one of the other.
#[test]
fn a_drill_that_left_the_plan_is_not_told_as_one_for_another_site() {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    screen.key(Key::ArrowLeft);
    for figure in ["20.6", "19.0"] {
        screen.set();
        screen.type_in(figure);
        screen.key(Key::Space);
    }
    let mut case: serde_json::Value = serde_json::from_str(&text_of("two-molars")).unwrap();
    case["demonstration"] = false.into();
    let sites = case["sites"].as_array_mut().unwrap();
    sites.remove(0);
    sites[0].as_object_mut().unwrap().remove("distances");
    std::fs::write(screen.file(), case.to_string()).unwrap();
    screen.disk_is_looked_at();
    assert!(
        screen.says("Tip drill 2.57 in Crane 6: no longer needed. Take it off the tray."),
        "{:?}",
        screen.said()
    );
}

/// In the sterile field somebody of the demonstration works: nothing is drawn over the plan code.
#[test]
fn nothing_stands_over_the_plan_code_in_the_head() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::new(size, "two-molars");
        screen.key(Key::S);
        screen.name("OW");
        screen.type_in("21,7");
        let worksheet = screen.program.document().unwrap().worksheet();
        let code = worksheet.fingerprint.to_string();
        let head = screen.place_of(&code);
        for words in ["DEMONSTRATION", "of 31 in the tray", "terile field · OW"] {
            let other = screen.place_of(words);
            assert!(
                !head.shrink(0.5).intersects(other),
                "{size} {words}: {head:?} {other:?}"
            );
        }
        assert!(head.right() <= size.x, "{size}: {head:?}");
    }
}

/// The gauge was found off: the next check says so, and of what lies there in doubt list and head say that it does.
#[test]
fn the_next_check_says_that_the_gauge_was_off_and_the_list_what_lies_there_in_doubt() {
    let mut screen = one_read();
    screen.key(Key::B);
    screen.name("MK");
    for _ in 0..2 {
        screen.type_in("21.4");
    }
    screen.key(Key::Escape);
    let was_off = "The gauge was found off at its last check: it reads 0.3 mm too low";
    for (key, stage) in [(Key::S, "MK"), (Key::C, "RT"), (Key::A, "KE")] {
        screen.key(key);
        screen.name(stage);
        if key == Key::C {
            screen.name("KE");
        }
        assert!(screen.says(was_off), "{key:?}: {:?}", screen.said());
        assert!(screen.says("In doubt, to be read again: "), "{key:?}");
        if key == Key::A {
            screen.type_in("21.7");
            assert!(
                screen.says("In doubt, to be read again: "),
                "{:?}",
                screen.said()
            );
            screen.key(Key::E);
        } else {
            screen.key(if key == Key::C { Key::E } else { Key::Escape });
        }
    }
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21.7");
    assert!(
        screen.says("1 there to be done again"),
        "{:?}",
        screen.said()
    );
    screen.key(Key::L);
    assert!(
        screen.says("in the tray, to be read again"),
        "{:?}",
        screen.said()
    );
}

/// What a look-alike would do is told by the length from tip to stop: beside what the gauge shows of it stands that too.
#[test]
fn a_look_alike_is_told_by_both_figures_where_they_differ() {
    let mut screen = changed(|case| {
        for gauge in case["kit"]["gauges"].as_array_mut().unwrap() {
            gauge["constant_mm"] = 0.1.into();
        }
    });
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21.8");
    screen.go_to(Key::ArrowRight, "mm on the gauge (");
    assert!(
        screen.says("mm tip to stop) in Crane "),
        "{:?}",
        screen.said()
    );
}

/// More lies otherwise than the plan has it than the screen shows: nobody confirms it before its end was shown, and keys
/// bring it there.
#[test]
fn a_stop_is_confirmed_only_once_its_end_was_shown() {
    let mut screen = one_read();
    for copy in 1_u32..=24 {
        let thing = EventKind::ThingPlaced {
            thing: ThingKey {
                of: SlotKind::Drill,
                entry: "old-drill".to_owned(),
                copy: copy.try_into().unwrap(),
            },
            slot: Some(format!("A{copy}")),
            purpose: Some(Purpose::Patient),
        };
        screen.record_elsewhere(Some("other"), "MK", thing);
    }
    let kept = "not as the plan has it now. Who sets puts it right.";
    assert!(
        screen.looks_until(|screen| screen.says(kept)),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("Take it off the tray"));
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    assert!(
        screen.says("Sentences: 24. More below"),
        "{:?}",
        screen.said()
    );
    screen.key(Key::U);
    assert!(screen.says("STOP") && !screen.says("Read. Continue"));
    for _ in 0..12 {
        screen.key(Key::PageDown);
    }
    assert!(screen.says("Read. Continue"), "{:?}", screen.said());
    screen.key(Key::U);
    assert!(!screen.says("STOP"), "{:?}", screen.said());
}

/// What else stands in the head leaves the case and the plan code on no more than two lines.
#[test]
fn the_head_stays_low_beside_the_number_of_what_is_to_be_done_again() {
    let screen = &mut Screen::new(vec2(1280.0, 800.0), "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.0");
    screen.key(Key::Space);
    screen.key(Key::T);
    screen.key(Key::T);
    screen.key(Key::B);
    screen.name("MK");
    for _ in 0..2 {
        screen.type_in("21.4");
    }
    screen.key(Key::Escape);
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21.7");
    assert!(screen.says("there to be done again"), "{:?}", screen.said());
    let code = screen.program.document().unwrap().worksheet().fingerprint;
    let head = screen.place_of(&code.to_string());
    assert!(head.height() < 60.0, "{head:?}");
    for words in ["DEMONSTRATION", "to be done again"] {
        let other = screen.place_of(words);
        assert!(
            other.bottom() < 130.0 && other.right() <= 1280.0,
            "{other:?}"
        );
        assert!(!head.shrink(0.5).intersects(other), "{words}");
    }
}

/// A drill that was read and by the record lies in no slot: the choice says so, and nobody is sent to the slot where it
/// belongs.
#[test]
fn what_was_read_and_lies_in_no_slot_is_told_and_taken_from_none() {
    let mut screen = one_read();
    assert!(!screen.says("in no slot"));
    let placed = screen.recorded().into_iter().find_map(|kind| match kind {
        EventKind::Placed { item, .. } => Some(item),
        _ => None,
    });
    let placed = placed.unwrap();
    let thing = ThingKey {
        of: SlotKind::Drill,
        entry: placed.drill.clone(),
        copy: placed.copy,
    };
    let (slot, purpose) = (None, Some(Purpose::Patient));
    let taken = EventKind::ThingPlaced {
        thing,
        slot,
        purpose,
    };
    screen.record_elsewhere(Some("other"), "MK", taken);
    let told = "1 read and in no slot: who sets places them.";
    assert!(
        screen.looks_until(|screen| screen.says(told)),
        "{:?}",
        screen.said()
    );
    screen.key(Key::A);
    screen.name("KE");
    screen.type_in("21.7");
    assert!(
        screen.says("Take it and read it") && !screen.says("Take it from"),
        "{:?}",
        screen.said()
    );
    screen.type_in("19.0");
    assert!(screen.says(told), "{:?}", screen.said());
}

/// Where the gauge shows another figure than the length from tip to stop a STOP names both, and what it told to be taken
/// is what is asked for first.
#[test]
fn a_stop_names_what_the_gauge_shows_and_goes_on_with_what_is_in_hand() {
    let mut screen = Screen::new(STANDING, "upper-face-gauge");
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("25.4");
    while !screen.says("It stays sealed") {
        if screen.says("What the gauge shows") {
            let accepted = screen.said().iter().find_map(|one| {
                let range = one.strip_prefix("accepted ")?;
                Some(range.rsplit(' ').next()?.to_owned())
            });
            screen.type_in(&accepted.unwrap());
        } else {
            screen.key(Key::Space);
        }
    }
    screen.save_elsewhere();
    screen.disk_is_looked_at();
    let document = screen.program.document().unwrap();
    let drills = document.worksheet().loading.iter();
    let mut drills = drills.filter(|item| !item.unopened);
    let set = drills.find_map(|item| item.set.as_ref()).unwrap();
    let shown =
        |length: Option<traywright_core::measure::Length>| format!("{:.1}", length.unwrap().mm());
    let (set, gauge) = (shown(set.set.get()), shown(set.gauge.get()));
    assert_ne!(set, gauge);
    let both = format!("now planned at {gauge} mm on the gauge ({set} mm tip to stop)");
    assert!(screen.says(&both), "{both}: {:?}", screen.said());
    screen.key(Key::U);
    assert!(!screen.says("It stays sealed"), "{:?}", screen.said());
    assert!(
        screen.says("Take it") && screen.says("Tip drill"),
        "{:?}",
        screen.said()
    );
}

/// The STOP was read, and of no drill was it said that a hand had it: by the record each stands as it was set, wherever it is listed,
/// and only what is said of one is recorded of it.
#[test]
fn a_stop_that_was_read_moves_no_stop() {
    let mut screen = one_read();
    screen.save_elsewhere();
    screen.disk_is_looked_at();
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("21,7");
    assert!(screen.says("STOP"), "{:?}", screen.said());
    let before = screen.recorded().len();
    screen.key(Key::U);
    assert!(!screen.says("STOP"), "{:?}", screen.said());
    let since = screen.recorded().split_off(before);
    let by_hand = |kind: &&EventKind| {
        matches!(
            kind,
            EventKind::Reset { .. } | EventKind::ThingPlaced { .. }
        )
    };
    assert_eq!(since.iter().filter(by_hand).count(), 0, "{since:?}");
    assert!(screen.says("19.1"), "{:?}", screen.said());
    let standing = &screen.program.document().unwrap().record.standing;
    let kept = standing.drills.values().any(|now| {
        now.stop == traywright_core::sign::StopSince::AsSet
            && now.item.setting_mm.to_string() == "19.1"
    });
    assert!(kept, "{:?}", standing.drills);
    // Who reads is sent for the person who sets, until that is done.
    screen.key(Key::T);
    screen.key(Key::T);
    screen.key(Key::A);
    assert!(
        screen.says("fetch the person who sets"),
        "{:?}",
        screen.said()
    );
}
