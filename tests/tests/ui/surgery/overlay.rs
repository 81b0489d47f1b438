//! What lies over a step takes its keys: nothing behind it does.

use super::room::{Room, SECOND};
use egui::Key;

/// Digits that are typed while the list of all steps is open go nowhere.
#[test]
fn what_is_typed_over_the_list_is_no_figure_of_the_step_behind_it() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    let planned = room.planned();
    let before = room.step();
    room.key(Key::L);
    room.expect("All steps");
    room.figure(&planned);
    room.records_nothing(&[Key::Enter, Key::Backspace, Key::P, Key::R, Key::F, Key::T]);
    room.expect("All steps");
    room.key(Key::L);
    room.records_nothing(&[Key::Enter]);
    assert_eq!(room.step(), before);
    // Nor does what is typed behind the changes, or what was counted, change by it.
    room.key(Key::T);
    room.figure(".");
    room.key(Key::Backspace);
    room.key(Key::Escape);
    room.figure(&planned);
    room.key(Key::Enter);
    assert_ne!(room.step(), before);
}

/// What is taken away over another screen is no line of the count behind it.
#[test]
fn a_line_that_was_counted_is_not_taken_away_by_a_key_over_another_screen() {
    let mut room = Room::begun("two-molars");
    let (_, wanted) = room.step();
    let first = wanted[0].to_string();
    room.figure(&first);
    room.key(Key::Enter);
    room.expect(&format!(": {first} counted"));
    for over in [Key::L, Key::T, Key::F] {
        room.key(over);
        room.figure("7");
        room.key(Key::Backspace);
        room.key(Key::Backspace);
        room.key(Key::Escape);
    }
    room.expect(&format!(": {first} counted"));
    for found in &wanted[1..] {
        room.figure(&found.to_string());
        room.key(Key::Enter);
    }
    room.give(SECOND, "JH");
    assert!(room.step().1.is_empty(), "{:?}", room.step());
}

/// A figure that is typed where none is asked for is not kept for the step that asks next.
#[test]
fn digits_at_a_step_without_a_field_are_not_kept() {
    let mut room = Room::at("two-molars", "read: ");
    room.figure("35");
    room.records_nothing(&[Key::Enter]);
    room.key(Key::Space);
    assert!(!room.tells("What was asked or typed is gone"));
}
