//! Two platforms, where what lies between them was not measured beside them.

use super::PlacedSite;
use super::between_heights::MeasuredFrom;
use super::disagree::level_apart;
use super::pair::measured_axes;
use super::points::{points, unless_least_breaks};
use crate::case::{Distance, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::figure::{Figure, Quantity};

/// A margin between two platforms that may be broken beside them, though not where it was measured, is known there only.
///
/// What is read level at the crest changes down to a platform that lies off it by as much as each axis leads aside on the way there:
/// that depth times the tangent of its tilt, where it was read along the axis a little less. The least over the length is no level distance: of two platforms that lie
/// this much off each other the level distance is the other side of a right triangle. Coordinates say by themselves what is beside them.
pub(super) fn bounded(
    margin: Figure,
    (a, b): (&PlacedSite<'_>, &PlacedSite<'_>),
    measured: &[MeasuredFrom<'_>],
    limit: Option<Length>,
) -> Figure {
    if measured_axes(a, b).is_some() {
        return margin;
    }
    let left = margin.value.get().and_then(Quantity::length);
    let least = || Some(left? - lost((a, b), measured)?);
    if least() == left {
        return margin;
    }
    unless_least_breaks(margin, limit, least)
}

/// The most that a level distance between the platforms may be below what was measured; nothing where a depth or a tilt is unknown
/// that it depends on.
fn lost(
    (a, b): (&PlacedSite<'_>, &PlacedSite<'_>),
    measured: &[MeasuredFrom<'_>],
) -> Option<Length> {
    let of_one = |(from, to, one): (&PlacedSite<'_>, &PlacedSite<'_>, &Distance)| match one.at {
        Height::Least => {
            // Of less that is straight more is lost: after a move of what that leaves.
            let left = points(from, Some(to), [one]).first()?.least;
            off_each_other((a, b), Length::floor_mm(left))
        }
        _ => Some(aside(a)? + aside(b)?),
    };
    let all = measured
        .iter()
        .flat_map(|(from, to, list)| list.iter().map(move |one| (*from, *to, *one)));
    let of_each: Option<Vec<Length>> = all.map(of_one).collect();
    Some(of_each?.into_iter().max().unwrap_or_default())
}

fn tilt(one: &PlacedSite<'_>) -> Option<f64> {
    space::apical_tilt(one.cut.site, one.axis)
}

/// How far a platform is aside of where its axis passes the crest, at most.
fn aside(one: &PlacedSite<'_>) -> Option<Length> {
    let tangent = tilt(one).filter(|tilt| *tilt < std::f64::consts::FRAC_PI_2);
    let tangent = tangent.map(libm::tan);
    if tangent == Some(0.0) {
        return Some(Length::ZERO);
    }
    let crest = one.cut.site.site.heights.platform_below_crest?;
    let most = crest.highest_mm.abs().max(crest.lowest_mm.abs());
    if most == Length::ZERO {
        return Some(most);
    }
    Some(Length::ceil_mm(most.mm() * tangent?))
}

/// What is lost of a straight distance between two platforms that lie off each other: nothing of two upright ones, of which
/// the least is level as long as each begins above the end of the other.
fn off_each_other((a, b): (&PlacedSite<'_>, &PlacedSite<'_>), straight: Length) -> Option<Length> {
    let off = level_apart(a, b);
    let goes_on = |one: &PlacedSite<'_>| off <= one.cut.site.implant.platform_to_apex_mm;
    if [a, b]
        .into_iter()
        .all(|one| tilt(one) == Some(0.0) && goes_on(one))
    {
        return Some(Length::ZERO);
    }
    let crest = |one: &PlacedSite<'_>| one.cut.site.site.heights.platform_below_crest;
    crest(a).zip(crest(b))?;
    let (straight_mm, off) = (straight.mm(), off.mm());
    let level = libm::sqrt((straight_mm * straight_mm - off * off).max(0.0));
    Some(straight - Length::floor_mm(level))
}
