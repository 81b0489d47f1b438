//! Distances between two sites that cannot all be true.

use super::PlacedSite;
use super::pair::measured_axes;
use crate::case::{DistanceTo, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::depth::stale::stale_distance;

/// The most by which two measures of one distance may differ. Source: common practice, no source;
/// each is read on a slice of its own, at a height of its own implant.
const ALIKE: Length = Length::from_um(1000);

/// The least and the greatest distance between two axes that were given for one height and differ by
/// more than measuring does.
pub(super) fn disagreement(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Option<(Length, Length)> {
    let worst = [Height::Crest, Height::Mid, Height::Apex, Height::Least]
        .into_iter()
        .filter_map(|at| {
            let given = || entered(a, b, at).chain(entered(b, a, at));
            let least = given().chain(by_axes(a, b, at)).min()?;
            let most = given().chain(by_axes(a, b, at)).max()?;
            given().next().map(|_| (least, most))
        })
        .max_by_key(|(least, most)| *most - *least)?;
    (worst.1 - worst.0 > ALIKE).then_some(worst)
}

/// What was measured from one to the other at a height and counts still.
fn entered<'a>(
    from: &'a PlacedSite<'a>,
    to: &'a PlacedSite<'a>,
    at: Height,
) -> impl Iterator<Item = Length> {
    let other = DistanceTo::Site {
        site: to.cut.site.site.id.clone(),
    };
    let distances = from.cut.site.site.distances.iter();
    distances
        .filter(move |distance| distance.to == other && distance.at == at)
        .filter(|distance| stale_distance(&from.cut.site, Some(&to.cut.site), distance).is_none())
        .map(|distance| distance.from_axis_mm)
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
