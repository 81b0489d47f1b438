//! The one of several equal drills that is at a setting: the one to which it happened last.

use super::sample::{case, valid};
use std::num::NonZeroU32;
use traywright_core::case::{Case, ValidCase};
use traywright_core::kit::Marking;
use traywright_core::measure::Length;
use traywright_core::plan::{case_jaw, plan_view, with_planned, work_out};
use traywright_core::sign::{
    DrillKey, EventKind, Fingerprint, ItemKey, Log, Merged, Piece, PlanView, Policy, Purpose,
    Reading, Stage, Turn, Who, WriterId, standing,
};

fn live(change: impl FnOnce(&mut Case)) -> ValidCase {
    let mut case = case();
    case.demonstration = false;
    change(&mut case);
    valid(case)
}

fn view(case: &ValidCase, kinds: impl IntoIterator<Item = EventKind>) -> PlanView {
    plan_view(case, &work_out(case), &record(case, kinds))
}

fn record(case: &ValidCase, kinds: impl IntoIterator<Item = EventKind>) -> Merged {
    let jaw = case_jaw(case);
    let mut log = Log::new(&jaw, WriterId::new("desk").unwrap());
    for (kind, minute) in kinds.into_iter().zip(0..) {
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * minute).unwrap();
        log.append(at, Who::new("R. T.").unwrap(), kind).unwrap();
    }
    Merged::of(jaw, [log]).unwrap()
}

/// Drill `a` as the plan sets it, that piece of it.
fn item(case: &ValidCase, copy: u32) -> ItemKey {
    let planned = view(case, []).items;
    let mut key = planned
        .iter()
        .find(|i| i.key.drill == "a")
        .unwrap()
        .key
        .clone();
    key.copy = NonZeroU32::new(copy).unwrap();
    key
}

fn read(item: ItemKey, purpose: Purpose) -> EventKind {
    EventKind::Reading(Reading {
        gauge: "g".to_owned(),
        value_mm: item.setting_mm,
        item,
        stage: Stage::Bench,
        turn: Turn::First,
        purpose,
        entered_by: None,
    })
}

fn piece(case: &ValidCase, kinds: impl IntoIterator<Item = EventKind>) -> u32 {
    let items = view(case, kinds).items;
    items
        .iter()
        .find(|i| i.key.drill == "a")
        .unwrap()
        .key
        .copy
        .get()
}

#[test]
fn the_piece_last_read_or_placed_stands_for_its_setting() {
    let case = live(|_| {});
    let patient = |copy| read(item(&case, copy), Purpose::Patient);
    let placed = |copy| EventKind::Placed {
        item: item(&case, copy),
        slot: "A1".to_owned(),
        purpose: Some(Purpose::Patient),
    };
    assert_eq!(piece(&case, []), 1);
    assert_eq!(piece(&case, [patient(1), patient(2)]), 2);
    assert_eq!(piece(&case, [patient(2), patient(1)]), 1);
    assert_eq!(piece(&case, [patient(1), placed(3)]), 3);
    let practised = EventKind::Placed {
        item: item(&case, 3),
        slot: "A1".to_owned(),
        purpose: Some(Purpose::Practice),
    };
    assert_eq!(piece(&case, [patient(1), practised]), 1);
}

#[test]
fn a_piece_that_fell_or_was_reset_stands_for_nothing() {
    let case = live(|_| {});
    let patient = |copy| read(item(&case, copy), Purpose::Patient);
    let drill = |copy| DrillKey {
        drill: "a".to_owned(),
        copy: NonZeroU32::new(copy).unwrap(),
    };
    let fell = EventKind::Dropped {
        piece: Piece::Drill(drill(3)),
        purpose: None,
    };
    assert_eq!(piece(&case, [patient(2), patient(3), fell]), 2);
    let reset = EventKind::Reset {
        drill: drill(3),
        to: None,
        passed_over: None,
        purpose: None,
    };
    assert_eq!(piece(&case, [patient(2), patient(3), reset]), 2);
}

#[test]
fn practice_moves_no_piece_of_a_patient_nor_the_other_way_round() {
    for (demonstration, purpose, other) in [
        (false, Purpose::Patient, Purpose::Practice),
        (true, Purpose::Practice, Purpose::Patient),
    ] {
        let case = live(|case| case.demonstration = demonstration);
        let events = [read(item(&case, 2), purpose), read(item(&case, 3), other)];
        assert_eq!(piece(&case, events), 2);
    }
}

/// Without a gauge there is no graduation, rather than one that nobody entered.
#[test]
fn no_gauge_has_no_graduation() {
    let without = live(|case| case.setup.gauge = None);
    assert!(
        view(&without, [])
            .items
            .iter()
            .all(|i| i.graduation_mm.is_none())
    );
    let with = live(|_| {});
    assert!(
        view(&with, [])
            .items
            .iter()
            .all(|i| i.graduation_mm.is_some())
    );
}

#[test]
fn each_thing_for_the_tray_is_given_the_setting_that_its_readings_are_held_against() {
    let case = live(|_| {});
    let worksheet = work_out(&case);
    let view = view(&case, [read(item(&case, 2), Purpose::Patient)]);
    let mut settings = 0;
    for (item, planned) in with_planned(&worksheet, &view) {
        let set = item.set.as_ref().and_then(|on| on.set.get());
        assert_eq!(planned.map(|planned| planned.key.setting_mm), set);
        if let (Some(planned), Some(on)) = (planned, &item.set) {
            assert_eq!(planned.key.drill, item.entry);
            let stop = on.stop.as_ref().map(ToString::to_string);
            assert_eq!(planned.key.stop, stop);
            settings += 1;
        }
    }
    assert_eq!(settings, view.items.len());
    assert!(settings > 1 && worksheet.loading.len() > settings);
}

/// A correction of words makes no other instrument; another measure, kind or marking does. What an older program recorded,
/// by a code of all that the kit says, stays of the instrument until any of that is another.
#[test]
fn words_in_the_kit_make_no_other_instrument() {
    let live = |change: fn(&mut Case)| {
        super::pieces::live(|case| {
            case.kit.drills[0].marking.letter = Some("K".to_owned());
            case.kit.stops[0].marking.letter = Some("S".to_owned());
            change(case);
        })
    };
    let code = |case: &ValidCase| item(case, 1).kit_code.unwrap();
    let case = live(|_| {});
    let as_it_is = code(&case);
    let words: [fn(&mut Case); 5] = [
        |case| case.kit.drills[0].irrigation = Some("cooled, from outside".into()),
        |case| case.kit.drills[0].greatest_speed_rpm = None,
        |case| case.kit.drills[0].name = "Kestrel, the first".into(),
        |case| case.kit.stops[0].name = "Stop, the grey one".into(),
        |case| case.kit.drills[0].code = Some("KE-100".into()),
    ];
    for change in words {
        assert_eq!(code(&live(change)), as_it_is);
    }
    let other: [fn(&mut Case); 5] = [
        |case| case.kit.drills[0].overall_length_mm += Length::from_um(100),
        |case| case.kit.drills[0].marking.letter = Some("L".to_owned()),
        |case| case.kit.stops[0].marking.letter = Some("T".to_owned()),
        |case| case.kit.stops[0].body_height_mm += Length::from_um(100),
        // What bears no marking is told by its name alone.
        |case| case.kit.drills[0].marking = Marking::default(),
    ];
    for (n, change) in other.into_iter().enumerate() {
        assert_ne!(code(&live(change)), as_it_is, "{n}");
    }
    let unmarked =
        |name: &'static str| super::pieces::live(move |case| case.kit.drills[0].name = name.into());
    assert_ne!(code(&unmarked("One")), code(&unmarked("Other")));
    let by_older = |case: &ValidCase| {
        let drill = case.kit.drills.iter().find(|one| one.id.as_str() == "a");
        let stop = case.kit.stops.iter().find(|one| one.id.as_str() == "u");
        Fingerprint::without(&(drill, stop), |above, key| {
            above.is_empty() && matches!(key, "quantity" | "source")
        })
    };
    let mut older = item(&case, 1);
    older.kit_code = Some(by_older(&case));
    let recorded = [read(older, Purpose::Patient)];
    let codes = |case: &ValidCase| {
        let items = view(case, recorded.clone()).items;
        let of_drill = items.iter().filter(|item| item.key.drill == "a");
        of_drill.map(|item| item.key.kit_code).collect::<Vec<_>>()
    };
    assert_eq!(codes(&case), [Some(by_older(&case))]);
    assert_eq!(codes(&live(words[0])), [Some(as_it_is)]);
    // No such program knew the code on a wrapping: to enter it takes nothing from what it recorded.
    assert_eq!(codes(&live(words[4])), [Some(by_older(&case))]);

    // Read at two desks, of which one recorded it by the one code and one by the other.
    let newer = match read(item(&case, 1), Purpose::Patient) {
        EventKind::Reading(reading) => EventKind::Reading(Reading {
            turn: Turn::Second,
            ..reading
        }),
        other => panic!("{other:?}"),
    };
    let counting = |case: &ValidCase| {
        let [older] = recorded.clone();
        let events = record(case, [older, newer.clone()]);
        let view = plan_view(case, &work_out(case), &events);
        let standing = standing(&events, &view, &Policy::strict(5)).unwrap();
        let counting = standing.readings.iter().map(|one| one.counts());
        let placed = standing.items.iter().find(|one| one.item.drill == "a");
        let check = &placed.unwrap().checks[&Stage::Bench];
        let both = check.first.is_some() && check.second.is_some();
        (counting.collect::<Vec<_>>(), both)
    };
    assert_eq!(counting(&case), (vec![true, true], true));
    assert_eq!(counting(&live(words[0])), (vec![false, true], false));
    assert_eq!(counting(&live(words[4])), (vec![true, true], true));
}
