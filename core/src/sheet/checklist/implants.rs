//! The row of an implant: what to turn in, how deep and how hard, and boxes for what was placed.

use super::order::site_sheet;
use super::pieces::SMALL;
use super::{Source, judged, places};
use crate::drawing::{Drawing, at};
use crate::kit::{SiteId, SlotKind};
use crate::plan::{InsertionSheet, LoadItem, SiteSheet};
use crate::sheet::{Cell, Row, write_box};
use crate::wording::begin;

/// Width of the boxes, mm: four columns of the order of use with what is between them.
const BOXES: f64 = 48.6;
/// Height of the box for a label with the lot, mm: usual labels of implants are about so high (common
/// practice, no source).
const LABEL: f64 = 10.6;
/// Height of a box for a figure, with its name in it, mm.
const FIGURE: f64 = 8.6;
/// Between two boxes, mm.
const GAP: f64 = 1.2;

/// The row, which begins with its number and a box to tick.
pub(super) fn row(source: &Source<'_>, numbered: Cell, site: &SiteId) -> Option<Row> {
    let sheet = site_sheet(source, site)?;
    Some(Row::Cells(vec![
        numbered,
        Cell::Across(4, Box::new(words(source, sheet))),
        Cell::Picture(boxes(source)),
    ]))
}

/// The implant to turn in, how deep and how hard.
fn words(source: &Source<'_>, sheet: &SiteSheet) -> Cell {
    let formatter = &source.formatter;
    let line = if sheet.insertion.is_some() {
        "sheet-insert-guided"
    } else {
        "sheet-insert-freehand"
    };
    let item = places::of_site(source, SlotKind::Implant, &sheet.id);
    let named = item.map_or_else(
        || formatter.implant(&sheet.implant),
        |item| places::named(source, item),
    );
    let place = begin(&formatter.site(&sheet.id));
    let line = formatter.text(line, &[("site", &place), ("implant", &named)]);
    let mut cells = vec![Cell::Text(line, SMALL.bold())];
    if let Some(insertion) = &sheet.insertion {
        let words = formatter.insertion(Some(insertion));
        cells.push(Cell::Text(words, SMALL));
    }
    if let Some(depth) = &sheet.final_depth {
        let words = begin(&formatter.final_depth(depth));
        cells.push(Cell::Text(words, SMALL));
    }
    let stays = formatter.carrier_stays(&sheet.id);
    cells.extend(stays.map(|words| Cell::Text(words, SMALL.bold())));
    cells.extend(judged::at_insertion(source, &sheet.id));
    let insertion = sheet.insertion.iter();
    let carried = insertion.flat_map(|one| carried(source, &sheet.id, one));
    let carried = carried.map(|item| places::named(source, item));
    let last = carried.chain(implant_torque(source, sheet));
    let last = formatter.joined("load-list", last);
    cells.extend(last.map(|words| Cell::Text(words, SMALL)));
    Cell::Stack(cells)
}

/// For the label, and below it for torque, stability and the depth reached.
fn boxes(source: &Source<'_>) -> Drawing {
    let formatter = &source.formatter;
    let mut drawing = write_box(BOXES, LABEL, &formatter.word("sheet-label-lot"));
    let figures = [
        "sheet-label-torque",
        "sheet-label-stability",
        "sheet-label-depth",
    ];
    let width = (BOXES - 2.0 * GAP) / 3.0;
    let mut left = 0.0;
    for id in figures {
        let one = write_box(width, FIGURE, &formatter.word(id));
        drawing.add_at(at(left, LABEL + GAP), one);
        left += width + GAP;
    }
    drawing
}

/// The carrier and the sleeve that it passes.
fn carried<'a>(
    source: &Source<'a>,
    site: &SiteId,
    insertion: &InsertionSheet,
) -> Vec<&'a LoadItem> {
    // Of several equal ones each site has its own where one stays in.
    let carrier = insertion.carrier.as_ref();
    let carrier = carrier.and_then(|_| places::of_site(source, SlotKind::Carrier, site));
    let sleeve = insertion.sleeve.as_ref();
    let sleeve = sleeve.and_then(|id| places::of_entry(source, SlotKind::Sleeve, id.as_str()));
    carrier.into_iter().chain(sleeve).collect()
}

/// The implant's greatest torque, or that the kit does not give one.
pub(super) fn implant_torque(source: &Source<'_>, sheet: &SiteSheet) -> Option<String> {
    let formatter = &source.formatter;
    let implant = source.case.kit.implant(&sheet.implant)?;
    let torque = implant.torque_limit_ncm.map_or_else(
        || formatter.word("sheet-not-in-kit"),
        |torque| formatter.text("sheet-ncm", &[("torque", &torque.to_string())]),
    );
    Some(formatter.text("sheet-implant-torque", &[("value", &torque)]))
}
