//! What was left unsaved, looked for on a thread: the journals may be many, and the cases that they name may lie on a share
//! that is slow or does not answer.

use super::LeftBehind;
use super::job::{Job, Wake};
use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::task::Poll;
use traywright_core::case::ValidCase;

/// A case that is open, by its file and what it is.
pub(crate) type OpenCase = (PathBuf, Arc<ValidCase>);

/// The looks for what was left unsaved, one after the other as they were asked for.
#[derive(Debug, Default)]
pub struct LeftWork {
    /// Nothing for cases without a file.
    asked: VecDeque<Option<OpenCase>>,
    /// That of the first.
    job: Option<Job<LeftBehind, ()>>,
    found: Option<LeftBehind>,
}

impl LeftWork {
    /// Has the journals of one more looked for.
    pub(crate) fn ask(&mut self, of: Option<OpenCase>) {
        self.asked.push_back(of);
    }

    /// Begins what was asked for and takes what was found, in a folder of journals; without one there are none.
    pub(crate) fn poll(&mut self, folder: Option<&Path>, wake: &Wake) {
        let Some(folder) = folder else {
            *self = Self::default();
            return;
        };
        if self.job.is_none()
            && self.found.is_none()
            && let Some(of) = self.asked.front().cloned()
        {
            let within = folder.to_owned();
            let look = move || LeftBehind::of_case(&within, of.as_ref());
            self.job = Job::begin("read journals", wake.clone(), {
                let look = look.clone();
                move |_| look()
            });
            if self.job.is_none() {
                // The system gives no thread.
                self.found = Some(look());
            }
        }
        if let Some(job) = &mut self.job
            && let Poll::Ready(found) = job.ended()
        {
            self.is_found(found, folder);
        }
    }

    /// What failed is told as journals that cannot be read: they lie there still.
    fn is_found(&mut self, found: Option<LeftBehind>, folder: &Path) {
        let unread = || LeftBehind {
            unread: vec![folder.to_owned()],
            ..LeftBehind::default()
        };
        self.found = Some(found.unwrap_or_else(unread));
        self.job = None;
    }

    /// What was left of the first that was asked for, once it is found.
    pub(crate) fn take(&mut self) -> Option<(Option<OpenCase>, LeftBehind)> {
        let found = self.found.take()?;
        Some((self.asked.pop_front()?, found))
    }

    /// True if the window has to look here: something was asked for and is not being looked for, or was found.
    pub(crate) fn has_work(&self) -> bool {
        self.job.is_none() && !self.asked.is_empty()
    }

    /// Waits until it is found; says whether there was anything to wait for.
    pub(crate) fn wait(&mut self, folder: Option<&Path>) -> bool {
        let found = self.job.take().map(|mut job| job.answer());
        let waited = found.is_some();
        if let (Some(found), Some(folder)) = (found, folder) {
            self.is_found(found, folder);
        }
        waited
    }
}
