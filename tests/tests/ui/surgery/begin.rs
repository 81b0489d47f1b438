//! How a day is begun and gone on with: never by the way.

use super::room::{Room, WHO};
use super::tray::{load, read, record_at, replan};
use crate::hand::DESK;
use egui::{Key, Modifiers};
use std::path::Path;
use traywright_core::sign::{
    Approved, EventKind, Purpose, StepDone, StepKey, SurgeryBegun, ThingKey,
};
use traywright_core::surgery::NotReady;

const WHY: &str = "Going on as it is now, why? Who decided?";

fn has_begun(room: &Room) -> bool {
    let kinds = room.kinds();
    kinds
        .iter()
        .any(|kind| matches!(kind, EventKind::SurgeryBegun(_)))
}

/// Over a tray that lies wrong nobody begins without saying why: leaving the question leaves the day as it was.
#[test]
fn whoever_does_not_say_why_begins_nothing() {
    let mut room = Room::with(
        "two-molars",
        DESK,
        |_| {},
        |file| {
            load(file);
            replan(file);
        },
    );
    room.give(WHO, "KE");
    room.expect(WHY);
    room.key(Key::Escape);
    room.expect(WHO);
    assert!(!has_begun(&room));
    room.records_nothing(&[Key::Space, Key::Enter, Key::A]);
    room.give(WHO, "KE");
    room.give(WHY, "RT: the tray is set anew");
    assert!(has_begun(&room));
    room.expect("Count before the first cut");
}

/// What a STOP tells somebody to take may be in a hand: it is read again, though the plan comes back.
#[test]
fn what_a_stop_told_to_take_is_read_again_though_the_plan_comes_back() {
    let mut room = Room::at("two-molars", "read: ");
    let is_told = |room: &Room| {
        room.of_day(|day| {
            let mut steps = day.steps.iter();
            steps.any(|step| step.not_ready.contains(&NotReady::Told))
        })
    };
    assert!(!is_told(&room));
    room.key(Key::T);
    room.figure("1");
    room.give("Changed so, why? Who decided?", "RT: too little bone");
    room.hand.harness.run();
    room.expect("The plan has changes that are not saved.");
    let kinds = room.kinds();
    assert!(
        kinds
            .iter()
            .any(|kind| matches!(kind, EventKind::Told { .. }))
    );
    room.hand.press(Modifiers::COMMAND, Key::Z);
    room.hand.wait();
    assert!(is_told(&room), "{:#?}", room.told());
}

/// A reason is given for what was shown: what comes while it is typed was read by nobody.
#[test]
fn a_reason_to_go_on_is_for_what_was_shown() {
    let mut room = Room::at("two-molars", "read: ");
    let (case, standing) = {
        let document = room.hand.program().document().expect("a case");
        (document.case().clone(), document.record.standing.clone())
    };
    let mut things = standing.thing_slots.into_iter();
    let (first, _) = things.next().expect("a thing lies there");
    let (second, _) = things.next().expect("another");
    let elsewhere = |thing: &ThingKey| EventKind::ThingPlaced {
        thing: thing.clone(),
        slot: Some("Elsewhere 1".to_owned()),
        purpose: Some(case.purpose()),
    };
    room.elsewhere(elsewhere(&first));
    room.expect("STOP");
    room.key(Key::U);
    room.expect(WHY);
    room.elsewhere(elsewhere(&second));
    assert!(!room.tells(WHY), "{:#?}", room.told());
    room.expect("STOP");
    room.key(Key::U);
    room.give(WHY, "RT saw both");
    let EventKind::SurgeryBegun(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!((begun.lies_wrong.len(), begun.wrong_as.len()), (2, 2));
    assert!(!room.tells("STOP"));
}

/// A day that was left long ago is another sitting or this one: somebody says so before anything is recorded.
#[test]
fn a_day_that_was_left_long_ago_asks_for_another_sitting() {
    let left = |file: &Path| {
        load(file);
        let case = read(file);
        let purpose = Purpose::Practice;
        let begun = EventKind::SurgeryBegun(SurgeryBegun {
            fingerprint: case.fingerprint(),
            approval: Approved::Open,
            lies_wrong: Vec::new(),
            despite: None,
            wrong_as: Vec::new(),
            anew: false,
            purpose,
        });
        let seat = EventKind::StepDone(StepDone {
            step: StepKey::Seat {
                guide: case.guide.code.as_ref().map(ToString::to_string),
            },
            piece: None,
            due: None,
            despite: None,
            by_hand: None,
            purpose,
        });
        let at = "2026-11-24T18:00:00Z".parse().expect("a time");
        record_at(file, &case, at, "KE", begun);
        record_at(file, &case, at, "KE", seat);
    };
    for (answer, anew) in [("1", false), ("2", true)] {
        let mut room = Room::with("two-molars", DESK, |_| {}, left);
        let is_done = |room: &Room| room.of_day(|day| day.progress().0);
        assert_eq!(is_done(&room), 1);
        room.give(WHO, "KE");
        room.expect("Is this the same sitting?");
        room.records_nothing(&[Key::Space, Key::Enter]);
        room.key(Key::Escape);
        room.expect(WHO);
        room.give(WHO, "KE");
        room.figure(answer);
        let begins = |kind: &EventKind| matches!(kind, EventKind::SurgeryBegun(one) if one.anew);
        // That the sitting goes on is no event: what changed since is a STOP all the same.
        assert_eq!(begins(&room.last()), anew, "{:?}", room.last());
        assert_eq!(is_done(&room), usize::from(!anew));
        if anew {
            let document = room.hand.program().document().expect("a case");
            assert!(document.record.standing.thing_slots.is_empty());
        }
    }
}

/// A demonstration says at its start that it is one, in the words of loading's start.
#[test]
fn the_start_of_a_demonstration_says_that_it_is_for_practice() {
    let words =
        "For practice: this plan is not approved for a patient, and nothing that is read counts.";
    let mut room = Room::of("two-molars");
    room.expect(words);
    room.begin("KE");
    assert!(!room.tells(words), "{:#?}", room.told());
}
