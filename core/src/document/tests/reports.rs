//! Edits that make the good document a bad one, with the sentences that they give.

use super::texts::sentences;
use super::*;
use std::fmt::Write as _;

/// Each block: `=== old ==> new`, then the report. Worked through by eye when it was made; when a
/// sentence is reworded, `UPDATE_REPORTS=1` writes the file anew, to be looked through again.
const REPORTS: &str = include_str!("reports.txt");

/// The good document with one part of its text replaced.
fn edited(from: &str, to: &str) -> String {
    assert_eq!(GOOD.matches(from).count(), 1, "{from:?} stands once");
    GOOD.replace(from, to)
}

#[test]
fn each_edit_is_reported_in_full_and_in_words() {
    let mut now = String::new();
    for block in REPORTS.split("=== ").skip(1) {
        let edit = block.lines().next().unwrap();
        let (from, to) = edit.split_once(" ==>").unwrap();
        let report = match read_sample(edited(from, to.strip_prefix(' ').unwrap_or(to))) {
            Ok(_) => "good".to_owned(),
            Err(faults) => format!("{}\n{:?}", sentences(&faults), faults.coverage()),
        };
        writeln!(now, "=== {edit}\n{report}").unwrap();
    }
    if std::env::var_os("UPDATE_REPORTS").is_some() {
        let path = concat!(
            env!("CARGO_MANIFEST_DIR"),
            "/src/document/tests/reports.txt"
        );
        std::fs::write(path, &now).unwrap();
    }
    for (is, wanted) in now.lines().zip(REPORTS.lines()) {
        assert_eq!(is, wanted);
    }
    assert_eq!(now, REPORTS);
}

#[test]
fn several_faults_come_together_and_in_the_order_of_the_file() {
    let bad = GOOD
        .replace("9.3,", "-9.3456,")
        .replace("\"most_rpm\": 850", "\"most_rmp\": 850.5")
        .replace("\"kind\": \"measured\"", "\"kind\": \"mesured\"")
        .replace("\"after\": \"36-a\"", "\"after\": \"35\"");
    let faults = read_sample(bad).unwrap_err();
    let rules: Vec<Rule> = faults.iter().map(|fault| fault.rule).collect();
    let wanted = [
        Rule::TooManyDecimals,
        Rule::NotAbove,
        Rule::MisspeltKey,
        Rule::NotWhole,
        Rule::MisspeltValue,
    ];
    assert_eq!(rules, wanted, "the fraction hides the dangling reference");
    let bad = GOOD
        .replace("9.3,", "-9.3456,")
        .replace("\"kind\": \"measured\"", "\"kind\": \"mesured\"")
        .replace("\"after\": \"36-a\"", "\"after\": \"35\"");
    let faults = read_sample(bad).unwrap_err();
    assert_eq!(faults.count(), 4);
    assert_eq!(faults.iter().last().unwrap().rule, Rule::DanglingReference);
    assert!(faults.iter().is_sorted_by_key(|fault| fault.position));
}
