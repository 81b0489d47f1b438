//! The lines above and below the arch: whose it is, which side is which, the scale, and the meaning
//! of its outlines.

use super::outline::{self, ToothLook};
use crate::dentition::Side;
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Point, Rect, Stroke, TextStyle, at, fonts,
};
use crate::measure::Length;
use crate::number::shortest_mm;
use crate::text::Texts;
use std::ops::Range;

const LETTER: TextStyle = TextStyle::TITLE.inked(Ink::Soft);
const REMARK: TextStyle = TextStyle::NOTE;

/// Words from x = `left` to `right`, wrapped; gives back their height, mm.
fn words(
    drawing: &mut Drawing,
    text: &str,
    style: TextStyle,
    top: f64,
    left: f64,
    right: f64,
) -> f64 {
    let mut y = top;
    for line in fonts::wrap(text, style.face, style.size_mm, right - left) {
        let place = at(left, y + style.ascent());
        drawing.text(place, (Across::Start, Along::Baseline), style, line);
        y += style.line_height();
    }
    y - top
}

/// The captions and under them the letters of the patient's sides, above an arch that reaches over
/// `arch` along x; gives back their height, mm.
pub(super) fn head(
    drawing: &mut Drawing,
    captions: &[(String, TextStyle)],
    texts: &Texts,
    arch: Range<f64>,
    width: f64,
) -> f64 {
    let height = captions.iter().fold(1.0, |height, (caption, style)| {
        height + words(drawing, caption, *style, height - 1.0, arch.start, width)
    });
    let middle = height + LETTER.cap_height() / 2.0;
    for (side, x, across) in [
        (Side::Right, arch.start, Across::Start),
        (Side::Left, arch.end, Across::End),
    ] {
        let letter = texts.get(side.letter_id(), &[]);
        drawing.text(at(x, middle), (across, Along::Middle), LETTER, letter);
    }
    height + LETTER.cap_height() + 1.5
}

/// The captions from the corner of the page to x = `right`, wrapped; gives back their height, mm.
pub(super) fn captions(drawing: &mut Drawing, captions: &[(String, TextStyle)], right: f64) -> f64 {
    captions.iter().fold(0.0, |height, (caption, style)| {
        height + words(drawing, caption, *style, height, 0.0, right)
    })
}

/// The letters of the patient's sides in the upper corners of the arch's room.
pub(super) fn letters(drawing: &mut Drawing, texts: &Texts, room: Rect) {
    let middle = room.top + LETTER.cap_height() / 2.0 + 0.5;
    for (side, x, across) in [
        (Side::Right, room.left + 1.0, Across::Start),
        (Side::Left, room.right - 1.0, Across::End),
    ] {
        let letter = texts.get(side.letter_id(), &[]);
        drawing.text(at(x, middle), (across, Along::Middle), LETTER, letter);
    }
}

/// A bar of `length_mm` in the mouth, about x = `middle`; gives back its height, mm.
pub(super) fn scale_bar(
    drawing: &mut Drawing,
    length_mm: u32,
    scale: f64,
    middle: f64,
    top: f64,
) -> f64 {
    const TICK: f64 = 1.0;
    let half = f64::from(length_mm) * scale / 2.0;
    let y = top + REMARK.line_height() + TICK;
    let line = Stroke::new(Ink::Strong, LineWeight::Thin);
    let (from, to) = (at(middle - half, y), at(middle + half, y));
    let tick = at(0.0, TICK);
    let mut bar = Drawing::new();
    bar.line(from, to, line);
    bar.line(from - tick, from + tick, line);
    bar.line(to - tick, to + tick, line);
    let words = shortest_mm(Length::from_mm(length_mm.into()));
    let above = at(middle, y - TICK - 0.6);
    bar.text(above, (Across::Middle, Along::Baseline), REMARK, &words);
    drawing.add_group("scale-bar", words, bar);
    REMARK.line_height() + 2.0 * TICK + 1.0
}

/// A remark from x = `left` to `right`; gives back its height, mm.
pub(super) fn remark(drawing: &mut Drawing, remark: &str, top: f64, left: f64, right: f64) -> f64 {
    words(drawing, remark, REMARK, top, left, right)
}

/// The key of the outlines in use, in rows from x = `left`, or from 0 where one row from there is
/// not enough, to `right`; gives back its height, mm.
pub(super) fn key(
    drawing: &mut Drawing,
    texts: &Texts,
    looks: &[ToothLook],
    top: f64,
    left: f64,
    right: f64,
) -> f64 {
    const SAMPLE: f64 = 3.4;
    const SPACE: f64 = 1.2;
    const BETWEEN: f64 = 5.0;
    let row = REMARK.line_height().max(SAMPLE + 0.8);
    let entries: Vec<(ToothLook, String, f64)> = looks
        .iter()
        .map(|&look| {
            let word = texts.get(look.text_id(), &[]);
            let wide = SAMPLE + SPACE + REMARK.width(&word);
            (look, word, wide)
        })
        .collect();
    let whole: f64 = entries.iter().map(|(.., wide)| wide + BETWEEN).sum();
    let start = if whole - BETWEEN <= right - left {
        left
    } else {
        0.0
    };
    let (mut x, mut y) = (start, top);
    for (look, word, wide) in &entries {
        if x > start && x + wide > right {
            (x, y) = (start, y + row);
        }
        let middle = y + row / 2.0;
        let ring = sample(at(x + SAMPLE / 2.0, middle), SAMPLE);
        outline::draw(drawing, &ring, &[*look]);
        let place = at(x + SAMPLE + SPACE, middle);
        drawing.text(place, (Across::Start, Along::Middle), REMARK, word);
        x += wide + BETWEEN;
    }
    if entries.is_empty() {
        0.0
    } else {
        y + row - top
    }
}

/// A small outline for the key.
fn sample(centre: Point, size: f64) -> Vec<Point> {
    let half = Rect::between(centre, centre).grown(size / 2.0);
    (0..64_u8)
        .map(|corner| {
            let (sin, cos) = libm::sincos(f64::from(corner) / 64.0 * std::f64::consts::TAU);
            let round = |part: f64| {
                libm::sqrt(libm::sqrt(part.abs() * part.abs() * part.abs())).copysign(part)
            };
            centre
                + at(
                    round(cos) * half.width() / 2.0,
                    round(sin) * half.height() / 2.0,
                )
        })
        .collect()
}
