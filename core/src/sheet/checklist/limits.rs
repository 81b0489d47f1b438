//! The limits that the verdicts rest on, each with its source, and what the marks mean.

use super::Source;
use super::pieces::{SMALL, column, heading, note};
use crate::case::LimitId;
use crate::charts::mark_of;
use crate::dentition::Jaw;
use crate::drawing::{Across, TextStyle};
use crate::plan::{NOT_ASSESSED, Quantity, Severity};
use crate::sheet::{Block, Cell, Column, Row, Table, Width};
use crate::wording::{degrees, mm};

/// The limits and what the marks mean.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let columns = vec![
        head("sheet-col-limit-of", Width::Share(1.0), Across::Start),
        head("sheet-col-limit", Width::Mm(14.0), Across::End),
        head("sheet-col-floor", Width::Mm(14.0), Across::End),
        head("sheet-col-source", Width::Share(1.6), Across::Start),
    ];
    let limits = &source.case.limits;
    let missing = || {
        let words = strong(formatter.word("sheet-limit-not-set"));
        [Cell::Empty, Cell::Empty, words]
    };
    let mut rows: Vec<Row> = LimitId::ALL
        .iter()
        .filter(|id| jaw_of(**id).is_none_or(|jaw| jaw == source.case.jaw))
        .map(|id| {
            let mut cells = vec![small(formatter.word(&format!("limit-{}", id.key())))];
            let own = limits.own_if_stricter(*id);
            match limits.get(*id) {
                Some(limit) => cells.extend([
                    strong(mm(limit.limit_mm)),
                    small(mm(limit.floor_mm)),
                    Cell::Text(
                        formatter.limit_source(&limit.source, own.map(Quantity::Length)),
                        TextStyle::CAPTION,
                    ),
                ]),
                None => cells.extend(missing()),
            }
            Row::Cells(cells)
        })
        .collect();
    let mut cells = vec![small(formatter.word("limit-convergence"))];
    match &limits.convergence {
        Some(limit) => cells.extend([
            strong(degrees(limit.limit_deg)),
            Cell::Empty,
            Cell::Text(
                formatter.limit_source(
                    &limit.source,
                    limits.own_angle_if_stricter().map(Quantity::Angle),
                ),
                TextStyle::CAPTION,
            ),
        ]),
        None => cells.extend(missing()),
    }
    rows.push(Row::Cells(cells));
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-limits-heading")).into();
    blocks.extend([close(columns, rows), Block::Space(1.5)]);
    blocks.push(note(formatter.word("sheet-limits-note")));
    blocks.extend(legend(source));
    blocks
}

fn small(text: String) -> Cell {
    Cell::Text(text, SMALL)
}

fn strong(text: String) -> Cell {
    Cell::Text(text, SMALL.bold())
}

/// The jaw in which alone a structure is found; its limit is not printed for the other.
const fn jaw_of(id: LimitId) -> Option<Jaw> {
    match id {
        LimitId::MandibularCanal | LimitId::MentalForamen | LimitId::IncisiveCanal => {
            Some(Jaw::Lower)
        }
        LimitId::NasopalatineCanal | LimitId::Sinus | LimitId::NasalFloor => Some(Jaw::Upper),
        _ => None,
    }
}

/// The meaning of each mark.
fn legend(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-legend-heading")).into();
    // Neither column needs a head: the heading says what they hold.
    let columns = vec![
        column(String::new(), Width::Mm(28.0), Across::Start),
        column(String::new(), Width::Share(1.0), Across::Start),
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
    // Nothing is tight as long as accuracy is not assessed.
    let assessed = !NOT_ASSESSED.contains(&"accuracy");
    let possible = all
        .into_iter()
        .filter(|one| assessed || *one != Severity::Tight);
    let rows = possible.map(|severity| {
        Row::Cells(vec![
            Cell::Beside(vec![
                Cell::Mark(mark_of(severity)),
                strong(formatter.severity(severity)),
            ]),
            small(formatter.severity_meaning(severity)),
        ])
    });
    blocks.push(close(columns, rows.collect()));
    blocks
}

/// A table whose rows are close together.
fn close(columns: Vec<Column>, rows: Vec<Row>) -> Block {
    Block::Table(Table {
        columns,
        rows,
        padding_mm: 1.2,
        gap_mm: Table::GAP,
    })
}
