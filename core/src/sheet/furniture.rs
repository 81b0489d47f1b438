//! Furniture of many pages: title block, boxes, lines to sign on, words across a page.

use super::block::Width;
use super::page::Paper;
use super::table::TICK_BOX;
use crate::drawing::fonts::{self, Face};
use crate::drawing::{Across, Along, Drawing, Ink, Paint, Rect, Stroke, TextStyle, at, pt};

/// One field of a title block.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// The name of the field.
    pub label: String,
    /// Its content.
    pub value: String,
    /// Its width.
    pub width: Width,
}

const FIELD_LABEL: TextStyle = TextStyle::new(pt(8.0), Face::Regular, Ink::Soft);
const FIELD_VALUE: TextStyle = TextStyle::new(pt(9.0), Face::Bold, Ink::Strong);
const FIELD_PADDING: f64 = 1.5;

/// A title block as on an engineer's drawing, from the origin to the right and down. Values wrap;
/// see [`title_block_height`].
#[must_use]
pub fn title_block(fields: &[Field], width_mm: f64) -> Drawing {
    let height = title_block_height(fields, width_mm);
    let mut drawing = Drawing::new();
    drawing.rect(
        Rect::new(at(0.0, 0.0), width_mm, height),
        Paint::both(Ink::Ground, Stroke::OUTLINE),
    );
    let mut left = 0.0;
    for (field, width) in fields.iter().zip(field_widths(fields, width_mm)) {
        if left > 0.0 {
            drawing.line(at(left, 0.0), at(left, height), Stroke::THIN);
        }
        let x = left + FIELD_PADDING;
        let mut baseline = FIELD_PADDING + FIELD_LABEL.cap_height();
        drawing.text(
            at(x, baseline),
            (Across::Start, Along::Baseline),
            FIELD_LABEL,
            field.label.clone(),
        );
        for line in value_lines(field, width) {
            baseline += FIELD_VALUE.line_height();
            drawing.text(
                at(x, baseline),
                (Across::Start, Along::Baseline),
                FIELD_VALUE,
                line,
            );
        }
        left += width;
    }
    drawing
}

/// Height of the title block of these fields, mm.
#[must_use]
pub fn title_block_height(fields: &[Field], width_mm: f64) -> f64 {
    let lines = fields
        .iter()
        .zip(field_widths(fields, width_mm))
        .map(|(field, width)| value_lines(field, width).len())
        .max()
        .unwrap_or(0);
    let values: f64 = (0..lines).map(|_| FIELD_VALUE.line_height()).sum();
    FIELD_PADDING * 2.0 + FIELD_LABEL.cap_height() + values + FIELD_VALUE.size_mm * 0.25
}

fn field_widths(fields: &[Field], width_mm: f64) -> Vec<f64> {
    let widths: Vec<Width> = fields.iter().map(|field| field.width).collect();
    Width::resolve(&widths, 0.0, width_mm)
}

fn value_lines(field: &Field, width: f64) -> Vec<String> {
    let room = width - 2.0 * FIELD_PADDING;
    fonts::wrap(&field.value, FIELD_VALUE.face, FIELD_VALUE.size_mm, room)
}

/// An empty box to write in, with a small label within its top.
#[must_use]
pub fn write_box(width_mm: f64, height_mm: f64, label: &str) -> Drawing {
    let mut drawing = Drawing::new();
    drawing.rect(
        Rect::new(at(0.0, 0.0), width_mm, height_mm),
        Paint::both(Ink::Ground, Stroke::THIN),
    );
    let room = width_mm - 2.0 * FIELD_PADDING;
    let mut baseline = FIELD_PADDING + FIELD_LABEL.cap_height();
    for line in fonts::wrap(label, FIELD_LABEL.face, FIELD_LABEL.size_mm, room) {
        if !line.is_empty() {
            drawing.text(
                at(FIELD_PADDING, baseline),
                (Across::Start, Along::Baseline),
                FIELD_LABEL,
                line,
            );
        }
        baseline += FIELD_LABEL.line_height();
    }
    drawing
}

/// A small box to tick, its top left corner at the origin.
#[must_use]
pub fn tick_box() -> Drawing {
    let mut drawing = Drawing::new();
    drawing.rect(
        Rect::new(at(0.0, 0.0), TICK_BOX, TICK_BOX),
        Paint::both(Ink::Ground, Stroke::OUTLINE),
    );
    drawing
}

/// A line to sign on, with its label above and room to write between.
#[must_use]
pub fn signature_line(width_mm: f64, label: &str) -> Drawing {
    line_below(9.0, width_mm, label)
}

/// The same for initials and a time: lower.
#[must_use]
pub fn short_line(width_mm: f64, label: &str) -> Drawing {
    line_below(5.4, width_mm, label)
}

fn line_below(room_mm: f64, width_mm: f64, label: &str) -> Drawing {
    let style = TextStyle::NOTE;
    let mut drawing = Drawing::new();
    drawing.text(
        at(0.0, style.cap_height()),
        (Across::Start, Along::Baseline),
        style,
        label,
    );
    let line = style.cap_height() + room_mm;
    drawing.line(at(0.0, line), at(width_mm, line), Stroke::THIN);
    drawing
}

/// A line to write on after its name, with no room above what is as high as the name.
#[must_use]
pub fn line_after(width_mm: f64, name: &str) -> Drawing {
    /// From the top to the line, mm.
    const DOWN: f64 = 4.4;
    let style = TextStyle::NOTE;
    let mut drawing = Drawing::new();
    let place = at(0.0, DOWN - 0.2);
    drawing.text(place, (Across::Start, Along::Baseline), style, name);
    let left = style.width(name) + 1.0;
    let right = f64::max(width_mm, left + 7.0);
    drawing.line(at(left, DOWN), at(right, DOWN), Stroke::THIN);
    drawing
}

/// Pale words across a page, climbing from left to right, as large as fits. Lay it under the
/// page's content.
#[must_use]
pub fn stamp(paper: Paper, words: &str) -> Drawing {
    /// The words climb by this angle.
    const CLIMB_DEG: f64 = 28.0;
    /// Part of the paper's width that they take.
    const SHARE: f64 = 0.8;
    let sheet = paper.rect();
    let style = TextStyle::new(1.0, Face::Bold, Ink::Watermark);
    let (sin, cos) = libm::sincos(CLIMB_DEG.to_radians());
    let per_size = style.width(words) * cos + style.cap_height() * sin;
    let size = if per_size > 0.0 {
        f64::min(sheet.width() * SHARE / per_size, 40.0)
    } else {
        1.0
    };
    let style = style.sized(size);
    // Turning is about the middle of the words, so that they come to the middle of the sheet.
    let middle = at(0.0, style.cap_height() / 2.0).turned(-CLIMB_DEG);
    let mut drawing = Drawing::new();
    drawing.text_turned(
        sheet.centre() + middle,
        (Across::Middle, Along::Baseline),
        style,
        words,
        -CLIMB_DEG,
    );
    drawing
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_across_the_page_stay_on_it_and_are_centred() {
        for paper in [Paper::A4, Paper::Letter] {
            for words in ["NOT APPROVED", "DEMONSTRATION", "A"] {
                let bounds = stamp(paper, words).bounds().unwrap();
                assert!(paper.rect().grown(-10.0).holds(bounds), "{words}");
                let off = bounds.centre() - paper.rect().centre();
                assert!(off.length() < 2.0, "{words}: {off:?}");
            }
        }
    }

    #[test]
    fn a_title_block_is_as_high_as_it_says_and_wraps_its_values() {
        let field = |value: &str| Field {
            label: "CASE".to_owned(),
            value: value.to_owned(),
            width: Width::Share(1.0),
        };
        let short = [field("HV-0312"), field("lower")];
        let long = [
            field("HV-0312 and what else was written there"),
            field("lower"),
        ];
        for fields in [&short, &long] {
            let bounds = title_block(fields, 60.0).bounds().unwrap();
            assert!((bounds.height() - title_block_height(fields, 60.0)).abs() < 1e-9);
            assert!((bounds.width() - 60.0).abs() < 1e-9);
        }
        assert!(title_block_height(&long, 60.0) > title_block_height(&short, 60.0) + 3.0);
    }
}
