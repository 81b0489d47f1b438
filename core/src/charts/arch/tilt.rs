//! The lean of an apex in words: a bare sign means different things to different people.

use super::place::{Scene, way};
use crate::case::{Placement, Site};
use crate::dentition::Jaw;
use crate::drawing::{Point, at};
use crate::measure::{Angle, Length};
use crate::number::{degrees, nearest_degree};
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
            let part = |angle: Angle, plus, minus| {
                let towards = if angle > Angle::ZERO { plus } else { minus };
                let towards = texts.get(towards, &[]);
                (angle != Angle::ZERO).then(|| {
                    texts.get(
                        "chart-apex-part",
                        &[("angle", &degrees(angle.abs())), ("towards", &towards)],
                    )
                })
            };
            let oral = oral(scene.model.jaw());
            let parts: Vec<String> = [
                part(apex_to_distal_deg, DISTAL, MESIAL),
                part(apex_to_buccal_deg, BUCCAL, oral),
            ]
            .into_iter()
            .flatten()
            .collect();
            (!parts.is_empty()).then(|| texts.get("chart-apex", &[("tilt", &parts.join(", "))]))
        }
        Placement::Measured { direction, .. } => {
            let [x, y, z] = [direction.x.mm(), direction.y.mm(), direction.z.mm()];
            let lean = libm::atan2(libm::hypot(x, y), z.abs()).to_degrees();
            let tooth = scene
                .model
                .point_at(site.tooth, Length::ZERO, Length::ZERO)?;
            let jaw = scene.model.jaw();
            let apex = way(jaw, [x, y]);
            let towards = towards(
                apex,
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

const MESIAL: &str = "chart-towards-mesial";
const DISTAL: &str = "chart-towards-distal";
const BUCCAL: &str = "chart-towards-buccal";

const fn oral(jaw: Jaw) -> &'static str {
    match jaw {
        Jaw::Upper => "chart-towards-palatal",
        Jaw::Lower => "chart-towards-lingual",
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
