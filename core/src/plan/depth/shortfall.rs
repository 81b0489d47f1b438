//! Cuts that end so far above their planned depth that the implant does not seat.

use crate::case::{LimitId, Rule, SitePlace};
use crate::kit::DepthRule;
use crate::measure::Length;
use crate::plan::depth::context::{StepContext, StepPath};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Figure, Sign, sum};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, RoundedTo};
use crate::plan::term_name::TermName;

/// A step that is to end at its depth, with how far above that it ends.
struct End<'a> {
    step: StepContext<'a>,
    sheet: &'a StepSheet,
    above: Figure,
}

impl End<'_> {
    /// True if another drill of the bore that is to go as deep takes what this one leaves: a wider one, or
    /// one as wide that ends lower or comes later.
    fn is_overtaken(&self, place: usize, all: &[End<'_>]) -> bool {
        let rank = |end: &End<'_>, place: usize| {
            let depth = end.sheet.prep.length().zip(end.above.length());
            let ends = depth.map(|(depth, above)| depth - above);
            (end.step.drill.cutting_diameter_mm, ends, place)
        };
        let goes_as_deep = |other: &End<'_>| match self.sheet.depth {
            DepthRule::Full {} => other.sheet.is_full_depth(),
            DepthRule::ShortOfFull { .. } => other.tip() >= self.tip(),
            DepthRule::BelowPlatform { .. } => false,
        };
        all.iter().enumerate().any(|(other_place, other)| {
            other.step.drill.kind.makes_the_bore()
                && goes_as_deep(other)
                && rank(other, other_place) > rank(self, place)
        })
    }

    /// Depth of its tip below the platform as planned.
    fn tip(&self) -> Option<Length> {
        Some(self.sheet.prep.length()? + self.step.drill.datum_from_tip())
    }
}

/// The steps of a site that end too far above their planned depth, whatever that is. What a drill leaves that another takes
/// after all keeps nothing from seating: of those to full depth the widest counts.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let site = &cut.site;
    let ends: Vec<End<'_>> = site
        .steps()
        .zip(cut.steps)
        .map(|(step, sheet)| End {
            step,
            sheet,
            above: ends_above(cut, &step, sheet),
        })
        .collect();
    for (place, end) in ends.iter().enumerate() {
        // A step without a setting is told as such.
        let Some(above) = end.above.length() else {
            continue;
        };
        if end.is_overtaken(place, &ends) {
            continue;
        }
        let path = site.at(SitePlace::Step(end.step.step.id.clone()));
        let finding = Finding::new(Rule::EndsShort, path)
            .arg("drill", &end.step.drill.name)
            .figure(end.above.clone())
            .rounded_to(RoundedTo::More);
        out.extend(finding.above(&site.case.limits, LimitId::Shortfall, above));
    }
}

/// What of each step's depth is not drilled, as far as that is known: what its stop or mark takes, the crest on which that
/// lands, and a guide that seats higher. A step without a setting is told by itself.
pub(in crate::plan) fn lost(cut: &SiteCuts<'_>) -> Vec<Length> {
    let ends = cut.site.steps().zip(cut.steps);
    let lost = ends.map(|(step, sheet)| {
        let above = ends_above(cut, &step, sheet).length();
        above.or(sheet.shortfall.length()).unwrap_or_default()
    });
    lost.collect()
}

/// Height lost by the setting, with what a guide that seats higher and an uneven crest add.
pub(in crate::plan) fn ends_above(
    cut: &SiteCuts<'_>,
    step: &StepContext<'_>,
    sheet: &StepSheet,
) -> Figure {
    let site = &cut.site;
    let mut terms = vec![sheet.shortfall.as_term(TermName::Shortfall, Sign::Plus)];
    if step.path == StepPath::Freehand {
        // A stop lands on what stands highest; a mark is read where it is to be.
        if step.stop.is_some() {
            terms.push(site.crest());
            terms.push(site.freehand_datum_term().minus());
        }
    } else {
        terms.extend(site.receipt_excess_term());
    }
    let id = site
        .at(SitePlace::Step(sheet.id.clone()))
        .field("ends_above_mm");
    sum(id, FigureRule::EndsShort, terms)
}
