//! The limits that the verdicts rest on, each with its source.

use super::Source;
use super::pieces::{column, heading, mark, note};
use super::signatures::signatures;
use crate::case::LimitId;
use crate::drawing::{Across, TextStyle};
use crate::plan::{Quantity, Severity};
use crate::say::{degrees, mm};
use crate::sheet::{Block, Cell, Column, Row, Table, Width};

/// The limits, what the marks mean, and where to sign.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let say = &source.say;
    let head = |id: &str, width, align| column(say.word(id), width, align);
    let columns = vec![
        head("sheet-col-limit-of", Width::Share(0.9), Across::Start),
        head("sheet-col-limit", Width::Mm(18.0), Across::End),
        head("sheet-col-floor", Width::Mm(18.0), Across::End),
        head("sheet-col-source", Width::Share(1.6), Across::Start),
    ];
    let limits = &source.case.limits;
    let missing = || {
        let words = Cell::Text(say.word("sheet-limit-not-set"), TextStyle::STRONG);
        [Cell::Empty, Cell::Empty, words]
    };
    let mut rows: Vec<Row> = LimitId::ALL
        .iter()
        .map(|id| {
            let mut cells = vec![Cell::body(say.word(&format!("limit-{}", id.key())))];
            let own = limits.own_if_stricter(*id);
            match limits.get(*id) {
                Some(limit) => cells.extend([
                    Cell::Text(mm(limit.limit_mm), TextStyle::STRONG),
                    Cell::body(mm(limit.floor_mm)),
                    Cell::Text(
                        say.limit_source(&limit.source, own.map(Quantity::Length)),
                        TextStyle::NOTE,
                    ),
                ]),
                None => cells.extend(missing()),
            }
            Row::Cells(cells)
        })
        .collect();
    let mut cells = vec![Cell::body(say.word("limit-convergence"))];
    match &limits.convergence {
        Some(limit) => cells.extend([
            Cell::Text(degrees(limit.limit_deg), TextStyle::STRONG),
            Cell::Empty,
            Cell::Text(
                say.limit_source(
                    &limit.source,
                    limits.own_angle_if_stricter().map(Quantity::Angle),
                ),
                TextStyle::NOTE,
            ),
        ]),
        None => cells.extend(missing()),
    }
    rows.push(Row::Cells(cells));
    let mut blocks = vec![close(columns, rows), Block::Space(1.5)];
    blocks.push(note(say.word("sheet-limits-note")));
    blocks.extend(legend(source));
    blocks.push(signatures(source));
    blocks
}

/// What each mark means.
fn legend(source: &Source<'_>) -> Vec<Block> {
    let say = &source.say;
    let mut blocks: Vec<Block> = heading(say.word("sheet-legend-heading")).into();
    let columns = vec![
        column(
            say.word("sheet-col-verdict"),
            Width::Mm(28.0),
            Across::Start,
        ),
        column(
            say.word("sheet-col-means"),
            Width::Share(1.0),
            Across::Start,
        ),
    ];
    let all = [
        Severity::Short,
        Severity::Unknown,
        Severity::Tight,
        Severity::Accepted,
        Severity::Intended,
        Severity::Note,
        Severity::Clear,
    ];
    let rows = all.map(|severity| {
        Row::Cells(vec![
            Cell::Beside(vec![
                Cell::Mark(mark(severity)),
                Cell::Text(say.severity(severity), TextStyle::STRONG),
            ]),
            Cell::body(say.severity_meaning(severity)),
        ])
    });
    blocks.push(close(columns, rows.into()));
    blocks
}

/// A table whose rows stand close together.
fn close(columns: Vec<Column>, rows: Vec<Row>) -> Block {
    Block::Table(Table {
        columns,
        rows,
        padding_mm: 1.0,
    })
}
