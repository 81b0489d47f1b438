//! A last line that was never finished, what it may have taken back, and what else lies in the folder of a record.

use super::events::{FILE, morning, of_patient};
use crate::desk::{Beside, said};
use std::collections::BTreeMap;
use std::fs;
use traywright::Outcome;
use traywright_core::kit::SlotKind;
use traywright_core::measure::Length;
use traywright_core::plan::work_out;
use traywright_core::sign::{
    DrillKey, EventHash, EventKind, Piece, Purpose, Stage, ThingKey, Who, WriterId,
};

const TORN: &str = "desk.events.jsonl.torn-1";

/// Everything in the folder of the record.
fn files(beside: &Beside) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(beside.file("")).unwrap();
    let of = |entry: std::io::Result<fs::DirEntry>| {
        let entry = entry.unwrap();
        let name = entry.file_name().into_string().unwrap();
        (name, fs::read(entry.path()).unwrap())
    };
    entries.map(of).collect()
}

/// The morning's record and one more event, its line cut by this many bytes: with the bytes of the sound part and the rest.
fn torn_by(kind: EventKind, less: usize) -> (Beside, Vec<u8>, Vec<u8>) {
    let beside = Beside::new();
    let mut log = morning(&of_patient(), "desk");
    let sound = log.text().into_bytes();
    let at = jiff::Timestamp::from_second(1_700_001_000).unwrap();
    log.append(at, Who::new("Жанна К").unwrap(), kind).unwrap();
    let whole = log.text().into_bytes();
    let torn = whole[..whole.len() - less].to_vec();
    fs::write(beside.file(FILE), &torn).unwrap();
    let rest = torn[sound.len()..].to_vec();
    (beside, sound, rest)
}

/// What each event that the history tells of is worth, whose words hold this.
fn worth(beside: &Beside, of: &str) -> Vec<String> {
    let told = beside.says("history").out;
    let lines: Vec<&str> = told.lines().collect();
    let pairs = lines.windows(2);
    let pairs = pairs.filter(|pair| pair[0].contains(" UTC, ") && pair[0].contains(of));
    pairs.map(|pair| pair[1].trim().to_owned()).collect()
}

/// What revokes: a withdrawal, a fall, a gauge that was off, a record put aside.
fn grave() -> Vec<EventKind> {
    let mm = |text| Length::parse_mm(text).unwrap();
    vec![
        EventKind::ApprovalWithdrawn {
            fingerprint: work_out(&crate::desk::patient()).fingerprint,
            reason: "scan of another patient".to_owned(),
        },
        EventKind::Dropped {
            piece: Piece::Drill(DrillKey {
                drill: "pilot-213".to_owned(),
                copy: 1.try_into().unwrap(),
            }),
            purpose: Some(Purpose::Patient),
        },
        EventKind::GaugeChecked {
            gauge: "bench-gauge".to_owned(),
            piece_mm: mm("21.7"),
            value_mm: mm("20.7"),
            asked_back_mm: Vec::new(),
            purpose: Some(Purpose::Patient),
        },
        EventKind::SetAside {
            of: WriterId::new("room").unwrap(),
            file: "room.events.jsonl.damaged-1".to_owned(),
            content: EventHash::of_file(b"x"),
        },
    ]
}

/// What takes nothing from anybody.
fn harmless() -> Vec<EventKind> {
    vec![
        EventKind::Note {
            text: "the lamp is out".to_owned(),
        },
        EventKind::Beside {
            what: "Guide".to_owned(),
            stage: Stage::Bench,
            purpose: Purpose::Patient,
        },
        EventKind::Opened {
            thing: ThingKey {
                of: SlotKind::Drill,
                entry: "pilot-213".to_owned(),
                copy: 1.try_into().unwrap(),
            },
            purpose: Purpose::Patient,
        },
    ]
}

/// Looked at and refused: the file stays as it is, nothing is written beside it, and the tear is told.
#[test]
fn neither_a_look_nor_a_refused_command_mends_a_torn_line() {
    for kind in grave() {
        for less in [2, 3, 70] {
            let (beside, ..) = torn_by(kind.clone(), less);
            let before = files(&beside);
            beside.opened();
            let case = &beside.case;
            let by = |by: &str| said(&[&"approve", case, &"--by", &by, &"--desk", &"desk"]);
            for name in ["7", "", "\u{200b}"] {
                assert_eq!(by(name).outcome, Outcome::Failed, "{name:?}");
            }
            assert_eq!(files(&beside), before, "{kind:?} {less}");
            let told = beside.says("history").out;
            assert!(told.contains("the file ends within the line"), "{told}");
        }
    }
}

/// The line that was lost may have been a withdrawal: what was signed before it counts no more, and that is told.
#[test]
fn what_a_torn_line_may_have_taken_back_counts_no_more_when_it_is_mended() {
    for kind in grave() {
        for less in [2, 3, 70, 170] {
            let (beside, sound, rest) = torn_by(kind.clone(), less);
            assert_eq!(worth(&beside, "Approved"), ["DOES NOT COUNT"]);
            let approved = beside.approve("desk");
            assert_eq!(approved.outcome, Outcome::Done, "{}", approved.err);
            for wanted in [TORN, "Nothing that was signed"] {
                assert!(approved.out.contains(wanted), "{}", approved.out);
            }
            let now = files(&beside);
            assert_eq!(now[TORN], rest);
            assert!(now[FILE].starts_with(&sound));
            assert_eq!(worth(&beside, "Approved"), ["DOES NOT COUNT", "counts"]);
            assert_eq!(worth(&beside, "Second reading"), ["DOES NOT COUNT"]);
            assert!(beside.says("history").out.contains(TORN), "it stays told");
        }
    }
}

/// Put aside it is the rest of the line alone, and not all that the desk had recorded.
#[test]
fn put_aside_is_the_rest_of_a_torn_line_and_not_the_whole_file() {
    for (kinds, counts) in [(grave(), false), (harmless(), true)] {
        for kind in kinds {
            let (beside, sound, rest) = torn_by(kind.clone(), 3);
            let aside = beside.put_aside("desk");
            assert_eq!(aside.outcome, Outcome::Done, "{}", aside.err);
            assert!(aside.out.contains(TORN), "{}", aside.out);
            let voids = aside.out.contains("Nothing that was signed");
            assert_eq!(voids, !counts, "{}", aside.out);
            let now = files(&beside);
            assert_eq!(now[TORN], rest);
            assert!(now[FILE].starts_with(&sound), "{kind:?}");
            assert!(!now.keys().any(|name| name.contains("damaged")), "{kind:?}");
            let want = if counts { "counts" } else { "DOES NOT COUNT" };
            assert_eq!(worth(&beside, "Approved"), [want], "{kind:?}");
            assert!(beside.says("history").out.contains(TORN), "it stays told");
        }
    }
}

/// What is lost is told with its kind and the person, and nothing else is: all that was signed counts.
#[test]
fn what_a_torn_line_could_not_have_taken_back_counts_on_and_the_loss_is_told() {
    for kind in harmless() {
        for less in [2, 3, 70] {
            let (beside, sound, rest) = torn_by(kind.clone(), less);
            let approved = beside.approve("desk");
            assert_eq!(approved.outcome, Outcome::Done, "{}", approved.err);
            for wanted in [TORN, "Жанна К"] {
                assert!(approved.out.contains(wanted), "{kind:?} {}", approved.out);
            }
            let now = files(&beside);
            assert_eq!(now[TORN], rest);
            assert!(now[FILE].starts_with(&sound));
            assert_eq!(worth(&beside, "Approved"), ["counts", "counts"]);
            assert!(beside.says("history").out.contains(TORN), "it stays told");
        }
    }
}

/// An approval that was lost is none; who gave it saw the figures all the same.
#[test]
fn who_approved_in_a_line_that_was_lost_saw_the_figures() {
    let beside = Beside::new();
    let sound = morning(&of_patient(), "desk").text();
    fs::write(beside.file(FILE), &sound).unwrap();
    assert_eq!(beside.approve("desk").outcome, Outcome::Done);
    let whole = fs::read(beside.file(FILE)).unwrap();
    fs::write(beside.file(FILE), &whole[..whole.len() - 3]).unwrap();
    let aside = beside.put_aside("desk");
    assert!(aside.out.contains("Ines Roth"), "{}", aside.out);
    assert_eq!(worth(&beside, "Approved"), ["counts"]);
    let log = fs::read_to_string(beside.file(FILE)).unwrap();
    let last = log.lines().last().unwrap();
    assert!(last.contains("\"by\":\"Ines Roth\""), "{last}");
}

/// Two case files of one stem have one folder: what is signed for the other is not put aside from here.
#[test]
fn sound_events_of_another_case_are_never_put_aside() {
    let beside = Beside::new();
    assert_eq!(beside.approve("desk").outcome, Outcome::Done);
    let other = beside.folder.path().join("case.case");
    let text = fs::read_to_string(&beside.case).unwrap();
    fs::write(&other, text.replace("KX-17", "KX-18")).unwrap();
    let before = fs::read(beside.file(FILE)).unwrap();
    let by = "Ines Roth";
    for command in ["approve", "put-aside"] {
        let refused = said(&[&command, &other, &"--by", &by, &"--desk", &"room"]);
        assert_eq!(
            refused.outcome,
            Outcome::Failed,
            "{command}: {}",
            refused.out
        );
        let told = &refused.err;
        assert!(told.contains("belong to case KX-17"), "{command}: {told}");
        let remedy = "Move desk.events.jsonl to the case that it belongs to";
        assert!(told.contains(remedy), "{command}: {told}");
        assert!(!told.contains("traywright put-aside"), "{command}: {told}");
        assert_eq!(fs::read(beside.file(FILE)).unwrap(), before, "{command}");
    }
    assert!(beside.opened().out.contains("approved by Ines Roth"));
}

#[test]
fn a_file_in_the_place_of_the_records_folder_is_told_as_that() {
    let beside = Beside::new();
    fs::remove_dir(beside.file("")).unwrap();
    fs::write(beside.folder.path().join("case.signed"), "x").unwrap();
    let approved = beside.approve("desk");
    assert_eq!(approved.outcome, Outcome::Failed);
    let told = &approved.err;
    assert!(!told.contains("does not exist"), "{told}");
    assert!(told.contains("is no folder"), "{told}");
}

#[test]
fn who_approves_is_told_as_recorded() {
    let beside = Beside::new();
    let (case, by) = (&beside.case, "  Ines Roth  ");
    let approved = said(&[&"approve", case, &"--by", &by, &"--desk", &"desk"]);
    assert_eq!(approved.outcome, Outcome::Done);
    assert!(!approved.out.contains("  Ines"), "{}", approved.out);
    assert!(!approved.out.contains("Roth  "), "{}", approved.out);
}

/// A name that this program or another reads something else from.
#[test]
fn no_sheet_takes_the_name_of_a_case_or_a_log() {
    let beside = Beside::new();
    for name in ["q.json", "q.events.jsonl", "Q.JSON"] {
        let to = beside.folder.path().join(name);
        let refused = said(&[&"sheet", &beside.case, &"--to", &to, &"--parts", &"form"]);
        assert_eq!(refused.outcome, Outcome::Failed, "{name}: {}", refused.out);
        assert!(!to.exists(), "{name}");
    }
}
