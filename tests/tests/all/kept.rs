//! Files as earlier programs wrote them, kept as they were: each opens with the meaning that it had, or is refused
//! with a reason. What a newer program wrote is refused by its version, and nothing is written.
//!
//! Form 1 is the only one of every kind so far; what was added to it since is left out where it is empty.

use crate::demo::{shown, step};
use crate::desk::{Beside, said};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use traywright::Outcome;
use traywright::desk::{Settings, Unsaved};
use traywright::look::Mode;
use traywright_core::case::{ValidCase, read_case, read_kit};
use traywright_core::dentition::{Jaw, Notation};
use traywright_core::document::print;
use traywright_core::plan::work_out;
use traywright_core::sign::{CaseJaw, Effect, EventKind, ProblemKind, read_log};
use traywright_core::wording::faults;

fn kept(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("kept")
        .join(name)
}

fn bytes(name: &str) -> Vec<u8> {
    fs::read(kept(name)).unwrap()
}

fn first_case() -> ValidCase {
    read_case(&bytes("case-1-first.json")).unwrap_or_else(|faults| panic!("{faults}"))
}

fn json(bytes: &[u8]) -> Value {
    serde_json::from_slice(bytes).unwrap()
}

/// The same values under the same keys, written as today.
#[test]
fn the_first_case_and_kit_are_read_with_every_value_and_none_beside() {
    let case = print(&*first_case()).unwrap();
    assert_eq!(json(case.as_bytes()), json(&bytes("case-1-first.json")));
    let kit = read_kit(&bytes("kit-1-first.json")).unwrap();
    let kit = print(&kit).unwrap();
    assert_eq!(json(kit.as_bytes()), json(&bytes("kit-1-first.json")));
}

/// Settings as they were worked by hand when the file was written: seat = platform to sleeve + master sleeve + seat
/// above its rim, 4.45 + 4.65 + 0.85 = 9.95 at 46, 4.55 + 4.65 + 0.85 = 10.05 at 47; + preparation + 0.4 of allowance.
#[test]
fn the_first_case_has_the_settings_that_it_had() {
    let sheet = work_out(&first_case());
    for (site, id, set) in [
        ("m46", "s1", "17.8"),
        ("m46", "s2", "20.7"),
        ("m46", "s5", "20.7"),
        ("m46", "s6", "13.2"),
        ("m46", "s7", "19.6"),
        ("m47", "s1", "19.1"),
        ("m47", "s4", "19.1"),
    ] {
        assert_eq!(shown(&step(&sheet, site, id).set), set, "{site} {id}");
    }
}

/// Decisions said nothing of what they had seen, so that nobody knows what was accepted.
#[test]
fn a_decision_of_the_first_form_is_refused_with_its_place_and_what_lacks() {
    let refused = read_case(&bytes("case-1-decisions.json")).unwrap_err();
    let said = faults(&refused, traywright_core::text::Texts::english()).join("\n");
    assert!(said.contains("judgements[0]"), "{said}");
    assert!(said.contains("\"shown\" is missing"), "{said}");
}

fn of_the_first_events() -> CaseJaw {
    CaseJaw {
        case: "INV-7".to_owned(),
        jaw: Jaw::Lower,
    }
}

#[test]
fn the_first_events_are_read_and_would_be_written_the_same() {
    let read = read_log(
        "desk",
        &bytes("events-1-first.jsonl"),
        &of_the_first_events(),
    );
    assert_eq!(read.problems, []);
    let log = read.log.unwrap();
    assert_eq!(log.text().as_bytes(), bytes("events-1-first.jsonl"));
    let [check, reading] = log.events() else {
        panic!("{log:?}")
    };
    // Nobody knows whether the gauge was checked for a patient.
    assert!(matches!(
        check.kind,
        EventKind::GaugeChecked { purpose: None, .. }
    ));
    assert!(matches!(&reading.kind, EventKind::Reading(one) if one.entered_by.is_none()));
    assert!(check.seen.is_empty() && reading.seen.is_empty());
}

#[test]
fn the_first_settings_are_read() {
    let (read, told) = Settings::read(&kept("settings-first.json"), String::new());
    assert_eq!(told, None);
    assert_eq!(
        (read.mode, read.notation),
        (Mode::Dark, Notation::Universal)
    );
    assert_eq!(
        (read.desk.as_str(), read.person.as_str()),
        ("room-2", "R. Thorn")
    );
    assert_eq!(
        (read.recent, read.kit),
        (vec!["/cases/KX-17.json".into()], None)
    );
}

/// Up to its last whole line.
#[test]
fn the_first_journal_brings_back_what_was_not_saved() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("unsaved-1.journal");
    fs::write(&file, bytes("journal-1.journal")).unwrap();
    let left = Unsaved::left(folder.path(), None);
    let [left] = &left[..] else {
        panic!("{left:?}")
    };
    assert_eq!(left.base().note, None);
    assert_eq!(left.case.note.as_deref(), Some("told the patient"));
}

/// Everything under a folder, by name.
fn all(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(all(&path));
        } else if path.extension().is_none_or(|end| end != "lock") {
            found.push((path.clone(), fs::read(&path).unwrap()));
        }
    }
    found.sort();
    found
}

#[test]
fn a_newer_case_or_kit_is_refused_by_its_version_and_nothing_is_written() {
    let beside = Beside::new();
    let good = fs::read_to_string(&beside.case).unwrap();
    let kit = beside.folder.path().join("kit.json");
    let newer_kit = String::from_utf8(bytes("kit-1-first.json")).unwrap();
    let newer_kit = newer_kit.replacen("\"traywright_kit\": 1", "\"traywright_kit\": 2", 1);
    fs::write(&kit, newer_kit).unwrap();
    let newer = good.replacen("\"traywright_case\": 1", "\"traywright_case\": 2", 1);
    assert_ne!(newer, good);
    for (case, file) in [(&newer, "case.json"), (&good, "kit.json")] {
        fs::write(&beside.case, case).unwrap();
        let before = all(beside.folder.path());
        let takes = said(&[&"take-kit", &beside.case, &"--kit", &kit]);
        let mut tried = vec![takes];
        if file == "case.json" {
            tried.extend([
                beside.says("check"),
                beside.says("history"),
                beside.approve("desk"),
            ]);
        }
        for one in tried {
            assert_eq!(one.outcome, Outcome::Failed, "{}", one.out);
            assert!(one.err.contains(file), "{}", one.err);
            assert!(
                one.err
                    .contains("is of version 2, and this program reads versions up to 1"),
                "{}",
                one.err
            );
        }
        assert_eq!(all(beside.folder.path()), before);
    }
}

#[test]
fn newer_events_are_refused_by_their_version_and_not_written_on() {
    let beside = Beside::new();
    beside.approve("desk");
    let file = beside.file("desk.events.jsonl");
    let newer = fs::read_to_string(&file).unwrap();
    let newer = newer.replacen("\"traywright_events\":1", "\"traywright_events\":2", 1);
    fs::write(&file, &newer).unwrap();
    let read = read_log("desk", newer.as_bytes(), &of_the_first_events());
    assert_eq!(
        read.problems[0].kind,
        ProblemKind::NewerVersion { found: 2, known: 1 }
    );
    assert_eq!(read.problems[0].effect(), Effect::Stops);
    let before = all(beside.folder.path());
    let said = beside.approve("desk");
    assert_eq!(said.outcome, Outcome::Failed, "{}", said.out);
    assert!(
        said.err
            .contains("written in version 2 of the format; this program reads version 1"),
        "{}",
        said.err
    );
    let other = beside.approve("other");
    assert_eq!(other.outcome, Outcome::Failed, "{}", other.out);
    assert!(beside.opened().out.contains("the record has a break"));
    assert_eq!(all(beside.folder.path()), before);
}

#[test]
fn a_newer_journal_is_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("unsaved-1.journal");
    let newer = String::from_utf8(bytes("journal-1.journal")).unwrap();
    let newer = newer.replacen("\"traywright_journal\":1", "\"traywright_journal\":2", 1);
    fs::write(&file, &newer).unwrap();
    assert!(Unsaved::left(folder.path(), None).is_empty());
    assert_eq!(fs::read_to_string(&file).unwrap(), newer);
}
