//! Fields: a list by the keyboard alone, and the words on a refused value.

use crate::hand::Hand;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable as _;
use traywright::action::View;
use traywright_core::case::{SleeveFace, UseOrder};
use traywright_core::dentition::Notation;

fn press(hand: &mut Hand, key: Key) {
    hand.press(Modifiers::NONE, key);
}

fn tooth(hand: &Hand) -> String {
    let document = hand.program().document().expect("a case");
    let sites = &document.case().sites;
    document.formatter(Notation::Iso).tooth(sites[0].tooth)
}

fn lists(hand: &Hand) -> usize {
    hand.names(Role::ListBox).len()
}

#[test]
fn a_list_begins_at_what_is_chosen_and_closes_with_return_and_with_escape() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Site);
    assert!(tooth(&hand).contains("(46)"), "{}", tooth(&hand));
    hand.reach(Role::ComboBox, "Tooth");
    press(&mut hand, Key::Space);
    assert_eq!(lists(&hand), 1);
    press(&mut hand, Key::ArrowDown);
    press(&mut hand, Key::Enter);
    assert!(tooth(&hand).contains("(45)"), "{}", tooth(&hand));
    assert_eq!(lists(&hand), 0, "Return closes the list");

    // The keyboard is on the field again.
    press(&mut hand, Key::Enter);
    assert_eq!(lists(&hand), 1);
    press(&mut hand, Key::ArrowDown);
    press(&mut hand, Key::ArrowDown);
    press(&mut hand, Key::Escape);
    assert_eq!(lists(&hand), 0, "Escape closes the list");
    assert!(tooth(&hand).contains("(45)"), "{}", tooth(&hand));
}

/// Opened by the pointer too the list begins at what is chosen: the next entry, not the first of all, is one key
/// away.
#[test]
fn a_list_opened_by_the_pointer_begins_at_what_is_chosen() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Site);
    let at = hand
        .harness
        .get_by_role_and_label(Role::ComboBox, "Tooth")
        .rect()
        .center();
    hand.harness.hover_at(at);
    hand.harness.run();
    hand.harness.drag_at(at);
    hand.harness.run();
    hand.harness.drop_at(at);
    hand.harness.run();
    assert_eq!(lists(&hand), 1);
    press(&mut hand, Key::ArrowDown);
    press(&mut hand, Key::Enter);
    assert!(tooth(&hand).contains("(45)"), "{}", tooth(&hand));
}

fn word(id: &str) -> String {
    traywright_core::text::Texts::english().get(id, &[])
}

fn has_keyboard(hand: &Hand, role: Role, name: &str) -> bool {
    hand.harness.get_by_role_and_label(role, name).is_focused()
}

/// What was picked by the pointer is where the keyboard goes on, not at the top of the window.
#[test]
fn tab_goes_on_from_what_was_picked_by_the_pointer() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Site);
    let face = word("site-face-lower");
    let picked = |hand: &Hand| {
        let node = hand.harness.get_by_role_and_label(Role::RadioButton, &face);
        node.scroll_to_me();
        node.rect().center()
    };
    picked(&hand);
    hand.harness.run();
    let at = picked(&hand);
    for _ in 0..2 {
        hand.harness.hover_at(at);
        hand.harness.run();
        hand.harness.drag_at(at);
        hand.harness.run();
        hand.harness.drop_at(at);
        hand.harness.run();
        press(&mut hand, Key::Tab);
        assert!(has_keyboard(&hand, Role::TextInput, "To the apical face"));
        // From a field that was typed in as well.
        hand.enter("To the apical face", "6.1");
    }
    // What has the keyboard keeps it: the last press of a button is no longer what counts.
    hand.reach(Role::ComboBox, "Tooth");
    press(&mut hand, Key::Tab);
    assert!(!has_keyboard(&hand, Role::TextInput, "To the apical face"));
}

/// A field that can be used once the one before it was filled is not passed over by the Tab that left that.
#[test]
fn tab_passes_no_field_of_a_row_that_adds_an_entry() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Site);
    hand.enter(&word("site-obstacle-add"), "edge of the guide");
    assert!(has_keyboard(
        &hand,
        Role::ComboBox,
        &word("site-obstacle-tooth")
    ));
    press(&mut hand, Key::Tab);
    let above = word("site-obstacle-above");
    assert!(has_keyboard(&hand, Role::TextInput, &above));
    hand.enter(&above, "1.5");
    let beside = word("site-obstacle-beside");
    assert!(has_keyboard(&hand, Role::TextInput, &beside));
    hand.enter(&beside, "5");
    let document = hand.program().document().expect("a case");
    let obstacles = &document.case().sites[0].obstacles;
    assert!(
        obstacles
            .iter()
            .any(|o| o.name.as_str() == "edge of the guide")
    );
}

#[test]
fn the_arrows_do_not_leave_a_list_at_its_end() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Case);
    hand.reach(Role::ComboBox, "Order of use");
    press(&mut hand, Key::Space);
    for _ in 0..4 {
        press(&mut hand, Key::ArrowDown);
    }
    press(&mut hand, Key::Enter);
    let document = hand.program().document().expect("a case");
    assert_eq!(document.case().setup.use_order, UseOrder::ByDiameter);
}

#[test]
fn a_refused_face_is_told_without_a_place_in_a_file_until_the_next_change() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Site);
    hand.enter("To the apical face", "4.45");
    hand.pick("coronal rim");
    assert!(hand.sees("4.45 mm cannot be to the coronal rim: the sleeve is 4.65 mm high"));
    assert!(!hand.sees("column"));
    let document = hand.program().document().expect("a case");
    let distance = document.case().sites[0].platform_to_sleeve;
    assert_eq!(distance.expect("a distance").to, SleeveFace::Apical);
    hand.enter("Tissue thickness", "2.9");
    assert!(!hand.sees("cannot be to the coronal rim"));
}

#[test]
fn without_a_viewer_the_way_to_the_sheet_is_told() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Sheet);
    hand.click("Open in the viewer");
    let told = hand.refused().expect("a refusal");
    assert!(
        told.starts_with("No PDF viewer was found. Use Write PDF…"),
        "{told}"
    );
}
