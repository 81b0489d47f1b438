//! What was counted of the wear of the kit at hand: its ledger, read beside the window.

use super::job::{Job, Wake};
use super::wear::refused_wear;
use std::path::{Path, PathBuf};
use std::task::Poll;
use traywright_core::kit::{Kit, KitId};
use traywright_core::store::{WearFault, read_wear, wear_file};
use traywright_core::text::Texts;
use traywright_core::wear::Counted;
use traywright_core::wording::WearSource;

/// What is known of what was counted for a kit.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Ledger {
    /// No kit is at hand, or it lies in no file: beside nothing is no ledger.
    #[default]
    NoFile,
    /// It is being read.
    Reading,
    /// There is none in this place.
    NotThere(PathBuf),
    /// It could not be read; why, in words.
    Unread(String),
    /// What stands in it.
    Counted(Counted),
}

/// The ledger of the kit at hand, and the thread that reads it.
#[derive(Debug, Default)]
pub struct LedgerWork {
    /// The kit that it is of, by its file and id.
    of: Option<(PathBuf, KitId)>,
    /// It is to be read again.
    is_due: bool,
    found: Ledger,
    job: Option<Job<Ledger, ()>>,
}

impl Ledger {
    /// What was counted, where that is known.
    #[must_use]
    pub const fn counted(&self) -> Option<&Counted> {
        match self {
            Self::Counted(counted) => Some(counted),
            _ => None,
        }
    }

    /// The same as a reason why a count is not known.
    #[must_use]
    pub const fn source(&self) -> WearSource {
        match self {
            Self::Counted(_) => WearSource::Counted,
            Self::Reading => WearSource::BeingRead,
            Self::NoFile | Self::NotThere(_) => WearSource::NotThere,
            Self::Unread(_) => WearSource::Unread,
        }
    }

    /// Of a thread that failed, or was never begun.
    fn no_answer() -> Self {
        Self::Unread(Texts::english().get("wear-no-answer", &[]))
    }

    fn read(kit_file: &Path, kit: &Kit) -> Self {
        match read_wear(kit_file, kit) {
            Ok(counted) => Self::Counted(counted),
            Err(WearFault::NotThere(_)) => Self::NotThere(wear_file(kit_file)),
            Err(fault) => Self::Unread(refused_wear(&fault, kit).0),
        }
    }
}

impl LedgerWork {
    /// What was found last.
    #[must_use]
    pub const fn found(&self) -> &Ledger {
        &self.found
    }

    /// It may have changed: it is read again as soon as it is looked at.
    pub fn look_again(&mut self) {
        self.is_due = true;
    }

    /// Takes what was read, and has it read where it is due or another kit is at hand. Of another kit nothing that was found
    /// before stays.
    pub fn poll(&mut self, at_hand: Option<(&Path, &Kit)>, wake: &Wake) {
        let Some((file, kit)) = at_hand else {
            *self = Self::default();
            return;
        };
        let is_of = |(of, id): &(PathBuf, KitId)| of == file && *id == kit.id;
        if !self.of.as_ref().is_some_and(is_of) {
            *self = Self {
                of: Some((file.to_owned(), kit.id.clone())),
                is_due: true,
                found: Ledger::Reading,
                job: None,
            };
        }
        if let Some(job) = &mut self.job {
            match job.ended() {
                Poll::Pending => return,
                Poll::Ready(found) => {
                    self.job = None;
                    self.found = found.unwrap_or_else(Ledger::no_answer);
                }
            }
        }
        if self.is_due {
            self.is_due = false;
            let (file, kit) = (file.to_owned(), kit.clone());
            let read = move |_: &mut _| Ledger::read(&file, &kit);
            self.job = Job::begin("read wear", wake.clone(), read);
            if self.job.is_none() {
                self.found = Ledger::no_answer();
            }
        }
    }

    /// True while it is read.
    #[must_use]
    pub const fn goes_on(&self) -> bool {
        self.job.is_some()
    }
}
