//! Neighbours: natural roots, implants placed earlier, other planned implants.
//!
//! A distance is measured, or comes from two measured placements, or from the arch model. What
//! comes from the arch model is short where it breaks the limit and unknown otherwise.

use super::clearance::{Cut, judged};
use super::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term};
use super::finding::{Finding, Subject, Verdict};
use super::space::{self, Axis};
use super::stale::is_stale;
use super::walls::radius_term;
use crate::case::{Distance, DistanceTo, Height, LimitId, NeighbourKind, Tooth, ToothState};
use crate::dentition::{ArchModel, ToothPosition, tooth_size};
use crate::measure::{Angle, Length};

/// A site with its cut and its axis.
pub(super) struct Placed<'a> {
    pub(super) cut: Cut<'a>,
    pub(super) axis: Option<Axis>,
}

/// The neighbours of all sites.
pub(super) fn check(placed: &[Placed<'_>], arch: Option<&ArchModel>, out: &mut Vec<Finding>) {
    for one in placed {
        for towards in [Towards::Mesial, Towards::Distal] {
            beside(one, placed, arch, towards, out);
        }
    }
    let order: Vec<ToothPosition> = placed
        .first()
        .map(|one| ToothPosition::all_of(one.cut.site.case.jaw).collect())
        .unwrap_or_default();
    let place = |one: &Placed<'_>| order.iter().position(|p| *p == one.cut.site.site.tooth);
    let mut along: Vec<&Placed<'_>> = placed.iter().collect();
    along.sort_by_key(|one| place(one));
    for pair in along.windows(2) {
        // The pair is named from the site entered first, so that a mirrored case names it alike.
        let (a, b) = (pair[0], pair[1]);
        let index = |one: &Placed<'_>| {
            placed
                .iter()
                .position(|p| p.cut.site.site.id == one.cut.site.site.id)
        };
        let (a, b) = if index(a) <= index(b) { (a, b) } else { (b, a) };
        pair_findings(a, b, between(a, b, &order), out);
    }
}

/// What stands between two sites.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Between {
    /// Nothing that is known of.
    Nothing,
    /// A tooth or an implant placed earlier: each site is held against it instead.
    Tooth,
}

fn between(a: &Placed<'_>, b: &Placed<'_>, order: &[ToothPosition]) -> Between {
    let place = |one: &Placed<'_>| order.iter().position(|p| *p == one.cut.site.site.tooth);
    let (Some(a_place), Some(b_place)) = (place(a), place(b)) else {
        return Between::Nothing;
    };
    let (first, last) = (a_place.min(b_place), a_place.max(b_place));
    let inner = order.get(first + 1..last).unwrap_or_default();
    // Impacted teeth and root remnants part nothing at the crest.
    let parts = |tooth: &&Tooth| {
        let kind = tooth.kind.unwrap_or(NeighbourKind::Natural);
        inner.contains(&tooth.position)
            && stands(**tooth)
            && !matches!(kind, NeighbourKind::Impacted | NeighbourKind::Remnant)
    };
    match a.cut.site.case.teeth.iter().find(parts) {
        Some(_) => Between::Tooth,
        None => Between::Nothing,
    }
}

/// Walks from a site along the arch to the first root or implant that stands there, or to a
/// position of which nothing was entered.
fn beside(
    one: &Placed<'_>,
    placed: &[Placed<'_>],
    arch: Option<&ArchModel>,
    towards: Towards,
    out: &mut Vec<Finding>,
) {
    let case = one.cut.site.case;
    let mut at = one.cut.site.site.tooth;
    while let Some(next) = towards.next(one.cut.site.site.tooth, at) {
        at = next;
        if placed.iter().any(|other| other.cut.site.site.tooth == at) {
            return; // A planned implant: the pair is looked at by itself.
        }
        let Some(tooth) = case.teeth.iter().find(|tooth| tooth.position == at) else {
            out.push(not_entered(one, at));
            return;
        };
        if stands(*tooth) {
            out.push(tooth_finding(one, *tooth, arch));
            return;
        }
    }
}

/// A direction along the arch, seen from a site.
#[derive(Debug, Clone, Copy)]
enum Towards {
    Mesial,
    Distal,
}

impl Towards {
    /// The next position; past the midline it goes on along the other side.
    fn next(self, start: ToothPosition, at: ToothPosition) -> Option<ToothPosition> {
        match self {
            Self::Mesial if at.side() == start.side() => Some(at.mesial_neighbour()),
            Self::Mesial | Self::Distal => at.distal_neighbour(),
        }
    }
}

fn stands(tooth: Tooth) -> bool {
    match tooth.kind {
        Some(NeighbourKind::Pontic) => false,
        Some(NeighbourKind::Impacted | NeighbourKind::Remnant) => {
            tooth.state != ToothState::ToExtract
        }
        _ => tooth.state == ToothState::Present,
    }
}

fn neighbour_path(one: &Placed<'_>, position: ToothPosition) -> String {
    one.cut.site.field(&format!("distances[{position}]"))
}

fn not_entered(one: &Placed<'_>, position: ToothPosition) -> Finding {
    let path = neighbour_path(one, position);
    let mut finding = Finding::new(Subject::Clearance, "neighbour-not-entered", path)
        .at_site(&one.cut.site.site.id)
        .verdict(Verdict::Unknown)
        .arg("position", position);
    finding.value = Known::missing(format!("teeth[{position}]"));
    finding
}

fn tooth_finding(one: &Placed<'_>, tooth: Tooth, arch: Option<&ArchModel>) -> Finding {
    let position = tooth.position;
    let path = neighbour_path(one, position);
    let id = format!("{path}.margin_mm");
    let measured: Vec<&Distance> = one
        .cut
        .site
        .site
        .distances
        .iter()
        .filter(|distance| distance.to == DistanceTo::Tooth { position })
        .collect();
    let margin = if measured.is_empty() {
        tooth_from_model(one, tooth, arch, id)
    } else {
        least_measured(one, &measured, &path, id, None)
    };
    let (rule, limit) = match tooth.kind {
        Some(NeighbourKind::Implant) => ("neighbour-old-implant", LimitId::NeighbourImplant),
        _ => ("neighbour-root", LimitId::NeighbourRoot),
    };
    one.cut
        .margin(rule, path, limit, margin)
        .arg("position", position)
}

/// The least margin over the measured distances to one neighbour. A distance at one height alone
/// says nothing of the others; with a root, that is reported by its height.
fn least_measured(
    one: &Placed<'_>,
    measured: &[&Distance],
    path: &str,
    id: String,
    other: Option<&Placed<'_>>,
) -> Figure {
    let mut terms = Vec::new();
    let mut least: Known<Option<Length>> = Known::Is(None);
    for distance in measured {
        let (height, below) = height_of(one, distance.at);
        let at = format!("{path}[{height}]");
        terms.push(
            Term::case(
                "term-axis-to-neighbour",
                format!("{at}.from_axis_mm"),
                Some(distance.from_axis_mm),
                Basis::Measured,
            )
            .with(),
        );
        let radius = radius_at(one, distance.at, below);
        let own_stale = is_stale(&one.cut.site, &distance.measured_at, distance.at.into());
        let other_stale = other.is_some_and(|other| {
            distance
                .other_measured_at
                .as_ref()
                .is_none_or(|then| is_stale(&other.cut.site, then, distance.at.into()))
        });
        let margin = if own_stale || other_stale {
            Known::Unknown(vec![Reason::Stale(at)])
        } else {
            let other_radius = match other {
                Some(other) => radius_at(other, distance.at, height_of(other, distance.at).1),
                None => Known::Is(Length::ZERO),
            };
            terms.push(radius_term(&one.cut, radius.clone(), Sign::With));
            if let Some(other) = other {
                terms.push(radius_term(&other.cut, other_radius.clone(), Sign::With));
            }
            radius
                .and(other_radius)
                .map(|(own, other)| distance.from_axis_mm - own - other)
        };
        least = least
            .and(margin)
            .map(|(least, margin)| Some(least.map_or(margin, |least: Length| least.min(margin))));
    }
    let value = match least {
        Known::Is(Some(least)) => Known::Is(least),
        Known::Is(None) => Known::missing(path),
        Known::Unknown(reasons) => Known::Unknown(reasons),
    };
    Figure::of_length(id, "rule-neighbour-measured", value, terms)
}

fn height_of(one: &Placed<'_>, at: Height) -> (&'static str, Length) {
    let length = one.cut.site.implant.platform_to_apex_mm;
    match at {
        Height::Crest => ("crest", Length::ZERO),
        Height::Mid => ("mid", length.half_floor()),
        Height::Apex => ("apex", length),
        Height::Least => ("least", Length::ZERO),
    }
}

fn radius_at(one: &Placed<'_>, at: Height, below: Length) -> Known<Length> {
    match at {
        Height::Crest | Height::Least => one.cut.widest_radius(),
        Height::Mid | Height::Apex => one.cut.radius_from(below),
    }
}

/// By the arch model: the least level distance between the axis and the middle of the tooth's
/// place, less half its mean mesiodistal width at the neck and the site's radius.
fn tooth_from_model(
    one: &Placed<'_>,
    tooth: Tooth,
    arch: Option<&ArchModel>,
    id: String,
) -> Figure {
    let rule = "rule-neighbour-arch-model";
    let missing = || Known::missing(neighbour_path(one, tooth.position));
    let (Some(axis), Some(arch)) = (one.axis.filter(|axis| !axis.measured), arch) else {
        return Figure::of_length(id, rule, missing(), Vec::new());
    };
    let Some(outline) = arch.tooth(tooth.position) else {
        return Figure::of_length(id, rule, missing(), Vec::new());
    };
    let neck = tooth_size(tooth.position).cervix_md.mm() * arch.scale();
    let inputs = one.cut.deepest().and(one.cut.widest_radius());
    let value = match inputs {
        Known::Unknown(reasons) => Known::Unknown(reasons),
        Known::Is((deepest, radius)) => {
            let centre = [outline.centre.x_mm, outline.centre.y_mm];
            let least = [Length::ZERO, deepest.half_floor(), deepest]
                .into_iter()
                .map(|depth| space::level_distance(space::at_depth(&axis, depth.mm()), centre))
                .fold(f64::INFINITY, f64::min);
            let margin = Length::floor_mm(least - neck / 2.0 - radius.mm());
            Known::Unknown(vec![Reason::ArchModelOnly(margin)])
        }
    };
    let mut figure = Figure::of_length(id, rule, value, vec![model_term(one)]);
    figure.basis = Basis::ArchModel;
    figure
}

fn model_term(one: &Placed<'_>) -> Term {
    Term {
        name: "term-arch-model",
        sign: Sign::With,
        from: Origin::Case("arch".to_owned()),
        value: Known::Is(Quantity::Length(
            one.cut
                .site
                .case
                .arch
                .map_or(Length::ZERO, |arch| arch.width_mm),
        )),
        basis: Basis::ArchModel,
    }
}

/// Two sites next to each other along the arch. Where a tooth stands between them, only what was
/// measured between them or is short is told: that nobody measured past a tooth is no gap.
fn pair_findings(a: &Placed<'_>, b: &Placed<'_>, between: Between, out: &mut Vec<Finding>) {
    let other = &b.cut.site.site.id;
    let path = a.cut.site.field(&format!("distances[{other}]"));
    let finding = |rule| {
        Finding::new(Subject::Clearance, rule, path.clone())
            .at_site(&a.cut.site.site.id)
            .arg("other", other)
    };
    let measured = |heights: &[Height]| -> Vec<(&Placed<'_>, &Placed<'_>, Vec<&Distance>)> {
        [(a, b), (b, a)]
            .into_iter()
            .map(|(from, to)| {
                let site = to.cut.site.site.id.clone();
                let to_it = DistanceTo::Site { site };
                let list = from
                    .cut
                    .site
                    .site
                    .distances
                    .iter()
                    .filter(|d| d.to == to_it && heights.contains(&d.at))
                    .collect::<Vec<_>>();
                (from, to, list)
            })
            .filter(|(_, _, list)| !list.is_empty())
            .collect()
    };
    for (rule, limit, heights, part) in [
        (
            "neighbour-implant",
            LimitId::NeighbourImplant,
            &[Height::Crest, Height::Least][..],
            "platform",
        ),
        (
            "neighbour-implant-body",
            LimitId::NeighbourImplantBody,
            &[Height::Mid, Height::Apex, Height::Least][..],
            "body",
        ),
    ] {
        let id = format!("{path}.{part}_margin_mm");
        let margin = measured(heights)
            .into_iter()
            .map(|(from, to, list)| least_measured(from, &list, &path, id.clone(), Some(to)))
            .reduce(lesser)
            .unwrap_or_else(|| pair_from_axes(a, b, part, id));
        let finding = judged(finding(rule), &a.cut.site, limit, margin);
        let unmeasured = finding.verdict == Verdict::Unknown && measured(heights).is_empty();
        if between == Between::Nothing || !unmeasured {
            out.push(finding);
        }
    }
    if between == Between::Nothing {
        out.push(convergence(a, b, finding("convergence")));
    }
}

/// The lesser of two margins between the same two sites; unknown where either is.
fn lesser(a: Figure, b: Figure) -> Figure {
    let value = a.known_length().and(b.known_length());
    let terms = a.terms.into_iter().chain(b.terms).collect();
    Figure::of_length(a.id, a.rule, value.map(|(a, b)| a.min(b)), terms)
}

fn pair_from_axes(a: &Placed<'_>, b: &Placed<'_>, part: &str, id: String) -> Figure {
    let (Some(axis_a), Some(axis_b)) = (a.axis, b.axis) else {
        return Figure::of_length(id, "rule-pair-axes", Known::missing("arch"), Vec::new());
    };
    let ends = a.cut.deepest().and(b.cut.deepest());
    let radii = a.cut.widest_radius().and(b.cut.widest_radius());
    let both_measured = axis_a.measured && axis_b.measured;
    let (axis_a, axis_b) = if both_measured {
        (axis_a, axis_b)
    } else {
        (axis_a.levelled(), axis_b.levelled())
    };
    let value = match ends.and(radii) {
        Known::Unknown(reasons) => Known::Unknown(reasons),
        Known::Is(((end_a, end_b), (radius_a, radius_b))) => {
            let between = if part == "platform" {
                space::distance(axis_a.platform, axis_b.platform)
            } else {
                space::segment_distance(&axis_a, end_a.mm(), &axis_b, end_b.mm())
            };
            let margin = Length::floor_mm(between - radius_a.mm() - radius_b.mm());
            if both_measured {
                Known::Is(margin)
            } else {
                Known::Unknown(vec![Reason::ArchModelOnly(margin)])
            }
        }
    };
    let terms = if both_measured {
        vec![
            radius_term(&a.cut, a.cut.widest_radius(), Sign::With),
            radius_term(&b.cut, b.cut.widest_radius(), Sign::With),
        ]
    } else {
        vec![model_term(a)]
    };
    Figure::of_length(id, "rule-pair-axes", value, terms)
}

/// The angle between the axes of two neighbouring implants against the restorative limit.
fn convergence(a: &Placed<'_>, b: &Placed<'_>, finding: Finding) -> Finding {
    let limit = a.cut.site.case.limits.convergence.as_ref();
    let (Some(axis_a), Some(axis_b), Some(limit)) = (a.axis, b.axis, limit) else {
        let mut finding = finding.verdict(Verdict::Unknown);
        finding.value = Known::missing(if limit.is_none() {
            "limits.convergence"
        } else {
            "arch"
        });
        return finding;
    };
    let angle = Angle::ceil_radians(space::angle_between(&axis_a, &axis_b));
    let mut finding = finding
        .verdict(if angle > limit.limit_deg {
            Verdict::Short
        } else {
            Verdict::Clear
        })
        .limit_angle(limit.limit_deg);
    finding.value = Known::Is(Quantity::Angle(angle));
    finding.basis = Basis::Entered;
    finding.limit_source = Some(limit.source.clone());
    finding
}
