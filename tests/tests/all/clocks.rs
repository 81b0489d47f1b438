//! Three desks of one case whose clocks are hours apart. Each reads what the others recorded before it records something, so
//! that what was done last is what counts, whatever the clocks say. The expected standing is kept here by hand, in the order
//! of the turns.

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use std::path::Path;
use traywright_core::case::{ValidCase, read_case};
use traywright_core::plan::{case_jaw, plan_view, work_out};
use traywright_core::sign::{
    Approval, EventKind, HandStep, PlanView, Policy, Reading, Stage, Turn, Who, WriterId, standing,
};
use traywright_core::store::{append_event, read_events};

/// The clocks of the desks, hours from the true time.
const HOURS: [i64; 3] = [-7, 0, 5];

/// What is done in one turn.
#[derive(Debug, Clone, Copy)]
enum Act {
    Approve,
    Withdraw,
    /// This drill is read, by the second person where the first has read it.
    Read(usize),
    /// The stop of this drill is set anew.
    Set(usize),
}

/// What counts, by the order of the turns.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
struct Counts {
    approved: bool,
    /// The readings of two drills.
    read: [usize; 2],
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        Just(Act::Approve),
        Just(Act::Withdraw),
        (0..2_usize).prop_map(Act::Read),
        (0..2_usize).prop_map(Act::Read),
        (0..2_usize).prop_map(Act::Set),
    ]
}

/// Carries it out in the model; gives who does it and what is recorded, or nothing where nothing is left to read.
fn carried_out(
    act: Act,
    counts: &mut Counts,
    view: &PlanView,
) -> Option<(&'static str, EventKind)> {
    let item = |at: usize| view.items[at].key.clone();
    Some(match act {
        Act::Approve => {
            counts.approved = true;
            let approval = Approval {
                fingerprint: view.fingerprint,
                covers: view.covers,
                revision: 1,
                accepted: view.accepted.clone(),
                purpose: view.purpose,
            };
            ("Ida Hale", EventKind::Approval(approval))
        }
        Act::Withdraw => {
            counts.approved = false;
            let withdrawn = EventKind::ApprovalWithdrawn {
                fingerprint: view.fingerprint,
                reason: "seen again".to_owned(),
            };
            ("Ida Hale", withdrawn)
        }
        Act::Read(at) => {
            let planned = &view.items[at];
            let (who, turn) = match counts.read[at] {
                0 => ("Ada Birch", Turn::First),
                1 => ("Cy Dale", Turn::Second),
                _ => return None,
            };
            counts.read[at] += 1;
            let reading = Reading {
                item: item(at),
                gauge: planned.gauge.clone(),
                value_mm: planned.gauge_figure_mm?,
                stage: Stage::Bench,
                turn,
                purpose: view.purpose,
                entered_by: None,
            };
            (who, EventKind::Reading(reading))
        }
        Act::Set(at) => {
            counts.read[at] = 0;
            let set = EventKind::Handled {
                item: item(at),
                step: HandStep::Set,
                purpose: view.purpose,
            };
            ("Ada Birch", set)
        }
    })
}

/// What counts by the record.
fn recorded(file: &Path, case: &ValidCase) -> (Counts, PlanView) {
    let events = read_events(file, &case_jaw(case)).expect("it can be read");
    assert_eq!(events.problems, []);
    let view = plan_view(case, &work_out(case), &events.events);
    let standing = standing(&events.events, &view, &Policy::strict(20)).expect("it is one case");
    let mut approvals = standing.approvals.iter();
    let read = [0, 1].map(|at| {
        let check = &standing.items[at].checks[&Stage::Bench];
        let objections = check.objections.iter().map(|one| one.message().id);
        // That it is a demonstration is told of every reading. How old the gauge's check is goes by the clocks, and only speaks
        // against a reading.
        let beside = ["sign-check-practice", "sign-check-gauge-check-old"];
        let objections = objections.filter(|id| !beside.contains(id));
        let objections: Vec<&str> = objections.collect();
        match &objections[..] {
            [] => 2,
            ["sign-check-second-missing"] => 1,
            ["sign-check-first-missing", "sign-check-second-missing"] => 0,
            other => panic!("{other:?}"),
        }
    });
    let approved = approvals.any(|one| one.is_valid() || one.is_practised());
    (Counts { approved, read }, view)
}

#[test]
fn of_three_desks_hours_apart_what_was_done_last_counts() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/one-premolar.json");
    let bytes = std::fs::read(demo).expect("it is there");
    let case = read_case(&bytes).expect("it is sound");
    let jaw = case_jaw(&case);
    let turns = proptest::collection::vec((0..3_usize, act()), 1..20);
    let config = Config {
        cases: 12,
        failure_persistence: None,
        ..Config::default()
    };
    let ran = TestRunner::new(config).run(&turns, |turns| {
        let folder = tempfile::tempdir().expect("there is room");
        let file = folder.path().join("case.json");
        std::fs::write(&file, &bytes).expect("there is room");
        let morning = jiff::Timestamp::from_second(1_900_000_000).expect("a time");
        let record = |desk: usize, turn: usize, who: &str, kind: EventKind| {
            let clock = jiff::SignedDuration::from_hours(HOURS[desk]);
            let minute = i64::try_from(turn).expect("few");
            let at = morning + clock + jiff::SignedDuration::from_mins(minute);
            let writer = WriterId::new(["left", "middle", "right"][desk]).expect("a name");
            let who = Who::new(who).expect("a name");
            append_event(&file, &jaw, &writer, at, who, kind).expect("there is room");
        };
        let (_, view) = recorded(&file, &case);
        let planned = &view.items[0];
        let piece_mm = planned.check_piece_mm.expect("the kit has one");
        let checked = EventKind::GaugeChecked {
            gauge: planned.gauge.clone(),
            piece_mm,
            value_mm: piece_mm + planned.gauge_constant_mm.expect("the kit has one"),
            asked_back_mm: Vec::new(),
            purpose: Some(view.purpose),
        };
        record(2, 0, "Ada Birch", checked);
        let mut expected = Counts::default();
        for (turn, (desk, act)) in turns.into_iter().enumerate() {
            if let Some((who, kind)) = carried_out(act, &mut expected, &view) {
                record(desk, turn + 1, who, kind);
                prop_assert_eq!(recorded(&file, &case).0, expected, "turn {}", turn);
            }
        }
        Ok(())
    });
    if let Err(found) = ran {
        panic!("{found}");
    }
}
