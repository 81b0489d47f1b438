//! The tilt of a site's axis, in words and as an angle.

use crate::case::{Placement, Site};
use crate::dentition::Jaw;
use crate::measure::{Angle, trig};
use crate::number::{at_most_angle, degrees};
use crate::text::Texts;

/// The tilt of an axis that is not upright.
///
/// The section lies in the plane of the tilt: its right is the side that the apex leans to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tilt {
    /// The angle between axis and vertical, radians.
    pub(super) radians: f64,
    /// The tilt in words: "apex 32° to mesial".
    pub(super) words: String,
    /// The side that the apex leans to and the other one; nothing where only a direction is known.
    pub(super) sides: Option<(String, String)>,
}

/// The tilt of a site; nothing for an upright one.
pub(super) fn tilt(site: &Site, jaw: Jaw, texts: &Texts) -> Option<Tilt> {
    match site.placement {
        Placement::OnArch {
            apex_to_distal_deg,
            apex_to_buccal_deg,
            ..
        } => by_slopes(apex_to_distal_deg, apex_to_buccal_deg, jaw, texts),
        Placement::Measured { direction, .. } => {
            let level = libm::hypot(direction.x.mm(), direction.y.mm());
            let radians = libm::atan2(level, libm::fabs(direction.z.mm()));
            let angle = degrees(at_most_angle(Angle::ceil_radians(radians)));
            (radians > 0.0).then(|| Tilt {
                radians,
                words: texts.get("tilt-axis", &[("angle", &angle)]),
                sides: None,
            })
        }
    }
}

fn by_slopes(distal: Angle, buccal: Angle, jaw: Jaw, texts: &Texts) -> Option<Tilt> {
    let oral = match jaw {
        Jaw::Upper => "chart-side-palatal",
        Jaw::Lower => "chart-side-lingual",
    };
    let part = |angle: Angle, positive: &str, negative: &str| {
        let (towards, away) = match angle.millideg() {
            0 => return None,
            1.. => (positive, negative),
            _ => (negative, positive),
        };
        let word = |id| texts.get(id, &[]);
        Some((degrees(angle.abs()), word(towards), word(away)))
    };
    let along = part(distal, "chart-side-distal", "chart-side-mesial");
    let across = part(buccal, "chart-side-buccal", oral);
    let both = |first: &str, second: &str| {
        texts.get("chart-side-and", &[("first", first), ("second", second)])
    };
    let (words, sides) = match (along, across) {
        (None, None) => return None,
        (Some((angle, side, away)), None) | (None, Some((angle, side, away))) => (
            texts.get("tilt-apex", &[("angle", &angle), ("side", &side)]),
            (side, away),
        ),
        (Some((angle, side, away)), Some((other_angle, other_side, other_away))) => (
            texts.get(
                "tilt-apex-both",
                &[
                    ("angle", &angle),
                    ("side", &side),
                    ("other-angle", &other_angle),
                    ("other-side", &other_side),
                ],
            ),
            (both(&side, &other_side), both(&away, &other_away)),
        ),
    };
    Some(Tilt {
        radians: trig::tilt_radians(distal, buccal),
        words,
        sides: Some(sides),
    })
}
