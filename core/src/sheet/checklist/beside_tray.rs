//! Things that are taken although no slot of the tray is for them, as lines to tick.

use super::Source;
use super::pieces::{SMALL, to_tick_in};
use crate::drawing::TextStyle;
use crate::sheet::Block;

/// The lines under their heading.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let lines = source.formatter.beside_tray(source.worksheet);
    let mut blocks = vec![
        Block::Heading(
            source.formatter.word("sheet-beside-tray"),
            TextStyle::STRONG,
        ),
        Block::Space(0.8),
    ];
    blocks.extend(lines.into_iter().map(|line| to_tick_in(line, SMALL)));
    blocks
}
