//! The row of an implant: what to turn in, how deep and how hard, and boxes for what was placed.

use super::done::{self, Tick};
use super::order::{numbered, site_sheet};
use super::pieces::SMALL;
use super::then::{Usable, usable};
use super::{Source, judged, places};
use crate::drawing::{Across, Along, Drawing, Ink, Paint, Rect, Stroke, TextStyle, at, fonts};
use crate::kit::{SiteId, SlotKind};
use crate::measure::Length;
use crate::plan::{InsertionSheet, LoadItem, SiteSheet};
use crate::sheet::{Cell, Row};
use crate::sign::{Entry, EntryKind};
use crate::wording::{begin, mm};

/// Width of the boxes with what is between them, mm.
const BOXES: f64 = 69.6;
/// Height of the boxes, mm: usual labels of implants are about so high (common practice, no source).
const HEIGHT: f64 = 10.6;
/// The boxes for figures, each with its name in it and its width, mm; what is left is for a label with the lot.
const FIGURES: [(&str, f64); 3] = [
    ("sheet-label-torque", 9.6),
    ("sheet-label-stability", 12.9),
    ("sheet-label-depth", 15.9),
];
/// Between two boxes, mm: they share an edge, which a copier leaves as one line.
const GAP: f64 = 0.0;
/// From a box to its name, mm.
const EDGE: f64 = 0.8;
/// From the foot of a box to what stands in it, and between two lines of that, mm.
const FOOT: f64 = 1.0;
const LINE: f64 = 3.2;
/// The type of what stands in a box.
const VALUE: TextStyle = SMALL.bold();

/// The row, which begins with its number and a box to tick; where no drill of its site can be used, with neither this nor
/// boxes to write in.
pub(super) fn row(
    source: &Source<'_>,
    (number, tick): (usize, Tick),
    site: &SiteId,
) -> Option<Row> {
    let sheet = site_sheet(source, site)?;
    let can_be_placed = usable(source, sheet) != Usable::None;
    let not_placed = done::not_placed(source, site);
    let numbered = numbered(number, can_be_placed && not_placed.is_none(), tick);
    if let Some(words_on) = not_placed {
        let said = Cell::Text(begin(&words_on), TextStyle::STRONG);
        return Some(Row::Cells(vec![
            numbered,
            Cell::Stack(vec![words(source, sheet), said]),
        ]));
    }
    // What was turned in although no drill can be used has its boxes all the same.
    if !can_be_placed && tick != Tick::Ticked {
        return Some(Row::Cells(vec![numbered, words(source, sheet)]));
    }
    Some(Row::Cells(vec![
        numbered,
        Cell::Ends(
            Box::new(words(source, sheet)),
            Box::new(Cell::Picture(boxes(source, site))),
        ),
    ]))
}

/// The implant to turn in, how deep and how hard.
fn words(source: &Source<'_>, sheet: &SiteSheet) -> Cell {
    let formatter = &source.formatter;
    let place = begin(&formatter.site(&sheet.id));
    let implant = formatter.implant(&sheet.implant);
    let line = formatter.text("sheet-insert", &[("site", &place), ("implant", &implant)]);
    let mut cells = vec![Cell::Text(line, SMALL.bold())];
    match usable(source, sheet) {
        Usable::All => {}
        Usable::Some => {
            let some = formatter.word("sheet-insert-some-drills");
            cells.push(Cell::Text(some, SMALL.bold()));
        }
        Usable::None => {
            let none = formatter.word("sheet-insert-no-drill");
            cells.push(Cell::Text(none, TextStyle::STRONG));
            cells.extend(judged::at_insertion(source, &sheet.id));
            return Cell::Stack(cells);
        }
    }
    let lies = places::of_site(source, SlotKind::Implant, &sheet.id);
    let lies = lies.map(|item| places::slot(source, item));
    let freehand = sheet.insertion.is_none();
    let freehand = freehand.then(|| formatter.word("sheet-insert-freehand"));
    let first = [lies, freehand, Some(torque_most(source, sheet))];
    let first = formatter.joined("sheet-slots", first.into_iter().flatten());
    let insertion = sheet.insertion.as_ref().map(|insertion| {
        let carried = carried(source, &sheet.id, insertion);
        let carried = carried.into_iter().map(|item| places::named(source, item));
        formatter.insertion_by(insertion, formatter.joined("load-list", carried))
    });
    let how = formatter.joined("sheet-insert-how", first.into_iter().chain(insertion));
    cells.extend(how.map(|words| Cell::Text(begin(&words), SMALL)));
    if let Some(depth) = &sheet.final_depth {
        let words = begin(&formatter.final_depth(depth));
        cells.push(Cell::Text(words, SMALL));
    }
    let stays = formatter.carrier_stays(&sheet.id);
    cells.extend(stays.map(|words| Cell::Text(words, SMALL.bold())));
    cells.extend(judged::at_insertion(source, &sheet.id));
    Cell::Stack(cells)
}

/// For the label, and beside it for torque, stability and the depth reached.
fn boxes(source: &Source<'_>, site: &SiteId) -> Drawing {
    let formatter = &source.formatter;
    let figures: f64 = FIGURES.iter().map(|(_, width)| width + GAP).sum();
    let mut drawing = Drawing::new();
    let mut left = 0.0;
    for (id, width) in [("sheet-label-lot", BOXES - figures)]
        .into_iter()
        .chain(FIGURES)
    {
        drawing.rect(
            Rect::new(at(left, 0.0), width, HEIGHT),
            Paint::both(Ink::Ground, Stroke::OUTLINE),
        );
        let words = formatter.word(id);
        // A hard copy keeps it.
        let style = SMALL;
        drawing.text(
            at(left + EDGE, EDGE + style.cap_height()),
            (Across::Start, Along::Baseline),
            style,
            words,
        );
        let found = recorded(source, site, id, width - 2.0 * EDGE);
        for (line, said) in found.iter().enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "two lines at most")]
            let up = (found.len() - 1 - line) as f64 * LINE;
            drawing.text(
                at(left + EDGE, HEIGHT - FOOT - up),
                (Across::Start, Along::Baseline),
                VALUE,
                said.clone(),
            );
        }
        left += width + GAP;
    }
    drawing
}

/// What is recorded for a box, in one line or two; where it needs more room, that the record has it.
fn recorded(source: &Source<'_>, site: &SiteId, id: &str, width_mm: f64) -> Vec<String> {
    let formatter = &source.formatter;
    let kind = match id {
        "sheet-label-lot" => EntryKind::Implant,
        "sheet-label-torque" => EntryKind::Torque,
        "sheet-label-stability" => EntryKind::Stability,
        _ => EntryKind::Depth,
    };
    let words = match done::entry(source, site, kind) {
        Some(Entry::Implant(placed)) => {
            let expiry = placed.expiry.map(|day| day.to_string());
            let parts: Vec<String> = placed.lot.clone().into_iter().chain(expiry).collect();
            parts.join("\n")
        }
        Some(Entry::Torque { torque_ncm, .. }) => torque_ncm.to_string(),
        Some(Entry::Stability { value, .. }) => value.to_string(),
        Some(Entry::Depth {
            coronal_of_plan_mm, ..
        }) => {
            let by = *coronal_of_plan_mm;
            let size = mm(by.abs());
            match by {
                Length::ZERO => formatter.word("sheet-depth-planned"),
                _ if by > Length::ZERO => formatter.text("sheet-depth-coronal", &[("by", &size)]),
                _ => formatter.text("sheet-depth-apical", &[("by", &size)]),
            }
        }
        _ => return Vec::new(),
    };
    let lines = |words: &str| fonts::wrap(words, VALUE.face, VALUE.size_mm, width_mm);
    let found = lines(&words);
    if found.len() <= 2 {
        found
    } else {
        lines(&formatter.word("sheet-box-in-record"))
    }
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

/// The same in fewer words.
fn torque_most(source: &Source<'_>, sheet: &SiteSheet) -> String {
    let formatter = &source.formatter;
    let implant = source.case.kit.implant(&sheet.implant);
    let limit = implant.and_then(|implant| implant.torque_limit_ncm);
    limit.map_or_else(
        || formatter.word("sheet-insert-no-torque"),
        |torque| formatter.text("sheet-insert-most", &[("torque", &torque.to_string())]),
    )
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
