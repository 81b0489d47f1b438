//! The tray loaded by two people, read twice, and the plan changed afterwards.

use crate::hand::Hand;
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::action::View;
use traywright_core::sign::{EventKind, Turn};

const FIRST: &str = "Who sets and reads? Initials";
const SECOND: &str = "Who reads? Nobody who has seen a figure of this case. Initials";
const TYPED: &str = "What the gauge shows";

/// At the loading view of a copy of an invented case.
fn at_the_tray(demo: &str) -> Hand {
    let mut hand = Hand::new().with_demo(demo);
    hand.go(View::Loading);
    hand
}

/// Every text of the window, whatever it is.
pub(crate) fn told(hand: &Hand) -> Vec<String> {
    let all = hand.harness.query_all_by(|_| true);
    all.flat_map(|node| {
        let node = node.accesskit_node();
        [node.label(), node.value()]
    })
    .flatten()
    .collect()
}

pub(crate) fn tells(hand: &Hand, words: &str) -> bool {
    told(hand).iter().any(|text| text.contains(words))
}

pub(crate) fn asks(hand: &Hand, field: &str) -> bool {
    hand.names(Role::TextInput).iter().any(|name| name == field)
}

/// Types on the number keys and accepts it.
fn type_in(hand: &mut Hand, figure: &str) {
    for letter in figure.chars() {
        hand.harness.event(Event::Text(letter.to_string()));
        hand.harness.run();
    }
    hand.press(Modifiers::NONE, Key::Enter);
}

fn initials(hand: &mut Hand, field: &str, who: &str) {
    hand.enter(field, who);
    hand.click("Enter");
    if tells(hand, "New here: ") {
        hand.click("Enter");
    }
}

/// Opens the session: on the bench, by MK, the gauge on its check piece.
fn open(hand: &mut Hand) {
    hand.click("Set and read");
    initials(hand, FIRST, "MK");
    assert!(tells(hand, "Insert the check piece of 21.7 mm"));
    type_in(hand, "21,7");
}

/// Opens the session and goes on to the first reading of the first drill that is in no wrapping.
pub(crate) fn to_a_reading(hand: &mut Hand) {
    open(hand);
    for _ in 0..60 {
        if asks(hand, TYPED) {
            return;
        }
        hand.press(Modifiers::NONE, Key::ArrowRight);
    }
    panic!("no drill is read here");
}

/// The figure that a drill in hand has to be read at: the upper end of what is accepted.
fn figure(hand: &Hand) -> String {
    let all = told(hand);
    let accepted = all.iter().find(|text| text.starts_with("accepted "));
    let accepted = accepted.expect("a first reading says what is accepted");
    let most = accepted.rsplit(' ').next();
    most.expect("two figures").to_owned()
}

/// The events on the way.
#[derive(Default)]
struct Seen {
    refused: bool,
    /// What was set, drill by drill, in the order of setting.
    set: Vec<String>,
}

/// Sets, reads and lays everything by MK: the first reading of the first drill is out of tolerance
/// once.
fn set_all(hand: &mut Hand) -> Seen {
    let mut seen = Seen::default();
    for _ in 0..600 {
        if tells(hand, " set and read once. Press T, and only then call") {
            return seen;
        }
        if asks(hand, TYPED) {
            let set = figure(hand);
            if !seen.refused {
                // One tenth deeper than planned.
                let deeper: f64 = set.parse::<f64>().expect("a figure") + 0.1;
                type_in(hand, &format!("{deeper:.1}"));
                assert!(tells(hand, "It is recorded. Re-set the stop"));
                // Before it was set, locked and tugged anew no figure is taken.
                assert!(!asks(hand, TYPED), "it was accepted");
                seen.refused = true;
                continue;
            }
            type_in(hand, &set);
            seen.set.push(set);
        } else {
            let next = ["Done", "It is there", "In place", "Continue"];
            let buttons = hand.names(Role::Button);
            let next = next
                .into_iter()
                .find(|name| buttons.iter().any(|b| b == name));
            hand.click(next.expect("something to do next"));
        }
    }
    panic!("the tray is not loaded after 600 steps");
}

/// Another person reads all again, the last set first; the first one's initials are given once.
fn read_all_again(hand: &mut Hand, seen: &Seen) {
    hand.press(Modifiers::NONE, Key::T);
    hand.press(Modifiers::NONE, Key::T);
    hand.click("Read again");
    initials(hand, SECOND, "m. k.");
    assert!(tells(hand, "with their figures in sight"));
    assert!(asks(hand, SECOND), "the same person reads twice");
    initials(hand, SECOND, "JH");
    type_in(hand, "21,7");
    for set in seen.set.iter().rev() {
        assert!(
            !told(hand).iter().any(|told| told.contains(set.as_str())),
            "{set} is told at a second reading"
        );
        type_in(hand, set);
    }
    let count = seen.set.len();
    assert!(
        tells(hand, &format!("{count} read again and found as planned")),
        "{:?}",
        told(hand)
    );
    hand.click("End this pass");
    hand.click("Set and read");
    initials(hand, FIRST, "MK");
    type_in(hand, "21,7");
}

/// Loads everything by two people and comes to the end.
fn load(hand: &mut Hand) -> Seen {
    let seen = set_all(hand);
    read_all_again(hand, &seen);
    seen
}

/// The whole of it, from the choice of the pass on.
fn whole(hand: &mut Hand) -> Seen {
    open(hand);
    load(hand)
}

fn readings(hand: &Hand) -> Vec<(String, Turn)> {
    let document = hand.program().document().expect("a case");
    let events = document.record.events.in_order();
    events
        .into_iter()
        .filter_map(|event| match &event.kind {
            EventKind::Reading(reading) => Some((event.who.to_string(), reading.turn)),
            _ => None,
        })
        .collect()
}

/// The rows of the list of everything for the tray.
fn list(hand: &mut Hand) -> Vec<String> {
    hand.press(Modifiers::NONE, Key::L);
    assert!(tells(hand, "Everything for the tray"));
    let rows = hand.names(Role::Button).into_iter();
    let rows = rows.filter(|name| name.starts_with(|c: char| c.is_ascii_digit()));
    let rows = rows.collect();
    hand.press(Modifiers::NONE, Key::L);
    rows
}

fn count(rows: &[String], state: &str) -> usize {
    rows.iter().filter(|row| row.contains(state)).count()
}

#[test]
fn a_whole_tray_is_loaded_by_two_people() {
    let mut hand = at_the_tray("one-premolar");
    open(&mut hand);
    let seen = load(&mut hand);
    let drills = seen.set.len();
    assert!(seen.refused && drills > 0);
    assert!(
        tells(&hand, "The tray is laid on the bench, "),
        "{:?}",
        told(&hand)
    );

    let readings = readings(&hand);
    let of = |turn| readings.iter().filter(move |reading| reading.1 == turn);
    // One more first reading than drills: the refused one stays on record.
    assert_eq!(of(Turn::First).count(), drills + 1);
    assert_eq!(of(Turn::Second).count(), drills);
    assert!(of(Turn::First).all(|(who, _)| who == "MK"));
    assert!(of(Turn::Second).all(|(who, _)| who == "JH"));
    let rows = list(&mut hand);
    assert_eq!(count(&rows, "in its slot, read twice"), drills);
    assert_eq!(count(&rows, "to be taken"), 0);
}

/// A plan for a patient that nobody approved is loaded to its end, and is never called loaded.
#[test]
fn the_end_of_a_load_that_nobody_approved_says_laid_not_approved() {
    let mut hand = Hand::new();
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/one-premolar.json");
    let text = std::fs::read_to_string(demo).expect("a case");
    let real = text.replace("\"demonstration\": true", "\"demonstration\": false");
    assert_ne!(text, real);
    let copy = hand.folder.path().join("real.json");
    std::fs::write(&copy, real).expect("a copy");
    hand.harness.state_mut().open(&copy);
    hand.wait();
    hand.go(View::Loading);
    let seen = whole(&mut hand);
    assert!(!seen.set.is_empty());
    assert!(
        tells(&hand, "The tray is laid on the bench, not approved."),
        "{:?}",
        told(&hand)
    );
    let open = "No approval of this plan holds: nothing that is read counts as verified.";
    assert!(tells(&hand, open) && tells(&hand, "NOT APPROVED"));
    assert!(!tells(&hand, "is loaded") && !tells(&hand, "Verified"));
}

#[test]
fn a_plan_changed_after_loading_stops_the_work_and_lapses_what_it_concerns() {
    let mut hand = at_the_tray("one-premolar");
    open(&mut hand);
    let seen = load(&mut hand);
    let before = list(&mut hand);
    hand.press(Modifiers::NONE, Key::Escape);
    assert_eq!(hand.program().view_state().view, View::Arch);

    // The last drill, and no other, is to go half a millimetre less deep.
    hand.go(View::Site);
    let site = &hand.program().document().expect("a case").worksheet().sites[0];
    let step = site.steps.last().expect("steps").id.clone();
    let formatter = hand.program().document().expect("a case");
    let formatter = formatter.formatter(hand.program().desk().settings.notation);
    let drill = formatter.step(&site.id, &step);
    let number = site.steps.len();
    hand.click(&format!("{number}  {drill}"));
    hand.click("Change it");
    hand.choose("Depth", "partial depth");
    hand.enter("Full depth less", "0.5");

    hand.go(View::Loading);
    assert!(tells(&hand, "STOP") && tells(&hand, "The tray is not as the plan has it:"));
    let wrong: Vec<String> = told(&hand)
        .into_iter()
        .filter(|text| text.contains(": set to "))
        .collect();
    assert!(!wrong.is_empty());
    assert!(wrong.iter().all(|text| text.contains(&drill)), "{wrong:?}");
    hand.click("Save");
    // It is in a hand, and its stop loosened.
    hand.click("Yes, done");
    hand.click("Read. Continue with the plan as it is now");
    assert!(!tells(&hand, "STOP"));

    let after = list(&mut hand);
    assert_eq!(after.len(), before.len());
    for (before, after) in before.iter().zip(&after) {
        if before.contains(&drill) {
            assert!(after.contains("to be taken"), "{after}");
        } else {
            assert_eq!(before, after, "a reading that was not concerned");
        }
    }
    let twice = count(&after, "in its slot, read twice");
    assert_eq!(twice, seen.set.len() - 1);

    // Undone, what was told to be taken and set anew is taken and set anew all the same: a hand may have done it.
    // Nothing is undone from where stops are set.
    hand.press(Modifiers::COMMAND, Key::Z);
    assert!(!tells(&hand, "STOP"));
    hand.go(View::Site);
    hand.press(Modifiers::COMMAND, Key::Z);
    hand.go(View::Loading);
    assert!(tells(&hand, "STOP"));
    hand.click("Save");
    hand.click("Read. Continue with the plan as it is now");
    assert_eq!(list(&mut hand), after);
}
