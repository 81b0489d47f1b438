//! The tooth where a site stands, which need not be the one that it was entered for.

use crate::case::{Placement, Site};
use crate::dentition::{ArchModel, ToothPosition, tooth_size};
use crate::measure::Length;
use crate::plan::clearance::space::{at_depth, axis_of};

/// The least by which another tooth's middle must be nearer than that of the site's own on the arch
/// model, a schematic, before coordinates count as of that one. Common practice, no source.
const CLEARLY: f64 = 2.0;

/// The tooth whose place the axis is in at a depth below the platform: on the arch by mean crowns
/// (`assets/tooth-sizes.json`), from the middle of the tooth where it was placed; by coordinates as the
/// arch model has it, the mean one where the patient's has no size.
pub(super) fn tooth_there(site: &Site, arch: Option<&ArchModel>, depth: Length) -> ToothPosition {
    match site.placement {
        Placement::OnArch {
            at,
            along_mm,
            apex_to_distal_deg,
            ..
        } => {
            let leans = depth.mm() * libm::tan(apex_to_distal_deg.radians());
            along_crowns(at, along_mm + Length::floor_mm(leans))
        }
        Placement::Measured { .. } => {
            let axis = axis_of(site.placement, site.tooth.jaw(), arch);
            let model = arch.unwrap_or_else(|| ArchModel::mean(site.tooth.jaw()));
            let off = |tooth: ToothPosition| {
                let centre = model.tooth(tooth)?.centre;
                let [x, y, _] = at_depth(&axis?, depth.mm());
                Some(libm::hypot(x - centre.x_mm, y - centre.y_mm))
            };
            let all = ToothPosition::all_of(site.tooth.jaw());
            let nearest = all
                .filter_map(|tooth| Some((tooth, off(tooth)?)))
                // On the midline both sides are as near: it is of its own.
                .min_by(|(one, a), (other, b)| {
                    let is_across = |tooth: &ToothPosition| tooth.side() != site.tooth.side();
                    let by_side = is_across(one).cmp(&is_across(other));
                    a.total_cmp(b).then(by_side)
                });
            match (nearest, off(site.tooth)) {
                (Some((tooth, by)), Some(own)) if own - by > CLEARLY => tooth,
                _ => site.tooth,
            }
        }
    }
}

/// The tooth at a distance along the arch from the middle of another, distal counting up. Behind the
/// last one it is still the last.
fn along_crowns(at: ToothPosition, along: Length) -> ToothPosition {
    let half = |tooth: ToothPosition| tooth_size(tooth).crown_md.half_floor();
    let mut there = at;
    let mut left = along.abs();
    // Past the midline, what was mesial leads distally on the other side.
    let towards = |there: ToothPosition| {
        if along < Length::ZERO && there.side() == at.side() {
            Some(there.mesial_neighbour())
        } else {
            there.distal_neighbour()
        }
    };
    while left > half(there)
        && let Some(next) = towards(there)
    {
        left = left - half(there) - half(next);
        there = next;
    }
    there
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wheeler's mean crowns: lower first molar 11, second premolar 7, first premolar 7, canine 7,
    /// incisors 5.5 and 5 mm wide.
    #[test]
    fn each_crown_reaches_to_its_contacts() {
        let there = |at: &str, um: i64| {
            let at: ToothPosition = at.parse().unwrap();
            along_crowns(at, Length::from_um(um)).to_string()
        };
        for (at, um, want) in [
            ("46", 0, "46"),
            ("46", -5_500, "46"),
            ("46", -5_501, "45"),
            ("46", -12_500, "45"),
            ("46", -12_501, "44"),
            ("46", 5_501, "47"),
            ("46", 60_000, "48"),
            ("41", -2_501, "31"),
            ("41", -7_501, "32"),
            ("41", 2_501, "42"),
        ] {
            assert_eq!(there(at, um), want, "{at} {um}");
        }
    }
}
