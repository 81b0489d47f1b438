//! What is a stop: nothing that is not ready, and nothing over another plan.

use super::room::{Room, practised};
use super::tray::{approve, load, read, record, replan};
use crate::hand::DESK;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use std::num::NonZeroU32;
use std::path::Path;
use traywright::action::View;
use traywright_core::case::Case;
use traywright_core::kit::SlotKind;
use traywright_core::sign::{EventKind, Piece, Purpose, StepKey, ThingKind};

/// A drill that nobody read is not ready, and its step is not done by one key.
#[test]
fn a_drill_that_was_not_read_is_a_stop() {
    let mut room = Room::with("two-molars", DESK, |_| {}, |_| {});
    room.expect("Nothing is on the tray by the record.");
    room.begin("KE");
    room.until("STOP. It is not verified in the sterile field.");
    room.records_nothing(&[Key::Space]);
    // Nothing to do it by stands among the targets.
    assert!(
        !room
            .hand
            .names(Role::Button)
            .iter()
            .any(|name| name == "Done")
    );
}

/// What fell is not ready any more; R leads to the passes of loading, and Esc back.
#[test]
fn a_drill_that_fell_is_read_again_before_it_is_used() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::F);
    room.expect("What was dropped?");
    room.figure("1");
    room.key(Key::Enter);
    let dropped = |kind: &EventKind| matches!(kind, EventKind::Dropped { piece: Piece::Drill(drill), .. } if drill.copy == NonZeroU32::MIN);
    assert!(room.kinds().iter().any(dropped), "{:?}", room.last());
    room.expect("STOP. It is not verified in the sterile field.");
    room.key(Key::R);
    assert_eq!(room.hand.program().view_state().view, View::Loading);
    room.expect("Who sets and reads? Initials");
    room.key(Key::Escape);
    room.key(Key::Escape);
    assert_eq!(room.hand.program().view_state().view, View::Surgery);
}

/// An approval that is withdrawn while surgery goes on stops it, until somebody says why it goes on.
#[test]
fn a_withdrawn_approval_stops() {
    let patient = |case: &mut Case| {
        case.demonstration = false;
        case.kit.demonstration = false;
    };
    let loaded = |file: &Path| {
        approve(file);
        load(file);
    };
    let mut room = Room::with("two-molars", DESK, patient, loaded);
    assert!(!room.tells("No approval of this plan holds."));
    room.begin("KE");
    let case = read(&room.file);
    let withdrawn = EventKind::ApprovalWithdrawn {
        fingerprint: case.fingerprint(),
        reason: "new scan".to_owned(),
    };
    record(&room.file, &case, "RT", withdrawn);
    let mut room = room.killed();
    room.begin("KE");
    room.expect("STOP");
    room.expect("The approval no longer holds.");
    room.records_nothing(&[Key::Space]);
    room.key(Key::U);
    room.give("Going on as it is now, why? Who decided?", "RT stands here");
    let EventKind::SurgeryBegun(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(begun.despite.as_deref(), Some("RT stands here"));
    room.expect("Count before the first cut");
    room.expect("NOT APPROVED");
}

/// A change of the plan elsewhere stops, says what was done by the other one, and leaves that open in this one.
#[test]
fn a_changed_plan_stops_and_says_what_was_done_by_the_other() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::Space);
    replan(&room.file);
    let mut room = room.killed();
    room.begin("KE");
    room.expect("STOP");
    room.expect("The plan is another one");
    room.expect("Done: ");
    room.key(Key::Space);
    room.expect("The plan is another one");
}

/// What is asked at a step when something stops is asked no more, and nothing of it is recorded.
#[test]
fn a_stop_takes_what_is_being_asked() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::F);
    room.expect("What was dropped?");
    let kinds = room.kinds().len();
    let gone = room.file.with_extension("gone");
    std::fs::rename(&room.file, &gone).expect("moved");
    // The window looks at the disk as a view is asked for.
    room.hand.press(Modifiers::COMMAND, View::Surgery.key());
    room.expect("STOP");
    room.figure("1");
    std::fs::rename(&gone, &room.file).expect("moved back");
    assert_eq!(room.kinds().len(), kinds);
    room.hand.press(Modifiers::COMMAND, View::Surgery.key());
    assert!(!room.tells("What was dropped?"));
    room.expect("read: ");
}

/// After guide off a guided drill is a stop: no sleeve goes in, and nothing records it.
#[test]
fn after_guide_off_a_guided_drill_is_a_stop() {
    let mut room = Room::at("two-molars", "read: ");
    room.expect("In: ");
    room.elsewhere(practised(StepKey::GuideOff {}));
    room.expect("STOP. The guide is off: a guided stop would go deeper without it.");
    assert!(!room.tells("In: "), "{:#?}", room.told());
    let kinds = room.kinds().len();
    for key in [Key::Space, Key::A, Key::Space] {
        room.key(key);
    }
    assert_eq!(room.kinds().len(), kinds);
    assert!(!room.tells("why? Who decided?"));
}

/// A sleeve that fell is a stop as a drill is, and is named before surgery.
#[test]
fn a_sleeve_that_fell_is_a_stop() {
    let mut room = Room::at("two-molars", "read: ");
    let (StepKey::Drill { sleeve, .. }, _) = room.step() else {
        panic!()
    };
    room.elsewhere(EventKind::Dropped {
        piece: Piece::Thing(ThingKind {
            copy: None,
            of: SlotKind::Sleeve,
            entry: sleeve.expect("through a drill sleeve"),
        }),
        purpose: Some(Purpose::Practice),
    });
    room.expect("it was dropped, and none was placed since");
    room.records_nothing(&[Key::Space]);
    let room = room.killed();
    room.expect("a drill or thing that is not ready: ");
}

/// A gauge that was found off is named before surgery, with what it makes not ready.
#[test]
fn a_gauge_that_was_found_off_is_told_before_surgery() {
    let room = Room::with(
        "two-molars",
        DESK,
        |_| {},
        |file| {
            load(file);
            let case = read(file);
            let gauge = case.gauge().expect("a gauge");
            let piece_mm = gauge.check_piece_mm.expect("a check piece");
            let shows = gauge.shows_of(piece_mm).expect("a figure");
            let value_mm = shows + traywright_core::measure::Length::from_um(500);
            let off = EventKind::GaugeChecked {
                gauge: gauge.id.to_string(),
                piece_mm,
                value_mm,
                asked_back_mm: vec![value_mm],
                purpose: Some(case.purpose()),
            };
            record(file, &case, "MK", off);
        },
    );
    room.expect("The gauge was found off by 0.5 mm");
    room.expect("steps have a drill or thing that is not ready: ");
}
