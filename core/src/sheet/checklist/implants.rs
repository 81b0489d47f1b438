//! The boxes for what was placed, one row an implant.

use super::Source;
use super::pieces::{column, heading};
use crate::drawing::{Across, TextStyle};
use crate::sheet::{Block, Cell, Row, Table, Width};
use crate::wording::begin;

/// Height of the box for a label with the lot, mm: usual labels of implants are about so high (common
/// practice, no source).
const BOX: f64 = 11.0;

/// The table, or nothing where no implant is planned.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    if source.worksheet.sites.is_empty() {
        return Vec::new();
    }
    let head = |id: &str, width| column(formatter.word(id), width, Across::Start);
    let columns = vec![
        head("sheet-col-site", Width::Mm(32.0)),
        head("sheet-col-implant-planned", Width::Share(1.0)),
        head("sheet-col-lot", Width::Mm(50.0)),
        head("sheet-col-torque", Width::Mm(15.0)),
        head("sheet-col-stability", Width::Mm(15.0)),
        head("sheet-col-depth-reached", Width::Mm(17.0)),
    ];
    let rows = source.worksheet.sites.iter().map(|sheet| {
        let mut row = vec![
            Cell::body(begin(&formatter.site(&sheet.id))),
            Cell::Text(formatter.implant(&sheet.implant), TextStyle::STRONG),
        ];
        row.extend((0..4).map(|_| Cell::WriteBox(BOX)));
        Row::Cells(row)
    });
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-implants-heading")).into();
    blocks.push(Block::Table(Table {
        columns,
        rows: rows.collect(),
        padding_mm: 0.7,
    }));
    blocks
}
