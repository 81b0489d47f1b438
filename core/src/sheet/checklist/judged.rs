//! Findings that the surgeon accepted or intends, under the line at which a hand meets them.

use super::Source;
use super::pieces::SMALL;
use crate::kit::{SiteId, StepId};
use crate::plan::{Finding, Place, Severity, SitePlace, SiteSheet};
use crate::sheet::Cell;
use std::cmp::Reverse;

/// Under a step: the decisions on it, and under the site's deepest cut those of the whole site.
pub(super) fn at_step(source: &Source<'_>, site: &SiteId, step: &StepId) -> Vec<Cell> {
    let sites = &source.worksheet.sites;
    let sheet = sites.iter().find(|sheet| sheet.id == *site);
    let is_deepest = sheet.and_then(deepest) == Some(step);
    decisions(source, |finding| {
        is_of_step(finding, site, step) || is_deepest && is_of_whole(finding, site)
    })
}

/// Under the line of the implant: the decisions on its insertion.
pub(super) fn at_insertion(source: &Source<'_>, site: &SiteId) -> Vec<Cell> {
    decisions(source, |finding| match &finding.place {
        Place::Site(at, place) => at == site && is_of_insertion(place),
        _ => false,
    })
}

fn is_of_step(finding: &Finding, site: &SiteId, step: &StepId) -> bool {
    match &finding.place {
        Place::Site(at, SitePlace::Step(of)) => at == site && of == step,
        _ => false,
    }
}

const fn is_of_insertion(place: &SitePlace) -> bool {
    matches!(place, SitePlace::Insertion | SitePlace::Carrier)
}

/// True if it is of the site as a whole: neither of a step nor of the insertion of the implant.
fn is_of_whole(finding: &Finding, site: &SiteId) -> bool {
    let place = finding.place.site_place();
    let of_part = |place: &SitePlace| matches!(place, SitePlace::Step(_)) || is_of_insertion(place);
    finding.is_of(site) && !place.is_some_and(of_part)
}

/// The step that first cuts as deep as any; the last one where no cut is known.
fn deepest(sheet: &SiteSheet) -> Option<&StepId> {
    let cuts = sheet.steps.iter();
    let cuts = cuts.filter_map(|step| Some((step.cut.length()?, step)));
    let deepest = cuts.min_by_key(|(cut, _)| Reverse(*cut));
    let step = deepest.map_or_else(|| sheet.steps.last(), |(_, step)| Some(step));
    step.map(|step| &step.id)
}

fn decisions(source: &Source<'_>, wanted: impl Fn(&Finding) -> bool) -> Vec<Cell> {
    let formatter = &source.formatter;
    let judged = source.worksheet.findings.iter().filter(|finding| {
        matches!(finding.severity(), Severity::Accepted | Severity::Intended) && wanted(finding)
    });
    let words = judged.filter_map(|finding| formatter.finding(finding).decision);
    words
        .map(|words| Cell::Text(crate::wording::begin(&words), SMALL))
        .collect()
}
