//! The map of the tray with the things that are taken but not set, and those beside it. No setting is here.

use super::done::{self, Tick, tick_cell};
use super::instruments::engraved_small;
use super::loading::{sites_of, slot};
use super::pieces::{SMALL, body, column, height};
use super::{Source, beside_tray};
use crate::charts::tray_map;
use crate::drawing::{Across, Drawing, TextStyle};
use crate::plan::LoadItem;
use crate::sheet::{Block, Cell, Frame, Lane, Row, Table, Width};

/// Width of the map, mm.
const MAP: f64 = 92.0;
/// Height of a heading with the room below it, mm.
const HEADING: f64 = TextStyle::STRONG.line_height() + 0.8;

/// Height of the title above the tray, at most, mm.
const TITLE: f64 = 16.0;
/// Between two things beside each other, mm.
const GAP: f64 = 3.4;

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
    let beside_tray = beside_tray::blocks(source);
    let lane = |width, blocks| Lane { width, blocks };
    let title = Block::Paragraph(formatter.word("sheet-rest-heading"), TextStyle::STRONG);
    let right = vec![title.clone(), Block::Space(0.8), list(source, &items)];
    let beside = |left: Vec<Block>| {
        let lanes = vec![
            lane(Width::Mm(MAP), left),
            lane(Width::Share(1.0), right.clone()),
        ];
        Block::Beside(lanes, GAP)
    };
    let high = |blocks: &[Block]| height(blocks, frame.area.width());
    let mut left = vec![map.clone(), Block::Space(1.5)];
    left.extend(beside_tray.clone());
    // What lies beside the tray stands below the map, or in two columns below map and list: where it takes least.
    let (first, second) = beside_tray.split_at(beside_tray.len().midpoint(3));
    let below = vec![
        beside(vec![map]),
        Block::Space(1.5),
        Block::Beside(
            vec![
                lane(Width::Mm(MAP), first.to_vec()),
                lane(
                    Width::Share(1.0),
                    [Block::Space(HEADING)]
                        .into_iter()
                        .chain(second.to_vec())
                        .collect(),
                ),
            ],
            GAP,
        ),
    ];
    let under_map = vec![beside(left.clone())];
    let mut ways = vec![under_map, below];
    ways.sort_by(|one, other| high(one).total_cmp(&high(other)));
    // Under the title of its page.
    let room = frame.area.height() - TITLE;
    let fits = |block: &Block| high(std::slice::from_ref(block)) <= room;
    if let Some(lowest) = ways.into_iter().next()
        && high(&lowest) <= room
    {
        return vec![Block::Together(lowest)];
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
    let mut rows: Vec<Row> = alike(&open).map(|items| row(source, items)).collect();
    if !closed.is_empty() {
        rows.push(Row::Section(source.formatter.word("sheet-unopened")));
        rows.extend(alike(&closed).map(|items| row(source, items)));
    }
    Block::Table(Table {
        columns: vec![
            head("sheet-col-slot", Width::Mm(15.4), Across::Start),
            head("sheet-col-take-for", Width::Share(1.0), Across::Start),
            head("sheet-col-taken-tick", Width::Mm(7.8), Across::Middle),
            head("sheet-col-laid", Width::Mm(5.4), Across::Middle),
        ],
        rows,
        padding_mm: 0.35,
        gap_mm: 1.4,
    })
}

/// Things that are the same and lie beside each other: one line, one box for all of them.
fn row(source: &Source<'_>, items: &[&LoadItem]) -> Row {
    let formatter = &source.formatter;
    let Some(item) = items.first() else {
        return Row::Cells(Vec::new());
    };
    let mut words = formatter.item(item);
    if let Some(colour) = &item.marking.colour {
        let args = [("name", words.as_str()), ("colour", colour.as_str())];
        words = formatter.text("sheet-named-colour", &args);
    }
    if items.len() > 1 {
        let count = [("count", items.len())];
        words = formatter.counted("sheet-several", &count, &[("item", &words)]);
    }
    // For the whole case, or for each site, needs no words.
    let sites = sites_of(item);
    if !sites.is_empty() && sites.len() < source.worksheet.sites.len() {
        let numbers = sites.iter().map(|site| formatter.tooth_number(site));
        let list = numbers.collect::<Vec<_>>().join(", ");
        words = formatter.text("sheet-for-teeth", &[("item", &words), ("list", &list)]);
    }
    let name = Cell::Text(words, SMALL);
    let what = match engraved_small(&item.marking) {
        Some(marking) => Cell::Beside(vec![marking, name]),
        None => name,
    };
    let slot = match &slots(items)[..] {
        [] | [_] => slot(source, item),
        [first, others @ ..] => {
            let first = [first.as_str()].into_iter();
            let all = first.chain(others.iter().map(|name| number(name)));
            let all = all.map(ToOwned::to_owned);
            let words = formatter.joined("sheet-slots", all).unwrap_or_default();
            Cell::Text(words, SMALL.bold())
        }
    };
    let tick = if done::are_laid(source, items) {
        Tick::Ticked
    } else {
        Tick::Blank
    };
    Row::Cells(vec![slot, what, tick_cell(tick), tick_cell(tick)])
}

/// The names of the slots of things, where each has one.
fn slots(items: &[&LoadItem]) -> Vec<String> {
    let names = items
        .iter()
        .map(|item| Some(item.slot.as_ref()?.to_string()));
    names.collect::<Option<Vec<_>>>().unwrap_or_default()
}

/// The number that a slot's name ends in.
fn number(name: &str) -> &str {
    name.rsplit_once(' ').map_or(name, |(_, last)| last)
}

/// Things that lie one after the other and are the same but for their slots, whose names differ in their numbers
/// alone.
fn alike<'a, 'b>(items: &'b [&'a LoadItem]) -> impl Iterator<Item = &'b [&'a LoadItem]> {
    let row_of = |item: &LoadItem| {
        let name = item.slot.as_ref()?.to_string();
        let (row, last) = name.rsplit_once(' ')?;
        let is_number = last.chars().all(|one| one.is_ascii_digit());
        is_number.then(|| row.to_owned())
    };
    items.chunk_by(move |one, next| {
        let row = row_of(one);
        (one.kind, &one.entry, &one.name) == (next.kind, &next.entry, &next.name)
            && sites_of(one) == sites_of(next)
            && row.is_some()
            && row == row_of(next)
    })
}
