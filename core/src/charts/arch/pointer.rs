//! From a place in the mouth back to what the case holds of it.

use super::place::{on_chart, way};
use crate::case::Placement;
use crate::dentition::{ArchModel, ArchPoint, ToothPosition};
use crate::drawing::{Point, at};
use crate::measure::{Angle, Length};

/// A place on the arch, counted from a tooth position.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ArchSpot {
    /// The position.
    pub at: ToothPosition,
    /// From its middle along the arch towards distal.
    pub along_mm: Length,
    /// From the arch's curve towards buccal.
    pub buccal_mm: Length,
}

/// An arrow key: a way on the chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Arrow {
    Left,
    Right,
    Up,
    Down,
}

impl Arrow {
    const fn way(self) -> Point {
        match self {
            Self::Left => at(-1.0, 0.0),
            Self::Right => at(1.0, 0.0),
            Self::Up => at(0.0, -1.0),
            Self::Down => at(0.0, 1.0),
        }
    }
}

/// A hand moves things by whole steps of this.
const STEP: Length = Length::from_um(100);

/// Steps each way from a tooth position that a case can hold: 20 mm.
const REACH: i64 = 200;

/// The greatest tilt that a case can hold, degrees.
const STEEPEST: i32 = 60;

const fn dot(a: Point, b: Point) -> f64 {
    a.x * b.x + a.y * b.y
}

/// A whole number of steps as near to a length as a case can hold.
#[expect(clippy::cast_possible_truncation, reason = "at most the reach")]
fn in_steps(mm: f64) -> Length {
    let most = 20.0;
    let steps = (mm.clamp(-most, most) * 10.0).round() as i64;
    Length::from_um(steps * STEP.um())
}

/// Spot on the arch of a place of the mouth, as the chart shows it.
pub(super) fn spot(model: &ArchModel, from: ToothPosition, place: Point) -> Option<ArchSpot> {
    let jaw = model.jaw();
    let nearest = (-REACH..=REACH)
        .filter_map(|steps| {
            let along = Length::from_um(steps * STEP.um());
            let point = model.point_at(from, along, Length::ZERO)?;
            let off = place - on_chart(jaw, point.x_mm, point.y_mm);
            Some((along, point, off))
        })
        .min_by(|a, b| a.2.length().total_cmp(&b.2.length()));
    let (along_mm, point, off) = nearest?;
    Some(ArchSpot {
        at: from,
        along_mm,
        buccal_mm: in_steps(dot(off, way(jaw, point.buccal))),
    })
}

/// Spot and point of a placement on the arch; nothing for a measured one.
fn spot_and_point(model: &ArchModel, placement: Placement) -> Option<(ArchSpot, ArchPoint)> {
    let Placement::OnArch {
        at,
        along_mm,
        buccal_mm,
        ..
    } = placement
    else {
        return None;
    };
    let point = model.point_at(at, along_mm, buccal_mm)?;
    let spot = ArchSpot {
        at,
        along_mm,
        buccal_mm,
    };
    Some((spot, point))
}

/// With these tilts; nothing for a measured placement or beyond the steepest.
fn with_tilts(placement: Placement, distal: Angle, buccal: Angle) -> Option<Placement> {
    let steepest = Angle::from_deg(STEEPEST);
    let Placement::OnArch {
        at,
        along_mm,
        buccal_mm,
        ..
    } = placement
    else {
        return None;
    };
    (distal.abs() <= steepest && buccal.abs() <= steepest).then_some(Placement::OnArch {
        at,
        along_mm,
        buccal_mm,
        apex_to_distal_deg: distal,
        apex_to_buccal_deg: buccal,
    })
}

/// The whole degrees whose tangent is nearest to a slope, at most the steepest.
#[expect(clippy::cast_possible_truncation, reason = "at most sixty degrees")]
fn degrees_of(slope: f64) -> Angle {
    let degrees = libm::atan(slope).to_degrees().round() as i32;
    Angle::from_deg(degrees.clamp(-STEEPEST, STEEPEST))
}

/// Tilted so that the apex is seen at a place of the mouth.
///
/// Along an axis that leans by slopes d and b the apex lies L·(d, b)/√(1 + d² + b²) aside, so a
/// way aside of (u, v)·L belongs to the slopes (u, v)/√(1 − u² − v²).
pub(super) fn tilted(
    model: &ArchModel,
    placement: Placement,
    length_mm: f64,
    apex: Point,
) -> Option<Placement> {
    let jaw = model.jaw();
    let (_, point) = spot_and_point(model, placement)?;
    if length_mm <= 0.0 {
        return None;
    }
    let aside = (apex - on_chart(jaw, point.x_mm, point.y_mm)) * (1.0 / length_mm);
    // Beyond its own length no apex can be seen: it leans as far as it can that way.
    let aside = aside * (0.99 / aside.length().max(0.99));
    let (u, v) = (
        dot(aside, way(jaw, point.distal)),
        dot(aside, way(jaw, point.buccal)),
    );
    let upright = libm::sqrt(1.0 - u * u - v * v);
    with_tilts(placement, degrees_of(u / upright), degrees_of(v / upright))
}

/// The parts of an arrow along the arch and square to it: of the four ways exactly one is 1 or −1,
/// the one that comes nearest to the arrow.
fn by_arrow(model: &ArchModel, point: &ArchPoint, arrow: Arrow) -> (i64, i64) {
    let jaw = model.jaw();
    let (distal, buccal) = (way(jaw, point.distal), way(jaw, point.buccal));
    let sign = |part: f64| if part < 0.0 { -1 } else { 1 };
    let level = matches!(arrow, Arrow::Left | Arrow::Right);
    // Where the arch runs more across than up, the level arrows go along it.
    if (distal.x.abs() >= distal.y.abs()) == level {
        (sign(dot(distal, arrow.way())), 0)
    } else {
        (0, sign(dot(buccal, arrow.way())))
    }
}

/// A place moved by a step; nothing beyond what a case can hold.
pub(super) fn stepped(
    model: &ArchModel,
    spot: ArchSpot,
    arrow: Arrow,
    by: Length,
) -> Option<ArchSpot> {
    let most = Length::from_um(REACH * STEP.um());
    let point = model.point_at(spot.at, spot.along_mm, spot.buccal_mm)?;
    let (along, buccal) = by_arrow(model, &point, arrow);
    let moved = ArchSpot {
        at: spot.at,
        along_mm: spot.along_mm + Length::from_um(by.um() * along),
        buccal_mm: spot.buccal_mm + Length::from_um(by.um() * buccal),
    };
    (moved.along_mm.abs() <= most && moved.buccal_mm.abs() <= most).then_some(moved)
}

/// A placement moved by a step.
pub(super) fn nudged(
    model: &ArchModel,
    placement: Placement,
    arrow: Arrow,
    by: Length,
) -> Option<Placement> {
    let (spot, _) = spot_and_point(model, placement)?;
    let moved = stepped(model, spot, arrow, by)?;
    let Placement::OnArch {
        apex_to_distal_deg,
        apex_to_buccal_deg,
        ..
    } = placement
    else {
        return None;
    };
    Some(Placement::OnArch {
        at: moved.at,
        along_mm: moved.along_mm,
        buccal_mm: moved.buccal_mm,
        apex_to_distal_deg,
        apex_to_buccal_deg,
    })
}

/// A placement with its apex leant further.
pub(super) fn leant(
    model: &ArchModel,
    placement: Placement,
    arrow: Arrow,
    by: Angle,
) -> Option<Placement> {
    let Placement::OnArch {
        apex_to_distal_deg,
        apex_to_buccal_deg,
        ..
    } = placement
    else {
        return None;
    };
    let (_, point) = spot_and_point(model, placement)?;
    let (along, buccal) = by_arrow(model, &point, arrow);
    let more = |angle: Angle, times: i64| {
        let times = i32::try_from(times).unwrap_or(0);
        Angle::from_millideg(angle.millideg() + by.millideg() * times)
    };
    let (distal, buccal) = (
        more(apex_to_distal_deg, along),
        more(apex_to_buccal_deg, buccal),
    );
    with_tilts(placement, distal, buccal)
}

/// The placement on the arch nearest to a measured one.
pub(super) fn on_arch(
    model: &ArchModel,
    placement: Placement,
    from: ToothPosition,
) -> Option<Placement> {
    let Placement::Measured {
        platform,
        direction,
    } = placement
    else {
        return Some(placement);
    };
    let jaw = model.jaw();
    let place = on_chart(jaw, platform.x_mm.mm(), platform.y_mm.mm());
    let spot = spot(model, from, place)?;
    let point = model.point_at(from, spot.along_mm, spot.buccal_mm)?;
    let up = direction.z.mm().abs();
    let aside = way(jaw, [direction.x.mm(), direction.y.mm()]);
    let slope = |side: [f64; 2]| dot(aside, way(jaw, side)) / up;
    Some(Placement::OnArch {
        at: from,
        along_mm: spot.along_mm,
        buccal_mm: spot.buccal_mm,
        apex_to_distal_deg: degrees_of(slope(point.distal)),
        apex_to_buccal_deg: degrees_of(slope(point.buccal)),
    })
}

#[cfg(test)]
mod tests;
