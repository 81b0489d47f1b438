//! Checks at a site: clearances, then everything else that is not clear.

use super::super::Source;
use super::super::findings::{Place, findings};
use super::super::pieces::{body, heading, note};
use crate::plan::{Finding, Severity, SiteSheet, Subject};
use crate::sheet::Block;
use std::borrow::Cow;

/// All clearances of a site, clear ones too; of those between two sites that are told at the other
/// one, what is not clear.
pub(super) fn clearances(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let formatter = &source.formatter;
    let list: Vec<Cow<'_, Finding>> = source
        .worksheet
        .findings_of(&sheet.id)
        .filter(|finding| {
            let here = finding.place.site() == Some(&sheet.id);
            finding.subject() == Subject::Clearance
                && (here || finding.severity() != Severity::Clear)
        })
        .collect();
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-clearances")).into();
    match findings(source, Place::Site, &list) {
        Some(table) => blocks.push(table),
        None => blocks.push(body(formatter.word("sheet-no-clearances"))),
    }
    blocks
}

/// Everything else that was checked; what is clear is counted, not listed.
pub(super) fn others(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let formatter = &source.formatter;
    let (clear, list): (Vec<_>, Vec<_>) = source
        .worksheet
        .findings_of(&sheet.id)
        .filter(|finding| finding.subject() != Subject::Clearance)
        .partition(|finding| finding.severity() == Severity::Clear);
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-instruments")).into();
    match findings(source, Place::Site, &list) {
        Some(table) => blocks.push(table),
        None => blocks.push(body(formatter.word("sheet-instruments-clear"))),
    }
    if !clear.is_empty() {
        blocks.push(Block::Space(1.2));
        blocks.push(note(formatter.counted(
            "sheet-clear-count",
            &[("count", clear.len())],
            &[],
        )));
    }
    blocks
}
