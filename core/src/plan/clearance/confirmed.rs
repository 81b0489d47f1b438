//! Words that cannot all hold: values that were said to hold still after a move that changed one of
//! them at least.

use crate::case::{
    Confirmed, Distance, DistanceTo, Height, HeightDatum, Placement, Rule, SiteHeight, SitePlace,
    Structure, StructureExtent, Wall, WallSide,
};
use crate::dentition::{ArchModel, ToothPosition};
use crate::measure::Length;
use crate::plan::clearance::space::{Axis, axis_of};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::moved;
use crate::plan::finding::{Finding, Verdict};

/// The most that a site may have gone from the one thing towards the other for both distances to hold
/// still. Common practice, no source: each is read to a tenth of a millimetre.
const BY_READING: f64 = 0.2;

/// What is worked out is told to a hundredth of a millimetre.
const TOLD: Length = Length::from_um(10);

/// How far, in radians, the arch model may be turned against the patient's arch at a tooth: 20°. Common
/// practice, no source. What was placed on the model itself went to buccal as it was told to.
const TURNED: f64 = 20.0 / 180.0 * std::f64::consts::PI;

/// The words on a site's walls, its neighbours, its depth and its deep structures.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, arch: Option<&ArchModel>, out: &mut Vec<Finding>) {
    out.extend(between_walls(cut, arch));
    out.extend(between_neighbours(cut, arch));
    out.extend(below_the_crest(cut));
    let structures = cut.site.site.structures.iter();
    out.extend(structures.filter_map(|structure| below_the_platform(cut, structure)));
}

fn finding(cut: &SiteCuts<'_>, rule: Rule, place: SitePlace, by: f64) -> Finding {
    let finding = Finding::new(rule, cut.site.at(place)).verdict(Verdict::Unknown);
    finding.arg("by", Length::floor_mm(by.abs() + 1e-9).floor_to(TOLD))
}

fn between_walls(cut: &SiteCuts<'_>, arch: Option<&ArchModel>) -> Option<Finding> {
    let walls = &cut.site.site.walls;
    let of = |side| walls.iter().filter(move |wall| wall.side == side);
    let across = |wall: &Wall| {
        let word = wall.measured_at.confirmed.as_ref()?;
        let turned = match cut.site.site.placement {
            Placement::OnArch { .. } => 0.0,
            Placement::Measured { .. } => TURNED,
        };
        went(cut, arch, word, wall.at, |[distal, buccal]| {
            certainly(buccal, distal, turned)
        })
    };
    of(WallSide::Buccal).find_map(|buccal| {
        let then = across(buccal)?;
        let by = of(WallSide::Oral).find_map(|oral| least_alike(then, across(oral)?))?;
        let place = SitePlace::Wall(WallSide::Buccal, buccal.at);
        Some(finding(cut, Rule::WallsDisagree, place, by).arg("height", buccal.at))
    })
}

/// The neighbours on both sides: teeth, and planned sites that stand as they did.
fn between_neighbours(cut: &SiteCuts<'_>, arch: Option<&ArchModel>) -> Option<Finding> {
    let own = cut.site.site.tooth;
    let is_mesial =
        |tooth: ToothPosition| tooth.side() != own.side() || tooth.number() < own.number();
    let along = |distance: &Distance| {
        let word = distance.measured_at.confirmed.as_ref()?;
        went(cut, arch, word, distance.at, |[distal, buccal]| {
            certainly(distal, buccal, TURNED)
        })
    };
    let to_others: Vec<(&Distance, ToothPosition)> = cut
        .site
        .site
        .distances
        .iter()
        .filter_map(|distance| Some((distance, stands_still(cut, distance)?)))
        .filter(|(_, position)| *position != own)
        .collect();
    let of = |mesial: bool| {
        let side = to_others.iter();
        side.filter(move |(_, position)| is_mesial(*position) == mesial)
    };
    of(true).find_map(|(mesial, position)| {
        let went = along(mesial)?;
        let (by, other) = of(false).find_map(|(distal, other)| {
            let by = least_alike(went, along(distal)?)?;
            Some((by, *other))
        })?;
        let place = match &mesial.to {
            DistanceTo::Tooth { position } => SitePlace::ToTooth(*position, None),
            DistanceTo::Site { site } => SitePlace::ToSite(site.clone(), None),
        };
        let finding = finding(cut, Rule::ConfirmedDisagree, place, by).arg("how", "neighbours");
        Some(finding.arg("position", *position).arg("other", other))
    })
}

/// The position of a neighbour that is where it was when the distance to it was measured.
fn stands_still(cut: &SiteCuts<'_>, distance: &Distance) -> Option<ToothPosition> {
    match &distance.to {
        DistanceTo::Tooth { position } => Some(*position),
        DistanceTo::Site { site } => {
            let other = cut.site.case.sites.iter().find(|one| one.id == *site)?;
            let then = distance.other_measured_at.as_ref()?;
            let word = then.confirmed.as_ref();
            let then = word.map_or(then.placement, |word| word.placement);
            (then == other.placement).then_some(other.tooth)
        }
    }
}

/// A height counted from the platform, which went deeper since.
fn below_the_platform(cut: &SiteCuts<'_>, structure: &Structure) -> Option<Finding> {
    let StructureExtent::Below {
        from: HeightDatum::Platform,
        ..
    } = structure.extent
    else {
        return None;
    };
    let word = structure.measured_at.confirmed.as_ref()?;
    let site = cut.site.site;
    // Where coordinates say how far it went, the crest may have been read anew.
    let by = if let Some(by) = moved::along_axis(&word.placement, &site.placement) {
        by
    } else {
        let (then, now) = word
            .platform_below_crest
            .zip(site.heights.platform_below_crest)?;
        let by = (now.highest_mm - then.highest_mm).min(now.lowest_mm - then.lowest_mm);
        by.mm()
    };
    (by > BY_READING + 1e-9).then(|| {
        let place = SitePlace::Structure(structure.kind);
        let finding = finding(cut, Rule::ConfirmedDisagree, place, by).arg("how", "deeper");
        finding.arg("position", site.tooth).arg("other", site.tooth)
    })
}

/// The platform's depth below the crest, though it went deeper since.
fn below_the_crest(cut: &SiteCuts<'_>) -> Option<Finding> {
    let site = cut.site.site;
    let word = site.heights.word_on(SiteHeight::PlatformBelowCrest)?;
    let by = moved::along_axis(&word.placement, &site.placement)?;
    // Beside where it was measured a crest may lie as much deeper as that is aside.
    let aside = match (word.placement, site.placement) {
        (Placement::Measured { platform: a, .. }, Placement::Measured { platform: b, .. }) => {
            let step = [b.x_mm - a.x_mm, b.y_mm - a.y_mm, b.z_mm - a.z_mm].map(Length::mm);
            let whole: f64 = step.iter().map(|one| one * one).sum();
            libm::sqrt((whole - by * by).max(0.0))
        }
        _ => return None,
    };
    (by > aside + BY_READING + 1e-9).then(|| {
        let place = SitePlace::Height(SiteHeight::PlatformBelowCrest);
        let finding = finding(cut, Rule::ConfirmedDisagree, place, by).arg("how", "crest");
        finding.arg("position", site.tooth).arg("other", site.tooth)
    })
}

/// How far the body went at a height since a word's value was measured, by what counts of a step to
/// distal and buccal; at its closest, which may be anywhere, the least of both ends. Nothing where that
/// is within reading, or nobody can say.
fn went(
    cut: &SiteCuts<'_>,
    arch: Option<&ArchModel>,
    word: &Confirmed,
    at: Height,
    counts: impl Fn([f64; 2]) -> Option<f64>,
) -> Option<f64> {
    let length = cut.site.implant.platform_to_apex_mm.mm();
    let [coronal, apical] = match at {
        Height::Crest => [0.0; 2],
        Height::Mid => [length / 2.0; 2],
        Height::Apex => [length; 2],
        Height::Least => [0.0, length],
    };
    let by = |depth| counts(aside(cut, arch, word, depth)?);
    least_alike(by(coronal)?, by(apical)?)
}

/// What of a step is in this direction for certain, beside one square to it, where the direction may be
/// turned; nothing within reading.
fn certainly(towards: f64, beside: f64, turned: f64) -> Option<f64> {
    let by = towards.abs() * libm::cos(turned) - beside.abs() * libm::sin(turned);
    (by > BY_READING + 1e-9).then(|| by.copysign(towards))
}

fn least_alike(a: f64, b: f64) -> Option<f64> {
    let least = if a.abs() < b.abs() { a } else { b };
    (a.is_sign_positive() == b.is_sign_positive()).then_some(least)
}

/// How far the axis went aside at a depth below the platform, to distal and to buccal. On the arch as it
/// was placed there; by coordinates in the directions of the arch model at the tooth, the mean one where
/// the patient's has no size.
fn aside(
    cut: &SiteCuts<'_>,
    arch: Option<&ArchModel>,
    word: &Confirmed,
    depth: f64,
) -> Option<[f64; 2]> {
    let site = cut.site.site;
    match (word.placement, site.placement) {
        (
            Placement::OnArch {
                at: from,
                along_mm: then,
                buccal_mm: out,
                apex_to_distal_deg: distal_then,
                apex_to_buccal_deg: buccal_then,
            },
            Placement::OnArch {
                at,
                along_mm,
                buccal_mm,
                apex_to_distal_deg,
                apex_to_buccal_deg,
            },
        ) => {
            let leant = |then: crate::measure::Angle, now: crate::measure::Angle| {
                depth * (libm::tan(now.radians()) - libm::tan(then.radians()))
            };
            (from == at).then(|| {
                [
                    (along_mm - then).mm() + leant(distal_then, apex_to_distal_deg),
                    (buccal_mm - out).mm() + leant(buccal_then, apex_to_buccal_deg),
                ]
            })
        }
        (Placement::Measured { .. }, Placement::Measured { .. }) => {
            let axis = |placement| axis_of(placement, cut.site.case.jaw, arch);
            let (then, now) = (axis(word.placement)?, axis(site.placement)?);
            let at = |axis: &Axis, i: usize| axis.platform[i] + depth * axis.apical[i];
            let by = [0, 1].map(|i| at(&now, i) - at(&then, i));
            let mean = ArchModel::mean(cut.site.case.jaw);
            let there = arch.unwrap_or(&mean).tooth(site.tooth)?.centre;
            Some([there.distal, there.buccal].map(|e| by[0] * e[0] + by[1] * e[1]))
        }
        _ => None,
    }
}
