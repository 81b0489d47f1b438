//! A day step by step, by what is recorded of it.

use super::*;
use crate::case::{Case, GuidedExtent};
use crate::kit::SlotKind;
use crate::measure::Torque;
use crate::plan::{Operation, case_jaw, plan_view, work_out};
use crate::samples::{demo, demo_case, mm, valid};
use crate::sign::{
    Approved, CountLine, Counted, EventId, Fingerprint, Inserted, InsertionWay, Log, Merged, Piece,
    Policy, Purpose, Sounded, StepDone, StepSkipped, StepTakenBack, SurgeryBegun, ThingKey,
    ThingKind, Who, WriterId, standing,
};

/// A case, its worksheet and what was recorded.
struct Room {
    case: ValidCase,
    worksheet: Worksheet,
    log: Log,
    purpose: Purpose,
}

impl Room {
    fn of(demo: &[u8]) -> Self {
        Self::with(demo, |_| {})
    }

    fn with(demo: &[u8], change: impl FnOnce(&mut Case)) -> Self {
        let mut case: Case = (*demo_case(demo)).clone();
        change(&mut case);
        let case = valid(case);
        let worksheet = work_out(&case);
        let writer = WriterId::new("desk").unwrap();
        let log = Log::new(&case_jaw(&case), writer);
        let purpose = case.purpose();
        Self {
            case,
            worksheet,
            log,
            purpose,
        }
    }

    /// The same record under a plan that was changed.
    fn changed(&self, change: impl FnOnce(&mut Case)) -> Self {
        let mut case: Case = (*self.case).clone();
        change(&mut case);
        let case = valid(case);
        let worksheet = work_out(&case);
        Self {
            case,
            worksheet,
            log: self.log.clone(),
            purpose: self.purpose,
        }
    }

    fn record(&mut self, kind: EventKind) -> EventId {
        let n = i64::try_from(self.log.events().len()).unwrap();
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * n).unwrap();
        self.log.append(at, Who::new("MK").unwrap(), kind).unwrap();
        self.log.events().last().unwrap().id()
    }

    fn look<T>(&self, look: impl FnOnce(&Day<'_>) -> T) -> T {
        let events = Merged::of(case_jaw(&self.case), [self.log.clone()]).unwrap();
        let view = plan_view(&self.case, &self.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        look(&day(&self.case, &self.worksheet, (&view, &standing)))
    }

    /// The key of the step that is due.
    fn due(&self) -> Option<StepKey> {
        self.look(|day| Some(day.steps[day.next()?].key.clone()))
    }

    fn done(&mut self, step: StepKey) -> EventId {
        let purpose = self.purpose;
        self.record(EventKind::StepDone(StepDone {
            step,
            piece: None,
            due: None,
            despite: None,
            purpose,
        }))
    }

    fn skip(&mut self, step: StepKey) {
        let purpose = self.purpose;
        self.record(EventKind::StepSkipped(StepSkipped {
            step,
            reason: "told".to_owned(),
            purpose,
        }));
    }

    fn sound(&mut self, step: StepKey, found: Length) {
        let purpose = self.purpose;
        self.record(EventKind::Sounded(Sounded {
            step,
            found_mm: found,
            due: None,
            purpose,
        }));
    }

    fn insert(&mut self, step: StepKey, way: InsertionWay) {
        let purpose = self.purpose;
        self.record(EventKind::Inserted(Inserted {
            step,
            way,
            torque_ncm: Some(Torque::from_ncm(35)),
            coronal_of_plan_mm: None,
            due: None,
            despite: None,
            purpose,
        }));
    }

    /// Does everything that is due until this is, as it should be done.
    fn until(&mut self, stop: impl Fn(&StepKey) -> bool) -> StepKey {
        for _ in 0..400 {
            let due = self.due().expect("a step is due");
            if stop(&due) {
                return due;
            }
            match due.clone() {
                StepKey::CountIn { .. } | StepKey::CountOut { .. } => self.count(due, 0),
                StepKey::Sound { planned_mm, .. } => self.sound(due, planned_mm.unwrap()),
                StepKey::Insert { led, .. } => {
                    let way = match led {
                        crate::sign::Led::Guide => InsertionWay::Guided,
                        crate::sign::Led::Freehand => InsertionWay::Freehand,
                    };
                    self.insert(due, way);
                }
                StepKey::SetAnew { .. } => self.skip(due),
                _ => drop(self.done(due)),
            }
        }
        panic!("never due")
    }

    fn count(&mut self, step: StepKey, lacking: u32) {
        let purpose = self.purpose;
        self.record(EventKind::Counted(Counted {
            step,
            second: Who::new("JH").unwrap(),
            lines: vec![CountLine {
                kind: None,
                what: "stops".to_owned(),
                wanted: 3,
                found: 3 - lacking,
            }],
            due: None,
            despite: None,
            purpose,
        }));
    }
}

const fn is_count_in(key: &StepKey) -> bool {
    matches!(key, StepKey::CountIn { .. })
}

const fn is_count_out(key: &StepKey) -> bool {
    matches!(key, StepKey::CountOut { .. })
}

fn is_sound(key: &StepKey) -> bool {
    matches!(key, StepKey::Sound { .. })
}

fn is_drill(key: &StepKey) -> bool {
    matches!(key, StepKey::Drill { .. })
}

fn is_insert(key: &StepKey) -> bool {
    matches!(key, StepKey::Insert { .. })
}

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
        purpose,
    }));
    assert_eq!(room.due(), Some(step));
}

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

/// A count that does not agree is not over before somebody says what became of it.
#[test]
fn a_count_that_does_not_agree_stops() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let count = room.due().unwrap();
    room.count(count, 1);
    assert!(is_count_in(&room.due().unwrap()));
    room.look(|day| assert!(matches!(day.steps[0].state, State::Amiss(_))));
    let amiss = room.log.events().last().unwrap().kind.clone();
    let EventKind::Counted(counted) = amiss else {
        panic!()
    };
    room.record(EventKind::Counted(Counted {
        despite: Some("found".to_owned()),
        ..counted
    }));
    assert!(!is_count_in(&room.due().unwrap()));
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

impl Room {
    fn place(&mut self, of: SlotKind, entry: &str, slot: Option<&str>) {
        let purpose = Some(self.purpose);
        self.record(EventKind::ThingPlaced {
            thing: thing(of, entry),
            slot: slot.map(str::to_owned),
            purpose,
        });
    }

    fn drop_thing(&mut self, of: SlotKind, entry: &str) {
        let piece = Piece::Thing(ThingKind {
            copy: None,
            of,
            entry: entry.to_owned(),
        });
        let purpose = Some(self.purpose);
        self.record(EventKind::Dropped { piece, purpose });
    }

    fn not_ready(&self, key: &StepKey) -> Vec<NotReady> {
        self.look(|day| day.steps[day.place_of(key).unwrap()].not_ready.clone())
    }

    fn begin(&mut self) {
        let purpose = self.purpose;
        self.record(EventKind::SurgeryBegun(SurgeryBegun {
            fingerprint: self.worksheet.fingerprint,
            approval: Approved::Open,
            lies_wrong: Vec::new(),
            despite: None,
            wrong_as: Vec::new(),
            anew: false,
            purpose,
        }));
    }

    fn wanted_out(&self) -> Vec<CountWanted> {
        self.look(|day| match &day.steps.last().unwrap().work {
            Work::Count(wanted) => wanted.clone(),
            work => panic!("{work:?}"),
        })
    }
}

fn thing(of: SlotKind, entry: &str) -> ThingKey {
    ThingKey {
        of,
        entry: entry.to_owned(),
        copy: std::num::NonZeroU32::MIN,
    }
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

/// A count of another list is not this count: the plan has more drills now.
#[test]
fn a_count_of_another_list_is_open() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let count = room.due().unwrap();
    room.count(count.clone(), 0);
    assert_ne!(room.due(), Some(count.clone()));
    let other = room.changed(|case| {
        case.sites[0].steps.pop();
    });
    let due = other.due().unwrap();
    assert!(is_count_in(&due) && due != count, "{due:?}");
    other.look(|day| {
        assert_eq!(
            day.steps[0].otherwise.and_then(DayEvent::step),
            Some(&count)
        );
    });
}

/// What fell in surgery is still in the room, and what was laid in its place is too.
#[test]
fn the_count_out_wants_what_fell_and_what_was_opened_instead() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let items = room.worksheet.loading.clone();
    let sleeves: Vec<_> = items
        .iter()
        .filter(|i| i.kind == SlotKind::Sleeve)
        .collect();
    let of = |list: &[CountWanted], kind: CountKind| {
        list.iter()
            .find(|line| line.kind == kind)
            .map(|line| line.wanted)
    };
    let planned = u32::try_from(sleeves.len()).unwrap();
    let entry = sleeves[0].entry.clone();
    // Before surgery is begun it is not in the room.
    room.place(SlotKind::Sleeve, &entry, Some("A1"));
    room.drop_thing(SlotKind::Sleeve, &entry);
    room.place(SlotKind::Sleeve, &entry, Some("A1"));
    room.begin();
    assert_eq!(of(&room.wanted_out(), CountKind::Sleeves), Some(planned));
    let implants = items.iter().filter(|i| i.kind == SlotKind::Implant).count();
    let counted = of(&room.wanted_out(), CountKind::Implants);
    assert_eq!(counted, Some(u32::try_from(implants).unwrap()));
    let before = room.look(|day| day.steps.last().unwrap().key.clone());
    room.drop_thing(SlotKind::Sleeve, &entry);
    assert_eq!(of(&room.wanted_out(), CountKind::Sleeves), Some(planned));
    room.place(SlotKind::Sleeve, &entry, Some("A1"));
    assert_eq!(
        of(&room.wanted_out(), CountKind::Sleeves),
        Some(planned + 1)
    );
    assert_ne!(
        room.look(|day| day.steps.last().unwrap().key.clone()),
        before
    );
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
