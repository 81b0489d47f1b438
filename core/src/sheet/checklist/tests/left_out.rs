//! What was left out is told as what happened there: drilled before by another plan, by hand, or nothing placed.

use super::samples::changed;
use super::*;
use crate::figures::record_figures;
use crate::measure::Length;
use crate::plan::{case_jaw, plan_view};
use crate::record::record;
use crate::sign::{
    ByHand, Entry, EventKind, Heads, Led, Log, Merged, Policy, Recorded, SiteKey, StepDone,
    StepKey, StepSkipped, Who, WriterId, standing,
};
use crate::surgery::day;
use serde_json::Value;

/// The first molar is drilled with its pilot through the guide, and all else of it freehand.
fn case() -> ValidCase {
    changed("two-molars", |case| {
        case["sites"][0]["guided_extent"] = "pilot_only".into();
    })
}

/// What is told of these events, of two desks that did not know of each other.
struct Told {
    paper: String,
    json: Value,
    history: String,
    steps: Vec<String>,
}

fn told(case: &ValidCase, desks: [Vec<EventKind>; 2]) -> Told {
    let worksheet = work_out(case);
    let mut second = 0;
    let logs = ["desk", "other"]
        .into_iter()
        .zip(desks)
        .map(|(name, kinds)| {
            let mut log = Log::new(&case_jaw(case), WriterId::new(name).unwrap());
            for kind in kinds {
                second += 1;
                let at = jiff::Timestamp::from_second(1_900_000_000 + second).unwrap();
                let who = Who::new("MK").unwrap();
                log.append_knowing(Heads::default(), at, who, kind).unwrap();
            }
            log
        });
    let logs: Vec<Log> = logs.filter(|log| log.head().is_some()).collect();
    let events = Merged::of(case_jaw(case), logs).unwrap();
    let view = plan_view(case, &worksheet, &events);
    let policy = Policy::strict(20);
    let standing = standing(&events, &view, &policy).unwrap();
    let signed = Signed::of(case, (&events, &standing), &policy);
    let of = record(case, &worksheet, (&view, &standing));
    let on = (Paper::A4, Notation::Iso);
    let pages = record_pages((case, &worksheet), &signed, &of, on, printed_at()).unwrap();
    holds_together(&pages, "left out");
    let formatter = Formatter::english(case, Notation::Iso);
    let figures = record_figures(&formatter, &worksheet, &of);
    let day = day(case, &worksheet, (&view, &standing));
    let steps = day.steps.iter();
    Told {
        paper: read(&pages),
        json: serde_json::to_value(figures).unwrap(),
        history: formatter
            .history(&worksheet, &events, (&view, &standing))
            .lines()
            .collect::<Vec<_>>()
            .join(" "),
        steps: steps.map(|step| formatter.day_step_planned(step)).collect(),
    }
}

/// The steps of the first molar.
fn steps(case: &ValidCase) -> Vec<StepKey> {
    let worksheet = work_out(case);
    let none = Merged::of(case_jaw(case), []).unwrap();
    let view = plan_view(case, &worksheet, &none);
    let standing = standing(&none, &view, &Policy::strict(20)).unwrap();
    let day = day(case, &worksheet, (&view, &standing));
    let here = |step: &StepKey| step.site().is_some_and(|at| at.tooth.to_string() == "46");
    let all = day.steps.iter().map(|step| step.key.clone());
    all.filter(here).collect()
}

fn freehand(steps: &[StepKey]) -> &StepKey {
    let is_it = |step: &&StepKey| {
        matches!(
            step,
            StepKey::Drill {
                led: Led::Freehand,
                ..
            }
        )
    };
    steps.iter().find(is_it).unwrap()
}

fn by_hand(case: &ValidCase, step: StepKey) -> EventKind {
    EventKind::StepDone(StepDone {
        step,
        piece: None,
        due: None,
        despite: Some("RT: it rocks".to_owned()),
        by_hand: Some(ByHand {
            aimed_mm: Some(Length::from_um(9_500)),
        }),
        purpose: case.purpose(),
    })
}

fn skipped(case: &ValidCase, step: &StepKey) -> EventKind {
    EventKind::StepSkipped(StepSkipped {
        step: step.clone(),
        reason: "RT: no primary hold".to_owned(),
        purpose: case.purpose(),
    })
}

/// Drilled by hand under a plan with another setting, then the site is stopped: the drill of this plan is told as what was done.
#[test]
fn what_was_drilled_by_hand_before_its_site_was_stopped_is_not_told_as_left_out() {
    let case = case();
    let steps = steps(&case);
    let step = freehand(&steps);
    let mut then = step.clone();
    let StepKey::Drill { with, .. } = &mut then else {
        panic!()
    };
    with.set_mm = Some(Length::from_um(7_777));
    let mut kinds = vec![by_hand(&case, then)];
    kinds.extend(steps.iter().map(|step| skipped(&case, step)));
    let told = told(&case, [kinds, Vec::new()]);
    let formatter = Formatter::english(&case, Notation::Iso);
    let name = formatter.day_step(step);
    for text in [&told.paper, &told.history] {
        assert!(!text.contains(&format!("Left out: {name}")), "{text}");
        assert!(text.contains("Done before and not again: "), "{text}");
        assert_eq!(text.matches("9.5 mm from the crest").count(), 2, "{text}");
        // Neither the setting of the plan nor that of the one before was used.
        assert!(!text.contains("7.777"), "{text}");
    }
    let row = told
        .steps
        .iter()
        .find(|row| row.starts_with(&name))
        .unwrap();
    assert!(row.contains("BY HAND") && row.contains("9.5 mm"), "{row}");
    let run = told.json["run"].as_array().unwrap();
    let done = &run[0]["event"];
    let again = run.iter().filter(|one| one["done_before"] == done["event"]);
    assert_eq!(again.count(), 1, "{run:#?}");
}

/// One desk drilled by hand what another left out without knowing: it was drilled.
#[test]
fn what_one_desk_drilled_and_another_left_out_is_told_as_drilled() {
    let case = case();
    let steps = steps(&case);
    let step = freehand(&steps);
    let done = || vec![by_hand(&case, step.clone())];
    let left = || vec![skipped(&case, step)];
    for desks in [[done(), left()], [left(), done()]] {
        let told = told(&case, desks);
        let name = Formatter::english(&case, Notation::Iso).day_step(step);
        let row = told
            .steps
            .iter()
            .find(|row| row.starts_with(&name))
            .unwrap();
        assert!(row.contains("BY HAND"), "{row}");
        assert!(!told.paper.contains(&format!("Left out: {name}")));
    }
}

/// By hand neither stop nor setting was used: the record as data names neither, nor does what took that back.
#[test]
fn a_step_by_hand_has_no_setting_in_the_record_as_data() {
    let case = case();
    let steps = steps(&case);
    let step = freehand(&steps);
    let StepKey::Drill { with, .. } = step else {
        panic!()
    };
    assert!(with.set_mm.is_some());
    let told = told(&case, [vec![by_hand(&case, step.clone())], Vec::new()]);
    let what = &told.json["run"][0]["event"]["what"];
    assert_eq!(what["by_hand"]["aimed_mm"], 9.5, "{what}");
    let with = what["step"]["with"].as_object().unwrap();
    assert!(with.contains_key("drill"), "{what}");
    assert!(
        !with.contains_key("set_mm") && !with.contains_key("stop"),
        "{what}"
    );
}

fn field<'r>(json: &'r Value, of: &str) -> &'r Value {
    let fields = json["implants"][0]["fields"].as_array().unwrap();
    fields.iter().find(|field| field["of"] == of).unwrap()
}

/// An implant that was left out is not placed, by whose word and why; what was cut is asked for its graft and closure all the same.
#[test]
fn an_implant_that_was_left_out_is_told_as_not_placed() {
    let case = case();
    let steps = steps(&case);
    let all = || steps.iter().map(|step| skipped(&case, step));
    let told_all = told(&case, [all().collect(), Vec::new()]);
    let (json, paper) = (&told_all.json, &told_all.paper);
    assert_eq!(json["implants"][0]["not_placed"]["who"], "MK");
    let reason = &json["implants"][0]["not_placed"]["reason"];
    assert_eq!(reason, "RT: no primary hold");
    for field in json["implants"][0]["fields"].as_array().unwrap() {
        assert_eq!(field["state"], "not_placed", "{field}");
    }
    assert!(json["implants"][1].get("not_placed").is_none());
    let missing = json["missing"].to_string();
    assert!(!missing.contains("46"), "{missing}");
    assert!(
        paper.contains("NO IMPLANT PLACED, recorded by MK"),
        "{paper}"
    );
    assert!(
        paper.contains("not placed (MK, ") || paper.contains("Not placed (MK, "),
        "{paper}"
    );
    // Left out at once for one reason, they are told with it once.
    let all_steps = steps.iter().filter(|step| step.site().is_some());
    assert!(all_steps.count() > 3);
    assert_eq!(paper.matches("no primary hold").count(), 3, "{paper}");
    // Once something was cut there, what became of it is asked for.
    let pilot = steps
        .iter()
        .find(|step| matches!(step, StepKey::Drill { .. }));
    let done = EventKind::StepDone(StepDone {
        step: pilot.unwrap().clone(),
        piece: None,
        due: None,
        despite: None,
        by_hand: None,
        purpose: case.purpose(),
    });
    let open = all().filter(|kind| kind.step_of_day() != pilot);
    let kinds = [done].into_iter().chain(open).collect();
    let cut = told(&case, [kinds, Vec::new()]);
    for (of, state) in [("implant", "not_placed"), ("graft", "not_recorded")] {
        assert_eq!(field(&cut.json, of)["state"], state);
    }
    // What is recorded as placed was placed.
    let StepKey::Insert { site, .. } = steps.last().unwrap() else {
        panic!()
    };
    let torque = torque(&case, site.clone());
    let placed = told(&case, [all().chain([torque]).collect(), Vec::new()]);
    assert_eq!(field(&placed.json, "implant")["state"], "not_recorded");
    assert_eq!(field(&placed.json, "torque")["state"], "recorded");
    assert!(!placed.paper.contains("NO IMPLANT PLACED"));
}

fn torque(case: &ValidCase, site: SiteKey) -> EventKind {
    EventKind::Recorded(Recorded {
        entry: Entry::Torque {
            site,
            torque_ncm: crate::measure::Torque::from_ncm(35),
        },
        purpose: case.purpose(),
    })
}
