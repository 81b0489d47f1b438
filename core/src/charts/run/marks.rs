//! A mark for each kind of change, told apart by its shape alone.

use crate::drawing::{Drawing, Ink, LineWeight, Paint, Point, Rect, Stroke, at};
use crate::order::Change;

/// Draws the mark of a change: a wedge for another instrument, a lozenge for a re-set, an arrow for
/// another site, a ring for a sleeve, two bars for another speed.
pub(super) fn change_mark(drawing: &mut Drawing, centre: Point, change: Change) {
    let place = |x: f64, y: f64| at(centre.x + x, centre.y + y);
    let solid = Paint::fill(Ink::Strong);
    match change {
        Change::Mount => {
            drawing.polygon(
                [place(-1.5, -1.2), place(1.5, -1.2), place(0.0, 1.5)],
                solid,
            );
        }
        Change::Reset => {
            let lozenge = [
                place(0.0, -2.0),
                place(2.0, 0.0),
                place(0.0, 2.0),
                place(-2.0, 0.0),
            ];
            let edge = Stroke::new(Ink::Strong, LineWeight::Medium);
            drawing.polygon(lozenge, Paint::both(Ink::Tight, edge));
        }
        Change::Move => {
            let line = Stroke::new(Ink::Strong, LineWeight::Medium);
            drawing.line(place(0.0, -1.7), place(0.0, 1.7), line);
            for way in [-1.0, 1.0] {
                let tip = [
                    place(-0.9, way * 0.8),
                    place(0.0, way * 1.7),
                    place(0.9, way * 0.8),
                ];
                drawing.polyline(tip, line);
            }
        }
        Change::Sleeve => {
            let line = Stroke::new(Ink::Strong, LineWeight::Medium);
            drawing.circle(centre, 1.4, Paint::both(Ink::Ground, line));
        }
        Change::Speed => {
            for x in [-1.1, 0.4] {
                drawing.rect(Rect::new(place(x, -1.3), 0.7, 2.6), solid);
            }
        }
    }
}
