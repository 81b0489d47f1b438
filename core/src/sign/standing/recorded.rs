//! Standings of what hands did and of passes, worked by hand.

use super::tables::{k1, plan};
use super::*;
use crate::sign::samples::*;
use crate::sign::{
    EventHash, EventKind, HandStep, ItemKey, Log, Merged, Pass, PassEnd, Piece, Reading, Stage,
    Turn, Who,
};

/// Events of one desk a minute apart, each by this person.
pub(super) fn by_each(events: impl IntoIterator<Item = (&'static str, EventKind)>) -> Merged {
    let mut log = Log::new(&case_jaw(), writer("desk"));
    for ((name, kind), i) in events.into_iter().zip(0..) {
        log.append(at(60 * i), who(name), kind).unwrap();
    }
    Merged::of(case_jaw(), [log]).unwrap()
}

fn stands(events: impl IntoIterator<Item = (&'static str, EventKind)>) -> Standing {
    standing(&by_each(events), &plan(), &Policy::strict(5)).unwrap()
}

fn read(stage: Stage, turn: Turn) -> EventKind {
    EventKind::Reading(Reading {
        stage,
        turn,
        ..reading(k1(), "24.3")
    })
}

fn aloud(entered_by: &str) -> EventKind {
    EventKind::Reading(Reading {
        stage: Stage::SterileField,
        turn: Turn::Second,
        entered_by: Some(Who::new(entered_by).unwrap()),
        ..reading(k1(), "24.3")
    })
}

/// Set, locked, tugged and read by AB, read again by CD.
fn verified() -> Vec<(&'static str, EventKind)> {
    vec![
        ("AB", checked("20", "20")),
        ("AB", handled(k1(), HandStep::Set)),
        ("AB", handled(k1(), HandStep::Locked)),
        ("AB", handled(k1(), HandStep::Tugged)),
        ("AB", read(Stage::Bench, Turn::First)),
        (
            "AB",
            EventKind::Placed {
                item: k1(),
                slot: "B4".to_owned(),
                purpose: Some(crate::sign::Purpose::Patient),
            },
        ),
        ("CD", read(Stage::Bench, Turn::Second)),
    ]
}

fn objections(standing: &Standing, stage: Stage) -> Vec<&'static str> {
    let check = &standing.items[0].checks[&stage];
    let ids = check.objections.iter().map(|one| one.message().id);
    ids.map(|id| id.trim_start_matches("sign-check-")).collect()
}

/// Set at another setting under a plan that came and went: the readings of before count no more.
#[test]
fn nothing_read_before_a_stop_was_handled_counts_after_it() {
    let other = || ItemKey {
        setting_mm: mm("24.7"),
        ..k1()
    };
    let before = stands(verified());
    assert!(before.items[0].checks[&Stage::Bench].is_verified());
    assert_eq!(before.items[0].placed.as_deref(), Some("B4"));
    let steps = [HandStep::Set, HandStep::Locked, HandStep::Tugged];
    let handled = steps.map(|step| handled(k1(), step)).into_iter();
    for kind in handled.chain([super::super::samples::handled(other(), HandStep::Set)]) {
        let after = stands(verified().into_iter().chain([("AB", kind.clone())]));
        let item = &after.items[0];
        assert_eq!(
            objections(&after, Stage::Bench),
            ["first-missing", "second-missing"],
            "{kind:?}"
        );
        assert_eq!(item.placed, None, "{kind:?}");
        let lapsed = after.readings.iter().all(|one| {
            let handled = |lapse: &Lapse| matches!(lapse, Lapse::Handled { .. });
            one.lapses.iter().any(handled)
        });
        assert!(lapsed, "{kind:?}");
    }
}

/// The last work of hands is told, and is none after what undid it.
#[test]
fn the_work_of_hands_is_kept_until_it_is_undone() {
    let handling = |events: Vec<(&'static str, EventKind)>| {
        let found = stands(events).items[0].handling.clone();
        found.map(|one| {
            let by: Vec<String> = one.by.iter().map(ToString::to_string).collect();
            (one.step, by.join(" "))
        })
    };
    assert_eq!(
        handling(verified()),
        Some((HandStep::Tugged, "AB".to_owned()))
    );
    let two = vec![
        ("AB", handled(k1(), HandStep::Set)),
        ("CD", handled(k1(), HandStep::Locked)),
    ];
    assert_eq!(
        handling(two.clone()),
        Some((HandStep::Locked, "AB CD".to_owned()))
    );
    let (drill, to) = (k1().drill_key(), None);
    let piece = Piece::Drill(k1().drill_key());
    let otherwise = ItemKey {
        setting_mm: mm("20"),
        ..k1()
    };
    // What is only practised on a patient's case moves nothing.
    let practised = EventKind::Reading(Reading {
        purpose: crate::sign::Purpose::Practice,
        ..reading(otherwise.clone(), "20")
    });
    let events = two.iter().cloned().chain([("AB", practised)]);
    assert!(handling(events.collect()).is_some());
    for undone in [
        EventKind::Reset {
            drill,
            to,
            passed_over: None,
            purpose: None,
        },
        EventKind::Dropped {
            piece,
            purpose: None,
        },
        handled(otherwise.clone(), HandStep::Set),
        EventKind::Reading(reading(otherwise, "20")),
    ] {
        let events = two.iter().cloned().chain([("AB", undone.clone())]);
        assert_eq!(handling(events.collect()), None, "{undone:?}");
    }
    // Locked or tugged without being set is no setting.
    assert_eq!(
        handling(vec![("AB", handled(k1(), HandStep::Tugged))]),
        None
    );
}

/// What was practised on an instrument takes what was read of it before, and gives a patient nothing: no
/// step is told as passed over, nothing that fell is missing.
#[test]
fn what_was_practised_takes_and_does_not_give() {
    use crate::sign::Purpose::{Patient, Practice};
    let done = |purpose| {
        let piece = Piece::Drill(k1().drill_key());
        let reset = EventKind::Reset {
            drill: k1().drill_key(),
            to: Some(1),
            passed_over: Some(k1()),
            purpose,
        };
        let mut plan = plan();
        plan.items[0].state = SettingState::NoMore;
        let events = verified()
            .into_iter()
            .chain([("AB", reset), ("AB", EventKind::Dropped { piece, purpose })]);
        let standing = standing(&by_each(events), &plan, &Policy::strict(5)).unwrap();
        let lapsed = standing.readings.iter().all(|one| !one.counts());
        let passed_over = standing.items[0].passed_over.is_some();
        (lapsed, passed_over, standing.fallen.len())
    };
    assert_eq!(done(Some(Practice)), (true, false, 0));
    assert_eq!(done(Some(Patient)), (true, true, 1));
    assert_eq!(done(None), (true, true, 1));
}

/// A fall that was taken back is missing no more; what was read before either of them does not count, and what
/// is read after both does.
#[test]
fn a_fall_that_was_taken_back_leaves_the_drill_unread() {
    let piece = || Piece::Drill(k1().drill_key());
    let fell = EventKind::Dropped {
        piece: piece(),
        purpose: Some(crate::sign::Purpose::Patient),
    };
    let first = || ("AB", read(Stage::Bench, Turn::First));
    let seq = verified().len() as u64 + 1;
    let log = |rest: Vec<(&'static str, EventKind)>| {
        let before = verified().into_iter().chain([("AB", fell.clone())]);
        stands(before.chain(rest))
    };
    assert!(log(vec![]).fallen[0].counts());
    let back = || ("CD", taken_back(seq, piece()));
    let laid = verified().swap_remove(5);
    assert!(matches!(laid.1, EventKind::Placed { .. }));
    let again = || vec![first(), ("AB", handled(k1(), HandStep::Set)), laid.clone()];
    let standing = log(again());
    assert!(standing.items[0].placed.is_some() && standing.items[0].handling.is_some());
    let standing = log(again().into_iter().chain([back()]).collect());
    assert_eq!(standing.items[0].handling, None);
    assert_eq!(standing.fallen[0].taken_back, Some(who("CD")));
    assert!(standing.readings.iter().all(|one| !one.counts()));
    assert_eq!(standing.items[0].placed, None);
    let other = log(vec![("CD", taken_back(seq - 1, piece()))]);
    assert!(other.fallen[0].counts(), "that was no fall");
    let standing = log(vec![back(), first()]);
    assert!(standing.readings.last().unwrap().counts());
}

/// Whoever had the stop in hand does not read second, whoever read first.
#[test]
fn who_set_a_stop_does_not_read_it_second() {
    let events = [
        ("AB", checked("20", "20")),
        ("AB", handled(k1(), HandStep::Set)),
        ("EF", handled(k1(), HandStep::Locked)),
        ("CD", read(Stage::Bench, Turn::First)),
    ];
    for (reader, want) in [
        ("AB", vec!["set-it"]),
        ("e.f.", vec!["set-it"]),
        ("GH", vec![]),
    ] {
        let second = (reader, read(Stage::Bench, Turn::Second));
        let standing = stands(events.clone().into_iter().chain([second]));
        assert_eq!(objections(&standing, Stage::Bench), want, "{reader}");
    }
}

/// What one reader refused stands until the stop is set anew, also where another signs as who may be the same.
#[test]
fn a_refusal_is_taken_back_by_its_reader_alone() {
    for (other, stands_refused) in [("Anna", false), ("ANNA", false), ("Anna Lund", true)] {
        let mut events = verified();
        let at = events
            .iter()
            .position(|(_, kind)| *kind == read(Stage::Bench, Turn::Second));
        let EventKind::Reading(right) = events.remove(at.unwrap()).1 else {
            panic!()
        };
        let deeper = Reading {
            value_mm: right.value_mm + mm("0.3"),
            ..right.clone()
        };
        events.push(("Anna", EventKind::Reading(deeper)));
        events.push((other, EventKind::Reading(right)));
        let told = objections(&stands(events), Stage::Bench);
        assert_eq!(!told.is_empty(), stands_refused, "{other}: {told:?}");
    }
}

/// Figures seen between the beginning of the pass and the reading, or at another desk that nobody knows to
/// be later: the reading is none without sight of a figure.
#[test]
fn a_second_reading_by_who_saw_a_figure_in_the_session_before_it_does_not_count() {
    let approve = || approval(b"plan", &[], crate::sign::Purpose::Patient);
    let sights = [
        (begun(Pass::Setting), "saw-set"),
        (approve(), "saw-approved"),
        (ended(PassEnd::Left), "saw-left"),
        (read(Stage::SterileField, Turn::First), "saw-read"),
    ];
    for (sight, want) in sights.clone() {
        let mut events = verified();
        events.insert(0, ("CD", sight.clone()));
        let told = objections(&stands(events), Stage::Bench);
        assert_eq!(told, [want]);
        // Another's, or after the reading, it is nothing.
        let mut events = verified();
        events.insert(0, ("EF", sight.clone()));
        events.push(("CD", sight));
        assert!(
            objections(&stands(events), Stage::Bench).is_empty(),
            "{want}"
        );
    }
    // Of another session: twelve hours and a minute before.
    let mut log = Log::new(&case_jaw(), writer("desk"));
    log.append(at(-12 * 3600 - 60), who("CD"), approve())
        .unwrap();
    for ((name, kind), i) in verified().into_iter().zip(0..) {
        log.append(at(60 * i), who(name), kind).unwrap();
    }
    let of = |logs: Vec<Log>| {
        let events = Merged::of(case_jaw(), logs).unwrap();
        let standing = standing(&events, &plan(), &Policy::strict(5)).unwrap();
        objections(&standing, Stage::Bench)
    };
    assert!(of(vec![log.clone()]).is_empty());
    // At another desk, which has read nothing of this one and whose clock is anywhere.
    for seconds in [-90_000, 0, 90_000] {
        for (sight, want) in sights.clone() {
            let mut room = Log::new(&case_jaw(), writer("room"));
            room.append(at(seconds), who("c. d."), sight).unwrap();
            let told = of(vec![log.clone(), room]);
            assert_eq!(told, [want], "{seconds}");
        }
    }
}

/// Read twice on the bench, then aloud in the sterile field.
#[test]
fn a_figure_read_aloud_and_entered_by_another_confirms_what_the_bench_verified() {
    let sterile = |more: Vec<(&'static str, EventKind)>| {
        let standing = stands(verified().into_iter().chain(more));
        objections(&standing, Stage::SterileField)
    };
    assert_eq!(
        sterile(vec![]),
        ["first-missing", "second-missing", "bench-only"]
    );
    // The one who set it reads aloud, the circulating person enters.
    assert!(sterile(vec![("AB", aloud("CD"))]).is_empty());
    assert_eq!(sterile(vec![("AB", aloud("a.b."))]), ["same-person"]);
    // Nobody read it twice on the bench.
    let mut once = verified();
    once.pop();
    let standing = stands(once.into_iter().chain([("AB", aloud("CD"))]));
    assert_eq!(
        objections(&standing, Stage::SterileField),
        ["first-missing"]
    );
    // Not read aloud: as any second reading it needs a first.
    let plain = ("CD", read(Stage::SterileField, Turn::Second));
    assert_eq!(sterile(vec![plain]), ["first-missing"]);
    // Set anew in the sterile field: the bench says nothing, and who set it does not read second.
    let anew = |reader: &'static str, by: &str| {
        sterile(vec![
            ("AB", handled(k1(), HandStep::Set)),
            ("AB", read(Stage::SterileField, Turn::First)),
            (reader, aloud(by)),
        ])
    };
    assert_eq!(anew("AB", "CD"), ["same-person", "set-it"]);
    assert!(anew("EF", "CD").is_empty());
}

/// Who set it here, or read it with the figure in sight, does not enter what is read aloud either; and
/// what is read aloud before the bench is done with it is none.
#[test]
fn who_saw_the_figure_does_not_enter_what_is_read_aloud() {
    let here = |reader: &'static str, by: &str| {
        let events = vec![
            ("AB", checked("20", "20")),
            ("AB", handled(k1(), HandStep::Set)),
            ("CD", read(Stage::SterileField, Turn::First)),
            (reader, aloud(by)),
        ];
        objections(&stands(events), Stage::SterileField)
    };
    assert_eq!(here("EF", "AB"), ["set-it"]);
    assert_eq!(here("EF", "CD"), ["set-it"]);
    assert!(here("EF", "GH").is_empty());
    let mut early = verified();
    let second = early.pop().unwrap();
    early.extend([("AB", aloud("CD")), second]);
    assert_eq!(
        objections(&stands(early), Stage::SterileField),
        ["first-missing"]
    );
}

/// A check that finds the gauge off puts in doubt every reading since its last sound one.
#[test]
fn a_gauge_found_off_later_takes_the_readings_since_its_last_sound_check() {
    let after = |checks: &[&str]| {
        let checks = checks.iter().map(|value| ("AB", checked("20", value)));
        let standing = stands(verified().into_iter().chain(checks));
        objections(&standing, Stage::Bench)
    };
    assert!(after(&[]).is_empty());
    assert!(after(&["20"]).is_empty());
    let found = ["gauge-found-off", "gauge-found-off"];
    assert_eq!(after(&["20.2"]), found);
    assert_eq!(after(&["19.8"]), found);
    // It is cleaned and sound again: what was read before stays in doubt.
    assert_eq!(after(&["20.2", "20"]), found);
    // Sound after the readings: it went wrong later.
    assert!(after(&["20", "20.2"]).is_empty());
    // Another gauge's check says nothing.
    let other = EventKind::GaugeChecked {
        gauge: "h".to_owned(),
        piece_mm: mm("20"),
        value_mm: mm("20.2"),
        purpose: Some(crate::sign::Purpose::Patient),
        asked_back_mm: Vec::new(),
    };
    let standing = stands(verified().into_iter().chain([("AB", other)]));
    assert!(objections(&standing, Stage::Bench).is_empty());
}

/// A failed check whose time is not clearly before the reading counts as after it.
#[test]
fn a_gauge_found_off_at_another_desk_counts_whatever_its_clock_says() {
    let mut desk = Log::new(&case_jaw(), writer("desk"));
    for ((name, kind), i) in verified().into_iter().zip(0..) {
        desk.append(at(60 * i), who(name), kind).unwrap();
    }
    let off = |seconds| {
        let mut room = Log::new(&case_jaw(), writer("room"));
        room.append(at(seconds), who("EF"), checked("20", "20.2"))
            .unwrap();
        let events = Merged::of(case_jaw(), [desk.clone(), room]).unwrap();
        let standing = standing(&events, &plan(), &Policy::strict(5)).unwrap();
        objections(&standing, Stage::Bench).len()
    };
    // First read at 240 s, second at 360 s, the sound check at 0 s. Nobody knows which was first.
    for seconds in [500, 300, 241, -60, -180, -90_000, 90_000] {
        assert_eq!(off(seconds), 2, "{seconds}");
    }
}

/// The clock is a day ahead when the gauge is checked and is put right afterwards.
#[test]
fn a_clock_that_was_once_ahead_keeps_no_check_fresh() {
    let mut log = Log::new(&case_jaw(), writer("desk"));
    for ((name, kind), i) in verified().into_iter().zip(0..) {
        let ahead = matches!(kind, EventKind::GaugeChecked { .. });
        let seconds = if ahead { 86_400 } else { 60 * i };
        log.append(at(seconds), who(name), kind).unwrap();
    }
    let standing = standing(
        &Merged::of(case_jaw(), [log]).unwrap(),
        &plan(),
        &Policy::strict(5),
    )
    .unwrap();
    let told = objections(&standing, Stage::Bench);
    assert!(told.contains(&"gauge-check-old"), "{told:?}");
}

#[test]
fn a_time_that_has_not_come_yet_is_told_with_its_desk() {
    let note = || EventKind::Note {
        text: "n".to_owned(),
    };
    let mut desk = Log::new(&case_jaw(), writer("desk"));
    desk.append(at(0), who("AB"), note()).unwrap();
    let mut room = Log::new(&case_jaw(), writer("room"));
    for seconds in [90_000, 30] {
        room.append(at(seconds), who("AB"), note()).unwrap();
    }
    let events = Merged::of(case_jaw(), [desk, room]).unwrap();
    let ahead = |now: i64| -> Vec<String> {
        let found = clocks_ahead(&events, at(now), &Policy::strict(5)).into_iter();
        found.map(|one| one.writer.as_str().to_owned()).collect()
    };
    assert_eq!(ahead(0), ["room"]);
    assert_eq!(ahead(90_000 - 121), ["room"]);
    assert!(ahead(90_000 - 120).is_empty());
    assert_eq!(ahead(-200), ["desk", "room"]);
}

#[test]
fn behind_what_was_put_aside_nothing_counts_until_it_is_done_again() {
    let aside = EventKind::SetAside {
        of: writer("room"),
        file: "room.events.jsonl.damaged-1".to_owned(),
        content: EventHash::of_file(b"x"),
    };
    let approve = || approval(b"plan", &["36/canal"], crate::sign::Purpose::Patient);
    let before = || verified().into_iter().chain([("SU", approve())]);
    let stood = stands(before());
    assert_eq!(stood.valid_approvals().count(), 1);
    assert!(objections(&stood, Stage::Bench).is_empty());
    let stood = stands(before().chain([("SU", aside.clone())]));
    assert_eq!(stood.valid_approvals().count(), 0);
    assert!(stood.readings.iter().all(|reading| !reading.counts()));
    assert!(
        stood
            .items
            .iter()
            .all(|item| item.handling.is_none() && item.placed.is_none())
    );
    let again = stands(before().chain([("SU", aside)]).chain(before()));
    assert_eq!(again.valid_approvals().count(), 1);
    assert!(objections(&again, Stage::Bench).is_empty());
}

#[test]
fn nothing_of_a_record_with_a_break_counts() {
    let approve = approval(b"plan", &["36/canal"], crate::sign::Purpose::Patient);
    let mut events = by_each(verified().into_iter().chain([("SU", approve)]));
    let count = |events: &Merged| {
        let standing = standing(events, &plan(), &Policy::strict(5)).unwrap();
        let counting = standing.readings.iter().filter(|reading| reading.counts());
        (standing.valid_approvals().count(), counting.count())
    };
    assert!(count(&events).0 == 1 && count(&events).1 > 0);
    events.set_broken();
    assert_eq!(count(&events), (0, 0));
}

#[test]
fn whoever_saw_a_figure_in_this_session_is_told_with_the_occasion() {
    let policy = Policy::strict(5);
    let seen = |name: &str, events: &Merged, hours: i64| {
        let seen = figures_seen_by((&who(name), &[]), events, (at(hours * 3600), None), &policy);
        seen.map(|(_, sight)| sight)
    };
    let events = by_each([
        ("SU", approval(b"plan", &[], crate::sign::Purpose::Patient)),
        ("AB", begun(Pass::Setting)),
        ("CD", handled(k1(), HandStep::Locked)),
        ("EF", read(Stage::Bench, Turn::First)),
        ("GH", begun(Pass::Blind)),
        ("GH", read(Stage::Bench, Turn::Second)),
        ("GH", ended(PassEnd::Unseen)),
        ("IJ", begun(Pass::Blind)),
        ("IJ", ended(PassEnd::Left)),
        ("OP", begun(Pass::Blind)),
        ("QR", begun(Pass::Blind)),
        ("QR", ended(PassEnd::Unseen)),
        ("KL", begun(Pass::Blind)),
    ]);
    for (name, want) in [
        ("SU", Some(FiguresSeen::Approved)),
        ("AB", Some(FiguresSeen::Set)),
        ("c.d.", Some(FiguresSeen::Set)),
        ("EF", Some(FiguresSeen::Read)),
        ("GH", None),
        ("IJ", Some(FiguresSeen::Left)),
        ("KL", Some(FiguresSeen::Left)),
        // Broken off, and another began and ended since.
        ("OP", Some(FiguresSeen::Left)),
        ("QR", None),
        ("MN", None),
    ] {
        assert_eq!(seen(name, &events, 1), want, "{name}");
        // The next day it is another session.
        assert_eq!(seen(name, &events, 24), None, "{name}");
    }
}

/// A pass that the desk has no end of was cut off: taken up there by the same person it is no occasion,
/// and at another desk, or once another begins there, it stays one.
#[test]
fn a_pass_that_was_cut_off_can_be_taken_up_where_nothing_was_shown_since() {
    let policy = Policy::strict(5);
    let desk = writer("desk");
    let cut_off = |more: Vec<(&'static str, EventKind)>| {
        let begun = [
            ("AB", begun(Pass::Blind)),
            ("AB", checked("20", "20")),
            ("AB", read(Stage::Bench, Turn::Second)),
        ];
        by_each(begun.into_iter().chain(more))
    };
    let found = |events: &Merged, hours: i64| {
        pass_cut_off(&desk, events, at(hours * 3600), &policy).map(|(who, _)| who)
    };
    let seen = |events: &Merged, at_desk: Option<&str>| {
        let taken_up = at_desk.map(writer);
        let when = (at(3600), taken_up.as_ref());
        figures_seen_by((&who("AB"), &[]), events, when, &policy).map(|(_, sight)| sight)
    };
    let plain = cut_off(vec![]);
    assert_eq!(found(&plain, 1), Some(who("AB")));
    assert_eq!(found(&plain, 24), None, "another day");
    assert_eq!(seen(&plain, None), Some(FiguresSeen::Left));
    assert_eq!(seen(&plain, Some("desk")), None);
    assert_eq!(seen(&plain, Some("room")), Some(FiguresSeen::Left));
    let taken_up = cut_off(vec![
        ("AB", begun(Pass::Blind)),
        ("AB", ended(PassEnd::Unseen)),
    ]);
    assert_eq!((found(&taken_up, 1), seen(&taken_up, None)), (None, None));
    // The same person, in another spelling.
    let in_small = cut_off(vec![("ab", begun(Pass::Blind))]);
    assert_eq!(seen(&in_small, Some("desk")), None);
    let in_small = cut_off(vec![("ab", ended(PassEnd::Unseen))]);
    assert_eq!(seen(&in_small, None), None);
    let by_other = cut_off(vec![("CD", begun(Pass::Blind))]);
    assert_eq!(found(&by_other, 1), Some(who("CD")));
    assert_eq!(seen(&by_other, Some("desk")), Some(FiguresSeen::Left));
    for (name, more) in [
        ("ended", ended(PassEnd::Left)),
        ("set", handled(k1(), HandStep::Set)),
        (
            "approved",
            approval(b"plan", &[], crate::sign::Purpose::Patient),
        ),
        ("read in sight", read(Stage::Bench, Turn::First)),
    ] {
        assert_eq!(found(&cut_off(vec![("AB", more)]), 1), None, "{name}");
    }
}

#[test]
fn what_was_opened_is_kept_until_it_falls_and_what_was_there_by_stage() {
    let standing_of = |more: Vec<EventKind>| {
        let all = added_kinds().into_iter().chain(more);
        stands(all.map(|kind| ("AB", kind)))
    };
    let standing = standing_of(vec![]);
    assert_eq!(standing.opened.len(), 1);
    assert!(
        standing
            .beside
            .contains_key(&(Stage::Bench, "guide".to_owned()))
    );
    let piece = Piece::Drill(drill("kestrel", 1));
    let fell = standing_of(vec![EventKind::Dropped {
        piece,
        purpose: None,
    }]);
    assert!(fell.opened.is_empty());
}

#[test]
fn a_check_piece_read_without_its_decimal_mark_is_mistyped_and_not_a_gauge_that_is_off() {
    let policy = Policy::strict(5);
    let range = Some((mm("8"), mm("35")));
    let looks = |shown: &str| gauge_mistyped(mm("21.7"), mm(shown), range, &policy).is_some();
    for shown in ["217", "2.17", "40", "25", "24"] {
        assert!(looks(shown), "{shown}");
    }
    for shown in ["21.7", "21.8", "21.5", "23.7", "19.7"] {
        assert!(!looks(shown), "{shown}");
    }
}

/// An approval names the decisions that it saw: another reason is not what was approved. One of an
/// earlier version names none.
#[test]
fn an_approval_covers_the_decisions_that_it_names() {
    let holds = |approved: &str, planned: &str| {
        let plan = PlanView {
            accepted: keys(&[planned]),
            ..plan()
        };
        let given = approval(b"plan", &[approved], crate::sign::Purpose::Patient);
        let events = by_each([("SU", given)]);
        let standing = standing(&events, &plan, &Policy::strict(5)).unwrap();
        standing.valid_approvals().count() == 1
    };
    let lapse = |approved: &str, planned: &[&str]| {
        let plan = PlanView {
            accepted: keys(planned),
            ..plan()
        };
        let given = approval(b"plan", &[approved], crate::sign::Purpose::Patient);
        let standing = standing(&by_each([("SU", given)]), &plan, &Policy::strict(5)).unwrap();
        standing.approvals[0].lapses.clone()
    };
    let named = |key: &str| vec![key.to_owned()];
    assert_eq!(
        lapse(
            "36/canal x by:AB",
            &["36/canal x by:CD", "37/canal x by:AB"]
        ),
        [
            ApprovalLapse::DecisionsChanged {
                keys: named("36/canal x by:CD")
            },
            ApprovalLapse::AcceptancesNotCovered {
                keys: named("37/canal x by:AB")
            },
        ],
        "the finding of a changed decision is told once"
    );
    assert!(holds("36/canal x by:AB", "36/canal x by:AB"));
    assert!(!holds("36/canal x by:AB", "36/canal x by:CD"));
    assert!(holds("36/canal x", "36/canal x by:CD"));
    assert!(!holds("36/canal x", "36/canal y by:CD"));
    assert!(!holds("36/canal x by:AB", "37/canal x by:AB"));
}

/// A patient's fall that was said in practice to be none is one still; what is said so for the patient is.
#[test]
fn a_fall_of_a_patient_is_not_taken_back_in_practice() {
    let piece = || Piece::Drill(drill("kestrel", 1));
    let dropped = || EventKind::Dropped {
        piece: piece(),
        purpose: Some(crate::sign::Purpose::Patient),
    };
    for (of, stands_still) in [
        (crate::sign::Purpose::Patient, false),
        (crate::sign::Purpose::Practice, true),
    ] {
        let mut back = taken_back(2, piece());
        if let EventKind::FallTakenBack { purpose, .. } = &mut back {
            *purpose = of;
        }
        let note = EventKind::Note {
            text: "n".to_owned(),
        };
        let standing = stands([("AB", note), ("AB", dropped()), ("CD", back)]);
        let counts: Vec<bool> = standing.fallen.iter().map(Fall::counts).collect();
        assert_eq!(counts, [stands_still], "{of:?}");
    }
}

/// A taking back that names another piece than the report that it names takes nothing back.
#[test]
fn a_fall_is_not_taken_back_by_a_line_of_another_piece() {
    let piece = |name: &str| Piece::Drill(drill(name, 1));
    for (named, counts) in [("kestrel", false), ("plover", true)] {
        let dropped = EventKind::Dropped {
            piece: piece("kestrel"),
            purpose: Some(crate::sign::Purpose::Patient),
        };
        let note = EventKind::Note {
            text: "n".to_owned(),
        };
        let back = taken_back(2, piece(named));
        let standing = stands([("AB", note), ("AB", dropped), ("CD", back)]);
        let fallen: Vec<bool> = standing.fallen.iter().map(Fall::counts).collect();
        assert_eq!(fallen, [counts], "{named}");
    }
}

/// Of a gauge of which nobody knows what it adds no check is judged: what speaks against it is that a figure was asked
/// back, or that it showed two of one piece.
#[test]
fn a_gauge_is_spoken_against_also_where_its_constant_is_unknown() {
    let gauge = |constant: Option<&str>| crate::kit::Gauge {
        id: "g".into(),
        name: "G".into(),
        from_mm: mm("0"),
        to_mm: mm("40"),
        graduation_mm: mm("0.1"),
        reads: None,
        constant_mm: constant.map(mm),
        check_piece_mm: Some(mm("20")),
        source: None,
    };
    let against = |constant, checks: &[EventKind]| {
        let events = by_each(checks.iter().cloned().map(|kind| ("AB", kind)));
        gauge_contradicted(&gauge(constant), &events)
    };
    let shows = |value| checked("20", value);
    let mut again = checked("20", "20.3");
    if let EventKind::GaugeChecked { asked_back_mm, .. } = &mut again {
        asked_back_mm.push(mm("20.3"));
    }
    let asked = EventKind::GaugeAskedBack {
        gauge: "g".to_owned(),
        piece_mm: mm("20"),
        value_mm: mm("20.3"),
        purpose: crate::sign::Purpose::Patient,
    };
    for (checks, told) in [
        (vec![], false),
        (vec![shows("20.3")], false),
        (vec![shows("20"), shows("20.05")], false),
        (vec![shows("20"), shows("20.1")], true),
        (vec![shows("20"), checked("25", "25.3")], false),
        (vec![again], true),
        (vec![shows("20"), asked], true),
    ] {
        assert_eq!(against(None, &checks), told, "{checks:?}");
        // Where it is known each check is judged by itself.
        assert!(!against(Some("0"), &checks));
    }
}
