//! The platform against the crest, and whether the crest is that of the scan.

use crate::case::{BoneThen, Rule, SiteHeight, SitePlace, SiteState};
use crate::measure::Length;
use crate::plan::depth::context::{SiteContext, StepContext};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{CommonCause, Finding, Verdict};

/// Height of the platform above the whole crest beyond which it is asked whether that is meant.
/// Common practice, no source. Collars that stand out of the bone are higher; those are accepted.
const MOST_ABOVE_CREST: Length = Length::from_mm(1);

/// The same above the lowest crest: on one side the body stands out of the bone by that much. Common practice,
/// no source: beyond it bone is built up, or the platform set deeper.
const MOST_ABOVE_LOWEST: Length = Length::from_mm(2);

/// The same from where on it is told. Common practice, no source.
const TOLD_ABOVE_LOWEST: Length = Length::from_mm(1);

/// A platform that stands above the bone all around, or far above it on one side. A depth below the crest that was entered with
/// the wrong sign looks so, and leaves twice as much to whatever counts from the crest.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let site = &cut.site;
    out.extend(scan_before_graft(site));
    out.extend(guide_left(site));
    let Some(above) = site.highest_crest().get().map(|crest| -crest) else {
        return;
    };
    let crest = site.site.heights.platform_below_crest;
    let lowest = crest.map_or(above, |crest| -crest.lowest_mm);
    let unknown = Verdict::Unknown;
    let (crest, verdict, above, most) = if above > MOST_ABOVE_CREST {
        ("whole", unknown, above, MOST_ABOVE_CREST)
    } else if lowest > MOST_ABOVE_LOWEST {
        ("lowest", unknown, lowest, MOST_ABOVE_LOWEST)
    } else if lowest > TOLD_ABOVE_LOWEST {
        ("one_side", Verdict::Note, lowest, TOLD_ABOVE_LOWEST)
    } else {
        return;
    };
    let place = site.at(SitePlace::Height(SiteHeight::PlatformBelowCrest));
    out.push(
        Finding::new(Rule::PlatformAboveCrest, place)
            .verdict(verdict)
            .length(above)
            .limit(most)
            .arg("crest", crest),
    );
}

/// True if the guide was left at a site before all went through it that it was to lead there.
pub(super) fn is_left(site: &SiteContext<'_>) -> bool {
    let mut as_planned = site.site.clone();
    as_planned.without_guide = None;
    let by_hand = |step: &StepContext<'_>| {
        let kind = step.drill.kind;
        as_planned.leads_step(step.step, kind) && !site.site.leads_step(step.step, kind)
    };
    let implant = as_planned.leads_implant() && !site.site.leads_implant();
    site.site.without_guide.is_some() && (implant || site.steps().any(|step| by_hand(&step)))
}

/// A site at which the guide was left during surgery: place and axis are by hand from there on.
fn guide_left(site: &SiteContext<'_>) -> Option<Finding> {
    let finding = Finding::new(Rule::GuideLeft, site.at(SitePlace::Whole));
    let cause = CommonCause::GuideLeft(site.site.id.clone());
    let id = &site.site.id;
    let finding = finding
        .arg("where", "here")
        .arg("left", id)
        .arg("other", id);
    let finding = finding.hanging_on(Some(cause));
    is_left(site).then(|| finding.verdict(Verdict::Unknown))
}

/// Bone that was grafted after the scan, or of which nobody knows whether it was: what was measured
/// on the scan is of the bone before.
fn scan_before_graft(site: &SiteContext<'_>) -> Option<Finding> {
    let SiteState::Grafted { on } = site.site.state else {
        return None;
    };
    let scan = match site.case.guide.scan_date {
        None => "none".to_owned(),
        Some(_) => site.before_graft(BoneThen::default())?.1.to_string(),
    };
    let place = site.at(SitePlace::Heights);
    Some(
        Finding::new(Rule::ScanBeforeGraft, place)
            .verdict(Verdict::Unknown)
            .arg("graft", on.to_string())
            .arg("scan", scan),
    )
}
