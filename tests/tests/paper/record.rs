//! The record of the day, read back from its PDF: what is recorded, what is not, codes, cautions, ends of logs.

use super::read;
use std::path::PathBuf;
use traywright_core::case::{ValidCase, read_case};
use traywright_core::dentition::Notation;
use traywright_core::measure::{Length, Torque};
use traywright_core::plan::{case_jaw, plan_view, work_out};
use traywright_core::record::record;
use traywright_core::sheet::Paper;
use traywright_core::sheet::checklist::{Signed, record_pdf};
use traywright_core::sign::{
    Entry, EntryKind, EventKind, Inserted, InsertionWay, Log, Merged, Policy, RecordCorrected,
    RecordSigned, Recorded, SiteKey, StepDone, StepKey, Who, WriterId, standing,
};

fn demo(name: &str) -> ValidCase {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("../demo/{name}.json"));
    read_case(&std::fs::read(file).unwrap()).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// Text of a record with these events, its pages counted.
fn printed(case: &ValidCase, kinds: Vec<EventKind>, paper: Paper) -> (String, usize, Vec<u8>) {
    let worksheet = work_out(case);
    let mut log = Log::new(&case_jaw(case), WriterId::new("desk").unwrap());
    for (kind, minute) in kinds.into_iter().zip(0..) {
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * minute).unwrap();
        log.append(at, Who::new("MK").unwrap(), kind).unwrap();
    }
    let events = Merged::of(case_jaw(case), [log]).unwrap();
    let view = plan_view(case, &worksheet, &events);
    let policy = Policy::strict(20);
    let standing = standing(&events, &view, &policy).unwrap();
    let signed = Signed::of(case, (&events, &standing), &policy);
    let record = record(case, &worksheet, (&view, &standing));
    let at = "2031-05-06T07:08:09Z".parse().unwrap();
    let on = (paper, Notation::Iso);
    let bytes = record_pdf((case, &worksheet), &signed, &record, on, at).unwrap();
    let document = lopdf::Document::load_mem(&bytes).unwrap();
    let pages: Vec<u32> = document.get_pages().into_keys().collect();
    let count = pages.len();
    let text = pages.iter().flat_map(|page| read::lines(&bytes, *page));
    let text = text.collect::<Vec<_>>().join(" ");
    (text, count, bytes)
}

/// Leaves the record of a whole day of each demonstration where a person can open it: every step done, every implant
/// turned in.
#[test]
fn the_records_can_be_looked_at() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
    for name in ["one-premolar", "two-molars", "full-arch-upper"] {
        let case = demo(name);
        let (purpose, worksheet) = (case.purpose(), work_out(&case));
        let none = Merged::of(case_jaw(&case), []).unwrap();
        let view = plan_view(&case, &worksheet, &none);
        let nothing = standing(&none, &view, &Policy::strict(20)).unwrap();
        let day = traywright_core::surgery::day(&case, &worksheet, (&view, &nothing));
        let mut kinds = Vec::new();
        for step in &day.steps {
            let step = step.key.clone();
            kinds.push(match step {
                StepKey::Insert { .. } => EventKind::Inserted(Inserted {
                    step,
                    way: InsertionWay::Guided,
                    torque_ncm: Some(Torque::from_ncm(35)),
                    coronal_of_plan_mm: Some(Length::ZERO),
                    due: None,
                    despite: None,
                    purpose,
                }),
                step => EventKind::StepDone(StepDone {
                    step,
                    piece: None,
                    due: None,
                    despite: None,
                    by_hand: None,
                    purpose,
                }),
            });
        }
        for site in &case.sites {
            let entry = Entry::Closure {
                site: SiteKey {
                    site: site.id.to_string(),
                    tooth: site.tooth,
                },
                how: "single stitches, without tension".into(),
            };
            kinds.push(EventKind::Recorded(Recorded { entry, purpose }));
        }
        let (text, _, bytes) = printed(&case, kinds, Paper::A4);
        let told = text.matches("single stitches, without tension").count();
        assert_eq!(told, case.sites.len(), "{name}");
        std::fs::write(folder.join(format!("record-day-{name}.pdf")), bytes).unwrap();
    }
}

#[test]
fn a_record_is_read_back_with_its_codes_and_cautions() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
    for (paper, size) in [(Paper::A4, "a4"), (Paper::Letter, "letter")] {
        let case = demo("two-molars");
        let purpose = case.purpose();
        let site = SiteKey {
            site: case.sites[0].id.to_string(),
            tooth: case.sites[0].tooth,
        };
        let torque = |ncm| Entry::Torque {
            site: site.clone(),
            torque_ncm: Torque::from_ncm(ncm),
        };
        let entry = torque(35);
        let kinds = vec![
            EventKind::Recorded(Recorded { entry, purpose }),
            EventKind::RecordSigned(RecordSigned {
                fingerprint: case.fingerprint(),
                open: 17,
                purpose,
            }),
            EventKind::RecordCorrected(RecordCorrected {
                event: traywright_core::sign::EventId {
                    writer: WriterId::new("desk").unwrap(),
                    seq: 1,
                },
                field: EntryKind::Torque,
                to: Some(torque(42)),
                reason: "read wrongly".into(),
                purpose,
            }),
        ];
        let (text, count, bytes) = printed(&case, kinds, paper);
        std::fs::write(folder.join(format!("record-two-molars-{size}.pdf")), bytes).unwrap();
        assert_eq!(count, 1, "{size}");
        let fingerprint = case.fingerprint().to_string();
        for words in [
            "Record, lower jaw",
            "patient label",
            "FOR PRACTICE ONLY",
            "DEMONSTRATION",
            "Signed by MK",
            "One thing was added since",
            "42 N·cm (MK, 2030-03-17",
            "ADDED SINCE THE RECORD WAS SIGNED",
            "Before: 35 N·cm (MK, 2030-03-17",
            "read wrongly",
            "not recorded",
            "replaces neither imaging",
            "A planning aid.",
            "desk 3: ",
            fingerprint.as_str(),
        ] {
            assert!(text.contains(words), "{size}: no “{words}” in {text}");
        }
    }
}
