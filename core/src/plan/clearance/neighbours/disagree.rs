//! Distances between two sites that cannot all be true.

use super::PlacedSite;
use super::least::reaches;
use super::pair::measured_axes;
use crate::case::{DistanceTo, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::depth::stale::stale_distance;

/// The most by which two measures of one distance may differ. Source: common practice, no source;
/// each is read on a slice of its own, at a height of its own implant.
const ALIKE: Length = Length::from_um(1000);

/// A distance that was given, and the most that moves since can have changed it by.
type Given = (Length, Length);

/// The least and the greatest distance between two axes that were given for one height and differ by
/// more than measuring and the moves since do.
pub(super) fn disagreement(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Option<(Length, Length)> {
    let apart = |least: &Given, most: &Given| (most.0 - most.1) - (least.0 + least.1);
    let worst = [Height::Crest, Height::Mid, Height::Apex, Height::Least]
        .into_iter()
        .filter_map(|at| {
            let given = || entered(a, b, at).chain(entered(b, a, at));
            given().next()?;
            let all = || given().chain(by_axes(a, b, at).map(|apart| (apart, Length::ZERO)));
            let least = all().min_by_key(|(apart, moved)| *apart + *moved)?;
            let most = all().max_by_key(|(apart, moved)| *apart - *moved)?;
            Some((least, most))
        })
        .max_by_key(|(least, most)| apart(least, most))?;
    (apart(&worst.0, &worst.1) > ALIKE).then_some((worst.0.0, worst.1.0))
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
