//! The journal of the open case: every step since it was saved, on the disk within a second.
//!
//! It is written by a thread of its own, so that no hand waits for the disk, and stays where the program ends
//! otherwise than by a person who saves or gives up what was changed.

use super::Document;
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, OnceLock};
use std::thread::JoinHandle;
use traywright_core::case::{
    Apart, Case, Edit, Together, ValidCase, apply, bring_together, differing,
};
use traywright_core::store::{JournalFile, JournalSum, LeftJournal, StoreError};
use traywright_core::text::Texts;

/// Version of the form of a journal.
const VERSION: u32 = 1;

/// The first line: what the steps start from.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Header {
    traywright_journal: u32,
    /// The file of the case; nothing where it had none yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    file: Option<PathBuf>,
    base: Case,
    /// True if each line, this one too, ends with its checksum; older programs wrote none.
    #[serde(default, skip_serializing_if = "is_false")]
    sums: bool,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks with a reference"
)]
const fn is_false(sums: &bool) -> bool {
    !*sums
}

/// Any other line.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Line {
    /// These edits were carried out.
    Edits(Vec<Edit>),
    /// The case became this one: a step was taken back or done again, or what another desk saved was taken over.
    Became(Box<Case>),
}

/// A journal and the thread that writes it.
pub(super) struct Journal {
    lines: Option<Sender<String>>,
    /// The checksum of all lines so far.
    sum: JournalSum,
    thread: Option<JoinHandle<Option<JournalFile>>>,
    /// Why the disk takes no more of it.
    fault: Arc<OnceLock<StoreError>>,
}

impl Journal {
    fn begin(folder: PathBuf, file: Option<PathBuf>, header: &Header) -> Option<Self> {
        let mut sum = JournalSum::default();
        let first = sum.sealed(&serde_json::to_string(header).ok()?);
        let (lines, written) = channel();
        let fault = Arc::new(OnceLock::new());
        let told = Arc::clone(&fault);
        let write = move || {
            let written = write(&folder, file.as_deref(), &first, &written);
            // It is told once: nothing comes after it.
            written.map_err(|error| told.set(error)).ok()
        };
        let thread = std::thread::Builder::new().name("journal".to_owned());
        Some(Self {
            lines: Some(lines),
            sum,
            thread: Some(thread.spawn(write).ok()?),
            fault,
        })
    }

    fn line(&mut self, line: &Line) {
        if let (Some(lines), Ok(text)) = (&self.lines, serde_json::to_string(line)) {
            // Where the thread could not write there is nobody to take it.
            let _ = lines.send(self.sum.sealed(&text));
        }
    }

    /// Waits until everything is on the disk, and ends the thread.
    fn end(&mut self) -> Option<JournalFile> {
        self.lines = None;
        self.thread.take()?.join().ok()?
    }
}

/// Writes lines as they come, those that wait together.
fn write(
    folder: &Path,
    file: Option<&Path>,
    first: &str,
    lines: &Receiver<String>,
) -> Result<JournalFile, StoreError> {
    let mut journal = JournalFile::begin(folder, file, first)?;
    while let Ok(mut text) = lines.recv() {
        text.extend(lines.try_iter());
        journal.append(&text)?;
    }
    Ok(journal)
}

impl Document {
    /// Keeps a journal in this folder from now on.
    pub fn keep_journal(&mut self, folder: Option<PathBuf>) {
        self.journal_folder = folder;
    }

    /// Adds a line; `before` is the case before it.
    pub(super) fn note_in_journal(&mut self, before: &ValidCase, line: &Line) {
        if self.journal.is_none() {
            let base = self.saved.as_deref().filter(|_| self.file().is_some());
            let header = Header {
                traywright_journal: VERSION,
                file: self.file().map(Path::to_owned),
                base: (**base.unwrap_or(before)).clone(),
                sums: true,
            };
            let folder = self.journal_folder.clone();
            let file = self.file().map(Path::to_owned);
            self.journal = folder.and_then(|folder| Journal::begin(folder, file, &header));
            // What was done before the journal began, such as steps of before the last save.
            if let Some(journal) = self.journal.as_mut().filter(|_| header.base != **before) {
                journal.line(&Line::Became(Box::new((**before).clone())));
            }
        }
        if let Some(journal) = &mut self.journal {
            journal.line(line);
        }
    }

    /// Why what is done here would not come back if the program died: the disk takes no journal.
    #[must_use]
    pub fn journal_fault(&self) -> Option<&StoreError> {
        self.journal.as_ref()?.fault.get()
    }

    /// Takes unsaved changes over as a step that can be undone. Their journal stays until the case is saved or given up.
    pub fn take_unsaved(&mut self, case: ValidCase, from: Box<Unsaved>) {
        let name = Texts::english().get("unsaved-step", &[]);
        self.history.note(name, self.shared_case(), None);
        self.step_to(Arc::new(case));
        self.taken_from(from);
    }

    /// Says that this case is what was left there.
    pub fn taken_from(&mut self, from: Box<Unsaved>) {
        self.taken.push(*from);
    }

    /// True if this was taken over here already.
    #[must_use]
    pub fn has_taken(&self, unsaved: &Unsaved) -> bool {
        let mut taken = self.taken.iter();
        taken.any(|one| one.journal.path == unsaved.journal.path)
    }

    /// Brings what was done to the disk and leaves it there.
    pub fn flush_journal(&mut self) {
        if let Some(mut journal) = self.journal.take() {
            journal.end();
        }
    }

    /// Gives up what is in the journal: it is saved, or a person gave it up.
    pub fn drop_journal(&mut self) {
        if let Some(file) = self.journal.take().and_then(|mut journal| journal.end()) {
            file.remove();
        }
        for taken in self.taken.drain(..) {
            taken.remove();
        }
    }
}

/// Changes that were never saved, as a program left them that ended otherwise than by a person.
#[derive(Debug, Clone)]
pub struct Unsaved {
    journal: LeftJournal,
    /// The time of the last of them.
    pub at: Option<jiff::Timestamp>,
    /// The case that they start from.
    base: ValidCase,
    /// The case with all of them.
    pub case: ValidCase,
    /// True if there were more of them, behind a line that is damaged: those are lost.
    pub is_cut: bool,
    /// The file of the case; nothing where it had none.
    file: Option<PathBuf>,
    /// Where the case was when they were made, where they are offered with one that lies elsewhere.
    moved_from: Option<MovedFrom>,
}

/// Where a case was, changes of which are offered with one that lies elsewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MovedFrom {
    /// Its file then.
    pub file: PathBuf,
    /// True if this is not that case, nor was saved from it: both were saved from one case, and each went on by itself.
    pub is_sibling: bool,
}

/// What was left of a case by programs that ended otherwise than by a person.
#[derive(Debug, Default)]
pub struct LeftBehind {
    /// The changes, the oldest first.
    pub unsaved: Vec<Unsaved>,
    /// The journals that cannot be read here, such as one of a newer program. They stay where they are.
    pub unread: Vec<PathBuf>,
    /// Where this case may have been when changes were made that are not among these: nobody knows whether it lies there
    /// still, so that nobody knows whose they are.
    pub unanswered: Vec<PathBuf>,
}

impl LeftBehind {
    /// What was left of a case file, or of cases without one.
    #[must_use]
    pub fn of(folder: &Path, file: Option<&Path>) -> Self {
        let mut left = Self::default();
        for journal in LeftJournal::of(folder, file) {
            match Unsaved::of_journal(journal) {
                Ok(unsaved) => left.unsaved.extend(unsaved),
                Err(unread) => left.unread.push(unread),
            }
        }
        left
    }
}

impl Unsaved {
    /// What a journal holds: nothing where its first line was never finished. One that cannot be read gives its
    /// path back.
    pub(super) fn of_journal(journal: LeftJournal) -> Result<Option<Self>, PathBuf> {
        let Ok(bytes) = &journal.bytes else {
            return Err(journal.path);
        };
        let text = String::from_utf8_lossy(bytes);
        // What follows the last line end was never finished, but where it is whole by its checksum.
        let Some((whole, rest)) = text.rsplit_once('\n') else {
            return Ok(None);
        };
        let mut lines = whole.lines();
        let mut sum = JournalSum::default();
        let begun = lines.next().and_then(|line| begun(line, &mut sum));
        let Some((file, base, sums)) = begun else {
            return Err(journal.path);
        };
        let mut case = base.clone();
        // What comes after a line that cannot be carried out is not what was done.
        let next = |case: &ValidCase, line: &str| match serde_json::from_str(line).ok()? {
            Line::Edits(edits) => apply(case, &edits).ok(),
            Line::Became(case) => ValidCase::checked(&case).ok(),
        };
        let mut is_cut = false;
        for line in lines {
            let line = if sums { sum.of(line) } else { Some(line) };
            let Some(after) = line.and_then(|line| next(&case, line)) else {
                is_cut = true;
                break;
            };
            case = after;
        }
        if let Some(last) = last_whole(rest, &sum).filter(|_| sums && !is_cut) {
            let after = sum.of(last).and_then(|line| next(&case, line));
            is_cut = after.is_none() || last != rest;
            case = after.unwrap_or(case);
        }
        Ok(Some(Self {
            at: journal.changed.and_then(|at| at.try_into().ok()),
            base,
            case,
            is_cut,
            file,
            moved_from: None,
            journal,
        }))
    }

    /// The case that they start from.
    #[must_use]
    pub fn base(&self) -> &ValidCase {
        &self.base
    }

    /// The file of the case; nothing where it had none.
    #[must_use]
    pub fn file(&self) -> Option<&Path> {
        self.file.as_deref()
    }

    /// Where the case was when they were made, where they are offered with one that lies elsewhere.
    #[must_use]
    pub const fn moved_from(&self) -> Option<&MovedFrom> {
        self.moved_from.as_ref()
    }

    /// Their journal.
    #[must_use]
    pub fn journal(&self) -> &Path {
        &self.journal.path
    }

    /// True if they start from this case as it is in its file; else that was changed since, or is another one.
    #[must_use]
    pub fn begins_from(&self, case: &ValidCase) -> bool {
        self.base == *case
    }

    /// True if the case is of another reference or jaw than the one that they were made in.
    #[must_use]
    pub fn is_of_other(&self, case: &ValidCase) -> bool {
        (&self.base.reference, self.base.jaw) != (&case.reference, case.jaw)
    }

    /// The parts in which they differ from a case as it is in its file.
    #[must_use]
    pub fn beside(&self, case: &Case) -> Vec<Apart> {
        differing(case, &self.case)
    }

    /// The case as it is in its file with these changes; nothing where both changed the same, or that is another case.
    #[must_use]
    pub fn onto(&self, case: &ValidCase) -> Option<ValidCase> {
        if self.is_of_other(case) {
            return None;
        }
        let chosen = std::collections::BTreeMap::new();
        match bring_together(&self.base, &self.case, case, &chosen) {
            Together::Merged { case, .. } => Some(*case),
            Together::Undecided(_) => None,
        }
    }

    /// True where the case that lies here now is another copy of the one that they were made in: both were saved from one
    /// case, and each went on by itself. False where it is that very one, or was saved from it. Of any other case, of
    /// whatever code, nothing.
    pub(super) fn is_of_sibling(&self, case: &ValidCase) -> Option<bool> {
        let is_saved_from = |save| case.saves.contains(save);
        let is_it = self.base == *case || self.base.saves.last().is_some_and(is_saved_from);
        let is_related = is_it || self.base.saves.iter().any(is_saved_from);
        (is_related && !self.is_of_other(case)).then_some(!is_it)
    }

    /// The changes as those of a case that lies here now.
    pub(super) fn moved_to(self, file: &Path, is_sibling: bool) -> Option<Self> {
        Some(Self {
            moved_from: Some(MovedFrom {
                file: self.file?,
                is_sibling,
            }),
            file: Some(file.to_owned()),
            ..self
        })
    }

    /// Takes the journal away, for good.
    pub fn remove(&self) {
        self.journal.remove();
    }
}

/// A last line that was written whole, though its end lacks or is another sign; what was written in part has not its checksum.
fn last_whole<'a>(rest: &'a str, sum: &JournalSum) -> Option<&'a str> {
    let mut without_end = rest.chars();
    without_end.next_back();
    let is_whole = |line: &&str| sum.clone().of(line).is_some();
    [rest, without_end.as_str()].into_iter().find(is_whole)
}

/// What a first line says: the case's file, what the steps start from, and whether lines have checksums.
fn begun(line: &str, sum: &mut JournalSum) -> Option<(Option<PathBuf>, ValidCase, bool)> {
    let sealed = sum.of(line);
    let header: Header = serde_json::from_str(sealed.unwrap_or(line)).ok()?;
    let base = ValidCase::checked(&header.base).ok()?;
    let whole = header.traywright_journal == VERSION && header.sums == sealed.is_some();
    whole.then_some((header.file, base, header.sums))
}

#[cfg(test)]
mod tests;
