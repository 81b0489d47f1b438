//! The ledger of wear under kills: days are closed one after the other by a program that is killed at random moments. After
//! each kill the ledger has each closing once, up to the one that it was at; what had not come into it comes with the next
//! program, and at the end all is as it is counted anew.
//!
//! What each day used follows from its number alone, so that what should stand there is known without reading a record.

use super::child::LIMIT;
use super::{Chance, Done, killed_after};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use traywright_core::case::read_kit;
use traywright_core::dentition::Jaw;
use traywright_core::kit::Kit;
use traywright_core::sign::{
    Approved, CaseJaw, Counted, DrillKey, DrillUse, EventKind, Fingerprint, Led, Log, PieceNamed,
    Purpose, SiteKey, StepDone, StepKey, SurgeryBegun, Who, WriterId,
};
use traywright_core::store::{
    Private, append_event, count_case, events_folder, read_events, read_file, read_wear,
    rebuild_wear, wear_file, write_safely,
};
use traywright_core::wear::{Counted as Worn, WornPiece};

/// The longest life of a writer, µs: some dozens of closings.
const LONGEST_US: u64 = 4_000_000;
/// Drills and pieces of each that take turns.
const DRILLS: usize = 3;
const PIECES: usize = 7;

fn kit_file(folder: &Path) -> PathBuf {
    folder.join("kit.json")
}

fn case_file(folder: &Path, number: usize) -> PathBuf {
    folder.join("cases").join(format!("{number}.json"))
}

fn kit(folder: &Path) -> Done<Kit> {
    let bytes = read_file(&kit_file(folder), LIMIT)?;
    read_kit(&bytes).map_err(|faults| format!("{faults:?}").into())
}

/// What a day uses: a drill, its piece, and at how many sites.
fn used(number: usize) -> (String, String, usize) {
    let drill = format!("drill-{}", number % DRILLS);
    (drill, format!("P{}", number % PIECES), 1 + number % 3)
}

/// Everything that so many days use: uses and sterilisations of each piece.
fn used_by(days: usize) -> BTreeMap<(String, String), (u64, u64)> {
    let mut all = BTreeMap::new();
    for (drill, piece, sites) in (0..days).map(used) {
        let of: &mut (u64, u64) = all.entry((drill, piece)).or_default();
        of.0 += sites as u64;
        of.1 += 1;
    }
    all
}

/// What stands in a ledger, in the same form.
fn stands(worn: &Worn) -> BTreeMap<(String, String), (u64, u64)> {
    let one = |piece: &WornPiece| {
        let mark = piece.mark.clone().unwrap_or_default();
        (piece.drill.clone(), mark)
    };
    let all = worn.worn.iter();
    all.map(|(piece, worn)| (one(piece), (worn.uses, worn.sterilisations)))
        .collect()
}

fn jaw(number: usize) -> CaseJaw {
    CaseJaw {
        case: format!("DAY-{number}"),
        jaw: Jaw::Lower,
    }
}

/// What is recorded of a day before it is closed.
fn recorded(number: usize) -> Done<String> {
    let (drill, piece, sites) = used(number);
    let purpose = Purpose::Practice;
    let key = DrillKey {
        drill: drill.clone(),
        copy: std::num::NonZeroU32::MIN,
    };
    let named = EventKind::PieceNamed(PieceNamed {
        drill: key.clone(),
        mark: Some(piece),
        sitting: None,
        after: None,
        purpose,
    });
    let begun = EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: Fingerprint::of_bytes(b"plan"),
        approval: Approved::Approved,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew: false,
        purpose,
    });
    let mut log = Log::new(&jaw(number), WriterId::new("desk")?);
    let drilled = (0..sites).map(|site| {
        EventKind::StepDone(StepDone {
            step: StepKey::Drill {
                site: SiteKey {
                    site: format!("s{site}"),
                    tooth: "36".parse().expect("a tooth"),
                },
                id: "full".to_owned(),
                with: DrillUse {
                    drill: drill.clone(),
                    stop: None,
                    set_mm: None,
                },
                sleeve: None,
                led: Led::Guide,
            },
            piece: Some(key.clone()),
            due: None,
            despite: None,
            by_hand: None,
            purpose,
        })
    });
    // The same each time: what a killed writer left of it beside the log is no other history.
    let first = 1_700_000_000 + i64::try_from(number)? * 3600;
    for (kind, second) in [named, begun].into_iter().chain(drilled).zip(first..) {
        let at = jiff::Timestamp::from_second(second)?;
        log.append(at, Who::signing("Ida Hale")?, kind)?;
    }
    Ok(log.text())
}

/// Closes one day after the other, from the first that the ledger does not have, until it is killed.
pub(super) fn write(folder: &Path, mut say: impl FnMut(&str) -> Done<()>) -> Done<()> {
    let kit = kit(folder)?;
    let first = read_wear(&kit_file(folder), &kit).map_err(|fault| format!("{fault:?}"))?;
    say("ready")?;
    for number in usize::try_from(first.closings)?.. {
        let file = case_file(folder, number);
        let signed = events_folder(&file);
        let log = signed.join("desk.events.jsonl");
        if !file.exists() {
            let case = format!(
                "{{\"traywright_case\":1,\"reference\":\"DAY-{number}\",\"demonstration\":true,\"jaw\":\"lower\",\
                 \"kit\":{{\"id\":\"{}\",\"demonstration\":true}}}}",
                kit.id
            );
            write_safely(&file, case.as_bytes(), Private::OWN)?;
        }
        if !log.exists() {
            fs::create_dir_all(&signed)?;
            write_safely(&log, recorded(number)?.as_bytes(), Private::OWN)?;
        }
        let events = read_events(&file, &jaw(number))?.events;
        let is_count = |kind: &EventKind| matches!(kind, EventKind::Counted(_));
        if !events.in_order().iter().any(|event| is_count(&event.kind)) {
            let count = EventKind::Counted(Counted {
                step: StepKey::CountOut { list: None },
                second: Who::signing("Jo Hill")?,
                lines: Vec::new(),
                due: None,
                despite: None,
                purpose: Purpose::Practice,
            });
            let (desk, who) = (WriterId::new("desk")?, Who::signing("Ida Hale")?);
            let now = jiff::Timestamp::now();
            append_event(&file, &jaw(number), &desk, now, who, count)?;
        }
        // Some are counted twice, and some again that were long before.
        let mut files = vec![file.clone()];
        if number % 5 == 0 {
            files.push(file);
        }
        if number % 11 == 0 {
            files.push(case_file(folder, number / 2));
        }
        for file in files {
            let counted = count_case(&kit_file(folder), &kit, &file);
            counted.map_err(|fault| format!("{fault:?}"))?;
        }
        say(&format!("{number}."))?;
    }
    Ok(())
}

/// So many days, closed by writers that are killed.
pub(super) fn series(days: usize) -> Done<()> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let folder = folder.path();
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/kit.json");
    fs::copy(demo, kit_file(folder))?;
    fs::create_dir_all(folder.join("cases"))?;
    let kit = kit(folder)?;
    let cases = [folder.join("cases")];
    let rebuild = || {
        rebuild_wear(&kit_file(folder), &kit, &cases, false).map_err(|fault| format!("{fault:?}"))
    };
    let read = || read_wear(&kit_file(folder), &kit).map_err(|fault| format!("{fault:?}"));
    rebuild()?;
    let begun = Instant::now();
    let mut chance = Chance(0x9e37_79b9_7f4a_7c15);
    let (mut kills, mut there, mut behind, mut halfway) = (0, 0, 0, 0);
    let journal = folder.join("kit.wear-journal");
    while there < days {
        let life = Duration::from_micros(chance.below(LONGEST_US));
        let said = killed_after("wear", folder, life)?;
        kills += 1;
        halfway += usize::from(fs::metadata(&journal).is_ok_and(|about| about.len() > 0));
        let counted = read()?;
        let now = usize::try_from(counted.closings)?;
        let last = said.last().map(|last| last.parse::<usize>()).transpose()?;
        let least = last.map_or(there, |last| last + 1);
        assert!(
            now == least || now == least + 1,
            "{now}, said {last:?}, before {there}"
        );
        assert_eq!(stands(&counted), used_by(now), "after {kills} kills");
        // Closed, and not yet in the ledger.
        let closed =
            fs::read_to_string(events_folder(&case_file(folder, now)).join("desk.events.jsonl"));
        behind += usize::from(closed.is_ok_and(|log| log.contains("count_out")));
        there = now;
    }
    let took = begun.elapsed().as_secs();
    let running = read()?;
    // What was closed and did not come into it by the last kill.
    let last = rebuild()?;
    let all = read()?;
    assert_eq!(stands(&running), used_by(there));
    assert_eq!(stands(&all), used_by(usize::try_from(all.closings)?));
    assert!(all.closings - running.closings <= 1, "{last:?}");
    fs::remove_file(wear_file(&kit_file(folder)))?;
    rebuild()?;
    assert_eq!(read()?, all, "counted anew from nothing");
    super::tell(&format!(
        "wear: {there} closings, {kills} kills in {took} s, {halfway} in the middle of a transaction, {behind} between \
         closing and counting; each use counted once, and counted anew the same"
    ));
    Ok(())
}
