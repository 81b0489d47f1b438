//! Outlines of instruments, along their own axis: the same ones are used in a section and in the
//! true-scale strip.

use crate::drawing::Point;
use crate::kit::{Drill, Stop};

/// Half an outline: distances along the axis, mm, each with the half width there.
pub(super) type Profile = Vec<(f64, f64)>;

/// A drill from its tip up to `to_mm`: cone, cutting part, guided part.
///
/// The guided part begins where the flutes end, or at `guided_from_mm` where that is nearer the
/// tip: what runs in a sleeve is the guided diameter.
pub(super) fn drill(drill: &Drill, guided_from_mm: Option<f64>, to_mm: f64) -> Profile {
    let cutting = drill.cutting_diameter_mm.mm() / 2.0;
    let guided = drill.guided_diameter_mm.mm() / 2.0;
    let point = drill.point_length().mm().min(to_mm);
    let flutes = drill.flute_to_mm.mm();
    let shoulder = guided_from_mm
        .map_or(flutes, |from| from.min(flutes))
        .clamp(point, to_mm);
    let mut profile = vec![(0.0, 0.0), (point, cutting)];
    if shoulder > point {
        profile.push((shoulder, cutting));
    }
    if shoulder < to_mm {
        profile.extend([(shoulder, guided), (to_mm, guided)]);
    }
    profile
}

/// A stop from its landing face to its upper face: the landing rim, then the body.
pub(super) fn stop(stop: &Stop) -> Profile {
    let landing = stop.landing_diameter_mm.mm() / 2.0;
    let body = stop.body_diameter_mm.mm() / 2.0;
    let height = stop.body_height_mm.mm();
    let rim = if landing < body {
        // A chamfer of 45°, or less where the body is low.
        (body - landing).min(height / 3.0)
    } else {
        height / 4.0
    };
    if landing > body {
        vec![(0.0, landing), (rim, landing), (rim, body), (height, body)]
    } else {
        vec![(0.0, landing), (rim, body), (height, body)]
    }
}

/// The whole outline of half of one, in the drawing's frame: up one side and down the other.
/// `place` puts a point that is so far along the axis and so far across it.
pub(super) fn outline(profile: &[(f64, f64)], place: impl Fn(f64, f64) -> Point) -> Vec<Point> {
    let near = profile.iter().rev().map(|&(along, half)| (along, -half));
    let far = profile.iter().copied();
    near.chain(far)
        .map(|(along, across)| place(along, across))
        .collect()
}

/// The wave at which a long thing is broken off, from one side to the other.
pub(super) fn break_line(from: Point, to: Point) -> Vec<Point> {
    const STEPS: u32 = 24;
    let way = to - from;
    let swing = way.quarter_turn() * 0.14;
    (0..=STEPS)
        .map(|step| {
            let share = f64::from(step) / f64::from(STEPS);
            let wave = libm::sin(share * core::f64::consts::TAU);
            from + way * share + swing * wave
        })
        .collect()
}
