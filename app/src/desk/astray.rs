//! Changes that were never saved and whose case is not where it was.
//!
//! Where it was may be a share that is slow or does not answer. All places are asked at once: what is known is told, and
//! what does not answer is told by name.

use super::OpenCase;
use super::journal::{LeftBehind, Unsaved};
use super::place::{Content, PATIENCE, Read, ask, is_none, is_other, of_disk};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};
use traywright_core::case::{Apart, ValidCase, read_case};
use traywright_core::store::LeftJournal;

/// What was left and is offered with no case: the case that it was made in is not where it was.
#[derive(Debug, Default)]
pub struct Astray {
    /// The changes, the oldest first.
    pub unsaved: Vec<AstrayChanges>,
    /// The journals that cannot be read here, of whatever case.
    pub unread: Vec<PathBuf>,
}

/// Changes whose case is not where it was.
#[derive(Debug)]
pub struct AstrayChanges {
    /// The changes.
    pub unsaved: Unsaved,
    /// The parts that they changed.
    pub changed: Vec<Apart>,
    /// What is where the case was.
    pub there: InPlace,
}

/// What lies where a case was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InPlace {
    /// It never had a file.
    NoFile,
    /// Nothing.
    Nothing,
    /// Another case, or nothing that can be read as one.
    Other,
    /// Nobody knows: it cannot be read, or the system does not answer.
    Unanswered,
}

impl Astray {
    /// What of all that was left in a folder is astray.
    #[must_use]
    pub fn in_folder(folder: &Path) -> Self {
        let (left, unread) = all_left(folder);
        let told = |(unsaved, there): (Unsaved, Option<InPlace>)| {
            Some(AstrayChanges {
                there: there?,
                changed: unsaved.beside(unsaved.base()),
                unsaved,
            })
        };
        Self {
            unsaved: in_place(left, of_disk, patiently())
                .into_iter()
                .filter_map(told)
                .collect(),
            unread,
        }
    }
}

impl LeftBehind {
    /// The same of a case, or of cases without a file, with what was left of it where it was before it came to lie here.
    pub(super) fn of_case(folder: &Path, of: Option<&OpenCase>) -> Self {
        Self::of_case_asking(folder, of, of_disk, patiently())
    }

    fn of_case_asking(
        folder: &Path,
        of: Option<&OpenCase>,
        read: Read,
        next: impl FnMut(&Receiver<Answer>) -> Option<Answer>,
    ) -> Self {
        let mut left = Self::of(folder, of.map(|(file, _)| &**file));
        let Some((file, case)) = of else {
            return left;
        };
        let all = all_left(folder).0.into_iter();
        let related = all.filter(|one| one.file().is_some_and(|before| before != file));
        let related = related.filter(|one| one.is_of_sibling(case).is_some());
        for (unsaved, there) in in_place(related.collect(), read, next) {
            match (there, unsaved.file()) {
                (Some(InPlace::Unanswered), Some(before)) => {
                    left.unanswered.push(before.to_owned());
                }
                (Some(_), _) => left.unsaved.extend(moved_to(unsaved, file, case)),
                (None, _) => {}
            }
        }
        left.unanswered.sort();
        left.unanswered.dedup();
        left
    }
}

fn moved_to(unsaved: Unsaved, file: &Path, case: &ValidCase) -> Option<Unsaved> {
    let is_sibling = unsaved.is_of_sibling(case)?;
    unsaved.moved_to(file, is_sibling)
}

/// All that was left in a folder, the oldest first, and the journals that cannot be read.
fn all_left(folder: &Path) -> (Vec<Unsaved>, Vec<PathBuf>) {
    let (mut left, mut unread) = (Vec::new(), Vec::new());
    for journal in LeftJournal::all(folder) {
        match Unsaved::of_journal(journal) {
            Ok(unsaved) => left.extend(unsaved),
            Err(path) => unread.push(path),
        }
    }
    (left, unread)
}

/// The content of a place, by its number among those that were asked.
type Answer = (usize, Content);

/// Waits for answers, but for none longer than [`PATIENCE`] from when it is waited for first: until then journals are
/// read and places asked.
fn patiently() -> impl FnMut(&Receiver<Answer>) -> Option<Answer> {
    let mut patience = Patience::default();
    move |answers| {
        let left = patience.left(Instant::now());
        answers.recv_timeout(left).ok()
    }
}

/// How long is still waited.
#[derive(Debug, Default)]
struct Patience(Option<Instant>);

impl Patience {
    /// What is left of it; whole when it is asked first.
    fn left(&mut self, now: Instant) -> Duration {
        let until = *self.0.get_or_insert(now + PATIENCE);
        until.saturating_duration_since(now)
    }
}

/// Gives the changes back with what lies where their case was: nothing where that is the case that they were made in.
fn in_place(
    left: Vec<Unsaved>,
    read: Read,
    mut next: impl FnMut(&Receiver<Answer>) -> Option<Answer>,
) -> Vec<(Unsaved, Option<InPlace>)> {
    let (send, answers) = channel();
    for (number, unsaved) in left.iter().enumerate() {
        let Some(file) = unsaved.file().map(Path::to_owned) else {
            continue;
        };
        let send = send.clone();
        ask(file, read, move |content| {
            // Nobody may wait for it any more.
            send.send((number, content)).unwrap_or_default();
        });
    }
    drop(send);
    let mut there: Vec<Option<InPlace>> = left
        .iter()
        .map(|one| Some(one.file().map_or(InPlace::NoFile, |_| InPlace::Unanswered)))
        .collect();
    while let Some((number, content)) = next(&answers) {
        there[number] = by_content(&left[number], content);
    }
    left.into_iter().zip(there).collect()
}

fn by_content(unsaved: &Unsaved, content: Content) -> Option<InPlace> {
    match content {
        Ok(bytes) => match read_case(&bytes) {
            Ok(case) if !unsaved.is_of_other(&case) => None,
            _ => Some(InPlace::Other),
        },
        Err(error) if is_none(&error.fault) => Some(InPlace::Nothing),
        Err(error) if is_other(&error.fault) => Some(InPlace::Other),
        Err(_) => Some(InPlace::Unanswered),
    }
}

#[cfg(test)]
mod tests;
