//! The plan changed on the table.

use super::room::Room;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use traywright_core::sign::{EventKind, StepKey};

/// The next shorter implant on the table: worked out at once, told before it is saved, and gone on with by who decided.
#[test]
fn a_shorter_implant_on_the_table_is_worked_out_at_once() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::Space);
    room.until("step 9 of ");
    let before = room
        .hand
        .program()
        .document()
        .expect("a case")
        .case()
        .clone();
    room.key(Key::T);
    room.expect("What is to be done otherwise here?");
    room.expect("Take Reed");
    room.figure("1");
    room.hand.harness.run();
    room.expect("The plan has changes that are not saved.");
    // What lies wrong by it is told before it is saved.
    room.expect("The plan is another one");
    room.expect("now planned at");
    room.records_nothing(&[Key::Space]);
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.expect("STOP");
    let after = room
        .hand
        .program()
        .document()
        .expect("a case")
        .case()
        .clone();
    assert_ne!(before.sites[0].implant, after.sites[0].implant);
    room.key(Key::U);
    room.give(
        "Going on as it is now, why? Who decided?",
        "RT: too little bone",
    );
    let EventKind::SurgeryBegun(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(begun.fingerprint, after.fingerprint());
    assert!(!begun.lies_wrong.is_empty());
    // No drill that is set for the other implant is ready.
    room.expect("STOP. ");
}

/// Stopped at a site, all that is open there is left out for one reason, and nothing anywhere else.
#[test]
fn stopping_at_a_site_leaves_out_what_is_open_there_alone() {
    let mut room = Room::at("two-molars", "read: ");
    let before = room.kinds().len();
    room.key(Key::T);
    let offers = room.hand.names(Role::Button);
    let stop = "Stop here: leave out all that is open at this site";
    assert!(offers.iter().any(|name| name == stop), "{offers:?}");
    room.hand.click(stop);
    room.give("Stopped here, why? Who decided?", "RT: no primary hold");
    let new = room.kinds().split_off(before);
    assert!(new.len() > 1);
    for kind in &new {
        assert!(matches!(kind, EventKind::StepSkipped(_)), "{kind:?}");
        let site = kind.step_of_day().and_then(StepKey::site);
        assert_eq!(
            site.map(|site| site.tooth.to_string()).as_deref(),
            Some("46")
        );
    }
    room.until("All steps are over, for practice.");
    room.expect("Left out: ");
}
