//! Findings as rows: mark and word, what was found with figure and limit, what it rests on.

use super::Source;
use super::pieces::{column, verdict};
use crate::drawing::{Across, TextStyle};
use crate::plan::{CommonCause, Finding, FindingLine, Severity, by_cause};
use crate::sheet::{Block, Cell, Row, Table, Width};
use crate::wording::FindingText;
use std::borrow::Borrow;

/// The page on which findings are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// On a page of the whole case: each names its site.
    Case,
    /// On the page of its site.
    Site,
}

/// Findings as a table; nothing for none. What is clear takes one line in small type; the sources
/// of the limits are given once, with the limits.
pub(super) fn findings(
    source: &Source<'_>,
    place: Place,
    list: &[impl Borrow<Finding>],
) -> Option<Block> {
    if list.is_empty() {
        return None;
    }
    let formatter = &source.formatter;
    // Once over all of them: it is a state of the whole.
    let rests_on = match formatter.accuracy(list.iter().map(Borrow::borrow)) {
        Some(accuracy) => {
            let args = [("accuracy", &*accuracy)];
            formatter.text("sheet-col-rests-on-accuracy", &args)
        }
        None => formatter.word("sheet-col-rests-on"),
    };
    let head = |text, width| column(text, width, Across::Start);
    let columns = vec![
        head(formatter.word("sheet-col-verdict"), Width::Mm(22.0)),
        head(formatter.word("sheet-col-found"), Width::Share(1.0)),
        head(rests_on, Width::Mm(50.0)),
    ];
    let list: Vec<&Finding> = list.iter().map(Borrow::borrow).collect();
    let rows = by_cause(list, |finding| finding)
        .into_iter()
        .flat_map(|told| match told {
            FindingLine::One(finding) => vec![row(source, place, finding)],
            FindingLine::Cause(cause, findings) => together(source, place, &cause, &findings),
        });
    Some(Block::Table(Table {
        columns,
        rows: rows.collect(),
        padding_mm: 1.1,
        gap_mm: Table::GAP,
    }))
}

fn row(source: &Source<'_>, place: Place, finding: &Finding) -> Row {
    let said = source.formatter.finding(finding);
    // Of what lies between two sites, one of them bears the whole.
    let elsewhere = finding
        .place
        .site()
        .filter(|site| finding.site.as_ref() != Some(site));
    let what = match elsewhere {
        _ if said.severity == Severity::Clear => {
            vec![Cell::Text(headline(source, place, &said), TextStyle::NOTE)]
        }
        Some(site) => {
            let site = source.formatter.site(site);
            let told = source.formatter.text("sheet-told-at", &[("site", &site)]);
            vec![
                Cell::Text(headline(source, place, &said), TextStyle::STRONG),
                Cell::Text(told, TextStyle::NOTE),
            ]
        }
        None => in_full(source, place, &said),
    };
    Row::Cells(vec![
        verdict(said.severity, said.word),
        Cell::Stack(what),
        Cell::Text(said.basis.unwrap_or_default(), TextStyle::CAPTION),
    ])
}

/// A cause with what to do, and beneath it a row for each finding that hangs on it.
fn together(
    source: &Source<'_>,
    place: Place,
    cause: &CommonCause,
    findings: &[&Finding],
) -> Vec<Row> {
    let said = source.formatter.cause(cause, findings.iter().copied());
    let cells = |mark, what| {
        let rests_on = Cell::Text(String::new(), TextStyle::CAPTION);
        Row::Cells(vec![mark, Cell::Stack(what), rests_on])
    };
    let word = source.formatter.severity(Severity::Unknown);
    let what = vec![
        Cell::Text(crate::wording::begin(&said.headline), TextStyle::STRONG),
        Cell::body(said.remedy),
    ];
    let beneath = findings.iter().map(|finding| {
        let said = source.formatter.finding(finding);
        let line = Cell::Text(headline(source, place, &said), TextStyle::NOTE);
        let what = std::iter::once(line).chain(said.lapsed.map(Cell::body));
        let none = Cell::Text(String::new(), TextStyle::NOTE);
        cells(none, what.collect())
    });
    let first = cells(verdict(Severity::Unknown, word), what);
    std::iter::once(first).chain(beneath).collect()
}

fn headline(source: &Source<'_>, place: Place, said: &FindingText) -> String {
    crate::wording::begin(&match place {
        Place::Case => source.formatter.line(said),
        Place::Site => said.headline.clone(),
    })
}

/// With how the value came about, who said what of it and why, and what to do.
fn in_full(source: &Source<'_>, place: Place, said: &FindingText) -> Vec<Cell> {
    let mut what = vec![Cell::Text(headline(source, place, said), TextStyle::STRONG)];
    let detail = said.detail.clone();
    what.extend(detail.map(|text| Cell::Text(text, TextStyle::NOTE)));
    what.extend(said.decision.clone().map(Cell::body));
    what.extend(said.lapsed.clone().map(Cell::body));
    if said.severity.is_open() || said.severity == Severity::Tight {
        what.extend(said.remedy.clone().map(Cell::body));
    }
    what
}
