//! The tray: its drawing, the gauge's check, what to take and set, what is missing.

use super::Source;
use super::hand::{WIDTH, cell};
use super::pieces::{body, column, heading, note, table, to_tick};
use crate::charts::{SlotLook, TrayOptions, tray as tray_chart};
use crate::drawing::{Across, Drawing, TextStyle};
use crate::plan::{Hand, Known, LoadItem, StockLine};
use crate::say::LoadSaid;
use crate::sheet::{Block, Cell, Frame, Row, Table, Width};

/// Height of a box for a reading, mm.
const BOX: f64 = 8.0;
/// How many of the steps that a thing serves are named.
const NAMED: usize = 12;
/// Part of a page's height that the tray may take.
const TRAY_SHARE: f64 = 0.9;

pub(super) fn blocks(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let say = &source.say;
    let mut blocks = Vec::new();
    match tray(source, frame) {
        Some(drawing) => blocks.push(Block::Centred(drawing)),
        None => blocks.push(body(say.word("sheet-tray-none"))),
    }
    blocks.extend(heading(say.word("sheet-gauge-heading")));
    blocks.extend(gauge_check(source));
    blocks.extend(heading(say.word("sheet-set-heading")));
    blocks.extend(drills(source));
    blocks.extend(heading(say.word("sheet-rest-heading")));
    blocks.push(rest(source));
    blocks.extend(heading(say.word("sheet-stock-heading")));
    blocks.extend(shortages(source));
    blocks
}

/// The tray with its slots, as large as half a page lets it be.
fn tray(source: &Source<'_>, frame: Frame) -> Option<Drawing> {
    let say = &source.say;
    let setting = |item: &LoadItem| {
        let figure = Hand::of_item(item)?.acts_on(&source.case.kit).figure()?;
        Some(say.set_length(&Known::Is(figure)))
    };
    let id = source.case.setup.tray.as_ref()?;
    let template = source.case.kit.tray(id)?;
    let shape = template.width_mm.mm() / template.depth_mm.mm();
    let most = frame.area.height() * TRAY_SHARE;
    let options = TrayOptions {
        width_mm: frame.area.width().min(most * shape),
        texts: say.texts,
        setting: Some(&setting),
        look: &|_| SlotLook::Waiting,
    };
    tray_chart(source.case, source.worksheet, &options)
}

/// The check piece opens the session; then how readings count.
fn gauge_check(source: &Source<'_>) -> Vec<Block> {
    let say = &source.say;
    let gauge = source.case.setup.gauge.as_ref();
    let line = match gauge.and_then(|id| source.case.kit.gauge(id)) {
        None => say.word("sheet-gauge-none"),
        Some(gauge) => {
            let name = gauge.name.as_str();
            match gauge.check_piece_mm {
                None => say.text("sheet-gauge-no-piece", &[("gauge", name)]),
                Some(piece) => say.text(
                    "sheet-gauge-piece",
                    &[
                        ("gauge", name),
                        ("piece", &say.set_length_with_unit(&Known::Is(piece))),
                    ],
                ),
            }
        }
    };
    let rule = match &source.signed.bench_rule {
        None => say.word("sheet-bench-rule-none"),
        Some(rule) => say.text("sheet-bench-rule", &[("rule", rule)]),
    };
    vec![to_tick(line), note(say.word("sheet-set-how")), note(rule)]
}

/// Everything that carries a setting.
fn drills(source: &Source<'_>) -> Vec<Block> {
    let say = &source.say;
    let items: Vec<&LoadItem> = set_items(source).collect();
    if items.is_empty() {
        return vec![body(say.word("sheet-set-nothing"))];
    }
    let head = |id: &str, width, align| column(say.word(id), width, align);
    let tick = |id: &str, width| head(id, Width::Mm(width), Across::Middle);
    let columns = vec![
        head("sheet-col-number", Width::Mm(5.5), Across::End),
        head("sheet-col-slot", Width::Mm(16.0), Across::Start),
        head("sheet-col-take", Width::Share(1.0), Across::Start),
        head("sheet-col-set", Width::Mm(WIDTH), Across::End),
        tick("sheet-col-taken-tick", 8.0),
        tick("sheet-col-set-tick", 8.0),
        tick("sheet-col-locked", 11.0),
        head("sheet-col-read", Width::Mm(14.0), Across::Middle),
        tick("sheet-col-second", 12.0),
        tick("sheet-col-in-slot", 9.0),
    ];
    // What stays sealed is set when it is opened, not now.
    let (sealed, open): (Vec<&LoadItem>, Vec<&LoadItem>) =
        items.into_iter().partition(|item| item.unopened);
    let mut rows: Vec<Row> = Vec::new();
    for (words, list) in [("sheet-open-now", open), ("sheet-sealed-set", sealed)] {
        if !list.is_empty() {
            rows.push(Row::Section(say.word(words)));
            rows.extend(list.into_iter().map(|item| set_row(source, item)));
        }
    }
    vec![Block::Table(Table {
        columns,
        rows,
        padding_mm: 1.7,
    })]
}

/// What carries a setting, in the order of loading.
pub(super) fn set_items<'a>(source: &Source<'a>) -> impl Iterator<Item = &'a LoadItem> {
    source
        .worksheet
        .loading
        .iter()
        .filter(|item| item.set.is_some())
}

fn set_row(source: &Source<'_>, item: &LoadItem) -> Row {
    let hand = Hand::of_item(item);
    let tick = |wanted: Wanted| match wanted {
        Wanted::Yes => Cell::TickBox,
        Wanted::No => Cell::Empty,
    };
    let if_set = if hand.as_ref().is_some_and(Hand::is_read) {
        Wanted::Yes
    } else {
        Wanted::No
    };
    Row::Cells(vec![
        number(source, item),
        slot(source, item),
        Cell::Stack(take(source, item)),
        hand.map_or(Cell::Empty, |hand| cell(&hand, source)),
        Cell::TickBox,
        tick(if_set),
        tick(if_set),
        match if_set {
            Wanted::Yes => Cell::WriteBox(BOX),
            Wanted::No => Cell::Empty,
        },
        tick(if_set),
        Cell::TickBox,
    ])
}

/// Whether a box to tick belongs in a row.
#[derive(Clone, Copy)]
enum Wanted {
    Yes,
    No,
}

/// A thing in words. One that serves very many steps names the first of them: its row stays on a
/// page.
pub(super) fn said(source: &Source<'_>, item: &LoadItem) -> LoadSaid {
    let more = item.serves.len().saturating_sub(NAMED);
    if more == 0 {
        return source.say.load(item, source.worksheet);
    }
    let mut short = item.clone();
    short.serves.truncate(NAMED);
    let said = source.say.load(&short, source.worksheet);
    let args = [("list", said.serves.as_str()), ("more", &*more.to_string())];
    LoadSaid {
        serves: source.say.text("sheet-serves-more", &args),
        ..said
    }
}

/// Its number in the order of loading, as in the drawing of the tray.
pub(super) fn number(source: &Source<'_>, item: &LoadItem) -> Cell {
    let mut all = source.worksheet.loading.iter();
    let place = all.position(|other| std::ptr::eq(other, item));
    place.map_or(Cell::Empty, |index| {
        Cell::Text((index + 1).to_string(), TextStyle::NOTE)
    })
}

/// The slot's name alone, as the head says what it is.
pub(super) fn slot(source: &Source<'_>, item: &LoadItem) -> Cell {
    match &item.slot {
        Some(slot) => Cell::Text(slot.to_string(), TextStyle::STRONG),
        None => Cell::body(source.say.word("load-no-slot")),
    }
}

/// What to take, how it is marked, its stop, what it serves, and that it stays unopened.
fn take(source: &Source<'_>, item: &LoadItem) -> Vec<Cell> {
    let said = said(source, item);
    let mut cells = vec![Cell::Text(said.take, TextStyle::STRONG)];
    cells.extend(said.marking.map(|words| Cell::Text(words, TextStyle::NOTE)));
    let on_stop = item.set.as_ref().and_then(|on| on.stop.as_ref());
    match on_stop {
        Some(stop) => cells.push(Cell::body(source.say.stop(stop))),
        None => cells.extend(said.setting.map(Cell::body)),
    }
    cells.push(Cell::Text(said.serves, TextStyle::NOTE));
    cells.extend(said.unopened.map(|words| {
        Cell::Text(
            crate::say::begin(&words),
            TextStyle::STRONG.sized(TextStyle::NOTE.size_mm),
        )
    }));
    cells
}

/// Everything else, by kind.
fn rest(source: &Source<'_>) -> Block {
    let say = &source.say;
    let head = |id: &str, width, align| column(say.word(id), width, align);
    let columns = vec![
        head("sheet-col-number", Width::Mm(5.5), Across::End),
        head("sheet-col-slot", Width::Mm(22.0), Across::Start),
        head("sheet-col-take", Width::Share(1.0), Across::Start),
        head("sheet-col-for", Width::Share(1.0), Across::Start),
        head("sheet-col-taken-tick", Width::Mm(10.0), Across::Middle),
        head("sheet-col-in-slot", Width::Mm(10.0), Across::Middle),
    ];
    let mut rows = Vec::new();
    let mut kind_before = None;
    let plain = source
        .worksheet
        .loading
        .iter()
        .filter(|item| item.set.is_none());
    for item in plain {
        let said = said(source, item);
        if kind_before != Some(item.kind) {
            rows.push(Row::Section(crate::say::begin(&said.kind)));
            kind_before = Some(item.kind);
        }
        let mut what = vec![Cell::Text(said.take, TextStyle::STRONG)];
        what.extend(said.marking.map(|words| Cell::Text(words, TextStyle::NOTE)));
        what.extend(
            said.unopened
                .map(|words| Cell::body(crate::say::begin(&words))),
        );
        rows.push(Row::Cells(vec![
            number(source, item),
            slot(source, item),
            Cell::Stack(what),
            Cell::Text(said.serves, TextStyle::NOTE),
            Cell::TickBox,
            Cell::TickBox,
        ]));
    }
    table(columns, rows)
}

/// What there is too little of.
fn shortages(source: &Source<'_>) -> Vec<Block> {
    let say = &source.say;
    let short: Vec<&StockLine> = source
        .worksheet
        .stock
        .iter()
        .filter(|line| line.needed > line.have)
        .collect();
    if short.is_empty() {
        return vec![body(say.word("sheet-stock-enough"))];
    }
    short
        .into_iter()
        .map(|line| Block::Paragraph(say.stock(line), TextStyle::STRONG))
        .collect()
}
