//! The open case: a value, what follows from it, and what was done to it.

use super::disk::Stamps;
use super::elsewhere::Answers;
use super::history::{Gesture, History};
use super::journal::{Journal, Line, Unsaved};
use super::record::Record;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use traywright_core::case::{Edit, EditRefused, ValidCase, apply};
use traywright_core::dentition::Notation;
use traywright_core::plan::{Worksheet, work_out};
use traywright_core::sign::{Fingerprint, Heads};
use traywright_core::store::{Private, Version};
use traywright_core::surgery::{cut_without_site, what_was_cut};
use traywright_core::wording::Formatter;

/// What the file of the open case holds, beside what was last saved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OnDisk {
    /// The same.
    AsSaved,
    /// Another plan of another desk, or nothing that can be read.
    Other,
    /// There is no file.
    Gone,
}

/// The open case.
pub struct Document {
    pub(super) case: Arc<ValidCase>,
    pub(super) worksheet: Arc<Worksheet>,
    pub(super) history: History,
    /// As it is on the disk; nothing where it was never saved.
    pub(super) saved: Option<Arc<ValidCase>>,
    /// Content of the file when it was last read or written here.
    pub(super) version: Version,
    /// Who may read the file, also where it is gone.
    pub(super) private: Private,
    /// True if what was last replaced has another name, under which it stays.
    pub(super) parted: bool,
    /// What the file held when it was last looked at.
    pub(super) on_disk: OnDisk,
    /// State of the files when they were last looked at; nothing before the first look.
    pub(super) stamps: Option<Stamps>,
    pub(super) file: Option<PathBuf>,
    /// What was done since it was saved, on the disk; begun with the first change.
    pub(super) journal: Option<Journal>,
    /// What was left unsaved before and is part of it now.
    pub(super) taken: Vec<Unsaved>,
    /// The folder of journals; none where none is kept.
    pub(super) journal_folder: Option<PathBuf>,
    /// Rises with every change, so that whatever is derived knows when it is old.
    generation: u64,
    /// The last event of each desk that was read of its record here.
    pub(super) known: Heads,
    /// What the places that packs name answered since it was opened.
    answers: Answers,
    /// The signatures for it.
    pub record: Record,
}

impl Document {
    /// A case that was read from a file of this content.
    #[must_use]
    pub fn opened((case, version): (ValidCase, Version), file: PathBuf) -> Self {
        let case = Arc::new(case);
        let mut document = Self::unsaved_of(Arc::clone(&case));
        document.saved = Some(case);
        document.version = version;
        document.private = Private::like(&file);
        document.file = Some(file);
        document.read_record();
        document
    }

    /// A case that has no file yet.
    #[must_use]
    pub fn unsaved(case: ValidCase) -> Self {
        Self::unsaved_of(Arc::new(case))
    }

    /// A case that is built in: nothing is lost with it as long as it is not changed.
    #[must_use]
    pub fn built_in(case: ValidCase) -> Self {
        let mut document = Self::unsaved(case);
        document.saved = Some(Arc::clone(&document.case));
        document
    }

    fn unsaved_of(case: Arc<ValidCase>) -> Self {
        let worksheet = Arc::new(work_out(&case));
        let record = Record::none(&case, &worksheet);
        Self {
            case,
            worksheet,
            history: History::default(),
            saved: None,
            version: Version::NONE,
            private: Private::USUAL,
            parted: false,
            on_disk: OnDisk::AsSaved,
            stamps: None,
            file: None,
            journal: None,
            taken: Vec::new(),
            journal_folder: None,
            generation: 0,
            known: Heads::new(),
            answers: Answers::default(),
            record,
        }
    }

    /// The case.
    #[must_use]
    pub fn case(&self) -> &ValidCase {
        &self.case
    }

    /// Everything that follows from it.
    #[must_use]
    pub fn worksheet(&self) -> &Worksheet {
        &self.worksheet
    }

    /// The case, for work beside the window.
    pub(crate) fn shared_case(&self) -> Arc<ValidCase> {
        Arc::clone(&self.case)
    }

    /// Everything that follows from it, for work beside the window.
    pub(super) fn shared_worksheet(&self) -> Arc<Worksheet> {
        Arc::clone(&self.worksheet)
    }

    /// The formatter for sentences about it.
    #[must_use]
    pub fn formatter(&self, notation: Notation) -> Formatter<'_> {
        Formatter::english(&self.case, notation)
    }

    /// Its file.
    #[must_use]
    pub fn file(&self) -> Option<&Path> {
        self.file.as_deref()
    }

    /// Rises with every change.
    #[must_use]
    pub fn generation(&self) -> u64 {
        self.generation
    }

    /// True if what the last saving replaced has another name (a hard link), under which it stays as it was.
    #[must_use]
    pub const fn has_parted(&self) -> bool {
        self.parted
    }

    /// What its file holds, as it was last looked at.
    #[must_use]
    pub const fn on_disk(&self) -> OnDisk {
        self.on_disk
    }

    /// True if it differs from what is on the disk.
    #[must_use]
    pub fn is_changed(&self) -> bool {
        self.on_disk != OnDisk::AsSaved || self.is_edited()
    }

    /// True if it differs from what was last saved here.
    pub(super) fn is_edited(&self) -> bool {
        self.saved
            .as_ref()
            .is_none_or(|saved| **saved != *self.case)
    }

    /// Carries out edits as one step of a name. Edits of the same gesture are one step together.
    ///
    /// # Errors
    ///
    /// The reason why they were refused; then nothing changed.
    pub fn edit(
        &mut self,
        name: String,
        edits: &[Edit],
        gesture: Option<Gesture>,
    ) -> Result<(), EditRefused> {
        let mut edits = edits.to_vec();
        let mut changed = apply(&self.case, &edits)?;
        if changed != *self.case {
            let standing = &self.record.standing;
            if let Some(site) = cut_without_site(&self.case, standing, &changed) {
                return Err(EditRefused::WasCut(site));
            }
            let cut = self.what_was_cut(&changed);
            if !cut.is_empty() {
                edits.extend(cut);
                changed = apply(&self.case, &edits)?;
            }
            let before = Arc::clone(&self.case);
            self.note_in_journal(&before, &Line::Edits(edits));
            self.history.note(name, before, gesture);
            self.become_case(Arc::new(changed));
        }
        Ok(())
    }

    /// Takes back the last step.
    pub fn undo(&mut self) {
        if let Some(before) = self.history.undo(Arc::clone(&self.case)) {
            self.step_to(before);
        }
    }

    /// Does the last undone step again.
    pub fn redo(&mut self) {
        if let Some(after) = self.history.redo(Arc::clone(&self.case)) {
            self.step_to(after);
        }
    }

    /// Becomes another case otherwise than by edits.
    pub(super) fn step_to(&mut self, case: Arc<ValidCase>) {
        let before = Arc::clone(&self.case);
        let case = self.with_what_was_cut(case);
        self.note_in_journal(&before, &Line::Became(Box::new((**case).clone())));
        self.become_case(case);
    }

    /// The edits after which another version of the case has what was cut.
    fn what_was_cut(&self, other: &ValidCase) -> Vec<Edit> {
        let recorded = (&self.record.view, &self.record.standing);
        let is_cut = self
            .record
            .standing
            .day
            .iter()
            .any(|one| one.kind.is_done());
        let kept = self
            .case
            .sites
            .iter()
            .any(|site| !site.cut_before.is_empty());
        if !is_cut && !kept {
            return Vec::new();
        }
        let worksheet = work_out(other);
        what_was_cut((&self.case, &self.worksheet), recorded, (other, &worksheet))
    }

    /// Another version of the case with what was cut.
    pub(super) fn with_what_was_cut(&self, case: Arc<ValidCase>) -> Arc<ValidCase> {
        let cut = self.what_was_cut(&case);
        match apply(&case, &cut) {
            Ok(with) if !cut.is_empty() => Arc::new(with),
            _ => case,
        }
    }

    /// Name of what would be undone.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        self.history.undo_name()
    }

    /// Name of what would be done again.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.history.redo_name()
    }

    /// Names of the steps done since the plan had this fingerprint; nothing where it had it before
    /// the case was opened, or never.
    #[must_use]
    pub fn steps_since(&self, fingerprint: Fingerprint) -> Option<Vec<&str>> {
        self.history.since(|case| case.fingerprint() == fingerprint)
    }

    /// Number of steps that can be undone.
    #[must_use]
    pub fn steps(&self) -> usize {
        self.history.len()
    }

    /// Reads anew what was signed beside the file.
    pub fn read_record(&mut self) {
        if let Some(file) = &self.file {
            let known = (&mut self.known, &mut self.answers);
            self.record = Record::read(file, &self.case, &self.worksheet, known);
        }
    }

    pub(super) fn become_case(&mut self, case: Arc<ValidCase>) {
        self.worksheet = Arc::new(work_out(&case));
        self.case = case;
        self.generation += 1;
        self.record.held_against(&self.case, &self.worksheet);
    }
}
