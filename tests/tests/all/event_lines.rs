//! The shipped schema of an event file's lines: what is written fits it, what was tampered with in
//! its form does not.

use serde_json::{Value, json};
use std::num::NonZeroU32;
use traywright_core::dentition::Jaw;
use traywright_core::kit::SlotKind;
use traywright_core::measure::{Length, Torque};
use traywright_core::sign::{
    Approval, Approved, ByHand, CaseJaw, CountLine, Counted, Departure, DrillKey, DrillUse, Entry,
    EntryKind, EventHash, EventId, EventKind, Fingerprint, Given, HandStep, HealingPart, Inserted,
    InsertionWay, ItemKey, Led, Log, LostKind, Material, Pass, PassEnd, Piece, PieceNamed,
    PlacedImplant, Purpose, Reading, RecordCorrected, RecordSigned, Recorded, SiteKey, Sounded,
    StabilityMethod, Stage, StepDone, StepKey, StepSkipped, StepTakenBack, SurgeryBegun, ThingKey,
    ToldWork, Turn, Who, WriterId,
};

fn schema() -> jsonschema::Validator {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../assets/schema/events.schema.json"
    );
    let schema: Value = serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap();
    jsonschema::draft202012::options()
        .should_validate_formats(true)
        .build(&schema)
        .unwrap()
}

fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

fn site() -> SiteKey {
    SiteKey {
        site: "a".into(),
        tooth: "36".parse().unwrap(),
    }
}

fn recorded(entry: Entry) -> EventKind {
    EventKind::Recorded(Recorded {
        entry,
        purpose: Purpose::Patient,
    })
}

/// A file with an event of every kind, as text.
#[expect(clippy::too_many_lines, reason = "a list")]
fn written() -> Vec<Value> {
    let drill = DrillKey {
        drill: "kestrel".into(),
        copy: NonZeroU32::MIN,
    };
    let item = |stop: Option<&str>| ItemKey {
        drill: "kestrel".into(),
        copy: NonZeroU32::MIN,
        stop: stop.map(str::to_owned),
        setting_mm: mm("24.3"),
        kit_code: Some(Fingerprint::of_bytes(b"kit")),
    };
    let fingerprint = Fingerprint::of_bytes(b"plan");
    let kinds = [
        EventKind::Approval(Approval {
            fingerprint,
            covers: 2,
            revision: 3,
            accepted: ["36/canal short 1/2".to_owned()].into(),
            purpose: Purpose::Patient,
        }),
        EventKind::ApprovalWithdrawn {
            fingerprint,
            reason: "new scan".into(),
        },
        EventKind::Reading(Reading {
            item: item(Some("s2")),
            gauge: "g".into(),
            value_mm: mm("24.3"),
            stage: Stage::SterileField,
            turn: Turn::Second,
            purpose: Purpose::Practice,
            entered_by: Some(Who::new("JH").unwrap()),
        }),
        EventKind::Handled {
            item: item(Some("s2")),
            step: HandStep::Locked,
            purpose: Purpose::Patient,
        },
        EventKind::Reset {
            drill: drill.clone(),
            to: Some(1),
            passed_over: Some(item(Some("s2"))),
            purpose: Some(Purpose::Patient),
        },
        EventKind::Dropped {
            piece: Piece::Drill(drill.clone()),
            purpose: Some(Purpose::Patient),
        },
        EventKind::Dropped {
            piece: Piece::Gauge("g".into()),
            purpose: Some(Purpose::Patient),
        },
        EventKind::Dropped {
            piece: Piece::Other("tray".into()),
            purpose: Some(Purpose::Patient),
        },
        EventKind::Dropped {
            piece: Piece::Thing(traywright_core::sign::ThingKind {
                copy: None,
                of: traywright_core::kit::SlotKind::Pin,
                entry: "pin".into(),
            }),
            purpose: Some(Purpose::Patient),
        },
        EventKind::Dropped {
            piece: Piece::Guide(traywright_core::sign::GuideKey {
                code: Some("G7".into()),
            }),
            purpose: Some(Purpose::Patient),
        },
        EventKind::FallTakenBack {
            fall: traywright_core::sign::EventId {
                writer: WriterId::new("desk").unwrap(),
                seq: 8,
            },
            piece: Piece::Other("tray".into()),
            purpose: Purpose::Patient,
        },
        EventKind::Landed {
            drill,
            times: NonZeroU32::MIN,
            purpose: Some(Purpose::Patient),
        },
        EventKind::Placed {
            item: item(None),
            slot: "B4".into(),
            purpose: Some(Purpose::Patient),
        },
        EventKind::ThingPlaced {
            thing: traywright_core::sign::ThingKey {
                of: traywright_core::kit::SlotKind::Sleeve,
                entry: "s".into(),
                copy: NonZeroU32::MIN,
            },
            slot: None,
            purpose: None,
        },
        EventKind::Opened {
            thing: traywright_core::sign::ThingKey {
                of: traywright_core::kit::SlotKind::Drill,
                entry: "kestrel".into(),
                copy: NonZeroU32::MIN,
            },
            purpose: Purpose::Patient,
        },
        EventKind::Told {
            thing: ThingKey {
                of: SlotKind::Drill,
                entry: "kestrel".into(),
                copy: 1.try_into().unwrap(),
            },
            work: ToldWork::SetAnew,
            purpose: Purpose::Patient,
        },
        EventKind::Beside {
            what: "Guide".into(),
            stage: Stage::Bench,
            purpose: Purpose::Practice,
        },
        EventKind::PassBegun {
            stage: Stage::Bench,
            pass: Pass::Blind,
        },
        EventKind::PassEnded {
            stage: Stage::Bench,
            end: PassEnd::Left,
        },
        EventKind::GaugeChecked {
            gauge: "g".into(),
            piece_mm: mm("20"),
            value_mm: mm("20.1"),
            purpose: Some(Purpose::Practice),
            asked_back_mm: vec![mm("21")],
        },
        EventKind::GaugeAskedBack {
            gauge: "g".into(),
            piece_mm: mm("20"),
            value_mm: mm("21"),
            purpose: Purpose::Patient,
        },
        EventKind::SurgeryBegun(SurgeryBegun {
            fingerprint: Fingerprint::of_bytes(b"plan"),
            approval: Approved::Open,
            lies_wrong: vec![ThingKey {
                of: SlotKind::Drill,
                entry: "kestrel".into(),
                copy: NonZeroU32::MIN,
            }],
            despite: Some("told".into()),
            wrong_as: Vec::new(),
            anew: false,
            purpose: Purpose::Patient,
        }),
        EventKind::Counted(Counted {
            step: StepKey::CountIn {
                list: Some(Fingerprint::of_bytes(b"list")),
            },
            second: Who::new("CD").unwrap(),
            lines: vec![CountLine {
                kind: None,
                what: "sleeves".into(),
                wanted: 3,
                found: 2,
            }],
            due: None,
            despite: Some("found beside the tray".into()),
            purpose: Purpose::Patient,
        }),
        EventKind::Sounded(Sounded {
            step: StepKey::Sound {
                site: site(),
                planned_mm: Some(mm("9.3")),
                guide: None,
            },
            found_mm: mm("9.5"),
            due: Some(Box::new(StepKey::Punch {
                sites: vec![site()],
            })),
            purpose: Purpose::Practice,
        }),
        EventKind::StepDone(StepDone {
            step: StepKey::Drill {
                site: site(),
                id: "s1".into(),
                with: DrillUse {
                    drill: "kestrel".into(),
                    stop: Some("s2".into()),
                    set_mm: Some(mm("24.3")),
                },
                sleeve: Some("k".into()),
                led: Led::Guide,
            },
            piece: Some(DrillKey {
                drill: "kestrel".into(),
                copy: NonZeroU32::MIN,
            }),
            due: Some(Box::new(StepKey::Look {
                site: site(),
                id: "s0".into(),
                what: "check radiograph".into(),
            })),
            despite: Some("told".into()),
            by_hand: Some(ByHand {
                aimed_mm: Some(mm("9.5")),
            }),
            purpose: Purpose::Patient,
        }),
        EventKind::StepSkipped(StepSkipped {
            step: StepKey::Pin {
                pin: "left".into(),
                with: DrillUse {
                    drill: "pin drill".into(),
                    stop: None,
                    set_mm: None,
                },
            },
            reason: "no room".into(),
            purpose: Purpose::Patient,
        }),
        EventKind::StepTakenBack(StepTakenBack {
            event: traywright_core::sign::EventId {
                writer: WriterId::new("desk").unwrap(),
                seq: 8,
            },
            step: StepKey::SetAnew {
                with: DrillUse {
                    drill: "kestrel".into(),
                    stop: None,
                    set_mm: Some(mm("21")),
                },
                to: 1,
            },
            reason: Some("it was not off".into()),
            purpose: Purpose::Patient,
        }),
        EventKind::Inserted(Inserted {
            step: StepKey::Finish {
                site: site(),
                implant: "wren".into(),
            },
            way: InsertionWay::Ended,
            torque_ncm: Some(Torque::from_ncm(35)),
            coronal_of_plan_mm: Some(mm("-0.5")),
            due: Some(Box::new(StepKey::Insert {
                site: site(),
                implant: "wren".into(),
                led: Led::Freehand,
            })),
            despite: Some("told".into()),
            purpose: Purpose::Patient,
        }),
        recorded(Entry::Implant(PlacedImplant {
            site: site(),
            code: "04012345678901".into(),
            lot: Some("L 7".into()),
            expiry: Some("2031-05-31".parse().unwrap()),
            given: Given::Scanned,
            implant: Some("wren".into()),
            planned: Some("heron".into()),
            because: Some("it did not hold".into()),
            compared: None,
        })),
        recorded(Entry::Torque {
            site: site(),
            torque_ncm: Torque::from_ncm(35),
        }),
        recorded(Entry::Depth {
            site: site(),
            coronal_of_plan_mm: mm("-0.5"),
        }),
        recorded(Entry::Stability {
            site: site(),
            method: StabilityMethod::Damping,
            value: -3,
        }),
        recorded(Entry::Graft {
            site: site(),
            material: Some(Material {
                what: "granules".into(),
                lot: Some("G 1".into()),
                expiry: Some("2030-01-31".parse().unwrap()),
            }),
        }),
        recorded(Entry::Closure {
            site: site(),
            how: "without tension".into(),
        }),
        recorded(Entry::Healing {
            site: site(),
            part: Some(HealingPart {
                what: "cover".into(),
                lot: Some("H 1".into()),
                torque_ncm: Some(Torque::from_ncm(10)),
            }),
        }),
        recorded(Entry::Deviation {
            site: site(),
            departure: Some(Departure {
                what: "narrower".into(),
                reason: "thin wall".into(),
            }),
        }),
        recorded(Entry::Discarded {
            what: "kestrel no. 1".into(),
            reason: "blunt".into(),
        }),
        EventKind::RecordCorrected(RecordCorrected {
            event: traywright_core::sign::EventId {
                writer: WriterId::new("desk").unwrap(),
                seq: 8,
            },
            field: EntryKind::Closure,
            to: Some(Entry::Closure {
                site: site(),
                how: "left open".into(),
            }),
            reason: "said wrongly".into(),
            purpose: Purpose::Patient,
        }),
        EventKind::RecordSigned(RecordSigned {
            fingerprint,
            open: 2,
            purpose: Purpose::Patient,
        }),
        EventKind::PieceNamed(PieceNamed {
            drill: DrillKey {
                drill: "kestrel".into(),
                copy: NonZeroU32::MIN,
            },
            mark: Some("A 3".into()),
            sitting: Some(EventId {
                writer: WriterId::new("desk").unwrap(),
                seq: 3,
            }),
            after: Some(EventId {
                writer: WriterId::new("room").unwrap(),
                seq: 2,
            }),
            purpose: Purpose::Patient,
        }),
        EventKind::SetAside {
            of: WriterId::new("room").unwrap(),
            file: "room.events.jsonl.damaged-1".into(),
            content: EventHash::of_file(b"x"),
        },
        EventKind::LineLost {
            file: "desk-2.events.jsonl.torn-1".into(),
            content: EventHash::of_file(b"x"),
            lost: LostKind::Beside,
            by: Who::new("JH").unwrap(),
        },
        EventKind::Note {
            text: "Ж ∅ done".into(),
        },
    ];
    let of = CaseJaw {
        case: "INV-7".into(),
        jaw: Jaw::Lower,
    };
    let mut log = Log::new(&of, WriterId::new("desk-2").unwrap());
    for (kind, minute) in kinds.into_iter().zip(0..) {
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * minute).unwrap();
        log.append(at, Who::new("Жанна К").unwrap(), kind).unwrap();
    }
    let text = log.text();
    let lines = text.lines();
    lines
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

#[test]
fn every_line_that_is_written_fits_the_shipped_schema() {
    let schema = schema();
    let lines = written();
    let mut kinds: Vec<&str> = lines[1..]
        .iter()
        .map(|line| line["what"]["kind"].as_str().unwrap())
        .collect();
    kinds.dedup();
    let mut names = EventKind::NAMES.to_vec();
    kinds.sort_unstable();
    names.sort_unstable();
    assert_eq!(kinds, names);
    for line in &lines {
        let faults: Vec<String> = schema.iter_errors(line).map(|e| e.to_string()).collect();
        assert!(faults.is_empty(), "{line}: {faults:?}");
    }
}

/// The schema is no rubber stamp: every key of every line is asked for, none is let in besides, and
/// values have their form.
#[test]
fn a_line_of_another_form_does_not_fit_it() {
    let schema = schema();
    let may_be_absent = [
        "stop",
        "kit_code",
        "to",
        "passed_over",
        "entered_by",
        "covers",
        "asked_back_mm",
        "sleeve",
        "set_mm",
        "planned_mm",
        "piece",
        "due",
        "despite",
        "lies_wrong",
        "by_hand",
        "aimed_mm",
        "torque_ncm",
        "coronal_of_plan_mm",
        "list",
        "lot",
        "expiry",
        "implant",
        "planned",
        "because",
        "material",
        "part",
        "departure",
        "mark",
        "sitting",
        "after",
    ];
    for line in written() {
        for (place, key) in keys(&line, "") {
            // Of what once said no purpose.
            let kind = line["what"]["kind"].as_str();
            let is_old = matches!(
                kind,
                Some("placed" | "laid" | "gauge_checked" | "reset" | "dropped" | "landed")
            );
            // Of what is taken back a reason is asked for the guide alone.
            let is_said = kind == Some("step_taken_back") && key == "reason";
            let is_old = is_old && key == "purpose";
            // A guide may have no code.
            let is_code = place.ends_with("/piece/guide") && key == "code";
            if may_be_absent.contains(&key.as_str()) || is_old || is_said || is_code {
                continue;
            }
            let mut without = line.clone();
            let object = without.pointer_mut(&place).unwrap();
            object.as_object_mut().unwrap().remove(&key);
            assert!(!schema.is_valid(&without), "without {place}/{key}: {line}");
            let mut more = line.clone();
            more.pointer_mut(&place).unwrap()["colour"] = json!("red");
            assert!(!schema.is_valid(&more), "more at {place}: {line}");
        }
    }
    let lines = written();
    for (n, place, bad) in [
        (0, "/traywright_events", json!(2)),
        (0, "/jaw", json!("left")),
        (0, "/writer", json!("Desk")),
        (0, "/writer", json!("--")),
        (1, "/seq", json!(0)),
        (1, "/at", json!("yesterday")),
        (1, "/who", json!(" . ")),
        (1, "/who", json!("A\nB")),
        (1, "/hash", json!("00")),
        (1, "/what/kind", json!("blessing")),
        (1, "/what/fingerprint", json!("8RWD")),
        (2, "/what/reason", json!("")),
        (3, "/what/value_mm", json!("24.3")),
        (3, "/what/value_mm", json!(0)),
        (3, "/what/item/copy", json!(0)),
        (3, "/what/turn", json!("third")),
        (12, "/what/times", json!(0)),
        (11, "/what/fall/seq", json!(0)),
    ] {
        let mut line = lines[n].clone();
        *line.pointer_mut(place).unwrap() = bad;
        assert!(!schema.is_valid(&line), "{place}: {line}");
    }
}

/// Every key of an object with the place of that object.
fn keys(value: &Value, at: &str) -> Vec<(String, String)> {
    let Value::Object(map) = value else {
        return Vec::new();
    };
    let own = map.keys().map(|key| (at.to_owned(), key.clone()));
    let below = map
        .iter()
        .flat_map(|(key, v)| keys(v, &format!("{at}/{key}")));
    own.chain(below).collect()
}
