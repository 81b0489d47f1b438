//! A cause on which several findings hang.

use super::Formatter;
use crate::plan::{Cause, Place, Reason};

/// A cause in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CauseText {
    /// The cause, and how many findings hang on it.
    pub headline: String,
    /// What would make them known.
    pub remedy: String,
}

impl Formatter<'_> {
    /// A cause on which so many findings hang, in words.
    #[must_use]
    pub fn cause(&self, cause: &Cause, findings: usize) -> CauseText {
        let (why, remedy) = match cause {
            Cause::Missing(place) => {
                let missing = Reason::Missing(place.clone());
                let why = self.reasons(std::slice::from_ref(&missing));
                (why.unwrap_or_default(), self.supply(&missing))
            }
            Cause::Changed(since) => {
                // Named with its site, wherever it is told.
                (
                    self.stale_since(since, &Place::Sites),
                    self.word("supply-stale"),
                )
            }
        };
        let count = [("findings", findings)];
        CauseText {
            headline: self.counted("cause-told", &count, &[("why", &why)]),
            remedy,
        }
    }
}
