//! The true-scale strip: each drill with its stop, 1 : 1, to lay the real one on.
//!
//! All tips are on one line, and the stop's landing face is exactly the set length from it. A drill
//! without a setting has no picture, only words.

mod picture;
mod row;
#[cfg(test)]
mod tests;

use super::lines::Lines;
use crate::case::ValidCase;
use crate::drawing::{Across, Along, Drawing, Ink, LineWeight, Stroke, TextStyle, at, ruler};
use crate::kit::SiteId;
use crate::plan::Worksheet;
use crate::text::Texts;
use row::Row;

/// A strip in pieces that a page may break between.
#[derive(Debug, Clone, PartialEq)]
pub struct TrueScale {
    /// Heading and control ruler, to be repeated on every page with rows: each page is printed at
    /// a scale of its own.
    pub head: Drawing,
    /// One row for each drill of the loading list that a depth is set on, in the list's order, then
    /// one for each that is set anew in surgery. Each hangs from the origin and is as wide as the
    /// strip, so that all tips are on one line.
    pub rows: Vec<Drawing>,
}

/// Length of the control ruler, mm.
const RULER_MM: u32 = 50;
/// Part of the width that the names take.
const NAMES: f64 = 0.22;
/// Width of the column of figures, mm.
const FIGURES: f64 = 38.0;
/// Between columns, mm.
const GUTTER: f64 = 4.0;

/// The columns of a strip: names, pictures, figures.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Columns {
    /// Width of the whole.
    width: f64,
    /// The right end of the names, which are set against the pictures.
    names: f64,
    /// The line of all tips.
    tip: f64,
    /// The beginning of the figures, by which the pictures must have ended.
    figures: f64,
}

impl Columns {
    /// The columns of a strip whose longest drill is so long, mm: the figures are as near to the
    /// drills as they can.
    fn of(width: f64, longest: f64) -> Self {
        let names = width * NAMES;
        let tip = names + GUTTER;
        Self {
            width,
            names,
            tip,
            figures: (tip + longest + GUTTER).min(width - FIGURES),
        }
    }

    /// The greatest length of a picture.
    fn picture(self) -> f64 {
        self.figures - GUTTER - self.tip
    }
}

/// Style of the line of all tips.
const TIP_LINE: Stroke = Stroke::new(Ink::Accent, LineWeight::Thin);

/// The strip of a case, so many millimetres wide; 120 mm or more.
///
/// `site_name` gives a site in a few words, such as its number; it is written beside each drill
/// that serves the site.
#[must_use]
pub fn true_scale(
    case: &ValidCase,
    worksheet: &Worksheet,
    site_name: &dyn Fn(&SiteId) -> String,
    width_mm: f64,
    texts: &Texts,
) -> TrueScale {
    let items = worksheet.loading.iter();
    let as_loaded = items.filter_map(|item| Row::of(case, worksheet, item));
    let resets = worksheet.resets.iter();
    let set_anew = resets.filter_map(|reset| Row::set_anew(case, worksheet, reset));
    let rows: Vec<Row<'_>> = as_loaded.chain(set_anew).collect();
    let longest = rows.iter().map(Row::length).fold(0.0, f64::max);
    let columns = Columns::of(width_mm, longest);
    let rows = rows
        .iter()
        .map(|row| row.draw(columns, site_name, texts))
        .collect();
    TrueScale {
        head: head(columns, texts),
        rows,
    }
}

/// Heading, instruction and ruler; the ruler's zero is on the line of the tips.
fn head(columns: Columns, texts: &Texts) -> Drawing {
    let mut drawing = Drawing::new();
    let lines = Lines::new()
        .text(
            &texts.get("strip-head", &[]),
            TextStyle::HEADING,
            columns.width,
        )
        .text(
            &texts.get("strip-measure", &[]),
            TextStyle::BODY,
            columns.width,
        );
    drawing.add(lines.draw(0.0, 0.0, Across::Start));
    let top = lines.height() + 3.0;
    let label = texts.get("strip-ruler", &[]);
    let mut scale = ruler(RULER_MM, "");
    let style = TextStyle::CAPTION;
    let under = scale.bounds().map_or(0.0, |bounds| bounds.bottom) + 0.8;
    for tens in (0..=RULER_MM).step_by(10) {
        scale.text(
            at(f64::from(tens), under),
            (Across::Middle, Along::Top),
            style,
            tens.to_string(),
        );
    }
    scale.text(
        at(f64::from(RULER_MM) + 4.0, 0.0),
        (Across::Start, Along::Top),
        TextStyle::NOTE,
        label.clone(),
    );
    let mut placed = Drawing::new();
    placed.add_at(at(columns.tip, top), scale);
    drawing.add_group("control-ruler", label, placed);
    let bottom = top + under + style.cap_height() + 1.2;
    drawing.line(at(0.0, bottom), at(columns.width, bottom), Stroke::HAIRLINE);
    drawing
}
