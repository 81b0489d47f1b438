//! What the clearances have in common: a margin against a named limit, and how wide the cut is.

use super::context::{SiteContext, StepPath};
use super::depth::StepSheet;
use super::figure::{Figure, Known, Quantity, Reason};
use super::finding::{Finding, Subject, Verdict, margin_verdict};
use crate::case::{GuidedExtent, LimitId};
use crate::measure::Length;

/// A site with its steps worked out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cut<'a> {
    pub(super) site: SiteContext<'a>,
    pub(super) steps: &'a [StepSheet],
}

/// One drill's cut.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bore {
    pub(super) depth: Length,
    pub(super) point: Length,
    pub(super) diameter: Length,
}

impl Cut<'_> {
    /// How much deeper than planned this step cuts by what was measured on the guide.
    pub(super) fn deficit(&self, sheet: &StepSheet) -> Length {
        match sheet.path {
            StepPath::Freehand => Length::ZERO,
            StepPath::DrillSleeve | StepPath::MasterSleeve => self.site.receipt_deficit(),
        }
    }

    /// The same for the implant, which the guide leads only where it is to.
    pub(super) fn implant_deficit(&self) -> Length {
        match self.site.site.guided_extent {
            GuidedExtent::DrillingAndImplant => self.site.receipt_deficit(),
            GuidedExtent::PilotOnly | GuidedExtent::AllDrilling => Length::ZERO,
        }
    }

    /// All cuts of the site as the guide at hand leads them, or why one of them is not known. Of a site without steps nobody knows
    /// what will be cut.
    pub(super) fn bores(&self) -> Known<Vec<Bore>> {
        if self.steps.is_empty() {
            return Known::missing(self.site.field("steps"));
        }
        let mut bores = Known::Is(Vec::new());
        for (step, sheet) in self.site.steps().zip(self.steps) {
            let one = sheet.cut.known_length().map(|depth| Bore {
                depth: depth + self.deficit(sheet),
                point: sheet.point,
                diameter: step.drill.cutting_diameter_mm,
            });
            bores = bores.and(one).map(|(mut bores, bore)| {
                bores.push(bore);
                bores
            });
        }
        bores
    }

    /// The deepest of cuts and implant.
    pub(super) fn deepest(&self) -> Known<Length> {
        self.bores().map(|bores| {
            bores.iter().map(|bore| bore.depth).fold(
                self.site.implant.platform_to_apex_mm + self.implant_deficit(),
                Length::max,
            )
        })
    }

    /// The radius that implant and cuts take at or below a depth under the platform, rounded up.
    pub(super) fn radius_from(&self, below_platform: Length) -> Known<Length> {
        let implant = self.site.implant;
        self.bores().map(|bores| {
            bores
                .iter()
                .filter(|bore| bore.depth >= below_platform)
                .map(|bore| bore.diameter)
                .fold(implant.widest_from(below_platform), Length::max)
                .half_ceil()
        })
    }

    /// The widest radius of implant and cuts.
    pub(super) fn widest_radius(&self) -> Known<Length> {
        self.radius_from(Length::ZERO)
            .map(|radius| radius.max(self.site.implant.largest_diameter_mm.half_ceil()))
    }

    /// A clearance of this site: a margin against a limit of the case.
    pub(super) fn margin(
        &self,
        rule: &'static str,
        path: String,
        limit: LimitId,
        margin: Figure,
    ) -> Finding {
        judged(
            Finding::new(Subject::Clearance, rule, path).at_site(&self.site.site.id),
            &self.site,
            limit,
            margin,
        )
    }
}

/// A finding with its margin held against a limit of the case.
///
/// What only the arch model, an axis-wise height or some of the heights say is short where it breaks the limit and
/// unknown otherwise, never clear.
pub(super) fn judged(
    finding: Finding,
    site: &SiteContext<'_>,
    limit: LimitId,
    margin: Figure,
) -> Finding {
    let Some(given) = site.case.limits.get(limit) else {
        let mut finding = finding.figure(margin).verdict(Verdict::Unknown);
        finding.value = Known::missing(format!("limits.{}", limit.key()));
        return finding;
    };
    let lower_bound = match &margin.value {
        Known::Unknown(reasons) => reasons.iter().find_map(|reason| match reason {
            Reason::ArchModelOnly(value)
            | Reason::AlongTiltedAxis(value)
            | Reason::SomeHeightsOnly(value) => Some(*value),
            _ => None,
        }),
        Known::Is(_) => None,
    };
    let verdict = match (margin.length(), lower_bound) {
        (Some(value), _) => margin_verdict(value, given.limit_mm, None),
        (None, Some(value)) if value < given.limit_mm => Verdict::Short,
        (None, _) => Verdict::Unknown,
    };
    let mut finding = finding
        .figure(margin)
        .verdict(verdict)
        .limit(given.limit_mm);
    if let (Verdict::Short, Some(value)) = (verdict, lower_bound) {
        finding.value = Known::Is(Quantity::Length(value));
    }
    finding.limit_source = Some(given.source.clone());
    finding
}
