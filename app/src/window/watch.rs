//! Wakes the window when another desk writes into the case's files.
//!
//! The files are looked at by a thread of its own, so that the window sleeps until something
//! changed.

use super::Program;
use crate::desk::{Document, Stamps};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::time::Duration;

/// Interval between two looks at the files.
const EVERY: Duration = Duration::from_secs(2);

/// A watch over a case's files; it ends when this is dropped.
#[derive(Debug)]
pub(super) struct Watch {
    file: PathBuf,
    seen: Arc<AtomicU64>,
    told: u64,
    _end: Sender<()>,
}

impl Watch {
    /// Watches a case file and what is signed beside it; `wake` is called after each change.
    /// Nothing where the system gives no thread.
    fn over(file: &Path, wake: impl Fn() + Send + 'static) -> Option<Self> {
        Self::every(EVERY, file, wake)
    }

    fn every(often: Duration, file: &Path, wake: impl Fn() + Send + 'static) -> Option<Self> {
        let (end, ended) = channel();
        let seen = Arc::new(AtomicU64::new(0));
        let (watched, count) = (file.to_owned(), Arc::clone(&seen));
        let look = move || {
            let mut before = Stamps::of(&watched);
            while ended.recv_timeout(often) == Err(RecvTimeoutError::Timeout) {
                let now = Stamps::of(&watched);
                if now != before {
                    before = now;
                    count.fetch_add(1, Ordering::Relaxed);
                    wake();
                }
            }
        };
        let thread = std::thread::Builder::new().name("watch case file".to_owned());
        thread.spawn(look).ok()?;
        Some(Self {
            file: file.to_owned(),
            seen,
            // What changed before the watch began is looked at once.
            told: u64::MAX,
            _end: end,
        })
    }

    /// The file that is watched.
    fn file(&self) -> &Path {
        &self.file
    }

    /// True if anything changed since this was last asked; the first time it is as if.
    fn has_news(&mut self) -> bool {
        let seen = self.seen.load(Ordering::Relaxed);
        std::mem::replace(&mut self.told, seen) != seen
    }
}

impl Program {
    /// Watches the files of the open case, and takes over what another desk wrote into them.
    pub(super) fn follow_files(&mut self, ctx: &egui::Context) {
        let file = self.document().and_then(Document::file);
        if self.watch.as_ref().map(Watch::file) != file {
            let file = file.map(Path::to_owned);
            let ctx = ctx.clone();
            self.watch = file.and_then(|file| Watch::over(&file, move || ctx.request_repaint()));
        }
        // What is being drawn by hand is not changed beneath it.
        let is_held = ctx.input(|input| input.pointer.any_down());
        if !is_held && self.watch.as_mut().is_some_and(Watch::has_news) {
            self.follow_now();
        }
    }

    /// Takes over what another desk wrote into the files.
    pub(super) fn follow_now(&mut self) {
        let followed = self.desk.document.as_mut().map(Document::follow_disk);
        if let Some(followed) = followed {
            self.tell_followed(&followed);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_wakes_once_and_silence_never() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("case.json");
        std::fs::write(&file, "1").unwrap();
        let (woken, wakes) = channel();
        let wake = move || woken.send(()).unwrap_or_default();
        let mut watch = Watch::every(Duration::from_millis(20), &file, wake).unwrap();
        assert!(watch.has_news() && !watch.has_news());
        std::thread::sleep(Duration::from_millis(100));
        assert!(wakes.try_recv().is_err());
        std::fs::write(&file, "12").unwrap();
        wakes.recv_timeout(Duration::from_secs(20)).unwrap();
        assert!(watch.has_news() && !watch.has_news());
        drop(watch);
        // The thread ends and lets go of its end of the channel.
        let ended = wakes.recv_timeout(Duration::from_secs(20));
        assert_eq!(ended, Err(RecvTimeoutError::Disconnected));
    }
}
