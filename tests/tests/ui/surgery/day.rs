//! A whole day by its keys, and one whose program was killed.

use super::room::Room;
use egui::Key;
use traywright_core::sign::{EventKind, StepKey};

fn drilled(kinds: &[EventKind]) -> usize {
    let drilled = kinds.iter().filter(|kind| {
        let step = kind.step_of_day();
        matches!(kind, EventKind::StepDone(_)) && matches!(step, Some(StepKey::Drill { .. }))
    });
    drilled.count()
}

/// The whole day on a loaded tray: each step by one key, each written down once; at the end everything is over.
#[test]
fn a_whole_day_is_led_through_and_recorded_step_by_step() {
    let mut room = Room::of("two-molars");
    room.expect("DEMONSTRATION, practice only");
    // All of it lies there: that nothing was sounded yet is no fault of the tray.
    assert!(!room.tells("not ready: "), "{:#?}", room.told());
    room.begin("KE");
    assert!(matches!(room.last(), EventKind::SurgeryBegun(_)));
    room.expect("Count before the first cut");
    room.until("Probe through the seated guide");
    room.until("All steps are over, for practice.");
    room.expect("Every step was done as planned, in its turn.");
    let (due, all) = room.due();
    assert_eq!(due, None);
    let kinds = room.kinds();
    let of_day = kinds.iter().filter(|kind| kind.step_of_day().is_some());
    assert_eq!(of_day.count(), all, "each step is recorded once");
    let document = room.hand.program().document().expect("a case");
    let planned: usize = document
        .worksheet()
        .sites
        .iter()
        .map(|site| site.steps.len())
        .sum();
    assert_eq!(drilled(&kinds), planned);
    // All of it is practice, and says so.
    for kind in kinds.iter().filter(|kind| kind.step_of_day().is_some()) {
        let json = serde_json::to_value(kind).expect("plain data");
        assert_eq!(json["purpose"], "practice");
    }
}

/// Before each drill the screen has all that a hand needs for it.
#[test]
fn a_step_shows_everything_that_a_hand_needs() {
    let room = Room::at("two-molars", "read: ");
    for words in ["In: ", "→ ", "MK ", "JH ", "rpm", "Then: ", "step 5 of "] {
        room.expect(words);
    }
    // What could be taken for it is named.
    room.expect("Look-alike: ");
}

/// The program is killed in the middle: it goes on where it was, with nothing lost and nothing doubled.
#[test]
fn a_killed_program_goes_on_where_it_was() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::Space);
    let before = (room.due(), room.kinds());
    let mut room = room.killed();
    room.expect("It goes on at step 6 of ");
    assert_eq!((room.due(), room.kinds()), before);
    room.begin("KE");
    // Nothing is begun anew, and nothing recorded by looking.
    assert_eq!(room.kinds(), before.1);
    room.key(Key::Space);
    assert_eq!(room.kinds().len(), before.1.len() + 1);
    room.until("All steps are over, for practice.");
}
