//! Sounding through the seated guide.

use super::room::Room;
use super::tray::load;
use egui::accesskit::Role;
use egui::{Key, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright_core::sign::EventKind;

/// A probe that shows more than the limit off stops: what is guided there is not ready, whatever is pressed.
#[test]
fn a_sounding_that_is_off_stops() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    let planned: f64 = room.planned().parse().expect("a figure");
    room.figure(&format!("{:.2}", planned + 1.1));
    room.key(Key::Enter);
    room.expect("STOP");
    room.expect("1.1 mm off the plan");
    let at = room.due();
    let kinds = room.kinds().len();
    for key in [Key::Space, Key::A, Key::G, Key::Enter] {
        room.key(key);
    }
    assert_eq!((room.due(), room.kinds().len()), (at, kinds));
    // Sounded again within the limit it goes on.
    room.figure(&format!("{planned:.2}"));
    room.key(Key::Enter);
    assert!(!room.tells("off the plan"));
    assert_eq!(room.due().0, at.0.map(|at| at + 1));
}

/// Left out with a reason, a site that was not sounded says so before each of its drills.
#[test]
fn a_sounding_that_is_left_out_is_told_at_every_drill_of_its_site() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    room.key(Key::S);
    // A reason is words.
    for nothing in [" ", "a", "aa", "RT", "x x"] {
        room.give("Left out, why?", nothing);
        room.expect("Say why, in two words at least.");
    }
    room.give("Left out, why?", "probe broken, RT decided");
    assert!(matches!(room.last(), EventKind::StepSkipped(_)));
    // Told at each of its steps, and asked no more.
    room.until("This site was not sounded: that was left out for a reason.");
    room.key(Key::Space);
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(done.despite, None);
    room.until("This site was not sounded: that was left out for a reason.");
    room.until("All steps are over, for practice.");
    room.expect("probe broken, RT decided");
}

/// At the stop of a sounding what is typed next is in sight, in both windows.
#[test]
fn what_is_typed_at_the_stop_of_a_sounding_is_in_sight() {
    for size in [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)] {
        let mut room = Room::with("two-molars", size, |_| {}, load);
        room.begin("KE");
        room.until("Probe through the seated guide");
        room.figure("15");
        room.key(Key::Enter);
        room.expect("off the plan");
        room.figure("7");
        let buttons = room
            .hand
            .harness
            .query_all_by(|node| node.role() == Role::Button);
        let done =
            buttons.filter(|node| node.accesskit_node().label().as_deref() == Some("Leave out"));
        let foot = done.map(|node| node.rect().top()).fold(size.y, f32::min);
        let typed = room.hand.harness.query_all_by(|node| {
            node.role() == Role::TextInput && node.value().as_deref() == Some("7")
        });
        let rects: Vec<_> = typed.map(|node| node.rect()).collect();
        assert_eq!(rects.len(), 1);
        assert!(rects[0].bottom() <= foot, "{rects:?} {foot} at {size:?}");
    }
}

/// A slip of the decimal mark is told as one, and is no sounding.
#[test]
fn a_mistyped_sounding_is_none() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    let planned: String = room
        .planned()
        .chars()
        .filter(char::is_ascii_digit)
        .collect();
    let kinds = room.kinds();
    room.figure(&planned);
    room.key(Key::Enter);
    room.expect("That looks mistyped");
    assert_eq!(room.kinds(), kinds);
    // Nobody sounds exactly the plan.
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    let planned: f64 = room.planned().parse().expect("a figure");
    room.figure(&format!("{:.2}", (planned + 0.1) / 10.0));
    room.key(Key::Enter);
    room.expect("That looks mistyped");
}
