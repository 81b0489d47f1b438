//! The changes on the table and what fell: each keeps its number, and none acts by it alone.

use super::room::Room;
use egui::Key;
use std::collections::BTreeMap;
use traywright_core::sign::{EventKind, Piece, StepKey};

/// What the number of a change leads to at the step that is shown; nothing of it is done.
fn leads_to(room: &mut Room, number: usize) -> Vec<String> {
    let kinds = room.kinds();
    room.key(Key::T);
    room.expect("What is to be done otherwise here?");
    room.figure(&number.to_string());
    let told = room.told();
    room.key(Key::Escape);
    assert_eq!(room.kinds(), kinds, "{number}");
    let document = room.hand.program().document().expect("a case");
    assert!(!document.is_changed(), "{number}");
    told
}

/// One number is one change at every step of the day, and none is done by its number.
#[test]
fn each_change_keeps_its_number_at_every_step() {
    let names = [
        (3, "Without the profile drill"),
        (4, "Without the guide from here"),
        (5, "Stop here"),
        (6, "The guide came off"),
        (7, "The guide did not come off"),
        (8, "Abandon the guide"),
        (9, "The guide is not abandoned"),
    ];
    let mut room = Room::begun("two-molars");
    let mut offered: BTreeMap<usize, usize> = BTreeMap::new();
    for words in [
        "Count together, aloud.",
        "Probe through the seated guide",
        "read: ",
        "By its carrier, to its line",
        "Take the guide off",
    ] {
        room.until(words);
        for (number, name) in names {
            room.key(Key::T);
            // Where it is not possible it stands in its place all the same, and says why.
            let all = room.told();
            let here = all.iter().find(|text| text.contains(name));
            assert!(here.is_some(), "{words}: {name} among {all:#?}");
            room.key(Key::Escape);
            let told = leads_to(&mut room, number);
            let asks = |one: &String| one.contains("why?") || one.contains("Enter: ");
            if told.iter().any(asks) {
                *offered.entry(number).or_default() += 1;
                assert!(
                    told.iter().any(|one| one.contains(name)),
                    "{name}: {told:#?}"
                );
            } else {
                assert!(
                    told.iter().any(|one| one.contains("Not now")),
                    "{name}: {told:#?}"
                );
            }
        }
    }
    assert!(
        offered.get(&4).is_some_and(|times| *times > 1),
        "{offered:?}"
    );
    assert!(
        offered.get(&8).is_some_and(|times| *times > 2),
        "{offered:?}"
    );
    assert_eq!(offered.get(&7), None);
}

/// That the guide came off takes who says so and why.
#[test]
fn the_guide_comes_off_by_a_reason_alone() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::T);
    room.records_nothing(&[Key::Num6, Key::Enter, Key::Space]);
    room.figure("6");
    room.give("The guide came off, why? Who says so?", "RT: it was lifted");
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(done.step, StepKey::Lifted {});
    assert_eq!(done.despite.as_deref(), Some("RT: it was lifted"));
    assert!(matches!(room.step().0, StepKey::Seat { .. }));
}

/// The numbers of what is in hand are of its kind, not of the step; a fall is recorded by Enter alone.
#[test]
fn what_is_in_hand_keeps_its_number() {
    let mut room = Room::at("two-molars", "By its carrier, to its line");
    room.key(Key::F);
    // A drill is the first, and none is in hand here.
    room.records_nothing(&[Key::Enter]);
    room.figure("1");
    room.expect("Not in hand at this step");
    room.records_nothing(&[Key::Enter]);
    room.figure("3");
    room.records_nothing(&[Key::Space]);
    room.key(Key::Enter);
    let kinds = room.kinds();
    let fell = kinds.iter().rev().find_map(|kind| match kind {
        EventKind::Dropped { piece, .. } => Some(piece.clone()),
        _ => None,
    });
    assert!(
        matches!(&fell, Some(Piece::Thing(thing)) if thing.of == traywright_core::kit::SlotKind::Implant),
        "{fell:?}"
    );
}

/// A thing on the tray keeps its number whatever fell before.
#[test]
fn what_lies_on_the_tray_keeps_its_number_whatever_fell() {
    let mut room = Room::at("two-molars", "Count together, aloud.");
    let list = |room: &mut Room| {
        room.key(Key::F);
        let mut named = BTreeMap::new();
        for number in 1..40 {
            room.figure(&number.to_string());
            let prefix = format!("{number}: ");
            let told = room.told();
            let name = told.iter().find_map(|text| text.strip_prefix(&prefix));
            if let Some(name) = name.filter(|name| name.contains("slot")) {
                named.insert(number, name.to_owned());
            }
            room.key(Key::Backspace);
            room.key(Key::Backspace);
        }
        room.key(Key::Escape);
        named
    };
    let before = list(&mut room);
    assert!(before.len() > 5, "{before:?}");
    let first = *before.keys().next().expect("one");
    room.key(Key::F);
    room.figure(&first.to_string());
    room.key(Key::Enter);
    let after = list(&mut room);
    let mut gone = before.clone();
    gone.retain(|number, name| after.get(number) != Some(name));
    assert_eq!(gone.keys().collect::<Vec<_>>(), [&first], "{after:?}");
}
