//! Look-alikes: what else on the tray would cut too deep here.

use super::super::Source;
use super::super::pieces::{body, column, heading, note, table};
use crate::drawing::{Across, TextStyle};
use crate::plan::{LookAlike, SiteSheet};
use crate::sheet::{Block, Cell, Row, Width};

/// How many are listed, the deepest first.
const LISTED: usize = 5;

/// The deepest mix-ups of a site.
pub(super) fn blocks(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let say = &source.say;
    let all: Vec<&LookAlike> = source
        .worksheet
        .look_alikes
        .iter()
        .filter(|one| one.site == sheet.id)
        .collect();
    let mut blocks: Vec<Block> = heading(say.word("sheet-look-alikes")).into();
    if all.is_empty() {
        let id = if sheet.deepest_cut.length().is_some() {
            "sheet-look-alikes-none"
        } else {
            "sheet-look-alikes-unknown"
        };
        blocks.push(body(say.word(id)));
        return blocks;
    }
    let head = |id: &str, width| column(say.word(id), width, Across::Start);
    let columns = vec![
        head("sheet-col-taken", Width::Share(1.6)),
        head("sheet-col-cuts", Width::Share(0.9)),
        head("sheet-col-harm", Width::Share(1.2)),
    ];
    let rows = all.iter().take(LISTED).map(|one| {
        let said = say.mix_up(one);
        Row::Cells(vec![
            Cell::Text(crate::say::begin(&said.mistake), TextStyle::BODY),
            Cell::body(said.cut),
            Cell::body(said.harm),
        ])
    });
    blocks.push(table(columns, rows.collect()));
    let more = all.len().saturating_sub(LISTED);
    if more > 0 {
        let more = more.to_string();
        blocks.push(Block::Space(1.2));
        blocks.push(note(say.text("sheet-look-alikes-more", &[("more", &more)])));
    }
    blocks
}
