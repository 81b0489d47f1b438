//! Counts in and out.

use super::room::*;
use crate::case::Case;
use crate::kit::SlotKind;
use crate::plan::StepPath;
use crate::samples::demo;
use crate::sign::{CountLine, Counted, InsertionWay, Who};
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
