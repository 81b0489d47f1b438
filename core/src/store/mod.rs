//! Files: the only room that touches the disk.
//!
//! A file is written beside the old one, brought to the disk and then put in its place in one
//! step, so that at any moment, also after a power cut, there is the old file or the new one, never
//! half a file.

mod aside;
mod beside;
mod error;
mod events;
mod journal;
mod listing;
mod lock;
mod pack;
mod pdf;
mod private;
mod read;
mod record;
mod replace;
mod wear;
mod write;

#[cfg(test)]
mod tests;

pub use aside::{RecordAside, put_record_aside};
pub use error::{StoreError, StoreFault, shown};
pub use events::{EventsError, append_event, events_folder, has_events, keep_aside, mend_torn};
pub use journal::{JournalFile, JournalSum, LeftJournal, set_journal_aside};
pub use listing::{CaseHead, FolderEntry, ListedCase, Unlisted, cases_in, entries_in};
pub use lock::Held;
pub use pack::{
    FromPack, PackFault, Packed, ReadPack, from_pack, is_pack, is_sealed, pack, read_pack, unpack,
};
pub use pdf::write_pdf;
pub use private::Private;
pub use read::{behind_links, read_beginning, read_file};
pub use record::{EventsBeside, is_torn_alone, read_events, read_events_knowing};
pub use replace::{NotReplaced, Replaced, Version, has_other_names, replace};
pub use wear::{
    CaseCounted, Rebuilt, Uncounted, UncountedCase, WearCase, WearFault, count_case, read_wear,
    rebuild_wear, wear_case, wear_file,
};
pub use write::{Content, write_safely};
