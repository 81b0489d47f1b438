//! The sheet as a record: readings with who and when, or that there is none.

use super::samples::changed;
use super::*;
use crate::measure::Length;
use crate::plan::{case_jaw, plan_view, with_planned};
use crate::sign::{
    EventKind, HandStep, Log, Merged, Policy, Purpose, Reading, Stage, Turn, Who, WriterId,
    standing,
};
use serde_json::Value;

fn form(case: &ValidCase, signed: &Signed, readings: Readings) -> Vec<Page> {
    let printing = Printing {
        parts: Parts::of([SheetPart::Form]),
        readings,
        ..Printing::all(Paper::A4)
    };
    let worksheet = work_out(case);
    let (iso, at) = (Notation::Iso, printed_at());
    let pages = checklist(case, &worksheet, signed, None, printing, iso, at).unwrap();
    holds_together(&pages, "record");
    pages
}

/// One drill was read once, with a figure of its own so that it is found.
fn one_reading(case: &ValidCase) -> (Signed, usize) {
    let worksheet = work_out(case);
    let read = worksheet.loading.iter().filter(|item| {
        let on = item.set.as_ref();
        on.is_some_and(|on| on.stop.is_some())
    });
    let items: Vec<_> = read.collect();
    let on = items[0].set.as_ref().unwrap();
    let readings = vec![RecordedItem {
        drill: items[0].entry.clone(),
        stop: on.stop.as_ref().map(ToString::to_string),
        set: on.set.get().unwrap(),
        first: Some(RecordedReading {
            value: Length::from_um(17_650),
            who: "R. Thorn".to_owned(),
            at: printed_at(),
            stage: Stage::Bench,
            against: Vec::new(),
        }),
        second: None,
        verified: false,
        lies: items[0].slot.as_ref().map(ToString::to_string),
        is_set: IsSet::AsPlanned,
        has_alike: false,
    }];
    let signed = Signed {
        readings,
        ..Signed::nothing()
    };
    // What is sealed has boxes for when it is opened.
    let open = items.iter().filter(|item| !item.unopened);
    (signed, open.count())
}

#[test]
fn what_was_read_stands_with_who_and_when_and_what_was_not_is_said() {
    let case = changed("two-molars", |_| {});
    let (signed, count) = one_reading(&case);
    let text = read(&form(&case, &signed, Readings::Filled));
    assert!(text.contains("17.65 R. Thorn, 2031-05-06"), "{text}");
    // The sentence above the table says it once.
    assert_eq!(text.matches("not recorded").count(), 2 * count + 1);
    assert_eq!(text.matches("record closed by").count(), 1);
    // The leaf for a reading without figures lists what is left.
    assert!(text.contains("By a person other than"), "{text}");
    let blank = read(&form(&case, &signed, Readings::Blank));
    assert!(!blank.contains("17.65") && !blank.contains("not recorded"));
    assert!(blank.contains("By a person other than"));
}

/// What was recorded, by whom, and how many minutes after the one before.
type Done = (&'static str, i64, EventKind);

fn two_molars(change: impl FnOnce(&mut Value)) -> ValidCase {
    changed("two-molars", |case| {
        case["demonstration"] = false.into();
        change(case);
    })
}

fn gauge_checked(case: &ValidCase, off_um: i64) -> EventKind {
    let gauge = case.gauge().unwrap();
    let piece = gauge.check_piece_mm.unwrap();
    EventKind::GaugeChecked {
        gauge: gauge.id.to_string(),
        piece_mm: piece,
        value_mm: gauge.shows_of(piece).unwrap() + Length::from_um(off_um),
        purpose: Some(Purpose::Patient),
        asked_back_mm: Vec::new(),
    }
}

fn merged(case: &ValidCase, done: &[Done]) -> Merged {
    let mut log = Log::new(&case_jaw(case), WriterId::new("desk").unwrap());
    let mut minute = 0;
    for (who, after, kind) in done {
        minute += after;
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * minute).unwrap();
        log.append(at, Who::new(who).unwrap(), kind.clone())
            .unwrap();
    }
    Merged::of(case_jaw(case), [log]).unwrap()
}

/// Everything that carries a setting set and read on the bench by OW, read again by KE, and laid where the plan has it.
fn loaded(case: &ValidCase) -> Vec<Done> {
    let worksheet = work_out(case);
    let view = plan_view(case, &worksheet, &merged(case, &[]));
    let mut done = vec![("OW", 1, gauge_checked(case, 0))];
    for (item, planned) in with_planned(&worksheet, &view) {
        let Some(planned) = planned else { continue };
        let read = |turn| {
            EventKind::Reading(Reading {
                item: planned.key.clone(),
                gauge: planned.gauge.clone(),
                value_mm: planned.gauge_figure_mm.unwrap(),
                stage: Stage::Bench,
                turn,
                purpose: Purpose::Patient,
                entered_by: None,
            })
        };
        for step in [HandStep::Set, HandStep::Locked, HandStep::Tugged] {
            let (item, purpose) = (planned.key.clone(), Purpose::Patient);
            let handled = EventKind::Handled {
                item,
                step,
                purpose,
            };
            done.push(("OW", 1, handled));
        }
        let placed = EventKind::Placed {
            item: planned.key.clone(),
            slot: item.slot.as_ref().unwrap().to_string(),
            purpose: Some(Purpose::Patient),
        };
        done.extend([
            ("OW", 1, read(Turn::First)),
            ("OW", 1, placed),
            ("KE", 1, read(Turn::Second)),
        ]);
    }
    done
}

/// The form as it is printed once this was recorded.
fn as_recorded(case: &ValidCase, done: &[Done]) -> String {
    let (events, worksheet) = (merged(case, done), work_out(case));
    let policy = Policy::strict(5);
    let standing = standing(&events, &plan_view(case, &worksheet, &events), &policy).unwrap();
    let signed = Signed::of(&events, &standing, &policy);
    read(&form(case, &signed, Readings::Filled))
}

const ANEW: &str = "By a person other than";

/// Of the tip drill at this setting: the place of such an event.
fn at(done: &[Done], setting: &str, is: fn(&EventKind) -> bool) -> usize {
    let of = |kind: &EventKind| match kind {
        EventKind::Reading(Reading { item, .. })
        | EventKind::Placed { item, .. }
        | EventKind::Handled { item, .. } => {
            item.drill == "tip-257" && item.setting_mm == Length::parse_mm(setting).unwrap()
        }
        _ => false,
    };
    let mut all = done.iter();
    all.position(|(_, _, kind)| of(kind) && is(kind)).unwrap()
}

const fn is_second(kind: &EventKind) -> bool {
    matches!(kind, EventKind::Reading(reading) if matches!(reading.turn, Turn::Second))
}

const fn is_placed(kind: &EventKind) -> bool {
    matches!(kind, EventKind::Placed { .. })
}

#[test]
fn what_is_laid_and_read_twice_as_planned_is_printed_without_more_words() {
    let case = two_molars(|_| {});
    let text = as_recorded(&case, &loaded(&case));
    for words in ["by the record", "To be read again", "Not accepted", ANEW] {
        assert!(!text.contains(words), "{words}: {text}");
    }
    assert!(
        text.contains("OW, 2030") && text.contains("KE, 2030"),
        "{text}"
    );
}

/// A step was left out while nobody was at the tray, so that a look-alike lies in the slot of another.
#[test]
fn a_drill_that_lies_elsewhere_by_the_record_has_that_in_place_of_its_readings() {
    let before = two_molars(|_| {});
    let done = loaded(&before);
    let after = two_molars(|case| {
        let steps = case["sites"][0]["steps"].as_array_mut().unwrap();
        steps.retain(|step| step["id"] != "s3");
    });
    let text = as_recorded(&after, &done);
    assert!(
        text.contains("Lies in Crane 8 by the record, not in Crane 6"),
        "{text}"
    );
    assert!(text.contains(ANEW), "it is read again: {text}");
    // What looks like nothing else stays as it is set.
    assert!(
        text.contains("by the record, not in Dove 4: to be laid there. "),
        "{text}"
    );
    // The other one is on no row.
    assert!(
        text.contains("By the record there, and in no line above: Tip drill 2.57 in Crane 6"),
        "{text}"
    );
}

#[test]
fn what_is_in_no_slot_or_set_otherwise_by_the_record_says_so_in_its_row() {
    let case = two_molars(|_| {});
    let mut done = loaded(&case);
    done.remove(at(&done, "19.1", is_placed));
    let text = as_recorded(&case, &done);
    assert_eq!(
        text.matches("In no slot by the record").count(),
        1,
        "{text}"
    );
    let nearer =
        two_molars(|case| case["sites"][1]["platform_to_sleeve"]["entered_mm"] = 4.05.into());
    let text = as_recorded(&nearer, &loaded(&case));
    // All that are set for the second molar.
    assert_eq!(
        text.matches("Set otherwise by the record").count(),
        4,
        "{text}"
    );
    assert!(!text.contains("Set otherwise by the record: 19.1"));
}

type Change<'a> = &'a dyn Fn(&mut Vec<Done>);

#[test]
fn a_reading_that_does_not_count_says_so_and_is_read_again() {
    let case = two_molars(|_| {});
    let refused = |done: &mut Vec<Done>| {
        let second = at(done, "19.1", is_second);
        let EventKind::Reading(reading) = &mut done[second].2 else {
            panic!()
        };
        reading.value_mm += Length::from_um(600);
    };
    let by_who_set = |done: &mut Vec<Done>| {
        let second = at(done, "19.1", is_second);
        done[second].0 = "OW";
    };
    let saw = |done: &mut Vec<Done>| {
        let second = at(done, "19.1", is_second);
        let begun = EventKind::PassBegun {
            stage: Stage::Bench,
            pass: crate::sign::Pass::Setting,
        };
        done.insert(second, ("KE", 1, begun));
    };
    let old = |done: &mut Vec<Done>| done[1].1 = 60 * 13;
    let off = |done: &mut Vec<Done>| {
        let case = two_molars(|_| {});
        done.push(("OW", 1, gauge_checked(&case, 200)));
    };
    let changes: [(&str, Change<'_>, &str); 5] = [
        ("refused", &refused, "Not accepted"),
        (
            "who set",
            &by_who_set,
            "who set the stop and saw its figure",
        ),
        ("saw", &saw, "who began to set stops of this case before"),
        ("old", &old, "too long before"),
        ("off", &off, "nobody knows since when"),
    ];
    for (what, change, words) in changes {
        let mut done = loaded(&case);
        change(&mut done);
        let text = as_recorded(&case, &done);
        assert!(text.contains(words), "{what}: {text}");
        assert!(text.contains("To be read again"), "{what}: {text}");
        assert!(text.contains(ANEW), "{what}: {text}");
    }
}
