//! Saving: what is on the disk is looked at first, and nothing of it is lost without a word.

use super::refusal::{refused_by_disk, refused_document};
use super::{Document, OnDisk, read_case_file};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use traywright_core::case::{
    Apart, Part, SavedAt, Side, Together, ValidCase, bring_together, read_case, to_save,
};
use traywright_core::dentition::Jaw;
use traywright_core::document::{MOST_BYTES, print};
use traywright_core::plan::{case_jaw, with_saved_figures};
use traywright_core::store::{
    Content, EventsError, Held, NotReplaced, Private, Replaced, StoreError, StoreFault, Version,
    has_events, keep_aside, read_events, replace, shown,
};
use traywright_core::text::Texts;

/// What became of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Saved {
    /// It holds what is open here.
    Plainly,
    /// It was gone and is there again.
    Anew,
    /// It holds what is open here and these parts, which another desk had changed meanwhile.
    Together(Vec<Apart>),
    /// It holds what is open here; the damaged file that lay there is kept in this one.
    Aside(PathBuf),
}

/// A reason why nothing was saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotSaved {
    /// It cannot be done, and why.
    Refused(String),
    /// What lies there is not what is known here: a person decides.
    Asks(Box<Question>),
}

/// A question before a file is replaced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// The file.
    pub file: PathBuf,
    /// What the file holds now. The answer is of that alone.
    pub version: Version,
    /// What is asked.
    pub about: About,
}

/// What lies in the file that is to be replaced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum About {
    /// Another case, of this reference.
    Other(String),
    /// Something that cannot be read as a case, and why.
    Damaged(String),
    /// A file that somebody protected against writing.
    Protected,
    /// The same case, of which another desk changed the same parts.
    Same {
        /// The parts, with what differs in each.
        apart: Vec<Apart>,
        /// True where it was answered already and what was chosen does not fit together.
        unfit: bool,
    },
}

/// What a person agreed to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// What the file then held.
    pub version: Version,
    /// The side of each part that both changed.
    pub chosen: BTreeMap<Part, Side>,
    /// True to replace it though it is protected against writing.
    pub over_protection: bool,
}

/// How often the file is looked at anew when programs write it that do not mind who holds it.
const TRIES: usize = 20;

impl Document {
    /// Writes the case into a file, its own or another one, which then is its own.
    ///
    /// What another desk saved into its own file meanwhile is taken over where it is of other parts.
    ///
    /// # Errors
    ///
    /// What a person has to decide first, or why it cannot be done. Nothing was written.
    pub fn save(
        &mut self,
        file: &Path,
        answer: Option<&Answer>,
        by: &SavedAt,
    ) -> Result<Saved, NotSaved> {
        let own = self.file().is_some_and(|own| is_same(own, file));
        if !own {
            return self.save_as(file, answer, by);
        }
        let mut saved = Saved::Plainly;
        // Held once something else was found there: bringing two plans together takes longer than another desk takes
        // for its next save, and would be too late each time.
        let mut held = None;
        for _ in 0..TRIES {
            let case = self.to_write(None, by);
            let content = (&*bytes(&case)?, answer);
            match self.replace(file, self.version, content, held.as_ref()) {
                Ok(replaced) => {
                    self.is_saved(case, file, replaced);
                    return Ok(saved);
                }
                Err(NotReplaced::Store(error)) => return Err(refused(&error, self.version)),
                Err(NotReplaced::Changed(_)) if held.is_none() => {
                    let hold = Held::hold(file, self.private);
                    held = Some(hold.map_err(|error| refused(&error, self.version))?);
                }
                Err(NotReplaced::Changed(None)) => {
                    self.version = Version::NONE;
                    saved = Saved::Anew;
                }
                Err(NotReplaced::Changed(Some(there))) => {
                    let version = Version::of(&there);
                    let answer = answer.filter(|answer| answer.version == version);
                    let asks = |about| {
                        let file = file.to_owned();
                        NotSaved::Asks(Box::new(Question {
                            file,
                            version,
                            about,
                        }))
                    };
                    match read_case(&there) {
                        Err(_) if answer.is_some() => {
                            let aside = keep_aside(file, &there)
                                .map_err(|error| refused(&error, version))?;
                            saved = Saved::Aside(aside);
                        }
                        Err(faults) => {
                            return Err(asks(About::Damaged(refused_document(file, &faults).0)));
                        }
                        Ok(other) if self.is_other(&other) => {
                            if has_own_record(file, &other).map_err(|e| refused(&e, version))? {
                                return Err(record_there(file, &other));
                            }
                            // Where a person agreed, that case is replaced.
                            if answer.is_none() {
                                return Err(asks(About::Other(self.name_of_other(&other))));
                            }
                            saved = Saved::Plainly;
                        }
                        Ok(other) => match self.together_with(other, answer) {
                            Ok(taken) => saved = Saved::Together(taken),
                            Err(apart) => {
                                let unfit = answer.is_some();
                                return Err(asks(About::Same { apart, unfit }));
                            }
                        },
                    }
                    self.version = version;
                }
            }
        }
        let busy = Texts::english().get("window-file-busy", &[("file", &shown(file))]);
        Err(NotSaved::Refused(busy))
    }

    /// True if this is not the case that was opened or last saved here, but one of another reference or jaw: the
    /// two have nothing to do with each other.
    pub(super) fn is_other(&self, there: &ValidCase) -> bool {
        let own = self.saved.as_deref().unwrap_or(self.case());
        (&there.reference, there.jaw) != (&own.reference, own.jaw)
    }

    /// The name of a case that is another one: its reference, with the jaw where that alone differs.
    pub(super) fn name_of_other(&self, there: &ValidCase) -> String {
        let own = self.saved.as_deref().unwrap_or(self.case());
        let reference = there.reference.to_string();
        if there.reference != own.reference {
            return reference;
        }
        let jaw = match there.jaw {
            Jaw::Upper => "jaw-upper",
            Jaw::Lower => "jaw-lower",
        };
        format!("{reference}, {}", Texts::english().get(jaw, &[]))
    }

    /// Takes over what another desk saved of other parts, as a step that can be undone; or gives
    /// back what both changed.
    fn together_with(
        &mut self,
        there: ValidCase,
        answer: Option<&Answer>,
    ) -> Result<Vec<Apart>, Vec<Apart>> {
        let none = BTreeMap::new();
        let chosen = answer.map_or(&none, |answer| &answer.chosen);
        let base = self.saved.clone().unwrap_or_else(|| self.shared_case());
        match bring_together(&base, self.case(), &there, chosen) {
            Together::Undecided(apart) => Err(apart),
            Together::Merged { case, taken } => {
                if !taken.is_empty() {
                    let name = Texts::english().get("window-plan-from-disk", &[]);
                    let before = self.shared_case();
                    self.history.note(name, before, None);
                    self.step_to(Arc::new(*case));
                }
                self.saved = Some(Arc::new(there));
                Ok(taken)
            }
        }
    }

    /// Writes into a file that was not its own: a new one, or in place of another case where a person
    /// agreed.
    fn save_as(
        &mut self,
        file: &Path,
        answer: Option<&Answer>,
        by: &SavedAt,
    ) -> Result<Saved, NotSaved> {
        let texts = Texts::english();
        let path = shown(file);
        let known = answer.map_or(Version::NONE, |answer| answer.version);
        let there = answer.and_then(|_| read_case_file(file).ok());
        let there = there.filter(|(_, version)| *version == known);
        let case = self.to_write(there.as_ref().map(|(case, _)| case), by);
        match self.replace(file, known, (&bytes(&case)?, answer), None) {
            Ok(replaced) => {
                self.is_saved(case, file, replaced);
                Ok(Saved::Plainly)
            }
            Err(NotReplaced::Store(error)) => Err(refused(&error, known)),
            Err(NotReplaced::Changed(None)) => self.save_as(file, None, by),
            Err(NotReplaced::Changed(Some(there))) => {
                let Ok(other) = read_case(&there) else {
                    let told = texts.get("window-no-case-there", &[("file", &path)]);
                    return Err(NotSaved::Refused(told));
                };
                let is_signed = has_events(file).map_err(|error| refused(&error, known))?;
                if is_signed && other.reference != self.case().reference {
                    return Err(record_there(file, &other));
                }
                let reference = other.reference.to_string();
                Err(NotSaved::Asks(Box::new(Question {
                    file: file.to_owned(),
                    version: Version::of(&there),
                    about: About::Other(reference),
                })))
            }
        }
    }

    /// Puts a case as bytes in the place of what is known to lie in a file.
    fn replace(
        &self,
        file: &Path,
        known: Version,
        (bytes, answer): (&[u8], Option<&Answer>),
        held: Option<&Held>,
    ) -> Result<Replaced, NotReplaced> {
        let content = Content {
            bytes,
            private: self.private,
            over_protection: answer.is_some_and(|a| a.over_protection && a.version == known),
        };
        match held {
            Some(held) => held.replace(known, MOST_BYTES as u64, content),
            None => replace(file, known, MOST_BYTES as u64, content),
        }
    }

    /// The case as it is to be written: with the revision raised where it has to be, also over that of the same case
    /// where it is to be replaced, so that no two plans have one revision.
    fn to_write(&self, replaced: Option<&ValidCase>, by: &SavedAt) -> ValidCase {
        let own = self.case();
        let is_same = |there: &&ValidCase| {
            (&there.reference, there.jaw) == (&own.reference, own.jaw)
                && there.revision >= own.revision
        };
        let before = replaced.filter(is_same).or(self.saved.as_deref());
        let case = to_save(own, before).saved_at(by, before);
        with_saved_figures(case, self.worksheet())
    }

    /// Notes that this case is now in this file.
    fn is_saved(&mut self, case: ValidCase, file: &Path, replaced: Replaced) {
        let file = std::fs::canonicalize(file).unwrap_or_else(|_| file.to_owned());
        let case = Arc::new(case);
        let moved = self.file() != Some(file.as_path());
        self.saved = Some(Arc::clone(&case));
        self.version = replaced.version;
        self.parted = replaced.parted;
        self.private = Private::like(&file);
        self.on_disk = OnDisk::AsSaved;
        self.file = Some(file);
        self.become_case(case);
        self.drop_journal();
        if moved {
            // The record beside the new file is another one.
            self.known.clear();
            self.read_record();
        }
    }
}

/// True if events of this very case lie beside a file. Where they cannot be read nobody knows.
fn has_own_record(file: &Path, case: &ValidCase) -> Result<bool, StoreError> {
    match read_events(file, &case_jaw(case)) {
        Ok(beside) => Ok(!beside.events.all_heads().is_empty()),
        Err(EventsError::Store(error)) => Err(error),
        Err(_) => Ok(true),
    }
}

/// The refusal to replace a case with a record beside it.
fn record_there(file: &Path, there: &ValidCase) -> NotSaved {
    let file = shown(file);
    let args = [
        ("file", file.as_str()),
        ("reference", there.reference.as_str()),
    ];
    NotSaved::Refused(Texts::english().get("window-record-there", &args))
}

fn is_same(one: &Path, other: &Path) -> bool {
    let whole = |file: &Path| std::fs::canonicalize(file).ok();
    one == other || whole(one).is_some_and(|one| whole(other) == Some(one))
}

fn bytes(case: &ValidCase) -> Result<Vec<u8>, NotSaved> {
    match print(&**case) {
        Ok(text) => Ok(text.into_bytes()),
        Err(error) => Err(NotSaved::Refused(error.to_string())),
    }
}

/// Why a file that holds this was not replaced; a person decides about one that is protected.
fn refused(error: &StoreError, version: Version) -> NotSaved {
    if error.fault == StoreFault::Protected {
        let (file, about) = (error.path.clone(), About::Protected);
        return NotSaved::Asks(Box::new(Question {
            file,
            version,
            about,
        }));
    }
    NotSaved::Refused(refused_by_disk(error).0)
}

#[cfg(test)]
pub(super) mod tests;
