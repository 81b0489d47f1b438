//! The case: limits that say whose they are, the guide as it came, the size of the arch.

use crate::hand::Hand;
use egui::{Key, Modifiers};
use traywright::action::View;
use traywright_core::case::{Case, LimitId, ReceiptOf, default_limits};
use traywright_core::measure::Length;

const HEIGHT: &str = "Sleeve height, lower left second premolar (35)";
const OFFSET: &str = "Sleeve offset, lower left second premolar (35)";
const BORE: &str = "Sleeve bore, lower left second premolar (35)";

fn at_case(demo: &str) -> Hand {
    let mut hand = Hand::at(egui::vec2(1280.0, 2000.0), 1.0).with_demo(demo);
    hand.go(View::Case);
    hand
}

fn case(hand: &Hand) -> &Case {
    hand.program().document().expect("a case").case()
}

/// A figure that someone changed is no longer the one that its source gives.
#[test]
fn a_changed_limit_loses_the_source_of_the_old_one_until_it_is_set_back() {
    let mut hand = at_case("two-molars");
    hand.enter("mandibular canal, limit", "1.5");
    let limit = case(&hand)
        .limits
        .get(LimitId::MandibularCanal)
        .expect("a limit");
    assert_eq!(limit.limit_mm, Length::from_um(1_500));
    assert_eq!(limit.source, "own value, no source given");
    assert!(hand.sees("own value") && hand.sees("Less strict than the program's own"));
    hand.click("Back to the default: mandibular canal");
    assert_eq!(case(&hand).limits, default_limits());
}

#[test]
fn what_was_measured_of_the_guide_is_kept_by_site_and_kind() {
    let mut hand = at_case("one-premolar");
    hand.enter(HEIGHT, "4,65");
    let receipt = &case(&hand).guide.receipt;
    let last = receipt.last().expect("a measure");
    assert_eq!(last.of, ReceiptOf::MasterSleeveHeight);
    assert_eq!(last.measured_mm, Length::from_um(4_650));
    let count = receipt.len();
    hand.enter(HEIGHT, "4.7");
    assert_eq!(
        case(&hand).guide.receipt.len(),
        count,
        "it stands in place of the old one"
    );
    hand.press(Modifiers::COMMAND, Key::Z);
    let last = case(&hand).guide.receipt.last().expect("a measure");
    assert_eq!(last.measured_mm, Length::from_um(4_650));
}

/// Under another code the fields are empty and ask anew; the same figure, measured again, counts again.
#[test]
fn a_measure_of_another_guide_is_asked_anew() {
    let mut hand = at_case("one-premolar");
    let of = ReceiptOf::MasterSleeveHeight;
    let counts = |hand: &Hand| {
        let case = case(hand);
        case.received(&case.sites[0], of)
    };
    let before = counts(&hand).expect("a measure");
    hand.enter("Code on the guide", "Z9-NEW");
    assert_eq!(counts(&hand), None);
    assert!(hand.sees("measured on a guide with another code"));
    hand.enter(HEIGHT, &before.to_string());
    assert_eq!(counts(&hand), Some(before));
}

#[test]
fn a_measure_whose_decimal_mark_slipped_is_refused_at_its_field() {
    let mut hand = at_case("one-premolar");
    let before = case(&hand).guide.receipt.clone();
    let master = &case(&hand).sites[0].master_sleeve;
    let planned = case(&hand).kit.master_sleeve(master).expect("it").height_mm;
    for slipped in [planned.mm() * 10.0, planned.mm() / 10.0] {
        hand.enter(HEIGHT, &format!("{slipped:.3}"));
        assert!(hand.sees("the decimal mark stands elsewhere"), "{slipped}");
        assert_eq!(case(&hand).guide.receipt, before, "{slipped}");
    }
    hand.enter(HEIGHT, &format!("{:.2}", planned.mm() + 0.05));
    assert!(!hand.sees("the decimal mark stands elsewhere"));
    assert_ne!(case(&hand).guide.receipt, before);
}

/// Nobody measures exactly the plan: 3.87 where 3.85 is planned, 3.91 where 3.95 is.
#[test]
fn a_slipped_measure_is_told_also_where_it_was_not_exactly_the_plan() {
    let mut hand = at_case("one-premolar");
    let before = case(&hand).guide.receipt.clone();
    for (field, slipped) in [
        (HEIGHT, "38.7"),
        (HEIGHT, "0.387"),
        (OFFSET, "39.1"),
        (OFFSET, "0.39"),
        (BORE, "43.3"),
    ] {
        hand.enter(field, slipped);
        assert!(
            hand.sees("the decimal mark stands elsewhere"),
            "{field} {slipped}"
        );
        assert_eq!(case(&hand).guide.receipt, before, "{field} {slipped}");
    }
    // What is only far off was measured.
    for (field, far) in [(HEIGHT, "4.8"), (OFFSET, "2.5"), (OFFSET, "12")] {
        let mut hand = at_case("one-premolar");
        hand.enter(field, far);
        assert!(!hand.sees("the decimal mark stands elsewhere"), "{far}");
        assert_ne!(case(&hand).guide.receipt, before, "{field} {far}");
    }
}

#[test]
fn a_date_that_is_none_is_refused_at_its_field() {
    let mut hand = at_case("two-molars");
    let before = case(&hand).guide.scan_date;
    hand.enter("Date of the scan", "2 October");
    assert_eq!(case(&hand).guide.scan_date, before);
    assert!(hand.sees("a date is written like"));
    hand.enter("Date of the scan", "2026-09-30");
    assert_eq!(
        case(&hand).guide.scan_date,
        Some(jiff::civil::date(2026, 9, 30))
    );
}

#[test]
fn a_size_of_the_arch_is_whole_or_none() {
    let mut hand = at_case("two-molars");
    hand.click("Clear the arch size");
    assert_eq!(case(&hand).arch, None);
    hand.choose("Measured at", "distal contacts of the second molars");
    hand.enter("Arch width there", "61.5");
    hand.enter("Arch depth to there", "44");
    let size = case(&hand).arch.expect("a size");
    assert_eq!(size.width_mm, Length::from_um(61_500));
    assert_eq!(size.depth_mm, Length::from_mm(44));
}

#[test]
fn team_note_and_code_are_entered_and_undone() {
    let mut hand = at_case("two-molars");
    hand.enter("Surgeon", "QP");
    assert_eq!(
        case(&hand).team.surgeon.as_ref().map(|s| s.as_str()),
        Some("QP")
    );
    hand.enter("Case of the other jaw", "DEMO-U9");
    assert_eq!(
        case(&hand).other_jaw_case.as_ref().map(|s| s.as_str()),
        Some("DEMO-U9")
    );
    hand.enter("Case reference", " ");
    assert_eq!(case(&hand).reference.as_str(), "DEMO-B2");
    assert!(hand.sees("a value is needed here"));
    // The text first, then the step before it.
    for _ in 0..2 {
        hand.press(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(case(&hand).other_jaw_case, None);
}

/// What newer rules change is shown before they are taken, and taking them is a step that can be undone.
#[test]
fn newer_rules_are_taken_by_a_hand() {
    let hand = at_case("one-premolar");
    let file = hand
        .program()
        .document()
        .unwrap()
        .file()
        .unwrap()
        .to_owned();
    let text = std::fs::read_to_string(&file).unwrap();
    assert!(!hand.sees("This case is of rules"));
    let older = text.replacen("\"rules_version\": 11", "\"rules_version\": 1", 1);
    std::fs::write(&file, older).unwrap();
    let mut hand = Hand::at(egui::vec2(1280.0, 2000.0), 1.0);
    hand.harness.state_mut().open(&file);
    hand.harness.run();
    hand.go(View::Case);
    assert!(hand.sees("This case is of rules 1"));
    hand.click("Take the newer rules");
    assert_eq!(case(&hand).rules_version, 11);
    assert!(!hand.sees("This case is of rules"));
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(case(&hand).rules_version, 1);
}
