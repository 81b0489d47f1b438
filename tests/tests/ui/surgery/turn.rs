//! Steps out of turn, and answers that are of another step.

use super::room::{Room, practised};
use crate::hand::DESK;
use egui::Key;
use traywright_core::sign::{EventKind, Inserted, InsertionWay, Purpose, Sounded, StepKey};

/// A step ahead is done only by a second press, and is recorded with the one that was due.
#[test]
fn a_step_out_of_turn_is_told_and_recorded() {
    let mut room = Room::at("two-molars", "read: ");
    let at = room.due().0.expect("due");
    room.key(Key::ArrowRight);
    room.expect("Only looked at. Due is: ");
    let kinds = room.kinds().len();
    room.key(Key::Space);
    room.expect("OUT OF TURN: 1 step before it is open");
    assert_eq!(room.kinds().len(), kinds);
    room.key(Key::Space);
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert!(done.due.is_some());
    assert_eq!(room.due().0, Some(at), "what was due is due");
    // By mistake: pressed twice, and recorded.
    room.key(Key::ArrowRight);
    room.key(Key::N);
    room.expect("Press N again");
    room.key(Key::N);
    assert!(matches!(room.last(), EventKind::StepTakenBack(_)));
}

/// What is asked at a step is of that step alone: once another desk recorded it, the answer is written for no other one.
#[test]
fn a_question_does_not_outlive_its_step() {
    let mut room = Room::at("two-molars", "By its carrier, to its line");
    let (step, _) = room.step();
    room.key(Key::G);
    room.figure("35");
    room.key(Key::Enter);
    room.expect("How far from its planned depth did it stop?");
    room.elsewhere(EventKind::Inserted(Inserted {
        step: step.clone(),
        way: InsertionWay::Guided,
        torque_ncm: None,
        coronal_of_plan_mm: None,
        due: None,
        despite: None,
        purpose: Purpose::Practice,
    }));
    assert!(!room.tells("How far from its planned depth did it stop?"));
    room.expect("The step changed meanwhile");
    let others = |room: &Room| {
        let kinds = room.kinds().into_iter();
        kinds
            .filter(|kind| matches!(kind, EventKind::Inserted(one) if one.step != step))
            .count()
    };
    assert_eq!(others(&room), 0);
    room.key(Key::Space);
    assert_eq!(others(&room), 0, "{:?}", room.last());
}

/// Nor does a reason, nor a figure that is typed.
#[test]
fn a_reason_and_a_typed_figure_do_not_outlive_their_step() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    let (step, _) = room.step();
    let StepKey::Sound { planned_mm, .. } = &step else {
        panic!("{step:?}")
    };
    room.figure("7.4");
    room.elsewhere(EventKind::Sounded(Sounded {
        step: step.clone(),
        found_mm: planned_mm.expect("a figure"),
        due: None,
        purpose: Purpose::Practice,
    }));
    room.expect("The step changed meanwhile");
    let kinds = room.kinds().len();
    room.key(Key::Enter);
    assert_eq!(room.kinds().len(), kinds, "{:?}", room.last());
    room.until("read: ");
    let (step, _) = room.step();
    room.key(Key::S);
    room.expect("Left out, why?");
    room.elsewhere(practised(step));
    assert!(!room.tells("Left out, why?"));
    room.expect("The step changed meanwhile");
}

/// Two desks recorded the same step: that is told, and taken back as a whole.
#[test]
fn a_step_that_two_desks_recorded_is_taken_back_as_a_whole() {
    let mut room = Room::at("two-molars", "read: ");
    let (step, _) = room.step();
    room.key(Key::Space);
    room.elsewhere(practised(step.clone()));
    room.key(Key::ArrowLeft);
    room.expect("Recorded 2 times: ");
    room.key(Key::N);
    room.key(Key::N);
    assert_eq!(room.step().0, step);
}

/// A sounding out of turn is asked twice too, and a step ahead of an open barrier says that it waits.
#[test]
fn a_sounding_out_of_turn_is_asked_twice_and_steps_ahead_wait() {
    let mut room = Room::begun("two-molars");
    for _ in 0..4 {
        room.key(Key::ArrowRight);
    }
    room.expect("Not yet");
    room.expect("First: count before the first cut");
    room.key(Key::Home);
    room.until("Probe through the seated guide");
    room.key(Key::ArrowRight);
    let kinds = room.kinds().len();
    room.figure("3");
    room.key(Key::Enter);
    room.expect("OUT OF TURN: 1 step before it is open");
    assert_eq!(room.kinds().len(), kinds);
    room.key(Key::Enter);
    let EventKind::Sounded(sounded) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert!(sounded.due.is_some());
}

/// Nor is a step ahead done for a reason by one press.
#[test]
fn a_reason_out_of_turn_is_asked_twice() {
    let mut room = Room::with("two-molars", DESK, |_| {}, |_| {});
    room.begin("KE");
    for _ in 0..4 {
        room.key(Key::ArrowRight);
    }
    room.expect("STOP. ");
    room.key(Key::A);
    room.expect("OUT OF TURN: 4 steps before it are open");
    assert!(!room.tells("Gone on with all the same, why? Who decided?"));
    room.key(Key::A);
    room.expect("Gone on with all the same, why? Who decided?");
}

/// Escape is an answer to what is asked at the foot, and to nothing behind it: the view stays, and nothing is recorded.
#[test]
fn escape_at_what_is_asked_twice_closes_the_question_alone() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::Space);
    room.key(Key::ArrowLeft);
    room.key(Key::N);
    room.expect("Was it recorded by mistake?");
    room.records_nothing(&[Key::Escape]);
    room.expect("Only looked at.");
    assert!(
        !room.tells("Was it recorded by mistake?"),
        "{:#?}",
        room.told()
    );
    // Asked anew it is asked once more.
    room.records_nothing(&[Key::N]);
    room.expect("Was it recorded by mistake?");
    // Out of turn, too.
    room.key(Key::Home);
    room.key(Key::ArrowRight);
    room.key(Key::Space);
    room.expect("OUT OF TURN");
    room.records_nothing(&[Key::Escape]);
    room.expect("Only looked at.");
    room.key(Key::Escape);
    assert!(!room.tells("Only looked at."), "the view is left");
}

/// Nor does it leave the view over a figure that is typed, or lines that were counted: first what is typed goes, and a count in hand is
/// asked about.
#[test]
fn escape_takes_away_what_is_typed_before_the_view_is_left() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    room.figure("9");
    room.records_nothing(&[Key::Escape]);
    room.expect("Probe through the seated guide");
    let mut room = Room::at("two-molars", "Count together, aloud.");
    room.figure("1");
    room.key(Key::Enter);
    room.expect("1 counted");
    room.records_nothing(&[Key::Escape]);
    room.expect("Count together, aloud.");
    room.expect("1 counted");
    room.key(Key::Escape);
    assert!(!room.tells("Count together, aloud."), "the view is left");
}
