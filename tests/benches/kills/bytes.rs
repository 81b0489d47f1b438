//! Each byte of a case, of its record and of a journal flipped: the file is refused, the approval lapses, or the byte is of
//! a part that no hand acts on. Those parts are listed, by their place in the file.

use super::Done;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use traywright::desk::{Document, LeftBehind};
use traywright_core::case::{Edit, ValidCase, read_case};
use traywright_core::plan::{case_jaw, plan_view, work_out};
use traywright_core::sign::{
    Approval, ApprovalStanding, EventKind, Policy, Who, WriterId, standing,
};
use traywright_core::store::{Version, append_event, events_folder, read_events};

const DEMOS: [&str; 2] = ["one-premolar", "two-molars"];

/// Looks at two of the invented cases: of each file at one byte in so many, at all of them by 1.
pub(super) fn all(step: usize) -> Done<()> {
    for demo in DEMOS {
        let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
        let file = folder.path().join("case.json");
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../demo/{demo}.json"));
        fs::copy(from, &file)?;
        case(demo, &file, step)?;
        record(demo, &file, step)?;
        journal(demo, &file, &folder.path().join("unsaved"), step)?;
    }
    Ok(())
}

/// Approves a case, whatever is open in it.
fn approve(file: &Path, case: &ValidCase) -> Done<()> {
    let worksheet = work_out(case);
    let jaw = case_jaw(case);
    let view = plan_view(case, &worksheet, &read_events(file, &jaw)?.events);
    let approval = Approval {
        fingerprint: view.fingerprint,
        covers: view.covers,
        revision: worksheet.revision,
        accepted: view.accepted.clone(),
        purpose: view.purpose,
    };
    let (writer, who) = (WriterId::new("desk")?, Who::signing("Ida Hale")?);
    let now = jiff::Timestamp::now();
    append_event(file, &jaw, &writer, now, who, EventKind::Approval(approval))?;
    Ok(())
}

/// True if the approval of a file counts for a case as it would be read now.
fn is_approved(file: &Path, case: &ValidCase) -> Done<bool> {
    let events = read_events(file, &case_jaw(case))?.events;
    let view = plan_view(case, &work_out(case), &events);
    let standing =
        standing(&events, &view, &Policy::strict(20)).map_err(|fault| format!("{fault:?}"))?;
    let mut approvals = standing.approvals.iter();
    let counts = |one: &ApprovalStanding| one.is_valid() || one.is_practised();
    Ok(!standing.broken && approvals.any(counts))
}

fn case(demo: &str, file: &Path, step: usize) -> Done<()> {
    let whole = fs::read(file)?;
    let good = read_case(&whole).map_err(|faults| format!("{faults:?}"))?;
    approve(file, &good)?;
    assert!(is_approved(file, &good)?, "{demo} is approved as it is");
    let fingerprint = good.fingerprint();
    let places = places(&whole);
    let (mut refused, mut lapsed) = (0, 0);
    let mut stays: BTreeMap<String, usize> = BTreeMap::new();
    for at in (0..whole.len()).step_by(step) {
        let mut bytes = whole.clone();
        bytes[at] ^= 1;
        let Ok(case) = read_case(&bytes) else {
            refused += 1;
            continue;
        };
        let of_other = case_jaw(&case) != case_jaw(&good);
        if case.fingerprint() != fingerprint || of_other {
            lapsed += 1;
            continue;
        }
        // The rest of what an approval hangs on is looked at once for each place, and each time where a surgeon's word is.
        let place = &places[at];
        let is_new = !stays.contains_key(place);
        if (is_new || place.starts_with("judgements")) && !is_approved(file, &case)? {
            lapsed += 1;
        } else {
            *stays.entry(place.clone()).or_default() += 1;
        }
    }
    let left: usize = stays.values().sum();
    println!(
        "{demo}: of {} bytes of the case {refused} refused, {lapsed} lapsed, {left} stay approved:",
        whole.len().div_ceil(step)
    );
    for (place, count) in stays {
        println!("  {count:>6}  {place}");
    }
    Ok(())
}

fn record(demo: &str, file: &Path, step: usize) -> Done<()> {
    let case = read_case(&fs::read(file)?).map_err(|faults| format!("{faults:?}"))?;
    let jaw = case_jaw(&case);
    let good = read_events(file, &jaw)?.events;
    let log = events_folder(file).join("desk.events.jsonl");
    let whole = fs::read(&log)?;
    let (mut broken, mut same) = (0, 0);
    for at in (0..whole.len()).step_by(step) {
        let mut bytes = whole.clone();
        bytes[at] ^= 1;
        fs::write(&log, &bytes)?;
        let read = read_events(file, &jaw)?.events;
        if read.is_broken() {
            broken += 1;
        } else {
            assert!(
                read.in_order() == good.in_order(),
                "{demo}: byte {at} says another thing"
            );
            same += 1;
        }
    }
    fs::write(&log, &whole)?;
    println!(
        "{demo}: of {} bytes of its events {broken} break the record, {same} say the same",
        whole.len().div_ceil(step)
    );
    Ok(())
}

fn journal(demo: &str, file: &Path, folder: &Path, step: usize) -> Done<()> {
    let bytes = fs::read(file)?;
    let case = read_case(&bytes).map_err(|faults| format!("{faults:?}"))?;
    let mut document = Document::opened((case, Version::of(&bytes)), file.to_owned());
    document.keep_journal(Some(folder.to_owned()));
    for note in ["one", "two", "three"] {
        let edit = Edit::SetNote(Some(note.to_owned()));
        let edited = document.edit("note".to_owned(), &[edit], None);
        edited.map_err(|refused| format!("{refused:?}"))?;
    }
    let wanted = document.case().clone();
    document.flush_journal();
    let path = fs::read_dir(folder)?.next().ok_or("no journal")??.path();
    let whole = fs::read(&path)?;
    let (mut unread, mut cut, mut same) = (0, 0, 0);
    for at in (0..whole.len()).step_by(step) {
        let mut bytes = whole.clone();
        bytes[at] ^= 1;
        fs::write(&path, &bytes)?;
        let left = LeftBehind::of(folder, Some(file));
        match &left.unsaved[..] {
            [one] if one.is_cut => cut += 1,
            [one] => {
                assert!(
                    one.case == wanted,
                    "{demo}: byte {at} of the journal says another thing"
                );
                same += 1;
            }
            _ => unread += 1,
        }
    }
    println!(
        "{demo}: of {} bytes of a journal {unread} make it unreadable, {cut} cut it off and say so, {same} say the same",
        whole.len().div_ceil(step)
    );
    Ok(())
}

/// The place of each byte of a JSON text: the keys that lead to its value, those of lists left out.
fn places(text: &[u8]) -> Vec<String> {
    let mut places = vec!["(between values)".to_owned(); text.len()];
    // The keys that lead here; nothing for the items of a list.
    let mut keys: Vec<Option<String>> = Vec::new();
    let mut at = 0;
    while at < text.len() {
        match text[at] {
            b'{' => keys.push(Some(String::new())),
            b'[' => keys.push(None),
            b'}' | b']' => drop(keys.pop()),
            b'"' => {
                let end = end_of_text(text, at);
                let after = text[end..].iter().find(|byte| !byte.is_ascii_whitespace());
                let own = String::from_utf8_lossy(&text[at + 1..end - 1]).into_owned();
                if after == Some(&b':')
                    && let Some(Some(key)) = keys.last_mut()
                {
                    *key = own;
                    places[at..end].fill(path(&keys) + " (its key)");
                } else {
                    places[at..end].fill(path(&keys));
                }
                at = end;
                continue;
            }
            byte if byte.is_ascii_whitespace() || byte == b':' || byte == b',' => {}
            _ => places[at] = path(&keys),
        }
        at += 1;
    }
    places
}

fn path(keys: &[Option<String>]) -> String {
    let keys = keys.iter().flatten().map(String::as_str);
    keys.collect::<Vec<_>>().join(".")
}

/// The end of a text that begins here.
fn end_of_text(text: &[u8], from: usize) -> usize {
    let mut at = from + 1;
    while at < text.len() && text[at] != b'"' {
        at += if text[at] == b'\\' { 2 } else { 1 };
    }
    (at + 1).min(text.len())
}
