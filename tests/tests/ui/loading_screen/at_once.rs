//! All of a drill on one screen, and the keys that a whole bench load takes.

use super::screen::{STANDING, Screen, text_of};
use egui::{Event, Key, Modifiers, vec2};
use traywright_core::sign::{EventKind, HandStep, Turn};

/// From these distances capitals are read, 0.0064 of them high, in points of a screen of 96 to the inch.
const fn read_from_m(distance: f64) -> f64 {
    0.0064 * distance * 1000.0 * 96.0 / 25.4
}

/// The figure to which a drill in hand is set, where one is asked for: the upper end of what is accepted.
fn figure(screen: &Screen) -> Option<String> {
    let said = screen.said();
    let accepted = said.iter().find(|text| text.starts_with("accepted "))?;
    accepted.rsplit(' ').next().map(str::to_owned)
}

/// A whole tray on the bench by two people. A drill takes nine keys, five of who sets and four of who reads again, and
/// nothing that is laid takes more than one.
#[test]
fn a_drill_takes_nine_keys_and_whatever_is_laid_one() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("217");
    let (mut drills, mut things) = (Vec::new(), 0);
    for _ in 0..200 {
        if screen.says("Press T, and only then call") {
            break;
        }
        let (keys, events) = (screen.keys, screen.recorded().len());
        if let Some(figure) = figure(&screen) {
            screen.type_in(&figure.replace('.', ""));
            screen.key(Key::Space);
            let steps = &screen.recorded()[events..];
            assert!(
                matches!(
                    steps,
                    [
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
                        EventKind::Reading(_),
                        EventKind::Placed { .. },
                    ]
                ),
                "{steps:?}"
            );
            drills.push((figure, screen.keys - keys));
        } else {
            screen.key(Key::Space);
            assert_eq!(screen.keys - keys, 1);
            let steps = &screen.recorded()[events..];
            let [
                EventKind::ThingPlaced { .. } | EventKind::Placed { .. } | EventKind::Beside { .. },
            ] = steps
            else {
                panic!("one key, one thing: {steps:?}, {:?}", screen.said())
            };
            things += 1;
        }
    }
    assert!(
        screen.says("Press T, and only then call"),
        "{:?}",
        screen.said()
    );
    let worksheet = screen.program.document().unwrap().worksheet();
    assert!(things >= worksheet.loading.len() - drills.len());
    assert!(drills.len() > 3, "{drills:?}");
    screen.key(Key::T);
    screen.key(Key::T);
    screen.key(Key::A);
    screen.name("JH");
    screen.type_in("217");
    let second = |screen: &Screen| {
        let read =
            |kind: &EventKind| matches!(kind, EventKind::Reading(one) if one.turn == Turn::Second);
        screen.recorded().iter().filter(|kind| read(kind)).count()
    };
    for (n, (figure, first)) in drills.iter().rev().enumerate() {
        let keys = screen.keys;
        screen.type_in(&figure.replace('.', ""));
        assert_eq!(second(&screen), n + 1);
        assert!(
            first + screen.keys - keys <= 9,
            "{figure}: {first} and {}",
            screen.keys - keys
        );
    }
    let count = drills.len();
    assert!(
        screen.says(&format!("{count} read again and found as planned")),
        "{:?}",
        screen.said()
    );
}

/// Whatever cannot be recorded of a drill leaves its screen as it was, with nothing of it done.
#[test]
fn a_drill_of_which_nothing_can_be_recorded_is_not_set() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin_at_once();
    assert!(screen.says("lock, tug, then type the reading"));
    let before = screen.recorded();
    screen.block_record(true);
    screen.type_in("191");
    assert!(screen.says("desk.lock"), "{:?}", screen.said());
    assert!(screen.says("lock, tug, then type the reading"));
    assert_eq!(screen.recorded(), before);
    screen.block_record(false);
    // What was typed stands there still.
    screen.key(Key::Enter);
    assert!(screen.says("Place it in Crane 8"), "{:?}", screen.said());
    assert_eq!(screen.recorded().len(), before.len() + 4);
}

/// By one key and back; the words on the keys are there.
#[test]
fn the_steps_are_taken_one_by_one_by_a_key() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin_at_once();
    assert!(screen.says("Step by step"));
    screen.key(Key::I);
    assert!(screen.says("Take it") && screen.says("All at once"));
    assert!(figure(&screen).is_none());
    screen.key(Key::I);
    assert!(figure(&screen).is_some());
}

/// What a hand acts on is read from nearly 2 m in a whole window, what is said from 1.5 m; in the smallest window of the desk
/// from 1.3 m and nearly 1 m. All of it stands in the window at once.
#[test]
fn what_is_said_of_a_drill_is_read_from_one_and_a_half_metres() {
    let smallest = vec2(1280.0, 800.0);
    for (size, acted_on, said) in [(STANDING, 1.98, 1.5), (smallest, 1.3, 0.99)] {
        let mut screen = Screen::new(size, "two-molars");
        screen.begin_at_once();
        let at_least = |words: &str, distance: f64| {
            let height = screen.capitals(words);
            assert!(
                height + 0.02 >= read_from_m(distance),
                "{size} {words}: {height}"
            );
        };
        for words in ["Tip drill 2.57", "→ Crane 8"] {
            at_least(words, acted_on);
        }
        let site = "for lower right second molar (47)";
        let sentences = [
            site,
            "falls freely through",
            "lock, tug, then type the reading",
            "Look-alikes",
        ];
        let foot = screen.place_of("Left: ").top();
        let keypad = screen.buttons().into_iter().find(|(name, _)| name == "7");
        let right = keypad.unwrap().1.left();
        for words in sentences {
            at_least(words, said);
            let place = if words == site {
                screen.place_of_exactly(words)
            } else {
                screen.place_of(words)
            };
            assert!(
                place.bottom() <= foot && place.right() <= right && place.top() > 0.0,
                "{size} {words}: {place:?} {foot} {right}"
            );
        }
        assert!(screen.capitals("19.1") >= read_from_m(2.0), "{size}");
    }
    // What is laid.
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("217");
    for words in ["Drills are dropped through its sleeves", "uide"] {
        assert!(screen.capitals(words) + 0.02 >= read_from_m(1.5), "{words}");
    }
    screen.key(Key::Space);
    assert!(screen.capitals("Place it in") >= read_from_m(1.5));
}

/// A drill with a code, and another.
fn coded() -> String {
    let mut case: serde_json::Value = serde_json::from_str(&text_of("two-molars")).unwrap();
    let codes = [("tip-257", "HD-25700"), ("tip-316", "4012345031600")];
    for drill in case["kit"]["drills"].as_array_mut().unwrap() {
        for (id, code) in codes {
            if drill["id"] == id {
                drill["code"] = code.into();
            }
        }
    }
    case.to_string()
}

/// Keys and text as a scanner types them, all within one frame, Enter last.
fn scan(screen: &mut Screen, code: &str) {
    let mut events = Vec::new();
    for sign in code.chars() {
        let text = sign.to_string();
        let key = Key::from_name(&text.to_uppercase());
        let press = |pressed| {
            key.map(|key| Event::Key {
                key,
                physical_key: None,
                pressed,
                repeat: false,
                modifiers: if sign.is_uppercase() {
                    Modifiers::SHIFT
                } else {
                    Modifiers::NONE
                },
            })
        };
        events.extend(press(true));
        events.push(Event::Text(text));
        events.extend(press(false));
    }
    screen.frames(events);
    screen.key(Key::Enter);
}

/// A scanned code stands for taking the thing; that of another is a STOP with both named; one that nothing has is told.
/// Neither is a reading, and no key of it a command.
#[test]
fn a_scanned_code_takes_the_drill_and_is_no_reading() {
    for code in ["HD-25700", "hd-25700"] {
        let mut screen = Screen::with_case(STANDING, &coded());
        screen.begin_at_once();
        let before = screen.recorded();
        scan(&mut screen, code);
        assert!(
            screen.says("The code is that of Tip drill 2.57"),
            "{:?}",
            screen.said()
        );
        scan(&mut screen, "4012345031600");
        assert!(screen.says("STOP"), "{:?}", screen.said());
        assert!(screen.says("Tip drill 3.16 was scanned. Tip drill 2.57 is to be taken."));
        // Nothing else is done before that was read, and no figure is taken.
        for key in [Key::Space, Key::F, Key::F, Key::ArrowRight, Key::O, Key::I] {
            screen.key(key);
            assert!(screen.says("STOP"), "{key:?}");
        }
        screen.type_in("191");
        assert!(screen.says("STOP"));
        scan(&mut screen, code);
        assert!(!screen.says("STOP") && screen.says("The code is that of Tip drill 2.57"));
        scan(&mut screen, "FFRRTTGG99");
        assert!(screen.says("FFRRTTGG99: no instrument of the kit has this code"));
        scan(&mut screen, "ffrrttgg99");
        assert!(screen.says("no instrument of the kit has this code"));
        scan(&mut screen, "4012345031600");
        screen.key(Key::U);
        assert!(!screen.says("STOP"));
        assert_eq!(screen.recorded(), before, "nothing is recorded of a code");
        screen.type_in("191");
        assert!(screen.says("Place it in Crane 8"), "{:?}", screen.said());
    }
    // Step by step it is taken by its code.
    let mut screen = Screen::with_case(STANDING, &coded());
    screen.begin();
    assert!(screen.says("Take it"));
    scan(&mut screen, "HD-25700");
    assert!(
        screen.says("Set the stop on the gauge"),
        "{:?}",
        screen.said()
    );
}

/// In a second reading a code says whether the right drill is in hand, and shows no figure.
#[test]
fn in_a_second_reading_the_code_of_another_drill_is_a_stop() {
    let mut screen = Screen::with_case(STANDING, &coded());
    screen.begin_at_once();
    screen.type_in("191");
    screen.key(Key::Space);
    screen.begin_again("JH");
    let before = screen.recorded();
    scan(&mut screen, "4012345031600");
    assert!(screen.says("STOP") && screen.says("Tip drill 3.16 was scanned."));
    assert_eq!(screen.settings_shown(), Vec::<String>::new());
    screen.key(Key::U);
    assert!(!screen.says("STOP"), "{:?}", screen.said());
    scan(&mut screen, "hd-25700");
    assert!(!screen.says("STOP"));
    assert_eq!(screen.recorded(), before);
    screen.type_in("191");
    assert!(
        screen.says("1 read again and found as planned"),
        "{:?}",
        screen.said()
    );
}

/// A fixed stop sits in one of the grooves of its drill, counted from the tip.
#[test]
fn the_groove_of_a_fixed_stop_is_named_by_its_number() {
    let mut screen = Screen::new(STANDING, "fixed-stops");
    screen.key(Key::B);
    screen.name("MK");
    screen.type_in("217");
    screen.go_to(Key::ArrowRight, "lock, tug");
    let worksheet = screen.program.document().unwrap().worksheet();
    let kit = &screen.program.document().unwrap().case().kit;
    let said = screen.said();
    let told = said
        .iter()
        .find(|text| text.starts_with("Stop in groove "))
        .unwrap();
    let mut numbers = told
        .split(' ')
        .filter_map(|word| word.parse::<usize>().ok());
    let (place, count) = (numbers.next().unwrap(), numbers.next().unwrap());
    // By the kit: the lengths of this stop on this drill, the shortest first.
    let set = worksheet
        .loading
        .iter()
        .filter_map(|item| item.set.as_ref());
    let found = set.filter_map(|on| {
        let stop = kit.stop(on.stop.as_ref()?)?;
        let traywright_core::kit::StopKind::Fixed { lengths } = &stop.depth else {
            return None;
        };
        let mut here: Vec<_> = lengths.iter().filter(|one| one.drill == on.drill).collect();
        here.sort_by_key(|one| one.tip_to_landing_mm);
        let at = here
            .iter()
            .position(|one| Some(one.tip_to_landing_mm) == on.set.get())?;
        Some((at + 1, here.len()))
    });
    let found: Vec<(usize, usize)> = found.collect();
    assert!(found.contains(&(place, count)), "{told}: {found:?}");
    assert!(told.contains("from the tip"), "{told}");
}
