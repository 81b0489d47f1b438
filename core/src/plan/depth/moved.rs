//! What moving a site can take from a distance that was measured at it before.
//!
//! A body that is shifted by t and turned by φ about its platform carries each of its points by t
//! and 2·ℓ·sin(φ/2) at most, ℓ the point's distance from the platform; turning about the axis itself
//! changes nothing of a round body. A distance is the least to anything there, so no point of the body
//! comes nearer to it than by what the point itself went:
//!
//! ```text
//! left now ≥ left then − t − 2·ℓ·sin(φ/2)
//! ```
//!
//! Coordinates give t and φ exactly. A place on the arch gives no height and no curve of its own:
//!
//! ```text
//! t ≤ √2·(|Δalong|·(1 + κ·|buccal|) + |Δbuccal|)      the crest falls no steeper than it goes aside
//! φ ≤ angle between the tilts + κ·|Δalong|·sin(tilt)  the arch turns under a tilted axis
//! ```
//!
//! All this of the least distance in space: what was read level, of a wall that leans more than 45°
//! over the axis, may lose more.

use crate::case::{ArchSize, Case, CrestDepth, Placement, Vector};
use crate::dentition::ArchModel;
use crate::measure::{Angle, Length};
use libm::{atan, atan2, cos, fabs, hypot, sin, sqrt, tan};

/// The most that a move may take for a distance to count still; beyond it the distance was measured to
/// another place than the one that is near now. Common practice, no source.
const MOST_TAKEN: Length = Length::from_mm(1);

/// Curvature of an arch, per millimetre, at least: a radius of 10 mm. Common practice, no source; the
/// curve of Braun et al. (Angle Orthod 1998;68(1):29–36) with the depth of 45 mm and width of 58 mm of
/// a long arch has one of 11.7 mm at the midline.
const CURVATURE: f64 = 0.1;

/// The sharpest that an arch is taken to be bent, per millimetre: as that curve is at the midline,
/// 6.4·D/W², where this is sharper than [`CURVATURE`]. Of an arch whose size nobody measured, that of
/// the narrowest and longest there may be. In the last 2 mm before its landmark the curve may be bent more, which no jaw is.
pub(super) fn curvature(arch: Option<ArchSize>) -> f64 {
    let sharpest = (ArchModel::WIDTHS.0, ArchModel::DEPTHS.1);
    let (width, depth) = arch.map_or(sharpest, |arch| (arch.width_mm, arch.depth_mm));
    CURVATURE.max(6.4 * depth.mm() / (width.mm() * width.mm()))
}

/// A move of a site: what it shifted and turned at most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct Moved {
    /// Millimetres.
    shift: f64,
    /// Millimetres of it along the axis at most, towards its end.
    deeper: f64,
    /// Radians.
    turn: f64,
}

impl Moved {
    /// None at all.
    pub(super) const NOWHERE: Self = Self {
        shift: 0.0,
        deeper: 0.0,
        turn: 0.0,
    };

    /// The move from one placement to another, on an arch of at most this [`curvature`]; nothing where
    /// they do not name one place and its surroundings alike: counted from another tooth, or the one
    /// measured and the other not.
    pub(super) fn between(then: &Placement, now: &Placement, curvature: f64) -> Option<Self> {
        match (*then, *now) {
            (
                Placement::Measured {
                    platform: a,
                    direction: u,
                },
                Placement::Measured {
                    platform: b,
                    direction: v,
                },
            ) => {
                let by = [b.x_mm - a.x_mm, b.y_mm - a.y_mm, b.z_mm - a.z_mm].map(Length::mm);
                let turn = angle(of_vector(u), of_vector(v))?;
                let along = along_axis(then, now)?;
                Some(Self {
                    shift: norm(by),
                    deeper: along.max(0.0),
                    turn,
                })
            }
            (
                Placement::OnArch {
                    at: from,
                    along_mm: a,
                    buccal_mm: a_out,
                    apex_to_distal_deg: a_distal,
                    apex_to_buccal_deg: a_buccal,
                },
                Placement::OnArch {
                    at,
                    along_mm: b,
                    buccal_mm: b_out,
                    apex_to_distal_deg: b_distal,
                    apex_to_buccal_deg: b_buccal,
                },
            ) if from == at => {
                let along = (a - b).abs().mm();
                let out = a_out.abs().max(b_out.abs()).mm();
                let slopes = |d: Angle, b: Angle| [tan(d.radians()), tan(b.radians()), 1.0];
                let (a, b) = (slopes(a_distal, a_buccal), slopes(b_distal, b_buccal));
                let lean = |[d, b, _]: [f64; 3]| atan(hypot(d, b));
                let aside = along * (1.0 + curvature * out) + (a_out - b_out).abs().mm();
                Some(Self {
                    shift: sqrt(2.0) * aside,
                    deeper: aside * (cos(lean(a)) + sin(lean(a))),
                    turn: angle(a, b)? + curvature * along * sin(lean(a).max(lean(b))),
                })
            }
            _ => None,
        }
    }

    /// The same, with the platform at another depth as well; nothing where that is unknown.
    pub(super) fn sunk(self, then: Option<CrestDepth>, now: Option<CrestDepth>) -> Option<Self> {
        let (either_way, deeper) = deeper(then, now)?;
        Some(Self {
            shift: self.shift + either_way,
            deeper: self.deeper + deeper,
            ..self
        })
    }

    /// At most this move or another one.
    pub(super) const fn or_farther(self, other: Self) -> Self {
        Self {
            shift: self.shift.max(other.shift),
            deeper: self.deeper.max(other.deeper),
            turn: self.turn.max(other.turn),
        }
    }

    /// The same of where the axis passes the crest, which it does elsewhere as soon as the platform is
    /// at another depth on an axis of this lean, in radians, at most.
    pub(super) fn sunk_at_crest(
        self,
        lean: f64,
        then: Option<CrestDepth>,
        now: Option<CrestDepth>,
    ) -> Option<Self> {
        let (by, _) = deeper(then, now)?;
        let shift = self.shift + by * tan(lean);
        Some(Self { shift, ..self })
    }

    /// The most by which it carries a body's points so far aside of the axis deeper than they were,
    /// along the axis as it was; rounded up.
    pub(in crate::plan) fn carries_deeper(self, aside: Length) -> Length {
        let turn = self.turn.min(std::f64::consts::FRAC_PI_2);
        match self.deeper + aside.mm() * sin(turn) {
            none if none <= 0.0 => Length::ZERO,
            deeper => Length::ceil_mm(deeper - 1e-9),
        }
    }

    /// The most that it takes at a point `along` the axis from the platform and `aside` of it, rounded
    /// up; nothing where it went too far to say ([`MOST_TAKEN`]).
    pub(in crate::plan) fn takes(self, along: Length, aside: Length) -> Option<Length> {
        let reach = hypot(along.mm(), aside.mm());
        let half = self.turn.min(std::f64::consts::PI) / 2.0;
        // What the floating point itself may have lost is far below this.
        let taken = Length::ceil_mm(self.shift + 2.0 * reach * sin(half) + 1e-9);
        (taken <= MOST_TAKEN).then_some(taken)
    }
}

/// The most that a move from one placement to another takes of a distance to an axis, down to a depth along it;
/// nothing where nobody can say.
pub(in crate::plan) fn takes(
    case: &Case,
    then: &Placement,
    now: &Placement,
    depth: Length,
) -> Option<Length> {
    let moved = Moved::between(then, now, curvature(case.arch))?;
    moved.takes(depth, Length::ZERO)
}

/// Millimetres by which a platform was set to another depth, either way, and deeper, at the highest or
/// the lowest crest; nothing where only one of the two is known.
fn deeper(then: Option<CrestDepth>, now: Option<CrestDepth>) -> Option<(f64, f64)> {
    let (a, b) = match (then, now) {
        (None, None) => return Some((0.0, 0.0)),
        (then, now) => then.zip(now)?,
    };
    let by = [b.highest_mm - a.highest_mm, b.lowest_mm - a.lowest_mm].map(Length::mm);
    let either_way = fabs(by[0]).max(fabs(by[1]));
    Some((either_way, by[0].max(by[1]).max(0.0)))
}

/// Millimetres by which a platform of known coordinates went along its axis as it was, towards its end.
pub(in crate::plan) fn along_axis(then: &Placement, now: &Placement) -> Option<f64> {
    let (
        Placement::Measured {
            platform: a,
            direction,
        },
        Placement::Measured { platform: b, .. },
    ) = (*then, *now)
    else {
        return None;
    };
    let by = [b.x_mm - a.x_mm, b.y_mm - a.y_mm, b.z_mm - a.z_mm].map(Length::mm);
    let u = of_vector(direction);
    (norm(u) > 0.0).then(|| (by[0] * u[0] + by[1] * u[1] + by[2] * u[2]) / norm(u))
}

fn of_vector(v: Vector) -> [f64; 3] {
    [v.x.mm(), v.y.mm(), v.z.mm()]
}

fn norm([x, y, z]: [f64; 3]) -> f64 {
    sqrt(x * x + y * y + z * z)
}

/// The angle between two directions, in radians, good for small ones too; nothing where one is none.
fn angle(a: [f64; 3], b: [f64; 3]) -> Option<f64> {
    let cross = [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ];
    let dot = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    (norm(a) > 0.0 && norm(b) > 0.0).then(|| fabs(atan2(norm(cross), dot)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::PointMm;
    use proptest::prelude::*;

    type V = [f64; 3];

    fn between(then: &Placement, now: &Placement) -> Option<Moved> {
        Moved::between(then, now, CURVATURE)
    }

    fn add(a: V, b: V, s: f64) -> V {
        std::array::from_fn(|i| a[i] + s * b[i])
    }

    fn dot(a: V, b: V) -> f64 {
        a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
    }

    fn unit(a: V) -> V {
        a.map(|x| x / norm(a))
    }

    fn cross(a: V, b: V) -> V {
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    }

    /// Points of the surface of a cylinder: rings from the platform to its end, each filled.
    fn surface(platform: V, axis: V, depth: f64, radius: f64) -> Vec<V> {
        let axis = unit(axis);
        let helper = if axis[0].abs() < 0.7 {
            [1.0, 0.0, 0.0]
        } else {
            [0.0, 1.0, 0.0]
        };
        let u = unit(cross(axis, helper));
        let v = cross(axis, u);
        let mut points = Vec::new();
        for ring in 0..=12 {
            let centre = add(platform, axis, depth * f64::from(ring) / 12.0);
            for n in 0..48 {
                let (s, c) = libm::sincos(f64::from(n) * std::f64::consts::TAU / 48.0);
                for share in [0.0, 0.5, 1.0] {
                    points.push(add(
                        add(centre, u, c * radius * share),
                        v,
                        s * radius * share,
                    ));
                }
            }
        }
        points
    }

    /// The distance of a point from a solid cylinder, in closed form.
    fn from_cylinder(platform: V, axis: V, (depth, radius): (f64, f64), q: V) -> f64 {
        let w = add(q, platform, -1.0);
        let z = dot(w, unit(axis));
        let aside = sqrt((dot(w, w) - z * z).max(0.0));
        hypot((-z).max(z - depth).max(0.0), (aside - radius).max(0.0))
    }

    /// The depth of a half-space's face below the nearest point of a cylinder: p·n ≥ c is inside.
    fn from_face(points: &[V], n: V, c: f64) -> f64 {
        points
            .iter()
            .map(|p| c - dot(*p, n))
            .fold(f64::INFINITY, f64::min)
    }

    fn um(mm: f64) -> Length {
        #[expect(clippy::cast_possible_truncation, reason = "a few millimetres")]
        Length::from_um((mm * 1000.0).round() as i64)
    }

    fn round(v: V) -> V {
        v.map(|x| um(x).mm())
    }

    fn rounded((depth, radius): (f64, f64)) -> (f64, f64) {
        (um(depth).mm(), um(radius).mm())
    }

    fn measured((platform, axis): (V, V)) -> Placement {
        let [x_mm, y_mm, z_mm] = platform.map(um);
        let [x, y, z] = axis.map(um);
        Placement::Measured {
            platform: PointMm { x_mm, y_mm, z_mm },
            direction: Vector { x, y, z },
        }
    }

    fn on_arch([along, out]: [f64; 2], [distal, buccal]: [i32; 2]) -> Placement {
        Placement::OnArch {
            at: "36".parse().unwrap(),
            along_mm: um(along),
            buccal_mm: um(out),
            apex_to_distal_deg: Angle::from_millideg(distal),
            apex_to_buccal_deg: Angle::from_millideg(buccal),
        }
    }

    /// The same on a round arch about the origin, its place along it counted from the x axis; z is up,
    /// apical.
    fn in_space(placement: &Placement, radius: f64, z: f64) -> (V, V) {
        let &Placement::OnArch {
            along_mm,
            buccal_mm,
            apex_to_distal_deg,
            apex_to_buccal_deg,
            ..
        } = placement
        else {
            panic!()
        };
        let (s, c) = libm::sincos(along_mm.mm() / radius);
        let (out, distal) = ([c, s, 0.0], [-s, c, 0.0]);
        let [x, y, _] = out.map(|part| part * (radius + buccal_mm.mm()));
        let axis = add(
            add([0.0, 0.0, 1.0], distal, tan(apex_to_distal_deg.radians())),
            out,
            tan(apex_to_buccal_deg.radians()),
        );
        ([x, y, z], axis)
    }

    fn vector(size: f64) -> impl Strategy<Value = V> {
        [-size..size, -size..size, -size..size]
    }

    /// Both placements on a round arch, the second at the level of a crest of that slope.
    fn on_round_arch(a: &Placement, b: &Placement, radius: f64, slope: f64) -> ((V, V), (V, V)) {
        let then = in_space(a, radius, 0.0);
        let aside = norm(add(in_space(b, radius, 0.0).0, then.0, -1.0));
        (then, in_space(b, radius, slope * aside))
    }

    /// Nothing that the sampled body comes nearer to, point or half-space, is lost beyond the bound.
    fn holds(then: (V, V), now: (V, V), size: (f64, f64), seen: (V, V), moved: Moved) {
        let (depth, radius) = size;
        let Some(taken) = moved.takes(um(depth), um(radius)) else {
            return;
        };
        let taken = taken.mm() + 1e-9;
        let (q, n) = seen;
        let left = |(p, axis): (V, V)| from_cylinder(p, axis, size, q);
        assert!(
            left(now) >= left(then) - taken,
            "a point: {} then {}",
            left(then),
            left(now)
        );
        // The rings are sampled: what lies between two samples is no farther out than this.
        let between = radius * (1.0 - libm::cos(std::f64::consts::PI / 48.0)) + 1e-9;
        let n = unit(n);
        let face = |(p, axis): (V, V)| from_face(&surface(p, axis, depth, radius), n, 30.0);
        assert!(face(now) + between >= face(then) - taken, "a half-space");
    }

    proptest! {
        #[test]
        fn no_body_that_moved_comes_nearer_than_the_bound(
            platform in vector(5.0),
            axis in vector(20.0).prop_filter("an axis", |v| norm(*v) > 2.0),
            by in vector(0.5),
            lean in vector(0.6),
            size in (1.0..16.0f64, 0.5..3.0f64),
            q in vector(20.0),
            n in vector(1.0).prop_filter("a normal", |v| norm(*v) > 0.1),
        ) {
            let then = (round(platform), round(axis));
            let now = (round(add(platform, by, 1.0)), round(add(axis, lean, 1.0)));
            let moved = between(&measured(then), &measured(now)).unwrap();
            holds(then, now, rounded(size), (q, n), moved);
        }

        /// Where shift and turn go one way, towards what is there, nearly all of the bound is taken.
        #[test]
        fn nor_one_that_moved_straight_towards_it(
            platform in vector(5.0),
            axis in vector(20.0).prop_filter("an axis", |v| norm(*v) > 2.0),
            aside in vector(1.0).prop_filter("a direction", |v| norm(*v) > 0.1),
            by in 0.0..0.3f64,
            lean in 0.0..0.05f64,
            depth in 5.0..16.0f64,
        ) {
            let n = cross(unit(axis), unit(aside));
            prop_assume!(norm(n) > 0.1);
            let n = unit(n);
            let then = (round(platform), round(axis));
            let now = (
                round(add(platform, n, by)),
                round(add(axis, n, lean * norm(axis))),
            );
            let size = rounded((depth, 0.5));
            let moved = between(&measured(then), &measured(now)).unwrap();
            let end = add(then.0, unit(then.1), depth);
            holds(then, now, size, (add(end, n, 8.0), n), moved);
        }

        /// On the arch: however round it is, down to the radius that is trusted, and whichever way the
        /// platform's level went with a crest of no more than 45°.
        #[test]
        fn nor_one_that_was_moved_on_an_arch(
            place in [-6.0..6.0f64, -3.0..3.0f64],
            by in [-0.6..0.6f64, -0.4..0.4f64],
            tilt in [-35_000..35_000i32, -35_000..35_000i32],
            lean in [-2_000..2_000i32, -2_000..2_000i32],
            radius in 10.0..60.0f64,
            slope in -1.0..1.0f64,
            size in (1.0..16.0f64, 0.5..3.0f64),
            q in vector(20.0),
            n in vector(1.0).prop_filter("a normal", |v| norm(*v) > 0.1),
        ) {
            let a = on_arch(place, tilt);
            let b = on_arch([place[0] + by[0], place[1] + by[1]], [tilt[0] + lean[0], tilt[1] + lean[1]]);
            let moved = between(&a, &b).unwrap();
            let (then, now) = on_round_arch(&a, &b, radius, slope);
            holds(then, now, rounded(size), (add(q, then.0, 1.0), n), moved);
        }

        /// The same straight towards what is there, upright and tilted, on the roundest arch and the
        /// steepest crest.
        #[test]
        fn nor_one_that_was_moved_on_the_roundest_arch(
            place in [-6.0..6.0f64, -3.0..3.0f64],
            by in [-0.4..0.4f64, -0.3..0.3f64],
            one_way in 0..2usize,
            tilt in [-35_000..35_000i32, -35_000..35_000i32],
            lean in 0..2i32,
            depth in 1.0..16.0f64,
        ) {
            let mut by = by;
            by[one_way] = 0.0;
            let tilt = tilt.map(|tilt| tilt * lean);
            let a = on_arch(place, tilt);
            let b = on_arch([place[0] + by[0], place[1] + by[1]], tilt);
            let moved = between(&a, &b).unwrap();
            let (then, now) = on_round_arch(&a, &b, 10.0, 1.0);
            let end = |(p, axis): (V, V)| add(p, unit(axis), depth);
            for went in [add(now.0, then.0, -1.0), add(end(now), end(then), -1.0)] {
                if norm(went) > 1e-6 {
                    let n = unit(went);
                    holds(then, now, rounded((depth, 0.5)), (add(end(then), n, 8.0), n), moved);
                }
            }
        }
    }

    /// Worked by hand: 0.3, 0.4 and 1.2 aside are 1.3 mm; 0.06, 0.08 and 0 are 0.1 mm. Half of that
    /// along an upright axis, whose tip at 12 mm with 5 mm of radius is 13 mm from the platform, and a
    /// turn of 2·asin(0.01) take 0.05 + 2·13·0.01 = 0.31 mm.
    #[test]
    fn a_shift_and_a_turn_add_up() {
        let upright = [0.0, 0.0, 10.0];
        let moved = |by: V, axis: V| {
            between(&measured(([0.0; 3], upright)), &measured((by, axis))).unwrap()
        };
        let at = |moved: Moved| moved.takes(Length::from_mm(12), Length::from_mm(5));
        assert_eq!(at(moved([0.3, 0.4, 1.2], upright)), None);
        assert_eq!(
            at(moved([0.06, 0.08, 0.0], upright)),
            Some(Length::from_um(101))
        );
        let turned = Moved {
            shift: 0.05,
            deeper: 0.05,
            turn: 2.0 * libm::asin(0.01),
        };
        assert_eq!(at(turned), Some(Length::from_um(311)));
        let crest = |mm| {
            Some(CrestDepth {
                highest_mm: um(mm),
                lowest_mm: um(mm),
            })
        };
        let sunk = turned.sunk(crest(1.0), crest(1.2)).unwrap();
        assert_eq!(at(sunk), Some(Length::from_um(511)));
        assert_eq!(turned.sunk(None, crest(1.0)), None);
    }

    #[test]
    fn another_tooth_or_another_way_of_placing_is_no_move() {
        let here = on_arch([0.0; 2], [0; 2]);
        let Placement::OnArch {
            along_mm,
            buccal_mm,
            apex_to_distal_deg,
            apex_to_buccal_deg,
            ..
        } = here
        else {
            panic!()
        };
        let next = Placement::OnArch {
            at: "37".parse().unwrap(),
            along_mm,
            buccal_mm,
            apex_to_distal_deg,
            apex_to_buccal_deg,
        };
        assert_eq!(between(&here, &next), None);
        assert_eq!(between(&here, &measured(([0.0; 3], [0.0, 0.0, 1.0]))), None);
    }
}
