//! What to set: the gauge's check, the drills with their settings, what is missing.

use super::actionable::{figure_in_form, is_known, limited_by};
use super::instruments::engraved;
use super::order::set_width;
use super::pieces::{SMALL, body, column, heading, note, short_of_site, to_tick_in, verdict_width};
use super::{Readings, Source, as_recorded, legend};
use crate::charts::mark_of;
use crate::drawing::{Across, TextStyle};
use crate::kit::SiteId;
use crate::measure::Length;
use crate::plan::{self, Actionable, Known, LoadItem, Severity, StockLine};
use crate::sheet::{Block, Cell, Column, Row, Table, Width};
use crate::wording::mm;

/// Height of a box for a reading, mm.
pub(super) const BOX: f64 = 6.3;

/// Where it is said what the marks of verdicts mean.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Marks {
    /// Over the drills.
    Explained,
    /// On the same page, over the order of use.
    Elsewhere,
}

/// Where the map of the tray is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Map {
    /// Below the drills.
    Below,
    /// On a page before.
    Elsewhere,
}

/// The gauge's check, then the drills; `room_mm` is the room above and below what is in a row.
pub(super) fn blocks(source: &Source<'_>, room_mm: f64, (marks, map): (Marks, Map)) -> Vec<Block> {
    let short = shortages(source);
    let mut more = Vec::new();
    if short.is_empty() {
        more.extend(enough(source));
    }
    more.extend((map == Map::Elsewhere).then(|| source.formatter.word("sheet-tray-elsewhere")));
    let mut blocks = gauge_check(source, more);
    blocks.extend(short);
    blocks.push(Block::Space(1.0));
    if marks == Marks::Explained && set_items(source).next().is_some() {
        blocks.extend([Block::Picture(legend::marks(source)), Block::Space(0.8)]);
    }
    blocks.extend(drills(source, room_mm));
    blocks
}

/// The check piece opens the session; then how readings count, and more words.
fn gauge_check(source: &Source<'_>, more: Vec<String>) -> Vec<Block> {
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
    let how = match source.readings {
        Readings::Blank => "sheet-set-how",
        Readings::Filled => "sheet-read-how",
    };
    // Nothing is set on it before it is sound.
    let off = source.signed.gauge_off.map(|off| {
        let id = if off > Length::ZERO {
            "loading-gauge-was-more"
        } else {
            "loading-gauge-was-less"
        };
        let by = formatter.set_length_with_unit(&Known::Is(off.abs()));
        Block::Paragraph(formatter.text(id, &[("by", &by)]), TextStyle::STRONG)
    });
    let words: Vec<String> = [formatter.word(how), rule]
        .into_iter()
        .chain(more)
        .collect();
    let lines = off.into_iter().chain([
        to_tick_in(line, SMALL.bold()),
        note(words.join(" ")),
        Block::Space(0.8),
    ]);
    lines.collect()
}

/// Everything that carries a setting.
fn drills(source: &Source<'_>, room_mm: f64) -> Vec<Block> {
    let formatter = &source.formatter;
    let items: Vec<&LoadItem> = set_items(source).collect();
    if items.is_empty() {
        return vec![body(formatter.word("sheet-set-nothing"))];
    }
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let tick = |id: &str, width| head(id, Width::Mm(width), Across::Middle);
    if source.readings == Readings::Filled {
        return as_recorded::blocks(source, &items, room_mm);
    }
    let mut columns = setting_columns(source);
    columns.extend([
        tick("sheet-col-taken-tick", 8.0),
        tick("sheet-col-set-tick", 4.5),
        tick("sheet-col-locked", 10.0),
        head("sheet-col-read", Width::Mm(14.0), Across::Middle),
        tick("sheet-col-second", 11.0),
        tick("sheet-col-in-slot", 6.0),
    ]);
    let each = items.into_iter();
    let each = each.map(|item| (item, set_rows(source, item)));
    let rows = in_sections(source, each, "sheet-open-now");
    vec![Block::Table(Table {
        columns,
        rows,
        padding_mm: room_mm * 0.6,
        gap_mm: 1.6,
    })]
}

/// The rows of each item, those apart that stay sealed: they are set when they are opened, not now.
pub(super) fn in_sections<'a>(
    source: &Source<'_>,
    each: impl Iterator<Item = (&'a LoadItem, Vec<Row>)>,
    open_words: &str,
) -> Vec<Row> {
    let (sealed, open): (Vec<_>, Vec<_>) = each.partition(|(item, _)| item.unopened);
    let mut rows = Vec::new();
    for (words, list) in [(open_words, open), ("sheet-sealed-set", sealed)] {
        if !list.is_empty() {
            rows.push(Row::Section(source.formatter.word(words)));
            rows.extend(list.into_iter().flat_map(|(_, rows)| rows));
        }
    }
    rows
}

/// Least width of the column of teeth, mm.
const FOR_TOOTH: f64 = 15.0;

/// The first columns: what is taken, for which teeth, and its setting.
pub(super) fn setting_columns(source: &Source<'_>) -> Vec<Column> {
    let head = |id: &str, width, align| column(source.formatter.word(id), width, align);
    vec![
        head("sheet-col-number", Width::Mm(5.0), Across::End),
        head("sheet-col-slot", Width::Mm(14.5), Across::Start),
        head("sheet-col-take", Width::Share(1.0), Across::Start),
        head(
            "sheet-col-for-tooth",
            Width::Mm(f64::max(FOR_TOOTH, verdict_width(source))),
            Across::Start,
        ),
        head("sheet-col-set", Width::Mm(set_width(source)), Across::End),
    ]
}

/// The words on a drill that is taken and laid, and not set before surgery.
pub(super) fn lay_unset(source: &Source<'_>) -> Cell {
    let words = source.formatter.word("sheet-lay-unset");
    Cell::Text(words, SMALL.bold())
}

/// True if a drill is taken and laid, and not set before surgery.
pub(super) fn is_laid_unset(source: &Source<'_>, item: &LoadItem) -> bool {
    let mut loading = source.worksheet.loading.iter();
    let place = loading.position(|other| std::ptr::eq(other, item));
    place.is_some_and(|place| plan::is_laid_unset(place, source.worksheet, &source.case.kit))
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
    let actionable = Actionable::of_item(item);
    let mut cells = first_cells(source, item, actionable.as_ref());
    if is_laid_unset(source, item) {
        let words = Cell::Across(4, Box::new(lay_unset(source)));
        cells.extend([Cell::TickBox, words, Cell::TickBox]);
        return Row::Cells(cells);
    }
    if !is_to_use(actionable.as_ref(), source) {
        // Nothing to tick.
        cells.push(do_not_use(source));
        return Row::Cells(cells);
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
    cells.extend([
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
    Row::Cells(cells)
}

/// The cells of [`setting_columns`].
pub(super) fn first_cells(
    source: &Source<'_>,
    item: &LoadItem,
    actionable: Option<&Actionable<'_>>,
) -> Vec<Cell> {
    vec![
        number(source, item),
        slot(source, item),
        Cell::Stack(take(source, item, actionable)),
        served(source, item),
        actionable.map_or(Cell::Empty, |actionable| figure(source, actionable)),
    ]
}

/// True if there is a figure to set it by.
pub(super) fn is_to_use(actionable: Option<&Actionable<'_>>, source: &Source<'_>) -> bool {
    actionable.is_some_and(|actionable| is_known(actionable, source))
}

pub(super) fn do_not_use(source: &Source<'_>) -> Cell {
    let words = source.formatter.word("sheet-do-not-use");
    Cell::Text(words, TextStyle::STRONG)
}

/// The figure to set.
fn figure(source: &Source<'_>, actionable: &Actionable<'_>) -> Cell {
    figure_in_form(actionable, source, set_width(source))
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
        Some(slot) => Cell::Text(slot.to_string(), SMALL.bold()),
        None => Cell::body(source.formatter.without_slot()),
    }
}

/// The thing to take and its marking, its stop or mark, and what of these gives its length.
fn take(source: &Source<'_>, item: &LoadItem, actionable: Option<&Actionable<'_>>) -> Vec<Cell> {
    let formatter = &source.formatter;
    let on_stop = item.set.as_ref().and_then(|on| on.stop.as_ref());
    let limited = actionable.and_then(|actionable| limited_by(actionable, source));
    // Of a mark the words say that there is no stop.
    let (stop, style, limited) = match (on_stop, limited) {
        (Some(stop), limited) => (formatter.stop(stop), SMALL, limited),
        (None, Some(limited)) => (limited, SMALL.bold(), None),
        (None, None) => (formatter.word("sheet-by-mark"), SMALL, None),
    };
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
    let mut cells = vec![name(source, item), Cell::Text(stop, style)];
    cells.extend(limited.map(|words| Cell::Text(words, SMALL.bold())));
    cells
}

/// The teeth of the sites that it serves by their numbers, with the mark of the worst verdict of these.
fn served(source: &Source<'_>, item: &LoadItem) -> Cell {
    let formatter = &source.formatter;
    let sites = sites_of(item);
    let worst: Option<Severity> = source
        .worksheet
        .sites
        .iter()
        .filter(|sheet| sites.contains(&&sheet.id))
        .map(|sheet| sheet.worst)
        .min();
    let Some(worst) = worst else {
        return Cell::Text(formatter.word("sheet-whole-jaw"), SMALL);
    };
    let all = source.worksheet.sites.len();
    let numbers = if sites.len() == all && all > 2 {
        formatter.counted("sheet-for-all", &[("count", all)], &[])
    } else {
        let numbers = sites.iter().map(|site| formatter.tooth_number(site));
        numbers.collect::<Vec<_>>().join(", ")
    };
    let word = short_of_site(source, worst);
    let words = word.into_iter().chain([numbers]);
    let words = words.map(|words| Cell::Text(words, SMALL));
    Cell::Beside(vec![
        Cell::Mark(mark_of(worst)),
        Cell::Stack(words.collect()),
    ])
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
pub(super) fn sites_of(item: &LoadItem) -> Vec<&SiteId> {
    let mut sites: Vec<&SiteId> = Vec::new();
    for site in item.serves.iter().filter_map(|one| one.site.as_ref()) {
        if !sites.contains(&site) {
            sites.push(site);
        }
    }
    sites
}

/// That nothing is lacking; not of what is not to be used.
fn enough(source: &Source<'_>) -> Option<String> {
    let usable = |item: &LoadItem| {
        Actionable::of_item(item).is_none_or(|actionable| is_known(&actionable, source))
    };
    let mut loading = source.worksheet.loading.iter();
    loading
        .all(usable)
        .then(|| source.formatter.word("sheet-stock-enough"))
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
    let fell = match source.readings {
        Readings::Blank => Vec::new(),
        Readings::Filled => plan::none_left(source.worksheet, &source.signed.fallen),
    };
    if short.is_empty() && fell.is_empty() {
        return Vec::new();
    }
    let lines = short.into_iter().map(|line| formatter.stock(line));
    let fell = fell.into_iter().map(|(item, lacking)| {
        let count = usize::try_from(lacking).unwrap_or(usize::MAX);
        let name = formatter.item(item);
        formatter.counted(
            "loading-short-dropped",
            &[("count", count)],
            &[("name", &name)],
        )
    });
    let lines = lines.chain(fell);
    let lines = lines.map(|words| Block::Paragraph(words, TextStyle::STRONG));
    heading(formatter.word("sheet-stock-heading"))
        .into_iter()
        .chain(lines)
        .collect()
}
