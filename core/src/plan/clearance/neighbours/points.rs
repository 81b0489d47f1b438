//! What was measured along a site's axis as points on it, and a margin of which these are not the whole.

use super::PlacedSite;
use super::least::{height_of, reaches};
use crate::case::{Distance, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::depth::stale::stale_distance;
use crate::plan::figure::{Figure, Known, Quantity, Reason};

/// Pieces of an axis on each of which the widest radius in it counts (no source): fewer leave more unknown, never less.
pub(super) const PIECES: u32 = 64;

/// A depth on an axis with what lies between there and a neighbour, mm, at least and at most: a move since it was measured
/// takes or gives something.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    pub(super) at: Height,
    pub(super) depth: f64,
    pub(super) least: f64,
    pub(super) most: f64,
}

/// The points of those distances that count still, by their depth; to another site or to what stands there.
pub(super) fn points<'a>(
    from: &PlacedSite<'_>,
    to: Option<&PlacedSite<'_>>,
    measured: impl IntoIterator<Item = &'a Distance>,
) -> Vec<Point> {
    let as_it_is = |one: &Distance| {
        let other = to.map(|to| &to.cut.site);
        let moved = match stale_distance(&from.cut.site, other, one) {
            None => Length::ZERO,
            Some(stale) => stale.takes(&reaches(from, to, one))?,
        };
        Some(Point {
            at: one.at,
            depth: height_of(from, one.at).mm(),
            least: (one.from_axis_mm - moved).max(Length::ZERO).mm(),
            most: (one.from_axis_mm + moved).mm(),
        })
    };
    in_order(measured.into_iter().filter_map(as_it_is))
}

/// Points by their depth: of two at one depth the lesser counts, at most the greater.
pub(super) fn in_order(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut points: Vec<Point> = points.collect();
    points.sort_by(|a, b| a.depth.total_cmp(&b.depth));
    points.dedup_by(|later, one| {
        let same = later.depth <= one.depth;
        if same {
            one.least = one.least.min(later.least);
            one.most = one.most.max(later.most);
        }
        same
    });
    points
}

/// The depths on a site's axis at which what was measured at the crest may have been: at the platform, or where it passes the
/// crest, which is coronal of a platform below it.
pub(super) fn crest_at(one: &PlacedSite<'_>) -> Vec<f64> {
    let tilt = space::apical_tilt(one.cut.site, one.axis).unwrap_or_default();
    let crest = one.cut.site.site.heights.platform_below_crest;
    let crest = crest.map(|crest| [crest.highest_mm, crest.lowest_mm]);
    let along = crest.into_iter().flatten();
    let along = along.map(|below| -below.mm() / libm::cos(tilt).max(0.1));
    std::iter::once(0.0).chain(along).collect()
}

/// A margin that keeps its limit where it was measured, and that the least along the axis may break, is known at those heights
/// only; so is one of which nobody can say that least.
pub(super) fn unless_least_breaks(
    mut margin: Figure,
    limit: Option<Length>,
    least: impl FnOnce() -> Option<Length>,
) -> Figure {
    let (Known::Is(Quantity::Length(left)), Some(limit)) = (&margin.value, limit) else {
        return margin;
    };
    let left = *left;
    if left < limit {
        return margin;
    }
    let reason = match least() {
        Some(least) if least >= limit => return margin,
        Some(least) => Reason::BetweenHeights {
            least: least.min(left),
            measured: left,
        },
        None => Reason::SomeHeightsOnly(left),
    };
    margin.value = Known::Unknown(vec![reason]);
    margin
}
