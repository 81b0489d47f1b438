//! Look-alikes: what else on the tray would cut too deep or too wide here.

use super::super::Source;
use super::super::pieces::{SMALL, body, column, heading, note};
use crate::drawing::Across;
use crate::plan::{Mistake, MixUp, SiteSheet};
use crate::sheet::{Block, Cell, Row, Table, Width};

/// One kind of mistake, apart where it cuts too wide: of each kind only the deepest is printed. But
/// where only the setting distinguishes two, each step's is.
const fn kind(one: &MixUp) -> (u8, bool, bool) {
    let mistake = match &one.mistake {
        Mistake::OtherSetting { .. } => 0,
        Mistake::WithoutSleeve { .. } => 1,
        Mistake::OtherSleeve { .. } => 2,
        Mistake::WithoutGuide { .. } => 3,
        Mistake::OtherSet { .. } => 4,
        Mistake::PinDrill { .. } => 5,
    };
    (mistake, one.wider.is_some(), one.only_setting)
}

/// The mix-ups at a site, those first that only the setting distinguishes, of the others the
/// deepest of each kind; and what could not be tried.
pub(super) fn blocks(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let formatter = &source.formatter;
    let all: Vec<&MixUp> = source
        .worksheet
        .mix_ups
        .iter()
        .filter(|one| one.site == sheet.id)
        .collect();
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-look-alikes")).into();
    let not_tried = formatter.not_tried(&sheet.mix_ups_not_tried);
    if all.is_empty() && not_tried.is_empty() {
        blocks.push(body(formatter.word("sheet-look-alikes-none")));
    }
    blocks.extend(not_tried.into_iter().map(body));
    if all.is_empty() {
        return blocks;
    }
    let mut listed: Vec<&MixUp> = Vec::new();
    for one in &all {
        let told = |other: &&MixUp| !one.only_setting && kind(other) == kind(one);
        if !listed.iter().any(told) {
            listed.push(*one);
        }
    }
    let head = |id: &str, width| column(formatter.word(id), width, Across::Start);
    let columns = vec![
        head("sheet-col-taken", Width::Share(2.5)),
        head("sheet-col-cuts", Width::Share(0.75)),
        head("sheet-col-harm", Width::Share(1.05)),
    ];
    let rows = listed.iter().map(|one| {
        let said = formatter.mix_up(one);
        Row::Cells(vec![
            Cell::Text(crate::wording::begin(&said.mistake), SMALL),
            Cell::Text(said.cut, SMALL),
            Cell::Text(said.harm, SMALL),
        ])
    });
    blocks.push(Block::Table(Table {
        columns,
        rows: rows.collect(),
        padding_mm: 1.2,
        gap_mm: Table::GAP,
    }));
    let more = all.len() - listed.len();
    if more > 0 {
        blocks.push(Block::Space(1.2));
        blocks.push(note(formatter.counted(
            "sheet-look-alikes-more",
            &[("more", more)],
            &[],
        )));
    }
    blocks
}
