//! The desk: the case that is open, what was signed for it, the live kit and the user's settings.
//!
//! A view reads the desk and gives actions; only the window changes it.

mod astray;
mod disk;
mod document;
mod elsewhere;
mod files;
mod folder;
mod history;
mod job;
mod journal;
mod ledger;
mod left;
mod place;
mod policy;
mod readers;
mod record;
mod refusal;
mod refused_change;
mod run;
mod save;
mod settings;
mod starting;
mod wear;
mod worn;

pub use astray::{Astray, AstrayChanges, InPlace};
pub use disk::{Followed, Stamps};
pub use document::{Document, OnDisk};
pub(crate) use elsewhere::{Answers, said_elsewhere, said_packed};
pub(crate) use files::{read_case_file, read_kit_file};
pub(crate) use folder::listed;
pub use folder::{Listing, Names, OfFolder};
pub use history::Gesture;
pub use job::Wake;
pub use journal::{LeftBehind, MovedFrom, Unsaved};
pub use ledger::Ledger;
pub use left::LeftWork;
pub(crate) use left::OpenCase;
pub(crate) use policy::policy;
pub use readers::{Readers, readers, session_hours};
pub use record::Record;
pub(crate) use refusal::{
    Refusal, refused_by_disk, refused_document, refused_edit, refused_events, refused_pack,
    said_ahead, said_aside, said_problems,
};
pub(crate) use refused_change::refused_change;
pub use run::{Asked, RunProgress, RunWork, Work};
pub use save::{About, Answer, NotSaved, Question, Saved};
pub(crate) use settings::own_desk;
pub use settings::{MOST_RECENT, Settings};
pub use starting::{DEMOS, NewCase, demo_case, demo_kit, new_case};
pub use wear::WearWork;
pub(crate) use wear::{listed_cases, refused_wear};
pub(crate) use worn::{worn, worn_out};

use traywright_core::kit::Kit;
use traywright_core::text::Texts;

/// Everything that is on the desk.
pub struct Desk {
    /// The words.
    pub texts: &'static Texts,
    /// The case that is open.
    pub document: Option<Document>,
    /// The kit that new entries are taken from.
    pub live_kit: Option<Kit>,
    /// This user's preferences and recent files.
    pub settings: Settings,
    /// The best run order, for which one has to wait.
    pub run: RunWork,
    /// The cases of the folder that was worked in last, for the start page.
    pub beside: OfFolder<Listing>,
    /// Changes that were never saved and whose case is not where it was, for the start page.
    pub astray: OfFolder<Astray>,
    /// What was left unsaved of the case that was opened, or of cases without a file.
    pub left: LeftWork,
    /// The names in the folder of the file that is being typed.
    pub names: OfFolder<Names>,
    /// The count of the open case's wear.
    pub wear: WearWork,
}

impl Desk {
    /// A desk with nothing open.
    #[must_use]
    pub fn new(settings: Settings) -> Self {
        Self {
            texts: Texts::english(),
            document: None,
            live_kit: None,
            settings,
            run: RunWork::default(),
            beside: OfFolder::default(),
            astray: OfFolder::default(),
            left: LeftWork::default(),
            names: OfFolder::default(),
            wear: WearWork::default(),
        }
    }
}
