//! Soundings.

use super::room::*;
use crate::samples::{demo, mm};
use crate::surgery::*;

/// More than the limit off, to either side, stops; the limit itself does not (primer, section 4: common practice).
#[test]
fn a_sounding_that_is_off_stops_until_it_is_sounded_again_or_left_out() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let due = room.until(is_sound);
    let StepKey::Sound { planned_mm, .. } = &due else {
        panic!()
    };
    let planned = planned_mm.unwrap();
    let limit = room.case.limits.get(LimitId::Sounding).unwrap().limit_mm;
    assert_eq!(limit, mm("1"));
    for (off, stops) in [
        ("1.001", true),
        ("-1.001", true),
        ("1", false),
        ("-1", false),
    ] {
        let mut room = Room {
            case: room.case.clone(),
            worksheet: room.worksheet.clone(),
            log: room.log.clone(),
            purpose: room.purpose,
        };
        room.sound(due.clone(), planned + mm(off));
        let here = |day: &Day<'_>| {
            let step = &day.steps[day.place_of(&due).unwrap()];
            match step.state {
                State::Off(_, by) => Some(by),
                State::Done(_) => None,
                other => panic!("{other:?}"),
            }
        };
        assert_eq!(room.look(here), stops.then(|| mm(off)), "{off}");
        if stops {
            assert_eq!(room.due().as_ref(), Some(&due));
            let unsounded = |room: &Room| {
                room.look(|day| {
                    let steps = day.steps.iter();
                    let open = steps.filter(|step| step.not_ready.contains(&NotReady::NotSounded));
                    open.count()
                })
            };
            let before = unsounded(&room);
            assert!(before > 0);
            // The last sounding counts; what was off is recorded all the same.
            room.sound(due.clone(), planned);
            assert_ne!(room.due().as_ref(), Some(&due));
            assert!(unsounded(&room) < before);
            // Left out it is over, and everything guided there goes on saying so.
            room.skip(due.clone());
            assert_ne!(room.due().as_ref(), Some(&due));
            assert_eq!(unsounded(&room), before);
        }
    }
}

/// Without a figure, or without a limit to hold it against, what the probe shows is nothing to go on by.
#[test]
fn a_sounding_that_nobody_can_judge_is_not_done() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        case.limits = case.limits.clone().with(LimitId::Sounding, None);
    });
    let due = room.until(is_sound);
    let StepKey::Sound { planned_mm, .. } = &due else {
        panic!()
    };
    room.sound(due.clone(), planned_mm.unwrap());
    assert_eq!(room.due().as_ref(), Some(&due));
    room.look(|day| {
        let step = &day.steps[day.next().unwrap()];
        assert_eq!(step.state, State::Open);
        assert_eq!(step.not_ready, [NotReady::NotSoundable]);
    });
}

/// A slip of the decimal mark is no figure of a probe (primer, section 11: equal once the mark is dropped, or near it), nor what no probe
/// reaches (common practice, no source).
#[test]
fn a_mistyped_figure_is_told_from_one_that_is_off() {
    let room = Room::of(demo::TWO_MOLARS);
    let site = &room.worksheet.sites[0];
    let sounding = |planned| Sounding {
        site,
        planned: Some(mm(planned)),
        limit: Some(mm("1")),
    };
    for (planned, found, mistyped) in [
        ("9.05", "905", true),
        ("9.05", "90.5", true),
        ("9.05", "0.905", true),
        ("9.05", "9.05", false),
        ("9.05", "12", false),
        // Nobody finds exactly the plan: near it with the mark moved, and not as it is typed.
        ("9.05", "9.8", false),
        ("9.05", "90.8", true),
        ("9.05", "0.91", true),
        ("9.05", "0.09", true),
        ("3.85", "38.7", true),
        ("3.85", "28", false),
        ("9.05", "40.001", true),
        ("9.05", "40", false),
    ] {
        assert_eq!(
            sounding(planned).is_mistyped(mm(found)),
            mistyped,
            "{found}"
        );
    }
}
