//! Circles and arcs as cubic curves.

use crate::drawing::{Point, at};

/// A point of a path, and whether the curve only leans towards it.
pub(super) type PathPoint = (Point, PathPointKind);

/// The relation of a path to one of its points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PathPointKind {
    /// It passes through.
    Through,
    /// It is a control point of a cubic curve.
    Towards,
}

/// An arc as a path: a start, then two control points and an end for each piece of at most a
/// quarter. It errs by less than 0.03 % of the radius.
pub(super) fn arc(centre: Point, radius: f64, start_deg: f64, sweep_deg: f64) -> Vec<PathPoint> {
    let pieces = libm::ceil(sweep_deg.abs() / 90.0).clamp(1.0, 8.0);
    let step = sweep_deg / pieces;
    let arm = 4.0 / 3.0 * libm::tan((step / 4.0).to_radians()) * radius;
    let on = |deg: f64| at(radius, 0.0).turned(deg);
    let mut path = vec![(centre + on(start_deg), PathPointKind::Through)];
    let mut from = start_deg;
    for _ in 0..8 {
        if (from - start_deg).abs() >= sweep_deg.abs() - 1e-9 {
            break;
        }
        let to = from + step;
        let lean = |deg: f64, arm: f64| centre + on(deg) + on(deg).unit().quarter_turn() * arm;
        path.push((lean(from, arm), PathPointKind::Towards));
        path.push((lean(to, -arm), PathPointKind::Towards));
        path.push((centre + on(to), PathPointKind::Through));
        from = to;
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circle_is_four_curves_that_stay_on_it() {
        let path = arc(at(1.0, 2.0), 3.0, 0.0, 360.0);
        assert_eq!(path.len(), 13);
        // The middle of a cubic piece is (start + 3 control + 3 control + end) / 8.
        for piece in path.windows(4).step_by(3) {
            let middle = (piece[0].0 + piece[1].0 * 3.0 + piece[2].0 * 3.0 + piece[3].0) * 0.125;
            let off = (middle - at(1.0, 2.0)).length() - 3.0;
            assert!(off.abs() < 0.001, "{off}");
        }
        assert!((path[12].0 - path[0].0).length() < 1e-9);
    }

    #[test]
    fn an_arc_ends_where_it_should_both_ways_round() {
        for sweep in [30.0, 200.0, -120.0] {
            let path = arc(at(0.0, 0.0), 1.0, 10.0, sweep);
            let end = at(1.0, 0.0).turned(10.0 + sweep);
            assert!((path[path.len() - 1].0 - end).length() < 1e-9);
        }
    }
}
