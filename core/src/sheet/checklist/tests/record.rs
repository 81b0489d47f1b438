//! The sheet as a record: readings with who and when, or that there is none.

use super::samples::changed;
use super::*;
use crate::kit::SlotKind;
use crate::measure::Length;
use crate::plan::{case_jaw, plan_view, with_planned};
use crate::sign::{
    EventKind, HandStep, ItemKey, Log, Merged, Piece, Policy, Purpose, Reading, Stage, StepDone,
    StepKey, ThingKey, Turn, Who, WriterId, standing,
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
        aloud: None,
        verified: false,
        lies: items[0].slot.as_ref().map(ToString::to_string),
        is_set: IsSet::AsPlanned,
        out: Out::No,
        is_there: true,
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
    let signed = Signed::of(case, (&events, &standing), &policy);
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

/// Loaded with what the kit had under these names before: the sheet names the drill, not its setting.
#[test]
fn an_exchanged_drill_or_stop_says_so_in_its_row() {
    let case = two_molars(|_| {});
    let exchanged = two_molars(|case| {
        let drills = case["kit"]["drills"].as_array_mut().unwrap();
        let drill = drills.iter_mut().find(|one| one["id"] == "tip-257");
        drill.unwrap()["marking"]["letter"] = "X".into();
    });
    let text = as_recorded(&exchanged, &loaded(&case));
    let words = "By the record another drill or stop under its name";
    assert!(text.contains(words), "{text}");
    assert!(!text.contains("Set otherwise by the record"), "{text}");
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

/// Found off and not sound since: it is said before anything is set on it, also where nothing read on it is in doubt.
#[test]
fn a_gauge_that_was_found_off_is_told_before_its_check() {
    let case = two_molars(|_| {});
    let told = |by: i64, words: &str| {
        let text = as_recorded(&case, &[("OW", 1, gauge_checked(&case, by))]);
        assert!(text.contains(words), "{by}: {text}");
    };
    told(200, "it reads 0.2 mm too high");
    told(-200, "it reads 0.2 mm too low");
    let sound = as_recorded(&case, &[("OW", 1, gauge_checked(&case, 0))]);
    assert!(!sound.contains("found off"), "{sound}");
}

/// The tip drill at this setting as it was read on the bench, as a reading in the sterile field.
fn in_the_field(done: &[Done], setting: &str, turn: Turn, aloud_to: Option<&str>) -> EventKind {
    let EventKind::Reading(read) = &done[at(done, setting, is_second)].2 else {
        panic!()
    };
    EventKind::Reading(Reading {
        stage: Stage::SterileField,
        turn,
        entered_by: aloud_to.map(|who| Who::new(who).unwrap()),
        ..read.clone()
    })
}

/// Read by two on the bench and by the second of these again, as the first reader, in the sterile field: nobody stands
/// there as both readers.
#[test]
fn both_readings_of_a_line_are_of_one_stage_and_one_half_done_is_read_on() {
    let case = two_molars(|_| {});
    let mut done = loaded(&case);
    let before = as_recorded(&case, &done);
    let first = in_the_field(&done, "19.1", Turn::First, None);
    done.push(("KE", 1, first));
    let text = as_recorded(&case, &done);
    let count = |text: &str, words: &str| text.matches(words).count();
    assert_eq!(
        count(&text, "in the sterile field not recorded"),
        1,
        "{text}"
    );
    // Neither of the two on the bench stands beside it.
    for who in ["OW, 2030", "KE, 2030"] {
        let gone = usize::from(who.starts_with("OW"));
        assert_eq!(count(&text, who), count(&before, who) - gone, "{text}");
    }
    assert!(text.contains(ANEW), "it is read again: {text}");
    let second = in_the_field(&done, "19.1", Turn::Second, None);
    done.push(("LB", 1, second));
    let text = as_recorded(&case, &done);
    assert!(text.contains("LB, 2030") && !text.contains(ANEW), "{text}");
}

/// Read by two on the bench, then aloud in the sterile field by who set it: both stay, and the third is told.
#[test]
fn what_was_read_aloud_again_stands_below_the_two_readings_before_it() {
    let case = two_molars(|_| {});
    let mut done = loaded(&case);
    let before = as_recorded(&case, &done);
    let aloud = in_the_field(&done, "19.1", Turn::Second, Some("KE"));
    done.push(("OW", 1, aloud));
    let text = as_recorded(&case, &done);
    let count = |text: &str, who: &str| text.matches(who).count();
    assert_eq!(
        count(&text, "KE, 2030"),
        count(&before, "KE, 2030"),
        "{text}"
    );
    assert_eq!(
        count(&text, "OW, 2030"),
        count(&before, "OW, 2030") + 1,
        "{text}"
    );
    assert!(text.contains("Read aloud again: 19.1"), "{text}");
    assert!(!text.contains(ANEW), "{text}");
    // Misread, it is read again.
    let Some((_, _, EventKind::Reading(reading))) = done.last_mut() else {
        panic!()
    };
    reading.value_mm += Length::from_um(600);
    let text = as_recorded(&case, &done);
    assert!(
        text.contains("Not accepted") && text.contains(ANEW),
        "{text}"
    );
}

fn with_tips(quantity: u32) -> ValidCase {
    with_tip(|drill| drill["quantity"] = quantity.into())
}

fn with_tip(change: impl Fn(&mut Value)) -> ValidCase {
    two_molars(|case| {
        let mut drills = case["kit"]["drills"].as_array_mut().unwrap().iter_mut();
        change(drills.find(|drill| drill["id"] == "tip-257").unwrap());
    })
}

/// The tip drill that is laid at this setting.
fn tip_at(done: &[Done], setting: &str) -> ItemKey {
    match &done[at(done, setting, is_placed)].2 {
        EventKind::Placed { item, .. } => item.clone(),
        _ => panic!(),
    }
}

const PATIENT: Option<Purpose> = Some(Purpose::Patient);

fn dropped(drill: &ItemKey) -> Done {
    let piece = Piece::Drill(drill.drill_key());
    let purpose = PATIENT;
    ("OW", 1, EventKind::Dropped { piece, purpose })
}

fn taken_off(drill: &ItemKey) -> [Done; 2] {
    let thing = ThingKey {
        of: SlotKind::Drill,
        entry: drill.drill.clone(),
        copy: drill.copy,
    };
    let off = EventKind::ThingPlaced {
        thing,
        slot: None,
        purpose: PATIENT,
    };
    let moved = EventKind::Reset {
        drill: drill.drill_key(),
        to: None,
        passed_over: None,
        purpose: PATIENT,
    };
    [("OW", 1, moved), ("OW", 1, off)]
}

/// Two settings of one drill, of which one piece fell: with a third in stock another takes its place, without it none.
#[test]
fn what_fell_says_so_in_its_line_and_whether_any_is_left() {
    let (another, none) = ("Dropped, by the record: another", "Dropped, none left");
    for (quantity, words, other) in [(3, another, none), (2, none, another)] {
        let case = with_tips(quantity);
        let mut done = loaded(&case);
        let intact = as_recorded(&case, &done);
        assert!(!intact.contains("Dropped") && intact.contains("There is enough"));
        done.push(dropped(&tip_at(&done, "19.1")));
        let text = as_recorded(&case, &done);
        assert_eq!(text.matches(words).count(), 1, "{text}");
        assert!(!text.contains(other), "{text}");
        assert!(text.contains(ANEW), "{text}");
        let is_enough = text.contains("There is enough of everything");
        assert_eq!(is_enough, quantity == 3, "{text}");
    }
    // It did not fall after all, and nobody knows how it is set.
    let case = with_tips(2);
    let mut done = loaded(&case);
    let tip = tip_at(&done, "19.1");
    done.push(dropped(&tip));
    let fall = merged(&case, &done).in_order().last().unwrap().id();
    let back = EventKind::FallTakenBack {
        fall,
        piece: Piece::Drill(tip.drill_key()),
        purpose: Purpose::Patient,
    };
    done.push(("OW", 1, back));
    let text = as_recorded(&case, &done);
    assert!(!text.contains("Dropped"), "{text}");
    let words = "nobody knows how it is set";
    assert_eq!(text.matches(words).count(), 1, "{text}");
}

#[test]
fn what_was_set_and_lies_nowhere_says_so_and_a_tray_that_nobody_began_is_quiet() {
    let case = two_molars(|_| {});
    let mut done = loaded(&case);
    let tip = tip_at(&done, "19.1");
    done.extend(taken_off(&tip));
    let text = as_recorded(&case, &done);
    let words = "Not laid, by the record";
    assert_eq!(text.matches(words).count(), 1, "{text}");
    assert!(text.contains(ANEW), "{text}");
    for done in [&[][..], &done[..1]] {
        let text = as_recorded(&case, done);
        for words in ["by the record", "On the tray ", "Dropped"] {
            assert!(!text.contains(words), "{words}: {text}");
        }
    }
}

/// Set while it fitted; then its first setting does not, and it is to be laid unset: set it may not lie there.
#[test]
fn what_is_to_be_laid_unset_and_is_set_by_the_record_is_taken_off() {
    let before = with_tips(1);
    let mut done = loaded(&before);
    let after = with_tip(|drill| {
        drill["quantity"] = 1.into();
        drill["clamp"]["to_mm"] = 24.0.into();
    });
    let off = "to be taken off the tray";
    let text = as_recorded(&after, &done);
    assert_eq!(text.matches(off).count(), 1, "{text}");
    let tip = tip_at(&done, "20.7");
    done.extend(taken_off(&tip));
    let text = as_recorded(&after, &done);
    assert!(!text.contains(off), "{text}");
    assert!(text.contains("Take it and lay it"), "{text}");
}

/// Laid, then a setting became unknown: its line says that it is not to be used, and that it lies there.
#[test]
fn what_lies_there_with_a_setting_unknown_since_is_told_in_its_own_line() {
    let done = loaded(&two_molars(|_| {}));
    let after = two_molars(|case| {
        let site = case["sites"][1].as_object_mut().unwrap();
        site.remove("platform_to_sleeve");
    });
    let text = as_recorded(&after, &done);
    assert!(!text.contains("in no line above"), "{text}");
    let lines = text.matches("Do not use this drill.").count();
    let off = text.matches("to be taken off the tray").count();
    assert!(off == 4 && lines >= off, "{off} of {lines}: {text}");
    let nothing = as_recorded(&after, &[]);
    assert!(!nothing.contains("taken off the tray"), "{nothing}");
}

/// That the guide is abandoned by the record stands on the first page of what is printed, as long as the plan leads through it.
#[test]
fn an_abandoned_guide_that_the_plan_still_leads_by_is_told_on_the_first_page() {
    const WORDS: &str = "The guide is abandoned by the record, and the plan still leads through it";
    let case = two_molars(|_| {});
    let left = two_molars(|case| {
        for site in case["sites"].as_array_mut().unwrap() {
            site["without_guide"] = serde_json::json!({});
        }
    });
    let abandoned = EventKind::StepDone(StepDone {
        step: StepKey::Abandoned {},
        piece: None,
        due: None,
        despite: Some("RT: it rocks".to_owned()),
        by_hand: None,
        purpose: Purpose::Patient,
    });
    let first_pages = |case: &ValidCase, done: &[Done]| {
        let (events, worksheet) = (merged(case, done), work_out(case));
        let policy = Policy::strict(5);
        let view = plan_view(case, &worksheet, &events);
        let standing = standing(&events, &view, &policy).unwrap();
        let signed = Signed::of(case, (&events, &standing), &policy);
        [SheetPart::Form, SheetPart::Annex].map(|part| {
            let printing = Printing {
                parts: Parts::of([part]),
                ..Printing::all(Paper::A4)
            };
            let (iso, at) = (Notation::Iso, printed_at());
            let pages = checklist(case, &worksheet, &signed, None, printing, iso, at).unwrap();
            holds_together(&pages, "abandoned");
            read(&pages[..1])
        })
    };
    for text in first_pages(&case, &[("MK", 1, abandoned.clone())]) {
        assert!(
            text.contains(WORDS) && text.contains("RT: it rocks"),
            "{text}"
        );
    }
    for text in first_pages(&case, &[])
        .into_iter()
        .chain(first_pages(&left, &[("MK", 1, abandoned)]))
    {
        assert!(!text.contains("is abandoned by the record"), "{text}");
    }
}
