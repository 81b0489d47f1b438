//! Counts in and out.

use super::room::*;
use crate::case::{Case, WithoutGuide};
use crate::kit::{AccessoryKind, SlotKind};
use crate::plan::StepPath;
use crate::samples::demo;
use crate::sign::{CountLine, Counted, InsertionWay, ItemKey, SurgeryBegun, ThingKey, Who};
use crate::surgery::*;

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

fn of(list: &[CountWanted], kind: &CountKind) -> Option<u32> {
    let mut lines = list.iter();
    lines
        .find(|line| line.kind == *kind)
        .map(|line| line.wanted)
}

/// What came in goes out, also where a change of the plan has no use for it any more; and nothing is counted in once more
/// after the first cut.
#[test]
fn the_count_out_wants_what_was_counted_in() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let (count, list) = room.look(|day| match &day.steps[0].work {
        Work::Count(list) => (day.steps[0].key.clone(), list.clone()),
        work => panic!("{work:?}"),
    });
    let lines = list.iter().map(|line| CountLine {
        what: "things".to_owned(),
        kind: Some(line.kind.clone()),
        wanted: line.wanted,
        found: line.wanted,
    });
    let counted = Counted {
        step: count,
        second: Who::new("JH").unwrap(),
        lines: lines.collect(),
        due: None,
        despite: None,
        purpose: room.purpose,
    };
    room.record(EventKind::Counted(counted));
    let drill = room.until(is_drill);
    room.done(drill);
    let drop_last = |case: &mut Case| drop(case.sites[0].steps.pop());
    let other = room.changed(drop_last);
    let in_ = of(&list, &CountKind::Drills).unwrap();
    let planned = other.worksheet.loading.iter();
    let planned = planned.filter(|item| item.kind == SlotKind::Drill).count();
    assert!(
        planned < usize::try_from(in_).unwrap(),
        "the plan has one less"
    );
    for kind in [CountKind::Drills, CountKind::Stops] {
        assert_eq!(of(&other.wanted_out(), &kind), of(&list, &kind), "{kind:?}");
    }
    assert!(!is_count_in(&other.due().unwrap()), "{:?}", other.due());
}

/// One that fell and one that was opened instead are both in the room, and those in the bone are where they are.
#[test]
fn the_count_out_knows_implants_that_were_turned_in() {
    let mut room = Room::of(demo::FULL_ARCH_UPPER);
    room.begin();
    let implants: Vec<LoadItem> = room
        .worksheet
        .loading
        .iter()
        .filter(|item| item.kind == SlotKind::Implant)
        .cloned()
        .collect();
    let place = |room: &mut Room, item: &LoadItem| {
        let purpose = Some(room.purpose);
        let (thing, slot) = (count::thing_of(item), Some("A1".to_owned()));
        room.record(EventKind::ThingPlaced {
            thing,
            slot,
            purpose,
        });
    };
    for item in &implants {
        place(&mut room, item);
    }
    let insert = room.until(is_insert);
    room.insert(insert, InsertionWay::Guided);
    let kind = CountKind::Implants;
    let all = u32::try_from(implants.len()).unwrap();
    assert_eq!(of(&room.wanted_out(), &kind), Some(all));
    // The last one falls; another is opened in its place.
    let last = implants.last().unwrap();
    let (piece, purpose) = (count::thing_of(last).piece(), Some(room.purpose));
    room.record(EventKind::Dropped { piece, purpose });
    assert_eq!(of(&room.wanted_out(), &kind), Some(all));
    place(&mut room, last);
    assert_eq!(of(&room.wanted_out(), &kind), Some(all + 1));
}

/// A count that one person signs as both is none.
#[test]
fn a_count_by_one_person_is_open() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let count = room.due().unwrap();
    let counted = Counted {
        step: count.clone(),
        second: Who::new("M. K.").unwrap(),
        lines: Vec::new(),
        due: None,
        despite: None,
        purpose: room.purpose,
    };
    room.record(EventKind::Counted(counted));
    assert_eq!(room.due(), Some(count));
}

/// Nor is one that a person signs under two short names, of whom the team or the record knows.
#[test]
fn a_count_under_two_short_names_of_one_person_is_open() {
    for (team, is_one) in [("Mara Kern", true), ("Jo Hall", false)] {
        let mut room = Room::with(demo::TWO_MOLARS, |case| {
            case.team.nurse = Some(team.into());
        });
        let count = room.due().unwrap();
        room.record(EventKind::Counted(Counted {
            step: count.clone(),
            second: Who::new("Kern").unwrap(),
            lines: Vec::new(),
            due: None,
            despite: None,
            purpose: room.purpose,
        }));
        assert_eq!(room.due() == Some(count), is_one, "{team}");
    }
}

/// A guide is counted wherever something goes through it, be it the pilot alone.
#[test]
fn a_guide_that_only_leads_the_pilot_is_counted() {
    for (name, file) in demo::CASES {
        let room = Room::of(file);
        let led = |site: &SiteSheet| {
            site.steps
                .iter()
                .any(|step| step.path != StepPath::Freehand)
        };
        let guided = room.worksheet.sites.iter().any(led);
        let wanted = of(&room.wanted_out(), &CountKind::Guide);
        assert_eq!(wanted.is_some(), guided, "{name}");
    }
}

/// The key of the drill that is planned first with a stop, and the number of those of its sort.
fn drill_with_stop(room: &Room) -> (ItemKey, u32) {
    room.look(|day| {
        let mut found: Vec<ItemKey> = Vec::new();
        for step in &day.steps {
            let planned = step.drill().and_then(|drill| drill.planned);
            found.extend(planned.map(|planned| planned.key.clone()));
        }
        let first = found.iter().find(|key| key.stop.is_some()).unwrap().clone();
        let most = found.iter().filter(|key| key.drill == first.drill);
        (first.clone(), most.map(|key| key.copy.get()).max().unwrap())
    })
}

/// A spare that lies on the tray is counted in and out, with its stop, as long as it lies there and once it fell.
#[test]
fn a_spare_on_the_tray_is_in_both_counts() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let in_ = |room: &Room| {
        room.look(|day| match &day.steps[0].work {
            Work::Count(list) => list.clone(),
            work => panic!("{work:?}"),
        })
    };
    let kinds = [CountKind::Drills, CountKind::Stops, CountKind::Sleeves];
    let lines = |list: &[CountWanted]| kinds.each_ref().map(|kind| of(list, kind).unwrap());
    let planned = lines(&in_(&room));
    assert_eq!(lines(&room.wanted_out()), planned);
    let (drill, most) = drill_with_stop(&room);
    let purpose = Some(room.purpose);
    // With all that is planned laid, of two at one setting the plan has the one that was laid last: both are there.
    room.load();
    let spare = ItemKey {
        copy: std::num::NonZeroU32::new(most + 1).unwrap(),
        ..drill
    };
    let lay = |room: &mut Room| {
        room.record(EventKind::Placed {
            item: spare.clone(),
            slot: "A9".to_owned(),
            purpose,
        })
    };
    lay(&mut room);
    let entry = room.worksheet.loading.iter();
    let entry = entry.clone().find(|item| item.kind == SlotKind::Sleeve);
    let entry = entry.unwrap().entry.clone();
    let sleeve = ThingKey {
        copy: std::num::NonZeroU32::new(9).unwrap(),
        ..thing(SlotKind::Sleeve, &entry)
    };
    room.record(EventKind::ThingPlaced {
        thing: sleeve,
        slot: Some("B9".to_owned()),
        purpose,
    });
    let more = planned.map(|wanted| wanted + 1);
    assert_eq!(lines(&in_(&room)), more);
    assert_eq!(lines(&room.wanted_out()), more);
    // It falls: it is in the room. Another is laid in its place: both are.
    let piece = crate::sign::Piece::Drill(spare.drill_key());
    room.record(EventKind::Dropped { piece, purpose });
    assert_eq!(lines(&room.wanted_out()), more);
    lay(&mut room);
    let [drills, stops, sleeves] = more;
    assert_eq!(lines(&room.wanted_out()), [drills + 1, stops + 1, sleeves]);
}

/// What the plan has no use for any more lies on the tray all the same, also where nobody counted it in.
#[test]
fn what_a_change_leaves_on_the_tray_is_counted() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let items: Vec<ItemKey> = room.look(|day| {
        let planned = day.steps.iter().filter_map(|step| step.drill()?.planned);
        planned.map(|planned| planned.key.clone()).collect()
    });
    let mut laid = std::collections::BTreeSet::new();
    for item in items {
        if laid.insert(item.drill_key()) {
            let (slot, purpose) = ("A1".to_owned(), Some(room.purpose));
            room.record(EventKind::Placed {
                item,
                slot,
                purpose,
            });
        }
    }
    let all = of(&room.wanted_out(), &CountKind::Drills);
    let other = room.changed(|case| {
        for site in &mut case.sites {
            site.steps.truncate(1);
        }
    });
    let planned = other.worksheet.loading.iter();
    let planned = planned.filter(|item| item.kind == SlotKind::Drill).count();
    assert!(planned < laid.len());
    assert_eq!(of(&other.wanted_out(), &CountKind::Drills), all);
}

/// The spares of the kit that lie on the tray are counted; one that takes the place of a drill that fell is one of the drills.
#[test]
fn spares_of_the_kit_are_counted_until_they_are_drills() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let spare = room.case.kit.accessories.iter();
    let spare = spare.clone().find(|one| one.kind == AccessoryKind::Spare);
    let spare = spare.unwrap().clone();
    let line = CountKind::Other(spare.name.clone());
    let in_ = room.look(|day| match &day.steps[0].work {
        Work::Count(list) => of(list, &line),
        work => panic!("{work:?}"),
    });
    assert_eq!(in_, Some(spare.wanted));
    room.place(SlotKind::Accessory, spare.id.as_str(), Some("S1"));
    assert_eq!(of(&room.wanted_out(), &line), Some(spare.wanted));
    let pilot = room.look(|day| {
        let planned = day.steps.iter().filter_map(|step| step.drill()?.planned);
        let kit = &room.case.kit;
        let is_of = |planned: &&PlannedItem| {
            let drill = kit.drill(&planned.key.drill.as_str().into()).unwrap();
            kit.is_spare_of(spare.id.as_str(), drill.name.as_str())
        };
        planned.clone().find(is_of).unwrap().key.clone()
    });
    let purpose = Some(room.purpose);
    let lay = |room: &mut Room| {
        room.record(EventKind::Placed {
            item: pilot.clone(),
            slot: "A1".to_owned(),
            purpose,
        })
    };
    lay(&mut room);
    let drills = of(&room.wanted_out(), &CountKind::Drills).unwrap();
    let piece = crate::sign::Piece::Drill(pilot.drill_key());
    room.record(EventKind::Dropped { piece, purpose });
    room.place(SlotKind::Accessory, spare.id.as_str(), None);
    // In a hand it is asked for as a spare, until it is laid as a drill.
    assert_eq!(of(&room.wanted_out(), &line), Some(spare.wanted));
    assert_eq!(of(&room.wanted_out(), &CountKind::Drills), Some(drills));
    lay(&mut room);
    assert_eq!(of(&room.wanted_out(), &line), Some(spare.wanted - 1));
    assert_eq!(of(&room.wanted_out(), &CountKind::Drills), Some(drills + 1));
}

impl Room {
    /// The count before the first cut, or the one before closing, with its list.
    fn list(&self, is_it: fn(&StepKey) -> bool) -> (StepKey, Vec<CountWanted>) {
        self.look(|day| {
            let step = day.steps.iter().find(|step| is_it(&step.key)).unwrap();
            match &step.work {
                Work::Count(list) => (step.key.clone(), list.clone()),
                work => panic!("{work:?}"),
            }
        })
    }

    /// A list is counted, and each line of it found so often.
    fn count_list(
        &mut self,
        (step, list): (StepKey, &[CountWanted]),
        found: impl Fn(&CountWanted) -> u32,
    ) {
        let lines = list.iter().map(|line| CountLine {
            what: "things".to_owned(),
            kind: Some(line.kind.clone()),
            wanted: line.wanted,
            found: found(line),
        });
        let lines: Vec<CountLine> = lines.collect();
        let lacks = lines.iter().any(|line| line.found != line.wanted);
        let counted = Counted {
            step,
            second: Who::new("JH").unwrap(),
            lines,
            due: None,
            despite: lacks.then(|| "looked for".to_owned()),
            purpose: self.purpose,
        };
        self.record(EventKind::Counted(counted));
    }

    fn count_in(&mut self) {
        let (step, list) = self.list(is_count_in);
        self.count_list((step, &list), |line| line.wanted);
    }

    /// Everything is freehand, whatever was done: nothing of the plan is through the guide.
    fn freehand(&self) -> Self {
        self.changed(|case| {
            for site in &mut case.sites {
                site.without_guide = Some(WithoutGuide::default());
            }
        })
    }
}

/// A guide that was counted in is counted out, whatever the plan makes of it before the first cut; nothing is counted in anew
/// only because the plan has less.
#[test]
fn a_guide_that_was_counted_in_is_counted_out() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    room.count_in();
    let before = room.list(is_count_in).1;
    assert_eq!(of(&before, &CountKind::Guide), Some(1));
    let mut after = room.freehand();
    assert_eq!(of(&after.wanted_out(), &CountKind::Guide), Some(1));
    // Counted once more for something that is new, it is there all the same.
    after = after.changed(|case| {
        for one in &mut case.kit.accessories {
            one.wanted += 1;
        }
    });
    assert!(is_count_in(&after.due().unwrap()));
    let again = after.list(is_count_in).1;
    assert_eq!(of(&again, &CountKind::Guide), Some(1), "{again:?}");
    after.count_in();
    assert!(!is_count_in(&after.due().unwrap()), "{:?}", after.due());
    assert_eq!(of(&after.wanted_out(), &CountKind::Guide), Some(1));
    // Where it was looked for in vain that is told, and it is looked for before closing.
    let (step, list) = after.list(is_count_in);
    after.count_list((step, &list), |line| {
        line.wanted - u32::from(line.kind == CountKind::Guide)
    });
    assert!(!is_count_in(&after.due().unwrap()), "{:?}", after.due());
    assert_eq!(of(&after.wanted_out(), &CountKind::Guide), Some(1));
    // In another sitting what an earlier one counted says nothing.
    let purpose = after.purpose;
    after.record(EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: after.worksheet.fingerprint,
        approval: crate::sign::Approved::Open,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew: true,
        purpose,
    }));
    assert_eq!(of(&after.wanted_out(), &CountKind::Guide), None);
}

/// A count that was done before the first cut is not asked for again for a plan that has less of what it found.
#[test]
fn a_plan_with_less_asks_for_no_other_count_in() {
    for lacking in [0, 1] {
        let mut room = Room::of(demo::TWO_MOLARS);
        room.begin();
        let (step, list) = room.list(is_count_in);
        room.count_list((step.clone(), &list), |line| {
            let lacks = line.kind == CountKind::Drills;
            line.wanted - if lacks { lacking } else { 0 }
        });
        let after = room.freehand();
        assert!(
            !is_count_in(&after.due().unwrap()),
            "{lacking}: {:?}",
            after.due()
        );
        // With another kind of thing it is.
        let more = room.changed(|case| {
            for one in &mut case.kit.accessories {
                one.wanted += 1;
            }
        });
        assert!(
            is_count_in(&more.due().unwrap()),
            "{lacking}: {:?}",
            more.due()
        );
    }
}

/// What was miscounted and counted anew is not looked for.
#[test]
fn a_count_that_was_made_anew_says_what_came_in() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    let (step, list) = room.list(is_count_in);
    let planned = of(&list, &CountKind::Drills);
    let more = |line: &CountWanted| line.wanted + u32::from(line.kind == CountKind::Drills);
    room.count_list((step.clone(), &list), more);
    assert_eq!(
        of(&room.wanted_out(), &CountKind::Drills),
        planned.map(|n| n + 1)
    );
    assert_eq!(room.list(is_count_in), (step, list));
    room.count_in();
    assert_eq!(of(&room.wanted_out(), &CountKind::Drills), planned);
}

/// A guide that the record has in the room is counted, though nobody counted it in and the plan is without it.
#[test]
fn a_guide_that_was_seated_or_abandoned_is_counted() {
    for key in [StepKey::Seat { guide: None }, StepKey::Abandoned {}] {
        let mut room = Room::of(demo::TWO_MOLARS);
        room.begin();
        assert_eq!(of(&room.freehand().wanted_out(), &CountKind::Guide), None);
        let event = room.done(key.clone());
        let after = room.freehand();
        assert_eq!(
            of(&after.wanted_out(), &CountKind::Guide),
            Some(1),
            "{key:?}"
        );
        let in_ = after.list(is_count_in).1;
        assert_eq!(of(&in_, &CountKind::Guide), Some(1), "{key:?}");
        let purpose = room.purpose;
        room.record(EventKind::StepTakenBack(crate::sign::StepTakenBack {
            event,
            step: key,
            reason: None,
            purpose,
        }));
        assert_eq!(of(&room.freehand().wanted_out(), &CountKind::Guide), None);
    }
}

/// The list of the count before closing as older programs made it: without the spares of the kit, and without what fell and is
/// of no plan.
fn older(room: &Room) -> (StepKey, Vec<CountWanted>) {
    let spares = room.case.kit.accessories.iter();
    let spares = spares.filter(|one| one.kind == AccessoryKind::Spare);
    let spares: Vec<CountKind> = spares
        .map(|one| CountKind::Other(one.name.clone()))
        .collect();
    let mut list = room.wanted_out();
    list.retain(|line| !spares.contains(&line.kind));
    let list: Vec<CountWanted> = list;
    let key = StepKey::CountOut {
        list: Some(count::digest(&list)),
    };
    (key, list)
}

/// A drill that the plan does not have falls.
fn drop_a_spare(room: &mut Room) {
    let (drill, most) = drill_with_stop(room);
    let mut drill = drill.drill_key();
    drill.copy = std::num::NonZeroU32::new(most + 1).unwrap();
    let (piece, purpose) = (crate::sign::Piece::Drill(drill), Some(room.purpose));
    room.record(EventKind::Dropped { piece, purpose });
}

fn is_counted_out(room: &Room) -> bool {
    room.look(|day| day.steps.last().unwrap().state.is_done())
}

/// A count of an older program, which knew no spares and nothing of what fell, is one of its list where it agreed.
#[test]
fn a_count_of_an_older_program_that_agreed_is_one_of_its_list() {
    for falls in [false, true] {
        let mut room = Room::of(demo::TWO_MOLARS);
        room.begin();
        let (key, list) = older(&room);
        if falls {
            drop_a_spare(&mut room);
        }
        assert_ne!(room.list(is_count_out).0, key);
        let mut lacks = room.copy();
        room.count_list((key.clone(), &list), |line| line.wanted);
        assert!(is_counted_out(&room), "{falls}");
        room.look(|day| {
            assert!(day.of_no_step.is_empty() && day.steps.last().unwrap().otherwise.is_none());
        });
        // What fell since is to be counted.
        drop_a_spare(&mut room);
        assert!(!is_counted_out(&room), "{falls}");
        // Where something lacked it is not settled by that.
        lacks.count_list((key, &list), |line| line.wanted.saturating_sub(1));
        assert!(!is_counted_out(&lacks), "{falls}");
    }
}

/// What came into the room after the count is in no such list: it is counted anew.
#[test]
fn a_count_before_a_fall_is_of_no_older_list() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| {
        case.kit
            .accessories
            .retain(|one| one.kind != AccessoryKind::Spare);
    });
    room.begin();
    let (key, list) = room.list(is_count_out);
    room.count_list((key, &list), |line| line.wanted);
    assert!(is_counted_out(&room));
    drop_a_spare(&mut room);
    assert!(!is_counted_out(&room));
}

/// Nor is a count that was made for a plan without spares, where the plan has them since.
#[test]
fn a_count_of_a_plan_without_spares_is_of_no_older_list() {
    let mut with = Room::of(demo::TWO_MOLARS);
    with.begin();
    with.count_in();
    let (key, list) = older(&with);
    with.count_list((key, &list), |line| line.wanted);
    assert!(!is_counted_out(&with), "spares were counted in");
}

/// What falls after the last count is in the room, or not: everything is counted once more, whatever became of the count before.
#[test]
fn a_fall_after_the_last_count_asks_for_a_new_one() {
    let mut room = Room::of(demo::TWO_MOLARS);
    room.begin();
    room.load();
    let (drill, _) = drill_with_stop(&room);
    let (piece, purpose) = (
        crate::sign::Piece::Drill(drill.drill_key()),
        Some(room.purpose),
    );
    let drop = |room: &mut Room| {
        let piece = piece.clone();
        room.record(EventKind::Dropped { piece, purpose })
    };
    let mut left_out = room.copy();
    for _ in 0..2 {
        let (key, list) = room.list(is_count_out);
        room.count_list((key, &list), |line| line.wanted);
        assert!(is_counted_out(&room));
        drop(&mut room);
        assert!(!is_counted_out(&room));
        room.look(|day| assert!(!day.steps.last().unwrap().state.is_over()));
    }
    // Taken back, it asks for nothing.
    let (key, list) = room.list(is_count_out);
    room.count_list((key, &list), |line| line.wanted);
    let fall = drop(&mut room);
    let of = piece.clone();
    let purpose = room.purpose;
    room.record(EventKind::FallTakenBack {
        fall,
        piece: of,
        purpose,
    });
    assert!(is_counted_out(&room));
    // Nor does leaving the count out settle what falls after it.
    let (key, _) = left_out.list(is_count_out);
    left_out.skip(key);
    left_out.look(|day| assert!(day.steps.last().unwrap().state.is_over()));
    drop(&mut left_out);
    left_out.look(|day| assert!(!day.steps.last().unwrap().state.is_over()));
}
