//! Neighbours: natural roots, implants placed earlier, other planned implants.
//!
//! A distance is measured, or comes from two measured placements, or from the arch model. What
//! comes from the arch model is short where it breaks the limit and unknown otherwise.

use super::clearance::{Cut, judged};
use super::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term};
use super::finding::{Finding, Loosened, Subject, Verdict, at_most};
use super::partial::Partial;
use super::space::{self, Axis};
use super::stale::stale_distance;
use super::walls::{Extent, radius_term};
use crate::case::{
    Distance, DistanceTo, Height, LimitId, NeighbourKind, Placement, SiteState, Tooth, ToothState,
};
use crate::dentition::{ArchModel, ToothPosition, tooth_size};
use crate::measure::{Angle, Length};
use std::collections::BTreeSet;

/// A site with its cut and its axis.
pub(super) struct Placed<'a> {
    pub(super) cut: Cut<'a>,
    pub(super) axis: Option<Axis>,
}

/// The neighbours of all sites.
pub(super) fn check(placed: &[Placed<'_>], arch: Option<&ArchModel>, out: &mut Vec<Finding>) {
    for one in placed {
        let mut told = BTreeSet::from([one.cut.site.site.tooth]);
        at_site(one, out);
        for towards in [Towards::Mesial, Towards::Distal] {
            beside(one, placed, arch, towards, &mut told, out);
        }
        entered_beyond(one, arch, &told, out);
    }
    let order: Vec<ToothPosition> = placed
        .first()
        .map(|one| ToothPosition::all_of(one.cut.site.case.jaw).collect())
        .unwrap_or_default();
    let place = |one: &Placed<'_>| order.iter().position(|p| *p == one.cut.site.site.tooth);
    let mut along: Vec<&Placed<'_>> = placed.iter().collect();
    along.sort_by_key(|one| place(one));
    for (n, m) in (0..along.len()).flat_map(|n| (n + 1..along.len()).map(move |m| (n, m))) {
        // The pair is named from the site entered first, so that a mirrored case names it alike.
        let (a, b) = (along[n], along[m]);
        let index = |one: &Placed<'_>| {
            placed
                .iter()
                .position(|p| p.cut.site.site.id == one.cut.site.site.id)
        };
        let (a, b) = if index(a) <= index(b) { (a, b) } else { (b, a) };
        let between = if m == n + 1 {
            between(a, b, &order)
        } else {
            Between::Site
        };
        pair_findings(a, b, between, out);
    }
}

/// What stands between two sites.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Between {
    /// Nothing that is known of.
    Nothing,
    /// A tooth or an implant placed earlier: each site is held against it instead.
    Tooth,
    /// Another site: each is held against that one first.
    Site,
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

/// What stands at the site's own place: a tooth that no one marked to be extracted is a
/// contradiction, and a buried root or tooth a neighbour.
fn at_site(one: &Placed<'_>, out: &mut Vec<Finding>) {
    let site = one.cut.site.site;
    let own = site.tooth;
    match site.placement {
        Placement::OnArch { at, .. } if at != own => out.push(
            Finding::new(
                Subject::Clearance,
                "site-away-from-its-tooth",
                one.cut.site.field("placement"),
            )
            .at_site(&site.id)
            .verdict(Verdict::Unknown)
            .arg("position", at),
        ),
        _ => {}
    }
    let Some(tooth) = one.cut.site.case.teeth.iter().find(|t| t.position == own) else {
        out.push(not_entered(one, own));
        return;
    };
    let removed = matches!(site.state, SiteState::ImplantToRemove {})
        && tooth.kind == Some(NeighbourKind::Implant);
    match tooth.kind {
        Some(NeighbourKind::Impacted | NeighbourKind::Remnant) if stands(*tooth) => {
            // The arch model knows of no depth, so it cannot say how far off a buried one lies.
            out.push(tooth_finding(one, *tooth, None));
        }
        _ if stands(*tooth) && !removed => out.push(
            Finding::new(
                Subject::Clearance,
                "tooth-at-site",
                neighbour_path(one, own),
            )
            .at_site(&site.id)
            .verdict(Verdict::Short)
            .arg("position", own),
        ),
        _ if !entered_to(one, own).is_empty() => out.push(no_root(one, *tooth)),
        _ => {}
    }
}

/// The distances of a site entered to the tooth at this position.
fn entered_to<'a>(one: &Placed<'a>, position: ToothPosition) -> Vec<&'a Distance> {
    let distances = one.cut.site.site.distances.iter();
    distances
        .filter(|distance| distance.to == DistanceTo::Tooth { position })
        .collect()
}

/// Distances entered to teeth that the walk along the arch did not come to: none is left unsaid.
fn entered_beyond(
    one: &Placed<'_>,
    arch: Option<&ArchModel>,
    told: &BTreeSet<ToothPosition>,
    out: &mut Vec<Finding>,
) {
    let entered: BTreeSet<ToothPosition> = one
        .cut
        .site
        .site
        .distances
        .iter()
        .filter_map(|distance| match distance.to {
            DistanceTo::Tooth { position } => Some(position),
            DistanceTo::Site { .. } => None,
        })
        .filter(|position| !told.contains(position))
        .collect();
    for position in entered {
        let teeth = &one.cut.site.case.teeth;
        match teeth.iter().find(|tooth| tooth.position == position) {
            Some(tooth) if !stands(*tooth) => out.push(no_root(one, *tooth)),
            Some(tooth) => out.push(tooth_finding(one, *tooth, arch)),
            // Someone measured to it, so something stands there.
            None => {
                let tooth = Tooth {
                    position,
                    state: ToothState::Present,
                    kind: None,
                };
                out.push(tooth_finding(one, tooth, arch));
            }
        }
    }
}

/// A distance was entered to a place where no root stands. To a tooth entered as missing that is a
/// contradiction; to one that will be gone, or a pontic, it is worth knowing.
fn no_root(one: &Placed<'_>, tooth: Tooth) -> Finding {
    let gone = tooth.state == ToothState::ToExtract || tooth.kind == Some(NeighbourKind::Pontic);
    Finding::new(
        Subject::Clearance,
        "distance-to-no-root",
        neighbour_path(one, tooth.position),
    )
    .at_site(&one.cut.site.site.id)
    .verdict(if gone {
        Verdict::Note
    } else {
        Verdict::Unknown
    })
    .arg("position", tooth.position)
}

/// Walks from a site along the arch to the first root or implant that stands there, or to a
/// position of which nothing was entered. Buried roots and teeth on the way are told too, and do
/// not end it.
fn beside(
    one: &Placed<'_>,
    placed: &[Placed<'_>],
    arch: Option<&ArchModel>,
    towards: Towards,
    told: &mut BTreeSet<ToothPosition>,
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
            if entered_to(one, at).is_empty() {
                out.push(not_entered(one, at));
            }
            return;
        };
        if stands(*tooth) && told.insert(at) {
            out.push(tooth_finding(one, *tooth, arch));
            if !is_buried(*tooth) {
                return;
            }
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

fn is_buried(tooth: Tooth) -> bool {
    matches!(
        tooth.kind,
        Some(NeighbourKind::Impacted | NeighbourKind::Remnant)
    )
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
    let measured = entered_to(one, position);
    let margin = if measured.is_empty() {
        tooth_from_model(one, tooth, arch, id)
    } else {
        let at: Vec<Height> = measured.iter().map(|distance| distance.at).collect();
        let least = least_measured(one, &measured, &path, None, Extent::of(&at));
        least.figure(&path, id)
    };
    let (rule, limit) = match tooth.kind {
        Some(NeighbourKind::Implant) => ("neighbour-old-implant", LimitId::NeighbourImplant),
        _ => ("neighbour-root", LimitId::NeighbourRoot),
    };
    one.cut
        .margin(rule, path, limit, margin)
        .arg("position", position)
}

/// The least margin over the measured distances to one neighbour, with its terms.
struct Least {
    /// The least that is known, none where none is, lacking what the others need.
    margin: Partial<Option<Length>>,
    terms: Vec<Term>,
}

impl Least {
    /// Takes one more margin, at once known or bounded, into account.
    fn take(&mut self, margin: &Known<Length>) {
        let most = margin.get().or_else(|| at_most(margin));
        let least = std::mem::replace(&mut self.margin, Partial::whole(None));
        self.margin = least.lacking(margin.reasons()).map(|least| match most {
            Some(most) => Some(least.map_or(most, |least: Length| least.min(most))),
            None => least,
        });
    }

    /// The lesser of two between the same two sites.
    fn and(self, other: Self) -> Self {
        let both = self.margin.and(other.margin);
        Self {
            margin: both.map(|(a, b)| a.into_iter().chain(b).min()),
            terms: self.terms.into_iter().chain(other.terms).collect(),
        }
    }

    fn figure(self, path: &str, id: String) -> Figure {
        let margin = self.margin.least_margin(path);
        Figure::of_length(id, "rule-neighbour-measured", margin, self.terms)
    }
}

fn least_measured(
    one: &Placed<'_>,
    measured: &[&Distance],
    path: &str,
    other: Option<&Placed<'_>>,
    extent: Extent,
) -> Least {
    let mut least = Least {
        margin: Partial::whole(None),
        terms: Vec::new(),
    };
    for distance in measured {
        let (height, below) = height_of(one, distance.at);
        let at = format!("{path}[{height}]");
        least.terms.push(
            Term::case(
                "term-axis-to-neighbour",
                format!("{at}.from_axis_mm"),
                Some(distance.from_axis_mm),
                Basis::Measured,
            )
            .with(),
        );
        let other_site = other.map(|other| &other.cut.site);
        if stale_distance(&one.cut.site, other_site, distance) {
            least.take(&Known::Unknown(vec![Reason::Stale(at)]));
            continue;
        }
        let radius = radius_at(one, distance.at, below);
        let other_radius = match other {
            Some(other) => radius_at(other, distance.at, height_of(other, distance.at).1),
            None => Partial::whole(Length::ZERO),
        };
        let term = |radius: &Partial<Length>| radius_term(radius.clone().known(), Sign::With);
        least.terms.push(term(&radius));
        least.terms.extend(other.map(|_| term(&other_radius)));
        let mut margin = radius
            .and(other_radius)
            .map(|(own, other)| distance.from_axis_mm - own - other)
            .margin();
        margin = extent.bound(&one.cut, &distance.measured_at, distance.at, margin);
        if let (Some(other), Some(then)) = (other, &distance.other_measured_at) {
            margin = extent.bound(&other.cut, then, distance.at, margin);
        }
        least.take(&margin);
    }
    least
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

fn radius_at(one: &Placed<'_>, at: Height, below: Length) -> Partial<Length> {
    match at {
        Height::Crest | Height::Least => one.cut.widest_radius(),
        Height::Mid | Height::Apex => one.cut.radius_from(below),
    }
}

/// By the arch model: the least level distance between the axis, over its whole length, and the
/// middle of the tooth's place, less half its mean mesiodistal width at the neck and the site's
/// radius.
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
    let centre = [outline.centre.x_mm, outline.centre.y_mm];
    let value = inputs.map(|(deepest, radius)| {
        let least = space::level_distance(&axis, deepest.mm(), centre);
        Length::floor_mm(least - neck / 2.0 - radius.mm())
    });
    let value = of_model(value.margin());
    let mut figure = Figure::of_length(id, rule, value, vec![model_term(one)]);
    figure.basis = Basis::ArchModel;
    figure
}

/// What the arch model says of a margin only bounds it.
fn of_model(margin: Known<Length>) -> Known<Length> {
    match margin {
        Known::Is(left) => Known::Unknown(vec![Reason::ArchModelOnly(left)]),
        unknown @ Known::Unknown(_) => unknown,
    }
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

/// Two sites. Where a tooth stands between them, only what was measured between them or is short
/// is told: that nobody measured past a tooth is no gap. Past another site, what was entered
/// between them or is short.
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
    let any_entered =
        !measured(&[Height::Crest, Height::Mid, Height::Apex, Height::Least]).is_empty();
    for (rule, limit, heights, part) in [
        (
            "neighbour-implant",
            LimitId::NeighbourImplant,
            &[Height::Crest, Height::Least][..],
            Part::Platform,
        ),
        (
            "neighbour-implant-body",
            LimitId::NeighbourImplantBody,
            &[Height::Mid, Height::Apex, Height::Least][..],
            Part::Body,
        ),
    ] {
        let id = format!("{path}.{}_margin_mm", part.key());
        let found = measured(heights);
        let at: Vec<Height> = found
            .iter()
            .flat_map(|(_, _, list)| list.iter().map(|distance| distance.at))
            .collect();
        let margin = found
            .into_iter()
            .map(|(from, to, list)| least_measured(from, &list, &path, Some(to), part.extent(&at)))
            .reduce(Least::and)
            .map_or_else(
                || pair_from_axes(a, b, part, id.clone()),
                |least| least.figure(&path, id.clone()),
            );
        let finding = judged(finding(rule), &a.cut.site, limit, margin);
        let unmeasured = finding.verdict == Verdict::Unknown && measured(heights).is_empty();
        let tell = match between {
            Between::Nothing => true,
            Between::Tooth => !unmeasured,
            Between::Site => finding.verdict == Verdict::Short || any_entered,
        };
        if tell {
            out.push(finding);
        }
    }
    if between == Between::Nothing {
        out.push(convergence(a, b, finding("convergence")));
    }
}

/// Which part of two implants a distance is between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// The platforms.
    Platform,
    /// The bodies with all that is cut.
    Body,
}

impl Part {
    const fn key(self) -> &'static str {
        match self {
            Self::Platform => "platform",
            Self::Body => "body",
        }
    }

    /// Whether what was measured at these heights tells of the whole part.
    fn extent(self, at: &[Height]) -> Extent {
        match self {
            // Any height at which it is measured will do: it is one plane.
            Self::Platform => Extent::Plane,
            Self::Body => Extent::of(&[at, &[Height::Crest]].concat()),
        }
    }
}

/// Between two axes. Between the platforms the level distance counts, seen from above or along
/// either axis, whichever is least: the limit is of bone beside the necks, and a platform that lies
/// deeper than the other is no farther aside for that.
fn pair_from_axes(a: &Placed<'_>, b: &Placed<'_>, part: Part, id: String) -> Figure {
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
    let margin = ends
        .and(radii)
        .map(|((end_a, end_b), (radius_a, radius_b))| {
            let between = match part {
                Part::Platform => space::beside_each_other(&axis_a, &axis_b),
                Part::Body => space::segment_distance(&axis_a, end_a.mm(), &axis_b, end_b.mm()),
            };
            Length::floor_mm(between - radius_a.mm() - radius_b.mm())
        });
    let value = if both_measured {
        margin.margin()
    } else {
        of_model(margin.margin())
    };
    let terms = if both_measured {
        [a, b]
            .map(|one| radius_term(one.cut.widest_radius().known(), Sign::With))
            .into()
    } else {
        vec![model_term(a)]
    };
    let rule = match part {
        Part::Platform => "rule-pair-platforms",
        Part::Body => "rule-pair-axes",
    };
    Figure::of_length(id, rule, value, terms)
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
    // Only upright axes and measured ones do not ask the arch model which way mesial is.
    let upright = |one: &Placed<'_>| space::tilt_of(one.cut.site.site) == Some(0.0);
    let of_model = [(a, axis_a), (b, axis_b)]
        .iter()
        .any(|(one, axis)| !axis.measured && !upright(one));
    let verdict = if angle > limit.limit_deg {
        Verdict::Short
    } else if of_model {
        Verdict::Unknown
    } else {
        Verdict::Clear
    };
    let mut finding = finding.verdict(verdict).limit_angle(limit.limit_deg);
    finding.value = match verdict {
        Verdict::Unknown => Known::Unknown(vec![Reason::ArchAngleOnly(angle)]),
        _ => Known::Is(Quantity::Angle(angle)),
    };
    finding.basis = if of_model {
        Basis::ArchModel
    } else {
        Basis::Entered
    };
    finding.limit_source = Some(limit.source.clone());
    let own = a.cut.site.case.limits.own_angle_if_stricter();
    finding.loosened = own.map(|own| Loosened {
        limit: "convergence",
        own: Quantity::Angle(own),
    });
    finding
}
