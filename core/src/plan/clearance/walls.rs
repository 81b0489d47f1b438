//! Bone left between cut and wall, on the buccal and oral side.

use crate::case::{Height, LimitId, MeasuredAt, Rule, SitePlace, Wall, WallSide};
use crate::dentition::Jaw;
use crate::measure::Length;
use crate::plan::clearance::socket::inner_face;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::partial::PartlyKnown;
use crate::plan::depth::stale::{reach, stale_wall};
use crate::plan::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::term_name::TermName;

/// The walls of a site: each measured one, and what was not measured.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    for (side, limit) in [
        (WallSide::Buccal, LimitId::BuccalWall),
        (WallSide::Oral, LimitId::OralWall),
    ] {
        let measured: Vec<&Wall> = cut
            .site
            .site
            .walls
            .iter()
            .filter(|wall| wall.side == side)
            .collect();
        let extent =
            HeightCoverage::of_measured(measured.iter().map(|wall| (wall.at, wall.from_axis_mm)));
        for wall in &measured {
            out.push(measured_wall(cut, wall, extent, limit));
        }
        if measured.is_empty() {
            out.push(missing(cut, Rule::WallNotMeasured, side));
        } else if side == WallSide::Oral
            && is_posterior_lower(cut)
            && measured.iter().all(|wall| wall.at == Height::Crest)
        {
            // Below the crest the lingual side of a posterior lower jaw may be undercut, and
            // vessels run there.
            out.push(missing(cut, Rule::OralProfileNotMeasured, side));
        }
    }
}

fn is_posterior_lower(cut: &SiteCuts<'_>) -> bool {
    cut.site.case.jaw == Jaw::Lower && cut.site.site.tooth.number() >= 4
}

fn missing(cut: &SiteCuts<'_>, rule: Rule, side: WallSide) -> Finding {
    let path = cut.site.at(SitePlace::WallSide(side));
    let mut finding = Finding::new(rule, path.clone())
        .verdict(Verdict::Unknown)
        .arg("side", side);
    finding.value = Known::missing(path);
    finding
}

fn measured_wall(
    cut: &SiteCuts<'_>,
    wall: &Wall,
    extent: HeightCoverage,
    limit: LimitId,
) -> Finding {
    let implant = cut.site.implant;
    let below_platform = match wall.at {
        Height::Crest | Height::Least => Length::ZERO,
        Height::Mid => implant.platform_to_apex_mm.half_floor(),
        Height::Apex => implant.platform_to_apex_mm,
    };
    let path = cut.site.at(SitePlace::Wall(wall.side, wall.at));
    let entered = Term::case(
        TermName::AxisToWall,
        path.clone().into(),
        Some(wall.from_axis_mm),
        Basis::of(wall.measured_at.confirmed.as_ref()),
    );
    let radius = match wall.at {
        Height::Crest | Height::Least => cut.widest_radius(),
        Height::Mid | Height::Apex => cut.radius_from(below_platform),
    };
    let inner = inner_face(&cut.site, wall);
    let left = radius.clone().and(inner.clone());
    let left = left.map(|(radius, inner)| wall.from_axis_mm - radius.max(inner));
    let left = extent.bound(cut, &wall.measured_at, wall.at, left.margin());
    let bone = wall.measured_at.bone_then;
    let (value, taken) = match stale_wall(&cut.site, wall) {
        _ if cut.site.before_graft(bone).is_some() => (
            Known::Unknown(vec![Reason::BeforeGraft(path.clone())]),
            None,
        ),
        // Of another bone is said as such.
        _ if cut.site.is_undated(bone) && !cut.site.is_other_bone(bone) => (
            Known::Unknown(vec![Reason::ScanUndated(path.clone())]),
            None,
        ),
        None => (left, None),
        Some(stale) => {
            let reach = cut.reach(reach(&cut.site, &wall.measured_at, wall.at));
            stale.leaves(path.clone(), &left, &[reach], cut.limit(limit))
        }
    };
    let mut terms = vec![entered, radius_term(radius.clone().known(), Sign::Minus)];
    // What the socket leaves open beyond the body.
    let open = radius.and(inner.clone());
    let open = open.map(|(radius, inner)| (inner - radius).max(Length::ZERO));
    if inner != PartlyKnown::whole(Length::ZERO) {
        terms.push(Term {
            name: TermName::SocketGap,
            sign: Sign::Minus,
            from: Origin::Case(cut.site.at(SitePlace::SocketGap).into()),
            value: open.known().map(Quantity::Length),
            basis: Basis::of(cut.site.site.state.gap_confirmed()),
        });
    }
    terms.extend(taken);
    let margin = Figure::of_length(
        path.clone().field("margin_mm"),
        FigureRule::Wall,
        value,
        terms,
    );
    cut.margin(Rule::Wall, path, limit, margin)
        .arg("side", wall.side)
        .arg("height", wall.at)
}

/// The share of the implant's length that the heights measured on one side, or to one neighbour,
/// cover.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum HeightCoverage {
    /// All of it.
    Whole,
    /// Some heights of it; nobody measured the rest.
    Part,
    /// Only one plane of it counts, and that was measured.
    Plane,
}

impl HeightCoverage {
    /// The extent that these heights cover: the least over the length, or crest, middle and apex.
    pub(in crate::plan) fn of(at: &[Height]) -> Self {
        let each = [Height::Crest, Height::Mid, Height::Apex];
        if at.contains(&Height::Least) || each.iter().all(|height| at.contains(height)) {
            Self::Whole
        } else {
            Self::Part
        }
    }

    /// The extent of what was measured. Where less was measured elsewhere, the least was not measured
    /// at its closest, and covers nothing.
    pub(in crate::plan) fn of_measured(
        measured: impl Iterator<Item = (Height, Length)> + Clone,
    ) -> Self {
        let closest = measured.clone().map(|(_, from_axis)| from_axis).min();
        let counts = |(at, from_axis): &(Height, Length)| {
            *at != Height::Least || Some(*from_axis) == closest
        };
        let at: Vec<Height> = measured.filter(counts).map(|(at, _)| at).collect();
        Self::of(&at)
    }

    /// A margin at one of these heights, which alone only bounds what is left where they are not
    /// the whole length, or where the cut goes deeper than the lowest of them.
    pub(in crate::plan) fn bound(
        self,
        cut: &SiteCuts<'_>,
        then: &MeasuredAt,
        at: Height,
        margin: Known<Length>,
    ) -> Known<Length> {
        match (self, margin, at) {
            (Self::Part, Known::Is(left), Height::Least) => {
                Known::Unknown(vec![Reason::NotTheLeast(left)])
            }
            (Self::Part, Known::Is(left), _) => Known::Unknown(vec![Reason::SomeHeightsOnly(left)]),
            (Self::Whole, margin, Height::Apex | Height::Least) => cut.as_deep_as(then, margin),
            (_, margin, _) => margin,
        }
    }
}

/// The radius that implant and cuts take, as a term.
pub(super) fn radius_term(radius: Known<Length>, sign: Sign) -> Term {
    Term {
        name: TermName::Radius,
        sign,
        from: Origin::Rule(FigureRule::Radius),
        value: radius.map(Quantity::Length),
        basis: Basis::Measured,
    }
}
