//! Exit codes of `check` and the plain command, 0 where nothing is open and 1 where something is,
//! and their output.

use super::figures::printed;
use crate::demo;
use crate::desk::{Beside, patient, said};
use std::collections::BTreeSet;
use traywright::Outcome;
use traywright_core::case::{Decision, DecisionKind, Edit};
use traywright_core::plan::{Severity, work_out};

/// By the demonstration's own description only the two molars have something short or unknown.
#[test]
fn only_the_two_molars_end_with_1() {
    for name in demo::CASES {
        let wanted = if *name == "two-molars" {
            Outcome::Open
        } else {
            Outcome::Done
        };
        let path = demo::path(name);
        let checked = said(&[&"check", &path]);
        assert_eq!(checked.outcome, wanted, "{name}\n{}", checked.out);
        assert_eq!(checked.err, "", "{name}");
        assert_eq!(
            said(&[&path]).outcome,
            Outcome::Done,
            "{name}: only a check judges"
        );
    }
}

#[test]
fn the_exit_agrees_with_the_printed_severities() {
    for name in demo::CASES {
        let figures = printed(name, &[]);
        let findings = figures["findings"].as_array().unwrap();
        let open = findings
            .iter()
            .any(|f| f["severity"] == "short" || f["severity"] == "unknown");
        let checked = said(&[&"check", &demo::path(name)]);
        assert_eq!(checked.outcome == Outcome::Open, open, "{name}");
    }
}

/// The full arch has findings that the surgeon accepted and intends, and passes.
#[test]
fn what_is_accepted_or_intended_passes() {
    let sheet = work_out(&demo::valid("full-arch-upper"));
    let has: BTreeSet<&str> = sheet.findings.iter().map(|f| f.severity().key()).collect();
    assert!(
        has.contains("accepted") && has.contains("intended"),
        "{has:?}"
    );
    let checked = said(&[&"check", &demo::path("full-arch-upper")]);
    assert_eq!(checked.outcome, Outcome::Done);
    assert!(
        checked
            .out
            .contains("Of what was assessed, nothing is short or unknown but what was accepted.")
    );
}

/// A short clearance ends with 1; accepted with a reason it passes; and fails again once its value
/// is another one.
#[test]
fn a_short_finding_passes_once_accepted_and_no_longer_when_its_value_changes() {
    let beside = Beside::of(&patient());
    let limit = |mm: &str| {
        let mut limits = beside.read().limits.clone();
        limits.mandibular_canal.as_mut().unwrap().limit_mm = mm.parse_mm();
        Edit::SetLimits(Box::new(limits))
    };
    beside.save(&[limit("6")]);
    let checked = beside.says("check");
    assert_eq!(checked.outcome, Outcome::Open, "{}", checked.out);
    let sheet = work_out(&beside.read());
    let short: Vec<_> = sheet
        .findings
        .iter()
        .filter(|f| f.severity() == Severity::Short)
        .collect();
    assert_eq!(short.len(), 1, "{}", checked.out);
    let judgement = |shown| {
        Edit::Judge(Decision {
            finding: short[0].key(),
            judged: DecisionKind::Accepted,
            shown,
            reason: "seen on the cross-section".to_owned(),
            by: "RT".into(),
        })
    };
    beside.save(&[judgement(short[0].digest())]);
    let checked = beside.says("check");
    assert_eq!(checked.outcome, Outcome::Done, "{}", checked.out);
    let last = checked.out.lines().last().unwrap_or_default();
    assert!(checked.out.contains("accepted, short"), "{}", checked.out);
    assert!(last.contains("Accepted although short: 1"), "{last}");
    beside.save(&[limit("6.1")]);
    assert_eq!(beside.says("check").outcome, Outcome::Open);
}

trait ParseMm {
    fn parse_mm(&self) -> traywright_core::measure::Length;
}

impl ParseMm for str {
    fn parse_mm(&self) -> traywright_core::measure::Length {
        traywright_core::measure::Length::parse_mm(self).unwrap()
    }
}

/// Each open finding is printed with its remedy.
#[test]
fn what_is_open_stands_first_with_a_remedy_and_is_counted() {
    let checked = said(&[&"check", &demo::path("two-molars")]).out;
    let first = checked.lines().next().unwrap();
    assert!(first.starts_with("short"), "{checked}");
    let sheet = work_out(&demo::valid("two-molars"));
    let of = |severity| {
        sheet
            .findings
            .iter()
            .filter(|f| f.severity() == severity)
            .count()
    };
    let (short, unknown) = (of(Severity::Short), of(Severity::Unknown));
    assert!(
        checked.contains(&format!("{short} short, {unknown} unknown")),
        "{checked}"
    );
    let at = checked.find("unknown").unwrap();
    assert!(
        checked[at..].contains("Not assessed by this version:"),
        "{checked}"
    );
}

/// The plain command shows what a hand acts on: each setting, marked as a demonstration.
#[test]
fn the_plain_command_prints_every_setting_and_that_it_is_a_demonstration() {
    for name in demo::CASES {
        let shown = said(&[&demo::path(name)]).out;
        assert!(shown.starts_with("DEMONSTRATION"), "{name}");
        for site in &work_out(&demo::valid(name)).sites {
            for step in &site.steps {
                let set = step.set.length().unwrap().to_string();
                assert!(shown.contains(&set), "{name} {} {set}", step.id);
            }
        }
    }
    let beside = Beside::of(&patient());
    assert!(!beside.opened().out.contains("DEMONSTRATION"));
}
