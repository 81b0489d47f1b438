//! A case that was saved by older rules: what the newer ones change is told before they are taken.

use crate::desk::{Beside, said};
use std::fs;
use traywright::Outcome;
use traywright_core::case::RULES_VERSION;

/// The case of a patient as older rules left it.
fn older() -> Beside {
    let beside = Beside::new();
    let text = fs::read_to_string(&beside.case).unwrap();
    let now = format!("\"rules_version\": {RULES_VERSION}");
    let older = text.replacen(&now, "\"rules_version\": 1", 1);
    assert_ne!(older, text);
    fs::write(&beside.case, older).unwrap();
    beside
}

#[test]
fn nothing_is_approved_by_rules_that_were_not_taken() {
    let beside = older();
    let before = fs::read(&beside.case).unwrap();
    let check = beside.says("check");
    assert_eq!(check.outcome, Outcome::Open);
    assert!(
        check.out.starts_with("This case is of rules 1"),
        "{}",
        check.out
    );
    assert!(
        check.out.contains("does not hold what its rules gave"),
        "{}",
        check.out
    );
    assert_eq!(beside.approve("desk").outcome, Outcome::Failed);
    assert_eq!(fs::read(&beside.case).unwrap(), before);
    let taken = beside.says("take-rules");
    assert_eq!(taken.outcome, Outcome::Done, "{}", taken.err);
    let now = format!("is now of rules {RULES_VERSION}");
    assert!(taken.out.contains(&now), "{}", taken.out);
    let case = beside.read();
    assert_eq!(case.rules_version, RULES_VERSION);
    // From now on it is known what these rules gave.
    assert!(case.saved_figures.is_some());
    assert_eq!(beside.says("check").outcome, Outcome::Done);
    assert_eq!(beside.approve("desk").outcome, Outcome::Done);
    assert!(
        beside
            .says("take-rules")
            .out
            .contains("nothing was written")
    );
}

#[test]
fn rules_of_a_newer_program_are_refused_and_nothing_is_written() {
    let beside = Beside::new();
    let text = fs::read_to_string(&beside.case).unwrap();
    let now = format!("\"rules_version\": {RULES_VERSION}");
    let newer = format!("\"rules_version\": {}", RULES_VERSION + 1);
    fs::write(&beside.case, text.replacen(&now, &newer, 1)).unwrap();
    let before = fs::read(&beside.case).unwrap();
    for command in ["check", "take-rules"] {
        let refused = said(&[&command, &beside.case]);
        assert_eq!(refused.outcome, Outcome::Failed);
        let (newer, now) = (RULES_VERSION + 1, RULES_VERSION);
        let told = format!("is of rules {newer}, and this program works by rules up to {now}");
        assert!(refused.err.contains(&told), "{}", refused.err);
    }
    assert_eq!(fs::read(&beside.case).unwrap(), before);
}
