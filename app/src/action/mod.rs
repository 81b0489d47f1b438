//! Commands with a label and a key, and actions that carry data.
//!
//! A view only says what is to be done; the window does it.

mod ask;
mod command;
mod key;
mod view;

pub use ask::{Ask, CaretTo, PathField, Seal};
pub use command::Command;
pub use key::{REMOVE, key_name, key_names};
pub use view::View;

use crate::desk::{Answer, Gesture, NewCase, Unsaved};
use std::path::PathBuf;
use std::sync::Arc;
use traywright_core::case::Edit;
use traywright_core::kit::{SiteId, StepId};
use traywright_core::sheet::checklist::Printing;
use traywright_core::sign::{EventKind, ThingKey};
use traywright_core::store::ReadPack;

/// Something to be done.
pub enum Action {
    /// A command.
    Do(Command),
    /// Asks something in a window of its own.
    Ask(Ask),
    /// Reports what was done, unless the step before was refused.
    Tell(String),
    /// Does this once the case is saved; where it was not, nothing is done.
    OnceSaved(Box<Action>),
    /// Does this and leaves what is not saved.
    Regardless(Box<Action>),
    /// Starts a new case with the live kit.
    New(NewCase),
    /// Opens a case file.
    Open(PathBuf),
    /// Opens one of the invented cases.
    OpenDemo(usize),
    /// Saves into this file from now on.
    SaveTo(PathBuf),
    /// Saves into this file, as a person answered when asked about what lies there.
    SaveOver(PathBuf, Answer),
    /// Packs the case as it is saved, with the live kit and its record, into this file; encrypted with a passphrase.
    Pack(PathBuf, Option<String>),
    /// Reads this pack, with the passphrase of one that is encrypted, and asks whether the copy in it is to be opened.
    Unpack(PathBuf, Option<String>),
    /// Takes the case out of this pack, which was read, and opens it.
    OpenCopy(PathBuf, Arc<ReadPack>),
    /// Takes over changes that were never saved.
    TakeUnsaved(Box<Unsaved>),
    /// Gives up changes that were never saved, for good.
    GiveUpUnsaved(Box<Unsaved>),
    /// Sets this journal of changes that were never saved aside: it stays in a file and is not offered again.
    SetUnsavedAside(PathBuf),
    /// Takes new entries from this kit file from now on.
    UseKit(PathBuf),
    /// Takes new entries from the invented kit from now on.
    UseDemoKit,
    /// Shows the system's dialog for a file.
    Browse(crate::platform::Purpose),
    /// Changes the case.
    Edit(Change),
    /// The gesture is over: what comes next is a step of its own.
    EndGesture,
    /// Looks anew for the best run order.
    LookAgain,
    /// Looks at a site.
    Choose(Option<SiteId>),
    /// Looks at a step.
    ChooseStep(Option<StepId>),
    /// Looks at a finding, by its key, among all of them.
    LookAtFinding(String),
    /// Looks at the findings that are open, from surgery, and back to it.
    LookAtOpen,
    /// Records something for good.
    Sign {
        /// By whom.
        who: String,
        /// What.
        kind: EventKind,
    },
    /// Goes to the passes in the sterile field, to set or read a thing there, the first where it is named.
    ReadInField(Option<ThingKey>),
    /// Puts what is damaged of the record aside, in the name of this person.
    PutRecordAside(String),
    /// Writes the record into this file.
    WriteRecord(PathBuf),
    /// Writes the checklist.
    WriteSheet {
        /// The file; of what is shown only its name.
        to: PathBuf,
        /// The paper and the parts.
        printing: Printing,
        /// And shows it in the viewer of the system.
        view: ThenView,
    },
}

/// The next step after a sheet was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThenView {
    /// In the viewer of the system.
    Show,
    /// Not at all.
    Leave,
}

/// A change of the case.
pub struct Change {
    /// Its name in the history, such as "implant of lower right first molar (46)".
    pub name: String,
    /// The edits.
    pub edits: Vec<Edit>,
    /// The gesture that it belongs to.
    pub gesture: Option<Gesture>,
    /// The field at which a refusal is shown; without one it is shown as a notice.
    pub field: Option<String>,
}

impl Change {
    /// A change by one edit, from a field or none.
    #[must_use]
    pub fn new(name: impl Into<String>, edit: Edit) -> Self {
        Self::of(name, vec![edit])
    }

    /// A change by several edits, all or none.
    #[must_use]
    pub fn of(name: impl Into<String>, edits: Vec<Edit>) -> Self {
        Self {
            name: name.into(),
            edits,
            gesture: None,
            field: None,
        }
    }

    /// The same with a refusal told at a field.
    #[must_use]
    pub fn at(mut self, field: impl Into<String>) -> Self {
        self.field = Some(field.into());
        self
    }

    /// The same as part of a gesture.
    #[must_use]
    pub fn within(mut self, gesture: Gesture) -> Self {
        self.gesture = Some(gesture);
        self
    }
}
