//! The mark of each severity, on every chart, page and screen.

use crate::drawing::Mark;
use crate::plan::Severity;

/// The mark of a severity.
#[must_use]
pub const fn mark_of(severity: Severity) -> Mark {
    match severity {
        Severity::Short => Mark::Short,
        Severity::Unknown => Mark::Unknown,
        Severity::Tight => Mark::Tight,
        Severity::Accepted => Mark::Accepted,
        Severity::Intended => Mark::Intended,
        Severity::Note => Mark::Note,
        Severity::Clear => Mark::Clear,
    }
}
