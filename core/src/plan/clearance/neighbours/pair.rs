//! Two planned implants: between their platforms, between their bodies, the angle between them.

use super::beside_model::{beside_axes, beside_model};
use super::between_heights::{MeasuredFrom, bounded, is_the_least};
use super::between_platforms;
use super::disagree::disagreement;
use super::least::{LeastMargin, least_measured};
use super::{Between, PlacedSite, model_term, of_model, unknown_for_kind};
use crate::case::{DistanceTo, Field, Height, LimitId, Place, Rule, SitePlace};
use crate::measure::{Angle, Length};
use crate::plan::clearance::crest;
use crate::plan::clearance::space::{self, Axis};
use crate::plan::clearance::walls::{HeightCoverage, radius_term};
use crate::plan::depth::cuts::judged;
use crate::plan::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{CommonCause, Finding, Loosened, Verdict};
use crate::plan::term_name::TermName;

/// Two sites. With a tooth between them, only what was measured between them or is short is
/// reported: that nobody measured past a tooth is no gap. One of unknown kind may part nothing: what would be open
/// without it is unknown for that. Past another site, what was entered
/// between them or is short.
pub(super) fn pair_findings(
    a: &PlacedSite<'_>,
    b: &PlacedSite<'_>,
    between: Between,
    out: &mut Vec<Finding>,
) {
    let other = &b.cut.site.site.id;
    let path = a.cut.site.at(SitePlace::ToSite(other.clone(), None));
    let finding = |rule| Finding::new(rule, path.clone()).arg("other", other);
    let measured = |heights: &[Height]| measured_between(a, b, heights);
    let all = measured(&[Height::Crest, Height::Mid, Height::Apex, Height::Least]);
    let any_entered = !all.is_empty();
    // What the limit between the platforms lets pass is a body's too, where that of the bodies is stricter; and where anything was
    // measured along the bodies, the neck is of them.
    let strict =
        a.cut.limit(LimitId::NeighbourImplant) < a.cut.limit(LimitId::NeighbourImplantBody);
    let below = &[Height::Mid, Height::Apex, Height::Least][..];
    let along = if strict || !measured(below).is_empty() {
        &[Height::Crest, Height::Mid, Height::Apex, Height::Least][..]
    } else {
        below
    };
    // The least over the length is of the platforms only where nothing was measured there.
    let platforms = if measured(&[Height::Crest]).is_empty() {
        &[Height::Crest, Height::Least][..]
    } else {
        &[Height::Crest][..]
    };
    for (rule, limit, heights, part) in [
        (
            Rule::NeighbourImplant,
            LimitId::NeighbourImplant,
            platforms,
            Part::Platform,
        ),
        (
            Rule::NeighbourImplantBody,
            LimitId::NeighbourImplantBody,
            along,
            Part::Body,
        ),
    ] {
        let id = path.clone().field(part.field());
        let found = measured(heights);
        // Where less was measured elsewhere, what is said to be the least was not measured at its closest.
        let at: Vec<Height> = found
            .iter()
            .flat_map(|(_, _, list)| list.iter())
            .filter(|one| one.at != Height::Least || is_the_least(one, &all))
            .map(|one| one.at)
            .collect();
        let given = a.cut.limit(limit);
        let margin = found
            .iter()
            .map(|(from, to, list)| {
                least_measured(from, list, &path, Some(to), part.extent(&at), given)
            })
            .reduce(LeastMargin::and)
            .map(|least| least.figure(&path, id.clone()))
            .map(|margin| match part {
                Part::Platform => between_platforms::bounded(margin, (a, b), &found, given),
                Part::Body => bounded(margin, &all, given),
            });
        let model = || pair_from_axes(a, b, part, id.clone());
        let margin = match margin {
            None => model(),
            Some(margin) if measured_axes(a, b).is_some() => beside_axes(margin, model()),
            Some(margin) => beside_model(margin, model, given, &[a, b]),
        };
        let mut finding = judged(finding(rule), &a.cut.site, limit, margin);
        let unmeasured = finding.verdict == Verdict::Unknown && measured(heights).is_empty();
        let tell = match between {
            Between::Nothing => true,
            Between::Tooth => !unmeasured,
            Between::OfUnknownKind(tooth) => {
                if unmeasured {
                    finding = unknown_for_kind(finding, tooth);
                }
                true
            }
            Between::Site => finding.verdict == Verdict::Short || any_entered,
        };
        if tell {
            out.push(finding);
        }
    }
    if let Some((least, most)) = disagreement(a, b) {
        out.push(
            finding(Rule::DistancesDisagree)
                .verdict(Verdict::Unknown)
                .arg("least", least)
                .arg("most", most),
        );
    }
    let is_next = matches!(between, Between::Nothing | Between::OfUnknownKind(_));
    if is_next || any_entered {
        out.extend(guide_left(a, b, &finding));
    }
    match between {
        Between::Nothing => out.push(convergence(a, b, finding(Rule::Convergence))),
        Between::OfUnknownKind(tooth) => {
            let told = convergence(a, b, finding(Rule::Convergence));
            if told.verdict != Verdict::Clear {
                out.push(unknown_for_kind(told, tooth));
            }
        }
        Between::Tooth | Between::Site => {}
    }
}

/// What was entered between the two at these heights, at either of them.
fn measured_between<'a>(
    a: &'a PlacedSite<'a>,
    b: &'a PlacedSite<'a>,
    heights: &[Height],
) -> Vec<MeasuredFrom<'a>> {
    [(a, b), (b, a)]
        .into_iter()
        .map(|(from, to)| {
            let site = to.cut.site.site.id.clone();
            let to_it = DistanceTo::Site { site };
            let list = from.cut.site.site.distances.iter();
            let list = list.filter(|d| d.to == to_it && heights.contains(&d.at));
            (from, to, list.collect::<Vec<_>>())
        })
        .filter(|(_, _, list)| !list.is_empty())
        .collect()
}

/// That the guide was left at one of the two, or at both: what lies between them is led by nothing from there.
fn guide_left(
    a: &PlacedSite<'_>,
    b: &PlacedSite<'_>,
    finding: &impl Fn(Rule) -> Finding,
) -> Option<Finding> {
    let (left, at) = match [a, b].map(|one| crest::is_left(&one.cut.site)) {
        [true, false] => ("one", a),
        [false, true] => ("one", b),
        [true, true] => ("both", a),
        [false, false] => return None,
    };
    let left_at = &at.cut.site.site.id;
    let finding = finding(Rule::GuideLeft)
        .verdict(Verdict::Unknown)
        .arg("where", left)
        .arg("left", left_at);
    Some(finding.hanging_on(Some(CommonCause::GuideLeft(left_at.clone()))))
}

/// The part of two implants that a distance is between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// The platforms.
    Platform,
    /// The bodies with all that is cut.
    Body,
}

impl Part {
    const fn field(self) -> &'static str {
        match self {
            Self::Platform => "platform_margin_mm",
            Self::Body => "body_margin_mm",
        }
    }

    /// The share of the part that a measurement at these heights covers.
    fn extent(self, at: &[Height]) -> HeightCoverage {
        match self {
            // Any height at which it is measured will do: it is one plane.
            Self::Platform if !at.is_empty() => HeightCoverage::Plane,
            Self::Platform => HeightCoverage::Part,
            Self::Body => HeightCoverage::of(&[at, &[Height::Crest]].concat()),
        }
    }
}

/// Their axes, where both were measured.
pub(super) fn measured_axes(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Option<(Axis, Axis)> {
    a.axis.zip(b.axis).filter(|(a, b)| a.measured && b.measured)
}

/// Between two axes. Between the platforms the level distance counts, seen from above or along
/// either axis, whichever is least: the limit is of bone beside the necks, and a platform that is
/// deeper than the other is no farther aside for that.
fn pair_from_axes(a: &PlacedSite<'_>, b: &PlacedSite<'_>, part: Part, id: Field) -> Figure {
    let (Some(axis_a), Some(axis_b)) = (a.axis, b.axis) else {
        return Figure::of_length(
            id,
            FigureRule::PairAxes,
            Known::missing(Place::Arch),
            Vec::new(),
        );
    };
    let ends = a.cut.deepest().and(b.cut.deepest());
    let radii = a.cut.widest_radius().and(b.cut.widest_radius());
    let both_measured = axis_a.measured && axis_b.measured;
    let (axis_a, axis_b) = if both_measured {
        (axis_a, axis_b)
    } else {
        (axis_a.levelled(), axis_b.levelled())
    };
    let between = ends.map(|(end_a, end_b)| {
        Length::floor_mm(match part {
            Part::Platform => space::beside_each_other(&axis_a, &axis_b),
            Part::Body => space::segment_distance(&axis_a, end_a.mm(), &axis_b, end_b.mm()),
        })
    });
    let margin = between.clone().and(radii);
    let margin = margin.map(|(between, (radius_a, radius_b))| between - radius_a - radius_b);
    let value = if both_measured {
        margin.margin()
    } else {
        of_model(margin.margin())
    };
    let rule = match part {
        Part::Platform => FigureRule::PairPlatforms,
        Part::Body => FigureRule::PairAxes,
    };
    let terms = if both_measured {
        let between = Term {
            name: TermName::BetweenAxes,
            sign: Sign::Plus,
            from: Origin::Rule(rule),
            value: between.known().map(Quantity::Length),
            basis: Basis::Measured,
        };
        let radius =
            |one: &PlacedSite<'_>| radius_term(one.cut.widest_radius().known(), Sign::Minus);
        vec![between, radius(a), radius(b)]
    } else {
        vec![model_term(a)]
    };
    Figure::of_length(id, rule, value, terms)
}

/// The angle between the axes of two neighbouring implants against the restorative limit. Which way
/// mesial is only the arch model says, but however the arch turns between two sites, the angle is never
/// more than the sum of their tilts.
fn convergence(a: &PlacedSite<'_>, b: &PlacedSite<'_>, finding: Finding) -> Finding {
    let unknown = |at| {
        let value = Known::missing(at);
        Finding {
            value,
            ..finding.clone().verdict(Verdict::Unknown)
        }
    };
    let Some(limit) = a.cut.site.case.limits.convergence.as_ref() else {
        return unknown(Place::Convergence);
    };
    let axes = a.axis.zip(b.axis);
    let angle = axes.map(|(a, b)| Angle::ceil_radians(space::angle_between(&a, &b)));
    let tilts = space::apical_tilt(a.cut.site, a.axis).zip(space::apical_tilt(b.cut.site, b.axis));
    let most = tilts.map(|(a, b)| Angle::ceil_radians(a + b));
    // Upright axes and measured ones do not ask the model.
    let is_exact = |one: &PlacedSite<'_>| {
        one.axis.is_some_and(|axis| axis.measured)
            || one.cut.site.site.placement.tilt() == Some(0.0)
    };
    let is = |angle| Known::Is(Quantity::Angle(angle));
    let (verdict, value, basis) = match (angle, most) {
        (Some(angle), _) if is_exact(a) && is_exact(b) => {
            let broken = angle > limit.limit_deg;
            let verdict = if broken {
                Verdict::Short
            } else {
                Verdict::Clear
            };
            (verdict, is(angle), Basis::Entered)
        }
        (_, Some(most)) if most <= limit.limit_deg => (Verdict::Clear, is(most), Basis::Estimated),
        (Some(angle), _) if angle > limit.limit_deg => {
            (Verdict::Short, is(angle), Basis::ArchModel)
        }
        (Some(angle), _) => {
            let reason = Reason::ArchAngleOnly(angle);
            (
                Verdict::Unknown,
                Known::Unknown(vec![reason]),
                Basis::ArchModel,
            )
        }
        (None, _) => return unknown(Place::Arch),
    };
    let mut finding = finding.verdict(verdict).limit_angle(limit.limit_deg);
    (finding.value, finding.basis) = (value, basis);
    finding.limit_source = Some(limit.source.clone());
    let own = a.cut.site.case.limits.own_angle_if_stricter();
    finding.loosened = own.map(|own| Loosened {
        limit: "convergence",
        own: Quantity::Angle(own),
    });
    finding
}
