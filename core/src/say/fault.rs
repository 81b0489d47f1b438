//! Faults of documents.

use crate::document::{Coverage, Fault, Faults};
use crate::text::Texts;

/// A fault in one line: place, what, limit and remedy.
///
/// Needs no case, since a document with a fault gives none.
#[must_use]
pub fn fault(fault: &Fault, texts: &Texts) -> String {
    let args: Vec<(&str, &str)> = fault
        .args
        .iter()
        .map(|(name, value)| (*name, value.as_str()))
        .collect();
    let what = texts.get(fault.rule.id(), &args);
    let place = fault.place.as_str();
    let Some(position) = fault.position else {
        return if place.is_empty() {
            what
        } else {
            texts.get("fault-at-place", &[("place", place), ("what", &what)])
        };
    };
    let line = position.line.to_string();
    if place.is_empty() {
        texts.get("fault-line", &[("line", &line), ("what", &what)])
    } else {
        texts.get(
            "fault-line-at-place",
            &[("line", &line), ("place", place), ("what", &what)],
        )
    }
}

/// All faults of a document, one line each, and how far it was looked at.
#[must_use]
pub fn faults(faults: &Faults, texts: &Texts) -> Vec<String> {
    let mut lines: Vec<String> = faults.iter().map(|one| fault(one, texts)).collect();
    if faults.left_out() > 0 {
        let count = faults.left_out().to_string();
        lines.push(texts.get("faults-left-out", &[("count", &count)]));
    }
    match faults.coverage() {
        Coverage::Whole => {}
        Coverage::EachValue => lines.push(texts.get("faults-each-value-only", &[])),
        Coverage::UpToFault => lines.push(texts.get("faults-up-to-here", &[])),
    }
    lines
}
