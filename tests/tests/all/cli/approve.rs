//! `approve`: only a plan with nothing open, beside the case, and only while the plan is unchanged.

use crate::demo;
use crate::desk::{Beside, patient, said};
use std::fs;
use traywright::Outcome;
use traywright_core::case::{Edit, GuideState, PlatformToSleeve, ValidCase};
use traywright_core::measure::Length;

/// The first site a tenth nearer to its sleeve, the guide not made yet.
fn moved(beside: &Beside) -> Vec<Edit> {
    let case = beside.read();
    let mut guide = case.guide.clone();
    guide.state = GuideState::Planned;
    let mut site = case.sites[0].clone();
    let old = site.platform_to_sleeve.unwrap();
    site.platform_to_sleeve = Some(PlatformToSleeve {
        entered_mm: old.entered_mm + Length::parse_mm("0.1").unwrap(),
        ..old
    });
    vec![
        Edit::SetGuide(Box::new(guide)),
        Edit::ChangeSite(Box::new(site)),
    ]
}

#[test]
fn a_case_with_something_open_is_not_approved_and_nothing_is_written() {
    let beside = Beside::of(&demo::valid("two-molars"));
    let refused = beside.approve("desk");
    assert_eq!(refused.outcome, Outcome::Failed);
    for wanted in [
        "not approved: findings that are short or unknown: ",
        "Resolve them, or accept with a reason those that can be accepted, then approve",
    ] {
        assert!(refused.err.contains(wanted), "{}", refused.err);
    }
    assert!(!beside.file("desk.events.jsonl").exists());
    assert!(beside.opened().out.contains(": not approved"));
}

#[test]
fn an_approved_case_says_so_with_the_name() {
    let beside = Beside::new();
    assert!(beside.opened().out.contains(": not approved"));
    let approved = beside.approve("desk");
    assert_eq!(approved.outcome, Outcome::Done, "{}", approved.err);
    let fingerprint = patient().fingerprint().to_string();
    let line = format!("approved by Ines Roth: {fingerprint}\n");
    assert!(approved.out.starts_with(&line), "{}", approved.out);
    let opened = beside.opened().out;
    let first = opened.lines().next().unwrap();
    assert!(first.ends_with(": approved by Ines Roth"), "{opened}");
    assert!(first.contains(&fingerprint), "{opened}");
}

/// What `check` tells of the case beside its findings is told with the approval too.
#[test]
fn an_approval_tells_of_an_old_scan() {
    let mut case = patient().into_case();
    case.guide.scan_date = Some("2024-01-10".parse().unwrap());
    let beside = Beside::of(&ValidCase::try_from(case).unwrap());
    let approved = beside.approve("desk");
    assert_eq!(approved.outcome, Outcome::Done, "{}", approved.err);
    assert!(approved.out.contains("months ago"), "{}", approved.out);
}

/// The case file itself is not touched by an approval.
#[test]
fn an_approval_leaves_the_case_file_as_it_is() {
    let beside = Beside::new();
    let before = fs::read(&beside.case).unwrap();
    beside.approve("desk");
    beside.approve("other");
    assert_eq!(fs::read(&beside.case).unwrap(), before);
    let lines = fs::read_to_string(beside.file("desk.events.jsonl")).unwrap();
    assert_eq!(lines.lines().count(), 2, "a header and one event");
}

#[test]
fn an_edit_withdraws_the_approval_and_undo_restores_it() {
    let beside = Beside::new();
    let original = beside.read();
    beside.approve("desk");
    beside.save(&moved(&beside));
    assert!(beside.opened().out.contains(": not approved"));
    fs::write(
        &beside.case,
        traywright_core::document::print(&*original).unwrap(),
    )
    .unwrap();
    assert!(beside.opened().out.contains(": approved by Ines Roth"));
}

/// A change on which no figure depends does not take an approval away.
#[test]
fn a_note_or_a_name_leaves_the_approval() {
    let beside = Beside::new();
    beside.approve("desk");
    let mut team = beside.read().team.clone();
    team.nurse = Some("QQ".into());
    beside.save(&[
        Edit::SetNote(Some("told the patient".to_owned())),
        Edit::SetTeam(team),
    ]);
    assert!(beside.opened().out.contains(": approved by Ines Roth"));
}

#[test]
fn approving_a_demonstration_is_practice() {
    let beside = Beside::of(&demo::valid("one-premolar"));
    let approved = beside.approve("desk");
    assert_eq!(approved.outcome, Outcome::Done);
    assert!(
        approved.out.contains("approved for practice by Ines Roth"),
        "{}",
        approved.out
    );
    assert!(
        approved.out.contains("this counts for no patient"),
        "{}",
        approved.out
    );
    let opened = beside.opened().out;
    assert!(
        opened.contains(": approved for practice by Ines Roth"),
        "{opened}"
    );
}

/// An approval of the demonstration does not become a patient's when the mark is taken away.
#[test]
fn practice_never_turns_into_an_approval() {
    let beside = Beside::of(&demo::valid("one-premolar"));
    beside.approve("desk");
    let mut case = beside.read().into_case();
    case.demonstration = false;
    case.kit.demonstration = false;
    fs::write(
        &beside.case,
        traywright_core::document::print(&case).unwrap(),
    )
    .unwrap();
    let opened = beside.opened().out;
    assert!(!opened.contains("approved by"), "{opened}");
    assert!(!opened.contains("DEMONSTRATION"), "{opened}");
}

/// Names that cannot be are refused in words that say which.
#[test]
fn a_name_that_cannot_be_is_refused() {
    let beside = Beside::new();
    let case = &beside.case;
    for (by, desk, wanted) in [
        ("", "desk", "a name needs at least one letter or digit"),
        ("..", "desk", "a name needs at least one letter or digit"),
        ("Ines Roth", "Front Desk", "a name cannot hold"),
        ("Ines Roth", "../desk", "a name cannot hold"),
        ("Ines Roth", "", "a name needs at least one letter or digit"),
    ] {
        let refused = said(&[&"approve", case, &"--by", &by, &"--desk", &desk]);
        assert_eq!(refused.outcome, Outcome::Failed, "{by} {desk}");
        assert!(refused.err.contains(wanted), "{by} {desk}: {}", refused.err);
        let which = if desk == "desk" { "--by" } else { "--desk" };
        assert!(refused.err.contains(which), "{by} {desk}: {}", refused.err);
    }
    assert_eq!(fs::read_dir(beside.file("")).unwrap().count(), 0);
}

/// Two desks write two files, and both are read.
#[test]
fn each_desk_writes_a_file_of_its_own() {
    let beside = Beside::new();
    for desk in ["front", "theatre-2"] {
        assert_eq!(beside.approve(desk).outcome, Outcome::Done);
        assert!(beside.file(&format!("{desk}.events.jsonl")).exists());
    }
    assert!(beside.opened().out.contains(": approved by Ines Roth"));
}

/// With a slip of a year the scan seems to be of after a graft: what was measured on it would count.
#[test]
fn a_scan_or_graft_of_a_day_to_come_is_told_and_nothing_is_approved() {
    let beside = Beside::new();
    let mut guide = beside.read().guide.clone();
    guide.scan_date = Some("2999-01-02".parse().unwrap());
    beside.save(&[Edit::SetGuide(Box::new(guide))]);
    let told = beside.opened().out;
    assert!(told.contains("dated 2999-01-02"), "{told}");
    let refused = beside.approve("desk");
    assert_eq!(refused.outcome, Outcome::Failed);
    assert!(refused.err.contains("dated 2999-01-02"), "{}", refused.err);
    assert!(!beside.file("desk.events.jsonl").exists());
}

/// A scan of the wrong year, or of none, is told wherever it is worked with; it stops nothing.
#[test]
fn an_old_or_undated_scan_is_told() {
    let told = |day: Option<&str>, demonstration: bool| {
        let beside = Beside::new();
        let mut guide = beside.read().guide.clone();
        guide.scan_date = day.map(|day| day.parse().unwrap());
        beside.save(&[
            Edit::SetGuide(Box::new(guide)),
            Edit::SetDemonstration(demonstration),
        ]);
        beside.opened().out
    };
    let old = told(Some("1996-10-02"), false);
    assert!(old.contains("The scan is of 1996-10-02, "), "{old}");
    let undated = told(None, false);
    assert!(
        undated.contains("The day of the scan was not entered"),
        "{undated}"
    );
    for practice in [told(Some("1996-10-02"), true), told(None, true)] {
        assert!(!practice.contains("The scan is of"), "{practice}");
        assert!(!practice.contains("day of the scan"), "{practice}");
    }
}
