//! What verifies a setting, worked by hand.

use super::*;
use crate::dentition::Jaw;
use crate::sign::samples::*;
use crate::sign::{
    EventHash, EventKind, ItemKey, Log, Piece, Purpose, Reading, Stage, ThingKey, Turn,
};

/// Two kestrels set alike and a plover used by its marks, all read on gauge `g`.
pub(super) fn plan() -> PlanView {
    let planned = |key: ItemKey, figure: &str| PlannedItem {
        key,
        state: SettingState::Now,
        gauge: "g".to_owned(),
        gauge_figure_mm: Some(mm(figure)),
        graduation_mm: Some(mm("0.1")),
        gauge_constant_mm: Some(mm("0")),
        check_piece_mm: None,
        gauge_range_mm: Some((mm("8"), mm("35"))),
    };
    PlanView {
        case_jaw: case_jaw(),
        fingerprint: crate::sign::Fingerprint::of_bytes(b"plan"),
        covers: 1,
        purpose: Purpose::Patient,
        accepted: keys(&["36/canal"]),
        people: Vec::new(),
        codes: BTreeMap::new(),
        items: vec![
            planned(k1(), "24.3"),
            planned(item("kestrel", 2, Some("s2"), "24.3"), "24.3"),
            planned(item("plover", 1, None, "18"), "18"),
        ],
    }
}

pub(super) fn k1() -> ItemKey {
    item("kestrel", 1, Some("s2"), "24.3")
}

pub(super) fn policy() -> Policy {
    Policy::strict(5)
}

pub(super) fn first(value: &str) -> EventKind {
    EventKind::Reading(reading(k1(), value))
}

pub(super) fn changed(value: &str, change: impl FnOnce(&mut Reading)) -> EventKind {
    let mut reading = reading(k1(), value);
    change(&mut reading);
    EventKind::Reading(reading)
}

pub(super) fn second(value: &str) -> EventKind {
    changed(value, |r| r.turn = Turn::Second)
}

pub(super) fn merged(logs: impl IntoIterator<Item = Log>) -> Merged {
    Merged::of(case_jaw(), logs).unwrap()
}

/// The standing of events of one desk, a minute apart, by two people in turn.
pub(super) fn of_desk(kinds: impl IntoIterator<Item = EventKind>) -> Standing {
    standing(&merged([log_of("desk", kinds)]), &plan(), &policy()).unwrap()
}

/// Ids of what speaks against each reading: `practice reset`, or `counts`.
pub(super) fn lapses(standing: &Standing) -> Vec<String> {
    let one = |r: &ReadingStanding| {
        let ids = r.lapses.iter().map(|lapse| lapse.message().id);
        let ids: Vec<&str> = ids
            .map(|id| id.trim_start_matches("sign-reading-"))
            .collect();
        if ids.is_empty() {
            "counts".to_owned()
        } else {
            ids.join(" ")
        }
    };
    standing.readings.iter().map(one).collect()
}

/// Ids of what keeps the first kestrel from being verified at a stage.
pub(super) fn objections(standing: &Standing, stage: Stage) -> Vec<&'static str> {
    let check = &standing.items[0].checks[&stage];
    let ids = check
        .objections
        .iter()
        .map(|objection| objection.message().id);
    ids.map(|id| id.trim_start_matches("sign-").trim_start_matches("check-"))
        .collect()
}

fn at_bench(kinds: impl IntoIterator<Item = EventKind>) -> Vec<&'static str> {
    objections(&of_desk(kinds), Stage::Bench)
}

#[test]
fn readings_are_judged_by_one_graduation_to_the_shallow_side_only() {
    let plan = plan();
    let tolerance = Tolerance::common_practice();
    for (value, want) in [
        ("24.3", "in-tolerance 0"),
        ("24.2", "in-tolerance 0.1"),
        ("24.199", "too-shallow 0.101 off-graduation"),
        ("24.1", "too-shallow 0.2"),
        ("24.25", "in-tolerance 0.05 off-graduation"),
        ("24.301", "too-deep 0.001 off-graduation"),
        ("24.4", "too-deep 0.1"),
        ("26.3", "too-deep 2"),
        ("26.4", "too-deep 2.1 far-off"),
        ("22.2", "too-shallow 2.1 far-off"),
        ("34.2", "too-deep 9.9 far-off"),
        ("243", "too-deep 218.7 outside-gauge far-off decimal-mark"),
        (
            "2.43",
            "too-shallow 21.87 outside-gauge off-graduation far-off decimal-mark",
        ),
        ("36", "too-deep 11.7 outside-gauge far-off"),
    ] {
        let verdict = judge(mm(value), &plan.items[0], &tolerance);
        let message = verdict.deviation.message();
        let mut told = message.id.trim_start_matches("sign-judged-").to_owned();
        for arg in message.args.values() {
            told = format!("{told} {arg}");
        }
        for why in &verdict.mistyped {
            let id = why.message().id.trim_start_matches("sign-mistyped-");
            told = format!("{told} {id}");
        }
        assert_eq!(told, want, "{value}");
        let fine = want.starts_with("in-tolerance") && !want.ends_with("off-graduation");
        assert_eq!(verdict.confirms(), fine, "{value}");
    }
    let unknown = PlannedItem {
        gauge_figure_mm: None,
        ..plan.items[0].clone()
    };
    let verdict = judge(mm("24.3"), &unknown, &tolerance);
    assert_eq!(verdict.deviation, Deviation::NoFigure);
    assert!(!verdict.confirms(), "an unknown figure confirms nothing");
    // A reading in tolerance that the gauge cannot show.
    let low = PlannedItem {
        gauge_figure_mm: Some(mm("8")),
        ..plan.items[0].clone()
    };
    assert!(judge(mm("8"), &low, &tolerance).confirms());
    assert!(!judge(mm("7.9"), &low, &tolerance).confirms());
    // A deep allowance, and whole millimetres whose zeros are no digits of the figure.
    let (deep_mm, whole) = (mm("0.1"), &plan.items[2]);
    let allowing = Tolerance {
        deep_mm,
        ..tolerance
    };
    assert!(judge(mm("24.4"), &plan.items[0], &allowing).confirms());
    assert!(!judge(mm("24.5"), &plan.items[0], &allowing).confirms());
    let dropped = judge(mm("180"), whole, &tolerance).mistyped;
    assert!(dropped.contains(&Mistyped::DecimalMark {
        figure_mm: mm("18")
    }));
    assert!(judge(mm("18"), whole, &tolerance).confirms());
}

#[test]
#[rustfmt::skip] // One row a line, so that the table reads as one.
fn two_people_verify_a_setting() {
    let c = || checked("20", "20");
    for (name, kinds, want) in [
        ("both agree", vec![c(), first("24.3"), second("24.3")], vec![]),
        ("one graduation short", vec![c(), first("24.3"), second("24.2")], vec![]),
        ("nothing", vec![], vec!["first-missing", "second-missing"]),
        ("first alone", vec![c(), first("24.3")], vec!["second-missing"]),
        ("second alone", vec![c(), second("24.3")], vec!["first-missing"]),
        ("second deeper", vec![c(), first("24.3"), second("24.4")], vec!["judged-too-deep"]),
        ("first short", vec![c(), first("24.0"), second("24.3")], vec!["judged-too-shallow"]),
        ("mistyped", vec![c(), first("24.3"), second("2.43")], vec!["judged-too-shallow", "mistyped-outside-gauge", "mistyped-far-off", "mistyped-off-graduation", "mistyped-decimal-mark"]),
        ("one person", vec![c(), first("24.3"), c(), second("24.3")], vec!["same-person"]),
        ("first again by the same person", vec![c(), first("24.3"), second("24.3"), c(), c(), first("24.3")], vec![]),
        ("first again by the second person", vec![c(), first("24.3"), second("24.3"), c(), first("24.3")], vec!["same-person"]),
        ("mended", vec![c(), first("24.5"), second("24.3"), first("24.3"), second("24.3")], vec![]),
        ("mended only once", vec![c(), first("24.5"), second("24.5"), first("24.3")], vec!["judged-too-deep"]),
        ("gauge unchecked", vec![first("24.3"), second("24.3")], vec!["gauge-not-checked", "gauge-not-checked"]),
        ("gauge checked after", vec![first("24.3"), second("24.3"), c()], vec!["gauge-not-checked", "gauge-not-checked"]),
        ("gauge shows too little", vec![checked("20", "19.9"), first("24.3"), second("24.3")], vec!["gauge-off", "gauge-off"]),
        ("gauge shows too much", vec![checked("20", "20.1"), first("24.3"), second("24.3")], vec!["gauge-off", "gauge-off"]),
        ("piece between graduations", vec![checked("20.04", "20"), first("24.3"), second("24.3")], vec![]),
        ("checked again", vec![checked("20", "19.9"), c(), first("24.3"), second("24.3")], vec![]),
        ("gauge fell", vec![c(), first("24.3"), EventKind::Dropped { piece: Piece::Gauge("g".to_owned()), purpose: None }, c(), second("24.3")], vec![]),
        ("gauge fell unchecked", vec![c(), first("24.3"), EventKind::Dropped { piece: Piece::Gauge("g".to_owned()), purpose: None }, second("24.3")], vec!["same-person", "gauge-fell"]),
    ] {
        let mut told = at_bench(kinds);
        told.sort_unstable();
        let mut want = want;
        want.sort_unstable();
        assert_eq!(told, want, "{name}");
    }
}

/// In a demonstration case nothing is verified; what only that keeps from it is practised.
#[test]
fn a_setting_read_twice_in_a_demonstration_case_is_practised() {
    let c = || checked("20", "20");
    for (purpose, second_too, want) in [
        (Purpose::Practice, true, (false, true)),
        (Purpose::Practice, false, (false, false)),
        (Purpose::Patient, true, (true, false)),
        (Purpose::Patient, false, (false, false)),
    ] {
        let read = |turn| changed("24.3", |r| (r.turn, r.purpose) = (turn, purpose));
        let mut kinds = vec![c(), read(Turn::First)];
        kinds.extend(second_too.then(|| read(Turn::Second)));
        let plan = PlanView { purpose, ..plan() };
        let standing = standing(&merged([log_of("desk", kinds)]), &plan, &policy()).unwrap();
        let check = &standing.items[0].checks[&Stage::Bench];
        let told = (check.is_verified(), check.is_practised());
        assert_eq!(told, want, "{purpose:?} {second_too}");
    }
}

/// One reading confirms the setting alone: it counts, agrees with the figure, and its gauge was
/// checked and sound. One to practise does in a demonstration case only.
#[test]
#[rustfmt::skip] // One row a line, so that the table reads as one.
fn a_reading_confirms_its_setting_on_a_sound_gauge() {
    let (patient, practice) = (Purpose::Patient, Purpose::Practice);
    let c = || checked("20", "20");
    let dropped = EventKind::Dropped { piece: Piece::Drill(k1().drill_key()), purpose: None };
    let practised = || changed("24.3", |r| r.purpose = practice);
    for (name, kinds, case, want) in [
        ("as planned", vec![c(), first("24.3")], patient, true),
        ("deeper", vec![c(), first("24.4")], patient, false),
        ("fell since", vec![c(), first("24.3"), dropped], patient, false),
        ("gauge unchecked", vec![first("24.3")], patient, false),
        ("gauge off", vec![checked("20", "19.9"), first("24.3")], patient, false),
        ("practised", vec![c(), practised()], patient, false),
        ("practised, as all is", vec![c(), practised()], practice, true),
    ] {
        let plan = PlanView { purpose: case, ..plan() };
        let standing = standing(&merged([log_of("desk", kinds)]), &plan, &policy()).unwrap();
        assert_eq!(standing.readings[0].confirms(case), want, "{name}");
    }
}

#[test]
fn a_bench_reading_counts_after_sterilisation_only_by_a_named_rule() {
    let bench = || [checked("20", "20"), first("24.3"), second("24.3")];
    let strict = of_desk(bench());
    let missing = ["first-missing", "second-missing"];
    assert!(objections(&strict, Stage::Bench).is_empty());
    let told = objections(&strict, Stage::SterileField);
    assert_eq!(told, [missing[0], missing[1], "bench-only"]);

    let lenient = Policy {
        bench_after_sterilisation: Some("House rule 4".to_owned()),
        ..policy()
    };
    let events = merged([log_of("desk", bench())]);
    let by_rule = standing(&events, &plan(), &lenient).unwrap();
    let check = &by_rule.items[0].checks[&Stage::SterileField];
    assert!(check.is_verified());
    assert_eq!(check.by_policy.as_deref(), Some("House rule 4"));
    assert_eq!(objections(&by_rule, Stage::AfterUse), missing);

    // One sterile reading, and the rule no longer stands in for two.
    let sterile = changed("24.3", |r| r.stage = Stage::SterileField);
    let events = merged([log_of("desk", bench().into_iter().chain([sterile]))]);
    let begun = standing(&events, &plan(), &lenient).unwrap();
    assert_eq!(objections(&begun, Stage::SterileField), ["second-missing"]);

    // A reading after use that went deeper speaks against the earlier ones too.
    let slipped = changed("24.6", |r| r.stage = Stage::AfterUse);
    let events = merged([log_of("desk", bench().into_iter().chain([slipped]))]);
    let slipped = standing(&events, &plan(), &lenient).unwrap();
    assert_eq!(objections(&slipped, Stage::Bench), ["contradicted"]);
    assert_eq!(objections(&slipped, Stage::SterileField), ["contradicted"]);
}

#[test]
fn nothing_of_a_demonstration_counts_but_everything_can_be_practised() {
    let demo = PlanView {
        purpose: Purpose::Practice,
        ..plan()
    };
    let practised = |mut r: Reading| {
        r.purpose = Purpose::Practice;
        EventKind::Reading(r)
    };
    let mut by_other = reading(k1(), "24.3");
    by_other.turn = Turn::Second;
    let log = log_of(
        "desk",
        [
            checked("20", "20"),
            practised(reading(k1(), "24.3")),
            practised(by_other),
            approval(b"plan", &["36/canal"], Purpose::Practice),
            // Also what claims to be for a patient.
            approval(b"plan", &["36/canal"], Purpose::Patient),
        ],
    );
    let standing = standing(&merged([log]), &demo, &policy()).unwrap();
    assert_eq!(lapses(&standing), ["practice", "practice"]);
    assert_eq!(standing.valid_approvals().count(), 0);
    assert!(
        standing
            .approvals
            .iter()
            .all(ApprovalStanding::is_practised)
    );
    let check = &standing.items[0].checks[&Stage::Bench];
    assert!(!check.is_verified());
    assert!(check.is_practised());
}

#[test]
fn nothing_of_one_jaw_or_case_stands_for_another() {
    let events = merged([log_of("desk", [first("24.3")])]);
    let mut other_jaw = plan();
    other_jaw.case_jaw.jaw = Jaw::Upper;
    let mut other_case = plan();
    other_case.case_jaw.case = "INV-8".to_owned();
    for (plan, id) in [
        (other_jaw, "sign-merge-other-jaw"),
        (other_case, "sign-merge-other-case"),
    ] {
        let fault = standing(&events, &plan, &policy()).unwrap_err();
        assert_eq!(fault.message().id, id);
    }
}

#[test]
fn a_gauge_check_grows_old() {
    for (after, want) in [(43_200, vec![]), (43_201, vec!["gauge-check-old"; 2])] {
        let mut log = log_of("desk", [checked("20", "20")]);
        log.append(at(after), who("AB"), first("24.3")).unwrap();
        log.append(at(after), who("CD"), second("24.3")).unwrap();
        let standing = standing(&merged([log]), &plan(), &policy()).unwrap();
        assert_eq!(objections(&standing, Stage::Bench), want);
    }
}

/// A gauge shows a length and its constant (kit): of a check piece of 20 with one of 1.5 it shows 21.5, and
/// what it shows of a length that its check piece has not says nothing.
#[test]
fn a_gauge_is_held_against_its_check_piece_with_its_constant() {
    for (constant, piece, shown, want) in [
        ("1.5", Some("20"), "21.5", vec![]),
        ("1.5", None, "21.5", vec![]),
        ("1.5", Some("20"), "20", vec!["gauge-off"; 2]),
        ("0", Some("20"), "21.5", vec!["gauge-off"; 2]),
        ("0", Some("20"), "20", vec![]),
        ("0", Some("21.7"), "20", vec!["gauge-not-checked"; 2]),
        ("0", Some("21.7"), "19", vec!["gauge-off"; 2]),
    ] {
        let mut plan = plan();
        for planned in &mut plan.items {
            planned.gauge_constant_mm = Some(mm(constant));
            planned.check_piece_mm = piece.map(mm);
        }
        let kinds = [checked("20", shown), first("24.3"), second("24.3")];
        let standing = standing(&merged([log_of("desk", kinds)]), &plan, &policy()).unwrap();
        let told = objections(&standing, Stage::Bench);
        assert_eq!(told, want, "{constant} {piece:?} {shown}");
    }
}

#[test]
fn a_drill_lies_where_it_was_last_put_until_it_falls() {
    let put = |slot: &str| EventKind::Placed {
        item: k1(),
        slot: slot.to_owned(),
        purpose: Some(Purpose::Patient),
    };
    let piece = || Piece::Drill(k1().drill_key());
    for (kinds, want) in [
        (vec![], None),
        (vec![put("A1"), put("B4")], Some("B4")),
        (
            vec![
                put("A1"),
                EventKind::Dropped {
                    piece: piece(),
                    purpose: None,
                },
            ],
            None,
        ),
        (
            vec![
                EventKind::Dropped {
                    piece: piece(),
                    purpose: None,
                },
                put("A1"),
            ],
            Some("A1"),
        ),
    ] {
        let standing = of_desk(kinds);
        assert_eq!(standing.items[0].placed.as_deref(), want);
    }
}

#[test]
fn a_thing_lies_where_it_was_last_put_until_it_is_taken_off() {
    use crate::kit::SlotKind::{Pin, Sleeve};
    let standing = of_desk([
        thing_placed(Pin, "wren", 1, Some("P 1")),
        thing_placed(Pin, "wren", 2, Some("P 2")),
        thing_placed(Sleeve, "wren", 1, Some("S 1")),
        thing_placed(Pin, "wren", 1, Some("P 3")),
        thing_placed(Pin, "wren", 2, None),
    ]);
    let slots: Vec<_> = standing.thing_slots.iter().collect();
    let told: Vec<_> = slots
        .iter()
        .map(|(thing, slot)| (thing.of, thing.copy.get(), slot.as_str()))
        .collect();
    assert_eq!(told, [(Sleeve, 1, "S 1"), (Pin, 1, "P 3")]);
}

/// One of an earlier version says of its findings only what they showed.
#[test]
fn an_approval_says_by_which_decisions_or_holds_for_any() {
    let names = |accepted: &[&str]| {
        let standing = of_desk([approval(b"plan", accepted, Purpose::Patient)]);
        standing.approvals[0].names_decisions()
    };
    assert!(names(&[]));
    assert!(names(&["36/canal by:1a2b"]));
    assert!(!names(&["36/canal"]));
    assert!(!names(&["35/wall by:1a2b", "36/canal"]));
}

/// Nobody knows which of several equal ones fell: each is laid anew.
#[test]
fn a_thing_that_fell_lies_nowhere_until_it_is_put_back() {
    use crate::kit::SlotKind::{Pin, Sleeve};
    let sleeve = |n| thing_placed(Sleeve, "finch", n, Some("S 1"));
    let pin = || thing_placed(Pin, "wren", 1, Some("P 1"));
    let fell = |name: &str| EventKind::Dropped {
        piece: Piece::Other(name.to_owned()),
        purpose: None,
    };
    let pin_fell = |name: &str| EventKind::Dropped {
        piece: ThingKey {
            of: Pin,
            entry: name.to_owned(),
            copy: copy(1),
        }
        .piece(),
        purpose: None,
    };
    for (kinds, want) in [
        (vec![sleeve(1), pin(), fell("finch")], vec!["wren 1"]),
        (vec![sleeve(1), sleeve(2), fell("finch")], vec![]),
        (vec![sleeve(1), fell("finch"), sleeve(1)], vec!["finch 1"]),
        (vec![fell("finch"), sleeve(1)], vec!["finch 1"]),
        (vec![sleeve(1), fell("other")], vec!["finch 1"]),
        // A pin that is called as a sleeve is, or as one of any kind: that is how older programs recorded it.
        (vec![sleeve(1), pin_fell("finch")], vec!["finch 1"]),
        (vec![sleeve(1), pin(), pin_fell("wren")], vec!["finch 1"]),
    ] {
        let standing = of_desk(kinds);
        let told = standing.thing_slots.keys();
        let told: Vec<_> = told.map(|t| format!("{} {}", t.entry, t.copy)).collect();
        assert_eq!(told, want);
    }
}

/// What was asked back at the gauge's check goes on to the next check, and none of a record that was put aside.
#[test]
fn what_was_asked_back_of_a_gauge_goes_with_the_record_that_was_put_aside() {
    let asked = |value: &str| EventKind::GaugeAskedBack {
        gauge: "g".to_owned(),
        piece_mm: mm("20"),
        value_mm: mm(value),
        purpose: Purpose::Patient,
    };
    let aside = || EventKind::SetAside {
        of: writer("room"),
        file: "room.events.jsonl.damaged-1".to_owned(),
        content: EventHash::of_file(b"x"),
    };
    for (kinds, want) in [
        (vec![asked("19")], vec!["19"]),
        (vec![asked("19"), asked("18")], vec!["19", "18"]),
        (vec![asked("19"), aside()], vec![]),
        (vec![asked("19"), aside(), asked("18")], vec!["18"]),
    ] {
        let events = merged([log_of("desk", kinds)]);
        let stands = gauge_asked_back(&events, &plan(), "g");
        let told: Vec<_> = stands.iter().map(|one| one.value_mm.to_string()).collect();
        assert_eq!(told, want);
        assert!(gauge_asked_back(&events, &plan(), "other").is_empty());
    }
}

/// Gauge check, laying and readings were practised before the mark of a demonstration was taken away;
/// the readings are then done for the patient. A record that says no purpose is a patient's only where
/// something before says so, and nothing was practised.
#[test]
fn what_was_practised_is_not_done_for_the_patient() {
    use crate::kit::SlotKind::Pin;
    let practised = |mut kind: EventKind| {
        match &mut kind {
            EventKind::Placed { purpose, .. }
            | EventKind::ThingPlaced { purpose, .. }
            | EventKind::GaugeChecked { purpose, .. } => *purpose = Some(Purpose::Practice),
            _ => panic!(),
        }
        kind
    };
    let done = |of: &dyn Fn(EventKind) -> EventKind| {
        let drill = EventKind::Placed {
            item: k1(),
            slot: "B4".to_owned(),
            purpose: Some(Purpose::Patient),
        };
        let pin = thing_placed(Pin, "wren", 1, Some("P 1"));
        [checked("20", "20"), drill, pin].map(of)
    };
    let note = || approval(b"older", &[], Purpose::Patient);
    let practice = || changed("24.3", |r| r.purpose = Purpose::Practice);
    let readings = || [first("24.3"), second("24.3")];
    let with = |before: Vec<EventKind>, done: [EventKind; 3]| {
        let kinds = before.into_iter().chain(done).chain(readings());
        let standing = of_desk(kinds);
        let lies = standing.items[0].placed.is_some();
        assert_eq!(lies, standing.thing_slots.len() == 1);
        let objections = objections(&standing, Stage::Bench);
        assert_eq!(lies, objections.is_empty(), "{objections:?}");
        lies
    };
    let said: &dyn Fn(EventKind) -> EventKind = &|kind| kind;
    assert!(with(vec![], done(said)));
    assert!(with(vec![practice()], done(said)));
    assert!(!with(vec![note()], done(&practised)));
    assert!(with(vec![note()], done(&without_purpose)));
    assert!(!with(vec![], done(&without_purpose)));
    assert!(!with(vec![note(), practice()], done(&without_purpose)));
    // Also where the first that says it was practised came later.
    let [check, drill, pin] = done(&without_purpose);
    let later = [note(), check, drill, pin, practice()].into_iter();
    let standing = of_desk(later.chain(readings()));
    assert_eq!(standing.items[0].placed, None);
    assert!(standing.thing_slots.is_empty());
    assert_eq!(objections(&standing, Stage::Bench)[0], "gauge-not-checked");
    // A gauge that was found off while it was practised is off.
    let off = practised(checked("20", "20.2"));
    let standing = of_desk([checked("20", "20"), off].into_iter().chain(readings()));
    assert_eq!(objections(&standing, Stage::Bench)[0], "gauge-off");
}

#[test]
fn what_is_accepted_is_what_confirms() {
    let tolerance = Tolerance::common_practice();
    let item = &plan().items[0];
    assert_eq!(accepted(item, &tolerance), Some((mm("24.2"), mm("24.3"))));
    for value in ["24.1", "24.199", "24.2", "24.25", "24.3", "24.301", "24.4"] {
        let within = mm("24.2") <= mm(value) && mm(value) <= mm("24.3");
        // The gauge goes by 0.1 mm and shows nothing between.
        let within = within && value != "24.25";
        assert_eq!(judge(mm(value), item, &tolerance).confirms(), within);
    }
    let mut unknown = item.clone();
    unknown.gauge_figure_mm = None;
    assert_eq!(accepted(&unknown, &tolerance), None);
}

#[test]
fn a_gauge_may_be_used_when_it_shows_the_nearest_graduation() {
    let graduation = Some(mm("0.2"));
    for (shown, off) in [
        ("20.1", None),
        ("19.9", None),
        ("20.101", Some("0.101")),
        ("19.8", Some("-0.2")),
    ] {
        assert_eq!(gauge_off(mm("20"), mm(shown), graduation), off.map(mm));
    }
    assert_eq!(gauge_off(mm("20"), mm("20"), None), None);
    assert_eq!(gauge_off(mm("20"), mm("20.001"), None), Some(mm("0.001")));
}

/// What stands on no graduation was not read of the gauge: it makes none sound.
#[test]
fn a_check_of_a_figure_that_the_gauge_cannot_show_is_none() {
    let read = |value: &str| [checked("20", value), first("24.3"), second("24.3")];
    let of_gauge = |told: Vec<&'static str>| {
        // Of each reading once.
        let mut told: Vec<&str> = told;
        told.retain(|id| id.starts_with("gauge"));
        told.dedup();
        told
    };
    for (value, want) in [
        ("20", &[][..]),
        ("20.05", &["gauge-no-figure"]),
        ("19.95", &["gauge-no-figure"]),
        ("20.001", &["gauge-no-figure"]),
        ("20.1", &["gauge-off"]),
        ("20.15", &["gauge-off"]),
    ] {
        assert_eq!(of_gauge(at_bench(read(value))), want, "{value}");
    }
    // A sound one before it stands, and so does one after it.
    let all = [checked("20", "20"), checked("20", "20.05")];
    let all = all.into_iter().chain([first("24.3"), second("24.3")]);
    assert!(of_gauge(at_bench(all)).is_empty());
    let all = [checked("20", "20.05"), checked("20", "20")];
    let all = all.into_iter().chain([first("24.3"), second("24.3")]);
    assert!(of_gauge(at_bench(all)).is_empty());
}
