//! Distances between two sites that cannot all be true.

use super::PlacedSite;
use super::least::{height_of, reaches};
use super::pair::measured_axes;
use crate::case::{DistanceTo, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::depth::stale::stale_distance;

/// The most by which two measures of one distance may differ. Source: common practice, no source;
/// each is read on a slice of its own, at a height of its own implant.
pub(super) const ALIKE: Length = Length::from_um(1000);

/// A distance that was given, and the most that moves since can have changed it by.
type Given = (Length, Length);

/// Two distances, the lesser first, and what they may differ by.
type Candidate = (Given, Given, Length);

/// The least and the greatest of the distances between two axes that cannot both be true, moves since
/// taken off: given for one height, the least and another that is less, or at two heights and farther
/// from each other than the axes can run apart between them.
pub(super) fn disagreement(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Option<(Length, Length)> {
    let both = |at| entered(a, b, at).chain(entered(b, a, at));
    let apart =
        |(least, most, allowed): &Candidate| (most.0 - most.1) - (least.0 + least.1) - *allowed;
    let most_of = |(given, moved): &Given| *given + *moved;
    let least_of = |(given, moved): &Given| *given - *moved;
    let at_one_height = [Height::Crest, Height::Mid, Height::Apex, Height::Least]
        .into_iter()
        .filter_map(|at| {
            both(at).next()?;
            let all = || both(at).chain(by_axes(a, b, at).map(|apart| (apart, Length::ZERO)));
            let least = all().min_by_key(most_of)?;
            Some((least, all().max_by_key(least_of)?, ALIKE))
        });
    let elsewhere = ALONG.into_iter().flat_map(both).min_by_key(most_of);
    let closest = elsewhere.zip(both(Height::Least).max_by_key(least_of));
    let closest = closest.map(|(elsewhere, closest)| (elsewhere, closest, ALIKE));
    let candidates = at_one_height
        .chain(closest)
        .chain(along(a, b))
        .chain(along(b, a));
    candidates
        .filter(|one| apart(one) > Length::ZERO)
        .max_by_key(apart)
        .map(|(least, most, _)| (least.0, most.0))
}

/// The heights that name a place on an axis, from the platform on.
const ALONG: [Height; 3] = [Height::Crest, Height::Mid, Height::Apex];

/// Each two distances measured from one axis at two heights, lesser first, with what they may differ
/// by: the other axis runs away from it by no more than the tangent of the angle between them, which
/// is at most the sum of their tilts. Nothing where a tilt is unknown.
fn along<'a>(from: &'a PlacedSite<'a>, to: &'a PlacedSite<'a>) -> impl Iterator<Item = Candidate> {
    let tilt = |one: &PlacedSite<'_>| space::apical_tilt(one.cut.site, one.axis);
    let angle = tilt(from).zip(tilt(to)).map(|(a, b)| a + b);
    let rise = angle
        .filter(|angle| *angle < std::f64::consts::FRAC_PI_2)
        .map(libm::tan);
    let pairs = [(0, 1), (1, 2), (0, 2)].map(|(n, m)| (ALONG[n], ALONG[m]));
    let read = move |at| entered(from, to, at).map(move |distance| (height_of(from, at), distance));
    pairs.into_iter().flat_map(move |(upper, lower)| {
        read(upper).flat_map(move |(high, one)| {
            read(lower).filter_map(move |(low, other)| {
                let allowed = Length::ceil_mm((low - high).mm() * rise?) + ALIKE;
                Some((one.min(other), one.max(other), allowed))
            })
        })
    })
}

/// What was measured from one to the other at a height and counts still.
fn entered<'a>(
    from: &'a PlacedSite<'a>,
    to: &'a PlacedSite<'a>,
    at: Height,
) -> impl Iterator<Item = Given> {
    let other = DistanceTo::Site {
        site: to.cut.site.site.id.clone(),
    };
    let distances = from.cut.site.site.distances.iter();
    distances
        .filter(move |distance| distance.to == other && distance.at == at)
        .filter_map(|distance| {
            let moved = match stale_distance(&from.cut.site, Some(&to.cut.site), distance) {
                None => Length::ZERO,
                Some(stale) => stale.takes(&reaches(from, Some(to), distance))?,
            };
            Some((distance.from_axis_mm, moved))
        })
}

/// The same by the axes, where both were measured and the height names a place on both.
fn by_axes(a: &PlacedSite<'_>, b: &PlacedSite<'_>, at: Height) -> Option<Length> {
    let (axis_a, axis_b) = measured_axes(a, b)?;
    let end = |one: &PlacedSite<'_>| one.cut.site.implant.platform_to_apex_mm.mm();
    let apart = match at {
        Height::Crest => space::beside_each_other(&axis_a, &axis_b),
        Height::Least => space::segment_distance(&axis_a, end(a), &axis_b, end(b)),
        Height::Mid | Height::Apex => return None,
    };
    Some(Length::floor_mm(apart))
}
