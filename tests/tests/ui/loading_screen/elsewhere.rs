//! Figures that a person of a pass without them sees in another window or at another desk.

use super::screen::{STANDING, Screen};
use egui::Key;
use traywright_core::sign::{EventKind, Pass, PassEnd, Stage, Turn};

/// Two drills set and read by MK, and the pass of KE begun.
fn reading() -> Screen {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    for figure in ["19.0", "20.6"] {
        screen.set();
        screen.type_in(figure);
        screen.key(Key::Space);
    }
    screen.begin_again("KE");
    assert!(screen.says("KE reads alone"), "{:?}", screen.said());
    screen
}

fn sights() -> [(EventKind, &'static str); 2] {
    let stage = Stage::Bench;
    let pass = Pass::Setting;
    let end = PassEnd::Left;
    [
        (
            EventKind::PassBegun { stage, pass },
            "KE set stops of this case today",
        ),
        (
            EventKind::PassEnded { stage, end },
            "KE went from a second reading to where figures stand",
        ),
    ]
}

fn second_readings(screen: &Screen) -> usize {
    let recorded = screen.recorded();
    let second =
        |kind: &&EventKind| matches!(kind, EventKind::Reading(one) if one.turn == Turn::Second);
    recorded.iter().filter(second).count()
}

fn verified(screen: &Screen) -> usize {
    let items = screen.record().standing.items.iter();
    let bench = items.map(|item| &item.checks[&Stage::Bench]);
    bench.filter(|check| check.is_verified()).count()
}

/// The other window is seen by the watch over the files: nothing more is read by this person.
#[test]
fn whoever_sees_figures_elsewhere_reads_no_further() {
    for desk in [None, Some("room")] {
        for (sight, words) in sights() {
            let mut screen = reading();
            screen.record_elsewhere(desk, "KE", sight);
            assert!(
                screen.looks_until(|screen| screen.says(words)),
                "{words}: {:?}",
                screen.said()
            );
            screen.type_in("20.6");
            screen.key(Key::Space);
            assert_eq!((second_readings(&screen), verified(&screen)), (0, 0));
            assert!(screen.settings_shown().is_empty());
            let last = screen.recorded().pop();
            let left = matches!(
                last,
                Some(EventKind::PassEnded {
                    end: PassEnd::Left,
                    ..
                })
            );
            assert!(left, "{last:?}");
        }
    }
}

/// The reading comes before the watch has looked: it is recorded and does not count, and is the last one.
#[test]
fn a_reading_that_comes_before_the_other_window_is_seen_does_not_count() {
    for desk in [None, Some("room")] {
        for (sight, words) in sights() {
            let mut screen = reading();
            screen.write("206");
            screen.record_elsewhere(desk, "KE", sight);
            screen.key(Key::Enter);
            assert!(screen.says(words), "{words}: {:?}", screen.said());
            assert!(!screen.says("agrees") && !screen.says("found as planned"));
            assert_eq!((second_readings(&screen), verified(&screen)), (1, 0));
        }
    }
    // Another person reads on, and the reading of that person counts.
    let mut screen = reading();
    let (sight, _) = sights()[0].clone();
    screen.write("206");
    screen.record_elsewhere(None, "KE", sight);
    screen.key(Key::Enter);
    screen.name("OW");
    screen.type_in("21,7");
    screen.type_in("20.6");
    assert_eq!((second_readings(&screen), verified(&screen)), (2, 1));
    // A person who is not of the pass sees what they want.
    let mut screen = reading();
    let (sight, _) = sights()[0].clone();
    screen.write("206");
    screen.record_elsewhere(None, "MK", sight);
    screen.key(Key::Enter);
    assert_eq!((second_readings(&screen), verified(&screen)), (1, 1));
}
