//! Event files on the disk, beside a case of a patient.

use crate::desk::patient;
use std::num::NonZeroU32;
use traywright_core::measure::Length;
use traywright_core::plan::{case_jaw, work_out};
use traywright_core::sign::{
    Approval, CaseJaw, DrillKey, EventKind, ItemKey, Log, Purpose, Reading, Stage, Turn, Who,
    WriterId,
};

/// Name of the event file that a row damages.
pub(super) const FILE: &str = "desk.events.jsonl";

/// One damaged event file and what its report has to say.
pub(super) struct EventRow {
    pub(super) name: &'static str,
    pub(super) change: fn(&str) -> Vec<u8>,
    pub(super) wants: &'static [&'static str],
    /// The desk's next writing into its file.
    pub(super) then: Then,
}

/// The outcome of an approval by the same desk.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Then {
    /// It is recorded.
    Goes,
    /// It is refused with the same report, and the file stays as it is.
    Stops,
    /// The same, and it is not put aside either: it belongs to another case.
    Moves,
}

pub(super) fn writer(name: &str) -> WriterId {
    WriterId::new(name).unwrap()
}

fn who(name: &str) -> Who {
    Who::new(name).unwrap()
}

fn at(minute: i64) -> jiff::Timestamp {
    jiff::Timestamp::from_second(1_700_000_000 + 60 * minute).unwrap()
}

fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

/// A desk's records of a morning: the gauge's check, two readings, an approval, a landing and a
/// note. Seven lines with the header.
pub(super) fn morning(of: &CaseJaw, desk: &str) -> Log {
    let reading = |turn| {
        EventKind::Reading(Reading {
            item: ItemKey {
                drill: "pilot-213".to_owned(),
                copy: NonZeroU32::MIN,
                stop: Some("stop-213".to_owned()),
                setting_mm: mm("19.2"),
                kit_code: None,
            },
            gauge: "bench-gauge".to_owned(),
            value_mm: mm("19.2"),
            stage: Stage::Bench,
            turn,
            purpose: Purpose::Patient,
            entered_by: None,
        })
    };
    let kinds = [
        EventKind::GaugeChecked {
            gauge: "bench-gauge".to_owned(),
            piece_mm: mm("21.7"),
            value_mm: mm("21.7"),
            purpose: Some(Purpose::Patient),
            asked_back_mm: Vec::new(),
        },
        reading(Turn::First),
        reading(Turn::Second),
        EventKind::Approval(Approval {
            fingerprint: work_out(&patient()).fingerprint,
            covers: traywright_core::case::PLAN_CODE_COVERS,
            revision: 1,
            accepted: std::collections::BTreeSet::new(),
            purpose: Purpose::Patient,
        }),
        EventKind::Landed {
            drill: DrillKey {
                drill: "pilot-213".to_owned(),
                copy: NonZeroU32::MIN,
            },
            times: NonZeroU32::MIN,
            purpose: None,
        },
        EventKind::Note {
            text: "all done, Жанна".to_owned(),
        },
    ];
    let mut log = Log::new(of, writer(desk));
    for (kind, minute) in kinds.into_iter().zip(0..) {
        let by = ["Ines Roth", "Жанна К"][usize::from(minute % 2 == 1)];
        log.append(at(minute), who(by), kind).unwrap();
    }
    log
}

pub(super) fn of_patient() -> CaseJaw {
    case_jaw(&patient())
}
