//! The map of the tray with the things that are taken but not set, and those beside it. No setting is here.

use super::instruments::engraved_small;
use super::loading::{sites_of, slot};
use super::pieces::{SMALL, body, column, height};
use super::{Source, beside_tray};
use crate::charts::tray_map;
use crate::drawing::{Across, Drawing, TextStyle};
use crate::plan::LoadItem;
use crate::sheet::{Block, Cell, Frame, Lane, Row, Table, Width};

/// Width of the map, mm.
const MAP: f64 = 97.0;
/// Between two things beside each other, mm.
const GAP: f64 = 5.0;

/// The map with the list beside it; below each other where they are higher than a page.
pub(super) fn blocks(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let formatter = &source.formatter;
    let map = match map(source) {
        Some(drawing) => Block::Picture(drawing),
        None => body(formatter.word("sheet-tray-none")),
    };
    let items: Vec<&LoadItem> = {
        let loading = source.worksheet.loading.iter();
        let (closed, open): (Vec<_>, Vec<_>) = loading
            .filter(|item| item.set.is_none())
            .partition(|item| item.unopened);
        // What stays closed stands below the rest.
        open.into_iter().chain(closed).collect()
    };
    let mut left = vec![map, Block::Space(1.5)];
    left.extend(beside_tray::blocks(source));
    let lane = |width, blocks| Lane { width, blocks };
    let title = Block::Paragraph(formatter.word("sheet-rest-heading"), TextStyle::STRONG);
    let right = vec![title.clone(), Block::Space(0.8), list(source, &items)];
    let beside = Block::Beside(
        vec![
            lane(Width::Mm(MAP), left.clone()),
            lane(Width::Share(1.0), right),
        ],
        GAP,
    );
    let fits = |block: &Block| {
        height(std::slice::from_ref(block), frame.area.width()) <= frame.area.height()
    };
    if fits(&beside) {
        return vec![beside];
    }
    let mut blocks = left;
    blocks.extend([Block::Space(3.0), title]);
    let (first, second) = items.split_at(items.len().div_ceil(2));
    let columns = [first, second].map(|half| lane(Width::Share(1.0), vec![list(source, half)]));
    let columns = Block::Beside(columns.into(), GAP);
    if fits(&columns) {
        blocks.push(columns);
    } else {
        blocks.push(list(source, &items));
    }
    blocks
}

fn map(source: &Source<'_>) -> Option<Drawing> {
    tray_map(source.case, source.worksheet, source.formatter.texts, MAP)
}

/// The things with their slots, and boxes to tick.
fn list(source: &Source<'_>, items: &[&LoadItem]) -> Block {
    let head = |id: &str, width, align| column(source.formatter.word(id), width, align);
    let (closed, open): (Vec<&LoadItem>, Vec<&LoadItem>) =
        items.iter().copied().partition(|item| item.unopened);
    let mut rows: Vec<Row> = open.iter().map(|item| row(source, item)).collect();
    if !closed.is_empty() {
        rows.push(Row::Section(source.formatter.word("sheet-unopened")));
        rows.extend(closed.iter().map(|item| row(source, item)));
    }
    Block::Table(Table {
        columns: vec![
            head("sheet-col-slot", Width::Mm(15.0), Across::Start),
            head("sheet-col-take", Width::Share(1.0), Across::Start),
            head("sheet-col-taken-tick", Width::Mm(8.0), Across::Middle),
            head("sheet-col-in-slot", Width::Mm(6.0), Across::Middle),
        ],
        rows,
        padding_mm: 0.5,
        gap_mm: 1.6,
    })
}

fn row(source: &Source<'_>, item: &LoadItem) -> Row {
    let formatter = &source.formatter;
    let mut words = formatter.item(item);
    if let Some(colour) = &item.marking.colour {
        let args = [("name", words.as_str()), ("colour", colour.as_str())];
        words = formatter.text("sheet-named-colour", &args);
    }
    let name = Cell::Text(words, SMALL);
    let mut what = vec![match engraved_small(&item.marking) {
        Some(marking) => Cell::Beside(vec![marking, name]),
        None => name,
    }];
    // For the whole case, or for each site, needs no words.
    let sites = sites_of(item);
    let more = match sites[..] {
        _ if sites.len() == source.worksheet.sites.len() => None,
        [] => None,
        [site] => Some(formatter.site(site)),
        _ => {
            let numbers = sites.iter().map(|site| formatter.tooth_number(site));
            let list = numbers.collect::<Vec<_>>().join(", ");
            Some(formatter.text("sheet-for-teeth", &[("list", &list)]))
        }
    };
    what.extend(more.map(|words| Cell::Text(words, TextStyle::NOTE)));
    Row::Cells(vec![
        slot(source, item),
        Cell::Stack(what),
        Cell::TickBox,
        Cell::TickBox,
    ])
}
