//! Two implants between the heights at which what lies between them was measured.

use super::PlacedSite;
use super::disagree::level_apart;
use super::least::height_of;
use super::points::{self, PIECES, unless_least_breaks};
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
    let apart = level_apart(from, to);
    let at = |piece: u32| end.mm() * f64::from(piece) / f64::from(PIECES);
    let of_piece = |piece: u32| {
        let (above, below) = (at(piece), at(piece + 1));
        let depth = Length::floor_mm(above);
        let other = (depth.min(height_of(to, Height::Apex)) - apart).max(Length::ZERO);
        let radii =
            from.cut.radius_from(depth).known().get()? + to.cut.radius_from(other).known().get()?;
        let least = squared.iter().map(|squared| squared.least(above, below));
        let between = libm::sqrt(least.fold(f64::INFINITY, f64::min).max(0.0));
        Some(Length::floor_mm(between + 1e-9) - radii)
    };
    let all: Option<Vec<Length>> = (0..PIECES).map(of_piece).collect();
    all?.into_iter().min()
}

/// The depths on a site's axis at which what was measured at the crest may have been: at the platform, or where it passes the
/// crest, which is coronal of a platform below it.
fn crest_at(one: &PlacedSite<'_>) -> Vec<f64> {
    let tilt = space::apical_tilt(one.cut.site, one.axis).unwrap_or_default();
    let crest = one.cut.site.site.heights.platform_below_crest;
    let crest = crest.map(|crest| [crest.highest_mm, crest.lowest_mm]);
    let along = crest.into_iter().flatten();
    let along = along.map(|below| -below.mm() / libm::cos(tilt).max(0.1));
    std::iter::once(0.0).chain(along).collect()
}

/// The square of the distance from the points of an axis to another one, by its depth on the first. Both are straight, so that
/// it is a parabola, as steep as the square of the sine of the angle between them, which is at most the sum of their tilts; and as that of
/// a point once the other one has ended.
struct Squared {
    /// What was measured, by depth.
    at: Vec<Point>,
    steep: f64,
    /// The depths between which the other one is beside it for certain.
    theirs: (f64, f64),
}

/// A depth on the axis with the square of what lies between there, at least and at most.
#[derive(Debug, Clone, Copy)]
struct Point {
    depth: f64,
    least: f64,
    most: f64,
}

impl Squared {
    /// By what was measured, at the crest at this depth.
    fn of((from, to, list): &MeasuredFrom<'_>, crest: f64) -> Option<Self> {
        let tilt = |one: &PlacedSite<'_>| space::apical_tilt(one.cut.site, one.axis);
        let (own, other) = (tilt(from), tilt(to));
        let angle = own.zip(other).map(|(a, b)| a + b);
        // Where nobody knows a tilt, any.
        let angle = angle.unwrap_or(std::f64::consts::FRAC_PI_2);
        let angle = angle.min(std::f64::consts::FRAC_PI_2);
        let at_heights = list.iter().copied().filter(|one| one.at != Height::Least);
        let counts = points::points(from, Some(to), at_heights);
        // Read level at the crest it is more than straight to an axis that leans.
        let level = libm::cos(other.unwrap_or(0.0));
        let squared = |one: points::Point| {
            let (depth, least) = match one.at {
                Height::Crest => (crest, one.least * level),
                _ => (one.depth, one.least),
            };
            Point {
                depth,
                least: least * least,
                most: one.most * one.most,
            }
        };
        let mut at: Vec<Point> = counts.into_iter().map(squared).collect();
        at.sort_by(|a, b| a.depth.total_cmp(&b.depth));
        let apart = level_apart(from, to).mm();
        let their_end = height_of(to, Height::Apex).mm() * libm::cos(angle);
        (at.len() > 1).then(|| Self {
            at,
            steep: libm::sin(angle) * libm::sin(angle),
            theirs: (apart, their_end - apart),
        })
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
        let (their_start, their_end) = self.theirs;
        let before = (second.0.min(their_start) - first.0.max(0.0)).max(0.0);
        let beyond = (second.0 - first.0.max(their_end)).max(0.0);
        let by_part =
            of_steep(self.steep) - (1.0 - self.steep) * (before * before + beyond * beyond);
        by_part.max(of_steep(1.0))
    }
}

/// The height at a depth of the line through two points.
fn line(a: (f64, f64), b: (f64, f64), x: f64) -> f64 {
    a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0)
}
