//! What is in the guide.

use super::room::*;
use crate::kit::SlotKind;
use crate::samples::demo;
use crate::surgery::*;

/// A sleeve goes from site to site: what is in the guide is told, and guide off leaves it empty.
#[test]
fn the_sleeves_in_the_guide_follow_from_what_was_done() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let first = room.until(is_drill);
    let StepKey::Drill { site, sleeve, .. } = first.clone() else {
        panic!()
    };
    let sleeve = sleeve.expect("through a drill sleeve");
    room.look(|day| {
        assert!(day.held.sleeves.is_empty());
        let Work::Drill(drilling) = &day.steps[day.next().unwrap()].work else {
            panic!()
        };
        assert_eq!(
            drilling.in_.as_ref().map(|one| one.as_str()),
            Some(&*sleeve)
        );
        assert!(drilling.out.is_empty());
    });
    room.done(first);
    room.look(|day| {
        let id = SiteId::from(site.site.as_str());
        assert_eq!(
            day.held.sleeves.get(&id).map(|one| one.as_str()),
            Some(&*sleeve)
        );
        // Each of the kit's sleeves is there once: it comes out before it goes in elsewhere.
        for step in &day.steps {
            if let Work::Drill(drilling) = &step.work
                && let Some(in_) = &drilling.in_
            {
                assert!(
                    drilling
                        .out
                        .iter()
                        .all(|(at, out)| at.id == drilling.site.id || out == in_)
                );
            }
        }
    });
    room.until(is_count_out);
    room.look(|day| assert!(day.held.sleeves.is_empty() && day.held.carriers.is_empty()));
}

/// A sleeve that fell is in no guide: it goes in again, or one of its sort does.
#[test]
fn a_sleeve_that_fell_does_not_stay_in() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let first = room.until(is_drill);
    let StepKey::Drill { sleeve, .. } = first.clone() else {
        panic!()
    };
    let sleeve = sleeve.expect("through a drill sleeve");
    room.done(first);
    room.look(|day| assert_eq!(day.held.sleeves.len(), 1));
    room.drop_thing(SlotKind::Sleeve, &sleeve);
    room.place(SlotKind::Sleeve, &sleeve, Some("A1"));
    room.look(|day| {
        assert!(day.held.sleeves.is_empty());
        let here = |step: &&DayStep<'_>| {
            matches!(&step.key, StepKey::Drill { sleeve: Some(one), .. } if *one == sleeve)
                && !step.state.is_over()
        };
        if let Some(next) = day.steps.iter().find(here)
            && let Work::Drill(drilling) = &next.work
        {
            assert!(drilling.in_.is_some());
        }
    });
}
