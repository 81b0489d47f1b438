//! What is done by hand once the guide was left: with which drill, and what it is told as once it is taken back.

use super::left::{abandoned, forward_to};
use super::room::Room;
use egui::Key;
use traywright_core::dentition::Notation;
use traywright_core::sign::{DrillKey, EventKind, Piece, StepKey};

/// Looks forward to a drill of which no setting is known any more; the piece that lies in its slot by the record.
fn to_a_drill_without_a_setting(room: &mut Room) -> DrillKey {
    for _ in 0..80 {
        let shown = room.shown();
        let found = room.of_day(|day| {
            let step = &day.steps[day.place_of(shown.as_ref()?)?];
            let drill = step.drill().filter(|_| step.may_be_by_hand())?;
            let slot = drill.item.slot.as_ref().filter(|_| drill.planned.is_none());
            Some((drill.item.entry.clone(), slot?.to_string()))
        });
        if let Some((drill, slot)) = found {
            let document = room.hand.program().document().expect("a case");
            let mut drills = document.record.standing.drills.iter();
            let lies = drills.find(|(one, now)| {
                one.drill == drill && now.slot.as_deref() == Some(slot.as_str())
            });
            return lies.expect("it lies there").0.clone();
        }
        room.key(Key::ArrowRight);
    }
    panic!("every drill has a setting");
}

/// Does the step that is looked at by hand.
fn by_hand(room: &mut Room) {
    room.key(Key::H);
    if !room.tells("Depth that is aimed at") {
        room.key(Key::H);
    }
    room.figure("9.5");
    room.key(Key::Enter);
    room.give("By hand, why? Who decided?", "RT: guide left");
}

/// A drill without a known setting is the piece that lies in its slot: that is recorded, and can fall.
#[test]
fn a_drill_without_a_setting_is_the_piece_in_its_slot() {
    let mut room = Room::at("two-molars", "read: ");
    abandoned(&mut room);
    let lies = to_a_drill_without_a_setting(&mut room);
    by_hand(&mut room);
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert!(done.by_hand.is_some());
    assert_eq!(done.piece, Some(lies));
}

/// The same in a hand: what fell at that step is that piece.
#[test]
fn a_drill_without_a_setting_can_fall_out_of_the_hand() {
    let mut room = Room::at("two-molars", "read: ");
    abandoned(&mut room);
    let lies = to_a_drill_without_a_setting(&mut room);
    room.key(Key::F);
    room.figure("1");
    assert!(
        !room.tells("1: Drill. Not in hand at this step"),
        "{:#?}",
        room.told()
    );
    room.key(Key::Enter);
    let fell = |kind: &EventKind| matches!(kind, EventKind::Dropped { piece: Piece::Drill(drill), .. } if *drill == lies);
    assert!(room.kinds().iter().any(fell), "{:?}", room.last());
    // Then it lies nowhere, and none is in hand.
    room.key(Key::F);
    room.expect("1: Drill. Not in hand at this step");
}

/// A step by hand that is taken back is told as it was done: without the setting that was not used.
#[test]
fn what_was_done_by_hand_is_taken_back_as_such() {
    let mut room = Room::at("two-molars", "read: ");
    abandoned(&mut room);
    forward_to(&mut room, "Possible with its stop off (H)");
    let step = room.shown().expect("a step");
    by_hand(&mut room);
    for _ in 0..80 {
        if room.shown().as_ref() == Some(&step) {
            break;
        }
        room.key(Key::ArrowRight);
    }
    room.key(Key::N);
    room.key(Key::N);
    let last = room.last();
    let EventKind::StepTakenBack(back) = &last else {
        panic!("{last:?}")
    };
    assert!(matches!(back.step, StepKey::Drill { .. }));
    let document = room.hand.program().document().expect("a case");
    let formatter = document.formatter(Notation::Iso);
    // Where the event alone is known, it says no more than it knows.
    let alone = formatter.happened_in_surgery(&last);
    assert!(!alone.contains("set to"), "{alone}");
    let record = &document.record;
    let told = formatter.history(
        document.worksheet(),
        &record.events,
        (&record.view, &record.standing),
    );
    let lines: Vec<String> = told.lines().collect();
    let line = lines
        .iter()
        .find(|line| line.contains("Recorded by mistake"));
    let line = line.expect("told");
    assert!(
        line.contains("BY HAND") && line.contains("9.5 mm"),
        "{line}"
    );
    assert!(!line.contains("set to"), "{line}");
}

/// Where a drill can be used by hand, what forbids it says that it is not to be used as it is set, and no sentence more than that.
#[test]
fn what_forbids_a_drill_leaves_the_way_by_hand() {
    let mut room = Room::at("two-molars", "read: ");
    abandoned(&mut room);
    to_a_drill_without_a_setting(&mut room);
    room.expect("Possible with its stop off (H)");
    room.expect("Not with ");
    assert!(!room.tells("Do not drill with it"), "{:#?}", room.told());
}

/// Where it cannot, it is not to be used at all.
#[test]
fn what_forbids_a_guided_drill_leaves_no_way() {
    use egui::vec2;
    let mut room = Room::with(
        "two-molars",
        vec2(1280.0, 800.0),
        |case| case.setup.gauge = None,
        |_| {},
    );
    room.begin("KE");
    for _ in 0..80 {
        if room.tells("Do not drill with it.") {
            assert!(
                !room.tells("Possible with its stop off"),
                "{:#?}",
                room.told()
            );
            return;
        }
        room.key(Key::ArrowRight);
    }
    panic!("none is forbidden");
}
