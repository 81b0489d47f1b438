//! The lean of an apex in words.

use super::place::{Scene, way};
use crate::case::{Placement, Site};
use crate::charts::words::{BUCCAL, DISTAL, MESIAL, apex, leans, oral};
use crate::dentition::Jaw;
use crate::drawing::{Point, at};
use crate::measure::Length;
use crate::number::nearest_degree;
use crate::text::Texts;

/// "apex 32° to mesial, 5° to buccal"; nothing for an upright axis.
///
/// A placement on the arch shows its two tilts as they were entered. Of a measured one only the
/// direction is known: its whole tilt is given to the nearest degree, and the nearest of eight
/// directions seen from its tooth.
pub(super) fn tilt(site: &Site, scene: &Scene, texts: &Texts) -> Option<String> {
    match site.placement {
        Placement::OnArch {
            apex_to_distal_deg,
            apex_to_buccal_deg,
            ..
        } => {
            let leans = leans(
                apex_to_distal_deg,
                apex_to_buccal_deg,
                scene.model.jaw(),
                texts,
            );
            (!leans.is_empty()).then(|| apex(&leans, texts))
        }
        Placement::Measured { direction, .. } => {
            let [x, y, z] = [direction.x.mm(), direction.y.mm(), direction.z.mm()];
            let lean = libm::atan2(libm::hypot(x, y), z.abs()).to_degrees();
            let tooth = scene
                .model
                .point_at(site.tooth, Length::ZERO, Length::ZERO)?;
            let jaw = scene.model.jaw();
            let leaning = way(jaw, [x, y]);
            let towards = towards(
                leaning,
                way(jaw, tooth.distal),
                way(jaw, tooth.buccal),
                jaw,
                texts,
            );
            (lean >= 0.5).then(|| {
                texts.get(
                    "chart-apex-measured",
                    &[("angle", &nearest_degree(lean)), ("towards", &towards)],
                )
            })
        }
    }
}

/// The nearest of eight directions.
fn towards(apex: Point, distal: Point, buccal: Point, jaw: Jaw, texts: &Texts) -> String {
    let unit = if apex.length() > 0.0 {
        apex.unit()
    } else {
        at(0.0, 0.0)
    };
    let dot = |a: Point, b: Point| a.x * b.x + a.y * b.y;
    let word = |part: f64, plus: &'static str, minus| {
        // Within 22.5° of the other axis this one is not named.
        let named = part.abs() > libm::sin(22.5_f64.to_radians());
        named.then(|| texts.get(if part > 0.0 { plus } else { minus }, &[]))
    };
    let along = word(dot(unit, distal), DISTAL, MESIAL);
    let aside = word(dot(unit, buccal), BUCCAL, oral(jaw));
    match (along, aside) {
        (Some(first), Some(second)) => texts.get(
            "chart-towards-both",
            &[("first", &first), ("second", &second)],
        ),
        (one, other) => one.or(other).unwrap_or_default(),
    }
}
