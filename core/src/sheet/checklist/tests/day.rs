//! The record of the day on paper.

use super::samples::changed;
use super::*;
use crate::drawing::pt;
use crate::measure::Torque;
use crate::plan::{case_jaw, plan_view};
use crate::record::record;
use crate::sign::{
    Approved, Counted, DrillKey, Entry, EventId, EventKind, Given, Inserted, InsertionWay, Log,
    Merged, Piece, PlacedImplant, Policy, RecordSigned, Recorded, SiteKey, Sounded, StepDone,
    StepKey, StepTakenBack, SurgeryBegun, Who, WriterId, standing,
};

fn site(case: &ValidCase, index: usize) -> SiteKey {
    let site = &case.sites[index];
    SiteKey {
        site: site.id.to_string(),
        tooth: site.tooth,
    }
}

/// What counts after these events, a minute apart; without what the day brought, and with it.
pub(super) fn recorded_on(case: &ValidCase, kinds: Vec<EventKind>) -> (Signed, Signed) {
    let worksheet = work_out(case);
    let events = events_of(case, kinds);
    let view = plan_view(case, &worksheet, &events);
    let policy = Policy::strict(20);
    let standing = standing(&events, &view, &policy).unwrap();
    let signed = Signed::of(case, (&events, &standing), &policy);
    let with_day = signed
        .clone()
        .with_day((case, &worksheet), (&view, &standing));
    (signed, with_day)
}

fn events_of(case: &ValidCase, kinds: Vec<EventKind>) -> Merged {
    let mut log = Log::new(&case_jaw(case), WriterId::new("desk").unwrap());
    for (kind, minute) in kinds.into_iter().zip(0..) {
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * minute).unwrap();
        log.append(at, Who::new("Жанна К").unwrap(), kind).unwrap();
    }
    Merged::of(case_jaw(case), [log]).unwrap()
}

/// The pages of a case after these events, a minute apart.
fn printed(case: &ValidCase, kinds: Vec<EventKind>, paper: Paper) -> Vec<Page> {
    let worksheet = work_out(case);
    let events = events_of(case, kinds);
    let view = plan_view(case, &worksheet, &events);
    let policy = Policy::strict(20);
    let standing = standing(&events, &view, &policy).unwrap();
    let signed = Signed::of(case, (&events, &standing), &policy);
    let record = record(case, &worksheet, (&view, &standing));
    let on = (paper, Notation::Iso);
    let pages = record_pages((case, &worksheet), &signed, &record, on, printed_at()).unwrap();
    holds_together(&pages, case.reference.as_str());
    pages
}

/// A whole day: every step done, every implant turned in and described.
pub(super) fn whole_day(case: &ValidCase) -> Vec<EventKind> {
    let purpose = case.purpose();
    let worksheet = work_out(case);
    let mut kinds = Vec::new();
    let none = Merged::of(case_jaw(case), []).unwrap();
    let view = plan_view(case, &worksheet, &none);
    let standing = standing(&none, &view, &Policy::strict(20)).unwrap();
    let day = crate::surgery::day(case, &worksheet, (&view, &standing));
    for step in &day.steps {
        kinds.push(match &step.key {
            StepKey::Insert { .. } => EventKind::Inserted(Inserted {
                step: step.key.clone(),
                way: InsertionWay::Guided,
                torque_ncm: Some(Torque::from_ncm(35)),
                coronal_of_plan_mm: Some(crate::samples::mm("0.2")),
                due: None,
                despite: None,
                purpose,
            }),
            key => EventKind::StepDone(StepDone {
                step: key.clone(),
                piece: None,
                due: None,
                despite: None,
                by_hand: None,
                purpose,
            }),
        });
    }
    let recorded = |entry| EventKind::Recorded(Recorded { entry, purpose });
    for index in 0..case.sites.len() {
        let of = || site(case, index);
        kinds.push(recorded(Entry::Implant(PlacedImplant {
            site: of(),
            code: "R-363-091".to_owned(),
            lot: Some(format!("L{index}")),
            expiry: Some("2031-05-31".parse().unwrap()),
            given: Given::Scanned,
            implant: Some(case.sites[index].implant.to_string()),
            planned: Some(case.sites[index].implant.to_string()),
            because: None,
            compared: None,
        })));
        kinds.push(recorded(Entry::Graft {
            site: of(),
            material: None,
        }));
        kinds.push(recorded(Entry::Closure {
            site: of(),
            how: "single stitches, without tension".to_owned(),
        }));
        kinds.push(recorded(Entry::Healing {
            site: of(),
            part: None,
        }));
        kinds.push(recorded(Entry::Deviation {
            site: of(),
            departure: None,
        }));
    }
    kinds.push(EventKind::RecordSigned(RecordSigned {
        fingerprint: worksheet.fingerprint,
        open: 4,
        purpose,
    }));
    kinds
}

#[test]
fn a_whole_day_of_two_implants_is_one_page_in_type_that_is_read() {
    let case = changed("two-molars", |_| {});
    for paper in [Paper::A4, Paper::Letter] {
        let pages = printed(&case, whole_day(&case), paper);
        assert_eq!(pages.len(), 1, "{paper:?}");
        let texts = pages[0].over.texts();
        let least = texts.iter().map(|text| text.style.size_mm);
        let least = least.fold(f64::MAX, f64::min);
        assert!(least >= pt(8.0) - 1e-9, "{least}");
    }
}

/// The same as two people record it: begun, counted by two, sounded, each drill with its piece, something dropped, a step out of its
/// turn with its reason and one that was taken back.
fn eventful_day(case: &ValidCase) -> Vec<EventKind> {
    let purpose = case.purpose();
    let worksheet = work_out(case);
    let mut kinds = vec![EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: worksheet.fingerprint,
        approval: Approved::Open,
        lies_wrong: Vec::new(),
        despite: Some("RT: the tray is as it is".to_owned()),
        wrong_as: Vec::new(),
        anew: false,
        purpose,
    })];
    let mut drilled = 0;
    for kind in whole_day(case) {
        let EventKind::StepDone(mut done) = kind else {
            kinds.push(kind);
            continue;
        };
        match &done.step {
            StepKey::CountIn { .. } | StepKey::CountOut { .. } => {
                kinds.push(EventKind::Counted(Counted {
                    step: done.step.clone(),
                    second: Who::new("JH").unwrap(),
                    lines: Vec::new(),
                    due: None,
                    despite: None,
                    purpose,
                }));
                continue;
            }
            StepKey::Sound {
                planned_mm: Some(planned),
                ..
            } => {
                kinds.push(EventKind::Sounded(Sounded {
                    step: done.step.clone(),
                    found_mm: *planned,
                    due: None,
                    purpose,
                }));
                continue;
            }
            StepKey::Drill { with, .. } => {
                drilled += 1;
                done.piece = Some(DrillKey {
                    drill: with.drill.clone(),
                    copy: std::num::NonZeroU32::MIN,
                });
                if drilled == 2 {
                    kinds.push(EventKind::Dropped {
                        piece: Piece::Drill(DrillKey {
                            drill: with.drill.clone(),
                            copy: std::num::NonZeroU32::MIN,
                        }),
                        purpose: Some(purpose),
                    });
                    done.despite = Some("RT: read aloud at the table".to_owned());
                    done.due = Some(Box::new(StepKey::GuideOff {}));
                }
            }
            _ => {}
        }
        let seq = u64::try_from(kinds.len() + 1).unwrap();
        let step = done.step.clone();
        let again = matches!(step, StepKey::Drill { .. }) && drilled == 1;
        kinds.push(EventKind::StepDone(done.clone()));
        if again {
            kinds.push(EventKind::StepTakenBack(StepTakenBack {
                event: EventId {
                    writer: WriterId::new("desk").unwrap(),
                    seq,
                },
                step,
                reason: None,
                purpose,
            }));
            kinds.push(EventKind::StepDone(done));
        }
    }
    kinds
}

/// With all that a day brings it is one page still, in type that is read.
#[test]
fn an_eventful_day_of_two_implants_is_one_page() {
    let case = changed("two-molars", |_| {});
    for paper in [Paper::A4, Paper::Letter] {
        let pages = printed(&case, eventful_day(&case), paper);
        let text = read(&pages);
        for words in ["RECORDED BY MISTAKE", "read aloud at the table", "Fell: "] {
            assert!(text.contains(words), "{words}: {text}");
        }
        assert_eq!(pages.len(), 1, "{paper:?}");
        let texts = pages[0].over.texts();
        let least = texts.iter().map(|text| text.style.size_mm);
        let least = least.fold(f64::MAX, f64::min);
        assert!(least >= pt(8.0) - 1e-9, "{least}");
    }
}

/// The same with what goes wrong on a long day: each drill falls once, surgery is gone on with over a STOP again and again, a site
/// is stopped step by step, and things are entered after the record was signed.
fn long_day(case: &ValidCase) -> Vec<EventKind> {
    let purpose = case.purpose();
    let worksheet = work_out(case);
    let mut kinds = Vec::new();
    let mut fell = 0;
    for kind in eventful_day(case) {
        let drill = match &kind {
            EventKind::StepDone(done) => done.piece.clone(),
            _ => None,
        };
        kinds.push(kind);
        let Some(drill) = drill else { continue };
        fell += 1;
        kinds.push(EventKind::Dropped {
            piece: Piece::Drill(drill),
            purpose: Some(purpose),
        });
        if fell % 3 == 0 {
            kinds.push(EventKind::SurgeryBegun(SurgeryBegun {
                fingerprint: worksheet.fingerprint,
                approval: Approved::Open,
                lies_wrong: Vec::new(),
                despite: Some("RT: set anew and read aloud at the table, gone on with".to_owned()),
                wrong_as: Vec::new(),
                anew: false,
                purpose,
            }));
        }
    }
    for what in ["tip drill", "twist drill", "probe", "driver", "tether"] {
        let reason = "dropped on the floor".to_owned();
        let what = what.to_owned();
        let entry = Entry::Discarded { what, reason };
        kinds.push(EventKind::Recorded(Recorded { entry, purpose }));
    }
    kinds
}

/// Down to where a page bears words above its foot, as a part of its height.
fn filled_to(page: &Page, paper: Paper) -> f64 {
    let height = paper.rect().height();
    let lowest = page.over.texts().into_iter().map(|text| text.place.y);
    let lowest = lowest.filter(|y| *y < height - 26.0);
    lowest.fold(0.0, f64::max) / height
}

/// However long a day is, it is one page where that is read, else its last page is a third full at least; nothing of it is smaller than
/// what is read, and nothing is missing.
#[test]
fn a_long_day_leaves_no_page_nearly_empty() {
    let mut counts = Vec::new();
    for name in ["two-molars", "one-premolar", "fixed-stops"] {
        let case = changed(name, |_| {});
        for paper in [Paper::A4, Paper::Letter] {
            let long = long_day(&case);
            for length in (10..long.len()).step_by(3) {
                let pages = printed(&case, long[..length].to_vec(), paper);
                let last = pages.last().unwrap();
                let filled = filled_to(last, paper);
                counts.push((name, paper, length, pages.len()));
                assert!(
                    pages.len() == 1 || filled > 0.33,
                    "{name}, {paper:?}, {length}: {filled}"
                );
                let texts = pages.iter().flat_map(|page| page.over.texts());
                let least = texts.map(|text| text.style.size_mm);
                assert!(least.fold(f64::MAX, f64::min) >= pt(8.0) - 1e-9);
            }
            let text = read(&printed(&case, long, paper));
            assert_eq!(
                text.matches("dropped on the floor").count(),
                10,
                "{name}: {text}"
            );
        }
    }
    // What fell and what came since is told in running lines, so that half of what a long day brings is on one page.
    for paper in [Paper::A4, Paper::Letter] {
        let of = counts
            .iter()
            .filter(|(name, on, ..)| *name == "two-molars" && *on == paper);
        let one = of.filter(|(.., pages)| *pages == 1);
        let longest = one.map(|(.., length, _)| *length).max();
        assert!(longest >= Some(34), "{paper:?}: {longest:?}");
    }
}

#[test]
fn what_is_not_recorded_is_said_at_its_place_and_at_the_head() {
    let case = changed("two-molars", |_| {});
    let text = read(&printed(&case, Vec::new(), Paper::A4));
    // Eight things of each of two sites, two counts, instruments, the run of the day.
    assert_eq!(
        text.matches("ot recorded").count(),
        16 + 2 + 1 + 1 + 3,
        "{text}"
    );
    assert!(text.contains("The record is not signed."), "{text}");
    for words in [
        "FOR PRACTICE ONLY",
        "DEMONSTRATION",
        "patient label",
        "replaces neither imaging",
    ] {
        let stamped = read_under(&printed(&case, Vec::new(), Paper::A4));
        assert!(
            text.contains(words) || stamped.contains(words),
            "{words}: {text}"
        );
    }
    let full = read(&printed(&case, whole_day(&case), Paper::A4));
    for words in [
        "Lower right first molar (46), 2030-03-17: planned",
        "35 N·cm (Жанна К, 18:",
        "lot L1",
        "no graft",
        "without tension",
        "0.2 mm coronal of its planned depth",
        "Signed by Жанна К",
        "desk ",
    ] {
        assert!(full.contains(words), "{words}: {full}");
    }
    assert!(!full.contains("The record is not signed."));
}

fn read_under(pages: &[Page]) -> String {
    let texts = pages.iter().flat_map(|page| page.under.texts());
    texts
        .map(|text| text.content.clone())
        .collect::<Vec<_>>()
        .join(" ")
}

/// Words of any length and of any letters make no record unprintable.
#[test]
fn long_words_flow_over_pages_and_letters_that_no_font_has_are_stood_in_for() {
    let case = changed("one-premolar", |_| {});
    let purpose = case.purpose();
    let of = || site(&case, 0);
    let long = |words: &str| words.repeat(4000 / words.chars().count());
    let entries = [
        Entry::Deviation {
            site: of(),
            departure: Some(crate::sign::Departure {
                what: "李 otherwise".to_owned(),
                reason: long("because it was so "),
            }),
        },
        Entry::Discarded {
            what: "x".repeat(400),
            reason: long("blunt\n"),
        },
        Entry::Closure {
            site: of(),
            how: "stitched ".repeat(44),
        },
    ];
    let kinds = entries
        .into_iter()
        .map(|entry| EventKind::Recorded(Recorded { entry, purpose }));
    let pages = printed(&case, kinds.collect(), Paper::A4);
    assert!(pages.len() > 1);
    assert!(read(&pages).contains("otherwise"));
}

/// Every case, with whatever day, holds together on both sizes of paper.
#[test]
fn every_case_prints_its_record() {
    for (name, _) in samples::CASES {
        let case = changed(name, |_| {});
        for paper in [Paper::A4, Paper::Letter] {
            let pages = printed(&case, whole_day(&case), paper);
            assert!(!pages.is_empty(), "{name}");
        }
    }
}
