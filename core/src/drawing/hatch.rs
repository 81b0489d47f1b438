//! Parallel lines within a closed shape.

use super::geometry::{Point, at};
use super::item::Drawing;
use super::style::Stroke;

impl Drawing {
    /// Fills rings, even-odd, with parallel lines `spacing_mm` apart that run at `angle_deg`
    /// clockwise from the right.
    ///
    /// The lines hang on a grid through the origin, so neighbouring shapes with the same hatch match.
    /// A spacing that is not above zero draws nothing.
    pub fn hatch(&mut self, rings: &[Vec<Point>], spacing_mm: f64, angle_deg: f64, stroke: Stroke) {
        if spacing_mm <= 0.0 || !spacing_mm.is_finite() {
            return;
        }
        // In the turned frame the lines are level, and each crosses the rings' edges in pairs.
        let turned: Vec<Vec<Point>> = rings
            .iter()
            .map(|ring| ring.iter().map(|point| point.turned(-angle_deg)).collect())
            .collect();
        let heights = turned.iter().flatten().map(|point| point.y);
        let low = heights.clone().fold(f64::INFINITY, f64::min);
        let high = heights.fold(f64::NEG_INFINITY, f64::max);
        let mut level = libm::ceil(low / spacing_mm) * spacing_mm;
        while level < high {
            let mut crossings: Vec<f64> = turned
                .iter()
                .flat_map(|ring| crossings(ring, level))
                .collect();
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                self.line(
                    at(pair[0], level).turned(angle_deg),
                    at(pair[1], level).turned(angle_deg),
                    stroke,
                );
            }
            level += spacing_mm;
        }
    }
}

/// Abscissas of a ring's edges on a level line. Each edge owns its upper end only, so a corner on
/// the line counts once when the ring passes through and twice or never when it turns back.
fn crossings(ring: &[Point], level: f64) -> Vec<f64> {
    let next = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(next)
        .filter(|(a, b)| (a.y <= level) != (b.y <= level))
        .map(|(a, b)| a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::geometry::Rect;
    use super::super::item::Item;
    use super::*;

    fn hatched(rings: &[Vec<Point>], angle_deg: f64) -> Drawing {
        let mut drawing = Drawing::new();
        drawing.hatch(rings, 1.0, angle_deg, Stroke::HAIRLINE);
        drawing
    }

    fn length(drawing: &Drawing) -> f64 {
        drawing
            .items()
            .iter()
            .map(|item| match item {
                Item::Line { points, .. } => (points[1] - points[0]).length(),
                _ => 0.0,
            })
            .sum()
    }

    #[test]
    fn lines_stay_in_the_shape_and_cover_it() {
        // The lines' length times their spacing approximates the area, whatever the direction.
        let square = vec![Rect::new(at(0.3, 0.3), 40.0, 40.0).corners().to_vec()];
        for angle in [0.0, 30.0, 45.0, 90.0, -20.0] {
            let drawing = hatched(&square, angle);
            assert!((length(&drawing) - 1600.0).abs() < 60.0, "{angle}");
            let around = Rect::new(at(0.3, 0.3), 40.0, 40.0).grown(1e-9);
            assert!(around.holds(drawing.bounds().unwrap()));
        }
    }

    #[test]
    fn a_hole_stays_empty() {
        let with_hole = vec![
            Rect::new(at(0.5, 0.5), 20.0, 20.0).corners().to_vec(),
            Rect::new(at(5.5, 5.5), 10.0, 10.0).corners().to_vec(),
        ];
        assert!((length(&hatched(&with_hole, 0.0)) - 300.0).abs() < 1e-6);
    }

    #[test]
    fn no_spacing_draws_nothing() {
        let mut drawing = Drawing::new();
        drawing.hatch(
            &[vec![at(0.0, 0.0), at(1.0, 0.0), at(0.0, 1.0)]],
            0.0,
            0.0,
            Stroke::THIN,
        );
        assert!(drawing.is_empty());
    }
}
