//! The form as a record of the day: what is recorded stands in its box, what is not stays to be written.

use super::day::{recorded_on, whole_day};
use super::samples::changed;
use super::*;
use crate::drawing::{Item, Stroke};
use crate::measure::Length;
use crate::sign::{CountKind, CountLine, Counted, EventKind, Sounded, StepKey, StepSkipped, Who};

fn form(case: &ValidCase, signed: &Signed, readings: Readings) -> Vec<Page> {
    let printing = Printing {
        parts: Parts::of([SheetPart::Form]),
        readings,
        ..Printing::all(Paper::A4)
    };
    let worksheet = work_out(case);
    let (iso, at) = (Notation::Iso, printed_at());
    let pages = checklist(case, &worksheet, signed, None, printing, iso, at).unwrap();
    holds_together(&pages, "filled");
    pages
}

/// A day as two people record it: sounded a little off the plan, counted in with a stop too few.
fn day(case: &ValidCase) -> Vec<EventKind> {
    let purpose = case.purpose();
    let counted = |step: &StepKey, found| {
        EventKind::Counted(Counted {
            step: step.clone(),
            second: Who::new("JH").unwrap(),
            lines: vec![
                CountLine {
                    what: "stops".to_owned(),
                    kind: Some(CountKind::Stops),
                    wanted: 14,
                    found,
                },
                CountLine {
                    what: "drills".to_owned(),
                    kind: Some(CountKind::Drills),
                    wanted: 17,
                    found: 17,
                },
            ],
            due: None,
            despite: Some("RT: one is in the washer".to_owned()),
            purpose,
        })
    };
    let kinds = whole_day(case).into_iter().map(|kind| match kind {
        EventKind::StepDone(done) => match &done.step {
            StepKey::Sound {
                planned_mm: Some(planned),
                ..
            } => EventKind::Sounded(Sounded {
                found_mm: *planned + Length::from_um(330),
                step: done.step.clone(),
                due: None,
                purpose,
            }),
            step @ StepKey::CountIn { .. } => counted(step, 13),
            step @ StepKey::CountOut { .. } => counted(step, 14),
            _ => EventKind::StepDone(done),
        },
        kind => kind,
    });
    kinds.collect()
}

/// Boxes that are ticked on all pages.
fn ticks(pages: &[Page]) -> usize {
    let is_tick = |item: &&Item| {
        matches!(item, Item::Line { points, stroke }
            if points.len() == 3 && *stroke == Stroke::OUTLINE)
    };
    let items = pages.iter().flat_map(|page| page.over.items());
    items.filter(is_tick).count()
}

#[test]
fn what_is_recorded_of_the_day_stands_in_its_box_and_takes_no_page_more() {
    for name in [
        "two-molars",
        "one-premolar",
        "full-arch-upper",
        "fixed-stops",
    ] {
        let case = changed(name, |_| {});
        let (without, signed) = recorded_on(&case, day(&case));
        let blank = form(&case, &signed, Readings::Blank);
        assert_eq!(blank, form(&case, &without, Readings::Blank), "{name}");
        let before = form(&case, &without, Readings::Filled);
        let after = form(&case, &signed, Readings::Filled);
        assert_eq!(after.len(), before.len(), "{name}");
        let (was, text) = (read(&before), read(&after));
        let worksheet = work_out(&case);
        for site in &worksheet.sites {
            let Some(planned) = site.sounding.as_ref().and_then(|one| one.length()) else {
                continue;
            };
            let found = (planned + Length::from_um(330)).to_string();
            assert!(text.contains(&found), "{name}, {found}: {text}");
        }
        for (words, count) in [
            ("L0", 1),
            ("2031-05-31", case.sites.len()),
            ("0.2 mm coronal", case.sites.len()),
            ("Жанна К and JH, ", 2),
            ("one is in the washer", 2),
        ] {
            assert_eq!(was.matches(words).count(), 0, "{name}, {words}");
            assert_eq!(
                text.matches(words).count(),
                count,
                "{name}, {words}: {text}"
            );
        }
        let texts = after.iter().flat_map(|page| page.over.texts());
        let least = texts
            .map(|text| text.style.size_mm)
            .fold(f64::MAX, f64::min);
        assert!(least >= crate::drawing::pt(8.0) - 1e-9, "{name}: {least}");
        // Each line of the order of use is ticked, and what is done between two.
        let steps = case.sites.iter().flat_map(|site| &site.steps);
        let looks = steps.filter(|step| step.then.is_some()).count();
        let resets = worksheet.resets.len();
        assert_eq!(ticks(&before), 0, "{name}");
        assert_eq!(
            ticks(&after),
            worksheet.order.len() + looks + resets,
            "{name}"
        );
    }
}

#[test]
fn what_is_not_recorded_stays_to_be_written() {
    let case = changed("two-molars", |_| {});
    let (without, signed) = recorded_on(&case, Vec::new());
    let after = form(&case, &signed, Readings::Filled);
    assert_eq!(after, form(&case, &without, Readings::Filled));
}

/// What was left out has no box, and says by whose word; an implant that is not placed has none to write in.
#[test]
fn what_was_left_out_says_so_in_its_row() {
    let case = changed("two-molars", |_| {});
    let purpose = case.purpose();
    let left = day(&case).into_iter().filter_map(|kind| {
        let step = kind.step_of_day()?.clone();
        let here = step.site().is_some_and(|at| at.tooth.to_string() == "46");
        Some(if here {
            EventKind::StepSkipped(StepSkipped {
                step,
                reason: "RT: no primary hold".to_owned(),
                purpose,
            })
        } else {
            kind
        })
    });
    let (_, signed) = recorded_on(&case, left.collect());
    let text = read(&form(&case, &signed, Readings::Filled));
    assert!(
        text.contains("Left out: lower right first molar (46)"),
        "{text}"
    );
    assert!(text.contains("Not placed (Жанна К, "), "{text}");
    // The other implant has its boxes.
    assert_eq!(
        text.matches("label, or lot and expiry").count(),
        1,
        "{text}"
    );
}
