//! A few lines of text as one block, with or without a verdict's mark before them.

use crate::drawing::fonts;
use crate::drawing::{Across, Along, Drawing, Mark, Rect, TextStyle, at};

/// Room between the ink of one line and that of the next, mm.
const LEADING: f64 = 0.95;
/// Diameter of a mark, mm.
const MARK: f64 = 3.0;
/// From the left edge of a mark to the text beside it, mm.
const INDENT: f64 = MARK + 1.0;

/// Lines of text from the top down.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Lines {
    rows: Vec<Row>,
}

/// A line, measured once.
#[derive(Debug, Clone, PartialEq)]
struct Row {
    text: String,
    style: TextStyle,
    mark: Option<Mark>,
    indent: f64,
    /// Width with the room for a mark.
    width: f64,
    /// Reach of its ink above its baseline.
    above: f64,
    /// Reach of its ink below its baseline.
    below: f64,
}

impl Row {
    fn measured(text: String, style: TextStyle, mark: Option<Mark>, indent: f64) -> Self {
        let (above, below) = fonts::ink_extent(&text, style.face, style.size_mm);
        let cap = style.cap_height();
        // A mark is centred on the capitals.
        let over = mark.map_or(0.0, |_| (MARK * 1.1 - cap) / 2.0);
        Self {
            width: indent + style.width(&text),
            above: above.max(cap + over.max(0.0)),
            below: below.max(over),
            text,
            style,
            mark,
            indent,
        }
    }
}

impl Lines {
    /// No lines.
    pub(super) fn new() -> Self {
        Self::default()
    }

    /// The same with a text below, wrapped to a width.
    pub(super) fn text(mut self, text: &str, style: TextStyle, width_mm: f64) -> Self {
        self.add(text, style, width_mm, None);
        self
    }

    /// The same with a text below that has a mark before its first line.
    pub(super) fn marked(
        mut self,
        mark: Mark,
        text: &str,
        style: TextStyle,
        width_mm: f64,
    ) -> Self {
        self.add(text, style, width_mm, Some(mark));
        self
    }

    fn add(&mut self, text: &str, style: TextStyle, width_mm: f64, mark: Option<Mark>) {
        let indent = if mark.is_some() { INDENT } else { 0.0 };
        let room = width_mm - indent;
        for (index, text) in fonts::wrap(text, style.face, style.size_mm, room)
            .into_iter()
            .filter(|line| !line.is_empty())
            .enumerate()
        {
            let mark = mark.filter(|_| index == 0);
            self.rows.push(Row::measured(text, style, mark, indent));
        }
    }

    /// True if there is nothing to read.
    pub(super) fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// Number of lines.
    pub(super) fn rows(&self) -> usize {
        self.rows.len()
    }

    /// From the top of the first line's ink to the bottom of the last one's, mm.
    pub(super) fn height(&self) -> f64 {
        let gaps: f64 = self.rows.iter().skip(1).map(|_| LEADING).sum();
        gaps + self
            .rows
            .iter()
            .map(|row| row.above + row.below)
            .sum::<f64>()
    }

    /// The widest line with its mark, mm.
    pub(super) fn width(&self) -> f64 {
        self.rows.iter().map(|row| row.width).fold(0.0, f64::max)
    }

    /// The block with its top at `top` and its left end, middle or right end at `x`.
    pub(super) fn draw(&self, x: f64, top: f64, across: Across) -> Drawing {
        let mut drawing = Drawing::new();
        let mut down = top;
        for row in &self.rows {
            let left = match across {
                Across::Start => x,
                Across::Middle => x - row.width / 2.0,
                Across::End => x - row.width,
            };
            let baseline = down + row.above;
            if let Some(mark) = row.mark {
                let middle = baseline - row.style.cap_height() / 2.0;
                drawing.mark(at(left + MARK / 2.0, middle), MARK, mark);
            }
            drawing.text(
                at(left + row.indent, baseline),
                (Across::Start, Along::Baseline),
                row.style,
                row.text.clone(),
            );
            down += row.above + row.below + LEADING;
        }
        drawing
    }

    /// The room that [`Self::draw`] takes.
    pub(super) fn rect(&self, x: f64, top: f64, across: Across) -> Rect {
        let left = match across {
            Across::Start => x,
            Across::Middle => x - self.width() / 2.0,
            Across::End => x - self.width(),
        };
        Rect::new(at(left, top), self.width(), self.height())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_block_stays_in_the_room_that_it_says() {
        for across in [Across::Start, Across::Middle, Across::End] {
            let block = Lines::new()
                .text("22.1", TextStyle::FIGURE, 30.0)
                .marked(
                    Mark::Short,
                    "Äg: 1.9, limit 2.0 and more",
                    TextStyle::BODY,
                    24.0,
                )
                .text("gauge", TextStyle::CAPTION, 30.0);
            let bounds = block.draw(5.0, 7.0, across).bounds().unwrap();
            let room = block.rect(5.0, 7.0, across);
            assert!(room.grown(1e-9).holds(bounds), "{room:?} {bounds:?}");
            assert!((room.height() - bounds.height()).abs() < 0.3);
        }
    }

    #[test]
    fn lines_of_a_block_never_touch() {
        let block = Lines::new().text("Ågy Ågy Ågy", TextStyle::FIGURE, 20.0);
        let drawing = block.draw(0.0, 0.0, Across::Start);
        let boxes: Vec<Rect> = drawing.texts().iter().map(|text| text.bounds()).collect();
        assert_eq!(boxes.len(), 3);
        for pair in boxes.windows(2) {
            assert!(pair[1].top - pair[0].bottom > 0.9);
        }
    }
}
