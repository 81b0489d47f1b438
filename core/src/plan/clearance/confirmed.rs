//! Words that cannot all hold: values that were said to hold still after a move that changed one of
//! them at least.

use crate::case::{
    Case, Confirmed, Distance, DistanceTo, Height, HeightDatum, MeasuredAt, Placement, Rule, Site,
    SiteHeight, SitePlace, Structure, StructureExtent, StructureKind, Wall, WallSide,
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
    match between_walls(cut, arch) {
        Some(both) => out.push(both),
        None => out.extend(nearer_walls(cut, arch)),
    }
    match between_neighbours(cut, arch) {
        Some(both) => out.push(both),
        None => out.extend(nearer_neighbours(cut, arch)),
    }
    out.extend(nearer_crowns(cut, arch));
    out.extend(wider_gap(cut, arch));
    out.extend(below_the_crest(cut));
    for structure in &cut.site.site.structures {
        out.extend(below_the_platform(cut, structure));
        out.extend(beside(cut, arch, structure, out));
    }
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
        went(cut, arch, word, wall.at, |[distal, buccal]| {
            certainly(buccal, distal, turned(cut))
        })
    };
    of(WallSide::Buccal).find_map(|buccal| {
        let then = across(buccal)?;
        let by = of(WallSide::Oral).find_map(|oral| least_alike(then, across(oral)?))?;
        let place = SitePlace::Wall(WallSide::Buccal, buccal.at);
        Some(finding(cut, Rule::WallsDisagree, place, by).arg("height", buccal.at))
    })
}

/// How far the arch model may be turned at the site's tooth against the directions in which it was placed.
const fn turned(cut: &SiteCuts<'_>) -> f64 {
    match cut.site.site.placement {
        Placement::OnArch { .. } => 0.0,
        Placement::Measured { .. } => TURNED,
    }
}

/// What of a step certainly led nearer to a surface that lies this way: it may lean by 45° (common practice,
/// no source), so that a step beside takes as much from that as it is long.
fn nearer(towards: f64, beside: f64, turned: f64) -> Option<f64> {
    let by = certainly(towards, beside, turned)?;
    let left = by.abs() - beside.abs();
    (by > 0.0 && left > BY_READING + 1e-9).then_some(left)
}

/// Walls that the axis went towards, each by itself: that the other one was measured anew says nothing for
/// it. The first of each side.
fn nearer_walls(cut: &SiteCuts<'_>, arch: Option<&ArchModel>) -> Vec<Finding> {
    let of_side = |side| {
        let walls = cut.site.site.walls.iter();
        let walls = walls.filter(move |wall| wall.side == side);
        walls.filter_map(move |wall| {
            let word = wall.measured_at.confirmed.as_ref()?;
            let by = went(cut, arch, word, wall.at, |[distal, buccal]| {
                let towards = match side {
                    WallSide::Buccal => buccal,
                    WallSide::Oral => -buccal,
                };
                nearer(towards, distal, turned(cut))
            })?;
            Some(one_word(cut, SitePlace::Wall(side, wall.at), "nearer", by))
        })
    };
    let mut sides = [WallSide::Buccal, WallSide::Oral].map(of_side);
    sides.iter_mut().filter_map(Iterator::next).collect()
}

/// Neighbours to which the axis went nearer, or a planned one to it, each by itself.
fn nearer_neighbours(cut: &SiteCuts<'_>, arch: Option<&ArchModel>) -> Vec<Finding> {
    let mut told: Vec<Finding> = Vec::new();
    for distance in &cut.site.site.distances {
        let by = came_nearer(cut, arch, distance);
        let place = place_of(distance);
        if let Some(by) = by
            && !told
                .iter()
                .any(|told| told.place == cut.site.at(place.clone()))
        {
            let how = match &distance.to {
                DistanceTo::Tooth { .. } => "nearer",
                DistanceTo::Site { .. } => "together",
            };
            told.push(one_word(cut, place, how, by));
        }
    }
    told
}

/// Crowns that the axis went towards, each by itself.
fn nearer_crowns(cut: &SiteCuts<'_>, arch: Option<&ArchModel>) -> Vec<Finding> {
    let site = cut.site.site;
    let obstacles = site.obstacles.iter().enumerate();
    obstacles
        .filter_map(|(n, obstacle)| {
            let tooth = obstacle.tooth.filter(|tooth| *tooth != site.tooth)?;
            let then = obstacle.measured_at.confirmed.as_ref()?.placement;
            let above = obstacle.rim_above_platform_mm.unwrap_or_default() + obstacle.above_rim_mm;
            let [distal, buccal] = aside(cut.site.case, arch, site, &then, -above.mm())?;
            let towards = if is_mesial_of(tooth, site.tooth) {
                -distal
            } else {
                distal
            };
            let by = nearer(towards, buccal, TURNED)?;
            Some(one_word(cut, SitePlace::Obstacle(n), "nearer", by))
        })
        .collect()
}

/// True if a tooth lies to mesial of another one, also on the other side.
fn is_mesial_of(tooth: ToothPosition, of: ToothPosition) -> bool {
    tooth.side() != of.side() || tooth.number() < of.number()
}

/// The gap to a socket's buccal wall, which the axis went away from.
fn wider_gap(cut: &SiteCuts<'_>, arch: Option<&ArchModel>) -> Option<Finding> {
    let word = cut.site.site.state.gap_confirmed()?;
    let by = went(cut, arch, word, Height::Crest, |[distal, buccal]| {
        nearer(-buccal, distal, turned(cut))
    })?;
    Some(one_word(cut, SitePlace::SocketGap, "gap", by))
}

fn one_word(cut: &SiteCuts<'_>, place: SitePlace, how: &'static str, by: f64) -> Finding {
    let own = cut.site.site.tooth;
    let finding = finding(cut, Rule::ConfirmedDisagree, place, by).arg("how", how);
    finding.arg("position", own).arg("other", own)
}

/// By how much both together certainly came nearer since what was confirmed was measured: the axis towards the
/// neighbour, and a planned one towards it.
fn came_nearer(cut: &SiteCuts<'_>, arch: Option<&ArchModel>, distance: &Distance) -> Option<f64> {
    let (case, site) = (cut.site.case, cut.site.site);
    let other = match &distance.to {
        DistanceTo::Tooth { .. } => None,
        DistanceTo::Site { site } => {
            let other = case.sites.iter().find(|one| one.id == *site)?;
            Some((other, distance.other_measured_at.as_ref()?))
        }
    };
    let position = match (&distance.to, other) {
        (DistanceTo::Tooth { position }, _) => *position,
        (_, other) => other?.0.tooth,
    };
    let own = &distance.measured_at;
    if position == site.tooth {
        return None;
    }
    let is_confirmed = |then: &MeasuredAt| then.confirmed.is_some();
    if !is_confirmed(own) && !other.is_some_and(|(_, then)| is_confirmed(then)) {
        return None;
    }
    // Towards the other, and square to it.
    let step = |of: &Site, then: &MeasuredAt, to: ToothPosition, end: usize| {
        let placement = then.confirmed.as_ref().map(|word| word.placement);
        let depth = ends(distance.at, then.platform_to_apex_mm)[end];
        let then = placement.unwrap_or(then.placement);
        let [distal, buccal] = aside(case, arch, of, &then, depth)?;
        let towards = if is_mesial_of(to, of.tooth) {
            -distal
        } else {
            distal
        };
        Some([towards, buccal.abs()])
    };
    let by = |end| {
        let own = step(site, own, position, end)?;
        let other = match other {
            Some((other, then)) => step(other, then, site.tooth, end)?,
            None => [0.0; 2],
        };
        nearer(own[0] + other[0], own[1] + other[1], TURNED)
    };
    least_of_ends(by)
}

fn place_of(distance: &Distance) -> SitePlace {
    match &distance.to {
        DistanceTo::Tooth { position } => SitePlace::ToTooth(*position, None),
        DistanceTo::Site { site } => SitePlace::ToSite(site.clone(), None),
    }
}

/// A distance to a neighbour that is where it was, or nearly.
struct ToOther<'a> {
    distance: &'a Distance,
    position: ToothPosition,
    is_mesial: bool,
    /// The most that the neighbour's own move since may have taken or given.
    moved: Length,
}

impl ToOther<'_> {
    /// What the neighbour's own move leaves of how far the body went, if anything more than is read.
    fn went(
        &self,
        cut: &SiteCuts<'_>,
        arch: Option<&ArchModel>,
        counts: impl Fn([f64; 2]) -> Option<f64>,
    ) -> Option<f64> {
        let word = self.distance.measured_at.confirmed.as_ref()?;
        let by = went(cut, arch, word, self.distance.at, counts)?;
        let left = by.abs() - self.moved.mm();
        (left > BY_READING + 1e-9).then(|| left.copysign(by))
    }
}

fn to_others<'a>(cut: &SiteCuts<'a>) -> Vec<ToOther<'a>> {
    let own = cut.site.site.tooth;
    let all = cut.site.site.distances.iter();
    all.filter_map(|distance| {
        let (position, moved) = stands_still(cut, distance)?;
        (position != own).then(|| ToOther {
            distance,
            position,
            is_mesial: is_mesial_of(position, own),
            moved,
        })
    })
    .collect()
}

/// The neighbours on both sides: teeth, and planned sites that stand as they did, or moved by less than
/// what cannot hold.
fn between_neighbours(cut: &SiteCuts<'_>, arch: Option<&ArchModel>) -> Option<Finding> {
    let along = |to: &ToOther<'_>| {
        to.went(cut, arch, |[distal, buccal]| {
            certainly(distal, buccal, TURNED)
        })
    };
    let all = to_others(cut);
    let of = |mesial: bool| all.iter().filter(move |to| to.is_mesial == mesial);
    of(true).find_map(|mesial| {
        let went = along(mesial)?;
        let (by, other) = of(false).find_map(|distal| {
            let by = least_alike(went, along(distal)?)?;
            Some((by, distal.position))
        })?;
        let finding = finding(cut, Rule::ConfirmedDisagree, place_of(mesial.distance), by);
        let finding = finding.arg("how", "neighbours");
        let position = mesial.position;
        Some(finding.arg("position", position).arg("other", other))
    })
}

/// The position of a neighbour that is where it was when the distance to it was measured, and the most
/// that a small move of its own since can have changed of that.
fn stands_still(cut: &SiteCuts<'_>, distance: &Distance) -> Option<(ToothPosition, Length)> {
    match &distance.to {
        DistanceTo::Tooth { position } => Some((*position, Length::ZERO)),
        DistanceTo::Site { site } => {
            let case = cut.site.case;
            let other = case.sites.iter().find(|one| one.id == *site)?;
            let then = distance.other_measured_at.as_ref()?;
            let word = then.confirmed.as_ref();
            let at = word.map_or(then.placement, |word| word.placement);
            let moved = if at == other.placement {
                Length::ZERO
            } else {
                moved::takes(case, &at, &other.placement, then.platform_to_apex_mm)?
            };
            Some((other.tooth, moved))
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
            .zip(site.heights.recorded_depth())?;
        let by = (now.highest_mm - then.highest_mm).min(now.lowest_mm - then.lowest_mm);
        by.mm()
    };
    (by > BY_READING + 1e-9).then(|| {
        let place = SitePlace::Structure(structure.kind);
        let finding = finding(cut, Rule::ConfirmedDisagree, place, by).arg("how", "deeper");
        finding.arg("position", site.tooth).arg("other", site.tooth)
    })
}

/// A structure beside the axis that this certainly went towards since, or may have so far that nothing is left of what it
/// has to keep: on which side it lies is not entered, and anatomy says it of some alone.
fn beside(
    cut: &SiteCuts<'_>,
    arch: Option<&ArchModel>,
    structure: &Structure,
    told: &[Finding],
) -> Option<Finding> {
    let StructureExtent::Beside { .. } = structure.extent else {
        return None;
    };
    let then = &structure.measured_at;
    let word = then.confirmed.as_ref()?;
    let (case, site) = (cut.site.case, cut.site.site);
    let place = SitePlace::Structure(structure.kind);
    if let Some(is_mesial) = lies_to_mesial(structure.kind, site.tooth) {
        let along = |sign: f64| {
            went(cut, arch, word, Height::Least, |[distal, buccal]| {
                nearer(sign * distal, buccal, TURNED)
            })
        };
        let towards = if is_mesial { -1.0 } else { 1.0 };
        if let Some(by) = along(towards) {
            return Some(one_word(cut, place, "nearer", by));
        }
        if along(-towards).is_some() {
            return None;
        }
    }
    let by = may_be_nearer(cut, arch, word, then)?;
    if by.mm() <= BY_READING + 1e-9 {
        return None;
    }
    let own = cut.site.at(place.clone());
    let mut margins = told.iter().filter(|finding| finding.place == own);
    let margin = margins.find(|finding| finding.rule == Rule::DeepStructure)?;
    let left = margin.length_value()?;
    let limit = case.limits.get(structure.kind.limit())?.limit_mm;
    (left >= limit && left - by < limit).then(|| one_word(cut, place, "beside", by.mm()))
}

/// The most that a move and a deeper platform since a word's value was measured may have taken of a distance beside the
/// axis, down to where it was measured. After a larger move than [`moved::takes`] can tell, twice how far that went aside:
/// on a round arch the way is longer than the step.
fn may_be_nearer(
    cut: &SiteCuts<'_>,
    arch: Option<&ArchModel>,
    word: &Confirmed,
    then: &MeasuredAt,
) -> Option<Length> {
    let (case, site) = (cut.site.case, cut.site.site);
    let far = || {
        let ends = [0.0, then.depth().mm()].map(|depth| {
            let [distal, buccal] = aside(case, arch, site, &word.placement, depth)?;
            Some(libm::hypot(distal, buccal))
        });
        let [coronal, apical] = ends;
        Some(Length::ceil_mm(2.0 * coronal?.max(apical?) - 1e-9))
    };
    let moved = if word.placement == site.placement {
        Length::ZERO
    } else {
        moved::takes(case, &word.placement, &site.placement, then.depth()).or_else(far)?
    };
    let crest = site.heights.recorded_depth();
    let deeper = word
        .platform_below_crest
        .zip(crest)
        .map(|(then, now)| (now.highest_mm - then.highest_mm).max(now.lowest_mm - then.lowest_mm));
    Some(moved + deeper.unwrap_or_default().max(Length::ZERO))
}

/// Whether a structure beside the axis lies to mesial of a tooth, where anatomy says so: the nasopalatine canal in the
/// middle, the foramen at the premolars, the sinus behind its anterior wall, which at a molar may lie on either side.
fn lies_to_mesial(kind: StructureKind, tooth: ToothPosition) -> Option<bool> {
    match (kind, tooth.number()) {
        (StructureKind::NasopalatineCanal, _) | (StructureKind::MentalForamen, 6..) => Some(true),
        (StructureKind::MentalForamen, ..=3) | (StructureKind::SinusAnteriorWall, ..=5) => {
            Some(false)
        }
        _ => None,
    }
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

/// The depths below the platform, the most coronal and the most apical one, at which something measured at a height
/// of an implant of this length may lie: at its closest that is anywhere.
fn ends(at: Height, length: Length) -> [f64; 2] {
    let length = length.mm();
    match at {
        Height::Crest => [0.0; 2],
        Height::Mid => [length / 2.0; 2],
        Height::Apex => [length; 2],
        Height::Least => [0.0, length],
    }
}

/// What went the same way at both ends, the least of it; nothing where it did not, or nobody can say.
fn least_of_ends(by: impl Fn(usize) -> Option<f64>) -> Option<f64> {
    least_alike(by(0)?, by(1)?)
}

/// How far the body went at a height since a word's value was measured, by what counts of a step to
/// distal and buccal; nothing where that is within reading, or nobody can say.
fn went(
    cut: &SiteCuts<'_>,
    arch: Option<&ArchModel>,
    word: &Confirmed,
    at: Height,
    counts: impl Fn([f64; 2]) -> Option<f64>,
) -> Option<f64> {
    let depths = ends(at, cut.site.implant.platform_to_apex_mm);
    let (case, site) = (cut.site.case, cut.site.site);
    least_of_ends(|end| counts(aside(case, arch, site, &word.placement, depths[end])?))
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
    case: &Case,
    arch: Option<&ArchModel>,
    site: &Site,
    then: &Placement,
    depth: f64,
) -> Option<[f64; 2]> {
    match (*then, site.placement) {
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
            let axis = |placement| axis_of(placement, case.jaw, arch);
            let (then, now) = (axis(*then)?, axis(site.placement)?);
            let at = |axis: &Axis, i: usize| axis.platform[i] + depth * axis.apical[i];
            let by = [0, 1].map(|i| at(&now, i) - at(&then, i));
            let arch = arch.unwrap_or_else(|| ArchModel::mean(case.jaw));
            let there = arch.tooth(site.tooth)?.centre;
            Some([there.distal, there.buccal].map(|e| by[0] * e[0] + by[1] * e[1]))
        }
        _ => None,
    }
}
