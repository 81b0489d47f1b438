//! The findings in words, kept until the case changes.

use crate::desk::Document;
use traywright_core::dentition::Notation;
use traywright_core::wording::FindingText;

/// The findings of a case in words.
#[derive(Debug)]
pub(super) struct CachedFindings {
    of: (u64, Notation),
    /// In the order of the worksheet.
    pub(super) rows: Vec<Row>,
}

/// One finding in words.
#[derive(Debug)]
pub(super) struct Row {
    /// By this a judgement names it.
    pub(super) key: String,
    /// Its place and what was found.
    pub(super) line: String,
    /// Everything else.
    pub(super) said: FindingText,
}

impl CachedFindings {
    /// The findings of this case.
    pub(super) fn of(document: &Document, notation: Notation) -> Self {
        let formatter = document.formatter(notation);
        let findings = document.worksheet().findings.iter();
        let rows = findings.map(|finding| {
            let said = formatter.finding(finding);
            Row {
                key: finding.key(),
                line: formatter.line(&said),
                said,
            }
        });
        Self {
            of: (document.generation(), notation),
            rows: rows.collect(),
        }
    }

    /// True if they are of the case as it is.
    pub(super) fn is_of(&self, document: &Document, notation: Notation) -> bool {
        self.of == (document.generation(), notation)
    }
}

impl Row {
    /// The words below the line: the derivation of the value, its basis, and the surgeon's word.
    pub(super) fn beside(&self) -> String {
        let said = &self.said;
        let parts = [&said.basis, &said.source, &said.decision, &said.lapsed];
        let parts: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
        parts.join(" · ")
    }
}
