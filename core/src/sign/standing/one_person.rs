//! Who signs in two ways is one person, whatever is recorded.

use crate::sign::Who;
use crate::sign::samples::*;
use crate::sign::standing::PlanView;
use crate::sign::standing::recorded::by_each;
use crate::sign::standing::tables::{changed, first, k1, objections, plan, policy, second};
use crate::sign::{
    Counted, EventKind, FiguresSeen, Fingerprint, HandStep, Merged, Purpose, Stage, StepKey, Turn,
    figures_seen_by, standing,
};

fn told_at(events: &Merged, team: &[&str], stage: Stage) -> Vec<&'static str> {
    let plan = PlanView {
        people: team.iter().copied().map(who).collect(),
        ..plan()
    };
    objections(&standing(events, &plan, &policy()).unwrap(), stage)
}

fn told(events: &Merged, team: &[&str]) -> Vec<&'static str> {
    told_at(events, team, Stage::Bench)
}

fn note() -> EventKind {
    EventKind::Note {
        text: "seen".to_owned(),
    }
}

#[test]
fn one_person_who_signs_in_two_ways_verifies_nothing() {
    let read = || {
        [
            ("Berg", checked("20", "20")),
            ("Berg", first("24.3")),
            ("AB", checked("20", "20")),
            ("AB", second("24.3")),
        ]
    };
    let events = by_each(read());
    assert_eq!(told(&events, &[]), [""; 0]);
    assert_eq!(told(&events, &["Anna Berg"]), ["same-person"]);
    assert_eq!(told(&events, &["Berta Berg", "OW"]), [""; 0]);
    // Known by the record alone.
    let recorded = by_each(read().into_iter().chain([("Anna Berg", note())]));
    assert_eq!(told(&recorded, &[]), ["same-person"]);
}

#[test]
fn who_set_a_stop_reads_it_second_under_no_other_short_name() {
    let events = by_each([
        ("Berg", handled(k1(), HandStep::Set)),
        ("Berg", handled(k1(), HandStep::Locked)),
        ("Berg", handled(k1(), HandStep::Tugged)),
        ("KE", checked("20", "20")),
        ("KE", first("24.3")),
        ("AB", checked("20", "20")),
        ("AB", second("24.3")),
    ]);
    assert_eq!(told(&events, &[]), [""; 0]);
    assert_eq!(told(&events, &["Anna Berg"]), ["set-it"]);
}

/// What one person alone read on the bench under two short names verifies nothing there: to read it aloud in the sterile
/// field is not enough.
#[test]
fn a_reading_aloud_counts_over_no_bench_that_one_person_read() {
    let aloud = changed("24.3", |r| {
        (r.stage, r.turn) = (Stage::SterileField, Turn::Second);
        r.entered_by = Some(who("OW"));
    });
    let events = by_each([
        ("Berg", checked("20", "20")),
        ("Berg", handled(k1(), HandStep::Set)),
        ("Berg", first("24.3")),
        ("AB", checked("20", "20")),
        ("AB", second("24.3")),
        ("KE", aloud),
    ]);
    let in_field = |team: &[&str]| told_at(&events, team, Stage::SterileField);
    assert_eq!(in_field(&[]), [""; 0]);
    assert_eq!(in_field(&["Anna Berg"]), ["first-missing"]);
}

/// Who saw the figure under a short name reads it blind under no other, where the team alone knows whom both stand for.
#[test]
fn the_team_tells_who_saw_a_figure() {
    let events = by_each([
        ("Berg", approval(b"plan", &["36/canal"], Purpose::Patient)),
        ("KE", checked("20", "20")),
        ("KE", first("24.3")),
        ("AB", checked("20", "20")),
        ("AB", second("24.3")),
    ]);
    assert_eq!(told(&events, &[]), [""; 0]);
    assert_eq!(told(&events, &["Anna Berg"]), ["saw-approved"]);
    // Known as who entered what another read, or who counted with another.
    let entered = changed("24.3", |r| {
        (r.stage, r.turn) = (Stage::SterileField, Turn::Second);
        r.entered_by = Some(who("Anna Berg"));
    });
    let counted = |second: &str| {
        EventKind::Counted(Counted {
            step: StepKey::CountIn {
                list: Some(Fingerprint::of_bytes(b"list")),
            },
            second: who(second),
            lines: Vec::new(),
            due: None,
            despite: None,
            purpose: Purpose::Patient,
        })
    };
    for also in [entered, counted("Anna Berg")] {
        let events = by_each([
            ("Berg", approval(b"plan", &["36/canal"], Purpose::Patient)),
            ("JH", also),
            ("KE", checked("20", "20")),
            ("KE", first("24.3")),
            ("AB", checked("20", "20")),
            ("AB", second("24.3")),
        ]);
        assert_eq!(told(&events, &[]), ["saw-approved"]);
    }
}

/// Nor does who saw a figure under one of them come to a pass without figures under the other.
#[test]
fn who_saw_a_figure_saw_it_under_any_short_name() {
    let seen = |events: &Merged, team: &[Who]| {
        figures_seen_by((&who("AB"), team), events, (at(3600), None), &policy())
    };
    let read = [("Berg", first("24.3"))];
    let saw = Some((who("Berg"), FiguresSeen::Read));
    let events = by_each(read.clone());
    assert_eq!(seen(&events, &[]), None);
    assert_eq!(seen(&events, &[who("Anna Berg")]), saw);
    let known = read.into_iter().chain([("Anna Berg", note())]);
    assert_eq!(seen(&by_each(known), &[]), saw);
}
