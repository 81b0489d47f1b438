//! The steps, and when each is done.

use super::room::*;
use crate::plan::Operation;
use crate::samples::{demo, mm};
use crate::sign::{Approved, Fingerprint, Purpose, StepTakenBack, SurgeryBegun};
use crate::surgery::*;

/// Every operation of the plan has its step, in its order, between the counts; each has a key of its own.
#[test]
fn the_day_is_the_order_of_use_between_the_counts() {
    for (name, file) in demo::CASES {
        let room = Room::of(file);
        room.look(|day| {
            let keys: Vec<&StepKey> = day.steps.iter().map(|step| &step.key).collect();
            assert!(is_count_in(keys[0]), "{name}");
            assert!(is_count_out(keys[keys.len() - 1]), "{name}");
            let each: std::collections::BTreeSet<&StepKey> = keys.iter().copied().collect();
            assert_eq!(each.len(), keys.len(), "{name}");
            let drilled: Vec<(String, String)> = keys
                .iter()
                .filter_map(|key| match key {
                    StepKey::Drill { site, id, .. } => Some((site.site.clone(), id.clone())),
                    _ => None,
                })
                .collect();
            let planned: Vec<(String, String)> = room
                .worksheet
                .order
                .iter()
                .filter_map(|one| match one {
                    Operation::Drill { site, step } => Some((site.to_string(), step.to_string())),
                    _ => None,
                })
                .collect();
            assert_eq!(drilled, planned, "{name}");
            let anew = keys
                .iter()
                .filter(|key| matches!(key, StepKey::SetAnew { .. }));
            assert_eq!(anew.count(), room.worksheet.resets.len(), "{name}");
            // Nothing is read or laid: no drill is ready.
            for step in day.steps.iter().filter(|step| step.drill().is_some()) {
                let set_anew = matches!(step.work, Work::SetAnew { .. });
                assert!(
                    set_anew || !step.not_ready.is_empty(),
                    "{name}: {:?}",
                    step.key
                );
            }
        });
    }
}

#[test]
fn each_step_that_is_done_leads_to_the_next() {
    let mut room = Room::of(demo::TWO_MOLARS);
    assert!(is_count_in(&room.due().unwrap()));
    let out = room.until(is_count_out);
    room.look(|day| assert_eq!(day.progress().0 + 1, day.progress().1));
    room.count(out, 0);
    assert_eq!(room.due(), None);
}

/// What another plan had done is told beside the step, which is open: a drill at another setting is another step.
#[test]
fn an_old_event_never_says_that_a_step_of_a_changed_plan_was_done() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let first = room.until(is_drill);
    room.done(first.clone());
    let site = first.site().unwrap().site.clone();
    let other = room.changed(|case| {
        let here = case.sites.iter_mut().find(|one| one.id.as_str() == site);
        let distance = here.unwrap().platform_to_sleeve.as_mut();
        distance.unwrap().entered_mm += mm("0.5");
    });
    other.look(|day| {
        assert_eq!(day.place_of(&first), None);
        let again = day
            .steps
            .iter()
            .find(|step| step.key.is_same_work(&first))
            .unwrap();
        assert_eq!(again.state, State::Open);
        assert_eq!(again.otherwise.and_then(DayEvent::step), Some(&first));
    });
    // The plan as it was has it done.
    room.look(|day| {
        let step = &day.steps[day.place_of(&first).unwrap()];
        assert!(step.state.is_done() && step.otherwise.is_none());
    });
}

#[test]
fn what_was_recorded_by_mistake_is_open_again() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let step = room.until(is_drill);
    let event = room.done(step.clone());
    assert_ne!(room.due().as_ref(), Some(&step));
    let purpose = room.purpose;
    room.record(EventKind::StepTakenBack(StepTakenBack {
        event,
        step: step.clone(),
        reason: None,
        purpose,
    }));
    assert_eq!(room.due(), Some(step));
}

/// What was practised says nothing of a patient.
#[test]
fn practice_never_counts_for_a_patient() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        case.demonstration = false;
        case.kit.demonstration = false;
    });
    assert_eq!(room.purpose, Purpose::Patient);
    room.purpose = Purpose::Practice;
    room.record(EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: Fingerprint::of_bytes(b"plan"),
        approval: Approved::Open,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew: false,
        purpose: Purpose::Practice,
    }));
    let count = room.look(|day| day.steps[0].key.clone());
    room.count(count, 0);
    assert!(is_count_in(&room.due().unwrap()));
    room.look(|day| assert!(day.begun.is_none()));
    room.purpose = Purpose::Patient;
    let count = room.look(|day| day.steps[0].key.clone());
    room.count(count, 0);
    assert!(!is_count_in(&room.due().unwrap()));
}

/// Two desks recorded the same step: that is told.
#[test]
fn a_step_that_was_recorded_twice_says_so() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let drill = room.until(is_drill);
    let doubled =
        |room: &Room| room.look(|day| day.steps[day.place_of(&drill).unwrap()].doubled().len());
    room.done(drill.clone());
    assert_eq!(doubled(&room), 0);
    room.done(drill.clone());
    assert_eq!(doubled(&room), 2);
    room.look(|day| {
        let step = &day.steps[day.place_of(&drill).unwrap()];
        assert_eq!(step.recorded.len(), 2);
        assert!(step.stands_out(&room.case.kit));
    });
}

/// A step ahead waits for the first barrier that is open before it.
#[test]
fn a_step_ahead_waits_for_the_barrier_before_it() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let first = |day: &Day<'_>| {
        day.steps
            .iter()
            .position(|step| is_drill(&step.key))
            .unwrap()
    };
    room.look(|day| {
        let waits = day.waits_for(first(day)).unwrap();
        assert!(is_count_in(&waits.key), "{:?}", waits.key);
        assert_eq!(day.waits_for(0), None);
    });
    room.until(is_drill);
    room.look(|day| assert_eq!(day.waits_for(first(day)), None));
}
