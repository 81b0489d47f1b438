//! The tilt of a site's axis, in words and as an angle.

use crate::case::{Placement, Site};
use crate::charts::words::{self, Lean};
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
    let leans = words::leans(distal, buccal, jaw, texts);
    let both = |side: fn(&Lean) -> &String| {
        let both = leans.iter().map(side).cloned();
        both.reduce(|first, second| {
            let args = [("first", first.as_str()), ("second", second.as_str())];
            texts.get("chart-towards-both", &args)
        })
    };
    let sides = (both(|lean| &lean.towards)?, both(|lean| &lean.away)?);
    Some(Tilt {
        radians: trig::tilt_radians(distal, buccal),
        words: words::apex(&leans, texts),
        sides: Some(sides),
    })
}
