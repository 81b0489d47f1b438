//! Something fell, wherever in the day it does.

use super::room::Room;
use super::tray::replan;
use egui::Key;
use egui::accesskit::Role;
use traywright_core::sign::{EventKind, Piece};

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
