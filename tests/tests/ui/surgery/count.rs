//! Counts by two people.

use super::room::{Room, SECOND};
use egui::Key;

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
