//! What lies in a folder: read on a thread, since a folder may lie on a slow share.

use super::job::{Job, Wake};
use super::refused_by_disk;
use std::path::{Path, PathBuf};
use std::task::Poll;
use traywright_core::dentition::{Notation, label};
use traywright_core::document::clipped;
use traywright_core::store::{FolderEntry, ListedCase, StoreError, Unlisted};
use traywright_core::text::Texts;

/// What was read of one folder, anew each time another is looked at.
#[derive(Debug)]
pub struct OfFolder<T> {
    folder: Option<PathBuf>,
    job: Option<Job<T, ()>>,
    found: Option<T>,
}

/// The cases of a folder, or why it cannot be read.
pub type Listing = Result<Vec<ListedCase>, StoreError>;

/// The names in a folder, or why it cannot be read.
pub type Names = Result<Vec<FolderEntry>, StoreError>;

impl<T> Default for OfFolder<T> {
    fn default() -> Self {
        Self {
            folder: None,
            job: None,
            found: None,
        }
    }
}

impl<T: Send + 'static> OfFolder<T> {
    /// The folder.
    #[must_use]
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    /// What is in it, once it is read.
    #[must_use]
    pub const fn found(&self) -> Option<&T> {
        self.found.as_ref()
    }

    /// Reads the folder that is looked at, once; forgets it when none is.
    pub(crate) fn poll(&mut self, folder: Option<&Path>, read: fn(&Path) -> T, wake: &Wake) {
        if self.folder.as_deref() != folder {
            *self = Self {
                folder: folder.map(Path::to_owned),
                ..Self::default()
            };
            self.job = self
                .folder
                .clone()
                .and_then(|folder| Job::begin("read folder", wake.clone(), move |_| read(&folder)));
        }
        if let Some(job) = &mut self.job
            && let Poll::Ready(found) = job.ended()
        {
            self.found = found;
            self.job = None;
        }
    }

    /// Waits until it is read; says whether there was anything to wait for.
    pub(crate) fn wait(&mut self) -> bool {
        let job = self.job.take();
        let found = job.map(|mut job| job.answer());
        let waited = found.is_some();
        if let Some(found) = found {
            self.found = found;
        }
        waited
    }
}

/// A case of a folder in words: its reference, or the name of its file where nothing is known of it, and
/// what is known of it or why nothing is.
pub(crate) fn listed(case: &ListedCase, notation: Notation, texts: &Texts) -> (String, String) {
    // Nothing is checked of a listed file: neither its name nor its reference may garble a line or fill a screen.
    let name = || clipped(&case.file.file_name().unwrap_or_default().to_string_lossy());
    let day = case.changed;
    let day = day.map(|at| at.strftime("%Y-%m-%d %H:%M UTC").to_string());
    let head = match &case.head {
        Ok(head) => head,
        Err(none) => {
            let why = match none {
                Unlisted::Newer => texts.get("listed-newer", &[]),
                Unlisted::Damaged => texts.get("listed-damaged", &[]),
                Unlisted::Unread(error) => refused_by_disk(error).0,
            };
            return (name(), why);
        }
    };
    let sites = head.sites.iter().map(|site| label(*site, notation, texts));
    let sites: Vec<String> = sites.collect();
    let none = || texts.get("listed-no-sites", &[]);
    let sites = if sites.is_empty() {
        none()
    } else {
        sites.join("; ")
    };
    let mut parts = vec![
        texts.get(head.jaw.text_id(), &[]),
        sites,
        texts.counted("listed-revision", &[("revision", head.revision)], &[]),
    ];
    parts.extend(day.map(|day| texts.get("listed-changed", &[("at", &day)])));
    parts.push(name());
    if case.is_unpacked {
        parts.push(texts.get("listed-unpacked", &[]));
    }
    if head.demonstration {
        parts.push(texts.get("listed-demonstration", &[]));
    }
    (clipped(&head.reference), parts.join(" · "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use traywright_core::dentition::Jaw;
    use traywright_core::store::CaseHead;

    #[test]
    fn a_listed_case_is_one_line_of_a_sane_length_whatever_its_file_says() {
        let case = ListedCase {
            file: PathBuf::from("a\n\u{1b}[31mb.json"),
            changed: None,
            is_unpacked: true,
            head: Ok(CaseHead {
                reference: format!("A\n\u{1b}[2J\u{202e}{}", "x".repeat(1_000_000)),
                demonstration: false,
                jaw: Jaw::Lower,
                revision: 1,
                sites: Vec::new(),
            }),
        };
        let (name, told) = listed(&case, Notation::Iso, Texts::english());
        for text in [&name, &told] {
            assert!(
                text.chars().all(|c| !c.is_control() && c != '\u{202e}'),
                "{text}"
            );
            assert!(text.chars().count() < 300);
        }
        assert!(
            name.contains("\\u{1b}") && told.contains("\\u{a}"),
            "what was there is seen: {name} {told}"
        );
    }
}
