//! Counts by two people.

use super::room::{Room, SECOND, WHO};
use super::tray::load;
use crate::hand::DESK;
use egui::Key;
use traywright_core::case::Case;
use traywright_core::sign::EventKind;

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
