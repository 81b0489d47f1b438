//! One dimension line with its extension lines and label.

use super::geometry::{Point, at};
use super::item::Drawing;
use super::style::{Ink, LineWeight, Stroke};
use super::text::{Across, Along, TextStyle};

/// Half the length of the tick at each end, mm.
pub(super) const TICK: f64 = 0.9;
/// From the line to its label, mm.
pub(super) const GAP: f64 = 1.1;
/// Overrun of an extension line past the dimension line, mm.
const PAST: f64 = 0.6;
/// The line and its ticks.
pub(super) const LINE: Stroke = Stroke::new(Ink::Strong, LineWeight::Thin);
/// From the measured points to the line.
pub(super) const EXTENSION: Stroke = Stroke::HAIRLINE;

/// A dimension between two points, in any direction.
#[derive(Debug, Clone, PartialEq)]
pub struct Dimension {
    /// The first measured point.
    pub from: Point,
    /// The second measured point.
    pub to: Point,
    /// Distance of the line from the points, mm: positive to the right hand of someone who looks
    /// from the first to the second, as seen on the page.
    pub offset_mm: f64,
    /// The figure as it is to be read.
    pub label: String,
    /// Style of the label.
    pub style: TextStyle,
}

impl Drawing {
    /// Draws a dimension. The label is on the side away from the points, upright.
    pub fn dimension(&mut self, dimension: &Dimension) {
        let Dimension {
            from,
            to,
            offset_mm,
            ..
        } = *dimension;
        let along = (to - from).unit();
        let away = along.quarter_turn();
        let way = away * offset_mm;
        let side = away * 1.0_f64.copysign(offset_mm);
        for point in [from, to] {
            self.line(point, point + way + side * PAST, EXTENSION);
            let end = point + way;
            self.line(end - side * TICK, end + side * TICK, LINE);
        }
        self.line(from + way, to + way, LINE);
        let cap = dimension.style.cap_height();
        let across = if side.x > 0.5 {
            Across::Start
        } else if side.x < -0.5 {
            Across::End
        } else {
            Across::Middle
        };
        // A label beside a level line clears it by half its height more.
        let clear = GAP + side.y.abs() * cap / 2.0;
        let place = (from + way).midpoint(to + way) + side * clear;
        self.text(
            at(place.x, place.y),
            (across, Along::Middle),
            dimension.style,
            dimension.label.clone(),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::geometry::Rect;
    use super::*;

    fn label(from: Point, to: Point, offset_mm: f64) -> Rect {
        let mut drawing = Drawing::new();
        drawing.dimension(&Dimension {
            from,
            to,
            offset_mm,
            label: "21.4".to_owned(),
            style: TextStyle::BODY,
        });
        drawing.texts()[0].bounds()
    }

    #[test]
    fn the_label_stands_beyond_the_line_on_the_side_of_the_offset() {
        // Looking down the page, the right hand points to the left edge.
        assert!(label(at(0.0, 0.0), at(0.0, 10.0), 5.0).right < -5.0);
        assert!(label(at(0.0, 0.0), at(0.0, 10.0), -5.0).left > 5.0);
        assert!(label(at(0.0, 0.0), at(10.0, 0.0), 5.0).top > 5.0);
        assert!(label(at(0.0, 0.0), at(10.0, 0.0), -5.0).bottom < -5.0);
    }
}
