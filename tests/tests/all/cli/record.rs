//! `record`: what was placed and what became of it, as JSON of the shipped form and on paper.

use crate::demo;
use crate::desk::{Beside, Said, patient, said};
use proptest::prelude::*;
use serde_json::Value;
use std::fs;
use traywright::Outcome;
use traywright_core::measure::{Length, Torque};
use traywright_core::plan::case_jaw;
use traywright_core::sign::{
    Departure, Entry, EventId, EventKind, Given, HealingPart, Inserted, InsertionWay, Led,
    Material, PlacedImplant, Purpose, RecordCorrected, RecordSigned, Recorded, SiteKey,
    StabilityMethod, StepKey, Who, WriterId,
};
use traywright_core::store::append_event;

fn schema() -> jsonschema::Validator {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../assets/schema/record.schema.json"
    );
    let schema: Value = serde_json::from_slice(&fs::read(path).unwrap()).unwrap();
    jsonschema::draft202012::options()
        .should_validate_formats(true)
        .build(&schema)
        .unwrap()
}

/// What the command prints, which fits its schema.
fn printed(said: &Said) -> Value {
    assert_eq!(said.outcome, Outcome::Done, "{}", said.err);
    let record: Value = serde_json::from_str(&said.out).unwrap();
    let faults: Vec<String> = schema()
        .iter_errors(&record)
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect();
    assert!(faults.is_empty(), "{faults:?}");
    record
}

fn record(beside: &Beside, desk: &str, kind: EventKind) {
    let case = beside.read();
    let writer = WriterId::new(desk).unwrap();
    let who = Who::new("QP").unwrap();
    let at = "2030-03-04T05:06:07Z".parse().unwrap();
    append_event(&beside.case, &case_jaw(&case), &writer, at, who, kind).unwrap();
}

fn site(beside: &Beside) -> SiteKey {
    let case = beside.read();
    SiteKey {
        site: case.sites[0].id.to_string(),
        tooth: case.sites[0].tooth,
    }
}

fn entered(entry: Entry) -> EventKind {
    EventKind::Recorded(Recorded {
        entry,
        purpose: Purpose::Patient,
    })
}

/// The field of this kind of the first implant.
fn field<'r>(record: &'r Value, of: &str) -> &'r Value {
    let fields = record["implants"][0]["fields"].as_array().unwrap();
    fields.iter().find(|field| field["of"] == of).unwrap()
}

#[test]
fn every_case_is_printed_in_the_form_of_the_shipped_schema() {
    for name in demo::CASES {
        let record = printed(&said(&[&"record", &demo::path(name)]));
        assert_eq!(record["purpose"], "practice", "{name}");
        for implant in record["implants"].as_array().unwrap() {
            for field in implant["fields"].as_array().unwrap() {
                assert_eq!(field["state"], "not_recorded", "{name}");
            }
        }
        assert!(record["count_out"].is_null(), "{name}");
        assert!(record["open"].as_u64().unwrap() > 8, "{name}");
    }
}

#[test]
fn what_is_recorded_corrected_and_signed_is_printed() {
    let beside = Beside::new();
    let site = site(&beside);
    let torque = |ncm| Entry::Torque {
        site: site.clone(),
        torque_ncm: Torque::from_ncm(ncm),
    };
    record(&beside, "desk", entered(torque(35)));
    record(
        &beside,
        "desk",
        EventKind::RecordSigned(RecordSigned {
            fingerprint: beside.read().fingerprint(),
            open: 3,
            purpose: Purpose::Patient,
        }),
    );
    let first = printed(&beside.says("record"));
    assert_eq!(field(&first, "torque")["state"], "recorded");
    assert_eq!(first["signatures"][0]["since"], 0);
    assert_eq!(first["since_signed"].as_array().unwrap().len(), 0);
    record(
        &beside,
        "other",
        EventKind::RecordCorrected(RecordCorrected {
            event: EventId {
                writer: WriterId::new("desk").unwrap(),
                seq: 1,
            },
            field: traywright_core::sign::EntryKind::Torque,
            to: Some(torque(45)),
            reason: "read wrongly".into(),
            purpose: Purpose::Patient,
        }),
    );
    let then = printed(&beside.says("record"));
    let line = &field(&then, "torque")["lines"][0];
    assert_eq!(line["stands"][0]["entry"]["torque_ncm"], 45);
    assert_eq!(line["stands"][0]["since_signed"], true);
    assert_eq!(line["stands"][0]["reason"], "read wrongly");
    assert_eq!(line["before"][0]["entry"]["torque_ncm"], 35);
    assert_eq!(line["before"][0]["since_signed"], false);
    assert_eq!(then["since_signed"].as_array().unwrap().len(), 1);
    // The older value is in the history as well, with who and why.
    let history = beside.says("history").out;
    assert!(history.contains("35 N·cm"), "{history}");
    assert!(history.contains("Reason: read wrongly"), "{history}");
}

/// With a break nothing of it counts, and that is said: beside the answer, and in it.
#[test]
fn of_a_broken_record_nothing_is_printed_as_recorded() {
    let beside = Beside::new();
    let closure = Entry::Closure {
        site: site(&beside),
        how: "without tension".into(),
    };
    record(&beside, "desk", entered(closure));
    record(&beside, "desk", EventKind::Note { text: "n".into() });
    let file = beside.file("desk.events.jsonl");
    let damaged = fs::read_to_string(&file)
        .unwrap()
        .replacen("tension", "tensiom", 1);
    fs::write(&file, damaged).unwrap();
    let said = beside.says("record");
    let record = printed(&said);
    assert_eq!(record["broken"], true);
    assert_eq!(field(&record, "closure")["state"], "not_recorded");
    assert!(said.err.contains("desk.events.jsonl"), "{}", said.err);
}

#[test]
fn a_record_that_was_tampered_with_does_not_fit_the_schema() {
    let beside = Beside::new();
    let torque = Entry::Torque {
        site: site(&beside),
        torque_ncm: Torque::from_ncm(35),
    };
    record(&beside, "desk", entered(torque));
    let good = printed(&beside.says("record"));
    let schema = schema();
    let stands = "/implants/0/fields/1/lines/0/stands/0";
    for (place, bad) in [
        ("/purpose".to_owned(), Value::from("fun")),
        ("/open".to_owned(), Value::from(-1)),
        ("/implants/0/tooth".to_owned(), Value::from("99")),
        ("/implants/0/fields/1/state".to_owned(), Value::from("fine")),
        (format!("{stands}/entry/torque_ncm"), Value::from("35")),
        (format!("{stands}/entry/of"), Value::from("colour")),
        (format!("{stands}/at"), Value::from("yesterday")),
    ] {
        let mut record = good.clone();
        *record.pointer_mut(&place).unwrap() = bad;
        assert!(!schema.is_valid(&record), "{place}");
    }
    let mut more = good;
    more["implants"][0]["colour"] = Value::from("red");
    assert!(!schema.is_valid(&more));
}

#[test]
fn the_record_is_written_on_paper_beside_the_answer() {
    let beside = Beside::new();
    let to = beside.folder.path().join("record.pdf");
    let with = |to: &std::path::Path| said(&[&"record", &beside.case, &"--pdf", &to]);
    printed(&with(&to));
    assert!(fs::read(&to).unwrap().starts_with(b"%PDF"));
    // A case is never taken for the place of a PDF.
    let before = fs::read(&beside.case).unwrap();
    let refused = with(&beside.case);
    assert_eq!(refused.outcome, Outcome::Failed);
    assert!(refused.out.is_empty() && !refused.err.is_empty());
    assert_eq!(fs::read(&beside.case).unwrap(), before);
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[A-Za-z0-9 .-]{0,12}[A-Za-z0-9]",
        Just("Ж ∅ 李 done".to_owned()),
    ]
}

fn any_entry(site: SiteKey) -> impl Strategy<Value = Entry> {
    let day = prop::option::of(
        (2020_i16..2040, 1_i8..13).prop_map(|(year, month)| jiff::civil::date(year, month, 28)),
    )
    .boxed();
    let lot = prop::option::of(any_text()).boxed();
    let of = move || site.clone();
    let (a, b, c, d, e, f, g, h) = (of(), of(), of(), of(), of(), of(), of(), of());
    prop_oneof![
        (any_text(), lot.clone(), day.clone(), any::<bool>()).prop_map(
            move |(code, lot, expiry, scanned)| {
                Entry::Implant(PlacedImplant {
                    site: a.clone(),
                    code,
                    lot,
                    expiry,
                    given: if scanned {
                        Given::Scanned
                    } else {
                        Given::Typed
                    },
                    implant: scanned.then(|| "reed".to_owned()),
                    planned: None,
                    because: scanned.then(|| "because".to_owned()),
                    compared: None,
                })
            }
        ),
        (1..200).prop_map(move |ncm| Entry::Torque {
            site: b.clone(),
            torque_ncm: Torque::from_ncm(ncm),
        }),
        (-9000_i64..9000).prop_map(move |um| Entry::Depth {
            site: c.clone(),
            coronal_of_plan_mm: Length::from_um(um),
        }),
        (1..50).prop_map(move |value| Entry::Stability {
            site: d.clone(),
            method: StabilityMethod::Damping,
            value,
        }),
        prop::option::of((any_text(), lot.clone(), day)).prop_map(move |material| Entry::Graft {
            site: e.clone(),
            material: material.map(|(what, lot, expiry)| Material { what, lot, expiry }),
        }),
        any_text().prop_map(move |how| Entry::Closure {
            site: f.clone(),
            how,
        }),
        prop::option::of((any_text(), lot)).prop_map(move |part| Entry::Healing {
            site: g.clone(),
            part: part.map(|(what, lot)| HealingPart {
                what,
                lot,
                torque_ncm: None,
            }),
        }),
        prop::option::of((any_text(), any_text())).prop_map(move |departure| Entry::Deviation {
            site: h.clone(),
            departure: departure.map(|(what, reason)| Departure { what, reason }),
        }),
        (any_text(), any_text()).prop_map(|(what, reason)| Entry::Discarded { what, reason }),
    ]
}

fn any_site() -> SiteKey {
    let case = patient();
    SiteKey {
        site: case.sites[0].id.to_string(),
        tooth: case.sites[0].tooth,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Whatever is entered and corrected, at whichever desk, what is printed has the shipped form, and every value that was
    /// entered is in it.
    #[test]
    fn whatever_is_recorded_fits_the_schema(
        entries in prop::collection::vec(
            (any_entry(any_site()), any::<bool>(), 0_u64..6, any::<bool>()), 1..7),
        torque in prop::option::of(1..200),
    ) {
        let beside = Beside::new();
        let inserted = EventKind::Inserted(Inserted {
            step: StepKey::Insert {
                site: any_site(),
                implant: "x".into(),
                led: Led::Guide,
            },
            way: InsertionWay::Guided,
            torque_ncm: torque.map(Torque::from_ncm),
            coronal_of_plan_mm: None,
            due: None,
            despite: None,
            purpose: Purpose::Patient,
        });
        record(&beside, "desk", inserted);
        for (entry, at_desk, seq, corrects) in &entries {
            let desk = if *at_desk { "desk" } else { "other" };
            let kind = if *corrects && *seq > 0 {
                EventKind::RecordCorrected(RecordCorrected {
                    event: EventId { writer: WriterId::new("desk").unwrap(), seq: *seq },
                    field: entry.kind(),
                    to: Some(entry.clone()),
                    reason: "said wrongly".into(),
                    purpose: Purpose::Patient,
                })
            } else {
                entered(entry.clone())
            };
            record(&beside, desk, kind);
        }
        let said = beside.says("record");
        let record = printed(&said);
        for (entry, ..) in &entries {
            let entry = serde_json::to_value(entry).unwrap();
            prop_assert!(holds(&record, &entry), "{entry} is not in {record}");
        }
    }
}

/// True if a value is anywhere within another.
fn holds(within: &Value, wanted: &Value) -> bool {
    within == wanted
        || match within {
            Value::Array(all) => all.iter().any(|one| holds(one, wanted)),
            Value::Object(all) => all.values().any(|one| holds(one, wanted)),
            _ => false,
        }
}
