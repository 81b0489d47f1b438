//! The wear of drills in the window: what is told at the tray, which piece a drill is, what was counted.

use crate::hand::Hand;
use crate::loading::{asks, tells, to_a_reading};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use serde_json::{Value, json};
use std::path::Path;
use traywright::action::View;
use traywright_core::case::read_kit;
use traywright_core::sign::{DrillKey, EventKind, PieceNamed, Purpose, Who, WriterId};
use traywright_core::store::{append_event, rebuild_wear};

/// The drill that is read first.
pub(crate) const DRILL: &str = "tip-257";

/// A hand with a case open beside a kit whose wear is as given; `ledger` has it counted.
pub(crate) fn with_wear(wear: &Value, ledger: bool) -> Hand {
    let hand = Hand::with_files(|folder| {
        let demo = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/kit.json"));
        let mut kit: Value = serde_json::from_slice(&std::fs::read(demo).unwrap()).unwrap();
        kit["wear"] = wear.clone();
        let file = folder.join("kit.json");
        std::fs::write(&file, kit.to_string()).unwrap();
        std::fs::write(
            folder.join("settings.json"),
            json!({ "kit": file }).to_string(),
        )
        .unwrap();
        if ledger {
            let kit = read_kit(&std::fs::read(&file).unwrap()).unwrap();
            let cases = folder.join("cases");
            std::fs::create_dir(&cases).unwrap();
            rebuild_wear(&file, &kit, &[cases], false).unwrap();
        }
    });
    hand.with_demo("two-molars")
}

/// A limit for the drill, of which these uses are gone of one piece, and nobody knows those of another.
pub(crate) fn limited(uses: u32, before: u32) -> Value {
    json!({ "drills": [{
        "drill": DRILL,
        "limit": {
            "uses": uses,
            "warn_uses_left": 2,
            "given_by": "maker",
            "source": "leaflet, invented",
        },
        "pieces": [
            { "mark": "A3", "before": { "uses": before, "sterilisations": before } },
            { "mark": "A4" },
            { "mark": "A5", "before": { "uses": 0, "sterilisations": 0 } },
        ],
    }]})
}

/// The first, or another, of the drills is this piece.
pub(crate) fn named(hand: &Hand, mark: &str, copy: u32) {
    let document = hand.program().document().unwrap();
    let file = document.file().unwrap().to_owned();
    let case_jaw = traywright_core::plan::case_jaw(document.case());
    let copy = std::num::NonZeroU32::new(copy).unwrap();
    let kind = EventKind::PieceNamed(PieceNamed {
        drill: DrillKey {
            drill: DRILL.to_owned(),
            copy,
        },
        mark: Some(mark.to_owned()),
        sitting: None,
        after: None,
        purpose: Purpose::Practice,
    });
    let at = "2026-11-25T07:00:00Z".parse().unwrap();
    let (desk, who) = (WriterId::new("other").unwrap(), Who::new("MK").unwrap());
    append_event(&file, &case_jaw, &desk, at, who, kind).unwrap();
}

/// At the loading view, with the first of the drills in hand.
fn at_the_drill(wear: &Value, ledger: bool, mark: Option<&str>) -> Hand {
    at_named(wear, ledger, mark.map(|mark| (mark, 1)))
}

/// The same with one of the drills named.
fn at_named(wear: &Value, ledger: bool, piece: Option<(&str, u32)>) -> Hand {
    let mut hand = with_wear(wear, ledger);
    if let Some((mark, copy)) = piece {
        named(&hand, mark, copy);
        let file = hand
            .program()
            .document()
            .unwrap()
            .file()
            .unwrap()
            .to_owned();
        hand.harness.state_mut().open(&file);
    }
    hand.go(View::Loading);
    hand.wait();
    to_a_reading(&mut hand);
    hand.wait();
    hand
}

#[test]
fn a_drill_near_its_limit_at_it_or_not_known_is_told_as_it_is_taken() {
    let near = "piece A3: 7 uses, limit 10 uses; NEAR its limit";
    let reached = "piece A3: 10 uses, limit 10 uses; \
                   LIMIT REACHED: not to be used again";
    for (uses, before, mark, told) in [
        (10, 7, Some("a 3"), near),
        (10, 10, Some("A3"), reached),
        (
            10,
            2,
            None,
            "which piece it is nobody said: its uses are not known",
        ),
        (10, 2, Some("A4"), "piece A4: at least 0 uses"),
    ] {
        let hand = at_the_drill(&limited(uses, before), true, mark);
        assert!(
            tells(&hand, told),
            "{told}: {:?}",
            crate::loading::told(&hand)
        );
    }
}

#[test]
fn without_a_count_nothing_is_as_new_and_without_a_limit_nothing_is_told() {
    let hand = at_the_drill(&limited(10, 0), false, Some("A5"));
    let told = "piece A5: its uses are not known, no count beside the kit";
    assert!(tells(&hand, told), "{:?}", crate::loading::told(&hand));
    // Within its limit: which piece it is, and no more.
    let hand = at_the_drill(&limited(10, 0), true, Some("A5"));
    assert!(tells(&hand, "piece A5"));
    assert!(!tells(&hand, "limit "), "{:?}", crate::loading::told(&hand));
    let mut no_limit = limited(10, 10);
    no_limit["drills"][0]
        .as_object_mut()
        .unwrap()
        .remove("limit");
    for wear in [no_limit, json!({ "drills": [] })] {
        let hand = at_the_drill(&wear, true, None);
        for words in ["piece it is", "piece A", "limit", "uses are not known"] {
            assert!(
                !tells(&hand, words),
                "{words}: {:?}",
                crate::loading::told(&hand)
            );
        }
    }
}

#[test]
fn a_ledger_that_cannot_be_read_is_told_as_one() {
    let mut hand = with_wear(&limited(10, 0), true);
    let ledger = hand.folder.path().join("kit.wear");
    std::fs::write(ledger, "no ledger").unwrap();
    named(&hand, "A5", 1);
    let file = hand
        .program()
        .document()
        .unwrap()
        .file()
        .unwrap()
        .to_owned();
    hand.harness.state_mut().open(&file);
    hand.go(View::Loading);
    hand.wait();
    to_a_reading(&mut hand);
    assert!(tells(&hand, "the count beside the kit cannot be read"));
    // Another desk mends it: it is read again as the view is looked at.
    std::fs::remove_file(hand.folder.path().join("kit.wear")).unwrap();
    hand.press(Modifiers::NONE, Key::Escape);
    hand.go(View::Loading);
    hand.wait();
    assert!(tells(&hand, "no count beside the kit"));
}

const WHICH: &str = "Which piece is it? Scan or type what stands on it";

/// The pieces that were named by the record, in order.
fn pieces(hand: &Hand) -> Vec<(u32, Option<String>)> {
    let events = &hand.program().document().unwrap().record.events;
    let events = events.in_order().into_iter();
    let named = events.filter_map(|event| match &event.kind {
        EventKind::PieceNamed(named) => Some((named.drill.copy.get(), named.mark.clone())),
        _ => None,
    });
    named.collect()
}

#[test]
fn the_piece_in_hand_is_named_by_a_key_and_its_mark() {
    let mut hand = at_the_drill(&limited(10, 7), true, None);
    hand.press(Modifiers::NONE, Key::M);
    assert!(asks(&hand, WHICH), "{:?}", crate::loading::told(&hand));
    hand.harness.event(Event::Text("a 3".to_owned()));
    hand.harness.run();
    hand.press(Modifiers::NONE, Key::Enter);
    assert!(!asks(&hand, WHICH));
    assert!(
        tells(&hand, "piece A3: 7 uses"),
        "{:?}",
        crate::loading::told(&hand)
    );
    assert_eq!(pieces(&hand), [(1, Some("A3".to_owned()))]);
    // Another mark takes its place.
    hand.click("Which piece");
    hand.enter(WHICH, "A5");
    hand.click("Enter");
    assert_eq!(pieces(&hand).last(), Some(&(1, Some("A5".to_owned()))));
    assert!(tells(&hand, "piece A5") && !tells(&hand, "NEAR"));
    // Left by Esc nothing is recorded, and the reading goes on.
    hand.press(Modifiers::NONE, Key::M);
    hand.press(Modifiers::NONE, Key::Escape);
    assert!(!asks(&hand, WHICH) && tells(&hand, "accepted "));
    assert_eq!(pieces(&hand).len(), 2);
}

#[test]
fn a_mark_of_no_piece_or_of_one_on_another_drill_is_refused_in_words() {
    let mut hand = at_named(&limited(10, 7), true, Some(("A3", 2)));
    for (mark, words) in [
        (
            "Z9",
            "The kit has no piece Z9 of Tip drill 2.57. It has: A3, A4, A5",
        ),
        ("a3", "A3 is recorded as Tip drill 2.57 no. 2"),
        ("  ", "Say what stands on it"),
    ] {
        hand.press(Modifiers::NONE, Key::M);
        hand.enter(WHICH, mark);
        hand.click("Enter");
        assert!(
            tells(&hand, words),
            "{words}: {:?}",
            crate::loading::told(&hand)
        );
        assert!(asks(&hand, WHICH), "{mark}");
        assert_eq!(pieces(&hand), [(2, Some("A3".to_owned()))]);
        hand.press(Modifiers::NONE, Key::Escape);
        assert!(!asks(&hand, WHICH));
    }
}

#[test]
fn the_mark_of_the_piece_in_hand_is_scanned_without_a_key() {
    let mut hand = at_the_drill(&limited(10, 7), true, None);
    // All of a code comes at once.
    let key = |key, pressed| Event::Key {
        key,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: Modifiers::NONE,
    };
    let events = &mut hand.harness.input_mut().events;
    for (sign, of) in [("a", Key::A), ("3", Key::Num3)] {
        events.extend([key(of, true), Event::Text(sign.to_owned()), key(of, false)]);
    }
    events.extend([key(Key::Enter, true), key(Key::Enter, false)]);
    hand.harness.run();
    assert_eq!(pieces(&hand), [(1, Some("A3".to_owned()))]);
    assert!(tells(&hand, "piece A3: 7 uses") && tells(&hand, "accepted "));
}

#[test]
fn nobody_is_asked_for_a_piece_where_the_kit_lists_none() {
    let mut wear = limited(10, 7);
    wear["drills"][0].as_object_mut().unwrap().remove("pieces");
    let mut hand = at_the_drill(&wear, true, None);
    assert!(tells(&hand, "which piece it is nobody said"));
    assert!(!hand.names(Role::Button).contains(&"Which piece".to_owned()));
    hand.press(Modifiers::NONE, Key::M);
    assert!(!asks(&hand, WHICH) && tells(&hand, "accepted "));
}

/// The kit view, at the wear of its drills.
fn wear_in_the_kit_view(hand: &mut Hand) {
    hand.go(View::Kit);
    hand.wait();
    hand.click("Wear of drills");
    hand.wait();
}

#[test]
fn the_kit_view_lists_all_pieces_with_counts_limits_and_verdicts() {
    let mut hand = with_wear(&limited(10, 8), true);
    wear_in_the_kit_view(&mut hand);
    for words in [
        "0 closed sittings counted",
        "Tip drill 2.57: limit 10 uses, the manufacturer’s (leaflet, invented)",
        "A3: 8 uses, 8 sterilisations; NEAR its limit",
        "A4: at least 0 uses, at least 0 sterilisations; UNKNOWN: it may have reached its limit",
        "A5: 0 uses, 0 sterilisations; within its limit",
    ] {
        assert!(
            hand.sees(words),
            "{words}: {:?}",
            crate::loading::told(&hand)
        );
    }
}

#[test]
fn the_kit_view_says_what_lacks_to_know_the_wear() {
    // No ledger yet: what the kit says stands there, and nothing is as new.
    let mut hand = with_wear(&limited(10, 8), false);
    wear_in_the_kit_view(&mut hand);
    for words in [
        "traywright wear KIT --rebuild FOLDER",
        "A5: at least 0 uses, at least 0 sterilisations; UNKNOWN",
        "no count was read",
    ] {
        assert!(
            hand.sees(words),
            "{words}: {:?}",
            crate::loading::told(&hand)
        );
    }
    // A ledger that cannot be read.
    let ledger = hand.folder.path().join("kit.wear");
    std::fs::write(ledger, "no ledger").unwrap();
    hand.go(View::Arch);
    wear_in_the_kit_view(&mut hand);
    assert!(hand.sees("is damaged, or no ledger of wear"));
    assert!(!hand.sees("within its limit"));
    // A kit without limits, counted and not.
    for ledger in [true, false] {
        let mut hand = with_wear(&json!({ "drills": [] }), ledger);
        wear_in_the_kit_view(&mut hand);
        let words = "The kit gives no drill a limit and lists no pieces";
        assert!(hand.sees(words), "{:?}", crate::loading::told(&hand));
    }
}
