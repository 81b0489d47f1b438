//! The tray: its drawing, the gauge's check, what to take and set, what is missing.

use super::actionable::{in_form, is_known};
use super::instruments::engraved;
use super::order::SET;
use super::pieces::{SMALL, body, column, heading, height, note, to_tick};
use super::{Source, beside_tray};
use crate::charts::mark_of;
use crate::charts::{Legible, SlotLook, TrayOptions, tray as tray_chart};
use crate::drawing::{Across, Drawing, TextStyle};
use crate::kit::SiteId;
use crate::plan::{Actionable, Known, LoadItem, Severity, StockLine};
use crate::sheet::{Block, Cell, Frame, Lane, Row, Table, Width};
use crate::wording::mm;

/// Height of a box for a reading, mm.
const BOX: f64 = 7.6;
/// Number of the steps named of those that a thing serves.
const NAMED: usize = 12;
/// Between two columns of things, mm.
const LANES: f64 = 6.0;
/// Part of a page's height that the tray may take.
const TRAY_SHARE: f64 = 0.8;

pub(super) fn blocks(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let formatter = &source.formatter;
    let mut blocks = Vec::new();
    match tray(source, frame) {
        Some(drawing) => blocks.push(Block::Centred(drawing)),
        None => blocks.push(body(formatter.word("sheet-tray-none"))),
    }
    blocks.extend(beside_tray::blocks(source));
    blocks.extend(heading(formatter.word("sheet-gauge-heading")));
    blocks.extend(gauge_check(source));
    blocks.extend(shortages(source));
    blocks.extend(heading(formatter.word("sheet-set-heading")));
    blocks.extend(drills(source));
    blocks.extend(heading(formatter.word("sheet-rest-heading")));
    blocks.extend(rest(source, frame));
    blocks
}

/// The tray with its slots, as large as a page with the checks below it lets it be.
fn tray(source: &Source<'_>, frame: Frame) -> Option<Drawing> {
    let formatter = &source.formatter;
    let setting = |item: &LoadItem| {
        let figure = Actionable::of_item(item)?
            .figure(&source.case.kit)
            .large()?;
        Some(formatter.set_length(&Known::Is(figure)))
    };
    let id = source.case.setup.tray.as_ref()?;
    let template = source.case.kit.tray(id)?;
    let shape = template.width_mm.mm() / template.depth_mm.mm();
    let most = frame.area.height() * TRAY_SHARE;
    let options = TrayOptions {
        legible: Legible::FromAfar,
        width_mm: frame.area.width().min(most * shape),
        texts: formatter.texts,
        setting: Some(&setting),
        look: &|_| SlotLook::Waiting,
    };
    tray_chart(source.case, source.worksheet, &options)
}

/// The check piece opens the session; then how readings count.
fn gauge_check(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let line = match source.case.gauge() {
        None => formatter.word("sheet-gauge-none"),
        Some(gauge) => {
            let name = gauge.name.as_str();
            match gauge.check_piece_mm {
                _ if gauge.constant_mm.is_none() => {
                    formatter.text("sheet-gauge-no-constant", &[("gauge", name)])
                }
                None => formatter.text("sheet-gauge-no-piece", &[("gauge", name)]),
                Some(piece) => {
                    let unit = |length| formatter.set_length_with_unit(&Known::Is(length));
                    let shown = gauge.shows_of(piece).unwrap_or(piece);
                    let (piece, shown) = (unit(piece), unit(shown));
                    let id = if piece == shown {
                        "sheet-gauge-piece"
                    } else {
                        "sheet-gauge-piece-shows"
                    };
                    let mut args = vec![("gauge", name), ("piece", piece.as_str())];
                    if piece != shown {
                        args.push(("shown", &shown));
                    }
                    formatter.text(id, &args)
                }
            }
        }
    };
    let rule = match &source.signed.bench_rule {
        None => formatter.word("sheet-bench-rule-none"),
        Some(rule) => formatter.text("sheet-bench-rule", &[("rule", rule)]),
    };
    vec![
        to_tick(line),
        note(formatter.word("sheet-set-how")),
        note(rule),
    ]
}

/// Everything that carries a setting.
fn drills(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let items: Vec<&LoadItem> = set_items(source).collect();
    if items.is_empty() {
        return vec![body(formatter.word("sheet-set-nothing"))];
    }
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let tick = |id: &str, width| head(id, Width::Mm(width), Across::Middle);
    let columns = vec![
        head("sheet-col-number", Width::Mm(5.0), Across::End),
        head("sheet-col-slot", Width::Mm(15.0), Across::Start),
        head("sheet-col-take", Width::Share(1.0), Across::Start),
        head("sheet-col-set", Width::Mm(SET), Across::End),
        tick("sheet-col-taken-tick", 9.0),
        tick("sheet-col-set-tick", 5.0),
        tick("sheet-col-locked", 11.0),
        head("sheet-col-read", Width::Mm(13.0), Across::Middle),
        tick("sheet-col-second", 12.0),
        tick("sheet-col-in-slot", 7.0),
    ];
    // What stays sealed is set when it is opened, not now.
    let (sealed, open): (Vec<&LoadItem>, Vec<&LoadItem>) =
        items.into_iter().partition(|item| item.unopened);
    let mut rows: Vec<Row> = Vec::new();
    for (words, list) in [("sheet-open-now", open), ("sheet-sealed-set", sealed)] {
        if !list.is_empty() {
            rows.push(Row::Section(formatter.word(words)));
            rows.extend(list.into_iter().flat_map(|item| set_rows(source, item)));
        }
    }
    vec![Block::Table(Table {
        columns,
        rows,
        padding_mm: 0.8,
    })]
}

/// The items that carry a setting, in the order of loading.
pub(super) fn set_items<'a>(source: &Source<'a>) -> impl DoubleEndedIterator<Item = &'a LoadItem> {
    source
        .worksheet
        .loading
        .iter()
        .filter(|item| item.set.is_some())
}

/// A drill with its first setting; below it what is set anew on it in surgery, which is nothing to do
/// now.
fn set_rows(source: &Source<'_>, item: &LoadItem) -> Vec<Row> {
    let mut rows = vec![set_row(source, item)];
    let later = source.formatter.load(item, source.worksheet).set_anew;
    rows.extend(later.into_iter().map(|words| {
        Row::After(vec![
            Cell::Empty,
            Cell::Empty,
            Cell::Text(words, TextStyle::NOTE.bold()),
        ])
    }));
    rows
}

fn set_row(source: &Source<'_>, item: &LoadItem) -> Row {
    let formatter = &source.formatter;
    let actionable = Actionable::of_item(item);
    let mut first = vec![
        number(source, item),
        slot(source, item),
        Cell::Stack(take(source, item)),
    ];
    if !actionable
        .as_ref()
        .is_some_and(|actionable| is_known(actionable, source))
    {
        // Nothing to tick: it is not for use.
        first.push(actionable.map_or(Cell::Empty, |actionable| figure(source, &actionable)));
        first.push(Cell::Text(
            formatter.word("sheet-do-not-use"),
            TextStyle::STRONG,
        ));
        return Row::Cells(first);
    }
    let tick = |wanted: Fill| match wanted {
        Fill::Yes => Cell::TickBox,
        Fill::No => Cell::Empty,
    };
    let if_set = if actionable.as_ref().is_some_and(Actionable::is_read) {
        Fill::Yes
    } else {
        Fill::No
    };
    first.extend([
        actionable.map_or(Cell::Empty, |actionable| figure(source, &actionable)),
        Cell::TickBox,
        tick(if_set),
        tick(if_set),
        match if_set {
            Fill::Yes => Cell::WriteBox(BOX),
            Fill::No => Cell::Empty,
        },
        tick(if_set),
        Cell::TickBox,
    ]);
    Row::Cells(first)
}

/// The figure to set.
fn figure(source: &Source<'_>, actionable: &Actionable<'_>) -> Cell {
    Cell::Stack(in_form(actionable, source, SET))
}

/// A box to tick belongs in a row, or not.
#[derive(Clone, Copy)]
enum Fill {
    Yes,
    No,
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
        None => Cell::body(source.formatter.without_slot()),
    }
}

/// The thing to take and its marking, its stop or mark, the sites that it serves with the mark of
/// their worst verdict.
fn take(source: &Source<'_>, item: &LoadItem) -> Vec<Cell> {
    let formatter = &source.formatter;
    let mut cells = vec![name(source, item)];
    let on_stop = item.set.as_ref().and_then(|on| on.stop.as_ref());
    let stop = on_stop.map_or_else(
        || formatter.word("sheet-by-mark"),
        |stop| formatter.stop(stop),
    );
    let mut drills = source.case.kit.drills.iter();
    let drill = drills.find(|drill| drill.id.as_str() == item.entry);
    let stop = match drill {
        Some(drill) => {
            let length = mm(drill.overall_length_mm);
            let args = [("stop", stop.as_str()), ("length", &length)];
            formatter.text("sheet-stop-and-length", &args)
        }
        None => stop,
    };
    cells.push(Cell::Text(stop, SMALL));
    let sites = sites_of(item);
    let worst: Option<Severity> = source
        .worksheet
        .sites
        .iter()
        .filter(|sheet| sites.contains(&&sheet.id))
        .map(|sheet| sheet.worst)
        .min();
    let word = worst.map(|worst| {
        let findings = &source.worksheet.findings;
        formatter.worst_word(worst, &sites, findings)
    });
    let count = [("count", sites.len())];
    let sites = serves(source, item);
    cells.push(match worst {
        Some(worst) => {
            let args = [("sites", &*sites), ("verdict", &*word.unwrap_or_default())];
            let words = formatter.counted("sheet-serves-worst", &count, &args);
            Cell::Beside(vec![Cell::Mark(mark_of(worst)), Cell::Text(words, SMALL)])
        }
        None => Cell::Text(formatter.word("load-whole-case"), SMALL),
    });
    cells
}

/// Its name with letter, shape and colour as they are on it.
pub(super) fn name(source: &Source<'_>, item: &LoadItem) -> Cell {
    let name = Cell::Text(source.formatter.item(item), TextStyle::STRONG);
    match engraved(&item.marking) {
        Some(marking) => Cell::Beside(vec![marking, name]),
        None => name,
    }
}

/// The sites that an item serves, each once.
fn sites_of(item: &LoadItem) -> Vec<&SiteId> {
    let mut sites: Vec<&SiteId> = Vec::new();
    for site in item.serves.iter().filter_map(|one| one.site.as_ref()) {
        if !sites.contains(&site) {
            sites.push(site);
        }
    }
    sites
}

/// The sites in words. One that serves very many names the first of them: its row stays on a page.
fn serves(source: &Source<'_>, item: &LoadItem) -> String {
    let formatter = &source.formatter;
    let sites = sites_of(item);
    if sites.len() > 2 && sites.len() == source.worksheet.sites.len() {
        return formatter.counted("sheet-serves-all", &[("count", sites.len())], &[]);
    }
    let named = sites.iter().take(NAMED).map(|site| formatter.site(site));
    let list = formatter.joined("load-list", named).unwrap_or_default();
    match sites.len().saturating_sub(NAMED) {
        0 => list,
        more => formatter.counted("sheet-serves-more", &[("more", more)], &[("list", &list)]),
    }
}

/// Everything else, by kind: each kind in two columns beside each other, where these fit on a page.
fn rest(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let loading = source.worksheet.loading.iter();
    let plain: Vec<&LoadItem> = loading.filter(|item| item.set.is_none()).collect();
    let alike = |a: &&LoadItem, b: &&LoadItem| (a.kind, a.unopened) == (b.kind, b.unopened);
    plain
        .chunk_by(alike)
        .flat_map(|group| kind(source, group, frame))
        .collect()
}

/// Things of one kind under its name.
fn kind(source: &Source<'_>, group: &[&LoadItem], frame: Frame) -> Vec<Block> {
    let formatter = &source.formatter;
    let kind = formatter.load(group[0], source.worksheet).kind;
    let title = crate::wording::begin(&if group[0].unopened {
        formatter.text("sheet-kind-unopened", &[("kind", &kind)])
    } else {
        kind
    });
    let title = Block::Heading(title, TextStyle::STRONG);
    let first = source
        .worksheet
        .loading
        .iter()
        .find(|item| item.set.is_none());
    let heads = first.is_some_and(|first| std::ptr::eq(first, group[0]));
    let table = |items: &[&LoadItem]| rest_table(source, rest_rows(source, items), heads);
    let (left, right) = group.split_at(group.len().div_ceil(2));
    let lane = |items: &[&LoadItem]| Lane {
        width: Width::Share(1.0),
        blocks: vec![table(items)],
    };
    let beside = Block::Beside(vec![lane(left), lane(right)], LANES);
    let both = [title.clone(), beside.clone()];
    if height(&both, frame.area.width()) > frame.area.height() {
        return vec![title, table(group)];
    }
    vec![title, beside, Block::Space(1.5)]
}

fn rest_rows(source: &Source<'_>, items: &[&LoadItem]) -> Vec<Row> {
    let row = |item: &&LoadItem| {
        let mut what = vec![name(source, item)];
        // For the whole case, or for each site, needs no words.
        let sites = sites_of(item).len();
        if sites > 0 && sites < source.worksheet.sites.len() {
            what.push(Cell::Text(serves(source, item), SMALL));
        }
        Row::Cells(vec![
            number(source, item),
            slot(source, item),
            Cell::Stack(what),
            Cell::TickBox,
            Cell::TickBox,
        ])
    };
    items.iter().map(row).collect()
}

/// The table of such rows; the first one alone has words in its head.
fn rest_table(source: &Source<'_>, rows: Vec<Row>, heads: bool) -> Block {
    let head = |id: &str, width, align| {
        let words = if heads {
            source.formatter.word(id)
        } else {
            String::new()
        };
        column(words, width, align)
    };
    Block::Table(Table {
        columns: vec![
            head("sheet-col-number", Width::Mm(5.0), Across::End),
            head("sheet-col-slot", Width::Mm(16.0), Across::Start),
            head("sheet-col-take", Width::Share(1.0), Across::Start),
            head("sheet-col-taken-tick", Width::Mm(9.0), Across::Middle),
            head("sheet-col-in-slot", Width::Mm(8.0), Across::Middle),
        ],
        rows,
        padding_mm: 0.7,
    })
}

/// The things of which there are too few.
fn shortages(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let short: Vec<&StockLine> = source
        .worksheet
        .stock
        .iter()
        .filter(|line| line.needed > line.have)
        .collect();
    if short.is_empty() {
        // Nor is there enough of what is not to be used.
        let usable = |item: &LoadItem| {
            Actionable::of_item(item).is_none_or(|actionable| is_known(&actionable, source))
        };
        let enough = source.worksheet.loading.iter().all(usable);
        let enough = enough.then(|| note(formatter.word("sheet-stock-enough")));
        return enough.into_iter().collect();
    }
    let lines = short
        .into_iter()
        .map(|line| Block::Paragraph(formatter.stock(line), TextStyle::STRONG));
    heading(formatter.word("sheet-stock-heading"))
        .into_iter()
        .chain(lines)
        .collect()
}
