//! Invented events for the tests of this room.

use super::*;
use crate::dentition::Jaw;
use crate::kit::SlotKind;
use crate::measure::Torque;
pub(super) use crate::samples::mm;
use std::collections::BTreeSet;
use std::num::NonZeroU32;

pub(super) fn who(name: &str) -> Who {
    Who::new(name).unwrap()
}

pub(super) fn writer(name: &str) -> WriterId {
    WriterId::new(name).unwrap()
}

pub(super) fn copy(n: u32) -> NonZeroU32 {
    NonZeroU32::new(n).unwrap()
}

/// So many seconds after an invented morning.
pub(super) fn at(seconds: i64) -> jiff::Timestamp {
    jiff::Timestamp::from_second(1_900_000_000 + seconds).unwrap()
}

pub(super) fn case_jaw() -> CaseJaw {
    CaseJaw {
        case: "INV-7".to_owned(),
        jaw: Jaw::Lower,
    }
}

pub(super) fn drill(name: &str, n: u32) -> DrillKey {
    DrillKey {
        drill: name.to_owned(),
        copy: copy(n),
    }
}

pub(super) fn item(name: &str, n: u32, stop: Option<&str>, setting: &str) -> ItemKey {
    ItemKey {
        drill: name.to_owned(),
        copy: copy(n),
        stop: stop.map(str::to_owned),
        setting_mm: mm(setting),
        kit_code: None,
    }
}

/// A first bench reading for a patient on gauge `g`.
pub(super) fn reading(item: ItemKey, value: &str) -> Reading {
    Reading {
        item,
        gauge: "g".to_owned(),
        value_mm: mm(value),
        stage: Stage::Bench,
        turn: Turn::First,
        purpose: Purpose::Patient,
        entered_by: None,
    }
}

pub(super) fn checked(piece: &str, value: &str) -> EventKind {
    EventKind::GaugeChecked {
        gauge: "g".to_owned(),
        piece_mm: mm(piece),
        value_mm: mm(value),
        purpose: Some(Purpose::Patient),
        asked_back_mm: Vec::new(),
    }
}

/// What laying and checking the gauge once wrote: no purpose.
pub(super) fn without_purpose(mut kind: EventKind) -> EventKind {
    match &mut kind {
        EventKind::Placed { purpose, .. }
        | EventKind::ThingPlaced { purpose, .. }
        | EventKind::GaugeChecked { purpose, .. } => *purpose = None,
        _ => unreachable!("{kind:?} always says it"),
    }
    kind
}

pub(super) fn approval(plan: &[u8], accepted: &[&str], purpose: Purpose) -> EventKind {
    EventKind::Approval(Approval {
        fingerprint: Fingerprint::of_bytes(plan),
        covers: 1,
        revision: 3,
        accepted: accepted.iter().map(|key| (*key).to_owned()).collect(),
        purpose,
    })
}

/// One event of every kind but those that were added since, [`added_kinds`].
pub(super) fn every_kind() -> Vec<EventKind> {
    let set = item("kestrel", 1, Some("s2"), "24.3");
    vec![
        without_purpose(checked("20", "20")),
        EventKind::Reading(reading(set.clone(), "24.3")),
        EventKind::Placed {
            item: item("plover", 2, None, "18"),
            slot: "B4".to_owned(),
            purpose: None,
        },
        approval(b"plan", &["36/canal"], Purpose::Patient),
        EventKind::ApprovalWithdrawn {
            fingerprint: Fingerprint::of_bytes(b"plan"),
            reason: "new scan, see “note”".to_owned(),
        },
        EventKind::Reset {
            drill: set.drill_key(),
            to: Some(1),
            passed_over: None,
            purpose: None,
        },
        EventKind::Dropped {
            piece: Piece::Drill(drill("kestrel", 1)),
            purpose: None,
        },
        EventKind::Dropped {
            piece: Piece::Gauge("g".to_owned()),
            purpose: None,
        },
        EventKind::Landed {
            drill: drill("kestrel", 1),
            times: copy(3),
            purpose: None,
        },
        EventKind::Note {
            text: "Ж ∅ \u{1f9b7} done".to_owned(),
        },
    ]
}

/// One event of every kind that is not in [`every_kind`].
pub(super) fn added_kinds() -> Vec<EventKind> {
    let stage = Stage::Bench;
    vec![
        EventKind::SetAside {
            of: writer("room"),
            file: "room.events.jsonl.damaged-1".to_owned(),
            content: EventHash::of_file(b"x"),
        },
        EventKind::LineLost {
            file: "desk.events.jsonl.torn-1".to_owned(),
            content: EventHash::of_file(b"x"),
            lost: LostKind::Approval,
            by: who("AB"),
        },
        EventKind::GaugeAskedBack {
            gauge: "g".to_owned(),
            piece_mm: mm("20"),
            value_mm: mm("20.2"),
            purpose: Purpose::Patient,
        },
        told_to_take(ToldWork::SetAnew),
        thing_placed(SlotKind::Pin, "wren", 2, Some("P 1")),
        handled(item("kestrel", 1, Some("s2"), "24.3"), HandStep::Set),
        EventKind::Opened {
            thing: ThingKey {
                of: SlotKind::Drill,
                entry: "kestrel".to_owned(),
                copy: copy(1),
            },
            purpose: Purpose::Patient,
        },
        EventKind::Beside {
            what: "guide".to_owned(),
            stage,
            purpose: Purpose::Patient,
        },
        begun(Pass::Blind),
        ended(PassEnd::Unseen),
        taken_back(9, Piece::Other("tray".to_owned())),
    ]
    .into_iter()
    .chain(of_surgery())
    .chain(of_record())
    .chain([named(Some("A3"))])
    .collect()
}

/// The first kestrel, named as a piece of the stock for the sitting to come.
pub(super) fn named(mark: Option<&str>) -> EventKind {
    EventKind::PieceNamed(PieceNamed {
        drill: drill("kestrel", 1),
        mark: mark.map(str::to_owned),
        sitting: None,
        after: None,
        purpose: Purpose::Patient,
    })
}

/// A site of surgery.
pub(super) fn site_36() -> SiteKey {
    SiteKey {
        site: "a".to_owned(),
        tooth: "36".parse().unwrap(),
    }
}

/// A step of surgery: the first kestrel through its sleeve.
pub(super) fn drilled(set: &str) -> StepKey {
    StepKey::Drill {
        site: site_36(),
        id: "s1".to_owned(),
        with: DrillUse {
            drill: "kestrel".to_owned(),
            stop: Some("s2".to_owned()),
            set_mm: Some(mm(set)),
        },
        sleeve: Some("k".to_owned()),
        led: Led::Guide,
    }
}

/// One event of every kind of surgery.
pub(super) fn of_surgery() -> Vec<EventKind> {
    let purpose = Purpose::Patient;
    let sound = StepKey::Sound {
        site: site_36(),
        planned_mm: Some(mm("9.3")),
        guide: Some("G7".to_owned()),
    };
    let insert = StepKey::Insert {
        site: site_36(),
        implant: "wren".to_owned(),
        led: Led::Guide,
    };
    vec![
        EventKind::SurgeryBegun(SurgeryBegun {
            fingerprint: Fingerprint::of_bytes(b"plan"),
            approval: Approved::Approved,
            lies_wrong: Vec::new(),
            despite: None,
            wrong_as: Vec::new(),
            anew: false,
            purpose,
        }),
        EventKind::Counted(Counted {
            step: StepKey::CountIn {
                list: Some(Fingerprint::of_bytes(b"list")),
            },
            second: who("CD"),
            lines: vec![CountLine {
                what: "sleeves".to_owned(),
                kind: Some(CountKind::Sleeves),
                wanted: 3,
                found: 3,
            }],
            due: None,
            despite: None,
            purpose,
        }),
        EventKind::Sounded(Sounded {
            step: sound,
            found_mm: mm("9.5"),
            due: None,
            purpose,
        }),
        EventKind::StepDone(StepDone {
            step: drilled("24.3"),
            piece: Some(drill("kestrel", 1)),
            due: Some(Box::new(StepKey::Seat {
                guide: Some("G7".to_owned()),
            })),
            despite: Some("the surgeon says so".to_owned()),
            by_hand: None,
            purpose,
        }),
        EventKind::StepDone(StepDone {
            step: drilled("24.3"),
            piece: Some(drill("kestrel", 1)),
            due: None,
            despite: Some("the guide was left".to_owned()),
            by_hand: Some(ByHand {
                aimed_mm: Some(mm("9.5")),
            }),
            purpose,
        }),
        EventKind::StepTakenBack(StepTakenBack {
            event: EventId {
                writer: writer("desk"),
                seq: 4,
            },
            step: drilled("24.3"),
            reason: Some("counted twice".to_owned()),
            purpose,
        }),
        EventKind::StepSkipped(StepSkipped {
            step: StepKey::Reseat {},
            reason: "no plugs".to_owned(),
            purpose,
        }),
        EventKind::Inserted(Inserted {
            step: insert,
            way: InsertionWay::Guided,
            torque_ncm: Some(Torque::from_ncm(35)),
            coronal_of_plan_mm: Some(mm("0.5")),
            due: None,
            despite: None,
            purpose,
        }),
    ]
}

/// One event of every kind of the record, and of every kind of entry.
pub(super) fn of_record() -> Vec<EventKind> {
    let purpose = Purpose::Patient;
    let site = site_36;
    let day = |text: &str| Some(text.parse().unwrap());
    let lot = || Some("L 7".to_owned());
    let entries = [
        Entry::Implant(PlacedImplant {
            site: site(),
            code: "04012345678901".to_owned(),
            lot: lot(),
            expiry: day("2031-05-31"),
            given: Given::Scanned,
            implant: Some("wren".to_owned()),
            planned: Some("heron".to_owned()),
            because: Some("the wider one did not hold".to_owned()),
            compared: None,
        }),
        Entry::Torque {
            site: site(),
            torque_ncm: Torque::from_ncm(35),
        },
        Entry::Depth {
            site: site(),
            coronal_of_plan_mm: mm("-0.5"),
        },
        Entry::Stability {
            site: site(),
            method: StabilityMethod::Resonance,
            value: 71,
        },
        Entry::Graft {
            site: site(),
            material: Some(Material {
                what: "granules".to_owned(),
                lot: lot(),
                expiry: day("2030-01-31"),
            }),
        },
        Entry::Closure {
            site: site(),
            how: "closed without tension".to_owned(),
        },
        Entry::Healing {
            site: site(),
            part: Some(HealingPart {
                what: "healing part 4.5".to_owned(),
                lot: lot(),
                torque_ncm: Some(Torque::from_ncm(15)),
            }),
        },
        Entry::Deviation {
            site: site(),
            departure: Some(Departure {
                what: "narrower implant".to_owned(),
                reason: "thin wall".to_owned(),
            }),
        },
        Entry::Discarded {
            what: "kestrel no. 1".to_owned(),
            reason: "blunt".to_owned(),
        },
    ];
    let corrected = EventKind::RecordCorrected(RecordCorrected {
        event: EventId {
            writer: writer("desk"),
            seq: 4,
        },
        field: EntryKind::Torque,
        to: Some(entries[1].clone()),
        reason: "read wrongly".to_owned(),
        purpose,
    });
    let signed = EventKind::RecordSigned(RecordSigned {
        fingerprint: Fingerprint::of_bytes(b"plan"),
        open: 2,
        purpose,
    });
    let recorded = |entry| EventKind::Recorded(Recorded { entry, purpose });
    let recorded = entries.into_iter().map(recorded);
    recorded.chain([corrected, signed]).collect()
}

/// A STOP that told somebody to take the first kestrel.
pub(super) fn told_to_take(work: ToldWork) -> EventKind {
    EventKind::Told {
        thing: ThingKey {
            of: SlotKind::Drill,
            entry: "kestrel".to_owned(),
            copy: copy(1),
        },
        work,
        purpose: Purpose::Patient,
    }
}

/// A step of the hand on the stop of a drill.
pub(super) fn handled(item: ItemKey, step: HandStep) -> EventKind {
    EventKind::Handled {
        item,
        step,
        purpose: Purpose::Patient,
    }
}

/// A fall reported by the line of this number of the desk's file, taken back.
pub(super) fn taken_back(seq: u64, piece: Piece) -> EventKind {
    let fall = EventId {
        writer: writer("desk"),
        seq,
    };
    EventKind::FallTakenBack {
        fall,
        piece,
        purpose: Purpose::Patient,
    }
}

/// A pass begun on the bench.
pub(super) fn begun(pass: Pass) -> EventKind {
    let stage = Stage::Bench;
    EventKind::PassBegun { stage, pass }
}

/// A pass without figures ended on the bench.
pub(super) fn ended(end: PassEnd) -> EventKind {
    let stage = Stage::Bench;
    EventKind::PassEnded { stage, end }
}

/// A thing of this kind and name put into a slot, or taken off the tray.
pub(super) fn thing_placed(of: SlotKind, entry: &str, n: u32, slot: Option<&str>) -> EventKind {
    EventKind::ThingPlaced {
        thing: ThingKey {
            of,
            entry: entry.to_owned(),
            copy: copy(n),
        },
        slot: slot.map(str::to_owned),
        purpose: Some(Purpose::Patient),
    }
}

/// A log by this desk with events a minute apart, acted by two people in turn.
pub(super) fn log_of(desk: &str, kinds: impl IntoIterator<Item = EventKind>) -> Log {
    let mut log = Log::new(&case_jaw(), writer(desk));
    for (kind, i) in kinds.into_iter().zip(0..) {
        let who = who(["A.B.", "Жанна К"][usize::from(i % 2 == 1)]);
        log.append(at(60 * i), who, kind).unwrap();
    }
    log
}

/// Problems by line and id, as the tables write them: `3 edited`.
pub(super) fn told(reading: &LogReading) -> Vec<String> {
    let one = |p: &Problem| {
        let id = p.message().id.trim_start_matches("sign-file-");
        format!("{} {id}", p.line)
    };
    reading.problems.iter().map(one).collect()
}

/// Sets of accepted keys.
pub(super) fn keys(keys: &[&str]) -> BTreeSet<String> {
    keys.iter().map(|key| (*key).to_owned()).collect()
}
