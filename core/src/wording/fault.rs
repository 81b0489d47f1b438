//! Faults of documents.

use crate::document::{Coverage, Fault, Faults};
use crate::text::Texts;

/// A fault in one line: place, what, limit and remedy.
///
/// Needs no case, since a document with a fault gives none.
#[must_use]
pub fn fault(fault: &Fault, texts: &Texts) -> String {
    fault.sentence(|id, args| texts.get(id, args))
}

/// All faults of a document, one line each, and how far it was looked at.
#[must_use]
pub fn faults(faults: &Faults, texts: &Texts) -> Vec<String> {
    let mut lines: Vec<String> = faults.iter().map(|one| fault(one, texts)).collect();
    if faults.left_out() > 0 {
        let count = faults.left_out();
        lines.push(texts.counted("faults-left-out", &[("count", count)], &[]));
    }
    match faults.coverage() {
        Coverage::Whole => {}
        Coverage::EachValue => lines.push(texts.get("faults-each-value-only", &[])),
        Coverage::UpToFault => lines.push(texts.get("faults-up-to-here", &[])),
    }
    lines
}
