//! The second reading: slots and drills without their settings, so that it is read blind.

use super::loading::{name, number, set_items, slot};
use super::pieces::{SMALL, column, note};
use super::recorded::{RecordedItem, beside};
use super::{Readings, Source, set_anew};
use crate::drawing::{Across, TextStyle};
use crate::plan::{Actionable, LoadItem, Reset};
use crate::sheet::{Block, Cell, Row, Table, Width};

/// Height of a box for a reading, mm.
const BOX: f64 = 6.3;

/// The items read on the gauge, as on the screen in another order than that in which they are set: the
/// last first. What is printed as it was read twice has served.
fn to_read<'a>(source: &'a Source<'_>) -> Vec<&'a LoadItem> {
    let items: Vec<&LoadItem> = set_items(source).collect();
    let found = beside(&source.signed.readings, &items);
    let is_left = |item: &LoadItem, found: Option<&RecordedItem>| {
        let left = found.is_none_or(|found| found.is_to_read(item));
        source.readings == Readings::Blank || left
    };
    let left = items.into_iter().zip(found).rev();
    let left = left.filter(|(item, found)| {
        let actionable = Actionable::of_item(item);
        actionable.is_some_and(|actionable| actionable.is_read()) && is_left(item, *found)
    });
    left.map(|(item, _)| item).collect()
}

/// What is set anew in surgery, and read then.
fn to_set_anew<'a>(source: &'a Source<'_>) -> Vec<&'a Reset> {
    let set_anew = source.worksheet.resets.iter();
    let set_anew = set_anew.filter(|reset| set_anew::can_be_set(source, reset));
    set_anew.collect()
}

/// True if there is anything left to read.
pub(super) fn is_needed(source: &Source<'_>) -> bool {
    !to_read(source).is_empty() || !to_set_anew(source).is_empty()
}

/// The blind table; `room_mm` is the room above and below what is in a row.
pub(super) fn blocks(source: &Source<'_>, room_mm: f64) -> Vec<Block> {
    let formatter = &source.formatter;
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let columns = vec![
        head("sheet-col-number", Width::Mm(5.5), Across::End),
        head("sheet-col-slot", Width::Mm(18.0), Across::Start),
        head("sheet-col-take", Width::Share(1.25), Across::Start),
        head("sheet-col-stop", Width::Share(1.0), Across::Start),
        head("sheet-col-gauge-shows", Width::Mm(30.0), Across::Start),
        head("sheet-col-initials", Width::Mm(18.0), Across::Start),
    ];
    let (sealed, open): (Vec<&LoadItem>, Vec<&LoadItem>) =
        to_read(source).into_iter().partition(|item| item.unopened);
    let mut rows: Vec<Row> = open.iter().map(|item| row(source, item, None)).collect();
    if !sealed.is_empty() {
        rows.push(Row::Section(formatter.word("sheet-sealed-read")));
        rows.extend(sealed.iter().map(|item| row(source, item, None)));
    }
    let set_anew = to_set_anew(source);
    if !set_anew.is_empty() {
        rows.push(Row::Section(formatter.word("sheet-reset-read-then")));
        rows.extend(set_anew.into_iter().map(|reset| {
            let before = formatter.reset(reset, source.worksheet).before;
            row(
                source,
                &source.worksheet.loading[reset.item],
                Some((reset, before)),
            )
        }));
    }
    vec![
        note(formatter.word("sheet-second-how")),
        Block::Space(1.5),
        Block::Table(Table {
            columns,
            rows,
            padding_mm: room_mm * 0.6,
            gap_mm: 2.0,
        }),
    ]
}

/// A drill as it is laid, or as it is set anew before something.
fn row(source: &Source<'_>, item: &LoadItem, set_anew: Option<(&Reset, String)>) -> Row {
    let (set, before) = match set_anew {
        None => (&item.set, None),
        Some((reset, before)) => (&reset.to.set, Some(before)),
    };
    let stop = set.as_ref().and_then(|on| on.stop.as_ref());
    let mut what = vec![name(source, item)];
    what.extend(before.map(|words| Cell::Text(words, TextStyle::NOTE)));
    Row::Cells(vec![
        number(source, item),
        slot(source, item),
        Cell::Stack(what),
        stop.map_or(Cell::Empty, |stop| {
            Cell::Text(source.formatter.stop(stop), SMALL)
        }),
        Cell::WriteBox(BOX),
        Cell::WriteBox(BOX),
    ])
}
