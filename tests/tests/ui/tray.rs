//! The tray, laid by hand: by pointer and by keys, within the kinds of its slots, and back again.

use crate::hand::Hand;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::action::View;
use traywright_core::plan::LoadItem;
use traywright_core::sign::Fingerprint;

fn at_tray() -> Hand {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Tray);
    hand.harness.run();
    hand
}

fn print(hand: &Hand) -> Fingerprint {
    hand.program().document().unwrap().worksheet().fingerprint
}

/// The thing in a slot, by its number in the order of loading.
fn in_slot(hand: &Hand, slot: &str) -> Option<usize> {
    let loading = &hand.program().document().unwrap().worksheet().loading;
    let there = |item: &LoadItem| item.slot.as_ref().is_some_and(|own| own.as_str() == slot);
    loading.iter().position(there).map(|n| n + 1)
}

/// Drags from one slot to another, and gives the words shown on the way.
fn drag(hand: &mut Hand, from: &str, to: &str) -> String {
    let place = |hand: &Hand, slot| hand.program().views().tray.on_screen(slot).unwrap();
    let (from, to) = (place(hand, from), place(hand, to));
    hand.harness.drag_at(from);
    hand.harness.run();
    hand.harness.hover_at(from + (to - from) / 2.0);
    hand.harness.run();
    hand.harness.hover_at(to);
    hand.harness.run();
    let all = hand.harness.query_all_by_role(Role::Label);
    let labels: Vec<String> = all
        .filter_map(|node| node.accesskit_node().value())
        .collect();
    hand.harness.drop_at(to);
    hand.harness.run();
    let said = |label: &&String| label.contains(": into slot") || label.contains(": not into slot");
    labels.iter().find(said).cloned().unwrap_or_default()
}

#[test]
fn look_alikes_lie_apart_and_that_is_said() {
    let hand = at_tray();
    assert!(hand.sees("No look-alikes are side by side."));
    let rows = hand.names(Role::ListItem);
    let first = &rows[0];
    assert_eq!(
        first,
        "1. Pilot drill 2.13 at 17.8 mm, slot Crane 1: Letter P, dot, slate · lower right first molar (46)"
    );
    assert!(
        rows[1].starts_with("2. Pilot drill 2.13 at 20.7 mm, slot Crane 3: "),
        "{}",
        rows[1]
    );
}

#[test]
fn a_drag_lays_a_thing_in_a_free_slot_of_its_kind_and_undo_takes_it_back() {
    let mut hand = at_tray();
    let before = print(&hand);
    let said = drag(&mut hand, "Crane 3", "Dove 9");
    assert_eq!(
        said,
        "2. Pilot drill 2.13 at 20.7 mm: into slot Dove 9, which is free"
    );
    assert_eq!(
        (in_slot(&hand, "Dove 9"), in_slot(&hand, "Crane 3")),
        (Some(2), None)
    );
    assert_ne!(print(&hand), before);
    assert!(hand.sees("Undo: Pilot drill 2.13 in slot Dove 9"));
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(print(&hand), before);
    assert_eq!(in_slot(&hand, "Crane 3"), Some(2));
}

#[test]
fn a_drag_onto_a_thing_of_the_kind_exchanges_the_two_and_look_alikes_beside_are_told() {
    let mut hand = at_tray();
    let before = print(&hand);
    let said = drag(&mut hand, "Crane 6", "Crane 3");
    let other = "in exchange with 2. Pilot drill 2.13 at 20.7 mm";
    assert!(said.ends_with(other), "{said}");
    assert_eq!(
        (in_slot(&hand, "Crane 3"), in_slot(&hand, "Crane 6")),
        (Some(4), Some(2))
    );
    // The second pilot drill now lies beside the third.
    let told = "Note: look-alikes side by side: Pilot drill 2.13 at 20.7 mm in slot Crane 6 and \
                Pilot drill 2.13 at 19.1 mm in slot Crane 5";
    assert!(hand.sees(told));
    hand.click("Show in the findings");
    assert_eq!(hand.program().view_state().view, View::Findings);
    hand.click("Go to Tray");
    assert_eq!(hand.program().view_state().view, View::Tray);
    // Back by hand leaves no trace; so does what the program lays.
    let _ = drag(&mut hand, "Crane 3", "Crane 6");
    assert_eq!(print(&hand), before);
    let _ = drag(&mut hand, "Crane 6", "Crane 3");
    hand.click("Automatic layout");
    assert_eq!(print(&hand), before);
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(in_slot(&hand, "Crane 3"), Some(4));
}

#[test]
fn into_a_slot_of_another_kind_nothing_goes_and_it_is_said_why() {
    let mut hand = at_tray();
    let before = print(&hand);
    let why = "1. Pilot drill 2.13 at 17.8 mm: not into slot Finch 3, which takes only the kind \
               “drill sleeve”; this is of the kind “drill”";
    assert_eq!(drag(&mut hand, "Crane 1", "Finch 3"), why);
    assert_eq!(hand.refused(), Some(why));
    assert_eq!(print(&hand), before);
    assert!(!hand.sees("Undo: "), "nothing was done");
}

#[test]
fn escape_during_a_drag_leaves_everything_where_it_was() {
    let mut hand = at_tray();
    let before = print(&hand);
    let place = |hand: &Hand, slot| hand.program().views().tray.on_screen(slot).unwrap();
    let (from, to) = (place(&hand, "Crane 3"), place(&hand, "Dove 9"));
    hand.harness.drag_at(from);
    hand.harness.run();
    hand.harness.hover_at(to);
    hand.harness.run();
    assert!(hand.sees("into slot Dove 9, which is free"));
    hand.press(Modifiers::NONE, Key::Escape);
    hand.harness.drop_at(to);
    hand.harness.run();
    assert_eq!(print(&hand), before);
}

/// Only keys: to the list, down it, a drill in hand, over its slots, laid, undone.
#[test]
fn by_keys_a_thing_is_taken_in_hand_and_goes_only_over_slots_of_its_kind() {
    let mut hand = at_tray().by_keys();
    let before = print(&hand);
    let first = hand.names(Role::ListItem)[0].clone();
    hand.reach(Role::ListItem, &first);
    hand.press(Modifiers::NONE, Key::ArrowDown);
    hand.press(Modifiers::NONE, Key::Enter);
    assert!(hand.sees("In hand: 2. Pilot drill 2.13 at 20.7 mm."));
    hand.press(Modifiers::NONE, Key::ArrowDown);
    assert!(hand.sees("into slot Dove 3, which is free"));
    // Below lie sleeves: on in the order of the slots of the kind.
    hand.press(Modifiers::NONE, Key::ArrowDown);
    assert!(hand.sees("into slot Dove 4, in exchange with 9. Tip drill 3.68 at 19.1 mm"));
    hand.press(Modifiers::NONE, Key::Escape);
    assert!(!hand.sees("In hand: ") && !hand.sees("into slot"));
    assert_eq!(print(&hand), before);
    hand.press(Modifiers::NONE, Key::Enter);
    hand.press(Modifiers::NONE, Key::ArrowDown);
    hand.press(Modifiers::NONE, Key::Enter);
    assert_eq!(in_slot(&hand, "Dove 3"), Some(2));
    // The keyboard stays with what was laid.
    let rows = hand.names(Role::ListItem);
    let laid = "2. Pilot drill 2.13 at 20.7 mm, slot Dove 3: Placed by hand; the automatic layout puts it in slot Crane 3";
    assert!(rows[1].starts_with(laid), "{}", rows[1]);
    assert!(hand.find(&rows[1]).is_focused());
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(print(&hand), before);
}

/// The approval names what a printed tray shows, so another place takes it back and undo restores it.
#[test]
fn an_approval_lapses_with_a_place_chosen_by_hand() {
    let mut hand = Hand::new().with_demo("full-arch-upper");
    hand.go(View::Sheet);
    hand.enter("Name of the person who approves", "RT");
    let approve = format!("Approve {} for practice", print(&hand));
    hand.click(&approve);
    hand.go(View::Tray);
    assert!(hand.sees("practice approval by RT"));
    assert!(hand.sees("The plan is approved."));
    let _ = drag(&mut hand, "Crane 2", "Dove 9");
    assert_eq!(in_slot(&hand, "Dove 9"), Some(5));
    assert!(hand.sees("approval lapsed"));
    assert!(!hand.sees("The plan is approved."));
    hand.press(Modifiers::COMMAND, Key::Z);
    assert!(hand.sees("practice approval by RT"));
}

#[test]
fn without_a_tray_it_says_where_one_is_chosen() {
    let mut hand = at_tray();
    hand.go(View::Case);
    hand.choose("Tray", "not chosen");
    hand.go(View::Tray);
    assert!(hand.sees("No tray is chosen, so nothing has a slot."));
    hand.click("Choose a tray in the case");
    assert_eq!(hand.program().view_state().view, View::Case);
}
