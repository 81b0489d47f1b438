//! Insertions and what they reached.

use super::room::*;
use crate::case::GuidedExtent;
use crate::measure::Torque;
use crate::samples::{demo, demo_case, mm};
use crate::sign::InsertionWay;
use crate::surgery::*;

/// Begun through its sleeve an implant is not at its depth: that follows once the guide is off, whatever is done before.
#[test]
fn an_implant_that_was_begun_is_ended_after_the_guide_is_off() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        for site in &mut case.sites {
            site.guided_extent = GuidedExtent::DrillingAndImplant;
        }
    });
    let insert = room.until(is_insert);
    room.look(|day| {
        let finish = |step: &DayStep<'_>| matches!(step.work, Work::Finish { .. });
        assert!(!day.steps.iter().any(finish));
    });
    room.insert(insert.clone(), InsertionWay::Begun);
    let finish = room.until(|key| matches!(key, StepKey::Finish { .. }));
    assert_eq!(finish.site(), insert.site());
    room.look(|day| {
        assert!(day.is_guide_off());
        let off = day.place_of(&StepKey::GuideOff {}).unwrap();
        assert_eq!(day.place_of(&finish), Some(off + 1));
    });
    room.insert(finish, InsertionWay::Ended);
    room.until(is_count_out);
}

/// Apical by more than 0.5 mm, coronal by more than 1.0 mm (common practice, no source); the limit itself is not off.
#[test]
fn an_implant_far_off_its_plan_and_a_torque_above_its_limit_are_told() {
    for (coronal, off) in [
        ("-0.5", None),
        ("-0.501", Some("apical")),
        ("-4", Some("apical")),
        ("0", None),
        ("1", None),
        ("1.001", Some("coronal")),
    ] {
        let found = depth_off(mm(coronal)).map(|off| match off {
            DepthOff::Apical(_) => "apical",
            DepthOff::Coronal(_) => "coronal",
        });
        assert_eq!(found, off, "{coronal}");
    }
    let room = Room::of(demo::TWO_MOLARS);
    let kit = &room.case.kit;
    let implant = &kit.implants[0];
    let limit = implant.torque_limit_ncm.expect("the demo's kit has one");
    let against = |torque| torque_against(kit, &implant.id, torque);
    assert_eq!(against(limit), TorqueAgainst::Within);
    assert_eq!(against(Torque::from_ncm(150)), TorqueAgainst::Above(limit));
    let mut without = (*demo_case(demo::TWO_MOLARS)).clone();
    without.kit.implants[0].torque_limit_ncm = None;
    let against = torque_against(&without.kit, &implant.id, Torque::from_ncm(1));
    assert_eq!(against, TorqueAgainst::NoLimit);
}
