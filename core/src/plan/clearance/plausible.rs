//! What is farther, nearer or more tilted than any is: a slip of a decimal makes any margin clear.

use super::neighbours::PlacedSite;
use super::space;
use crate::case::{
    Distance, DistanceTo, Height, Rule, SiteHeight, SitePlace, StructureExtent, WallSide,
};
use crate::dentition::{ArchModel, ToothPosition, tooth_size};
use crate::measure::{Angle, Length};
use crate::plan::depth::context::SiteContext;
use crate::plan::figure::{Known, Quantity};
use crate::plan::finding::{Finding, Verdict};
use std::collections::BTreeSet;

/// From the axis to the outer surface of the bone beside it, at most. Common practice, no source: the widest
/// alveolar process is as wide as that from side to side.
const MOST_TO_WALL: Length = Length::from_mm(15);

/// Gap between an implant and the buccal wall of a socket, at most. Common practice, no source: the widest sockets are
/// little wider than 10 mm.
const MOST_GAP: Length = Length::from_mm(5);

/// From the outer surface of the buccal bone to that of the oral one, at the crest and elsewhere, at most. Common
/// practice, no source: farther down the body of a jaw is wider than its process.
const MOST_ACROSS: [Length; 2] = [Length::from_mm(15), Length::from_mm(20)];

/// From the axis to the next tooth or implant, or a structure, at most. Common practice, no source: the length of
/// a whole side segment without teeth.
const MOST_BESIDE: Length = Length::from_mm(30);

/// From platform or crest to a structure below it, at most. Common practice, no source: as high as a jaw is.
const MOST_BELOW: Length = Length::from_mm(30);

/// The most by which a distance may exceed that of the arch model. Common practice, no source: more than a person's
/// arch differs from the mean within a tooth or two.
const BEYOND_MODEL: Length = Length::from_mm(5);

/// Bone from side to side at the crest beyond which it is worth a second look. Common practice, no source: where
/// teeth were, hardly any crest is as wide.
const WIDE_ACROSS: Length = Length::from_mm(10);

/// Beyond the end of the implant, and of what its drills are to go deeper, at most: hardly anybody measures farther
/// down beside it. Common practice, no source: so much that only a decimal that slipped is beyond it.
const BEYOND_IMPLANT: Length = Length::from_mm(15);

/// The most by which the distances to the teeth on both sides together may exceed the gap of the arch model. Common
/// practice, no source: the gap of a lost tooth grows narrower, hardly ever wider.
const BOTH_BEYOND_MODEL: Length = Length::from_mm(3);

/// From the crest to the occlusal plane, at least. Common practice, no source: no crown is lower; 0 is a field that
/// was passed over.
const LEAST_TO_OCCLUSAL: Length = Length::from_mm(2);

/// Tilt of an axis, in all, beyond which it is asked about. Common practice, no source: the most that is planned on
/// purpose; a slip of a sign or a decimal tilts farther.
const MOST_TILT_DEG: i32 = 45;

/// Of a site's walls, deep structures, heights and axis, and what stands beside its sleeve.
pub(in crate::plan) fn check(
    site: &SiteContext<'_>,
    arch: Option<&ArchModel>,
    out: &mut Vec<Finding>,
) {
    out.extend(tilted(site, arch));
    let crest = site.site.heights.crest_below_occlusal_mm;
    out.extend(
        crest
            .filter(|crest| *crest < LEAST_TO_OCCLUSAL)
            .map(|crest| {
                let place = SitePlace::Height(SiteHeight::CrestBelowOcclusal);
                Finding::new(Rule::MeasuredTooNear, site.at(place))
                    .verdict(Verdict::Unknown)
                    .length(crest)
                    .limit(LEAST_TO_OCCLUSAL)
            }),
    );
    for wall in &site.site.walls {
        let what = match wall.side {
            WallSide::Buccal => "buccal",
            WallSide::Oral => "oral",
        };
        let place = SitePlace::Wall(wall.side, wall.at);
        out.extend(beyond(site, place, what, wall.from_axis_mm, MOST_TO_WALL));
    }
    out.extend(gap(site));
    across(site, out);
    measured_down(site, out);
    for (n, obstacle) in site.site.obstacles.iter().enumerate() {
        let away = obstacle.from_axis_mm;
        out.extend(beyond(
            site,
            SitePlace::Obstacle(n),
            "crown",
            away,
            MOST_BESIDE,
        ));
    }
    for structure in &site.site.structures {
        let (what, away, most) = match structure.extent {
            StructureExtent::Below { height_mm, .. } => ("below", height_mm, MOST_BELOW),
            StructureExtent::Beside { from_axis_mm, .. } => ("beside", from_axis_mm, MOST_BESIDE),
        };
        let place = SitePlace::Structure(structure.kind);
        out.extend(beyond(site, place, what, away, most));
    }
}

/// Both walls at one height together, where neither is too far by itself: the label's length entered for one of
/// them, say.
fn across(site: &SiteContext<'_>, out: &mut Vec<Finding>) {
    let walls = site.site.walls.iter();
    let walls = walls.filter(|wall| wall.from_axis_mm <= MOST_TO_WALL);
    let of = |side| walls.clone().filter(move |wall| wall.side == side);
    for buccal in of(WallSide::Buccal) {
        let Some(oral) = of(WallSide::Oral).find(|oral| oral.at == buccal.at) else {
            continue;
        };
        let most = match buccal.at {
            Height::Crest => MOST_ACROSS[0],
            Height::Mid | Height::Apex | Height::Least => MOST_ACROSS[1],
        };
        let both = buccal.from_axis_mm + oral.from_axis_mm;
        let place = SitePlace::Wall(WallSide::Buccal, buccal.at);
        let asked = beyond(site, place.clone(), "across", both, most);
        let wide = asked.or_else(|| {
            let wide = buccal.at == Height::Crest && both > WIDE_ACROSS;
            let told = wide.then(|| finding(site, place, "across", both, WIDE_ACROSS))?;
            Some(told.arg("by", "usual").verdict(Verdict::Note))
        });
        out.extend(wide);
    }
}

/// The gap of a socket that is none, a field that was passed over, or wider than any.
fn gap(site: &SiteContext<'_>) -> Option<Finding> {
    let gap = site.site.state.socket()?.gap_mm?;
    let (side, limit) = if gap <= Length::ZERO {
        ("none", Length::ZERO)
    } else if gap > MOST_GAP {
        ("wide", MOST_GAP)
    } else {
        return None;
    };
    let finding = Finding::new(Rule::SocketGapUnusual, site.at(SitePlace::SocketGap));
    let finding = finding.verdict(Verdict::Unknown).length(gap).limit(limit);
    Some(finding.arg("gap", side))
}

/// What is said to be measured farther down than anything there reaches: 55 for 5.5 would vouch for every cut. One
/// for each thing, of all that is said of it, by what is farthest beyond its implant.
fn measured_down(site: &SiteContext<'_>, out: &mut Vec<Finding>) {
    let most = site.implant.full_depth() + BEYOND_IMPLANT;
    let site_of = site.site;
    let walls = site_of.walls.iter();
    let walls = walls.map(|wall| (SitePlace::Wall(wall.side, wall.at), &wall.measured_at));
    let distances = site_of.distances.iter();
    let distances = distances.map(|distance| (place_of(distance), &distance.measured_at));
    let structures = site_of.structures.iter();
    let structures = structures.map(|one| (SitePlace::Structure(one.kind), &one.measured_at));
    let own = walls.chain(distances).chain(structures);
    let own = own.map(|(place, at)| (place, at, most));
    // At the other end of a distance it is beside that implant.
    let theirs = site_of.distances.iter().filter_map(|distance| {
        let DistanceTo::Site { site: other } = &distance.to else {
            return None;
        };
        let other = site.case.site(other.as_str())?;
        let most = site.kit.implant(&other.implant)?.full_depth() + BEYOND_IMPLANT;
        let at = distance.other_measured_at.as_ref()?;
        Some((place_of(distance), at, most))
    });
    let mut told: Vec<Finding> = Vec::new();
    for (place, at, most) in own.chain(theirs) {
        let Some(down) = at.down_to_mm.filter(|down| *down > most) else {
            continue;
        };
        let place = site.at(place);
        let before = told.iter().position(|finding| finding.place == place);
        let n = before.unwrap_or_else(|| {
            let finding = Finding::new(Rule::MeasuredDownTooFar, place);
            told.push(finding.verdict(Verdict::Unknown));
            told.len() - 1
        });
        let found = &mut told[n];
        let beyond = found
            .length_value()
            .zip(found.limit.and_then(Quantity::length));
        found.bodies.push(format!("down {down} of {most}"));
        if beyond.is_none_or(|(then, limit)| down - most > then - limit) {
            *found = found.clone().length(down).limit(most);
        }
    }
    out.append(&mut told);
}

fn place_of(distance: &Distance) -> SitePlace {
    match &distance.to {
        DistanceTo::Tooth { position } => SitePlace::ToTooth(*position, None),
        DistanceTo::Site { site } => SitePlace::ToSite(site.clone(), None),
    }
}

/// Of its distances to neighbours, by the arch model too where that knows both.
pub(super) fn neighbours(
    one: &PlacedSite<'_>,
    placed: &[PlacedSite<'_>],
    arch: Option<&ArchModel>,
    out: &mut Vec<Finding>,
) {
    let site = &one.cut.site;
    let mut farthest_first: Vec<&Distance> = site.site.distances.iter().collect();
    farthest_first.sort_by_key(|distance| std::cmp::Reverse(distance.from_axis_mm));
    let mut told = BTreeSet::new();
    for distance in farthest_first {
        let place = place_of(distance);
        let away = distance.from_axis_mm;
        // Behind a long gap the next tooth is as far as the model says too.
        let model = by_model(one, placed, arch, distance);
        let asked = match model {
            Some(model) if away - model <= BEYOND_MODEL => None,
            _ if away > MOST_BESIDE => beyond(site, place, "tooth", away, MOST_BESIDE),
            Some(model) => Some(finding(site, place, "tooth", away, model).arg("by", "model")),
            None => None,
        };
        out.extend(asked.filter(|finding| told.insert(finding.place.key())));
    }
    let both = both_sides(one, placed, arch);
    out.extend(both.filter(|finding| told.insert(finding.place.key())));
}

/// The distances to the teeth right beside the site, together, where each may be: along the arch the site may stand
/// anywhere, but the gap is as wide as it is.
fn both_sides(
    one: &PlacedSite<'_>,
    placed: &[PlacedSite<'_>],
    arch: Option<&ArchModel>,
) -> Option<Finding> {
    let site = &one.cut.site;
    let own = site.site.tooth;
    let nearest = |beside: Option<ToothPosition>| {
        let to = DistanceTo::Tooth { position: beside? };
        let all = site.site.distances.iter();
        let all = all.filter(|distance| distance.to == to);
        // What was measured deeper, or before a move, says nothing of the gap.
        let at_crest = all.filter_map(|distance| {
            let model = by_model(one, placed, arch, distance)?;
            Some((beside?, distance.from_axis_mm, model))
        });
        at_crest.min_by_key(|(_, away, _)| *away)
    };
    let (mesial, to_mesial, model) = nearest(Some(own.mesial_neighbour()))?;
    let (_, to_distal, rest) = nearest(own.distal_neighbour())?;
    let (both, model) = (to_mesial + to_distal, model + rest);
    (both - model > BOTH_BEYOND_MODEL).then(|| {
        let place = SitePlace::ToTooth(mesial, None);
        finding(site, place, "both", both, model).arg("by", "model")
    })
}

/// The same distance by the arch model, level with the platform; nothing for one that was measured deeper, where an axis
/// may lean away, or before a move.
fn by_model(
    one: &PlacedSite<'_>,
    placed: &[PlacedSite<'_>],
    arch: Option<&ArchModel>,
    distance: &Distance,
) -> Option<Length> {
    let near_platform = matches!(distance.at, Height::Crest | Height::Least);
    let is_now = distance.measured_at.placement == one.cut.site.site.placement;
    let axis = one
        .axis
        .filter(|axis| !axis.measured && near_platform && is_now)?;
    let away = match &distance.to {
        DistanceTo::Tooth { position } => {
            let arch = arch?;
            let outline = arch.tooth(*position)?;
            let neck = tooth_size(*position).cervix_md.mm() * arch.scale();
            let centre = [outline.centre.x_mm, outline.centre.y_mm];
            space::level_distance(&axis, 0.0, centre) - neck / 2.0
        }
        DistanceTo::Site { site } => {
            let mut others = placed.iter();
            let other = others.find(|other| other.cut.site.site.id == *site)?.axis;
            let [x, y, _] = other.filter(|other| !other.measured)?.platform;
            space::level_distance(&axis, 0.0, [x, y])
        }
    };
    Some(Length::ceil_mm(away.max(0.0)))
}

/// An axis that is tilted farther than one is planned.
fn tilted(site: &SiteContext<'_>, arch: Option<&ArchModel>) -> Option<Finding> {
    let axis = space::axis_of(site.site.placement, site.case.jaw, arch);
    // A rounding of the trigonometry is no tilt.
    let tilt = Angle::ceil_radians(space::apical_tilt(*site, axis)? - 1e-9);
    let most = Angle::from_deg(MOST_TILT_DEG);
    (tilt > most).then(|| {
        let mut finding = Finding::new(Rule::AxisTiltedFar, site.at(SitePlace::Placement));
        finding.value = Known::Is(Quantity::Angle(tilt));
        finding.verdict(Verdict::Unknown).limit_angle(most)
    })
}

fn beyond(
    site: &SiteContext<'_>,
    place: SitePlace,
    what: &'static str,
    away: Length,
    most: Length,
) -> Option<Finding> {
    (away > most).then(|| finding(site, place, what, away, most).arg("by", "usual"))
}

fn finding(
    site: &SiteContext<'_>,
    place: SitePlace,
    what: &'static str,
    away: Length,
    limit: Length,
) -> Finding {
    let new = |rule, place| Finding::new(rule, site.at(place));
    let finding = match &place {
        SitePlace::ToSite(other, _) => {
            new(Rule::SitesMeasuredTooFar, place.clone()).arg("other", other)
        }
        _ => new(Rule::MeasuredTooFar, place).arg("what", what),
    };
    finding.verdict(Verdict::Unknown).length(away).limit(limit)
}
