//! Counts by two people.

use super::room::{Room, SECOND, WHO};
use super::tray::load;
use crate::hand::DESK;
use egui::Key;
use traywright::action::View;
use traywright_core::case::Case;
use traywright_core::dentition::Notation;
use traywright_core::figures::record_figures;
use traywright_core::record::record;
use traywright_core::sign::{CountKind, EventKind, Purpose, StepKey};
use traywright_core::surgery::{CountWanted, Work};

/// Two people count, and what lacks is a stop until somebody says what became of it.
#[test]
fn a_count_needs_two_people_and_agrees() {
    let mut room = Room::begun("one-premolar");
    room.expect("Count before the first cut");
    // Both count without a figure in sight.
    let (_, wanted) = room.step();
    assert!(wanted.iter().any(|wanted| *wanted > 1));
    for number in wanted {
        assert!(
            !room
                .told()
                .iter()
                .any(|text| text.ends_with(&format!(": {number}")))
        );
    }
    let kinds = room.kinds().len();
    room.key(Key::Space);
    room.expect("Type the number that was counted");
    room.count(Some(0));
    assert_eq!(room.kinds().len(), kinds);
    room.give(SECOND, "K. E.");
    room.expect("Another person counts too");
    room.give(SECOND, "JH");
    room.expect("STOP");
    room.expect("0 instead of 1");
    let at = room.due();
    room.key(Key::A);
    room.give(
        "Gone on with all the same, why? Who decided?",
        "lies on the table",
    );
    assert_ne!(room.due(), at);
}

/// Nor are they two who may both be short for somebody of the team, whatever becomes of a count that does not agree.
#[test]
fn two_short_names_of_one_person_count_as_one() {
    let berg = |case: &mut Case| case.team.second_checker = Some("Anna Berg".into());
    let mut room = Room::with("one-premolar", DESK, berg, load);
    room.begin("Berg");
    room.count(Some(0));
    let kinds = room.kinds().len();
    room.give(SECOND, "AB");
    room.expect("Another person counts too");
    assert_eq!(room.kinds().len(), kinds);
    room.give(SECOND, "JH");
    room.expect("STOP");
}

/// A line that was mistyped is counted again, and so is a whole count that does not agree.
#[test]
fn a_count_can_be_put_right_and_counted_again() {
    let mut room = Room::begun("one-premolar");
    let at = room.due();
    room.count(Some(0));
    room.expect(SECOND);
    room.key(Key::Escape);
    let last = room.step().1.pop().expect("a line");
    room.figure(&last.to_string());
    room.key(Key::Enter);
    room.give(SECOND, "JH");
    room.expect("STOP");
    room.key(Key::Enter);
    room.expect("Count together, aloud.");
    room.figure("9");
    room.key(Key::Enter);
    room.key(Key::Backspace);
    room.count(None);
    room.give(SECOND, "JH");
    let EventKind::Counted(counted) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(counted.amiss().count(), 0);
    assert_ne!(room.due(), at);
}

/// Whoever says what became of what lacks, two people counted.
#[test]
fn a_count_stays_of_two_people_whoever_says_what_became_of_it() {
    let mut room = Room::begun("one-premolar");
    room.count(Some(0));
    room.give(SECOND, "JH");
    room.key(Key::P);
    room.give(WHO, "JH");
    room.key(Key::A);
    room.give(
        "Gone on with all the same, why? Who decided?",
        "lies on the table",
    );
    let EventKind::Counted(counted) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(counted.second.as_str(), "KE");
}

/// At the count before closing, after a drill fell with its stop and its spare was laid with one.
fn after_a_fall() -> (Room, Vec<CountWanted>) {
    let mut room = Room::at("two-molars", "read: ");
    let piece = room.of_due(|step| {
        let planned = step.drill().and_then(|drill| drill.planned);
        planned.expect("set").key.clone()
    });
    let slot = {
        let document = room.hand.program().document().expect("a case");
        let now = document.record.standing.drills.get(&piece.drill_key());
        now.and_then(|now| now.slot.clone()).expect("it lies")
    };
    room.key(Key::F);
    room.figure("1");
    room.key(Key::Enter);
    room.elsewhere(EventKind::Placed {
        item: piece,
        slot,
        purpose: Some(Purpose::Practice),
    });
    while !matches!(room.step().0, StepKey::CountOut { .. }) {
        room.key(Key::S);
        room.give("Left out, why?", "only looked at");
    }
    let list = room.of_due(|step| match &step.work {
        Work::Count(list) => list.clone(),
        work => panic!("{work:?}"),
    });
    (room, list)
}

/// Counts a list, its stops with so many less and so many of them used again.
fn count_stops(room: &mut Room, list: &[CountWanted], (less, again): (u32, u32)) {
    for line in list {
        let found = match line.kind {
            CountKind::Stops => line.wanted - less,
            CountKind::StopsAgain => again,
            _ => line.wanted,
        };
        room.figure(&found.to_string());
        room.key(Key::Enter);
    }
    room.give(SECOND, "JH");
}

/// A stop that goes from a dropped drill onto its spare is one: the count before closing asks for it, and agrees.
#[test]
fn a_stop_that_was_used_again_is_not_counted_twice() {
    for again in [0_u32, 1] {
        let (mut room, list) = after_a_fall();
        room.expect("Stops of dropped drills that are on another drill again");
        count_stops(&mut room, &list, (again, again));
        room.expect("All steps are over, for practice.");
        let EventKind::Counted(counted) = room.last() else {
            panic!("{:?}", room.last())
        };
        assert_eq!(counted.amiss().count(), 0, "{again}");
    }
}

/// A stop that lacks is amiss also where one might have been used again and was not.
#[test]
fn a_stop_that_lacks_is_amiss_whatever_fell() {
    for (less, again) in [(1, 0), (0, 1), (2, 1), (2, 2)] {
        let (mut room, list) = after_a_fall();
        count_stops(&mut room, &list, (less, again));
        room.expect("STOP");
        room.expect("tops ");
    }
}

/// What falls after the last count is counted for, and that is said.
#[test]
fn a_fall_after_the_last_count_asks_for_another_and_says_why() {
    let mut room = Room::at("two-molars", "All steps are over, for practice.");
    room.key(Key::F);
    room.figure("1");
    room.key(Key::Enter);
    room.expect("Count together, aloud.");
    room.expect("Something was dropped since it was counted");
}

/// Nor does the record say that all is as it should be beside a count that a fall opened again.
#[test]
fn a_count_that_a_fall_opened_again_is_told_so_in_the_record() {
    let mut room = Room::at("two-molars", "All steps are over, for practice.");
    let counted = |room: &Room| {
        let document = room.hand.program().document().expect("a case");
        let of = &document.record;
        let (case, worksheet) = (document.case(), document.worksheet());
        let record = record(case, worksheet, (&of.view, &of.standing));
        let formatter = document.formatter(Notation::Iso);
        let json = record_figures(&formatter, worksheet, &record);
        let json = serde_json::to_value(json).expect("data");
        (
            formatter.record_count(&record, record.count_out),
            json["count_out"].clone(),
        )
    };
    let (said, data) = counted(&room);
    assert!(said.contains("all as it should be"), "{said}");
    assert!(data["fell_since"].is_null(), "{data}");
    room.key(Key::F);
    room.figure("1");
    room.key(Key::Enter);
    let (said, data) = counted(&room);
    assert!(!said.contains("all as it should be"), "{said}");
    assert!(said.contains("Something was dropped since"), "{said}");
    assert_eq!(data["fell_since"], true, "{data}");
    room.hand.go(View::Record);
    // Among the counts and in the run of the day.
    let told = room.told();
    let counts = told
        .iter()
        .filter(|line| line.contains("ount before closing") && line.contains("JH"));
    let counts: Vec<&String> = counts.collect();
    assert!(counts.len() > 1, "{told:#?}");
    for line in counts {
        assert!(line.contains("Something was dropped since"), "{line}");
    }
}
