//! From an empty case to a written checklist of two sites, by pointer and by the keyboard alone,
//! and all of it taken back.

use crate::hand::Hand;
use crate::plan::{begin, plan, printed_lines, redo_all, undo_all, write_sheet};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use traywright::action::View;
use traywright_core::case::ValidCase;
use traywright_core::kit::SiteId;
use traywright_core::plan::Worksheet;

fn case(hand: &Hand) -> &ValidCase {
    hand.program().document().expect("a case").case()
}

fn worksheet(hand: &Hand) -> &Worksheet {
    hand.program().document().expect("a case").worksheet()
}

/// Plans, looks at the findings and writes the checklist; everything that a person would look at is
/// there.
fn from_nothing(mut hand: Hand) {
    begin(&mut hand);
    plan(&mut hand);
    let sites: Vec<(SiteId, usize)> = worksheet(&hand)
        .sites
        .iter()
        .map(|site| (site.id.clone(), site.steps.len()))
        .collect();
    assert_eq!(sites.len(), 2);
    assert!(sites.iter().all(|(_, steps)| *steps > 2), "{sites:?}");
    for step in worksheet(&hand).sites.iter().flat_map(|site| &site.steps) {
        assert!(step.set.length().is_some(), "{}: no setting", step.drill);
    }
    hand.go(View::Findings);
    assert!(hand.sees("lower right second molar (47)"));

    let pdf = write_sheet(&mut hand);
    let printed = printed_lines(&pdf);
    let document = hand.program().document().expect("a case");
    let notation = hand.program().desk().settings.notation;
    let formatter = document.formatter(notation);
    for site in &document.worksheet().sites {
        let tooth = formatter.site(&site.id);
        assert!(printed.iter().any(|line| line.contains(&tooth)), "{tooth}");
        for step in &site.steps {
            let set = formatter.setting(step);
            assert!(printed.contains(&set), "{set} of {}", step.drill);
        }
    }
    assert!(hand.sees("Written, NOT APPROVED: "));
}

#[test]
fn from_an_empty_case_to_a_written_checklist_of_two_sites() {
    from_nothing(Hand::new());
}

#[test]
fn the_same_by_the_keyboard_alone() {
    from_nothing(Hand::new().by_keys());
}

/// Worked out by hand from the invented kit's figures, as for the demonstration of two molars:
/// 4.45 + 4.65 of master sleeve + 0.85 of drill sleeve = 9.95; + 10.4 of implant + 0.4 of allowance
/// = 20.75, to tenths 20.7. Of the other 4.55 + 4.65 + 0.85 + 8.7 + 0.4 = 19.15, to tenths 19.1.
#[test]
fn the_settings_of_what_was_typed_are_those_worked_out_by_hand() {
    let mut hand = Hand::new();
    begin(&mut hand);
    plan(&mut hand);
    // The second site is looked at.
    for (key, set) in [(None, "19.1"), (Some(Key::PageUp), "20.7")] {
        if let Some(key) = key {
            hand.press(Modifiers::COMMAND, key);
        }
        let shown = hand.names(Role::Button);
        for drill in ["Pilot drill 2.13", "Tip drill 4.07"] {
            let setting = format!("setting of {drill}: {set}");
            assert!(shown.contains(&setting), "{setting}: {shown:#?}");
        }
    }
}

#[test]
fn all_of_it_is_taken_back_to_the_empty_case_and_done_again_to_the_same_fingerprint() {
    let mut hand = Hand::new();
    begin(&mut hand);
    let empty = case(&hand).clone();
    let nothing = worksheet(&hand).fingerprint;
    plan(&mut hand);
    let (planned, fingerprint) = (case(&hand).clone(), worksheet(&hand).fingerprint);
    assert_ne!(fingerprint, nothing);

    let back = undo_all(&mut hand);
    assert!(back > 20, "{back}");
    assert!(*case(&hand) == empty, "it is not the empty case");
    assert_eq!(worksheet(&hand).fingerprint, nothing);
    assert_eq!(redo_all(&mut hand), back);
    assert!(*case(&hand) == planned, "it is not what was planned");
    assert_eq!(worksheet(&hand).fingerprint, fingerprint);
}
