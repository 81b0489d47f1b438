//! Changes on the disk beside what is open: another desk may save the plan or sign meanwhile.

use super::{Document, Record, read_case_file};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;
use traywright_core::store::events_folder;
use traywright_core::text::Texts;

/// State of a case file and the event files beside it when they were last looked at: time of the
/// last change and length. Files that are not there are recorded as nothing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Stamps {
    case: Option<(SystemTime, u64)>,
    signed: Vec<(PathBuf, Option<(SystemTime, u64)>)>,
}

impl Stamps {
    /// Their state now.
    #[must_use]
    pub fn of(case_file: &Path) -> Self {
        let entries = std::fs::read_dir(events_folder(case_file));
        let mut signed: Vec<PathBuf> = entries
            .into_iter()
            .flatten()
            .filter_map(|entry| Some(entry.ok()?.path()))
            .filter(|path| path.extension().is_some_and(|ending| ending == "jsonl"))
            .collect();
        signed.sort();
        Self {
            case: stamp(case_file),
            signed: signed
                .into_iter()
                .map(|path| {
                    let stamp = stamp(&path);
                    (path, stamp)
                })
                .collect(),
        }
    }
}

fn stamp(file: &Path) -> Option<(SystemTime, u64)> {
    let about = std::fs::metadata(file).ok()?;
    Some((about.modified().ok()?, about.len()))
}

impl Document {
    /// Takes over what another desk wrote: what was signed always, the plan as long as nothing here
    /// is unsaved.
    ///
    /// # Errors
    ///
    /// The reason why the plan on the disk was not taken over, as a sentence. It is given once for
    /// each change of the file.
    pub fn follow_disk(&mut self) -> Result<(), String> {
        let Some(file) = self.file().map(Path::to_owned) else {
            return Ok(());
        };
        let now = Stamps::of(&file);
        let before = std::mem::replace(&mut self.stamps, now.clone());
        if before.signed != now.signed {
            self.record = Record::read(&file, &self.case, &self.worksheet);
        }
        if before.case == now.case {
            return Ok(());
        }
        let case = read_case_file(&file).map_err(|refused| refused.0)?;
        if self.saved.as_deref() == Some(&case) {
            return Ok(());
        }
        let texts = Texts::english();
        if self.is_changed() {
            return Err(texts.get("window-saved-elsewhere", &[]));
        }
        let name = texts.get("window-plan-from-disk", &[]);
        self.history.note(name, Arc::clone(&self.case), None);
        let case = Arc::new(case);
        self.saved = Some(Arc::clone(&case));
        self.become_case(case);
        // Its reference may be another one, and what was signed belongs to that.
        self.read_record();
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};
    use traywright_core::case::{Case, Edit, ValidCase};
    use traywright_core::document::print;
    use traywright_core::sign::EventKind;

    fn write(file: &Path, case: &ValidCase) {
        std::fs::write(file, print(&**case).unwrap()).unwrap();
    }

    fn noted(case: &ValidCase, note: &str) -> ValidCase {
        let mut other: Case = (**case).clone();
        other.note = Some(note.to_owned());
        ValidCase::checked(&other).unwrap()
    }

    /// A folder with the first demo case and the document opened from it.
    fn opened() -> (tempfile::TempDir, PathBuf, ValidCase, Document) {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("case.json");
        let case = demo_case(DEMOS[0].1);
        write(&file, &case);
        let document = Document::opened(case.clone(), file.clone());
        (folder, file, case, document)
    }

    #[test]
    fn a_plan_saved_elsewhere_is_taken_over_and_can_be_undone() {
        let (_folder, file, case, mut document) = opened();
        assert_eq!(document.follow_disk(), Ok(()));
        let generation = document.generation();
        assert_eq!(document.follow_disk(), Ok(()));
        assert_eq!(
            document.generation(),
            generation,
            "nothing new, nothing done"
        );
        write(&file, &noted(&case, "from another desk"));
        assert_eq!(document.follow_disk(), Ok(()));
        assert_eq!(document.case().note.as_deref(), Some("from another desk"));
        assert!(!document.is_changed());
        document.undo();
        assert_eq!(*document.case(), case);
    }

    #[test]
    fn what_is_unsaved_here_is_not_lost_to_a_plan_saved_elsewhere() {
        let (_folder, file, case, mut document) = opened();
        document.follow_disk().unwrap();
        let edit = Edit::SetNote(Some("mine".to_owned()));
        document.edit("note".to_owned(), &[edit], None).unwrap();
        write(&file, &noted(&case, "from another desk, longer"));
        assert!(document.follow_disk().is_err());
        assert_eq!(document.case().note.as_deref(), Some("mine"));
        assert_eq!(document.follow_disk(), Ok(()), "told once");
    }

    #[test]
    fn a_file_that_is_gone_or_damaged_is_told_and_the_plan_stays() {
        let (_folder, file, case, mut document) = opened();
        document.follow_disk().unwrap();
        std::fs::write(&file, "{").unwrap();
        assert!(document.follow_disk().is_err());
        std::fs::remove_file(&file).unwrap();
        assert!(document.follow_disk().is_err());
        assert_eq!(*document.case(), case);
    }

    #[test]
    fn what_another_desk_signs_is_seen() {
        let (_folder, file, case, mut document) = opened();
        let mut other = Document::opened(case, file);
        let note = EventKind::Note {
            text: "seen".to_owned(),
        };
        let now = jiff::Timestamp::from_second(1_900_000_000).unwrap();
        other.sign(now, "theatre", "MK", note).unwrap();
        assert!(document.record.events.in_order().is_empty());
        document.follow_disk().unwrap();
        assert_eq!(document.record.events.in_order().len(), 1);
    }
}
