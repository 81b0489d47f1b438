//! Changes on the disk beside what is open: another desk may save the plan or sign meanwhile.

use super::refusal::{refused_by_disk, refused_document};
use super::{Document, OnDisk};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;
use traywright_core::case::{Apart, differing, read_case};
use traywright_core::document::MOST_BYTES;
use traywright_core::store::{StoreFault, Version, events_folder, read_file};
use traywright_core::text::Texts;

/// State of a case file and the event files beside it when they were last looked at: time of the
/// last change and length. Files that are not there are recorded as nothing. What lies beside counts under
/// whatever name, as it does where it is read.
#[derive(Debug, Clone, PartialEq, Eq)]
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

/// What was found on the disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Followed {
    /// Nothing new of the plan.
    Same,
    /// Another desk saved these parts, and they are taken over.
    Taken(Vec<Apart>),
    /// Another desk saved these parts, and nothing is taken over, since there are unsaved changes here.
    Waits(Vec<Apart>),
    /// The file cannot be read, and why.
    Unread(String),
    /// The file is another case now, of this name, and nothing is taken over.
    OtherCase(String),
    /// The file is gone.
    Gone,
}

impl Document {
    /// Takes over what another desk wrote, if its files changed since they were last looked at: what
    /// was signed always, the plan as long as nothing here is unsaved.
    pub fn follow_disk(&mut self) -> Followed {
        let Some(file) = self.file().map(Path::to_owned) else {
            return Followed::Same;
        };
        let now = Stamps::of(&file);
        let before = self.stamps.replace(now.clone());
        let is_same = |same: fn(&Stamps, &Stamps) -> bool| {
            before.as_ref().is_some_and(|before| same(before, &now))
        };
        if !is_same(|before, now| before.signed == now.signed) {
            self.read_record();
        }
        if is_same(|before, now| before.case == now.case) {
            return Followed::Same;
        }
        self.look_at_file(&file)
    }

    /// The same whether or not the files seem to have changed.
    pub fn read_anew(&mut self) -> Followed {
        let Some(file) = self.file().map(Path::to_owned) else {
            return Followed::Same;
        };
        self.stamps = Some(Stamps::of(&file));
        self.read_record();
        self.look_at_file(&file)
    }

    fn look_at_file(&mut self, file: &Path) -> Followed {
        let bytes = match read_file(file, MOST_BYTES as u64) {
            Ok(bytes) => bytes,
            Err(error) if error.fault == StoreFault::NotFound => {
                self.on_disk = OnDisk::Gone;
                return Followed::Gone;
            }
            Err(error) => {
                self.on_disk = OnDisk::Other;
                return Followed::Unread(refused_by_disk(&error).0);
            }
        };
        let version = Version::of(&bytes);
        if version == self.version {
            self.on_disk = OnDisk::AsSaved;
            return Followed::Same;
        }
        let case = match read_case(&bytes) {
            Ok(case) => case,
            Err(faults) => {
                self.on_disk = OnDisk::Other;
                return Followed::Unread(refused_document(file, &faults).0);
            }
        };
        if self.is_other(&case) {
            self.on_disk = OnDisk::Other;
            return Followed::OtherCase(self.name_of_other(&case));
        }
        if self.is_edited() && self.saved.as_deref() != Some(&case) {
            self.on_disk = OnDisk::Other;
            let saved = self.saved.as_deref().unwrap_or(self.case());
            return Followed::Waits(differing(saved, &case));
        }
        self.version = version;
        self.on_disk = OnDisk::AsSaved;
        if self.saved.as_deref() == Some(&case) {
            return Followed::Same;
        }
        // What was done and taken back again started from another case.
        self.drop_journal();
        let taken = differing(self.case(), &case);
        let name = Texts::english().get("window-plan-from-disk", &[]);
        self.history.note(name, Arc::clone(&self.case), None);
        let case = Arc::new(case);
        self.saved = Some(Arc::clone(&case));
        let case = self.with_what_was_cut(case);
        self.become_case(case);
        Followed::Taken(taken)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case, read_case_file};
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
        let document = Document::opened(read_case_file(&file).unwrap(), file.clone());
        (folder, file, case, document)
    }

    #[test]
    fn a_plan_saved_elsewhere_is_taken_over_and_can_be_undone() {
        let (_folder, file, case, mut document) = opened();
        assert_eq!(document.follow_disk(), Followed::Same);
        let generation = document.generation();
        assert_eq!(document.follow_disk(), Followed::Same);
        assert_eq!(
            document.generation(),
            generation,
            "nothing new, nothing done"
        );
        write(&file, &noted(&case, "from another desk"));
        assert!(matches!(document.follow_disk(), Followed::Taken(_)));
        assert_eq!(document.case().note.as_deref(), Some("from another desk"));
        assert!(!document.is_changed());
        document.undo();
        assert_eq!(*document.case(), case);
    }

    #[test]
    fn what_is_unsaved_here_is_not_lost_to_a_plan_saved_elsewhere() {
        let (_folder, file, case, mut document) = opened();
        document.follow_disk();
        let edit = Edit::SetNote(Some("mine".to_owned()));
        document.edit("note".to_owned(), &[edit], None).unwrap();
        write(&file, &noted(&case, "from another desk, longer"));
        assert!(matches!(document.follow_disk(), Followed::Waits(_)));
        assert_eq!(document.case().note.as_deref(), Some("mine"));
        assert_eq!(document.follow_disk(), Followed::Same, "told once");
    }

    #[test]
    fn a_file_that_is_gone_or_damaged_is_told_and_the_plan_stays() {
        let (_folder, file, case, mut document) = opened();
        document.follow_disk();
        std::fs::write(&file, "{").unwrap();
        assert!(matches!(document.follow_disk(), Followed::Unread(_)));
        assert!(document.is_changed());
        std::fs::remove_file(&file).unwrap();
        assert_eq!(document.follow_disk(), Followed::Gone);
        assert!(document.is_changed(), "closing has to ask");
        assert_eq!(*document.case(), case);
        write(&file, &case);
        assert_eq!(document.follow_disk(), Followed::Same);
        assert!(!document.is_changed());
    }

    /// A log that came under another name is no less of the record.
    #[test]
    fn a_log_under_another_name_is_seen() {
        let (folder, file, _, mut document) = opened();
        let signed = folder.path().join("case.signed");
        std::fs::create_dir(&signed).unwrap();
        document.follow_disk();
        assert!(!document.record.standing.broken);
        std::fs::write(signed.join("room.events.jsonl.conflict"), "{\"prev_hash\":").unwrap();
        document.follow_disk();
        assert!(document.record.standing.broken);
        assert!(file.exists());
    }

    /// What this program had read and is gone may have been a withdrawal.
    #[test]
    fn what_was_read_here_and_is_gone_breaks_the_record_until_it_is_back_or_put_aside() {
        let (folder, file, _, mut document) = opened();
        let mut other = Document::opened(read_case_file(&file).unwrap(), file);
        let note = |text: &str| EventKind::Note {
            text: text.to_owned(),
        };
        let now = jiff::Timestamp::from_second(1_900_000_000).unwrap();
        other.sign(now, "theatre", "MK", note("one")).unwrap();
        other.sign(now, "theatre", "MK", note("two")).unwrap();
        document.follow_disk();
        let log = folder.path().join("case.signed/theatre.events.jsonl");
        let whole = std::fs::read_to_string(&log).unwrap();
        let lines: Vec<&str> = whole.split_inclusive('\n').collect();
        for less in [None, Some(lines[..2].concat())] {
            match less {
                None => std::fs::remove_file(&log).unwrap(),
                Some(less) => std::fs::write(&log, less).unwrap(),
            }
            document.follow_disk();
            assert!(document.record.standing.broken);
            assert!(
                document
                    .record
                    .problems
                    .iter()
                    .any(|told| told.contains("theatre"))
            );
            document.read_anew();
            assert!(document.record.standing.broken, "it stays so");
            std::fs::write(&log, &whole).unwrap();
            document.read_anew();
            assert!(!document.record.standing.broken);
        }
        std::fs::remove_file(&log).unwrap();
        document.read_anew();
        document.put_record_aside(now, "desk-1", "MK").unwrap();
        assert!(
            !document.record.standing.broken,
            "{:?}",
            document.record.problems
        );
        document.sign(now, "desk-1", "MK", note("anew")).unwrap();
        assert!(!document.record.standing.broken);
    }

    #[test]
    fn what_another_desk_signs_is_seen() {
        let (_folder, file, _, mut document) = opened();
        let mut other = Document::opened(read_case_file(&file).unwrap(), file);
        let note = EventKind::Note {
            text: "seen".to_owned(),
        };
        let now = jiff::Timestamp::from_second(1_900_000_000).unwrap();
        other.sign(now, "theatre", "MK", note).unwrap();
        assert!(document.record.events.in_order().is_empty());
        document.follow_disk();
        assert_eq!(document.record.events.in_order().len(), 1);
    }
}
