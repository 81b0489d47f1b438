//! The body of a site that a person judges where there is no value, or only a bound.

use crate::case::{Case, DistanceTo, Place, Rule, SitePlace, Subject};
use crate::dentition::ToothPosition;
use crate::measure::Length;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::shortfall::lost;
use crate::plan::figure::Basis;
use crate::plan::finding::{Finding, Verdict};
use crate::sign::Fingerprint;
use serde::Serialize;

/// Gives each finding that is judged without a value, or with a bound alone, what it is judged of, for its digest: the
/// bodies of its sites, and what was entered of the thing that it names; and each that is of a sequence that sequence. No value changes with them, and what was said of one
/// is not said of another. What is of no site may be of the guide, and brings what else it is of.
pub(in crate::plan) fn attach_bodies(findings: &mut [Finding], case: &Case, cuts: &[SiteCuts<'_>]) {
    // What was judged for practice is not judged for a patient.
    if case.demonstration {
        for finding in &mut *findings {
            finding.bodies.push("practice".to_owned());
        }
    }
    // What was found of one guide is not found of the next.
    if let Some(guide) = &case.guide.code {
        let of_made = findings
            .iter_mut()
            .filter(|one| one.rule.is_of_made_guide());
        of_made.for_each(|one| one.bodies.push(format!("guide {guide}")));
    }
    for cut in cuts {
        let id = &cut.site.site.id;
        // What was judged of a site with its guide is not judged of one at which the guide was left.
        if let Some(left) = &cut.site.site.without_guide {
            let left = code(left);
            let here = findings.iter_mut().filter(|one| one.is_of(id));
            here.for_each(|one| one.bodies.push(left.clone()));
        }
        let of_sequence = findings.iter_mut().filter(|one| {
            let is_open = !matches!(one.verdict, Verdict::Note | Verdict::Clear);
            // Where a drill ends the next one goes on.
            let is_of_it = one.rule.subject() == Subject::Sequence || one.rule == Rule::EndsShort;
            is_open && is_of_it && one.is_of(id)
        });
        let mut codes = None;
        for finding in of_sequence {
            let codes = codes.get_or_insert_with(|| [Some(sequence(cut)), held_above(cut)]);
            finding.bodies.extend(codes.iter().flatten().cloned());
        }
    }
    let bodies: Vec<String> = cuts.iter().map(body).collect();
    // A bound says nothing of the rest; what is short otherwise has its number, where it has one.
    let of_bodies = findings.iter_mut().filter(|finding| match finding.verdict {
        Verdict::Unknown => true,
        Verdict::Short => {
            let by_bound = finding.is_at_most() || finding.basis == Basis::ArchModel;
            by_bound || finding.value.get().is_none() && finding.judged_length().is_none()
        }
        _ => false,
    });
    for finding in of_bodies {
        let before = finding.bodies.len();
        for (body, cut) in bodies.iter().zip(cuts) {
            if finding.is_of(&cut.site.site.id) {
                if finding.rule.is_of_made_guide() {
                    finding.bodies.push(guided(cut));
                    continue;
                }
                finding.bodies.push(body.clone());
                let entered = finding.place.site_place();
                finding
                    .bodies
                    .extend(entered.and_then(|place| entered_of(cut, place)));
            }
        }
        if finding.bodies.len() == before && matches!(finding.place, Place::Pins) {
            let guide = &case.guide;
            finding
                .bodies
                .push(code(&(guide.support, &guide.pins, &case.teeth)));
        }
    }
}

/// Where implant and cuts are, on what scan and in what bone, how deep and how wide, by which drills, and where the
/// sleeve is.
pub(in crate::plan) fn body(cut: &SiteCuts<'_>) -> String {
    let (case, site, implant) = (cut.site.case, cut.site.site, cut.site.implant);
    let cuts = cut.steps.iter();
    let cuts = cuts.map(|sheet| (sheet.cut.length(), sheet.point, sheet.diameter));
    let placed = (
        site.placement,
        site.heights.platform_below_crest,
        site.platform_to_sleeve,
    );
    let implant = (cut.site.implant_end(), implant.largest_diameter_mm);
    // Where the gap of a socket was measured, and who confirmed it, is no bone.
    let mut state = site.state.clone();
    if let Some(socket) = state.socket_mut() {
        socket.gap_measured_at = None;
    }
    let bone = (state, site.density, &site.protocol, case.guide.scan_date);
    let by = (
        &site.implant,
        &site.master_sleeve,
        &site.steps,
        &case.setup.head,
    );
    let cuts: Vec<_> = cuts.collect();
    if site.cut_before.is_empty() {
        return code(&(placed, implant, cuts, bone, by));
    }
    code(&(placed, implant, (cuts, &site.cut_before), bone, by))
}

/// The whole sequence, to its depths as planned and as set, with the bone and the implant that it is for: what is told of one
/// drill was judged with the others in sight, and its diameter says nothing of how deep it goes.
fn sequence(cut: &SiteCuts<'_>) -> String {
    let (site, implant) = (cut.site.site, cut.site.implant);
    let steps = cut.site.steps().zip(cut.steps).map(|(step, sheet)| {
        let drill = step.drill;
        (
            (&step.step.id, &drill.id, drill.kind),
            (drill.cutting_diameter_mm, drill.point_length()),
            (&step.step.sleeve, &step.step.stop, step.step.depth),
            (sheet.prep.length(), sheet.cut.length()),
        )
    });
    let implant = (
        (&implant.id, implant.platform_to_apex_mm),
        (implant.diameter_mm, implant.largest_diameter_mm),
        &implant.profile,
    );
    let bone = (site.density, &site.protocol);
    code(&(steps.collect::<Vec<_>>(), bone, implant))
}

/// How far above their settings a crest that is uneven, or a guide that seats higher, holds the drills of a site; nothing
/// where neither does. What they leave to the next drill is judged by that too.
fn held_above(cut: &SiteCuts<'_>) -> Option<String> {
    let by_setting = cut.steps.iter().map(|sheet| sheet.shortfall.length());
    let above = lost(cut).into_iter().zip(by_setting);
    let above = above.map(|(lost, by_setting)| lost - by_setting.unwrap_or_default());
    let above: Vec<_> = above.collect();
    let is_any = above.iter().any(|above| *above != Length::ZERO);
    is_any.then(|| code(&above))
}

/// What a guide that was made holds of a site, or leads: whether it agrees with the plan has nothing to do with the rest.
fn guided(cut: &SiteCuts<'_>) -> String {
    let (site, implant) = (cut.site.site, cut.site.implant);
    code(&(
        site.placement,
        site.heights.platform_below_crest,
        site.platform_to_sleeve,
        (
            &site.master_sleeve,
            cut.site.master.height_mm,
            cut.site.master.bore_mm,
        ),
        site.guided_extent,
        (&site.implant, implant.platform_to_apex_mm),
    ))
}

/// What was entered of the thing that a finding names: an unknown was judged with it in sight, although it gives no
/// value. Not where it was measured, nor who confirmed it.
fn entered_of(cut: &SiteCuts<'_>, place: &SitePlace) -> Option<String> {
    let site = cut.site.site;
    Some(match place {
        SitePlace::Structure(kind) | SitePlace::AnteriorLoop(kind) => {
            let of_kind = site.structures.iter().filter(|one| one.kind == *kind);
            code(&of_kind.map(|one| one.extent).collect::<Vec<_>>())
        }
        SitePlace::WallSide(side) | SitePlace::Wall(side, _) => {
            let of_side = site.walls.iter().filter(|wall| wall.side == *side);
            let walls = of_side.map(|wall| (wall.at, wall.from_axis_mm));
            code(&walls.collect::<Vec<_>>())
        }
        SitePlace::ToTooth(position, _) => tooth(cut, *position),
        SitePlace::Crown(position) => code(&(tooth(cut, *position), beside(cut))),
        SitePlace::Obstacles | SitePlace::Obstacle(_) | SitePlace::ObstacleRim(_) => beside(cut),
        SitePlace::Whole
        | SitePlace::Placement
        | SitePlace::PlatformToSleeve
        | SitePlace::Heights
        | SitePlace::Height(_)
        | SitePlace::SocketGap
        | SitePlace::Density
        | SitePlace::ToSite(..)
        | SitePlace::Steps
        | SitePlace::Step(_)
        | SitePlace::Insertion
        | SitePlace::Carrier => return None,
    })
}

/// What stands beside the sleeve as it was entered: the teeth next to it, the crowns, and what comes down between them:
/// head, stops and sleeves by their sizes.
fn beside(cut: &SiteCuts<'_>) -> String {
    let (site, kit, setup) = (cut.site.site, cut.site.kit, &cut.site.case.setup);
    let next = [
        Some(site.tooth.mesial_neighbour()),
        site.tooth.distal_neighbour(),
    ];
    let teeth = cut.site.case.teeth.iter();
    let teeth = teeth.filter(|tooth| next.contains(&Some(tooth.position)));
    let crowns = site.obstacles.iter();
    let crowns = crowns.map(|one| (one.tooth, one.above_rim_mm, one.from_axis_mm));
    let head = setup.head.as_ref().and_then(|id| kit.head(id));
    let guided = cut.site.steps();
    let guided = guided.map(|step| (step.stop, step.sleeve, step.drill.free_length_mm));
    code(&(
        teeth.collect::<Vec<_>>(),
        crowns.collect::<Vec<_>>(),
        (head, cut.site.master),
        guided.collect::<Vec<_>>(),
    ))
}

/// A neighbour as it was entered: what it is, how far its root and its crown are.
fn tooth(cut: &SiteCuts<'_>, position: ToothPosition) -> String {
    let site = cut.site.site;
    let mut teeth = cut.site.case.teeth.iter();
    let entry = teeth.find(|tooth| tooth.position == position);
    let to_it = site
        .distances
        .iter()
        .filter(|one| matches!(&one.to, DistanceTo::Tooth { position: to } if *to == position));
    let distances = to_it.map(|one| (one.at, one.from_axis_mm));
    let crowns = site.obstacles.iter();
    let crowns = crowns.filter(|one| one.tooth == Some(position));
    let crowns = crowns.map(|one| (one.above_rim_mm, one.from_axis_mm));
    code(&(
        entry,
        distances.collect::<Vec<_>>(),
        crowns.collect::<Vec<_>>(),
    ))
}

/// Twelve characters that change with a value.
fn code(value: &impl Serialize) -> String {
    let code = Fingerprint::of(value).to_string();
    code.split_whitespace().collect()
}
