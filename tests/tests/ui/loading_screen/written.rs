//! A step counts once it is written.

use super::screen::{STANDING, Screen};
use egui::{Key, Modifiers};
use traywright::action::View;
use traywright_core::sign::{EventKind, PassEnd};

/// A disk that refuses: the pass does not begin, its reason is told, and it begins once it can be written.
#[test]
fn a_pass_that_cannot_be_recorded_does_not_begin() {
    for (key, asks) in [(Key::B, "First the gauge"), (Key::A, "Who reads? Nobody")] {
        let mut screen = Screen::new(STANDING, "two-molars");
        screen.block_record(true);
        // The pass with figures begins once the gauge is sound.
        let begin = |screen: &mut Screen| {
            if key == Key::B {
                screen.type_in("21,7");
            } else {
                screen.name("KE");
            }
        };
        screen.key(key);
        if key == Key::B {
            screen.name("KE");
        }
        begin(&mut screen);
        assert!(screen.recorded().is_empty());
        assert!(screen.says(asks), "{:?}", screen.said());
        assert!(screen.says("desk.lock"), "the reason: {:?}", screen.said());
        assert!(screen.settings_shown().is_empty());
        screen.block_record(false);
        // What was typed of the gauge stands there still.
        if key == Key::B {
            screen.key(Key::Enter);
        } else {
            begin(&mut screen);
        }
        let begun = |kind: &EventKind| matches!(kind, EventKind::PassBegun { .. });
        assert_eq!(
            screen.recorded().iter().filter(|kind| begun(kind)).count(),
            1
        );
        assert!(!screen.says(asks));
    }
}

/// Nor does a gauge count as checked, a stop as set, a thing as fallen or a drill as begun to be set anew.
#[test]
fn a_step_that_cannot_be_recorded_is_not_done() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.key(Key::B);
    screen.name("KE");
    screen.block_record(true);
    screen.type_in("21,7");
    assert!(screen.says("First the gauge") && screen.says("desk.lock"));
    screen.block_record(false);
    screen.key(Key::Enter);
    screen.go_to(Key::ArrowRight, "→ Crane 8");
    screen.key(Key::I);
    screen.key(Key::Space);
    assert!(screen.says("Set the stop on the gauge"));
    let before = screen.recorded().len();
    screen.block_record(true);
    screen.key(Key::Space);
    assert!(screen.says("Set the stop on the gauge") && screen.says("desk.lock"));
    for _ in 0..2 {
        screen.key(Key::F);
    }
    // It is in the hand still.
    assert!(
        screen.says("Set the stop on the gauge"),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("set it aside"));
    screen.block_record(false);
    assert_eq!(screen.recorded().len(), before);
    screen.key(Key::Space);
    assert!(screen.says("Lock the stop"));
    assert!(matches!(
        screen.recorded().last(),
        Some(EventKind::Handled { .. })
    ));
}

/// The disk refuses from here on: what is done is not, whatever is pressed, and the reason stays in large letters
/// until something is recorded.
fn blocked(screen: &mut Screen, act: impl Fn(&mut Screen), stays: &[&str]) {
    let before = screen.recorded().len();
    screen.block_record(true);
    act(screen);
    // A minute later.
    for _ in 0..60 {
        screen.frames(Vec::new());
    }
    assert!(screen.says("does not count as done") && screen.says("desk.lock"));
    // As large as the other words on what is not to be done; 44 of 1080 points.
    assert!(
        screen.capitals("desk.lock") >= 28.0,
        "{}",
        screen.capitals("desk.lock")
    );
    for words in stays {
        assert!(screen.says(words), "{words}: {:?}", screen.said());
    }
    for words in ["set it aside", "start again", "re-set on the spare"] {
        assert!(!screen.says(words), "{words}");
    }
    screen.block_record(false);
    assert_eq!(screen.recorded().len(), before);
}

fn twice(screen: &mut Screen, key: Key) {
    screen.key(key);
    screen.key(key);
}

/// A drill that lies verified: a fall, a stop that moved, a gauge that fell, a thing that is laid.
#[test]
fn nothing_acts_as_if_done_while_the_disk_refuses() {
    let verified = || {
        let mut screen = Screen::for_a_patient(STANDING, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("19.0");
        screen.key(Key::Space);
        screen.read_again(&["19.0"]);
        screen.go_to(Key::ArrowRight, " is in ");
        screen
    };
    for key in [Key::F, Key::R, Key::D] {
        let mut screen = verified();
        blocked(&mut screen, |screen| twice(screen, key), &[" is in "]);
        assert!(!screen.says("First the gauge"), "{key:?}");
        // It is recorded at the next try, and the reason goes.
        let before = screen.recorded().len();
        twice(&mut screen, key);
        assert!(
            screen.recorded().len() > before && !screen.says("desk.lock"),
            "{key:?}"
        );
    }
    // Laid.
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.0");
    assert!(screen.says("Place it in"));
    blocked(
        &mut screen,
        |screen| screen.key(Key::Space),
        &["Place it in"],
    );
    // It goes when the view is left, too.
    screen.block_record(true);
    screen.key(Key::Space);
    assert!(screen.says("desk.lock"));
    screen.press(Modifiers::COMMAND, View::Site.key());
    screen.frames(Vec::new());
    screen.press(Modifiers::COMMAND, View::Loading.key());
    assert!(!screen.says("desk.lock"), "{:?}", screen.said());
    screen.block_record(false);
}

/// The same in a pass without figures.
#[test]
fn nothing_acts_as_if_done_in_a_pass_without_figures_while_the_disk_refuses() {
    let reads = || {
        let mut screen = Screen::for_a_patient(STANDING, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("19.0");
        screen.key(Key::Space);
        screen.begin_again("KE");
        screen
    };
    let acts: [fn(&mut Screen); 3] = [
        |screen| twice(screen, Key::F),
        |screen| twice(screen, Key::D),
        |screen| screen.type_in("19.0"),
    ];
    for act in acts {
        let mut screen = reads();
        blocked(&mut screen, act, &["KE reads alone"]);
        assert!(!screen.says("First the gauge") && !screen.says("no longer to be read"));
        assert!(!screen.says("agrees"));
        assert!(screen.settings_shown().is_empty());
    }
}

/// Where it cannot be recorded that somebody goes from a pass without figures to the desk, nobody goes.
#[test]
fn nobody_goes_to_figures_unrecorded() {
    let go = |screen: &mut Screen| twice(screen, Key::Escape);
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.0");
    screen.key(Key::Space);
    screen.begin_again("KE");
    blocked(&mut screen, go, &["KE reads alone"]);
    assert!(screen.settings_shown().is_empty());
    go(&mut screen);
    screen.frames(Vec::new());
    assert!(!screen.says("KE reads alone"));
    let last = screen.recorded().pop();
    let end = matches!(
        last,
        Some(EventKind::PassEnded {
            end: PassEnd::Left,
            ..
        })
    );
    assert!(end, "{last:?}");
}

/// Ended with drills unread, then another pass is asked for and left before initials are given: the first reader
/// went to figures.
#[test]
fn who_ended_a_pass_unread_and_goes_to_figures_is_recorded_whatever_was_asked_meanwhile() {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.0");
    screen.key(Key::Space);
    screen.begin_again("KE");
    screen.key(Key::E);
    screen.key(Key::A);
    twice(&mut screen, Key::Escape);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    screen.key(Key::A);
    screen.name("KE");
    assert!(
        screen.says("KE went from a second reading"),
        "{:?}",
        screen.said()
    );
}

/// Ended by its key with a drill unread, or with one that was refused and is to be set anew: the record has no end of it
/// before somebody goes on. Whatever ends the program or the case, its desk shows no figure before it is taken up or
/// left, and who goes to figures cannot read again.
#[test]
fn a_pass_that_was_put_down_undone_goes_on_whatever_becomes_of_the_window() {
    let pass = |refused: bool| {
        let mut screen = Screen::for_a_patient(STANDING, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("19.0");
        screen.key(Key::Space);
        screen.begin_again("KE");
        for _ in 0..2 {
            if refused {
                screen.type_in("19.8");
            }
        }
        assert_eq!(
            screen.says("1 to be set and read anew"),
            refused,
            "{:?}",
            screen.said()
        );
        screen.key(Key::E);
        assert!(!screen.says("KE reads alone") && screen.settings_shown().is_empty());
        screen
    };
    let ends = |screen: &Screen| {
        let ends = screen.recorded().into_iter().filter_map(|kind| match kind {
            EventKind::PassEnded { end, .. } => Some(end),
            _ => None,
        });
        ends.collect::<Vec<_>>()
    };
    for refused in [false, true] {
        let ways: [fn(&mut Screen); 2] = [Screen::cut_off, |screen| {
            screen.press(Modifiers::COMMAND, Key::W);
            let file = screen.file().to_owned();
            screen.program.open(&file);
            screen.frames(Vec::new());
        }];
        for way in ways {
            let mut screen = pass(refused);
            way(&mut screen);
            assert!(
                screen.says("The pass of KE was cut off"),
                "{:?}",
                screen.said()
            );
            assert!(screen.settings_shown().is_empty());
            assert_eq!(ends(&screen), []);
            twice(&mut screen, Key::Escape);
            assert_eq!(ends(&screen), [PassEnd::Left]);
            screen.press(Modifiers::COMMAND, View::Loading.key());
            screen.key(Key::A);
            screen.name("KE");
            assert!(screen.says("KE went from a second reading"));
        }
        // At the desk itself it goes on by the same person, and has ended where another begins.
        let mut screen = pass(refused);
        screen.key(Key::A);
        screen.name("KE");
        assert!(screen.says("KE reads alone"), "{:?}", screen.said());
        let mut screen = pass(refused);
        screen.key(Key::A);
        screen.name("SP");
        assert!(screen.says("SP reads alone"), "{:?}", screen.said());
        assert_eq!(ends(&screen)[0], PassEnd::Unseen);
        let mut screen = pass(refused);
        screen.key(Key::B);
        screen.name("MK");
        assert_eq!(ends(&screen), []);
        screen.type_in("21,7");
        assert_eq!(ends(&screen), [PassEnd::Unseen]);
        let mut screen = pass(refused);
        screen.press(Modifiers::COMMAND, View::Site.key());
        assert_eq!(ends(&screen), [PassEnd::Left]);
    }
}

/// Ended from outside in the middle of a pass without figures: what is shown first is that it goes on, and no
/// figure before that. Its reader takes it up; or goes to the desk, which ends it.
#[test]
fn a_pass_that_was_cut_off_is_taken_up_or_ended_before_any_figure_is_shown() {
    let cut_off = || {
        let mut screen = Screen::new(STANDING, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("19.0");
        screen.key(Key::Space);
        screen.begin_again("KE");
        screen.cut_off();
        assert!(
            screen.says("The pass of KE was cut off"),
            "{:?}",
            screen.said()
        );
        assert!(screen.settings_shown().is_empty());
        screen
    };
    let mut screen = cut_off();
    screen.name("KE");
    screen.type_in("21,7");
    screen.type_in("19.1");
    assert!(
        screen.says("1 read again and found as planned"),
        "{:?}",
        screen.said()
    );
    screen.key(Key::E);
    screen.cut_off();
    assert!(!screen.says("was cut off"), "it was ended");

    let mut screen = cut_off();
    screen.key(Key::Escape);
    assert!(screen.says("Press Esc again") && screen.settings_shown().is_empty());
    screen.key(Key::Escape);
    let left = |screen: &Screen| {
        matches!(
            screen.recorded().last(),
            Some(EventKind::PassEnded {
                end: PassEnd::Left,
                ..
            })
        )
    };
    assert!(left(&screen));
    let mut screen = cut_off();
    screen.press(Modifiers::COMMAND, View::Site.key());
    assert!(screen.says("was cut off") && !left(&screen));
    twice(&mut screen, Key::Escape);
    assert!(left(&screen));
    screen.press(Modifiers::COMMAND, View::Loading.key());
    screen.key(Key::A);
    screen.name("KE");
    assert!(screen.says("Another person reads"));
}

/// All is read: that no figure was seen is recorded before anybody says so. The window may be closed now, and the
/// reader can read again; who goes on to figures from there is recorded as before.
#[test]
fn a_pass_in_which_all_is_read_has_ended_whatever_becomes_of_the_window() {
    let all_read = || {
        let mut screen = Screen::for_a_patient(STANDING, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("19.0");
        screen.key(Key::Space);
        screen.begin_again("KE");
        screen.type_in("19.0");
        assert!(screen.says("1 read again and found as planned"));
        assert!(screen.settings_shown().is_empty());
        screen
    };
    let ends = |screen: &Screen| {
        let ends = screen.recorded().into_iter().filter_map(|kind| match kind {
            EventKind::PassEnded { end, .. } => Some(end),
            _ => None,
        });
        ends.collect::<Vec<_>>()
    };
    let mut screen = all_read();
    assert_eq!(ends(&screen), [PassEnd::Unseen]);
    screen.cut_off();
    assert!(!screen.says("was cut off"), "{:?}", screen.said());
    screen.press(Modifiers::COMMAND, View::Loading.key());
    screen.key(Key::A);
    screen.name("KE");
    assert!(screen.says("KE reads alone"), "{:?}", screen.said());
    // Nothing was left to be read: that pass has ended as well.
    assert_eq!(ends(&screen), [PassEnd::Unseen, PassEnd::Unseen]);

    // Ended by its key nothing more is recorded; left for figures that is.
    let mut screen = all_read();
    screen.key(Key::E);
    assert_eq!(ends(&screen), [PassEnd::Unseen]);
    let mut screen = all_read();
    screen.press(Modifiers::COMMAND, View::Site.key());
    assert_eq!(ends(&screen), [PassEnd::Unseen, PassEnd::Left]);
    let mut screen = all_read();
    twice(&mut screen, Key::Escape);
    assert_eq!(ends(&screen), [PassEnd::Unseen, PassEnd::Left]);
}

/// The notice says which step was not recorded, in a pass without figures without any.
#[test]
fn the_step_that_was_not_recorded_is_named() {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    screen.key(Key::Space);
    let told = |screen: &mut Screen, act: &dyn Fn(&mut Screen), step: &str| {
        screen.block_record(true);
        act(screen);
        assert!(
            screen.says(&format!("does not count as done: {step}.")) && screen.says("desk.lock"),
            "{step}: {:?}",
            screen.said()
        );
        screen.block_record(false);
    };
    let done = |screen: &mut Screen| screen.key(Key::Space);
    told(&mut screen, &done, "Tip drill 2.57 no. 2, its stop set");
    told(
        &mut screen,
        &|screen| twice(screen, Key::F),
        "Tip drill 2.57 no. 2, dropped",
    );
    for _ in 0..3 {
        screen.key(Key::Space);
    }
    told(
        &mut screen,
        &|screen| screen.type_in("19.0"),
        "Tip drill 2.57 no. 2, first reading",
    );
    screen.key(Key::Enter);
    told(
        &mut screen,
        &done,
        "Tip drill 2.57 no. 2, put into slot Crane 8",
    );
    screen.key(Key::Space);
    screen.begin_again("KE");
    told(
        &mut screen,
        &|screen| screen.type_in("19.0"),
        "Tip drill 2.57 no. 2, second reading",
    );
    assert!(screen.settings_shown().is_empty());
}

/// A folder that nobody can write, not even the administrator, who may run the tests.
#[cfg(target_os = "linux")]
#[test]
fn a_read_only_folder_is_told_with_what_helps() {
    let mut screen = Screen::new(STANDING, "two-molars");
    let beside = traywright_core::store::events_folder(screen.file());
    std::os::unix::fs::symlink("/sys/fs", &beside).unwrap();
    screen.key(Key::A);
    screen.name("KE");
    for words in [
        "does not count as done: the beginning of the pass. The folder ",
        "case.signed is read-only for this user, or its disk is",
        "Have writing in it allowed",
    ] {
        assert!(screen.says(words), "{words}: {:?}", screen.said());
    }
}
