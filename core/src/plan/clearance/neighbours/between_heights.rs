//! Two implants between the heights at which what lies between them was measured.

use super::PlacedSite;
use super::disagree::level_apart;
use super::least::height_of;
use super::points::{PIECES, Point, crest_at, in_order, points, unless_least_breaks};
use crate::case::{Distance, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::figure::Figure;

/// What was measured from one site to another.
pub(super) type MeasuredFrom<'a> = (&'a PlacedSite<'a>, &'a PlacedSite<'a>, Vec<&'a Distance>);

/// True if a distance is said to be the least over the length, and none of all that was measured between the two is less.
pub(super) fn is_the_least(one: &Distance, all: &[MeasuredFrom<'_>]) -> bool {
    let mut measured = all.iter().flat_map(|(_, _, list)| list);
    one.at == Height::Least && measured.all(|other| other.from_axis_mm >= one.from_axis_mm)
}

/// A margin along two bodies that their least distance may break, though none that was measured does, is known at some
/// heights only.
pub(super) fn bounded(
    margin: Figure,
    measured: &[MeasuredFrom<'_>],
    limit: Option<Length>,
) -> Figure {
    let mut all = measured.iter().flat_map(|(_, _, list)| list);
    if all.any(|distance| is_the_least(distance, measured)) {
        return margin;
    }
    // What is measured at either site bounds both.
    let least = || measured.iter().filter_map(least_between).max();
    unless_least_breaks(margin, limit, least)
}

/// The least that two bodies leave between them by what was measured along one of them, from its platform to its apex; nothing
/// where that are fewer than two distances, or a radius is unknown.
fn least_between(measured: &MeasuredFrom<'_>) -> Option<Length> {
    let (from, to, _) = measured;
    let squared = crest_at(from)
        .into_iter()
        .map(|crest| Squared::of(measured, crest))
        .collect::<Option<Vec<Squared>>>()?;
    let end = height_of(from, Height::Apex);
    let at = |piece: u32| end.mm() * f64::from(piece) / f64::from(PIECES);
    let of_piece = |piece: u32| {
        let (above, below) = (at(piece), at(piece + 1));
        let own = from.cut.radius_from(Length::floor_mm(above));
        let left = squared.iter().map(|squared| {
            let between = libm::sqrt(squared.least(above, below).max(0.0));
            // What is nearest to a part beyond its end is the end.
            let beside = squared.beside.least(above).clamp(0.0, squared.beside.end);
            let beside = Length::floor_mm(beside);
            let other = to.cut.radius_from(beside).known().get()?;
            Some(Length::floor_mm(between + 1e-9) - own.clone().known().get()? - other)
        });
        left.min_by_key(|left| left.unwrap_or(Length::from_um(i64::MIN)))?
    };
    let all: Option<Vec<Length>> = (0..PIECES).map(of_piece).collect();
    all?.into_iter().min()
}

/// Where the foot of a point of an axis is on another one, as depths below the platforms, mm.
#[derive(Debug, Clone, Copy)]
struct Beside {
    /// By how much it may be less deep or deeper than on the first for the lie of the two platforms.
    off: f64,
    /// The cosine of the most that may be between the axes.
    cosine: f64,
    /// The depth at which the other one ends.
    end: f64,
}

impl Beside {
    /// The platforms are as much deeper than each other as was entered, and as far aside as what was measured and both tilts leave
    /// at most: of that the sine of its tilt lies along the other axis.
    fn of(measured: &MeasuredFrom<'_>, counts: &[Point], crest: f64) -> Self {
        let (from, to, _) = measured;
        let tilts = [from, to].map(|one| space::apical_tilt(one.cut.site, one.axis));
        let [own, other] = tilts.map(|tilt| tilt.map(libm::sin));
        let end = height_of(to, Height::Apex).mm();
        let apart = level_apart(from, to).mm();
        let aside = counts.iter().map(|one| match one.at {
            Height::Crest => one.most + libm::fabs(crest) + apart,
            _ => one.most + one.depth * own.unwrap_or(1.0) + end * other.unwrap_or(1.0),
        });
        let aside = aside.fold(f64::INFINITY, f64::min);
        // Where nobody knows a tilt, any.
        let angle = between(tilts).unwrap_or(std::f64::consts::FRAC_PI_2);
        Self {
            off: apart + aside * other.unwrap_or(1.0),
            cosine: libm::cos(angle),
            end,
        }
    }

    /// The least deep that the foot of what lies at a depth may be, less than none above the platform.
    fn least(&self, depth: f64) -> f64 {
        depth.min(depth * self.cosine) - self.off
    }

    /// How far the foot of what lies at a depth may be beyond an end of the other one.
    fn beyond(&self, depth: f64) -> f64 {
        let most = depth.max(depth * self.cosine) + self.off;
        (-self.least(depth)).max(most - self.end).max(0.0)
    }

    /// The depths between which the other one is beside the first for certain.
    fn certain(&self) -> (f64, f64) {
        (self.off / self.cosine.max(1e-9), self.end - self.off)
    }
}

/// The most that may be between two axes of these tilts, radians.
fn between([own, other]: [Option<f64>; 2]) -> Option<f64> {
    let angle = own.zip(other).map(|(own, other)| own + other)?;
    Some(angle.min(std::f64::consts::FRAC_PI_2))
}

/// The square of the distance from the points of an axis to another one, by its depth on the first. Both are straight, so that
/// it is a parabola, as steep as the square of the sine of the angle between them, which is at most the sum of their tilts; and as that of
/// a point where the other one has ended.
struct Squared {
    /// What was measured, by depth: squares of millimetres.
    at: Vec<Point>,
    beside: Beside,
}

impl Squared {
    /// By what was measured, at the crest at this depth.
    fn of(measured: &MeasuredFrom<'_>, crest: f64) -> Option<Self> {
        let (from, to, list) = measured;
        let at_heights = list.iter().copied().filter(|one| one.at != Height::Least);
        let counts = points(from, Some(to), at_heights);
        let beside = Beside::of(measured, &counts, crest);
        // Read level at the crest it is more than straight to an axis that leans.
        let other = space::apical_tilt(to.cut.site, to.axis);
        let level = libm::cos(other.unwrap_or(std::f64::consts::FRAC_PI_2));
        let squared = |one: Point| {
            let (depth, least) = match one.at {
                Height::Crest => (crest, one.least * level),
                _ => (one.depth, one.least),
            };
            // Read to an axis that goes on it is less than to its end.
            let beyond = beside.beyond(depth);
            Point {
                depth,
                least: least * least,
                most: one.most * one.most + beyond * beyond,
                ..one
            }
        };
        // A platform above the crest may be so far above it that the crest is at mid-length.
        let at = in_order(counts.into_iter().map(squared));
        (at.len() > 1).then_some(Self { at, beside })
    }

    /// The least from one depth to another.
    fn least(&self, above: f64, below: f64) -> f64 {
        let two = self.at.windows(2);
        let between = two.filter(|two| two[0].depth < below && two[1].depth > above);
        let between = between.map(|two| {
            let (above, below) = (above.max(two[0].depth), below.min(two[1].depth));
            self.inside((two[0], two[1]), (above, below))
        });
        let (first, second) = (self.at[0], self.at[1]);
        let (before, last) = (self.at[self.at.len() - 2], self.at[self.at.len() - 1]);
        // Outside of two points it is no less than the line through them, as steep as it may be.
        let beyond = |near: Point, far: Point, x: f64| {
            line((near.depth, near.least), (far.depth, far.most), x)
        };
        let outside = [
            (above < first.depth).then(|| {
                let end = below.min(first.depth);
                beyond(first, second, above).min(beyond(first, second, end))
            }),
            (below > last.depth).then(|| {
                let end = above.max(last.depth);
                beyond(last, before, below).min(beyond(last, before, end))
            }),
        ];
        between
            .chain(outside.into_iter().flatten())
            .fold(f64::INFINITY, f64::min)
    }

    /// The least between two points of it, from one depth to another.
    fn inside(&self, (first, second): (Point, Point), (above, below): (f64, f64)) -> f64 {
        let (first, second) = ((first.depth, first.least), (second.depth, second.least));
        let of_steep = |steep: f64| {
            let value = |x: f64| line(first, second, x) - steep * (x - first.0) * (second.0 - x);
            let rise = (second.1 - first.1) / (second.0 - first.0);
            let lowest = if steep > 0.0 {
                f64::midpoint(first.0, second.0) - rise / (2.0 * steep)
            } else {
                above
            };
            value(above)
                .min(value(below))
                .min(value(lowest.clamp(above, below)))
        };
        // What the parts beyond the ends of the other one take, or all of it as of a point: whichever is less.
        let (theirs, their_end) = self.beside.certain();
        let steep = 1.0 - self.beside.cosine * self.beside.cosine;
        let before = (second.0.min(theirs) - first.0).max(0.0);
        let beyond = (second.0 - first.0.max(their_end)).max(0.0);
        let by_part = of_steep(steep) - (1.0 - steep) * (before * before + beyond * beyond);
        by_part.max(of_steep(1.0))
    }
}

/// The height at a depth of the line through two points.
fn line(a: (f64, f64), b: (f64, f64), x: f64) -> f64 {
    a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0)
}
