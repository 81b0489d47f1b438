//! Distances between two sites that cannot all be true.

use super::PlacedSite;
use super::least::{height_of, reaches};
use super::pair::measured_axes;
use super::points::crest_at;
use crate::case::{DistanceTo, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::depth::stale::stale_distance;

/// The most by which two measures of one distance may differ. Source: common practice, no source;
/// each is read on a slice of its own, at a height of its own implant.
pub(super) const ALIKE: Length = Length::from_um(1000);

/// What a distance is by one measure.
#[derive(Debug, Clone, Copy)]
struct Given {
    /// The least that it can have been read as, and the most: they differ only by coordinates, which
    /// leave open how it was measured from an axis to one that leans.
    least: Length,
    most: Length,
    /// The most that moves since can have changed it by.
    moved: Length,
}

/// A distance that was entered.
struct Entered<'a> {
    from: &'a PlacedSite<'a>,
    to: &'a PlacedSite<'a>,
    at: Height,
    given: Given,
}

/// Two distances, the lesser first, and what they may differ by.
type Candidate = (Given, Given, Length);

/// The least and the greatest of the distances between two axes that cannot both be true, moves since
/// taken off. All that was entered between the two counts, at whichever of them, and what measured axes
/// say: for one height, the least and another that is less, or at two heights and farther from each
/// other than the axes can run apart between them.
pub(super) fn disagreement(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Option<(Length, Length)> {
    let all: Vec<Entered<'_>> = entered(a, b).chain(entered(b, a)).collect();
    let rise = rise(a, b);
    let apart = level_apart(a, b);
    let two = all.iter().enumerate().flat_map(|(n, one)| {
        let others = all.iter().enumerate().filter(move |(m, _)| *m != n);
        others.filter_map(move |(_, other)| {
            let allowed = allowed(one, other, rise, apart)?;
            Some((one.given, other.given, allowed))
        })
    });
    let by_axes = all.iter().filter_map(|one| {
        let to = if std::ptr::eq(one.from, a) { b } else { a };
        Some((one.given, by_axes(one.from, to, one.at)?))
    });
    let by_axes = by_axes.flat_map(|(one, axes)| [(one, axes, ALIKE), (axes, one, ALIKE)]);
    let by = |(less, more, allowed): &Candidate| {
        (more.least - more.moved) - (less.most + less.moved) - *allowed
    };
    two.chain(by_axes)
        .filter(|one| by(one) > Length::ZERO)
        .max_by_key(by)
        .map(|(less, more, _)| (less.most, more.least))
}

/// What the first may be less than the second by; nothing where it may be by anything. Heights are each of
/// its own implant, its crest where its platform is, or where its axis passes the crest. The least over the length is no less than
/// what lies at any height at which there is the other implant: beyond its ends its axis alone goes on, as near as it may.
fn allowed(
    less: &Entered<'_>,
    more: &Entered<'_>,
    rise: Option<f64>,
    apart: Length,
) -> Option<Length> {
    let off = match (less.at, more.at) {
        // The crest between two sites is one.
        (Height::Crest, Height::Crest) => return Some(ALIKE + slant(more, rise)),
        (Height::Crest, Height::Least) => {
            let down = Length::ceil_mm(down_to_both(less, apart)?.mm() * rise?);
            return Some(ALIKE + slant(less, rise) + down);
        }
        (Height::Least, Height::Least) => return Some(ALIKE),
        (_, Height::Least) => return is_beside(less, apart).then_some(ALIKE),
        (Height::Least, _) => return None,
        (Height::Crest, _) => off_crest(more),
        (_, Height::Crest) => off_crest(less),
        _ => {
            let off = height_of(less.from, less.at) - height_of(more.from, more.at);
            let is_one = std::ptr::eq(less.from, more.from);
            off.abs() + if is_one { Length::ZERO } else { apart }
        }
    };
    let ways = ALIKE + slant(more, rise) + to_its_end(more, apart);
    if off == Length::ZERO {
        return Some(ways);
    }
    Some(Length::ceil_mm(off.mm() * rise?) + ways)
}

/// How far a platform is below the crest: where that is most coronal and most apical; none where nobody entered it.
fn below_crest(one: &PlacedSite<'_>) -> impl Iterator<Item = Length> {
    let crest = one.cut.site.site.heights.platform_below_crest;
    let crest = crest.map(|crest| [crest.highest_mm, crest.lowest_mm]);
    crest.into_iter().flatten()
}

/// How far a height is off where the crest was read, at most.
fn off_crest(one: &Entered<'_>) -> Length {
    let height = height_of(one.from, one.at);
    let by_crest = below_crest(one.from).map(|below| (height + below).abs());
    by_crest.fold(height, Length::max)
}

/// How far below the crest both implants begin, at most; nothing where the one may end above the other.
fn down_to_both(crest: &Entered<'_>, apart: Length) -> Option<Length> {
    let both = [crest.from, crest.to];
    let go_on = both.iter().all(|one| {
        let end = one.cut.site.implant.platform_to_apex_mm.mm();
        tilt(one).is_some_and(|tilt| apart.mm() <= end * libm::cos(tilt))
    });
    let below = both.into_iter().flat_map(below_crest);
    go_on.then(|| below.fold(Length::ZERO, Length::max))
}

/// The depths on the other axis between which the foot of what was read lies. Of a level distance to an axis the sine of its tilt
/// lies along it, so that the foot is off the depth of the same level by the tangent of what lies straight between them, at most;
/// where a tilt is unknown it is told as of upright ones.
fn foot(one: &Entered<'_>, apart: Length) -> (f64, f64) {
    let [own, other] = [one.from, one.to].map(|one| tilt(one).unwrap_or_default());
    let read = (one.given.most + one.given.moved).mm();
    let (height, apart) = (height_of(one.from, one.at).mm(), apart.mm());
    let (cosine, aside) = (libm::cos(other), read * libm::tan(other));
    let least = (height * libm::cos(own) - apart) / cosine - aside;
    (least, (height + apart) / cosine + aside)
}

/// What a distance may be more for having been measured to an end of the other implant, off which its foot lies: it
/// then is the long side of a triangle.
fn to_its_end(more: &Entered<'_>, apart: Length) -> Length {
    if more.at == Height::Crest {
        return Length::ZERO;
    }
    let end = more.to.cut.site.implant.platform_to_apex_mm.mm();
    let (least, most) = foot(more, apart);
    let beyond = (most - end).max(-least).max(0.0);
    let read = more.given.most.mm();
    let level = libm::sqrt((read * read - beyond * beyond).max(0.0));
    Length::ceil_mm(read - level)
}

/// True if a height of the one implant is one of the other for certain. Nobody can say where a tilt is unknown. A foot that is
/// no more than a millimetre above the other platform is no more than that farther from it.
fn is_beside(one: &Entered<'_>, apart: Length) -> bool {
    let are_known = [one.from, one.to]
        .into_iter()
        .all(|one| tilt(one).is_some());
    let end = one.to.cut.site.implant.platform_to_apex_mm.mm();
    let (least, most) = foot(one, apart);
    are_known && least >= -ALIKE.mm() && most <= end
}

/// What one distance may be more than another of the same height since the one is read level and the other across an axis
/// that leans: it grows by the inverse cosine, and lies as much deeper on the other axis as the point of the leaning one is
/// less deep. Nothing where a tilt is unknown.
fn slant(more: &Entered<'_>, rise: Option<f64>) -> Length {
    let Some(rise) = rise else {
        return Length::ZERO;
    };
    let inverse_cosine = libm::hypot(1.0, rise);
    let longer = more.given.most.mm() * (inverse_cosine - 1.0);
    let deeper = height_of(more.from, more.at).mm() * (1.0 - 1.0 / inverse_cosine) * rise;
    Length::ceil_mm(longer + deeper)
}

/// The tilt of an axis, less than a right angle, radians.
fn tilt(one: &PlacedSite<'_>) -> Option<f64> {
    let tilt = space::apical_tilt(one.cut.site, one.axis);
    tilt.filter(|tilt| *tilt < std::f64::consts::FRAC_PI_2)
}

/// How much farther apart two axes are per millimetre on: no more than the tangent of the angle between
/// them, which is at most the sum of their tilts. Nothing where a tilt is unknown.
fn rise(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Option<f64> {
    let angle = tilt(a).zip(tilt(b)).map(|(a, b)| a + b);
    angle
        .filter(|angle| *angle < std::f64::consts::FRAC_PI_2)
        .map(libm::tan)
}

/// How much deeper the one platform is than the other: by coordinates, else below a crest that is taken to
/// be level between them; none where a depth is unknown.
pub(super) fn level_apart(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Length {
    if let Some((a, b)) = measured_axes(a, b) {
        return Length::ceil_mm(libm::fabs(a.platform[2] - b.platform[2]));
    }
    let depth = |one: &PlacedSite<'_>| one.cut.site.site.heights.platform_below_crest;
    let both = depth(a).zip(depth(b));
    both.map_or(Length::ZERO, |(a, b)| (a.highest_mm - b.highest_mm).abs())
}

/// What was measured from one to the other and counts still.
fn entered<'a>(
    from: &'a PlacedSite<'a>,
    to: &'a PlacedSite<'a>,
) -> impl Iterator<Item = Entered<'a>> {
    let other = DistanceTo::Site {
        site: to.cut.site.site.id.clone(),
    };
    let distances = from.cut.site.site.distances.iter();
    distances
        .filter(move |distance| distance.to == other)
        .filter_map(|distance| {
            let moved = match stale_distance(&from.cut.site, Some(&to.cut.site), distance) {
                None => Length::ZERO,
                Some(stale) => stale.takes(&reaches(from, Some(to), distance))?,
            };
            let given = Given {
                least: distance.from_axis_mm,
                most: distance.from_axis_mm,
                moved,
            };
            let at = distance.at;
            Some(Entered {
                from,
                to,
                at,
                given,
            })
        })
}

/// What the axes say of it, where both were measured.
fn by_axes(from: &PlacedSite<'_>, to: &PlacedSite<'_>, at: Height) -> Option<Given> {
    let (from_axis, to_axis) = measured_axes(from, to)?;
    let end = |one: &PlacedSite<'_>| one.cut.site.implant.platform_to_apex_mm.mm();
    let depth = |one: &PlacedSite<'_>| height_of(one, at).mm();
    let ways = |own: f64, same_height: f64| {
        let point = space::at_depth(&from_axis, own);
        let stretch = (same_height.min(0.0), end(to));
        space::ways_to_axis(point, &from_axis, &to_axis, same_height, stretch)
    };
    let (least, most) = match at {
        Height::Least => {
            let apart = space::segment_distance(&from_axis, end(from), &to_axis, end(to));
            (apart, apart)
        }
        Height::Mid | Height::Apex => ways(depth(from), depth(to)),
        // At the platform, or where the axis passes the crest.
        Height::Crest => {
            let all = crest_at(from).into_iter().map(|at| ways(at, at));
            let beside = space::beside_each_other(&from_axis, &to_axis);
            all.fold((beside, 0.0), |(least, most), one| {
                (least.min(one.0), f64::max(most, one.1))
            })
        }
    };
    let least = Length::floor_mm(least);
    let most = match at {
        Height::Least => least,
        // What the floating point itself may have lost is far below this.
        _ => Length::ceil_mm(most - 1e-9),
    };
    Some(Given {
        least,
        most,
        moved: Length::ZERO,
    })
}
