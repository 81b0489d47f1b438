//! The common parts of the clearances: a margin against a named limit, and the width of the cut.

use crate::case::{LimitId, MeasuredAt, Place, Rule, SitePlace, WithoutGuide};
use crate::measure::Length;
use crate::plan::depth::context::SiteContext;
use crate::plan::depth::partial::PartlyKnown;
use crate::plan::depth::stale::{Reach, deeper_since};
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Figure, Known, Quantity, Reason};
use crate::plan::finding::{Finding, Verdict, at_most, least_left, margin_verdict};

/// A site with its steps worked out.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct SiteCuts<'a> {
    pub(in crate::plan) site: SiteContext<'a>,
    pub(in crate::plan) steps: &'a [StepSheet],
}

/// One drill's cut.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct Bore {
    pub(in crate::plan) depth: Length,
    pub(in crate::plan) point: Length,
    pub(in crate::plan) diameter: Length,
}

impl SiteCuts<'_> {
    /// The cuts of the site that are known, as the guide at hand leads them, with what is in the bone already, lacking those that
    /// are not. Of a site without steps nobody knows what will be cut.
    pub(in crate::plan) fn bores(&self) -> PartlyKnown<Vec<Bore>> {
        let mut bores = Vec::with_capacity(self.steps.len());
        let mut lacks = Vec::new();
        if self.steps.is_empty() {
            lacks.push(Reason::Missing(self.site.at(SitePlace::Steps)));
        }
        let site = self.site.site;
        let left = site.without_guide.as_ref();
        if left.is_some_and(WithoutGuide::is_cut_unknown) {
            lacks.push(Reason::CutThroughGuide(site.id.clone()));
        }
        for before in self.site.cut_before() {
            match before.tip(site, self.site.case) {
                Some(depth) => bores.push(Bore {
                    depth,
                    point: before.point_mm,
                    diameter: before.diameter_mm,
                }),
                None => lacks.push(Reason::CutBefore(site.id.clone())),
            }
        }
        for sheet in self.steps {
            match sheet.cut.known_length() {
                Known::Is(depth) => bores.push(Bore {
                    depth,
                    point: sheet.point,
                    diameter: sheet.diameter,
                }),
                Known::Unknown(reasons) => lacks.extend(reasons),
            }
        }
        PartlyKnown::whole(bores).lacking(&lacks)
    }

    /// The deepest of the implant and the known cuts.
    pub(in crate::plan) fn deepest(&self) -> PartlyKnown<Length> {
        self.bores().map(|bores| {
            bores
                .iter()
                .map(|bore| bore.depth)
                .fold(self.site.implant_end(), Length::max)
        })
    }

    /// The radius that the implant and the known cuts take at or below a depth under the planned
    /// platform, rounded up.
    pub(in crate::plan) fn radius_from(&self, below_platform: Length) -> PartlyKnown<Length> {
        let implant = self.site.implant;
        // A guide that seats lower lets it down by as much.
        let down_the_implant = (below_platform - self.site.implant_deficit()).max(Length::ZERO);
        self.bores().map(|bores| {
            bores
                .iter()
                .filter(|bore| bore.depth >= below_platform)
                .map(|bore| bore.diameter)
                .fold(implant.widest_from(down_the_implant), Length::max)
                .half_ceil()
        })
    }

    /// The widest radius of the implant and the known cuts.
    pub(in crate::plan) fn widest_radius(&self) -> PartlyKnown<Length> {
        self.radius_from(Length::ZERO)
            .map(|radius| radius.max(self.site.implant.largest_diameter_mm.half_ceil()))
    }

    /// The point of the body farthest from the platform, so far along the axis: on the side of what is
    /// widest.
    pub(in crate::plan) fn reach(&self, along: Length) -> Reach {
        let widest = self.widest_radius().known();
        (along, widest.get().unwrap_or_default())
    }

    /// A limit of the case.
    pub(in crate::plan) fn limit(&self, id: LimitId) -> Option<Length> {
        let limit = self.site.case.limits.get(id)?;
        Some(limit.limit_mm)
    }

    /// A margin that was measured over the length, or at its end: below what was measured nobody
    /// knows what a cut leaves that is deeper, or was carried deeper since.
    pub(in crate::plan) fn as_deep_as(
        &self,
        then: &MeasuredAt,
        margin: Known<Length>,
    ) -> Known<Length> {
        let (_, widest) = self.reach(Length::ZERO);
        let deeper = deeper_since(&self.site, then, widest).unwrap_or_default();
        match (margin, self.deepest().known()) {
            (Known::Is(left), Known::Is(deepest)) if deepest + deeper > then.depth() => {
                let site = self.site.site.id.clone();
                Known::Unknown(vec![Reason::MeasuredLessDeep(left, site)])
            }
            (margin, _) => margin,
        }
    }

    /// A clearance of this site: a margin against a limit of the case.
    pub(in crate::plan) fn margin(
        &self,
        rule: Rule,
        place: Place,
        limit: LimitId,
        margin: Figure,
    ) -> Finding {
        judged(Finding::new(rule, place), &self.site, limit, margin)
    }
}

/// A finding with its margin held against a limit of the case.
///
/// A margin known only from the arch model, an axis-wise height, some of the heights or some of the
/// cuts is short where it breaks the limit and unknown otherwise, never clear.
pub(in crate::plan) fn judged(
    finding: Finding,
    site: &SiteContext<'_>,
    limit: LimitId,
    margin: Figure,
) -> Finding {
    let Some(given) = site.case.limits.get(limit) else {
        let mut finding = finding.figure(margin).verdict(Verdict::Unknown);
        finding.value = Known::missing(Place::Limit(limit));
        return finding;
    };
    // However little the case asks for: less than can be told from contact is clear of nothing.
    let needed = least_left(&finding).map_or(given.limit_mm, |least| given.limit_mm.max(least));
    let most = at_most(&margin.value);
    let verdict = match (margin.length(), most) {
        (Some(value), _) => margin_verdict(value, needed, None),
        (None, Some(value)) if value < needed => Verdict::Short,
        (None, _) => Verdict::Unknown,
    };
    let mut finding = finding
        .figure(margin)
        .verdict(verdict)
        .held_to(&site.case.limits, limit)
        .limit(needed);
    if needed > given.limit_mm {
        // It is not the case's.
        finding.limit_source = None;
    }
    if let (Verdict::Short, Some(value)) = (verdict, most) {
        finding.value = Known::Is(Quantity::Length(value));
    }
    finding
}
