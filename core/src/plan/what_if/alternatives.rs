//! Changes by a neighbouring choice: the next shorter implant, a distance at which a fixed stop
//! fits exactly.

use crate::case::{GuideState, Rule, SleeveFace};
use crate::kit::{Implant, ImplantId, Kit, StopKind};
use crate::measure::Length;
use crate::plan::depth::context::{SiteContext, StepPath};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::shortfall;
use crate::plan::depth::steps::{StepSheet, work_out_steps};
use crate::plan::figure::{Known, Reason};
use crate::plan::finding::Finding;
use crate::plan::fit::steps as fit;
use crate::plan::order::sequence_rules;
use std::collections::BTreeMap;

/// The settings that the next shorter implant would need, with the same sequence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShorterImplant {
    /// The implant.
    pub implant: ImplantId,
    /// Its steps, in the site's order; one whose instruments do not fit there has no setting.
    pub steps: Vec<StepSheet>,
    /// The findings of what does not fit, or is not known to.
    pub findings: Vec<Finding>,
}

/// The implants next to one in its family.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextImplants<'a> {
    /// The next shorter one of the same diameter.
    pub shorter: Option<&'a Implant>,
    /// The next longer one of the same diameter.
    pub longer: Option<&'a Implant>,
    /// Of the next smaller diameter the one as long, or else the longest of the shorter ones;
    /// where all are longer, the shortest of those.
    pub narrower: Option<&'a Implant>,
}

/// The implants next to one in its family, as a kit has them. Lengths are those from platform to
/// apex. Of equals the first in the kit counts.
#[must_use]
pub fn next_implants<'a>(kit: &'a Kit, implant: &Implant) -> NextImplants<'a> {
    let family = || kit.implants.iter().filter(|i| i.family == implant.family);
    let same = || family().filter(|i| i.diameter_mm == implant.diameter_mm);
    let long = implant.platform_to_apex_mm;
    let smaller = family().filter(|i| i.diameter_mm < implant.diameter_mm);
    let diameter = smaller.map(|i| i.diameter_mm).max();
    let narrow = || family().filter(|i| Some(i.diameter_mm) == diameter);
    let longest = |most: Length| {
        let fits = narrow().filter(|i| i.platform_to_apex_mm <= most);
        // `max_by_key` would take the last of equals.
        fits.rev().max_by_key(|i| i.platform_to_apex_mm)
    };
    NextImplants {
        shorter: same()
            .rev()
            .filter(|i| i.platform_to_apex_mm < long)
            .max_by_key(|i| i.platform_to_apex_mm),
        longer: same()
            .filter(|i| i.platform_to_apex_mm > long)
            .min_by_key(|i| i.platform_to_apex_mm),
        narrower: longest(long).or_else(|| narrow().min_by_key(|i| i.platform_to_apex_mm)),
    }
}

/// The next shorter implant's settings at a site, where the kit has one.
pub(in crate::plan) fn shorter(site: &SiteContext<'_>) -> Option<ShorterImplant> {
    let implant = next_implants(site.kit, site.implant).shorter?;
    let site = site.with_implant(implant);
    let mut steps = work_out_steps(&site);
    let mut findings = Vec::new();
    for (step, sheet) in site.steps().zip(&steps) {
        fit::check_step(&site, &step, sheet, &mut findings);
    }
    let cut = SiteCuts {
        site,
        steps: &steps,
    };
    shortfall::check(&cut, &mut findings);
    sequence_rules::depths(&cut, &mut findings);
    findings.retain(|finding| finding.severity().is_open());
    for sheet in &mut steps {
        let here = |finding: &Finding| finding.step.as_ref() == Some(&sheet.id);
        if findings.iter().any(here) {
            without_setting(sheet);
        }
    }
    Some(ShorterImplant {
        implant: implant.id.clone(),
        steps,
        findings,
    })
}

/// Takes back the setting of a step whose instruments do not fit, and what rests on it.
fn without_setting(sheet: &mut StepSheet) {
    let rests = [&mut sheet.set, &mut sheet.cut, &mut sheet.shortfall];
    let rests = rests.into_iter().chain(&mut sheet.gauge);
    for figure in rests.chain(&mut sheet.bench) {
        if figure.length().is_some() {
            figure.value = Known::Unknown(vec![Reason::Unfit]);
        }
    }
    sheet.mark = None;
}

/// A platform-to-sleeve distance at which fixed stops fit exactly.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FittingDistance {
    /// The distance to the master sleeve's apical face.
    pub apical_mm: Length,
    /// The same in the way in which the site's distance was entered.
    pub as_entered_mm: Length,
    /// Number of the site's steps with fixed stops that fit exactly there.
    pub exact_steps: usize,
    /// The sum of what the others fall short of.
    pub shortfall: Length,
}

/// The distances at which at least one step's fixed stop fits exactly and the tissue has room,
/// those that serve most steps first. None where the guide is made, or room is not known.
pub(in crate::plan) fn fitting_distances(cut: &SiteCuts<'_>) -> Vec<FittingDistance> {
    let site = &cut.site;
    let (Some(now), Some(least)) = (site.distance(), least_distance(cut)) else {
        return Vec::new();
    };
    if site.case.guide.state == GuideState::Made {
        return Vec::new();
    }
    // For each step with a fixed stop: its exact length now and the lengths that it can have.
    let mut fixed: Vec<(Length, Vec<Length>)> = Vec::new();
    for (step, sheet) in site.steps().zip(cut.steps) {
        let Some(stop) = step.stop else { continue };
        let StopKind::Fixed { lengths } = &stop.depth else {
            continue;
        };
        if step.path == StepPath::Freehand {
            continue;
        }
        let Some(exact) = sheet.exact.length() else {
            return Vec::new();
        };
        let here = lengths.iter().filter(|l| l.drill == step.drill.id);
        fixed.push((exact, here.map(|l| l.tip_to_landing_mm).collect()));
    }
    let mut offers: BTreeMap<Length, FittingDistance> = BTreeMap::new();
    for (exact, lengths) in &fixed {
        for length in lengths {
            let moved = *length - *exact;
            let apical = now + moved;
            if apical < least {
                continue;
            }
            let shortfalls: Option<Vec<Length>> = fixed
                .iter()
                .map(|(exact, lengths)| {
                    let exact = *exact + moved;
                    let best = lengths.iter().filter(|l| **l <= exact).max()?;
                    Some(exact - *best)
                })
                .collect();
            let Some(shortfalls) = shortfalls else {
                continue;
            };
            let coronal = site
                .site
                .platform_to_sleeve
                .is_some_and(|entry| entry.to == SleeveFace::Coronal);
            offers.entry(apical).or_insert(FittingDistance {
                apical_mm: apical,
                as_entered_mm: if coronal {
                    apical + site.master.height_mm
                } else {
                    apical
                },
                exact_steps: shortfalls.iter().filter(|s| **s == Length::ZERO).count(),
                shortfall: shortfalls.into_iter().sum(),
            });
        }
    }
    let mut offers: Vec<FittingDistance> = offers.into_values().collect();
    offers.sort_by_key(|offer| {
        (
            std::cmp::Reverse(offer.exact_steps),
            offer.shortfall,
            (offer.apical_mm - now).abs(),
            offer.apical_mm,
        )
    });
    offers
}

/// The smallest distance that leaves the tissue the room that it needs.
fn least_distance(cut: &SiteCuts<'_>) -> Option<Length> {
    let now = cut.site.distance()?;
    let mut findings = Vec::new();
    crate::plan::clearance::room::check_tissue(cut, &mut findings);
    let finding = findings
        .into_iter()
        .find(|finding| finding.rule == Rule::TissueRoom)?;
    let (Known::Is(_), Some(margin), Some(limit)) = (
        &finding.value,
        finding.length_value(),
        finding
            .limit
            .and_then(crate::plan::figure::Quantity::length),
    ) else {
        return None;
    };
    Some(now - (margin - limit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::demo_kit;

    /// The ids of the next shorter, longer and narrower implant in the invented kit, whose ids are
    /// diameter and length.
    fn next(id: &str) -> [Option<String>; 3] {
        let kit = demo_kit();
        let next = next_implants(&kit, kit.implant(&id.into()).unwrap());
        [next.shorter, next.longer, next.narrower].map(|i| i.map(|i| i.id.to_string()))
    }

    #[test]
    fn the_next_ones_are_those_beside_it_in_the_family() {
        let some = |id: &str| Some(id.to_owned());
        assert_eq!(
            next("sloe-444-94"),
            [
                some("sloe-444-78"),
                some("sloe-444-123"),
                some("sloe-388-94")
            ]
        );
        assert_eq!(
            next("sloe-512-78"),
            [None, some("sloe-512-94"), some("sloe-444-78")]
        );
        assert_eq!(next("sloe-388-136"), [some("sloe-388-123"), None, None]);
    }
}
