//! Two desks that work on one case at once: each saves its own site and records its own events, in turn with the other as
//! it comes.

use super::Done;
use super::child::{case_file, case_in, numbered, opened, prepare, save_number};
use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;
use traywright_core::plan::case_jaw;
use traywright_core::sign::EventKind;
use traywright_core::store::read_events;

const DESKS: [&str; 2] = ["0", "1"];

/// One of the two: so many saves and as many events.
pub(super) fn desk(desk: &str, folder: &Path, times: usize) -> Done<()> {
    let site: usize = desk.parse()?;
    let mut document = opened(folder)?;
    for number in 1..=times {
        let told = |what: &str, error: &dyn std::fmt::Display| format!("{what} {number}: {error}");
        save_number(&mut document, site, number, &format!("desk-{desk}"))
            .map_err(|error| told("save", &error))?;
        let now = jiff::Timestamp::now();
        document
            .sign(now, &format!("desk-{desk}"), "Ida Hale", numbered(number))
            .map_err(|error| told("event", &error))?;
    }
    Ok(())
}

/// Both at once, with as many writes together as asked for; then nothing is lost and nothing there twice.
pub(super) fn both(writes: usize) -> Done<()> {
    let each = writes.div_ceil(4);
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    prepare(folder.path())?;
    let begun = Instant::now();
    let mut at_work = Vec::new();
    for desk in DESKS {
        let process = Command::new(std::env::current_exe()?)
            .args(["desk", desk])
            .arg(folder.path())
            .arg(each.to_string())
            .stderr(Stdio::piped())
            .spawn()?;
        at_work.push((desk, process));
    }
    // Both are waited for before either is judged, so that what both say is told.
    let mut stopped = Vec::new();
    for (desk, process) in at_work {
        let ended = process.wait_with_output()?;
        if !ended.status.success() {
            let said = String::from_utf8_lossy(&ended.stderr).into_owned();
            stopped.push(format!("desk {desk} stopped, {}: {said}", ended.status));
        }
    }
    if !stopped.is_empty() {
        return Err(stopped.join("\n").into());
    }
    let (case, _) = case_in(folder.path())?;
    for site in [0, 1] {
        let note = case.sites[site].note.as_deref();
        assert_eq!(note, Some(&*each.to_string()), "a save is lost");
    }
    for desk in DESKS {
        let name = format!("desk-{desk}");
        let saves = case.saves.iter().filter(|save| save.desk.as_str() == name);
        // A case keeps the last 500 saves.
        assert!(
            saves.count() == each || 2 * each > 500,
            "a save of {name} is lost or there twice"
        );
    }
    let beside = read_events(&case_file(folder.path()), &case_jaw(&case))?;
    assert_eq!(beside.problems, [], "a break");
    let mut counted: BTreeMap<String, usize> = BTreeMap::new();
    for event in beside.events.in_order() {
        let EventKind::Note { text } = &event.kind else {
            return Err("another event".into());
        };
        let count = counted.entry(event.writer.to_string()).or_default();
        *count += 1;
        assert_eq!(*text, count.to_string(), "one is lost or there twice");
    }
    assert_eq!(counted.values().copied().collect::<Vec<_>>(), [each, each]);
    let took = begun.elapsed().as_secs();
    println!(
        "two desks: {} saves and as many events in {took} s, revision {}; none lost, none twice",
        2 * each,
        case.revision
    );
    Ok(())
}
