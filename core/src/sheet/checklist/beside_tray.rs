//! Things that are taken although no slot of the tray is for them, as lines to tick in two columns.

use super::Source;
use super::pieces::{heading, to_tick};
use crate::sheet::{Block, Lane, Width};

/// The lines under their heading.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let mut lines = source.formatter.beside_tray(source.worksheet);
    let half = lines.len().div_ceil(2);
    let rest = lines.split_off(half);
    let lane = |lines: Vec<String>| Lane {
        width: Width::Share(1.0),
        blocks: lines.into_iter().map(to_tick).collect(),
    };
    let mut blocks: Vec<Block> = heading(source.formatter.word("sheet-beside-tray")).into();
    blocks.push(Block::Beside(vec![lane(lines), lane(rest)], 6.0));
    blocks
}
