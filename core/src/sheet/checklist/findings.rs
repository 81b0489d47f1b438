//! Findings as rows: mark and word, what was found with figure and limit, what it rests on.

use super::Source;
use super::pieces::{column, table, verdict};
use crate::drawing::{Across, TextStyle};
use crate::plan::{Finding, Severity};
use crate::sheet::{Block, Cell, Row, Width};

/// Where findings are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// On a page of the whole case: each names its site.
    Case,
    /// On the page of its site.
    Site,
}

/// Findings as a table; nothing for none.
pub(super) fn findings(source: &Source<'_>, place: Place, list: &[&Finding]) -> Option<Block> {
    if list.is_empty() {
        return None;
    }
    let say = &source.say;
    let columns = vec![
        column(
            say.word("sheet-col-verdict"),
            Width::Mm(23.0),
            Across::Start,
        ),
        column(
            say.word("sheet-col-found"),
            Width::Share(1.0),
            Across::Start,
        ),
        column(
            say.word("sheet-col-rests-on"),
            Width::Mm(27.0),
            Across::Start,
        ),
        column(
            say.word("sheet-col-limit-source"),
            Width::Share(0.5),
            Across::Start,
        ),
    ];
    let rows = list.iter().map(|finding| row(source, place, finding));
    Some(table(columns, rows.collect()))
}

fn row(source: &Source<'_>, place: Place, finding: &Finding) -> Row {
    let say = &source.say;
    let said = say.finding(finding);
    let headline = match place {
        Place::Case => say.line(&said),
        Place::Site => said.headline.clone(),
    };
    let style = if said.severity == Severity::Clear {
        TextStyle::BODY
    } else {
        TextStyle::STRONG
    };
    let note = |text: String| Cell::Text(text, TextStyle::NOTE);
    let mut what = vec![Cell::Text(crate::say::begin(&headline), style)];
    // A clear clearance still shows how it came about; its remedy is nothing.
    what.extend(said.detail.map(note));
    what.extend(said.judgement.map(Cell::body));
    what.extend(said.lapsed.map(Cell::body));
    if said.severity.is_open() || said.severity == Severity::Tight {
        what.extend(said.remedy.map(Cell::body));
    }
    let caption = |text: String| Cell::Text(text, TextStyle::CAPTION);
    let rests = [said.basis, said.accuracy].into_iter().flatten();
    let source = finding.limit_source.clone();
    Row::Cells(vec![
        verdict(said.severity, said.word),
        Cell::Stack(what),
        Cell::Stack(rests.map(caption).collect()),
        source.map_or(Cell::Empty, caption),
    ])
}
