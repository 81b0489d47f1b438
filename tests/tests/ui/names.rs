//! Every control of every view says what it is, and so does every drawing.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use std::collections::BTreeMap;
use traywright::action::View;
use traywright::desk::DEMOS;
use traywright_core::text::Texts;

/// Controls that a person acts on, and drawings.
const NAMED: [Role; 12] = [
    Role::Button,
    Role::CheckBox,
    Role::ComboBox,
    Role::Image,
    Role::Link,
    Role::MultilineTextInput,
    Role::RadioButton,
    Role::Slider,
    Role::SpinButton,
    Role::Switch,
    Role::Tab,
    Role::TextInput,
];

/// Controls that take a value: two of one name could be taken for each other.
const FIELDS: [Role; 4] = [
    Role::ComboBox,
    Role::MultilineTextInput,
    Role::SpinButton,
    Role::TextInput,
];

/// Kind, place and name of everything that has to have one.
fn named(hand: &Hand) -> Vec<(Role, egui::Rect, String)> {
    let all = hand
        .harness
        .query_all_by(|node| NAMED.contains(&node.role()));
    all.filter(|node| node.accesskit_node().bounding_box().is_some())
        .map(|node| {
            let name = node.accesskit_node().label().unwrap_or_default();
            (node.accesskit_node().role(), node.rect(), name)
        })
        .collect()
}

/// The faults in the names of what is shown now.
fn faults(hand: &Hand) -> Vec<String> {
    let all = named(hand);
    assert!(all.len() > 2, "{all:?}");
    let nameless = all
        .iter()
        .filter(|(_, _, name)| name.trim().is_empty())
        .map(|(role, rect, _)| format!("{role:?} without a name at {rect:?}"));
    let mut fields: BTreeMap<&str, usize> = BTreeMap::new();
    for (role, _, name) in &all {
        if FIELDS.contains(role) {
            *fields.entry(name).or_default() += 1;
        }
    }
    let twice = fields
        .iter()
        .filter(|(_, times)| **times > 1)
        .map(|(name, times)| format!("{times} fields named “{name}”"));
    nameless.chain(twice).collect()
}

#[test]
fn every_control_and_drawing_of_every_view_has_a_name() {
    let mut found = BTreeMap::new();
    for (demo, _) in DEMOS {
        let mut hand = Hand::at(DESK, 1.0).with_demo(demo);
        for view in View::ALL {
            hand.go(view);
            found.insert((demo, view), faults(&hand));
        }
        hand.go(View::Site);
        for pane in ["Change it", "Another implant"] {
            hand.click(pane);
            found
                .entry((demo, View::Site))
                .or_default()
                .extend(faults(&hand));
        }
    }
    found.retain(|_, faults| !faults.is_empty());
    assert!(found.is_empty(), "{found:#?}");
}

/// The start page without a case, and what it asks.
#[test]
fn the_empty_program_is_named_too() {
    let hand = Hand::new();
    assert_eq!(faults(&hand), Vec::<String>::new());
}

#[test]
fn every_view_is_called_by_its_name_at_the_top() {
    let hand = Hand::new().with_demo("two-molars");
    let buttons = hand.names(Role::Button);
    // The first is called by the program's own name.
    for view in View::ALL.into_iter().skip(1) {
        let name = Texts::english().get(view.text_id(), &[]);
        assert!(buttons.contains(&name), "{name}");
    }
}

/// A drawing is described for those who cannot see it: its name, and its content.
#[test]
fn the_drawings_are_told_in_words() {
    let mut hand = Hand::new().with_demo("two-molars");
    for (view, least) in [
        (View::Arch, 2),
        (View::Site, 1),
        (View::Order, 1),
        (View::Tray, 1),
        (View::Sheet, 1),
    ] {
        hand.go(view);
        let images = hand
            .harness
            .query_all_by(|node| node.role() == Role::Image)
            .count();
        assert!(images >= least, "{view:?}: {images} drawings");
    }
}

/// A site's card has settings on it: the verdict among them is the site's and says so.
#[test]
fn a_verdict_beside_a_setting_is_the_site_s() {
    let hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    let cards = hand.names(Role::Button);
    let cards: Vec<&String> = cards.iter().filter(|name| name.contains("19.1")).collect();
    assert!(!cards.is_empty());
    for card in cards {
        let words = ["short", "unknown"].map(|word| card.matches(word).count());
        let of_site = card.matches("site: ").count();
        assert_eq!(words.iter().sum::<usize>(), of_site, "{card}");
    }
}
