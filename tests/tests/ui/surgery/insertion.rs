//! Three ways to turn an implant in, with what it reached.

use super::room::Room;
use egui::Key;
use traywright_core::sign::{EventKind, InsertionWay};

/// Begun through its sleeve, an implant is turned to its depth by hand once the guide is off.
#[test]
fn an_insertion_begun_through_the_sleeve_ends_by_hand_after_the_guide_is_off() {
    let mut room = Room::at("one-premolar", "Begun through its sleeve");
    room.expect("By hand: ");
    room.expect("Maximum insertion torque");
    room.key(Key::B);
    let EventKind::Inserted(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!((begun.way, begun.torque_ncm), (InsertionWay::Begun, None));
    room.until("Take the guide off");
    room.key(Key::Space);
    room.expect("Turn it to its depth by hand.");
    room.key(Key::Space);
    room.figure("32");
    room.key(Key::Enter);
    // Half a millimetre coronal of its plan.
    room.figure("0.5");
    room.key(Key::Enter);
    let EventKind::Inserted(ended) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(ended.way, InsertionWay::Ended);
    assert_eq!(
        ended.torque_ncm.map(|one| one.to_string()).as_deref(),
        Some("32")
    );
    assert_eq!(
        ended
            .coronal_of_plan_mm
            .map(|one| one.to_string())
            .as_deref(),
        Some("0.5")
    );
    room.until("All steps are over, for practice.");
}

/// A torque above the kit's limit and a depth far off the plan are asked again, recorded as such and told at the end.
#[test]
fn what_an_implant_reached_off_its_limits_is_asked_again() {
    let mut room = Room::at("two-molars", "By its carrier, to its line");
    room.key(Key::G);
    room.figure("150");
    room.key(Key::Enter);
    room.expect("STOP. ABOVE ITS LIMIT: 150 N·cm");
    room.expect("Torque reached");
    room.key(Key::Enter);
    room.expect("How far from its planned depth did it stop?");
    let kinds = room.kinds().len();
    room.figure("4");
    room.key(Key::D);
    room.expect("STOP. OFF ITS PLAN: 4.0 mm apical");
    assert_eq!(room.kinds().len(), kinds);
    room.key(Key::D);
    assert!(matches!(room.last(), EventKind::Inserted(_)));
    room.key(Key::ArrowLeft);
    room.expect("ABOVE ITS LIMIT: 150 N·cm");
    room.expect("OFF ITS PLAN: 4.0 mm apical");
    room.key(Key::Home);
    room.until("All steps are over, for practice.");
    room.expect("ABOVE ITS LIMIT: 150 N·cm");
    assert!(!room.tells("Every step was done as planned"));
}

/// An implant that was planned through the guide and went in by hand is told at the end.
#[test]
fn an_insertion_by_hand_is_told_at_the_end() {
    let mut room = Room::at("one-premolar", "Begun through its sleeve");
    room.key(Key::H);
    room.reached("30");
    room.until("All steps are over, for practice.");
    assert!(!room.tells("Every step was done as planned"));
    room.expect("without the guide");
}
