//! Something fell, wherever in the day it does.

use super::room::Room;
use super::tray::replan;
use egui::Key;
use egui::accesskit::Role;
use traywright_core::sign::{EventKind, Piece, StepKey};
use traywright_core::surgery::{CountKind, Work};

/// What fell by the record.
fn fallen(room: &Room) -> Vec<Piece> {
    let kinds = room.kinds().into_iter();
    let fell = kinds.filter_map(|kind| match kind {
        EventKind::Dropped { piece, .. } => Some(piece),
        _ => None,
    });
    fell.collect()
}

/// Picks what fell from the list of all that lies on the tray, the so manieth by its number; gives back how many there are.
fn pick_of_all(room: &mut Room, nth: usize) -> usize {
    room.expect("What was dropped?");
    let all = room.hand.names(Role::Button).len();
    let mut seen = 0;
    for number in 1..90 {
        room.figure(&number.to_string());
        seen += usize::from(room.tells("It was dropped"));
        if seen == nth {
            room.key(Key::Enter);
            return all;
        }
        room.key(Key::Backspace);
        room.key(Key::Backspace);
    }
    panic!("fewer than {nth}: {:#?}", room.told());
}

/// At the count, at a barrier and at the end whatever lies on the tray can fall.
#[test]
fn something_can_fall_at_counts_and_barriers() {
    for words in [
        "Count together, aloud.",
        "Take the guide off",
        "Probe through the seated guide",
    ] {
        let mut room = Room::at("two-molars", words);
        assert_eq!(fallen(&room), []);
        room.key(Key::F);
        // At the sounding the guide is in hand.
        if room.tells("Something else on the tray") {
            room.figure("0");
        }
        let all = pick_of_all(&mut room, 11);
        assert!(all > 11, "{words}: {all}");
        assert_eq!(fallen(&room).len(), 1, "{words}");
        assert!(!room.tells("What was dropped?"));
    }
}

/// At a step what is in hand stands first, and all else on the tray one key farther.
#[test]
fn at_a_step_everything_on_the_tray_can_fall() {
    let mut room = Room::at("two-molars", "read: ");
    let own = room.of_due(|step| {
        let planned = step.drill().and_then(|drill| drill.planned);
        planned.map(|planned| Piece::Drill(planned.key.drill_key()))
    });
    room.key(Key::F);
    room.figure("0");
    pick_of_all(&mut room, 12);
    let fell = fallen(&room);
    assert_eq!(fell.len(), 1);
    assert!(!own.iter().any(|own| fell.contains(own)), "{fell:?}");
}

/// A fall does not wait for a STOP to be answered.
#[test]
fn something_can_fall_over_a_stop() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::Space);
    replan(&room.file);
    let mut room = room.killed();
    room.begin("KE");
    room.expect("The plan is another one");
    room.key(Key::F);
    pick_of_all(&mut room, 2);
    assert_eq!(fallen(&room).len(), 1);
    room.expect("The plan is another one");
}

/// Drops the guide at the step that is shown.
fn drop_the_guide(room: &mut Room) {
    room.key(Key::F);
    room.figure("6");
    room.expect("6: The guide");
    room.key(Key::Enter);
}

/// True if the guide stands among what can fall now, in whatever list.
fn guide_can_fall(room: &mut Room) -> bool {
    let is_guide = |name: &String| name == "The guide";
    room.key(Key::F);
    let mut found = room.hand.names(Role::Button).iter().any(is_guide);
    if room.tells("Something else on the tray") {
        room.figure("0");
        let all = room.hand.names(Role::Button);
        assert_eq!(all.iter().any(is_guide), found, "{all:?}");
        found = all.iter().any(is_guide);
    }
    room.key(Key::Escape);
    found
}

/// The guide falls as anything else does: nothing is done through it until somebody says which guide goes in now, and it is seated
/// and sounded anew.
#[test]
fn the_guide_falls_and_is_seated_and_sounded_anew() {
    let mut room = Room::at("two-molars", "read: ");
    let drill = room.step().0;
    assert!(guide_can_fall(&mut room));
    let before = room.kinds().len();
    drop_the_guide(&mut room);
    let fell = room.kinds().split_off(before);
    assert!(matches!(&fell[..], [EventKind::Dropped { .. }]), "{fell:?}");
    let seat = room.step().0;
    assert!(matches!(seat, StepKey::Seat { .. }), "{seat:?}");
    room.expect("STOP. The guide was dropped");
    assert!(!room.tells("Seat the guide."), "{:#?}", room.told());
    // Nor does it fall again before it is seated.
    assert!(!guide_can_fall(&mut room));
    room.records_nothing(&[Key::Space, Key::Enter]);
    // Nothing is drilled through it out of turn either.
    for _ in 0..40 {
        if room.shown().as_ref() == Some(&drill) {
            break;
        }
        room.key(Key::ArrowRight);
    }
    assert_eq!(room.shown(), Some(drill.clone()));
    room.records_nothing(&[Key::Space, Key::Space, Key::A, Key::A, Key::Escape]);
    room.key(Key::Home);
    room.key(Key::A);
    room.expect("Which guide goes in now?");
    room.records_nothing(&[Key::Enter, Key::Space]);
    room.figure("1");
    room.give("How was it made sterile? Who decided?", "RT: rinsed anew");
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(done.despite.as_deref(), Some("RT: rinsed anew"));
    assert_eq!(room.step().0, seat);
    room.key(Key::Space);
    assert!(matches!(room.step().0, StepKey::Sound { .. }));
    room.until("read: ");
    assert_eq!(room.step().0, drill);
    assert!(guide_can_fall(&mut room));
    room.until("All steps are over, for practice.");
    assert!(!guide_can_fall(&mut room));
    room.expect("was dropped (told by KE)");
}

/// Another guide of the same code takes its place: both are counted out. Broken for good it is abandoned, and falls no more.
#[test]
fn another_guide_takes_the_place_of_one_that_fell() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    drop_the_guide(&mut room);
    let mut broken = room.kinds().len();
    room.key(Key::A);
    room.figure("2");
    room.give("Why another one? Who decided?", "RT: the first one broke");
    assert!(room.kinds().len() > broken);
    room.until("Take the guide off");
    room.key(Key::Space);
    room.until("Count together, aloud.");
    let guides = room.of_due(|step| match &step.work {
        Work::Count(list) => list
            .iter()
            .find(|line| line.kind == CountKind::Guide)
            .map(|line| line.wanted),
        work => panic!("{work:?}"),
    });
    assert_eq!(guides, Some(2));
    room.until("All steps are over, for practice.");

    let mut room = Room::at("two-molars", "Probe through the seated guide");
    drop_the_guide(&mut room);
    broken = room.kinds().len();
    room.key(Key::T);
    room.figure("8");
    room.give("The guide is abandoned, why? Who decided?", "RT: it broke");
    assert!(room.kinds().len() > broken);
    room.hand.press(egui::Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.key(Key::U);
    room.give("Going on as it is now, why? Who decided?", "RT: it broke");
    assert!(!guide_can_fall(&mut room));
}

/// Which guide goes in was answered wrong: that is taken back with why, and asked again.
#[test]
fn a_wrong_answer_on_which_guide_goes_in_is_taken_back() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    drop_the_guide(&mut room);
    room.key(Key::A);
    room.figure("1");
    room.give("How was it made sterile? Who decided?", "RT: rinsed anew");
    assert!(!room.tells("STOP. The guide was dropped"));
    room.key(Key::T);
    let offers = room.hand.names(Role::Button);
    let back = offers
        .iter()
        .find(|name| name.starts_with("Another answer on which guide goes in"));
    let back = back.unwrap_or_else(|| panic!("{offers:?}")).clone();
    room.hand.click(&back);
    room.give(
        "Recorded by mistake, why? Who says so?",
        "MK: it is another one",
    );
    let EventKind::StepTakenBack(said) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert!(matches!(said.step, StepKey::SeatAgain { .. }), "{said:?}");
    room.expect("STOP. The guide was dropped");
    room.key(Key::A);
    room.figure("2");
    room.give("Why another one? Who decided?", "RT: the first one broke");
    assert!(!room.tells("STOP. The guide was dropped"));
}
