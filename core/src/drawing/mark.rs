//! The marks beside verdicts. Each differs from the others by its shape alone, so they hold on a
//! grey print and for every eye. Words go with them always; the caller writes them.

use super::geometry::{Point, Rect, at};
use super::item::Drawing;

use super::style::{Dash, Ink, LineWeight, Paint, Stroke};

/// A verdict's mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// An open ring.
    Clear,
    /// A leaf with a folded corner and two lines of writing: worth knowing, no limit is broken.
    Note,
    /// A half-turned square.
    Tight,
    /// An octagon with a cross in it, open between the arms.
    Short,
    /// A dashed ring with a question mark in it.
    Unknown,
    /// A square of which the lower half, below the diagonal, is filled: someone took it on.
    Accepted,
    /// A ring with a disc in it: the contact is the aim.
    Intended,
}

impl Mark {
    /// All marks, the mildest first.
    pub const ALL: [Self; 7] = [
        Self::Clear,
        Self::Note,
        Self::Intended,
        Self::Accepted,
        Self::Tight,
        Self::Unknown,
        Self::Short,
    ];
}

const LINE: Stroke = Stroke::new(Ink::Strong, LineWeight::Medium);

impl Drawing {
    /// Draws a verdict's mark of about `size_mm` across, its centre at `centre`.
    pub fn mark(&mut self, centre: Point, size_mm: f64, mark: Mark) {
        let half = size_mm / 2.0;
        let square = Rect::between(centre, centre).grown(half * 0.86);
        let [top_left, top_right, bottom_right, bottom_left] = square.corners();
        match mark {
            Mark::Clear => self.circle(centre, half * 0.92, Paint::both(Ink::Clear, LINE)),
            Mark::Note => self.leaf(centre, half),
            Mark::Tight => {
                let ring = [at(0.0, -1.1), at(1.1, 0.0), at(0.0, 1.1), at(-1.1, 0.0)];
                self.polygon(
                    ring.map(|corner| centre + corner * half),
                    Paint::both(Ink::Tight, LINE),
                );
            }
            Mark::Short => {
                let corner = |eighth: u8| {
                    centre + at(half * 1.06, 0.0).turned(22.5 + 45.0 * f64::from(eighth))
                };
                self.polygon((0..8).map(corner), Paint::both(Ink::Short, LINE));
                // From side to side, as nothing that is ticked by hand.
                let end = |eighth: u8| {
                    centre + at(half * 0.62, 0.0).turned(45.0 + 90.0 * f64::from(eighth))
                };
                self.line(end(0), end(2), LINE);
                self.line(end(1), end(3), LINE);
            }
            Mark::Unknown => {
                self.circle(
                    centre,
                    half * 0.95,
                    Paint::both(Ink::Unknown, LINE.dashed(Dash::Dashed)),
                );
                self.question(centre, half);
            }
            Mark::Accepted => {
                self.rect(square, Paint::fill(Ink::Accepted));
                self.polygon(
                    [top_left, bottom_right, bottom_left],
                    Paint::fill(Ink::Strong),
                );
                self.polygon(
                    [top_left, top_right, bottom_right, bottom_left],
                    Paint::outline(LINE),
                );
            }
            Mark::Intended => {
                self.circle(centre, half * 0.92, Paint::both(Ink::Intended, LINE));
                self.circle(centre, half * 0.42, Paint::fill(Ink::Strong));
            }
        }
    }

    /// A leaf of paper, its upper right corner folded down.
    fn leaf(&mut self, centre: Point, half: f64) {
        let place = |x: f64, y: f64| centre + at(x, y) * half;
        let (fold, fold_foot) = (place(0.3, -0.92), place(0.82, -0.4));
        let edge = [
            place(-0.82, -0.92),
            fold,
            fold_foot,
            place(0.82, 0.92),
            place(-0.82, 0.92),
        ];
        self.polygon(edge, Paint::both(Ink::Clear, LINE));
        self.polygon(
            [fold, place(0.3, -0.4), fold_foot],
            Paint::fill(Ink::Strong),
        );
        for y in [0.05, 0.5] {
            self.line(place(-0.48, y), place(0.48, y), LINE);
        }
    }

    /// A question mark made of lines: as a letter it would be in the page's text.
    fn question(&mut self, centre: Point, half: f64) {
        let bow = centre + at(0.0, -0.2) * half;
        self.arc(bow, half * 0.3, 180.0, 240.0, LINE);
        let end = bow + at(half * 0.3, 0.0).turned(60.0);
        let foot = centre + at(0.0, 0.3) * half;
        self.polyline([end, foot], LINE);
        self.circle(
            centre + at(0.0, 0.6) * half,
            half * 0.1,
            Paint::fill(Ink::Strong),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::item::Item;
    use super::*;
    use std::collections::BTreeSet;

    /// The part of a shape that is left when every colour is taken away.
    fn shape_only(item: &Item) -> String {
        match item {
            Item::Circle { paint, radius, .. } => {
                let dash = paint.stroke.map(|stroke| stroke.dash);
                let solid = paint.fill == Some(Ink::Strong);
                format!("circle {radius:.2} {dash:?} {solid}")
            }
            Item::Polygon { rings, paint } => {
                let solid = paint.fill == Some(Ink::Strong);
                format!("polygon {:?} {solid}", rings[0])
            }
            other => format!("{:?}", other.bounds()),
        }
    }

    fn drawn(mark: Mark) -> Drawing {
        let mut drawing = Drawing::new();
        drawing.mark(at(3.0, 4.0), 4.0, mark);
        drawing
    }

    #[test]
    fn marks_differ_without_any_colour() {
        let shapes: BTreeSet<Vec<String>> = Mark::ALL
            .into_iter()
            .map(|mark| drawn(mark).items().iter().map(shape_only).collect())
            .collect();
        assert_eq!(shapes.len(), Mark::ALL.len());
    }

    #[test]
    fn marks_are_centred_and_of_the_size_asked_for() {
        for mark in Mark::ALL {
            let bounds = drawn(mark).bounds().unwrap();
            let off = bounds.centre() - at(3.0, 4.0);
            assert!(off.length() < 1e-9, "{mark:?} is off by {off:?}");
            assert!((3.2..=4.5).contains(&bounds.width()), "{mark:?}");
        }
    }

    #[test]
    fn marks_hold_no_text() {
        assert!(
            Mark::ALL
                .into_iter()
                .all(|mark| drawn(mark).texts().is_empty())
        );
    }
}
