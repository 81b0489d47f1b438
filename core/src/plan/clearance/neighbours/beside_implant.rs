//! A site beside an implant placed earlier, between the heights at which what lies between them was measured.

use super::PlacedSite;
use super::least::height_of;
use super::points::{PIECES, Point, crest_at, in_order, points, unless_least_breaks};
use crate::case::{Distance, Height};
use crate::measure::Length;
use crate::plan::figure::Figure;

/// A margin that may be broken between the heights that were measured, though at none of them, is known at those heights only.
///
/// An implant is straight and convex, so that what lies between it and the points of an axis is convex along that axis, and
/// changes by no more than one goes along it: of three distances each two bound what lies beyond them. Where the implant placed
/// earlier leans, or ends, nobody enters; what was read level at the crest counts as it was read, where the axis passes the crest. The least over the length, where it is that, needs no bound.
pub(super) fn bounded(
    margin: Figure,
    one: &PlacedSite<'_>,
    measured: &[&Distance],
    limit: Option<Length>,
) -> Figure {
    let closest = measured.iter().map(|distance| distance.from_axis_mm).min();
    let is_least = |distance: &&Distance| {
        distance.at == Height::Least && Some(distance.from_axis_mm) == closest
    };
    if measured.iter().any(is_least) {
        return margin;
    }
    unless_least_breaks(margin, limit, || least_along(one, measured))
}

/// The least that is left from platform to apex; nothing where fewer than two distances count, or a radius is unknown.
fn least_along(one: &PlacedSite<'_>, measured: &[&Distance]) -> Option<Length> {
    let by_crest = crest_at(one).into_iter();
    let all: Option<Vec<Length>> = by_crest
        .map(|crest| least_by_crest(one, measured, crest))
        .collect();
    all?.into_iter().min()
}

/// The same with what was read at the crest at this depth.
fn least_by_crest(one: &PlacedSite<'_>, measured: &[&Distance], crest: f64) -> Option<Length> {
    let at_heights = measured.iter().copied();
    let points = points(one, None, at_heights.filter(|one| one.at != Height::Least));
    let at_crest = |point: Point| match point.at {
        Height::Crest => Point {
            depth: crest,
            ..point
        },
        _ => point,
    };
    let points = in_order(points.into_iter().map(at_crest));
    if points.len() < 2 {
        return None;
    }
    let end = height_of(one, Height::Apex).mm();
    let at = |piece: u32| end * f64::from(piece) / f64::from(PIECES);
    let left = |piece: u32| {
        let (above, below) = (at(piece), at(piece + 1));
        let radius = one.cut.radius_from(Length::floor_mm(above)).known().get()?;
        Some(Length::floor_mm(between(&points, above, below) + 1e-9) - radius)
    };
    let all: Option<Vec<Length>> = (0..PIECES).map(left).collect();
    all?.into_iter().min()
}

/// The least that the distance can be from one depth to another.
fn between(points: &[Point], above: f64, below: f64) -> f64 {
    let over_both = |at: &dyn Fn(f64) -> f64| at(above).min(at(below));
    // One goes along the axis no farther than one comes nearer.
    let near = points
        .iter()
        .map(|point| over_both(&|x: f64| point.least - libm::fabs(x - point.depth)));
    // What is convex lies above the line through two points everywhere but between them.
    let beyond = points.windows(2).flat_map(|two| {
        let line = |near: Point, far: Point| {
            let rise = (near.least - far.most) / (near.depth - far.depth);
            over_both(&|x: f64| near.least + rise * (x - near.depth))
        };
        let before = (below <= two[0].depth).then(|| line(two[0], two[1]));
        let behind = (above >= two[1].depth).then(|| line(two[1], two[0]));
        before.into_iter().chain(behind)
    });
    near.chain(beyond).fold(0.0, f64::max)
}
