//! The areas taken on the chart, so that words go where nothing else is.

use crate::drawing::{Point, Rect};

/// True if two straight lines cross, other than by touching at an end.
pub(super) fn cross(a: (Point, Point), b: (Point, Point)) -> bool {
    let side = |(from, to): (Point, Point), point: Point| {
        let (way, there) = (to - from, point - from);
        way.x * there.y - way.y * there.x
    };
    side(a, b.0) * side(a, b.1) < 0.0 && side(b, a.0) * side(b, a.1) < 0.0
}

/// True if a line runs through a rectangle.
fn runs_through(line: (Point, Point), rect: Rect) -> bool {
    let [a, b, c, d] = rect.corners();
    let inside = Rect::between(line.0, line.0);
    rect.overlaps(inside.grown(1e-9)) || cross(line, (a, c)) || cross(line, (b, d))
}

/// Shapes that no word may cover.
#[derive(Debug, Default)]
pub(super) struct Occupied {
    pub(super) words: Vec<Rect>,
    pub(super) discs: Vec<(Point, f64)>,
    pub(super) lines: Vec<(Point, Point)>,
    pub(super) rings: Vec<Vec<Point>>,
}

impl Occupied {
    /// True if nothing is in a rectangle.
    pub(super) fn leaves_free(&self, rect: Rect) -> bool {
        let clear_of_disc = |&(centre, radius): &(Point, f64)| {
            let x = centre.x.clamp(rect.left, rect.right) - centre.x;
            let y = centre.y.clamp(rect.top, rect.bottom) - centre.y;
            libm::hypot(x, y) >= radius
        };
        let clear_of_ring = |ring: &Vec<Point>| {
            let ends = ring.iter().cycle().skip(1);
            let mut edges = ring.iter().copied().zip(ends.copied());
            !holds(ring, rect.centre()) && !edges.any(|edge| runs_through(edge, rect))
        };
        !self.words.iter().any(|word| word.overlaps(rect))
            && self.discs.iter().all(clear_of_disc)
            && !self.lines.iter().any(|&line| runs_through(line, rect))
            && self.rings.iter().all(clear_of_ring)
    }
}

/// True if a ring runs around a point.
pub(super) fn holds(ring: &[Point], point: Point) -> bool {
    let ends = ring.iter().cycle().skip(1);
    let right_of_it = ring
        .iter()
        .zip(ends)
        .filter(|(a, b)| (a.y <= point.y) != (b.y <= point.y))
        .filter(|(a, b)| a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x) > point.x);
    right_of_it.count() % 2 == 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::at;

    #[test]
    fn lines_cross_only_where_each_passes_the_other() {
        let level = (at(0.0, 0.0), at(10.0, 0.0));
        assert!(cross(level, (at(5.0, -1.0), at(4.0, 1.0))));
        assert!(!cross(level, (at(5.0, 0.0), at(4.0, 1.0))));
        assert!(!cross(level, (at(11.0, -1.0), at(11.0, 1.0))));
    }

    #[test]
    fn a_word_is_kept_off_every_kind_of_shape() {
        let word = Rect::new(at(0.0, 0.0), 4.0, 2.0);
        let free = |change: &dyn Fn(&mut Occupied)| {
            let mut taken = Occupied::default();
            change(&mut taken);
            taken.leaves_free(word)
        };
        assert!(free(&|_| ()));
        assert!(!free(&|t| t.words.push(Rect::new(at(3.9, 0.0), 4.0, 2.0))));
        assert!(free(&|t| t.words.push(Rect::new(at(4.0, 0.0), 4.0, 2.0))));
        assert!(!free(&|t| t.discs.push((at(5.0, 1.0), 1.1))));
        assert!(free(&|t| t.discs.push((at(5.0, 3.0), 1.1))));
        assert!(!free(&|t| t.lines.push((at(-1.0, 1.0), at(9.0, 1.2)))));
        assert!(!free(&|t| t.lines.push((at(1.0, 1.0), at(2.0, 1.2)))));
        assert!(free(&|t| t.lines.push((at(-1.0, 3.0), at(9.0, 2.2)))));
        let around = Rect::new(at(-9.0, -9.0), 30.0, 30.0).corners().to_vec();
        assert!(!free(&|t| t.rings.push(around.clone())));
        let beside = around
            .iter()
            .map(|p| *p + at(14.0, 0.0))
            .collect::<Vec<_>>();
        assert!(free(&|t| t.rings.push(beside.clone())));
    }
}
