//! Nothing moves under a pointer that is about to click: what appears by a choice or by a notice has its place
//! beforehand, and a drawing keeps its room.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui::{Rect, Vec2};
use egui_kittest::kittest::Queryable as _;
use traywright::action::View;

/// The last control of this name.
fn rect(hand: &Hand, (role, name): (Role, &str)) -> Rect {
    let found = hand
        .harness
        .query_all_by(move |node| node.role() == role && node.label().as_deref() == Some(name));
    found.last().unwrap_or_else(|| panic!("{name}")).rect()
}

/// Where the second is as seen from the first, however the form is scrolled.
fn below(hand: &Hand, [first, second]: [(Role, &str); 2]) -> Vec2 {
    rect(hand, second).left_top() - rect(hand, first).left_top()
}

const LIST: Role = Role::ComboBox;
const TEXT: Role = Role::TextInput;

#[test]
fn what_a_choice_asks_for_moves_nothing_below_it() {
    // A list, what is chosen one after the other in it, and what stands below it.
    let rows: &[(View, &str, &[&str], (Role, &str))] = &[
        (
            View::Site,
            "State",
            &["fresh socket", "grafted", "healed"],
            (TEXT, "Tissue thickness"),
        ),
        (
            View::Site,
            "State",
            &["fresh socket", "grafted", "healed"],
            (LIST, "Density"),
        ),
        (
            View::Site,
            "Add a distance to",
            &["lower right canine (43)"],
            (LIST, "Add a structure"),
        ),
        (
            View::Site,
            "Add a structure",
            &["mental foramen"],
            (TEXT, "Add: what it is"),
        ),
        (
            View::Case,
            "Gauge",
            &["not chosen"],
            (LIST, "Handpiece head"),
        ),
        (
            View::Case,
            "The case is for",
            &["surgery", "practice"],
            (TEXT, "Case of the other jaw"),
        ),
        (
            View::Case,
            "State",
            &["made", "not made yet"],
            (TEXT, "Date of the scan"),
        ),
    ];
    for (view, list, offers, watched) in rows {
        // So wide that no choice takes two lines of its own field.
        let mut hand = Hand::at(egui::vec2(1920.0, 1080.0), 1.0).with_demo("two-molars");
        hand.go(*view);
        if watched.1 == "Tissue thickness" {
            // Heights that were measured in other bone are told as such above it: here are none.
            hand.choose(list, "fresh socket");
            hand.click("Measured again: clear them");
            hand.choose(list, "healed");
        }
        let both = [(LIST, *list), *watched];
        let before = below(&hand, both);
        assert!(before.y > 0.0, "{list}: {before}");
        for offer in *offers {
            hand.choose(list, offer);
            assert_eq!(below(&hand, both), before, "{list}: {offer}");
        }
    }
}

/// The same for what follows a choice before it is taken.
#[test]
fn what_is_asked_for_one_after_the_other_moves_nothing_below_it() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Site);
    hand.choose("Add a structure", "incisive canal");
    let both = [(LIST, "Add a structure"), (TEXT, "Add: what it is")];
    let before = below(&hand, both);
    for lies in ["beside the site", "below the site"] {
        hand.choose("Where it is", lies);
        assert_eq!(below(&hand, both), before, "{lies}");
    }
    hand.choose("Measured from", "the platform");
    assert_eq!(below(&hand, both), before);
    let both = [(TEXT, "Add: what it is"), (LIST, "Carrier")];
    let before = below(&hand, both);
    hand.enter("Add: what it is", "edge of the guide");
    hand.enter("Above the sleeve's rim", "1.5");
    // What was scrolled lies on whole points, so that two things may be one apart more or less.
    let by = (below(&hand, both) - before).abs();
    assert!(by.max_elem() <= 1.0, "{by}");

    hand.click("Change it");
    let both = [(LIST, "Depth"), (TEXT, "After it")];
    let before = below(&hand, both);
    for depth in ["below the platform", "partial depth", "full depth"] {
        hand.choose("Depth", depth);
        assert_eq!(below(&hand, both), before, "{depth}");
    }
}

/// The names of what stands below the sequence stay where they are, whichever of it is shown, and so does the
/// sequence above, which says how many steps it has where not all are in sight.
#[test]
fn what_is_shown_below_the_sequence_moves_nothing() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Site);
    assert!(hand.sees("Sequence, 7 steps"));
    let names = [
        "Found here",
        "Change it",
        "Another implant",
        "Sequence, 7 steps",
    ];
    let places = |hand: &Hand| names.map(|name| hand.find(name).rect().y_range());
    let before = places(&hand);
    for name in ["Change it", "Another implant", "Found here"] {
        hand.click(name);
        assert_eq!(places(&hand), before, "{name}");
    }
}

/// Where no sleeve offset is entered yet, the face is picked first.
#[test]
fn the_face_of_the_offset_moves_nothing_below_it() {
    let mut hand = Hand::new();
    crate::plan::begin(&mut hand);
    crate::plan::place_first(&mut hand);
    let both = [
        (Role::RadioButton, "coronal rim"),
        (TEXT, "Tissue thickness"),
    ];
    let before = below(&hand, both);
    for face in ["apical face", "coronal rim"] {
        hand.pick(face);
        assert_eq!(below(&hand, both), before, "{face}");
    }
}

#[test]
fn the_state_of_a_tooth_moves_nothing_below_it() {
    let mut hand = Hand::new();
    crate::plan::begin(&mut hand);
    hand.choose("Selected", "lower right first molar (46): not entered");
    let both = [(LIST, "Selected"), (LIST, "Implant")];
    let before = below(&hand, both);
    hand.click("missing");
    assert_eq!(below(&hand, both), before);
}

/// The arch would be drawn at another scale.
#[test]
fn a_notice_moves_no_site_in_the_arch() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    let place = |hand: &Hand| {
        let document = hand.program().document().expect("a case");
        let site = document.case().sites[0].id.clone();
        hand.program().views().arch.on_screen(&site).expect("it")
    };
    hand.go(View::Case);
    hand.enter("Surgeon", "QP");
    hand.go(View::Arch);
    assert_eq!(hand.program().view_state().notice, None);
    let before = place(&hand);
    hand.press(egui::Modifiers::COMMAND, egui::Key::S);
    assert!(hand.sees("Saved: "));
    assert_eq!(place(&hand), before);
}

/// Beside the true length of an implant that of its label can be read without scrolling sideways.
#[test]
fn the_labelled_length_is_whole_in_the_smallest_window() {
    /// Between the table and the words beside it: the margins of both panes, points.
    const MARGINS: f32 = 28.0;
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Kit);
    let heads = hand.harness.query_all_by(|node| {
        node.role() == Role::Label && node.value().as_deref() == Some("Labelled length")
    });
    let head = heads
        .map(|node| node.rect())
        .reduce(|a, b| if a.top() < b.top() { a } else { b });
    let beside = hand.find("Copy in this case").rect();
    let head = head.expect("the head of the column");
    assert!(
        head.right() + MARGINS <= beside.left(),
        "{head:?} {beside:?}"
    );
}

/// A window that is wider gives the section no less room than the smallest: there its words are whole.
#[test]
fn the_section_has_no_less_room_in_a_wider_window() {
    let width = |window: f32| {
        let mut hand = Hand::at(egui::vec2(window, 1000.0), 1.0).with_demo("two-molars");
        hand.go(View::Site);
        let drawings = hand.harness.query_all_by(|node| node.role() == Role::Image);
        let widths = drawings.map(|node| node.rect().width());
        widths.fold(0.0, f32::max)
    };
    let least = width(1280.0);
    assert!(least > 300.0, "{least}");
    for window in [
        1400.0, 1500.0, 1540.0, 1600.0, 1680.0, 1740.0, 1760.0, 1920.0,
    ] {
        assert!(
            width(window) >= least,
            "{window}: {} < {least}",
            width(window)
        );
    }
}
