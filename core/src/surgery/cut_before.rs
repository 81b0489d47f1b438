//! What was cut stays cut: as a plan is changed, what was done of it by the record is kept at its site.

use super::{Day, DayStep, Work, day};
use crate::case::{Case, CutBefore, Edit, PlatformThen, Site, ValidCase};
use crate::measure::Length;
use crate::plan::{SiteSheet, StepPath, StepSheet, Worksheet, work_out};
use crate::sign::{DayEvent, EventKind, PlanView, Standing, StepKey};

/// The edits that keep at each site of a changed case what was cut there by the plan before, in whatever sitting, where the changed
/// plan does not cut that very thing as well. None where nothing was cut, or all is cut as before.
///
/// The view has to be the plan view of the worksheet before, the standing what counts under it.
#[must_use]
pub fn what_was_cut(
    (case, worksheet): (&ValidCase, &Worksheet),
    (view, standing): (&PlanView, &Standing),
    after: &ValidCase,
) -> Vec<Edit> {
    if !standing.day.iter().any(is_cut) {
        return Vec::new();
    }
    let day = day(case, worksheet, (view, standing));
    let planned = work_out(after);
    let sites = after.sites.iter().filter_map(|site| {
        let before = case.site(site.id.as_str())?;
        let cut = cut_at((case, before), (&day, standing)).into_iter();
        let sheet = planned.sites.iter().find(|sheet| sheet.id == site.id);
        let lost = cut.filter(|one| !sheet.is_some_and(|sheet| has(after, (site, sheet), one)));
        let kept = with(site.clone(), lost.collect());
        (kept != *site).then(|| Edit::ChangeSite(Box::new(kept)))
    });
    sites.collect()
}

/// The edits that keep at each site of another version of a case what stands there as cut before, where that version has it not and
/// does not cut that very thing either.
#[must_use]
pub fn cut_before_stays(case: &ValidCase, after: &ValidCase) -> Vec<Edit> {
    if case.sites.iter().all(|site| site.cut_before.is_empty()) {
        return Vec::new();
    }
    let planned = work_out(after);
    let sites = after.sites.iter().filter_map(|site| {
        let before = case.site(site.id.as_str())?;
        let sheet = planned.sites.iter().find(|sheet| sheet.id == site.id);
        let lost = before.cut_before.iter();
        let lost = lost.filter(|one| !sheet.is_some_and(|sheet| has(after, (site, sheet), one)));
        let kept = with(site.clone(), lost.cloned().collect());
        (kept != *site).then(|| Edit::ChangeSite(Box::new(kept)))
    });
    sites.collect()
}

/// True if a plan cuts that very thing.
fn has(case: &Case, (site, sheet): (&Site, &SiteSheet), one: &CutBefore) -> bool {
    let steps = sheet
        .steps
        .iter()
        .filter_map(|step| drilled(case, site, step));
    one.tip_mm.is_some()
        && (steps
            .chain(placed(case, site, sheet))
            .any(|other| other == *one))
}

/// A site with what was cut there by the record besides.
pub(super) fn with(mut site: Site, cut: Vec<CutBefore>) -> Site {
    for one in cut {
        if !site.cut_before.contains(&one) {
            site.cut_before.push(one);
        }
    }
    site
}

/// What was cut at a site by the record, as this plan has it.
pub(super) fn cut_at(
    (case, site): (&Case, &Site),
    (day, standing): (&Day<'_>, &Standing),
) -> Vec<CutBefore> {
    let mut cut: Vec<CutBefore> = Vec::new();
    for event in standing.day.iter().filter(|one| is_cut(one)) {
        let here =
            |step: &&DayStep<'_>| step.site() == Some(&site.id) && event.step() == Some(&step.key);
        let Some(step) = day.steps.iter().find(here) else {
            continue;
        };
        let one = match &step.work {
            Work::Drill(drilling) => drilled(case, site, drilling.step),
            Work::Insert { site: sheet, .. } => placed(case, site, sheet),
            _ => None,
        };
        cut.extend(one.map(|one| by_hand(one, event)));
    }
    cut
}

/// True for what is in the bone.
fn is_cut(one: &DayEvent) -> bool {
    let in_bone = one.step().is_some_and(StepKey::is_in_bone);
    in_bone && one.stands() && one.kind.is_done()
}

/// By hand nobody knows how deep.
fn by_hand(one: CutBefore, event: &DayEvent) -> CutBefore {
    match &event.kind {
        EventKind::StepDone(done) if done.by_hand.is_some() => CutBefore {
            tip_mm: None,
            ..one
        },
        _ => one,
    }
}

/// What a step cuts by its plan.
fn drilled(case: &Case, site: &Site, step: &StepSheet) -> Option<CutBefore> {
    let drill = case.kit.drill(&step.drill)?;
    Some(CutBefore {
        name: drill.name.clone(),
        step: Some(step.id.clone()),
        kind: Some(drill.kind),
        tip_mm: step.cut.length(),
        point_mm: step.point,
        tip_to_datum_mm: drill.datum_from_tip(),
        diameter_mm: step.diameter,
        from: PlatformThen::of(site, &case.kit, step.path != StepPath::Freehand),
        purpose: case.purpose(),
    })
}

/// The implant as it goes in by its plan.
fn placed(case: &Case, site: &Site, sheet: &SiteSheet) -> Option<CutBefore> {
    let implant = case.kit.implant(&sheet.implant)?;
    Some(CutBefore {
        name: implant.name.clone(),
        step: None,
        kind: None,
        tip_mm: Some(sheet.implant_end),
        point_mm: Length::ZERO,
        tip_to_datum_mm: Length::ZERO,
        diameter_mm: implant.largest_diameter_mm,
        from: PlatformThen::of(site, &case.kit, site.leads_implant()),
        purpose: case.purpose(),
    })
}
