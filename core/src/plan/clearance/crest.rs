//! The platform against the crest, and whether the crest is that of the scan.

use crate::case::{BoneThen, Rule, SiteHeight, SitePlace, SiteState};
use crate::measure::Length;
use crate::plan::depth::context::SiteContext;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{Finding, Verdict};

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

/// A site at which the guide was left during surgery: place and axis are by hand from there on.
fn guide_left(site: &SiteContext<'_>) -> Option<Finding> {
    site.site.without_guide.as_ref()?;
    let finding = Finding::new(Rule::GuideLeft, site.at(SitePlace::Whole));
    Some(finding.verdict(Verdict::Unknown))
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
