//! What is not to be used: a drill whose stop and sleeves do not fit each other, which nobody accepted.
//!
//! One question is asked: may this drill, set so, be used in this step. A drill is set once for all the steps that it
//! serves so. Where it does not fit in one of them it is not set, and so it is used in none of them.

use super::Worksheet;
use crate::case::{Place, Rule, Subject};
use crate::kit::{Kit, SiteId, StepId};
use crate::plan::depth::fits::Fits;
use crate::plan::finding::{Finding, Severity, Verdict};
use crate::plan::fit::pins::PinSheet;
use crate::plan::site::SiteSheet;
use crate::plan::stock::actionable::{Actionable, ActionableFigure};
use crate::plan::stock::loading::{
    DrillSetup, LoadItem, Loading, ServedPlace, WHOLE_CASE, drill_of,
};
use std::collections::BTreeSet;

/// The finding of a misfit of a thing as it is used, where it is short and was not accepted; nothing where it fits as far
/// as is known.
#[must_use]
pub fn misfit<'a>(item: &LoadItem, worksheet: &'a Worksheet) -> Option<&'a Finding> {
    let cut = cut_before(&worksheet.sites);
    misfit_among(item, (&worksheet.findings, &cut), &worksheet.pins)
}

/// The finding for which a step's drill is not to be set though it fits in the step itself: it does not in another that it
/// serves as it is set.
#[must_use]
pub fn misfit_elsewhere<'a>(
    (site, step): (&SiteId, &StepId),
    worksheet: &'a Worksheet,
) -> Option<&'a Finding> {
    let here = |one: &&Finding| is_of_step(one, site, step);
    let cut = cut_before(&worksheet.sites);
    if refusing(&worksheet.findings, &cut).any(|one| here(&one)) {
        return None;
    }
    misfit(worksheet.drill_of(site, step)?, worksheet)
}

/// True if a drill does not fit as it is to be used first and is set anew in surgery to what fits: it is taken and laid, and
/// not set before. `item` is its place in the loading list.
#[must_use]
pub fn is_laid_unset(item: usize, worksheet: &Worksheet, kit: &Kit) -> bool {
    let figure = |item: &LoadItem| Actionable::of_item(item).map(|one| one.figure(kit));
    let first = worksheet.loading.get(item).and_then(figure);
    let mut later = worksheet.resets_of(item);
    first == Some(ActionableFigure::DoesNotFit)
        && later.any(|reset| figure(&reset.to).is_some_and(|one| one.large().is_some()))
}

fn misfit_among<'a>(
    item: &LoadItem,
    (findings, cut): (&'a [Finding], &BTreeSet<(SiteId, StepId)>),
    pins: &[PinSheet],
) -> Option<&'a Finding> {
    let set = item.set.as_ref()?;
    let serves = |place: &ServedPlace, finding: &Finding| match (&place.site, &place.step) {
        (Some(site), Some(step)) => is_of_step(finding, site, step),
        (None, _) => {
            let mut pins = pins.iter().enumerate();
            pins.any(|(n, pin)| is_set_for(set, pin) && finding.place == Place::Pin(n))
        }
        _ => false,
    };
    refusing(findings, cut).find(|finding| item.serves.iter().any(|place| serves(place, finding)))
}

/// Says of each step, pin and drill of a plan if it may be used, once all findings with their decisions are there.
pub(super) fn mark(
    findings: &[Finding],
    sites: &mut [SiteSheet],
    pins: &mut [PinSheet],
    loaded: &mut Loading,
) {
    let cut = cut_before(sites);
    let of = |item: &LoadItem| fits(misfit_among(item, (findings, &cut), pins).is_some());
    for item in &mut loaded.items {
        let fits = of(item);
        if let Some(on) = &mut item.set {
            on.fits = fits;
        }
    }
    for n in 0..loaded.resets.len() {
        let mut earlier = loaded.resets[..n].iter().rev();
        let item = loaded.resets[n].item;
        let before = earlier.find(|one| one.item == item).map(|one| &one.to);
        let before = before.or_else(|| loaded.items.get(item));
        let before = before.and_then(|item| item.set.as_ref()).map(|on| on.fits);
        let reset = &mut loaded.resets[n];
        let fits = of(&reset.to);
        if let Some(on) = &mut reset.to.set {
            on.fits = fits;
        }
        reset.from.fits = before.unwrap_or(reset.from.fits);
    }
    let refused = |on: Option<&DrillSetup>| on.is_some_and(|on| on.fits == Fits::No);
    for site in &mut *sites {
        for step in &mut site.steps {
            let drill = drill_of(&loaded.items, &loaded.resets, &site.id, &step.id);
            let here = |one: &Finding| is_of_step(one, &site.id, &step.id);
            let drill = refused(drill.and_then(|item| item.set.as_ref()));
            step.fits = fits(drill || refusing(findings, &cut).any(here));
        }
    }
    for (n, pin) in pins.iter_mut().enumerate() {
        let resets = loaded.resets.iter().map(|reset| &reset.to);
        let mut drills = loaded.items.iter().chain(resets);
        let drill = drills.any(|item| {
            let is = |on: &&DrillSetup| item.serves.contains(&WHOLE_CASE) && is_set_for(on, pin);
            refused(item.set.as_ref().filter(is))
        });
        pin.fits = fits(drill || refusing(findings, &cut).any(|one| one.place == Place::Pin(n)));
    }
}

fn is_of_step(finding: &Finding, site: &SiteId, step: &StepId) -> bool {
    (finding.site.as_ref(), finding.step.as_ref()) == (Some(site), Some(step))
}

/// True if a drill is set as a pin wants it.
fn is_set_for(on: &DrillSetup, pin: &PinSheet) -> bool {
    (&on.drill, &on.stop, &on.set) == (&pin.drill, &pin.stop, &pin.set.known_length())
}

const fn fits(refused: bool) -> Fits {
    if refused {
        Fits::No
    } else {
        Fits::AsFarAsKnown
    }
}

/// The steps of all sites that a plan before cut already.
fn cut_before(sites: &[SiteSheet]) -> BTreeSet<(SiteId, StepId)> {
    let of = |site: &SiteSheet| {
        let id = site.id.clone();
        site.cut_before
            .iter()
            .map(move |step| (id.clone(), step.clone()))
            .collect::<Vec<_>>()
    };
    sites.iter().flat_map(of).collect()
}

/// The findings about instruments that are short and were not accepted, where what is short is how things fit. What was accepted of a
/// step that a plan before cut already was accepted of what was used: nothing is set by it.
fn refusing<'a>(
    findings: &'a [Finding],
    cut: &BTreeSet<(SiteId, StepId)>,
) -> impl Iterator<Item = &'a Finding> {
    let is_cut = |finding: &Finding| {
        let step = finding.site.clone().zip(finding.step.clone());
        step.is_some_and(|step| cut.contains(&step))
    };
    findings.iter().filter(move |finding| {
        let accepted =
            finding.severity() == Severity::Accepted && finding.verdict == Verdict::Short;
        finding.subject() == Subject::Instrument
            && (finding.severity() == Severity::Short || accepted && is_cut(finding))
            && !is_of_depth(finding.rule)
    })
}

/// True if a rule is about where a cut ends and not how instruments fit: what is short there is judged by its setting.
const fn is_of_depth(rule: Rule) -> bool {
    matches!(
        rule,
        Rule::EndsShort
            | Rule::PinEndsShort
            | Rule::EndsAbovePlatform
            | Rule::FullDiameterAboveApex
    )
}
