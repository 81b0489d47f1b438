//! `take-kit`: the revision rises only where a figure changes, and a case is never left half.

use crate::demo;
use crate::desk::{Beside, Said, said};
use std::fs;
use std::path::PathBuf;
use traywright::Outcome;
use traywright_core::case::{ValidCase, read_kit};
use traywright_core::document::print;
use traywright_core::kit::Kit;
use traywright_core::measure::Length;

fn live() -> Kit {
    read_kit(&demo::bytes("kit")).unwrap()
}

fn take(beside: &Beside, kit: &Kit) -> Said {
    let file: PathBuf = beside.folder.path().join("kit.json");
    fs::write(&file, print(kit).unwrap()).unwrap();
    said(&[&"take-kit", &beside.case, &"--kit", &file])
}

fn molars() -> Beside {
    Beside::of(&demo::valid("two-molars"))
}

fn revisions(before: &ValidCase, beside: &Beside) -> (u32, u32) {
    (before.revision, beside.read().revision)
}

#[test]
fn the_same_kit_changes_nothing() {
    let beside = molars();
    let (before, bytes) = (beside.read(), fs::read(&beside.case).unwrap());
    let said = take(&beside, &live());
    assert_eq!(said.outcome, Outcome::Done, "{}", said.err);
    assert!(said.out.contains("no figure changes"), "{}", said.out);
    assert_eq!(fs::read(&beside.case).unwrap(), bytes);
    let (was, is) = revisions(&before, &beside);
    assert_eq!(was, is);
}

/// Sources are taken over without a new revision: approvals still hold.
#[test]
fn another_source_is_taken_over_in_the_same_revision() {
    let beside = molars();
    let before = beside.read();
    let mut kit = live();
    kit.drills[1].source = Some("measured anew".into());
    let said = take(&beside, &kit);
    assert!(said.out.contains("no figure changes"), "{}", said.out);
    let after = beside.read();
    let source = after.kit.drills[1].source.as_ref();
    assert_eq!(source.unwrap(), "measured anew");
    assert_eq!(
        (after.revision, after.fingerprint()),
        (before.revision, before.fingerprint())
    );
}

/// By its name a hand takes a drill: a new revision.
#[test]
fn another_name_makes_a_new_revision() {
    let beside = molars();
    let before = beside.read();
    let mut kit = live();
    kit.drills[1].name = "Second drill".into();
    take(&beside, &kit);
    assert_eq!(beside.read().revision, before.revision + 1);
}

/// A marking distinguishes drills, and things marked alike are kept apart: a new revision.
#[test]
fn another_marking_makes_a_new_revision() {
    let beside = molars();
    let before = beside.read();
    let mut kit = live();
    kit.drills[1].marking.colour = Some("plum".to_owned());
    let said = take(&beside, &kit);
    assert!(!said.out.contains("no figure changes"), "{}", said.out);
    let after = beside.read();
    assert_eq!(after.revision, before.revision + 1);
    assert_ne!(after.fingerprint(), before.fingerprint());
}

#[test]
fn another_measure_raises_the_revision_and_says_that_approvals_end() {
    let beside = molars();
    let before = beside.read();
    let mut kit = live();
    kit.drill_sleeves
        .iter_mut()
        .find(|s| s.id.as_str() == "wide-213")
        .unwrap()
        .seat_above_rim_mm = Length::parse_mm("0.95").unwrap();
    let said = take(&beside, &kit);
    assert!(said.out.contains("the plan changes"), "{}", said.out);
    assert!(
        said.out
            .contains("Approvals of the earlier plan no longer hold"),
        "{}",
        said.out
    );
    let after = beside.read();
    assert_eq!(after.revision, before.revision + 1);
    assert_ne!(after.fingerprint(), before.fingerprint());
    for shown in [after.revision.to_string(), after.fingerprint().to_string()] {
        assert!(said.out.contains(&shown), "{}", said.out);
    }
}

/// Entries that the case does not use stay out of it.
#[test]
fn only_what_the_case_uses_is_taken() {
    let beside = molars();
    let mut kit = live();
    kit.gauges[1].graduation_mm = Length::parse_mm("0.7").unwrap();
    assert!(take(&beside, &kit).out.contains("no figure changes"));
    assert!(beside.read().kit.gauges.len() < kit.gauges.len());
}

/// An implant that the kit no longer has: the case stays as it was, to the byte.
#[test]
fn a_kit_that_lacks_what_the_case_needs_is_refused() {
    let beside = molars();
    let bytes = fs::read(&beside.case).unwrap();
    let mut kit = live();
    kit.gauges.remove(0);
    let said = take(&beside, &kit);
    assert_eq!(said.outcome, Outcome::Failed);
    assert!(said.err.contains("setup › gauge"), "{}", said.err);
    assert!(
        said.err
            .contains("there is no gauge with the id bench-gauge"),
        "{}",
        said.err
    );
    assert_eq!(fs::read(&beside.case).unwrap(), bytes);
}

/// A guide that is made holds the sleeve that it was made with.
#[test]
fn a_made_guide_keeps_its_sleeve() {
    let beside = Beside::new();
    let bytes = fs::read(&beside.case).unwrap();
    let mut kit = live();
    kit.master_sleeves[0].height_mm = Length::parse_mm("3.95").unwrap();
    let said = take(&beside, &kit);
    assert_eq!(said.outcome, Outcome::Failed, "{}", said.out);
    assert!(
        said.err.contains("the guide is made and cannot change"),
        "{}",
        said.err
    );
    assert_eq!(fs::read(&beside.case).unwrap(), bytes);
}

/// Nothing is left beside the case but what was there.
#[test]
fn nothing_is_left_beside_the_case() {
    let beside = molars();
    take(&beside, &live());
    let mut names: Vec<String> = fs::read_dir(beside.folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(names, ["case.json", "case.signed", "kit.json"]);
}
