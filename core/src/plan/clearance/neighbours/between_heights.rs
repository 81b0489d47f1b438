//! Two axes between the heights at which what lies between them was measured.

use super::PlacedSite;
use super::disagree::level_apart;
use super::least::height_of;
use crate::case::{Distance, Height};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::figure::{Figure, Known, Quantity, Reason};

/// What was measured from one site to another.
pub(super) type MeasuredFrom<'a> = (&'a PlacedSite<'a>, &'a PlacedSite<'a>, Vec<&'a Distance>);

/// A margin along two bodies that their least distance may break, though none that was measured does, is known at some
/// heights only.
pub(super) fn bounded(
    mut margin: Figure,
    measured: &[MeasuredFrom<'_>],
    limit: Option<Length>,
) -> Figure {
    let mut heights = measured.iter().flat_map(|(_, _, list)| list);
    let is_least = heights.any(|distance| distance.at == Height::Least);
    let (Known::Is(Quantity::Length(left)), Some(limit), false) = (&margin.value, limit, is_least)
    else {
        return margin;
    };
    let nearer = measured.iter().filter_map(nearer).min();
    if *left >= limit && nearer.is_none_or(|nearer| *left - nearer < limit) {
        margin.value = Known::Unknown(vec![Reason::SomeHeightsOnly(*left)]);
    }
    margin
}

/// How much nearer than by any of these measures two axes may be, from platform to apex; nothing where they are fewer than
/// two. Both axes are straight, so that the square of the distance from a point of the one to the other is a parabola along
/// it, as steep as the square of the sine of the angle between them, which is at most the sum of their tilts; and as that of a
/// point where the other one has ended.
fn nearer((from, to, list): &MeasuredFrom<'_>) -> Option<Length> {
    let tilt = |one: &PlacedSite<'_>| space::apical_tilt(one.cut.site, one.axis);
    let angle = tilt(from).zip(tilt(to)).map(|(a, b)| a + b);
    // Where nobody knows a tilt, any.
    let angle = angle.map_or(std::f64::consts::FRAC_PI_2, |angle| {
        angle.min(std::f64::consts::FRAC_PI_2)
    });
    let steep = libm::sin(angle) * libm::sin(angle);
    // Below the end of the other one it is that end which is nearest, and the parabola that of a point.
    let their_end = height_of(to, Height::Apex).mm() * libm::cos(angle);
    let their_end = their_end - level_apart(from, to).mm();
    let mut at: Vec<(f64, f64)> = list
        .iter()
        .map(|one| (height_of(from, one.at).mm(), one.from_axis_mm.mm()))
        .collect();
    at.sort_by(|a, b| a.0.total_cmp(&b.0));
    let squared: Vec<(f64, f64)> = at.iter().map(|(at, d)| (*at, d * d)).collect();
    let [first, second, ..] = squared[..] else {
        return None;
    };
    let end = height_of(from, Height::Apex).mm();
    let last_two = (squared[squared.len() - 2], squared[squared.len() - 1]);
    // Outside of two points it is no less than the line through them.
    let beyond = |(a, b): ((f64, f64), (f64, f64)), x: f64| {
        a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0).max(f64::EPSILON)
    };
    let outside = [beyond((first, second), 0.0), beyond(last_two, end)];
    let inside = squared.windows(2).map(|two| {
        let ((a, at_a), (b, at_b)) = (two[0], two[1]);
        let steep = if b > their_end { 1.0 } else { steep };
        let (bow, rise) = (steep * (b - a) * (b - a), at_b - at_a);
        let share = if bow > 0.0 {
            (0.5 - rise / (2.0 * bow)).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let least = at_a + rise * share - bow * share * (1.0 - share);
        least.min(at_a).min(at_b)
    });
    let least = inside.chain(outside).fold(f64::INFINITY, f64::min);
    let measured = at.iter().map(|(_, d)| *d).fold(f64::INFINITY, f64::min);
    let nearer = measured - libm::sqrt(least.max(0.0));
    // What floating point may have lost is far below this.
    Some(Length::ceil_mm((nearer - 1e-9).max(0.0)))
}
