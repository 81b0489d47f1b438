//! What a killed writer left: everything that it said was written, and nothing that cannot be read.

use super::Done;
use super::child::{case_file, case_in, number_in, unsaved};
use std::fs;
use std::path::Path;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{EventKind, Who, WriterId};
use traywright_core::store::{LeftJournal, mend_torn, read_events, unpack};

/// Looks at what is there, beside what was there after the kill before.
pub(super) fn at(kind: &str, folder: &Path, said: &[String], before: &mut usize) -> Done<()> {
    match kind {
        "save" => {
            let (case, _) = case_in(folder)?;
            let there = number_in(&case);
            let last: usize = said.last().map_or(Ok(0), |last| last.parse())?;
            // The one that it was at may be there, said or not.
            let least = last.max(*before);
            assert!(
                there == least || there == least + 1,
                "{there}, said {last}, before {before}"
            );
            *before = there;
        }
        "event" => {
            let jaw = case_jaw(&case_in(folder)?.0);
            let (desk, who) = (WriterId::new("desk")?, Who::signing("Ida Hale")?);
            let now = jiff::Timestamp::now();
            mend_torn(&case_file(folder), &jaw, &desk, now, &who)?;
            let beside = read_events(&case_file(folder), &jaw)?;
            assert_eq!(beside.problems, [], "a break");
            let mut there = 0;
            for event in beside.events.in_order() {
                match &event.kind {
                    EventKind::Note { text } => {
                        assert_eq!(*text, there.to_string(), "one is lost or there twice");
                        there += 1;
                    }
                    // A line that was cut off is told where it was mended.
                    EventKind::LineLost { .. } | EventKind::SetAside { .. } => {}
                    _ => return Err("another event".into()),
                }
            }
            let last: Option<usize> = said.last().map(|last| last.parse()).transpose()?;
            assert!(
                last.is_none_or(|last| there > last),
                "{there}, said {last:?}"
            );
            assert!(there >= *before, "{there}, before {before}");
            *before = there;
            if there > 200 {
                *before = 0;
                // So that a long record does not make the series one of reading.
                fs::remove_dir_all(folder.join("case.signed"))?;
            }
        }
        "journal" => {
            let left = LeftJournal::of(&unsaved(folder), Some(&case_file(folder)));
            let mut found = said.is_empty();
            for journal in left {
                let text = String::from_utf8(journal.bytes.clone()?)?;
                found |= said
                    .iter()
                    .zip(text.lines())
                    .all(|(said, line)| said == line)
                    && text.lines().count() >= said.len();
                journal.remove();
            }
            assert!(found, "a line that was said to be written is not there");
        }
        _ => {
            let (case, _) = case_in(folder)?;
            for entry in fs::read_dir(folder)? {
                let path = entry?.path();
                if path.extension().is_none_or(|ending| ending != "pack") {
                    continue;
                }
                let to = path.with_extension("");
                let unpacked = unpack(&path, &to, None)?;
                assert_eq!(fs::read(unpacked)?, fs::read(case_file(folder))?);
                assert_eq!(case.sites.len(), 6);
                fs::remove_dir_all(to)?;
            }
            for name in said {
                fs::remove_file(folder.join(name))?;
            }
            // One that it had finished and did not come to say.
            for entry in fs::read_dir(folder)? {
                let path = entry?.path();
                if path.extension().is_some_and(|ending| ending == "pack") {
                    fs::remove_file(path)?;
                }
            }
        }
    }
    Ok(())
}
