//! Two implants at random places, by what an honest person reads between them, against their least distance by geometry.

use super::super::sample::{mm, one};
use super::heights::{below_crest_at, bodies, implant, limit_of_bodies, measured, measured_from};
use super::implants::{disagree, lean};
use proptest::prelude::*;
use traywright_core::case::{Case, Height, Placement, PointMm, Vector};
use traywright_core::plan::Verdict;

type Vec3 = [f64; 3];

fn plus(a: Vec3, b: Vec3, times: f64) -> Vec3 {
    std::array::from_fn(|i| a[i] + times * b[i])
}

fn dot(a: Vec3, b: Vec3) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn apart(a: Vec3, b: Vec3) -> f64 {
    let between = plus(a, b, -1.0);
    dot(between, between).sqrt()
}

/// An implant's axis: z is deeper, 0 at the crest, which is level.
#[derive(Debug, Clone, Copy)]
struct Truth {
    platform: Vec3,
    down: Vec3,
    below_crest: f64,
    long: f64,
    tilt_deg: f64,
}

impl Truth {
    fn at(&self, depth: f64) -> Vec3 {
        plus(self.platform, self.down, depth)
    }

    /// The least from a point to the stretch from platform to apex.
    fn from(&self, point: Vec3) -> f64 {
        let along = dot(plus(point, self.platform, -1.0), self.down);
        apart(point, self.at(along.clamp(0.0, self.long)))
    }

    fn at_crest(&self) -> Vec3 {
        self.at(-self.below_crest / self.down[2])
    }
}

/// At `aside` mm from the first, leaning any way.
fn any_axis(aside: std::ops::RangeInclusive<f64>) -> impl Strategy<Value = Truth> {
    let tilt = prop_oneof![Just(0_u32), 0..=250_u32];
    let long = prop_oneof![Just(8_000_u32), 6_000..=14_000_u32];
    (
        aside,
        0..=4_000_u32,
        tilt,
        0.0..=std::f64::consts::TAU,
        long,
    )
        .prop_map(|(aside, below, tilt, way, long)| {
            let below_crest = f64::from(below) / 1000.0;
            let tilt_deg = f64::from(tilt) / 10.0;
            let (sin, cos) = tilt_deg.to_radians().sin_cos();
            Truth {
                platform: [aside, 0.0, below_crest],
                down: [sin * way.cos(), sin * way.sin(), cos],
                below_crest,
                long: f64::from(long) / 1000.0,
                tilt_deg,
            }
        })
}

fn text(mm: f64) -> String {
    format!("{mm:.3}")
}

/// What is read from one to the other at a height: level at the crest, else straight to the nearest point.
fn read(from: &Truth, to: &Truth, at: Height) -> f64 {
    match at {
        Height::Crest => apart(from.at_crest(), to.at_crest()),
        Height::Mid => to.from(from.at((from.long * 500.0).floor() / 1000.0)),
        Height::Apex | Height::Least => to.from(from.at(from.long)),
    }
}

/// The least between the two axes, from platform to apex.
fn least(a: &Truth, b: &Truth) -> f64 {
    let over = |one: &Truth, other: &Truth| {
        (0..=4000)
            .map(|n| other.from(one.at(one.long * f64::from(n) / 4000.0)))
            .fold(f64::INFINITY, f64::min)
    };
    over(a, b)
}

fn entered(case: &mut Case, n: usize, truth: &Truth) {
    below_crest_at(&mut case.sites[n], &text(truth.below_crest));
    lean(&mut case.sites[n], &format!("{:.1}", truth.tilt_deg));
    let long = text(truth.long);
    implant(case, n, &format!("long {n}"), |one| {
        one.platform_to_apex_mm = mm(&long);
    });
}

/// The same by its coordinates, in a lower jaw.
fn at_coordinates(case: &mut Case, n: usize, truth: &Truth) {
    let superior = |[x, y, deeper]: Vec3| [x, y, -deeper].map(|one| mm(&text(one)));
    let ([x_mm, y_mm, z_mm], [x, y, z]) = (superior(truth.platform), superior(truth.down));
    case.sites[n].placement = Placement::Measured {
        platform: PointMm { x_mm, y_mm, z_mm },
        direction: Vector { x, y, z },
    };
}

/// Ways in which one reads from a point of an axis to another one.
#[derive(Debug, Clone, Copy)]
enum Way {
    /// Straight to the nearest point of the implant.
    Straight,
    /// Square to its axis, which goes on beyond the implant.
    Square,
    /// In a level slice, where the axis goes on beyond the implant.
    Level,
    /// In a slice across the axis that it is read from, the same.
    Across,
}

const WAYS: [Way; 4] = [Way::Straight, Way::Square, Way::Level, Way::Across];

/// What is read that way from one to the other at a height, to 0.1 mm; the least is that of both implants.
fn honest(from: &Truth, to: &Truth, at: Height, way: Way) -> String {
    let point = from.at(match at {
        Height::Mid => from.long / 2.0,
        Height::Crest => -from.below_crest / from.down[2],
        Height::Apex | Height::Least => from.long,
    });
    // Where the other axis passes a plane through the point.
    let passes = |normal: Vec3| {
        let through = dot(to.down, normal);
        apart(
            point,
            to.at(dot(plus(point, to.platform, -1.0), normal) / through),
        )
    };
    let read = match (at, way) {
        (Height::Least, _) => least(from, to),
        (Height::Crest, Way::Straight) | (_, Way::Level) => passes([0.0, 0.0, 1.0]),
        (_, Way::Straight) => to.from(point),
        (_, Way::Square) => passes(to.down),
        (_, Way::Across) => passes(from.down),
    };
    format!("{read:.1}")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: std::env::var("PAIRS").map_or(256, |n| n.parse().unwrap()), failure_persistence: None, ..ProptestConfig::default() })]

    /// What is read from one to another to 0.1 mm, at whichever heights of whichever of the two, contradicts nothing else that is.
    #[test]
    fn honest_distances_never_disagree(
        a in any_axis(0.0..=0.0),
        b in any_axis(5.5..=9.0),
        ways in prop::array::uniform8(prop::option::of(prop::sample::select(&WAYS[..]))),
        by_coordinates in any::<bool>(),
    ) {
        let heights = [Height::Crest, Height::Mid, Height::Apex, Height::Least];
        let from_each = [(0, &a, &b), (1, &b, &a)].into_iter();
        let each = from_each.flat_map(|(n, from, to)| heights.map(|at| (n, from, to, at)));
        let readings: Vec<(usize, Height, String)> = each
            .zip(ways)
            .filter_map(|((n, from, to, at), way)| Some((n, at, honest(from, to, at, way?))))
            .collect();
        let all: Vec<(usize, Height, &str)> =
            readings.iter().map(|(n, at, read)| (*n, *at, read.as_str())).collect();
        let sheet = measured_from(
            &all,
            |case| {
                entered(case, 0, &a);
                entered(case, 1, &b);
                if by_coordinates {
                    [a, b].iter().enumerate().for_each(|(n, one)| at_coordinates(case, n, one));
                }
            },
            |_| (),
        );
        prop_assert_eq!(disagree(&sheet), None, "{:?}", readings);
    }

    /// Whatever three heights say, or two of them: bodies that are nearer than the limit are never clear. 2.2 of each axis is
    /// implant or cut.
    #[test]
    fn bodies_nearer_than_the_limit_are_never_clear(
        a in any_axis(0.0..=0.0),
        b in any_axis(5.5..=9.0),
        leave_out in 0..4_usize,
    ) {
        let between = least(&a, &b) - 4.4;
        prop_assume!(between > 0.2);
        let heights = [Height::Crest, Height::Mid, Height::Apex];
        let readings: Vec<(Height, String)> = heights
            .into_iter()
            .enumerate()
            .filter(|(n, _)| *n != leave_out)
            .map(|(_, at)| (at, text(read(&a, &b, at))))
            .collect();
        let readings: Vec<(Height, &str)> =
            readings.iter().map(|(at, read)| (*at, read.as_str())).collect();
        // More than it leaves by what rounding to the micrometre may give.
        let limit = text(between + 0.004);
        let sheet = measured(&readings, |case| {
            entered(case, 0, &a);
            entered(case, 1, &b);
            limit_of_bodies(case, &limit);
        });
        prop_assert_ne!(bodies(&sheet), Verdict::Clear, "{} {:?}", limit, readings);
    }

    /// Whatever is read at the crest, or is the least over both bodies: platforms of which the level distance is less than the limit
    /// are never clear. Each neck takes 2.3.
    #[test]
    fn platforms_nearer_than_the_limit_are_never_clear(
        a in any_axis(0.0..=0.0),
        b in any_axis(5.5..=9.0),
        is_least in any::<bool>(),
    ) {
        let [ax, ay, _] = a.platform;
        let [bx, by, _] = b.platform;
        let between = (ax - bx).hypot(ay - by) - 4.6;
        prop_assume!(between > 0.2);
        let (at, found) = if is_least {
            (Height::Least, least(&a, &b))
        } else {
            (Height::Crest, read(&a, &b, Height::Crest))
        };
        let limit = text(between + 0.004);
        let sheet = measured(&[(at, &text(found))], |case| {
            entered(case, 0, &a);
            entered(case, 1, &b);
            let of_platforms = case.limits.neighbour_implant.as_mut();
            of_platforms.unwrap().limit_mm = mm(&limit);
        });
        let verdict = one(&sheet, "neighbour-implant").verdict;
        prop_assert_ne!(verdict, Verdict::Clear, "{} {:?} {}", limit, at, found);
    }
}
