//! Axes in the patient frame and the distances between them.
//!
//! Frame: x to the patient's left, y posterior, z superior, millimetres. All functions are plain
//! floating point on `libm`; whoever compares a result with a limit floors it to the micrometre.

use crate::case::{ArchSize, Case, Placement};
use crate::dentition::{ArchModel, Jaw};
use crate::plan::depth::context::SiteContext;

/// A point or vector.
pub(super) type Vec3 = [f64; 3];

/// An implant's axis: a point and the unit vector from platform to apex.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct Axis {
    pub(in crate::plan) platform: Vec3,
    pub(in crate::plan) apical: Vec3,
    /// True if the place was measured; otherwise it is the arch model's, and z is 0.
    pub(in crate::plan) measured: bool,
}

impl Axis {
    /// The same axis with its platform at z = 0, as the arch model has all of them: it knows of no
    /// heights, so a measured one must not count against a place that has none.
    pub(in crate::plan) fn levelled(mut self) -> Self {
        self.platform[2] = 0.0;
        self
    }
}

/// The arch model of a case, where its size is known.
pub(in crate::plan) fn arch_of(case: &Case) -> Option<ArchModel> {
    let ArchSize {
        landmark,
        width_mm,
        depth_mm,
    } = case.arch?;
    ArchModel::new(case.jaw, landmark, width_mm, depth_mm).ok()
}

/// The axis of a placement; nothing where it is on an arch whose size is unknown.
pub(in crate::plan) fn axis_of(
    placement: Placement,
    jaw: Jaw,
    arch: Option<&ArchModel>,
) -> Option<Axis> {
    match placement {
        Placement::Measured {
            platform,
            direction,
        } => Some(Axis {
            platform: [platform.x_mm.mm(), platform.y_mm.mm(), platform.z_mm.mm()],
            apical: unit([direction.x.mm(), direction.y.mm(), direction.z.mm()])?,
            measured: true,
        }),
        Placement::OnArch {
            at,
            along_mm,
            buccal_mm,
            apex_to_distal_deg,
            apex_to_buccal_deg,
        } => {
            let place = arch?.point_at(at, along_mm, buccal_mm)?;
            let (d, b) = (
                libm::tan(apex_to_distal_deg.radians()),
                libm::tan(apex_to_buccal_deg.radians()),
            );
            Some(Axis {
                platform: [place.x_mm, place.y_mm, 0.0],
                apical: unit([
                    d * place.distal[0] + b * place.buccal[0],
                    d * place.distal[1] + b * place.buccal[1],
                    apical_z(jaw),
                ])?,
                measured: false,
            })
        }
    }
}

/// The angle between a site's axis and straight apical, in radians: more than a right angle for one
/// that was measured the wrong way round.
pub(super) fn apical_tilt(site: SiteContext<'_>, axis: Option<Axis>) -> Option<f64> {
    match axis.filter(|axis| axis.measured) {
        None => site.site.placement.tilt(),
        Some(axis) => {
            let [x, y, z] = axis.apical;
            Some(libm::atan2(libm::hypot(x, y), z * apical_z(site.case.jaw)))
        }
    }
}

/// The component along z of straight apical.
const fn apical_z(jaw: Jaw) -> f64 {
    match jaw {
        Jaw::Upper => 1.0,
        Jaw::Lower => -1.0,
    }
}

/// The angle between two axes, in radians.
pub(super) fn angle_between(a: &Axis, b: &Axis) -> f64 {
    libm::acos(dot(a.apical, b.apical).clamp(-1.0, 1.0))
}

/// The point of an axis at a depth below the platform.
pub(super) fn at_depth(axis: &Axis, depth: f64) -> Vec3 {
    std::array::from_fn(|i| axis.platform[i] + depth * axis.apical[i])
}

/// The distance between two points.
pub(in crate::plan) fn distance(a: Vec3, b: Vec3) -> f64 {
    let d: Vec3 = std::array::from_fn(|i| a[i] - b[i]);
    libm::sqrt(dot(d, d))
}

/// The least distance, seen from above, between a place and a stretch of axis from the platform to
/// a depth.
pub(super) fn level_distance(axis: &Axis, depth: f64, place: [f64; 2]) -> f64 {
    let from = [place[0] - axis.platform[0], place[1] - axis.platform[1]];
    let along = [depth * axis.apical[0], depth * axis.apical[1]];
    let length_squared = along[0] * along[0] + along[1] * along[1];
    let share = if length_squared > 0.0 {
        ((from[0] * along[0] + from[1] * along[1]) / length_squared).clamp(0.0, 1.0)
    } else {
        0.0
    };
    libm::hypot(from[0] - share * along[0], from[1] - share * along[1])
}

/// The least and the greatest of what lies between a point of one axis and another axis, by every way to measure it:
/// square to the other axis or to the nearest point of a stretch of it, to its point of the same height, in a level slice,
/// and in one across the axis that it is measured from.
pub(super) fn ways_to_axis(
    point: Vec3,
    from: &Axis,
    to: &Axis,
    same_height: f64,
    (begin, end): (f64, f64),
) -> (f64, f64) {
    let off: Vec3 = std::array::from_fn(|i| point[i] - to.platform[i]);
    let foot = dot(off, to.apical);
    let in_slice = |normal: Vec3| {
        let through = dot(to.apical, normal);
        // An axis that lies in the slice passes it nowhere.
        (libm::fabs(through) > 1e-6).then(|| dot(off, normal) / through)
    };
    let slices = [[0.0, 0.0, 1.0], from.apical]
        .into_iter()
        .filter_map(in_slice);
    let depths = [foot, foot.clamp(begin, end), same_height]
        .into_iter()
        .chain(slices);
    depths
        .map(|depth| distance(point, at_depth(to, depth)))
        .fold((f64::INFINITY, 0.0), |(least, most), one| {
            (least.min(one), f64::max(most, one))
        })
}

/// Distance aside between two platforms: seen from above, along the one axis and along the other,
/// the least of the three.
pub(super) fn beside_each_other(a: &Axis, b: &Axis) -> f64 {
    let between: Vec3 = std::array::from_fn(|i| b.platform[i] - a.platform[i]);
    let aside = |axis: Vec3| {
        let along = dot(between, axis);
        let aside: Vec3 = std::array::from_fn(|i| between[i] - along * axis[i]);
        libm::sqrt(dot(aside, aside))
    };
    aside([0.0, 0.0, 1.0])
        .min(aside(a.apical))
        .min(aside(b.apical))
}

/// The least distance between two stretches of axis, each from the platform to a depth.
pub(in crate::plan) fn segment_distance(a: &Axis, a_depth: f64, b: &Axis, b_depth: f64) -> f64 {
    // The distance is convex in each parameter, so the least one lies where each point is the
    // nearest to the other; alternating projection converges, and the closed form gives the
    // interior start.
    let nearest = |from: Vec3, axis: &Axis, depth: f64| {
        let d: Vec3 = std::array::from_fn(|i| from[i] - axis.platform[i]);
        dot(d, axis.apical).clamp(0.0, depth)
    };
    let w: Vec3 = std::array::from_fn(|i| a.platform[i] - b.platform[i]);
    let cos = dot(a.apical, b.apical);
    let (wa, wb) = (dot(w, a.apical), dot(w, b.apical));
    let det = 1.0 - cos * cos;
    let start = if det > 1e-12 {
        ((cos * wb - wa) / det).clamp(0.0, a_depth)
    } else {
        0.0
    };
    let t = nearest(at_depth(a, start), b, b_depth);
    let s = nearest(at_depth(b, t), a, a_depth);
    let t = nearest(at_depth(a, s), b, b_depth);
    distance(at_depth(a, s), at_depth(b, t))
}

fn dot(a: Vec3, b: Vec3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn unit(v: Vec3) -> Option<Vec3> {
    let length = libm::sqrt(dot(v, v));
    (length > 0.0).then(|| v.map(|part| part / length))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ten along (0.36, 0.48, −0.8) reach (3.6, 4.8) seen from above, 6 from the platform. A place
    /// at (5, 0) is beside the half of that: 5·3.6 / 36 = 0.5, (5 − 1.8, 0 − 2.4) is 4 long. One
    /// before the platform or beyond the end is nearest to that: (−3, −4) and (3.6, 4.8) on.
    #[test]
    fn seen_from_above_the_whole_stretch_counts() {
        let axis = Axis {
            platform: [0.0; 3],
            apical: [0.36, 0.48, -0.8],
            measured: false,
        };
        for (place, want) in [([5.0, 0.0], 4.0), ([-3.0, -4.0], 5.0), ([7.2, 9.6], 6.0)] {
            let found = level_distance(&axis, 10.0, place);
            assert!((found - want).abs() < 1e-9, "{place:?}: {found}");
        }
    }
}
