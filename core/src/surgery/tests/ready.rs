//! What keeps a step from being ready.

use super::room::*;
use crate::case::{GuidedExtent, WithoutGuide};
use crate::kit::SlotKind;
use crate::plan::{Actionable, Mistake};
use crate::samples::{demo, mm};
use crate::sign::{HandStep, ItemKey, StepTakenBack};
use crate::surgery::*;

/// A drill without a figure is used by nobody, for whatever reason.
#[test]
fn a_step_without_a_figure_is_forbidden() {
    let room = Room::with(demo::TWO_MOLARS, |case| {
        case.sites[0].platform_to_sleeve = None;
    });
    room.look(|day| {
        let here = room.case.sites[0].id.clone();
        let mut any = false;
        for step in day.steps.iter().filter(|step| step.site() == Some(&here)) {
            if matches!(step.work, Work::Drill(_)) {
                any = true;
                assert!(
                    step.not_ready.iter().any(NotReady::forbids),
                    "{:?}",
                    step.key
                );
            }
        }
        assert!(any);
    });
}

/// The same drill at another setting is named before each step that it could be taken for.
#[test]
fn the_same_drill_at_another_setting_is_named() {
    let room = Room::of(demo::TWO_MOLARS);
    let loading = &room.worksheet.loading;
    room.look(|day| {
        let mut any = 0;
        for step in &day.steps {
            let Work::Drill(drilling) = &step.work else {
                continue;
            };
            let others = loading.iter().filter(|item| {
                let set = item.set.as_ref().and_then(|on| on.set.get());
                item.entry == drilling.step.drill.as_str()
                    && set.is_some()
                    && set != drilling.step.set.length()
            });
            if others.count() > 0 {
                any += 1;
                assert!(!drilling.alike.is_empty(), "{:?}", step.key);
            }
        }
        assert!(any > 0, "the demo has a drill at two settings");
    });
}

/// A drill that fits nowhere as it is planned is at no setting that it could be taken at: nothing is said of where it would end.
#[test]
fn a_look_alike_is_at_no_setting_that_does_not_fit() {
    let room = Room::with(demo::TWO_MOLARS, |case| {
        case.sites[0].without_guide = Some(WithoutGuide::default());
    });
    let fitting: Vec<_> = room
        .worksheet
        .loading
        .iter()
        .filter(|item| {
            let figure = Actionable::of_item(item).map(|one| one.figure(&room.case.kit));
            figure.is_some_and(|figure| figure.large().is_some())
        })
        .filter_map(|item| Some((item.entry.clone(), item.set.as_ref()?.set.get()?)))
        .collect();
    let mut open = 0;
    room.look(|day| {
        for step in &day.steps {
            let Work::Drill(drilling) = &step.work else {
                continue;
            };
            for one in &drilling.alike {
                let set = match one {
                    LookAlike::OtherSetting(other) => other.set,
                    LookAlike::MixUp(mix_up) => match &mix_up.mistake {
                        Mistake::OtherSetting { drill, set, .. }
                            if *drill == drilling.step.drill =>
                        {
                            Some(*set)
                        }
                        _ => continue,
                    },
                };
                open += usize::from(set.is_none());
                let drill = drilling.step.drill.to_string();
                let fits = |set| fitting.contains(&(drill.clone(), set));
                assert!(set.is_none_or(fits), "{:?}: {set:?}", step.key);
            }
        }
    });
    assert!(open > 0, "what does not fit is told without a setting");
}

/// After guide off nothing that the guide leads is done, until that record is taken back: its stop would go deeper.
#[test]
fn after_guide_off_nothing_guided_is_done() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        for site in &mut case.sites {
            site.guided_extent = GuidedExtent::DrillingAndImplant;
        }
    });
    room.until(is_drill);
    let guided = |day: &Day<'_>| {
        let of_guide = |step: &&DayStep<'_>| {
            matches!(
                &step.key,
                StepKey::Drill {
                    led: crate::sign::Led::Guide,
                    ..
                } | StepKey::Insert {
                    led: crate::sign::Led::Guide,
                    ..
                } | StepKey::Pin { .. }
            ) && !step.state.is_over()
        };
        let all = day.steps.iter().filter(of_guide);
        let (off, on): (Vec<_>, Vec<_>) =
            all.partition(|step| step.not_ready.first() == Some(&NotReady::GuideOff));
        (off.len(), on.len())
    };
    let before = room.look(guided);
    assert!(before.0 == 0 && before.1 > 2, "{before:?}");
    let event = room.done(StepKey::GuideOff {});
    assert_eq!(room.look(guided), (before.1, 0));
    assert!(NotReady::GuideOff.forbids());
    let purpose = room.purpose;
    room.record(EventKind::StepTakenBack(StepTakenBack {
        event,
        step: StepKey::GuideOff {},
        reason: None,
        purpose,
    }));
    assert_eq!(room.look(guided), before);
}

/// A sleeve, carrier, driver or implant that was never laid, or fell, keeps its step from being ready.
#[test]
fn a_thing_that_is_not_there_keeps_its_step_from_being_ready() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        for site in &mut case.sites {
            site.guided_extent = GuidedExtent::DrillingAndImplant;
        }
    });
    let drill = room.until(is_drill);
    let StepKey::Drill {
        sleeve: Some(sleeve),
        ..
    } = &drill
    else {
        panic!("{drill:?}")
    };
    let of_sleeve = thing(SlotKind::Sleeve, sleeve);
    let not_laid = NotReady::ThingNotLaid(of_sleeve.clone());
    let fell = NotReady::ThingFell(of_sleeve);
    assert!(room.not_ready(&drill).contains(&not_laid));
    room.place(SlotKind::Sleeve, sleeve, Some("A1"));
    assert!(!room.not_ready(&drill).contains(&not_laid));
    room.drop_thing(SlotKind::Sleeve, sleeve);
    assert!(room.not_ready(&drill).contains(&fell));
    room.place(SlotKind::Sleeve, sleeve, Some("A1"));
    assert!(!room.not_ready(&drill).contains(&fell));
    let insert = room.until(is_insert);
    let kinds = |room: &Room| {
        let mut kinds: Vec<SlotKind> = room
            .not_ready(&insert)
            .into_iter()
            .filter_map(|why| match why {
                NotReady::ThingNotLaid(thing) => Some(thing.of),
                _ => None,
            })
            .collect();
        kinds.sort();
        kinds.dedup();
        kinds
    };
    for kind in [SlotKind::Implant, SlotKind::Carrier, SlotKind::Driver] {
        assert!(kinds(&room).contains(&kind), "{kind:?}: {:?}", kinds(&room));
        let items = room.worksheet.loading.clone();
        for item in items.iter().filter(|item| item.kind == kind) {
            let purpose = Some(room.purpose);
            room.record(EventKind::ThingPlaced {
                thing: count::thing_of(item),
                slot: Some("A1".to_owned()),
                purpose,
            });
        }
        assert!(!kinds(&room).contains(&kind), "{kind:?}");
    }
}

impl Room {
    /// Sets the drill of a step to this much more than planned, by the record.
    fn set_otherwise(&mut self, key: &StepKey, by: &str) -> ItemKey {
        let item = self.look(|day| {
            let step = &day.steps[day.place_of(key).unwrap()];
            step.drill()
                .and_then(|drill| drill.planned)
                .unwrap()
                .key
                .clone()
        });
        let item = ItemKey {
            setting_mm: item.setting_mm + mm(by),
            ..item
        };
        let purpose = self.purpose;
        self.record(EventKind::Handled {
            item: item.clone(),
            step: HandStep::Set,
            purpose,
        });
        item
    }
}

/// A drill that is set otherwise by the record is used by nobody, for whatever reason.
#[test]
fn a_drill_that_is_set_otherwise_is_forbidden() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let drill = room.until(is_drill);
    room.set_otherwise(&drill, "0");
    let otherwise = |why: &NotReady| matches!(why, NotReady::SetOtherwise { .. });
    assert!(!room.not_ready(&drill).iter().any(otherwise));
    let item = room.set_otherwise(&drill, "2");
    let why = room.not_ready(&drill);
    let set = NotReady::SetOtherwise {
        set: item.setting_mm,
        slot: None,
    };
    assert_eq!(why.first(), Some(&set));
    assert!(set.forbids());
}

/// What a change of the plan made freehand, or dropped, has its guided stop on all the same: it is taken off with the guide.
#[test]
fn guide_off_names_stops_that_the_plan_no_longer_has() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        for site in &mut case.sites {
            site.guided_extent = GuidedExtent::DrillingAndImplant;
        }
    });
    let drills: Vec<StepKey> = room.look(|day| {
        let steps = day.steps.iter().filter(|step| is_drill(&step.key));
        steps
            .filter(|step| {
                step.drill()
                    .is_some_and(|one| one.planned.is_some_and(|p| p.key.stop.is_some()))
            })
            .map(|step| step.key.clone())
            .collect()
    });
    let last = drills.last().unwrap().clone();
    let set = room.set_otherwise(&last, "0");
    let other = room.changed(|case| {
        for site in &mut case.sites {
            site.steps.truncate(1);
        }
    });
    let named = |room: &Room| {
        room.look(|day| {
            let mut steps = day.steps.iter();
            let stops = steps.find_map(|step| match &step.work {
                Work::GuideOff { stops } => Some(stops.clone()),
                _ => None,
            });
            stops.unwrap()
        })
    };
    let is_it = |one: &GuidedStop| one.drill == set.drill_key();
    assert!(named(&room).iter().any(is_it));
    assert!(named(&other).iter().any(is_it), "{:?}", named(&other));
}

/// Where sounding was left out for a reason that is told at each step and asked no more; where the probe was off it is.
#[test]
fn a_sounding_that_was_left_out_is_told_and_one_that_was_off_is_a_stop() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let sound = room.until(is_sound);
    let StepKey::Sound { planned_mm, .. } = &sound else {
        panic!()
    };
    let planned = planned_mm.unwrap();
    let mut off = room.copy();
    room.skip(sound.clone());
    off.sound(sound.clone(), planned + mm("1.5"));
    off.skip(sound.clone());
    let of_site = |room: &Room| {
        room.look(|day| {
            let mut steps = day.steps.iter();
            let here = |step: &&DayStep<'_>| is_drill(&step.key) && step.key.site() == sound.site();
            steps.find(here).unwrap().not_ready.clone()
        })
    };
    assert!(of_site(&room).contains(&NotReady::LeftUnsounded));
    assert!(!of_site(&room).contains(&NotReady::NotSounded));
    assert!(of_site(&off).contains(&NotReady::NotSounded));
    assert!(NotReady::LeftUnsounded.is_only_told() && !NotReady::NotSounded.is_only_told());
}

/// Where no figure is known to drill by, none of another setting stands beside it.
#[test]
fn beside_no_figure_no_other_setting_is_named() {
    let mut steps = 0;
    for (_, file) in demo::CASES {
        let room = Room::with(file, |case| case.sites[0].platform_to_sleeve = None);
        room.look(|day| {
            for step in &day.steps {
                let Work::Drill(drilling) = &step.work else {
                    continue;
                };
                let figure = drilling.drill.and_then(|drill| {
                    let of = crate::plan::Actionable::of_item(drill.item)?;
                    of.figure(&room.case.kit).large()
                });
                if figure.is_none() {
                    steps += 1;
                    assert_eq!(drilling.alike, [], "{:?}", step.key);
                }
            }
        });
    }
    assert!(steps > 3, "{steps}");
}

/// A drill that lies in its wrapping lies in its slot.
#[test]
fn a_sealed_drill_that_lies_is_in_its_slot() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        for drill in &mut case.kit.drills {
            drill.single_use = true;
        }
    });
    let key = room.until(is_drill);
    let (entry, slot) = room.look(|day| {
        let item = day.steps[day.place_of(&key).unwrap()].drill().unwrap().item;
        assert!(item.unopened);
        (item.entry.clone(), item.slot.as_ref().unwrap().to_string())
    });
    assert!(room.not_ready(&key).contains(&NotReady::NotLaid));
    room.place(SlotKind::Drill, &entry, Some(&slot));
    let why = room.not_ready(&key);
    assert!(!why.contains(&NotReady::NotLaid), "{why:?}");
    assert!(!room.look(|day| day.steps[day.place_of(&key).unwrap()].is_ready()));
    room.place(SlotKind::Drill, &entry, None);
    assert!(room.not_ready(&key).contains(&NotReady::NotLaid));
}
