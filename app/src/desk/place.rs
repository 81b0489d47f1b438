//! What lies at a place that the program was not asked to open: it may be on a share that is slow or does not answer, so that
//! it is read on a thread of its own, and nobody waits for long.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::channel;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;
use traywright_core::document::MOST_BYTES;
use traywright_core::store::{StoreError, StoreFault, read_file};

/// The longest that a place is waited for.
pub(super) const PATIENCE: Duration = Duration::from_secs(3);

/// What lies at a place, or why that cannot be read.
pub(super) type Content = Result<Vec<u8>, StoreError>;

/// Reads what lies at a place.
pub(super) type Read = fn(&Path) -> Content;

/// Reads from the disk.
pub(super) fn of_disk(place: &Path) -> Content {
    read_file(place, MOST_BYTES as u64)
}

/// True where the system says that no such file is there, not that it cannot tell.
pub(super) const fn is_none(fault: &StoreFault) -> bool {
    matches!(fault, StoreFault::NotFound | StoreFault::NoFolder)
}

/// True where something else is there than a file that could be read.
pub(super) const fn is_other(fault: &StoreFault) -> bool {
    matches!(
        fault,
        StoreFault::IsFolder | StoreFault::NoFile | StoreFault::TooLarge { .. }
    )
}

/// Has a place read on a thread of its own. Where the system gives none nothing is ever told.
pub(super) fn ask(place: PathBuf, read: Read, told: impl FnOnce(Content) + Send + 'static) {
    let thread = std::thread::Builder::new().name("ask place".to_owned());
    drop(thread.spawn(move || told(read(&place))));
}

/// Places that are asked and have not answered yet; nobody waits for them once more.
static SILENT: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

/// What lies at a place; nothing where it does not answer within [`PATIENCE`], or has not since it was asked before.
pub(super) fn content(place: &Path) -> Option<Content> {
    content_by(place, of_disk, PATIENCE)
}

fn content_by(place: &Path, read: Read, patience: Duration) -> Option<Content> {
    let silent = || SILENT.lock().unwrap_or_else(PoisonError::into_inner);
    if silent().contains(place) {
        return None;
    }
    let (send, answer) = channel();
    let own = place.to_owned();
    ask(own.clone(), read, move |content| {
        let mut silent = SILENT.lock().unwrap_or_else(PoisonError::into_inner);
        silent.remove(&own);
        // Nobody may wait for it any more.
        send.send(content).unwrap_or_default();
    });
    if let Ok(content) = answer.recv_timeout(patience) {
        return Some(content);
    }
    let mut silent = silent();
    // It may have answered since.
    let late = answer.try_recv().ok();
    if late.is_none() {
        silent.insert(place.to_owned());
    }
    late
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::{Condvar, PoisonError};

    static OPEN: (Mutex<bool>, Condvar) = (Mutex::new(false), Condvar::new());

    /// A share that answers once it is let.
    fn late(place: &Path) -> Content {
        let open = OPEN.0.lock().unwrap_or_else(PoisonError::into_inner);
        drop(OPEN.1.wait_while(open, |open| !*open));
        of_disk(place)
    }

    #[test]
    fn a_place_that_does_not_answer_is_waited_for_once_and_known_again_when_it_does() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("case.json");
        std::fs::write(&file, b"here").unwrap();
        assert_eq!(content_by(&file, late, Duration::ZERO), None);
        // However long: nobody waits.
        assert_eq!(content_by(&file, of_disk, Duration::MAX), None);
        *OPEN.0.lock().unwrap() = true;
        OPEN.1.notify_all();
        while SILENT.lock().unwrap().contains(&file) {
            std::thread::yield_now();
        }
        let read = content_by(&file, of_disk, Duration::from_mins(1));
        assert_eq!(read, Some(Ok(b"here".to_vec())));
    }
}
