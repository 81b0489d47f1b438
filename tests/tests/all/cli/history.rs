//! `history`: all that was recorded, who and when, and what of it counts.

use crate::demo;
use crate::desk::{Beside, said};
use std::fs;
use traywright::Outcome;
use traywright_core::case::Edit;
use traywright_core::sign::{EventKind, Who, WriterId};
use traywright_core::store::append_event;

fn record(beside: &Beside, desk: &str, kind: EventKind) {
    let case = beside.read();
    let case_jaw = traywright_core::plan::case_jaw(&case);
    let (writer, who) = (WriterId::new(desk).unwrap(), Who::new("QP").unwrap());
    let at = "2026-03-04T05:06:07Z".parse().unwrap();
    append_event(&beside.case, &case_jaw, &writer, at, who, kind).unwrap();
}

/// The lines about events, each with what it is worth.
fn events(said: &str) -> Vec<(String, String)> {
    let lines: Vec<&str> = said.lines().collect();
    let of = |pair: &[&str]| {
        let is = pair[0].contains(" UTC, ") && pair[1].starts_with("    ");
        is.then(|| (pair[0].to_owned(), pair[1].trim().to_owned()))
    };
    lines.windows(2).filter_map(of).collect()
}

#[test]
fn approvals_and_what_withdrew_them_are_told_in_their_order() {
    let beside = Beside::new();
    let none = beside.says("history");
    assert_eq!(none.outcome, Outcome::Done);
    assert!(
        none.out.contains("Nothing is recorded for this case yet"),
        "{}",
        none.out
    );
    beside.approve("desk");
    let fingerprint = beside.read().fingerprint();
    let reason = "new scan ordered".to_owned();
    record(
        &beside,
        "other",
        EventKind::ApprovalWithdrawn {
            fingerprint,
            reason,
        },
    );
    beside.approve("desk");
    let said = beside.says("history").out;
    let told = events(&said);
    let worth: Vec<&str> = told.iter().map(|(_, worth)| worth.as_str()).collect();
    assert_eq!(worth, ["DOES NOT COUNT", "on record", "counts"], "{said}");
    for (n, wanted) in [
        (0, ["Ines Roth, desk 1: Approved revision"; 1]),
        (1, ["QP, other 1: Withdrew every approval"]),
        (2, ["Ines Roth, desk 2: Approved revision"]),
    ] {
        assert!(told[n].0.contains(wanted[0]), "{said}");
    }
    assert!(told[1].0.starts_with("2026-03-04 05:06 UTC"), "{said}");
    assert!(
        said.contains("    Withdrawn by QP: new scan ordered"),
        "{said}"
    );
    beside.save(&[Edit::SetNote(Some("told".to_owned()))]);
    assert!(beside.says("history").out.contains("counts"));
}

#[test]
fn of_a_broken_record_all_that_can_be_read_is_told_and_counts_for_nothing() {
    let beside = Beside::new();
    beside.approve("desk");
    beside.approve("other");
    let file = beside.file("other.events.jsonl");
    let damaged = fs::read_to_string(&file)
        .unwrap()
        .replacen("Ines", "Inez", 1);
    fs::write(&file, damaged).unwrap();
    let said = beside.says("history").out;
    let first = said.lines().next().unwrap();
    assert!(first.starts_with("other.events.jsonl, line 2"), "{said}");
    assert!(said.contains("Nothing below counts"), "{said}");
    let told = events(&said);
    assert_eq!(told.len(), 1, "{said}");
    assert_eq!(told[0].1, "DOES NOT COUNT");
}

#[test]
fn in_a_demonstration_it_says_for_practice() {
    let beside = Beside::of(&demo::valid("one-premolar"));
    beside.approve("desk");
    let said = beside.says("history").out;
    assert_eq!(events(&said)[0].1, "for practice only", "{said}");
}

/// The last line of a log, or the whole folder, is gone: the paper still knows.
#[test]
fn what_is_on_paper_and_no_more_in_the_record_is_told() {
    let beside = Beside::new();
    beside.approve("desk");
    let kept = fs::read(beside.file("desk.events.jsonl")).unwrap();
    let earlier = end(&beside);
    beside.approve("desk");
    let last = end(&beside);
    assert!(last.starts_with("desk 2: "), "{last}");
    let asked = |paper: &[&str]| {
        let mut arguments: Vec<&dyn AsRef<std::ffi::OsStr>> = vec![&"history", &beside.case];
        for one in paper {
            arguments.push(&"--paper");
            arguments.push(one);
        }
        said(&arguments)
    };
    let held = asked(&[&earlier, &last]);
    assert_eq!(held.outcome, Outcome::Done, "{}", held.out);
    assert_eq!(
        held.out.matches("the record holds it").count(),
        2,
        "{}",
        held.out
    );
    assert!(
        held.out
            .contains("It proves nothing of what was recorded later")
    );
    // The shorter file is sound by itself.
    fs::write(beside.file("desk.events.jsonl"), kept).unwrap();
    assert_eq!(beside.says("history").outcome, Outcome::Done);
    let cut = asked(&[&earlier, &last]);
    assert_eq!(cut.outcome, Outcome::Open, "{}", cut.out);
    assert!(
        cut.out.contains(&format!(
            "{last}: NOT HELD. The record of this desk ends at event 1"
        )),
        "{}",
        cut.out
    );
    fs::remove_dir_all(beside.file("")).unwrap();
    let gone = asked(&[&last]);
    assert_eq!(gone.outcome, Outcome::Open);
    assert!(gone.out.contains("has no event at all"), "{}", gone.out);
    assert_eq!(asked(&["desk two"]).outcome, Outcome::Failed);
}

/// As it is printed and told, with a desk behind the other.
#[test]
fn the_line_on_paper_is_taken_as_it_is_printed() {
    let beside = Beside::new();
    beside.approve("desk");
    beside.approve("room");
    let line = end(&beside);
    assert!(line.contains("; "), "{line}");
    for paper in [line.clone(), format!("{line}.")] {
        let asked = said(&[&"history", &beside.case, &"--paper", &paper]);
        assert_eq!(asked.outcome, Outcome::Done, "{}", asked.err);
        assert_eq!(asked.out.matches("the record holds it").count(), 2);
    }
}

/// The end of the record as it is told for paper.
fn end(beside: &Beside) -> String {
    let said = beside.says("history").out;
    let (_, list) = said
        .split_once("as a sheet printed now bears it: ")
        .unwrap();
    list.lines()
        .next()
        .unwrap()
        .trim_end_matches('.')
        .to_owned()
}
