//! An invented case as a file, and its tray as it was loaded by two people.

use std::path::{Path, PathBuf};
use traywright_core::case::{Case, ValidCase, read_case};
use traywright_core::measure::Length;
use traywright_core::plan::{case_jaw, plan_view, work_out};
use traywright_core::sign::{Approval, EventKind, Merged, Purpose, Who, WriterId};
use traywright_core::store::append_event;
use traywright_tests::tray::loaded;

fn now() -> jiff::Timestamp {
    "2026-11-25T08:00:00Z".parse().expect("a time")
}

/// An invented case as a file of its own, changed before it is written.
pub(super) fn case_in(folder: &Path, demo: &str, change: impl FnOnce(&mut Case)) -> PathBuf {
    let demos = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo"));
    let bytes = std::fs::read(demos.join(format!("{demo}.json"))).expect("a demo");
    let mut case: Case = (*read_case(&bytes).expect("a case")).clone();
    change(&mut case);
    let case = ValidCase::try_from(case).expect("no fault");
    let file = folder.join("case.json");
    let text = serde_json::to_string_pretty(&*case).expect("plain data");
    std::fs::write(&file, text).expect("a file");
    file
}

pub(super) fn read(file: &Path) -> ValidCase {
    read_case(&std::fs::read(file).expect("a file")).expect("a case")
}

pub(super) fn record(file: &Path, case: &ValidCase, who: &str, kind: EventKind) {
    record_at(file, case, now(), who, kind);
}

/// The same at another time.
pub(super) fn record_at(
    file: &Path,
    case: &ValidCase,
    at: jiff::Timestamp,
    who: &str,
    kind: EventKind,
) {
    let writer = WriterId::new("tray").expect("a name");
    let who = Who::new(who).expect("a name");
    append_event(file, &case_jaw(case), &writer, at, who, kind).expect("recorded");
}

/// Plans every sleeve half a millimetre farther from its platform.
pub(super) fn replan(file: &Path) {
    let mut case: Case = (*read(file)).clone();
    for site in &mut case.sites {
        let distance = site.platform_to_sleeve.as_mut().expect("a distance");
        distance.entered_mm += Length::from_um(500);
    }
    let case = ValidCase::try_from(case).expect("no fault");
    let text = serde_json::to_string_pretty(&*case).expect("data");
    std::fs::write(file, text).expect("a file");
}

/// Records every drill of the tray as set, read twice in the sterile field and laid.
pub(super) fn load(file: &Path) {
    let case = read(file);
    for (who, kind) in loaded(&case) {
        record(file, &case, who, kind);
    }
}

/// Approves the case for a patient.
pub(super) fn approve(file: &Path) {
    let case = read(file);
    let worksheet = work_out(&case);
    let none = Merged::of(case_jaw(&case), []).expect("no logs");
    let view = plan_view(&case, &worksheet, &none);
    let approval = Approval {
        fingerprint: view.fingerprint,
        covers: view.covers,
        revision: case.revision,
        accepted: view.accepted,
        purpose: Purpose::Patient,
    };
    record(file, &case, "RT", EventKind::Approval(approval));
}
