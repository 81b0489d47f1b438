//! `wear` and `name-piece`: which pieces were used how often, and what their limits say.

use crate::demo;
use crate::desk::{Beside, Said, said, without_folder};
use serde_json::{Value, json};
use std::fs;
use std::num::NonZeroU32;
use std::path::PathBuf;
use traywright::Outcome;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{
    Approved, Counted, DrillKey, DrillUse, EventKind, Led, Purpose, SiteKey, StepDone, StepKey,
    SurgeryBegun, Who, WriterId,
};
use traywright_core::store::append_event;

const DRILL: &str = "tip-257";

/// A kit of a patient with a limit for one drill and two pieces of it.
fn kit(beside: &Beside) -> PathBuf {
    let mut kit: Value = serde_json::from_slice(&demo::bytes("kit")).unwrap();
    kit["demonstration"] = json!(false);
    kit["wear"] = json!({ "drills": [{
        "drill": DRILL,
        "limit": {
            "uses": 5,
            "warn_uses_left": 2,
            "given_by": "maker",
            "source": "leaflet of the drill, invented",
        },
        "pieces": [
            { "mark": "A3", "before": { "uses": 1, "sterilisations": 1 } },
            { "mark": "A4" },
        ],
    }]});
    let file = beside.folder.path().join("kit.json");
    fs::write(&file, kit.to_string()).unwrap();
    file
}

fn record(beside: &Beside, kind: EventKind) {
    let case = beside.read();
    let (desk, who) = (WriterId::new("desk").unwrap(), Who::new("QP").unwrap());
    let at = "2030-03-04T05:06:07Z".parse().unwrap();
    append_event(&beside.case, &case_jaw(&case), &desk, at, who, kind).unwrap();
}

fn begun(beside: &Beside) {
    let fingerprint = beside.read().fingerprint();
    record(
        beside,
        EventKind::SurgeryBegun(SurgeryBegun {
            fingerprint,
            approval: Approved::Open,
            lies_wrong: Vec::new(),
            despite: None,
            wrong_as: Vec::new(),
            anew: false,
            purpose: Purpose::Patient,
        }),
    );
}

fn drilled(beside: &Beside, site: &str) {
    let step = StepKey::Drill {
        site: SiteKey {
            site: site.into(),
            tooth: "36".parse().unwrap(),
        },
        id: "full".into(),
        with: DrillUse {
            drill: DRILL.into(),
            stop: None,
            set_mm: None,
        },
        sleeve: None,
        led: Led::Guide,
    };
    let piece = Some(DrillKey {
        drill: DRILL.into(),
        copy: NonZeroU32::MIN,
    });
    record(
        beside,
        EventKind::StepDone(StepDone {
            step,
            piece,
            due: None,
            despite: None,
            by_hand: None,
            purpose: Purpose::Patient,
        }),
    );
}

fn counted_out(beside: &Beside) {
    record(
        beside,
        EventKind::Counted(Counted {
            step: StepKey::CountOut { list: None },
            second: Who::new("RB").unwrap(),
            lines: Vec::new(),
            due: None,
            despite: None,
            purpose: Purpose::Patient,
        }),
    );
}

fn name(beside: &Beside, more: &[&str]) -> Said {
    let mut words: Vec<&dyn AsRef<std::ffi::OsStr>> = vec![&"name-piece", &beside.case];
    words.extend(
        ["--by", "Ines Roth", "--desk", "desk", "--drill"]
            .iter()
            .map(|w| w as &dyn AsRef<_>),
    );
    words.extend(more.iter().map(|word| word as &dyn AsRef<_>));
    said(&words)
}

fn clean(beside: &Beside, said: &Said) -> String {
    without_folder(&format!("{}{}", said.out, said.err), beside.folder.path())
}

#[test]
fn uses_are_counted_from_closed_cases_and_held_against_the_limit() {
    let beside = Beside::new();
    let kit = kit(&beside);
    let folder = beside.folder.path();
    let none = said(&[&"wear", &kit]);
    assert_eq!(none.outcome, Outcome::Failed);
    let told = clean(&beside, &none);
    assert!(
        told.contains("There is no ledger of wear at kit.wear"),
        "{told}"
    );

    begun(&beside);
    drilled(&beside, "a");
    drilled(&beside, "b");
    let open = said(&[&"wear", &kit, &"--rebuild", &folder]);
    assert!(open.out.contains("its day never closed"), "{}", open.out);
    assert!(
        open.out
            .contains("A3: at least 1 use, at least 1 sterilisation; UNKNOWN: it may have reached its limit (on a day that is not closed a piece was used that nobody named)\n"),
        "{}",
        open.out
    );

    let alone = said(&[&"wear", &kit]);
    assert_eq!(alone.outcome, Outcome::Open);
    for line in [
        "its day never closed, so that it does not count yet: KX-17.",
        "not named, on a day that is not closed: 2 uses; any piece",
    ] {
        assert!(alone.out.contains(line), "{line}: {}", alone.out);
    }
    let open = said(&[&"wear", &kit, &"--count", &beside.case]);
    assert!(
        open.out
            .starts_with("Nothing of it counts yet: no day of it is closed\n"),
        "{}",
        open.out
    );

    counted_out(&beside);
    let unnamed = said(&[&"wear", &kit, &"--count", &beside.case]);
    assert_eq!(unnamed.outcome, Outcome::Open, "{}", unnamed.err);
    for line in [
        "Counted as the record says now\n",
        "one closed sitting counted.\n",
        "limit 5 uses, the manufacturer’s (leaflet of the drill, invented)\n",
        "A3: 1 to 3 uses, 1 to 2 sterilisations; UNKNOWN: it may have reached its limit (uses of a piece that nobody named may be its own)\n",
        "A4: at least 0 uses, at least 0 sterilisations; UNKNOWN",
        "not named: 2 uses, 1 sterilisation; any piece of this drill may have them\n",
    ] {
        assert!(unnamed.out.contains(line), "{line}: {}", unnamed.out);
    }

    let named = name(&beside, &[DRILL, "--mark", "a3"]);
    assert_eq!(named.outcome, Outcome::Done, "{}", named.err);
    assert!(
        named
            .out
            .contains("is the piece marked a3: recorded, for the sitting that was begun last"),
        "{}",
        named.out
    );
    let near = said(&[&"wear", &kit, &"--count", &beside.case]);
    assert_eq!(near.outcome, Outcome::Open, "{}", near.err);
    assert!(
        near.out
            .contains("A3: 3 uses, 2 sterilisations; NEAR its limit\n"),
        "{}",
        near.out
    );
    assert!(!near.out.contains("not named"), "{}", near.out);
    let again = said(&[&"wear", &kit, &"--count", &beside.case]);
    assert!(
        again.out.starts_with("It was counted so already\n"),
        "{}",
        again.out
    );

    drilled(&beside, "c");
    drilled(&beside, "d");
    let anew = said(&[&"wear", &kit, &"--rebuild", &folder]);
    assert!(
        anew.out.starts_with("Counted anew from one case.\n"),
        "{}",
        anew.out
    );
    assert!(
        anew.out
            .contains("A3: 5 uses, 2 sterilisations; LIMIT REACHED: not to be used again\n"),
        "{}",
        anew.out
    );
    let history = beside.says("history");
    assert!(
        history.out.contains("no. 1 is the piece marked a3"),
        "{}",
        history.out
    );
}

#[test]
fn a_case_that_cannot_be_read_leaves_the_count_as_it_was() {
    let beside = Beside::new();
    let kit = kit(&beside);
    let folder = beside.folder.path();
    begun(&beside);
    drilled(&beside, "a");
    counted_out(&beside);
    said(&[&"wear", &kit, &"--rebuild", &folder]);
    let before = fs::read(folder.join("kit.wear")).unwrap();
    fs::write(folder.join("bad.json"), r#"{"traywright_case":1"#).unwrap();
    let failed = said(&[&"wear", &kit, &"--rebuild", &folder]);
    assert_eq!(failed.outcome, Outcome::Failed);
    assert_eq!(
        clean(&beside, &failed),
        "Nothing was counted: no use in the ledger is another than before. These cannot be counted:\nbad.json is no case, or damaged. Open it to see what is wrong\n"
    );
    assert_eq!(fs::read(folder.join("kit.wear")).unwrap(), before);
    fs::remove_file(folder.join("bad.json")).unwrap();
    fs::rename(&beside.case, folder.join("case.old")).unwrap();
    let gone = said(&[&"wear", &kit, &"--rebuild", &folder]);
    assert_eq!(gone.outcome, Outcome::Failed);
    assert!(
        gone.err.contains("their uses would be lost: KX-17"),
        "{}",
        gone.err
    );
    let forgotten = said(&[&"wear", &kit, &"--rebuild", &folder, &"--forget"]);
    assert!(
        forgotten.out.contains("No longer counted"),
        "{}",
        forgotten.out
    );
    assert_eq!(forgotten.outcome, Outcome::Open, "A4 is not known");
}

#[test]
fn a_copy_that_lags_behind_ends_as_open() {
    let beside = Beside::new();
    let kit = kit(&beside);
    let mut plain: Value = serde_json::from_slice(&fs::read(&kit).unwrap()).unwrap();
    plain["wear"] = json!({ "drills": [] });
    fs::write(&kit, plain.to_string()).unwrap();
    begun(&beside);
    drilled(&beside, "a");
    counted_out(&beside);
    let log = beside.file("desk.events.jsonl");
    let before = fs::read(&log).unwrap();
    drilled(&beside, "b");
    let folder = beside.folder.path();
    assert_eq!(
        said(&[&"wear", &kit, &"--rebuild", &folder]).outcome,
        Outcome::Done
    );
    fs::write(&log, before).unwrap();
    let behind = said(&[&"wear", &kit, &"--count", &beside.case]);
    assert!(
        behind.out.contains("this copy of the case lags behind"),
        "{}",
        behind.out
    );
    assert_eq!(behind.outcome, Outcome::Open);
}

#[test]
fn a_drill_is_named_as_a_piece_or_said_to_be_unknown() {
    let beside = Beside::new();
    let other = name(&beside, &["nowhere", "--mark", "A3"]);
    assert_eq!(other.outcome, Outcome::Failed);
    assert!(
        other.err.contains("has no drill nowhere") && other.err.contains(DRILL),
        "{}",
        other.err
    );
    for words in [&[DRILL][..], &[DRILL, "--mark", "A3", "--unknown"]] {
        let refused = name(&beside, words);
        assert_eq!(refused.outcome, Outcome::Failed);
        assert!(
            refused.err.contains("--unknown where nobody knows"),
            "{}",
            refused.err
        );
    }
    assert!(
        !beside.file("desk.events.jsonl").exists(),
        "nothing was recorded"
    );
    let next = name(&beside, &[DRILL, "--mark", "A3", "--next"]);
    assert!(next.out.contains("for the sitting to come"), "{}", next.out);
    let unknown = name(&beside, &[DRILL, "--unknown"]);
    assert!(unknown.out.starts_with("Which piece"), "{}", unknown.out);
}

#[test]
fn a_mark_that_is_no_piece_of_the_kit_or_another_drill_is_refused() {
    let beside = Beside::new();
    let kit = kit(&beside);
    let kit = kit.to_str().unwrap();
    begun(&beside);
    let before = fs::read(beside.file("desk.events.jsonl")).unwrap();
    for (words, want) in [
        (&["--mark", "A-3", "--kit", kit][..], "It lists: A3, A4."),
        (&["--mark", "\u{410}3"], "looks like a Latin one"),
        (&["--mark", "A\u{200b}3"], "U+200B"),
        (&["--mark", ""], "at least one letter or digit"),
        (&["--mark", "A3", "--copy", "77"], "no. 77 is none"),
    ] {
        let refused = name(&beside, &[&[DRILL], words].concat());
        assert_eq!(refused.outcome, Outcome::Failed, "{words:?}");
        assert!(refused.err.contains(want), "{words:?}: {}", refused.err);
    }
    assert_eq!(fs::read(beside.file("desk.events.jsonl")).unwrap(), before);
    let held = name(&beside, &[DRILL, "--mark", "A3", "--kit", kit]);
    assert!(!held.out.contains("held against no list"), "{}", held.out);
    assert_eq!(held.outcome, Outcome::Done, "{}", held.err);
}

#[test]
fn one_mark_for_two_drills_of_a_sitting_is_refused() {
    let beside = Beside::new();
    let mut case: Value = serde_json::from_slice(&fs::read(&beside.case).unwrap()).unwrap();
    for drill in case["kit"]["drills"].as_array_mut().unwrap() {
        drill["quantity"] = json!(2);
    }
    fs::write(&beside.case, case.to_string()).unwrap();
    begun(&beside);
    let first = name(&beside, &[DRILL, "--mark", "A3"]);
    assert_eq!(first.outcome, Outcome::Done, "{}", first.err);
    let second = name(&beside, &[DRILL, "--copy", "2", "--mark", "a 3"]);
    assert_eq!(second.outcome, Outcome::Failed);
    assert!(
        second.err.contains("no. 1 in the same sitting"),
        "{}",
        second.err
    );
    let next = name(&beside, &[DRILL, "--copy", "2", "--mark", "a 3", "--next"]);
    assert_eq!(next.outcome, Outcome::Done, "{}", next.err);
}
