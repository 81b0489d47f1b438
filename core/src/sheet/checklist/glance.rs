//! What is open or accepted, one line each, for the room; in full it is in the annex.

use super::Source;
use super::pieces::{SMALL, column};
use crate::charts::mark_of;
use crate::drawing::Across;
use crate::plan::{Finding, FindingLine, Severity, by_cause};
use crate::sheet::{Block, Cell, Row, Table, Width};
use crate::wording::begin;

/// The findings that are open, accepted or intended, worst first; what hangs on one cause is one line. Of more than
/// `most` lines the rest is counted.
pub(super) fn blocks(source: &Source<'_>, most: usize) -> Vec<Block> {
    let formatter = &source.formatter;
    let all = source.worksheet.findings.iter();
    let spoken = |finding: &&Finding| {
        let severity = finding.severity();
        severity.is_open() || matches!(severity, Severity::Accepted | Severity::Intended)
    };
    let mut list: Vec<&Finding> = all.filter(spoken).collect();
    list.sort_by_key(|finding| finding.severity());
    let lines = by_cause(list, |finding| finding);
    let count = lines.len();
    if count == 0 {
        return Vec::new();
    }
    let rows = lines.into_iter().take(most).map(|told| match told {
        FindingLine::One(finding) => {
            let said = formatter.finding(finding);
            let words = begin(&formatter.line(&said));
            row(finding.severity(), &said.word, &words)
        }
        FindingLine::Cause(cause, findings) => {
            let said = formatter.cause(&cause, findings.iter().copied());
            let word = formatter.severity(Severity::Unknown);
            row(Severity::Unknown, &word, &begin(&said.headline))
        }
    });
    let mut blocks = vec![
        Block::Space(1.0),
        Block::Table(Table {
            columns: vec![
                column(String::new(), Width::Mm(34.0), Across::Start),
                column(String::new(), Width::Share(1.0), Across::Start),
            ],
            rows: rows.collect(),
            padding_mm: 0.6,
            gap_mm: 2.0,
        }),
    ];
    let more = count.saturating_sub(most);
    if more > 0 {
        blocks.push(Block::Space(0.8));
        blocks.push(Block::Paragraph(
            formatter.counted("safety-more-open", &[("more", more)], &[]),
            SMALL.bold(),
        ));
    }
    blocks
}

fn row(severity: Severity, word: &str, words: &str) -> Row {
    Row::Cells(vec![
        Cell::Beside(vec![
            Cell::Mark(mark_of(severity)),
            Cell::Text(word.to_owned(), SMALL.bold()),
        ]),
        Cell::Text(words.to_owned(), SMALL),
    ])
}
