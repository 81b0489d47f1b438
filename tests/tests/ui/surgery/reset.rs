//! A re-set with readings of its own.

use super::room::Room;
use super::tray::{load, read, record};
use crate::hand::DESK;
use egui::Key;
use std::num::NonZeroU32;
use std::path::Path;
use traywright::action::View;
use traywright_core::case::Case;
use traywright_core::kit::SlotKind;
use traywright_core::plan::work_out;
use traywright_core::sign::{EventKind, Purpose, ThingKey};

/// A re-set is set, read and read aloud in passes of its own; only then its step is over and the next one ready.
#[test]
fn a_re_set_has_readings_of_its_own() {
    let one_drill = |case: &mut Case| {
        for drill in &mut case.kit.drills {
            if drill.id.as_str() == "tip-257" {
                drill.quantity = 1;
            }
        }
    };
    let mut room = Room::with("two-molars", DESK, one_drill, load);
    room.begin("KE");
    room.until("Re-set it");
    let at = room.due();
    room.key(Key::Space);
    assert_eq!(room.hand.program().view_state().view, View::Loading);
    room.give("Who sets and reads? Initials", "MK");
    room.figure("21,7");
    room.key(Key::Enter);
    // It is led to the drill that is set anew.
    room.expect("Not now: in surgery");
    room.key(Key::O);
    room.key(Key::O);
    for _ in 0..4 {
        room.key(Key::Space);
    }
    room.figure("19.1");
    room.key(Key::Enter);
    room.key(Key::Space);
    // Read once it is not verified: surgery does not go on with it.
    let back = |room: &mut Room| {
        for _ in 0..4 {
            if room.hand.program().view_state().view == View::Surgery {
                return;
            }
            room.key(Key::Escape);
        }
        panic!("no way back: {:#?}", room.told());
    };
    back(&mut room);
    assert_eq!(room.due(), at);
    room.key(Key::R);
    room.key(Key::Escape);
    room.key(Key::C);
    room.give("Who reads the gauge aloud? Initials", "JH");
    room.give("Who enters what is read aloud? Initials", "KE");
    room.figure("19.1");
    room.key(Key::Enter);
    back(&mut room);
    assert_eq!(room.due().0, at.0.map(|at| at + 1));
    room.expect("read: MK 19.1, JH 19.1");
    room.until("All steps are over, for practice.");
}

/// A drill that lies in its wrapping is led to as it is: it is opened, set and read there.
#[test]
fn a_sealed_drill_is_led_to_and_opened() {
    let sealed = |file: &Path| {
        let case = read(file);
        let worksheet = work_out(&case);
        let mut drills = worksheet.loading.iter();
        let pilot = drills.find(|item| item.kind == SlotKind::Drill);
        let pilot = pilot.expect("a pilot drill");
        let placed = EventKind::ThingPlaced {
            thing: ThingKey {
                of: SlotKind::Drill,
                entry: pilot.entry.clone(),
                copy: NonZeroU32::MIN,
            },
            slot: pilot.slot.as_ref().map(ToString::to_string),
            purpose: Some(Purpose::Practice),
        };
        record(file, &case, "MK", placed);
    };
    let mut room = Room::with("two-molars", DESK, |_| {}, sealed);
    room.begin("KE");
    room.until("STOP. It is not verified in the sterile field.");
    room.expect("Pilot drill 2.13");
    room.key(Key::R);
    room.give("Who sets and reads? Initials", "MK");
    room.figure("21,7");
    room.key(Key::Enter);
    room.expect("Pilot drill 2.13");
    room.key(Key::O);
    room.key(Key::O);
    let opened = |kind: &EventKind| matches!(kind, EventKind::Opened { thing, .. } if thing.of == SlotKind::Drill);
    assert!(room.kinds().iter().any(opened), "{:#?}", room.told());
}
