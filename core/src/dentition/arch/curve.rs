//! One half of the beta curve, by its arc length.
//!
//! Braun, Hnat, Fender, Legan, Angle Orthod 1998;68(1):29–36 (the formula from memory): height
//! above the line between the landmarks y = 3.0314·D·(x/W + ½)^0.8·(½ − x/W)^0.8. The constant
//! is 2^1.6, so with u = 2x/W the height is D·(1 − u²)^0.8, and D at the midline.
//!
//! Here y is counted posterior from the midline point. At the landmark the curve runs straight
//! back, and its slope there grows without bound. The parameter t = (1 − u)^⅕ takes that away: it
//! is 1 at the midline, 0 at the landmark, and everything below is smooth in it.

/// Panels of the table from the midline to the landmark.
const PANELS: usize = 24;

/// Half the nodes and weights of Gauss–Legendre quadrature with eight nodes on [−1, 1].
///
/// Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4 (from memory); a test
/// checks them on the powers that eight nodes must integrate exactly.
const GAUSS: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_48),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_26),
];

/// The half of the curve with x ≥ 0, from the midline to the landmark.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct HalfCurve {
    half_width: f64,
    depth: f64,
    /// Arc length from the midline to t = 1 − i/PANELS, in millimetres.
    arcs: [f64; PANELS + 1],
}

/// A point of the half curve and the unit vector in which it goes on, away from the midline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct CurvePoint {
    pub(super) at: [f64; 2],
    pub(super) onward: [f64; 2],
}

impl HalfCurve {
    /// The half curve of an arch with a width and depth in millimetres, both above zero.
    pub(super) fn new(width: f64, depth: f64) -> Self {
        let mut curve = Self {
            half_width: width / 2.0,
            depth,
            arcs: [0.0; PANELS + 1],
        };
        for i in 1..=PANELS {
            let panel = curve.arc_between(node(i), node(i - 1));
            curve.arcs[i] = curve.arcs[i - 1] + panel;
        }
        curve
    }

    /// Arc length from the midline to the landmark.
    pub(super) fn length(&self) -> f64 {
        self.arcs[PANELS]
    }

    /// The point at an arc length from the midline, not below zero. Beyond the landmark the curve
    /// runs straight back.
    pub(super) fn at(&self, arc: f64) -> CurvePoint {
        let beyond = arc - self.length();
        if beyond >= 0.0 {
            return CurvePoint {
                at: [self.half_width, self.depth + beyond],
                onward: [0.0, 1.0],
            };
        }
        self.point(self.parameter(arc))
    }

    /// The parameter at an arc length between zero and the whole.
    ///
    /// Newton's method in t⁴, in which the arc length never stands still, held inside a bracket
    /// that shrinks at each step, so that it ends whatever the shape.
    fn parameter(&self, arc: f64) -> f64 {
        let i = self.arcs[1..PANELS].partition_point(|&a| a <= arc);
        let (near, far) = (node(i), node(i + 1));
        let root4 = |v: f64| libm::sqrt(libm::sqrt(v));
        let (mut low, mut high) = (far * far * far * far, near * near * near * near);
        let share = (arc - self.arcs[i]) / (self.arcs[i + 1] - self.arcs[i]);
        let mut v = high + (low - high) * share;
        for _ in 0..60 {
            let t = root4(v);
            let error = self.arcs[i] + self.arc_between(t, near) - arc;
            // d(arc)/dt = −5t³·stretch and dv = 4t³·dt, so the power of t cancels.
            let step = error / (1.25 * self.stretch(t));
            if step.abs() <= 1e-15 {
                break;
            }
            if error > 0.0 {
                low = v;
            } else {
                high = v;
            }
            let next = v + step;
            v = if next > low && next < high {
                next
            } else {
                f64::midpoint(low, high)
            };
        }
        root4(v)
    }

    fn point(&self, t: f64) -> CurvePoint {
        let (u, p, r) = shape(t);
        let (dx, dy) = (self.half_width * t, 1.6 * self.depth * u * r);
        let length = libm::sqrt(dx * dx + dy * dy);
        CurvePoint {
            at: [
                self.half_width * u,
                // (1 − u²)^0.8 = t⁴·p^0.8 and p^0.8 = p·p^(−0.2).
                self.depth * (1.0 - t * t * t * t * p * r),
            ],
            onward: [dx / length, dy / length],
        }
    }

    /// Speed along the curve, apart from the factor −5t³ that dx/dt and dy/dt share.
    fn stretch(&self, t: f64) -> f64 {
        let (u, _, r) = shape(t);
        let (dx, dy) = (self.half_width * t, 1.6 * self.depth * u * r);
        libm::sqrt(dx * dx + dy * dy)
    }

    /// Arc length between two parameters, `from` ≤ `to`.
    fn arc_between(&self, from: f64, to: f64) -> f64 {
        let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
        let speed = |t: f64| 5.0 * t * t * t * self.stretch(t);
        let mut sum = 0.0;
        for (x, weight) in GAUSS {
            sum += weight * (speed(middle - half * x) + speed(middle + half * x));
        }
        half * sum
    }
}

/// u, p = 2 − t⁵ and p^(−0.2): with them 1 − u² = t⁵·p.
fn shape(t: f64) -> (f64, f64, f64) {
    let t5 = t * t * t * t * t;
    let p = 2.0 - t5;
    (1.0 - t5, p, libm::pow(p, -0.2))
}

/// The parameter at the i-th node of the table.
#[expect(clippy::cast_precision_loss, reason = "a count of panels")]
fn node(i: usize) -> f64 {
    (PANELS - i) as f64 / PANELS as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Exact integrals of even powers over [−1, 1]: 2/(n + 1), up to the 15th.
    #[test]
    fn the_nodes_integrate_every_power_that_they_must() {
        for n in (0..=14).step_by(2) {
            let sum: f64 = GAUSS.iter().map(|(x, w)| 2.0 * w * x.powi(n)).sum();
            assert!(
                (sum - 2.0 / f64::from(n + 1)).abs() < 1e-15,
                "power {n}: {sum}"
            );
        }
    }

    #[test]
    fn the_curve_begins_at_the_midline_and_ends_at_the_landmark() {
        let curve = HalfCurve::new(57.92, 31.59);
        let (start, end) = (curve.at(0.0), curve.at(curve.length()));
        assert_eq!((start.at, start.onward), ([0.0, 0.0], [1.0, 0.0]));
        assert_eq!((end.at, end.onward), ([28.96, 31.59], [0.0, 1.0]));
    }

    /// The published form, in its own frame and with its own constant.
    #[test]
    fn points_lie_on_the_published_curve() {
        let (w, d) = (54.19, 28.10);
        let curve = HalfCurve::new(w, d);
        for i in 0..=40 {
            let [x, y] = curve.at(curve.length() * f64::from(i) / 40.0).at;
            let braun = 3.0314 * d * (x / w + 0.5).powf(0.8) * (0.5 - x / w).powf(0.8);
            assert!(
                (d - y - braun).abs() < 1e-3,
                "at x {x}: {} and {braun}",
                d - y
            );
        }
    }

    #[test]
    fn the_point_at_an_arc_length_is_that_far_along() {
        let curve = HalfCurve::new(55.0, 45.0);
        for i in 1..200 {
            let arc = curve.length() * f64::from(i) / 200.0;
            let t = curve.parameter(arc);
            let panel = curve.arcs.iter().filter(|&&a| a <= arc).count() - 1;
            let back = curve.arcs[panel] + curve.arc_between(t, node(panel));
            assert!((back - arc).abs() < 1e-12, "{arc} came back as {back}");
        }
    }
}
