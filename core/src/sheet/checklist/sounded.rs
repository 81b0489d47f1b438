//! The figures for the bone sounding of all sites, with boxes for what the probe shows.

use super::pieces::SMALL;
use super::{Source, done};
use crate::drawing::{Across, Along, Drawing, Ink, Paint, Rect, Stroke, TextStyle, at};
use crate::kit::SiteId;
use crate::plan::Known;
use crate::sheet::{Cell, Row};
use crate::wording::{begin, mm};

/// Width of one site with its box, and of two beside each other, mm.
const ONE: f64 = 82.0;
/// Height of a line, mm.
const LINE: f64 = 5.3;
/// Width and height of a box, mm.
const BOX: (f64, f64) = (15.0, 4.8);
/// From the words to the box, mm.
const GAP: f64 = 1.5;

/// The row after the line that asks for the sounding; nothing where no site has a figure.
pub(super) fn row(source: &Source<'_>, sites: &[SiteId]) -> Option<Row> {
    let formatter = &source.formatter;
    let all = source.worksheet.sites.iter();
    let with_figure = all
        .filter(|sheet| sites.contains(&sheet.id))
        .filter_map(|sheet| {
            let size = sheet.sounding.as_ref()?.length()?;
            let site = begin(&formatter.site(&sheet.id));
            let words =
                formatter.text("sheet-sounded-row", &[("site", &site), ("size", &mm(size))]);
            Some((
                words,
                done::sounded(source, &sheet.id)
                    .map(|found| formatter.set_length(&Known::Is(found))),
            ))
        });
    let mut drawing = Drawing::new();
    for (index, (words, found)) in with_figure.enumerate() {
        let (line, column) = (index / 2, index % 2);
        #[expect(clippy::cast_precision_loss, reason = "a jaw has few sites")]
        let corner = at(column as f64 * ONE, line as f64 * LINE);
        let style = SMALL.sized(TextStyle::BODY.size_mm);
        let room = ONE - BOX.0 - 2.0 * GAP;
        let style = super::pieces::fitted(style, &words, room);
        let place = corner + at(0.0, BOX.1 / 2.0);
        let left = style.width(&words) + GAP;
        drawing.text(place, (Across::Start, Along::Middle), style, words);
        drawing.rect(
            Rect::new(corner + at(left, 0.0), BOX.0, BOX.1),
            Paint::both(Ink::Ground, Stroke::OUTLINE),
        );
        if let Some(found) = found {
            let style = TextStyle::STRONG;
            let middle = corner + at(left + BOX.0 / 2.0, BOX.1 / 2.0);
            drawing.text(middle, (Across::Middle, Along::Middle), style, found);
        }
    }
    (!drawing.is_empty()).then(|| Row::After(vec![Cell::Empty, Cell::Picture(drawing)]))
}
