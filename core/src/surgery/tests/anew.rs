//! What has to be done anew: after a guide that came off, after a drill's next use, in another sitting; and what stands where
//! nobody knows the order.

use super::room::*;
use crate::kit::Label;
use crate::plan::{case_jaw, plan_view};
use crate::samples::{demo, mm};
use crate::sign::{
    Approved, EventKind, GuideKey, InsertionWay, Log, Merged, Piece, Policy, StepKey,
    StepTakenBack, SurgeryBegun, WhichGuide, Who, WriterId, standing,
};
use crate::surgery::{CountKind, NotReady, State, day, lifted, recorded_since};

const fn is_seat(key: &StepKey) -> bool {
    matches!(key, StepKey::Seat { .. })
}

/// What was sounded through a guide that was seated otherwise says nothing of how it is seated now.
#[test]
fn a_guide_that_is_seated_anew_is_sounded_anew() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let seat = room.until(is_seat);
    let event = room.done(seat.clone());
    let sound = room.due().unwrap();
    assert!(is_sound(&sound));
    let drill = room.until(is_drill);
    let purpose = room.purpose;
    room.record(EventKind::StepTakenBack(StepTakenBack {
        event,
        step: seat.clone(),
        reason: None,
        purpose,
    }));
    assert_eq!(room.due(), Some(seat.clone()));
    room.done(seat.clone());
    assert_eq!(room.due(), Some(sound.clone()));
    assert_eq!(room.until(is_drill), drill);
    // It came off before its time, whatever was done by then.
    room.done(drill.clone());
    room.done(StepKey::Lifted {});
    assert_eq!(room.due(), Some(seat.clone()));
    room.look(|day| assert!(day.held.sleeves.is_empty()));
    room.done(seat);
    assert_eq!(room.due(), Some(sound));
    let next = room.until(is_drill);
    assert_ne!(next, drill, "what was drilled is drilled");
}

/// Once somebody said that the guide is off, and then that it is not, nobody knows how it sits.
#[test]
fn a_guide_that_is_not_off_after_all_is_seated_and_sounded_anew() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let seat = room.until(is_seat);
    let drill = room.until(is_drill);
    let event = room.done(StepKey::GuideOff {});
    let purpose = room.purpose;
    room.record(EventKind::StepTakenBack(StepTakenBack {
        event,
        step: StepKey::GuideOff {},
        reason: None,
        purpose,
    }));
    assert_eq!(room.due(), Some(seat.clone()));
    room.done(seat);
    assert!(is_sound(&room.due().unwrap()));
    assert_eq!(room.until(is_drill), drill);
}

/// A guide of another code is another guide: nothing that was seated or sounded was of it.
#[test]
fn another_guide_is_seated_and_sounded() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.until(is_drill);
    let other = room.changed(|case| case.guide.code = Some(Label::from("G-OTHER")));
    assert!(is_seat(&other.due().unwrap()), "{:?}", other.due());
    other.look(|day| {
        let sounded = day.steps.iter().filter(|step| is_sound(&step.key));
        assert!(
            sounded
                .map(|step| step.state)
                .all(|state| state == State::Open)
        );
    });
}

/// A radiograph that was taken before a drill was used once more is no radiograph of what was drilled.
#[test]
fn what_follows_a_drill_is_done_after_its_last_use() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        for site in &mut case.sites {
            site.steps[0].then = Some(Label::from("radiograph"));
        }
    });
    let drill = room.until(is_drill);
    room.done(drill.clone());
    let look = room.due().unwrap();
    assert!(matches!(look, StepKey::Look { .. }), "{look:?}");
    room.done(look.clone());
    assert_ne!(room.due(), Some(look.clone()));
    room.done(drill);
    assert_eq!(room.due(), Some(look));
}

/// In another sitting nothing of the one before counts, neither steps nor what is in the guide.
#[test]
fn another_sitting_begins_with_nothing_done() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let drill = room.until(is_drill);
    room.done(drill);
    room.look(|day| assert!(day.progress().0 > 2 && !day.held.sleeves.is_empty()));
    let (fingerprint, purpose) = (room.worksheet.fingerprint, room.purpose);
    room.record(EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint,
        approval: Approved::Open,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew: true,
        purpose,
    }));
    assert!(is_count_in(&room.due().unwrap()));
    room.look(|day| {
        assert_eq!(day.progress().0, 0);
        assert!(day.held.sleeves.is_empty());
        assert!(day.begun.is_some());
    });
    room.until(is_count_out);
}

/// Two desks that do not know of each other: of a probe that was off and one that was not, the one that stops stands,
/// whichever clock is later.
#[test]
fn of_what_nobody_knows_the_order_of_what_stops_stands() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let sound = room.until(is_sound);
    let StepKey::Sound { planned_mm, .. } = &sound else {
        panic!()
    };
    let planned = planned_mm.unwrap();
    for (here, there) in [("2", "0"), ("0", "2")] {
        let (mut one, mut other) = (room.copy(), room.copy());
        let writer = WriterId::new("room").unwrap();
        other.log = Log::new(&case_jaw(&room.case), writer);
        one.sound(sound.clone(), planned + mm(here));
        let kind = one.sounded(sound.clone(), planned + mm(there));
        let at = jiff::Timestamp::from_second(1_900_009_000).unwrap();
        other.log.append(at, Who::new("JH").unwrap(), kind).unwrap();
        let logs = [one.log.clone(), other.log.clone()];
        let events = Merged::of(case_jaw(&room.case), logs).unwrap();
        let view = plan_view(&room.case, &room.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        let day = day(&room.case, &room.worksheet, (&view, &standing));
        let step = &day.steps[day.place_of(&sound).unwrap()];
        assert!(
            matches!(step.state, State::Off(..)),
            "{here} {there}: {:?}",
            step.state
        );
    }
}

/// What was done by a plan that the case no longer has is told: a drill that it does not use any more was used.
#[test]
fn what_was_done_of_steps_that_are_no_more_is_told() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let first = room.until(is_drill);
    room.done(first.clone());
    let other = room.changed(|case| {
        let site = case
            .sites
            .iter_mut()
            .find(|site| Some(site.id.as_str()) == first.site().map(|one| one.site.as_str()));
        site.unwrap().steps.remove(0);
    });
    other.look(|day| {
        let told: Vec<_> = day.of_no_step.iter().filter_map(|one| one.step()).collect();
        assert!(told.contains(&&first), "{told:?}");
    });
    room.look(|day| assert!(day.of_no_step.is_empty()));
}

/// What was turned in is in the bone, whatever sitting it is.
#[test]
fn an_implant_that_is_in_is_in_in_another_sitting_too() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let insert = room.until(is_insert);
    room.insert(insert.clone(), InsertionWay::Freehand);
    let (fingerprint, purpose) = (room.worksheet.fingerprint, room.purpose);
    room.record(EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint,
        approval: Approved::Open,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew: true,
        purpose,
    }));
    room.look(|day| {
        assert_eq!(day.progress().0, 1);
        assert!(day.steps[day.place_of(&insert).unwrap()].state.is_done());
    });
}

/// That the guide came off was recorded by mistake: what was sounded before counts again, and what was done in between is known.
#[test]
fn a_guide_that_did_not_come_off_after_all() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let drill = room.until(is_drill);
    room.done(drill);
    let next = room.due();
    let purpose = room.purpose;
    let back = |room: &mut Room, event| {
        room.record(EventKind::StepTakenBack(StepTakenBack {
            event,
            step: StepKey::Lifted {},
            reason: Some("it was the other case".to_owned()),
            purpose,
        }))
    };
    let between = |room: &Room, event: &crate::sign::EventId| {
        room.day_of(|day| {
            let of = day.iter().find(|one| one.id == *event).unwrap();
            let reason = of.back.as_ref().and_then(|back| back.reason.clone());
            (recorded_since(day, of).len(), reason, lifted(day).is_some())
        })
    };
    let event = room.done(StepKey::Lifted {});
    assert!(is_seat(&room.due().unwrap()));
    assert_eq!(between(&room, &event), (0, None, true));
    back(&mut room, event.clone());
    assert_eq!(room.due(), next);
    let reason = Some("it was the other case".to_owned());
    assert_eq!(between(&room, &event), (0, reason.clone(), false));
    // Seated in between it is sounded: that it was seated anew stands.
    let event = room.done(StepKey::Lifted {});
    let seat = room.due().unwrap();
    room.done(seat);
    back(&mut room, event.clone());
    assert!(is_sound(&room.due().unwrap()));
    assert_eq!(between(&room, &event), (1, reason, false));
}

/// The guide falls.
fn drop_the_guide(room: &mut Room) -> crate::sign::EventId {
    let (piece, purpose) = (guide(), Some(room.purpose));
    room.record(EventKind::Dropped { piece, purpose })
}

fn guide() -> Piece {
    Piece::Guide(GuideKey { code: None })
}

/// A guide that fell leads nothing until somebody said which one goes in, and it was seated and sounded anew.
#[test]
fn a_guide_that_fell_is_seated_and_sounded_anew() {
    for which in [WhichGuide::Same, WhichGuide::Another] {
        let mut room = Room::of(demo::TWO_MOLARS);
        room.begin();
        let seat = room.until(is_seat);
        room.done(seat.clone());
        let sound = room.due().unwrap();
        let drill = room.until(is_drill);
        room.done(drill.clone());
        let next = room.until(is_drill);
        room.look(|day| assert!(day.can_guide_fall() && !day.held.sleeves.is_empty()));
        drop_the_guide(&mut room);
        assert_eq!(room.due(), Some(seat.clone()));
        room.look(|day| {
            assert!(day.held.sleeves.is_empty() && day.is_guide_in_use() && !day.can_guide_fall());
            for (_, step) in day.open_from(0) {
                let fell = step.not_ready.contains(&NotReady::GuideFell);
                assert_eq!(fell, step.is_of_guide(), "{:?}", step.key);
                assert!(!fell || step.not_ready.iter().any(NotReady::forbids));
            }
        });
        // Seated by a desk that did not say which guide it is, nothing is done through it.
        let mut unsaid = room.copy();
        unsaid.done(seat.clone());
        assert!(unsaid.not_ready(&next).contains(&NotReady::GuideFell));
        room.done(StepKey::SeatAgain { guide: which });
        assert_eq!(room.due(), Some(seat.clone()));
        assert!(room.not_ready(&seat).is_empty());
        room.done(seat);
        assert_eq!(room.due(), Some(sound));
        assert_eq!(room.until(is_drill), next);
        assert!(!room.not_ready(&next).contains(&NotReady::GuideFell));
        room.look(|day| assert!(day.can_guide_fall()));
        // What fell is in the room beside what took its place.
        let guides = u32::from(which == WhichGuide::Another) + 1;
        let out = room.wanted_out();
        let out = out.iter().find(|line| line.kind == CountKind::Guide);
        assert_eq!(out.map(|line| line.wanted), Some(guides), "{which:?}");
        // It falls once more: nothing that was said before says which goes in now.
        drop_the_guide(&mut room);
        assert!(room.not_ready(&next).contains(&NotReady::GuideFell));
    }
}

/// What was reported by mistake forbids nothing; whoever reported it had it off, or nobody knows: it is seated anew.
#[test]
fn a_guide_that_did_not_fall_after_all_is_seated_anew() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let drill = room.until(is_drill);
    let fall = drop_the_guide(&mut room);
    let (piece, purpose) = (guide(), room.purpose);
    room.record(EventKind::FallTakenBack {
        fall,
        piece,
        purpose,
    });
    assert!(is_seat(&room.due().unwrap()));
    assert!(!room.not_ready(&drill).contains(&NotReady::GuideFell));
    assert_eq!(room.until(is_drill), drill);
}

/// Before surgery, in another sitting, once it is abandoned or off, a fall asks for nothing.
#[test]
fn a_guide_that_is_not_in_use_does_not_fall() {
    let mut room = Room::of(demo::TWO_MOLARS);
    drop_the_guide(&mut room);
    room.begin();
    let drill = room.until(is_drill);
    room.look(|day| assert!(day.can_guide_fall() && day.guide_fell.is_none()));
    let mut abandoned = room.copy();
    drop_the_guide(&mut abandoned);
    abandoned.done(StepKey::Abandoned {});
    abandoned.look(|day| assert!(!day.is_guide_in_use()));
    assert!(!abandoned.not_ready(&drill).contains(&NotReady::GuideFell));
    room.until(|key| matches!(key, StepKey::GuideOff {}));
    room.look(|day| assert!(!day.can_guide_fall()));
}

/// A probe that was off stops until the guide was seated anew, whatever fell meanwhile.
#[test]
fn a_sounding_that_was_off_stays_a_stop_when_the_guide_falls() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let seat = room.until(is_seat);
    room.done(seat.clone());
    let sound = room.due().unwrap();
    let StepKey::Sound { planned_mm, .. } = &sound else {
        panic!("{sound:?}")
    };
    room.sound(sound.clone(), planned_mm.unwrap() + mm("2"));
    drop_the_guide(&mut room);
    let state = |room: &Room| {
        room.look(|day| {
            matches!(
                day.steps[day.place_of(&sound).unwrap()].state,
                State::Off(..)
            )
        })
    };
    assert!(state(&room));
    room.done(StepKey::SeatAgain {
        guide: WhichGuide::Same,
    });
    room.done(seat);
    assert!(!state(&room));
    assert_eq!(room.due(), Some(sound.clone()));
}
