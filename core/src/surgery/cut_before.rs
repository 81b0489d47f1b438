//! What was cut stays cut: whatever becomes of a plan, what the record has as done in bone is kept at its site.

use super::{Day, Work, day};
use crate::case::{Case, CutBefore, Edit, PlatformThen, Site, ValidCase};
use crate::kit::SiteId;
use crate::measure::Length;
use crate::plan::{SiteSheet, StepPath, StepSheet, Worksheet};
use crate::sign::{DayEvent, EventKind, PlanView, Standing, StepKey};

/// The edits after which each site of a case has, of all that the record has as done there in bone, in whatever sitting, just what the
/// plan does not cut that very way. `before` is the plan as it was, by which it was done; what was done by neither plan is told by the
/// day alone. The view has to be the plan view of the worksheet before,
/// the standing what counts under it.
#[must_use]
pub fn what_was_cut(
    (before, worksheet): (&ValidCase, &Worksheet),
    (view, standing): (&PlanView, &Standing),
    (after, planned): (&ValidCase, &Worksheet),
) -> Vec<Edit> {
    let was_any = before.sites.iter().any(|site| !site.cut_before.is_empty());
    if !was_any && !standing.day.iter().any(|one| is_cut(before, one)) {
        return Vec::new();
    }
    let day = day(before, worksheet, (view, standing));
    let sites = after.sites.iter().filter_map(|site| {
        let sheet = planned.sites.iter().find(|sheet| sheet.id == site.id)?;
        let is_planned = |one: &CutBefore| has(after, (site, sheet), one);
        let was = before.site(site.id.as_str());
        let mut kept = site.clone();
        let stood = was.iter().flat_map(|was| &was.cut_before);
        for one in stood {
            let is_there = match (&one.event, one.at) {
                (Some(event), Some(at)) => site.cut_before.iter().any(|one| one.is_by(event, at)),
                _ => site.cut_before.contains(one),
            };
            if !is_there && !is_planned(one) {
                kept.cut_before.push(one.clone());
            }
        }
        for cut in cuts_at((before, was, site), (&day, standing)) {
            if entry(&kept, cut.event).is_none() && !is_planned(&cut.as_planned) {
                kept.cut_before.push(cut.kept());
            }
        }
        let none_back = |one: &CutBefore| {
            let mut day = standing.day.iter();
            let back = day.any(|other| one.is_by(&other.id, other.at) && !other.stands());
            // Where the guide was left all of it stays, and what a person said of it.
            let again = site.without_guide.is_none() && !one.out && is_planned(one);
            one.event.is_none() || !(back || again)
        };
        kept.cut_before.retain(none_back);
        (kept != *site).then(|| Edit::ChangeSite(Box::new(kept)))
    });
    sites.collect()
}

/// The first site of a patient's case at which something is in the bone, by its record or by what stands there, and that another version
/// of the case has not.
#[must_use]
pub fn cut_without_site(
    before: &ValidCase,
    standing: &Standing,
    after: &ValidCase,
) -> Option<SiteId> {
    let mut gone = before
        .sites
        .iter()
        .filter(|site| after.site(site.id.as_str()).is_none());
    let is_in_bone = |site: &&Site| {
        let mut events = standing.day.iter().filter(|one| is_cut(before, one));
        let by_record = events.any(|one| {
            let at = one.step().and_then(StepKey::site);
            let is_out = entry(site, one).is_some_and(|one| one.out);
            at.is_some_and(|at| at.site == site.id.as_str()) && !is_out
        });
        by_record || site.cut_before.iter().any(|one| !one.out)
    };
    gone.find(|site| !before.demonstration && is_in_bone(site))
        .map(|site| site.id.clone())
}

/// A site with all that was cut there by the record, as its plan has it.
pub(super) fn with_all_cut(
    case: &Case,
    site: &Site,
    (day, standing): (&Day<'_>, &Standing),
) -> Site {
    let mut kept = site.clone();
    for cut in cuts_at((case, Some(site), site), (day, standing)) {
        if entry(site, cut.event).is_none() {
            kept.cut_before.push(cut.kept());
        }
    }
    kept
}

/// One thing that was done in bone.
struct Cut<'a> {
    event: &'a DayEvent,
    /// As the plan had it.
    as_planned: CutBefore,
    /// The same with what was recorded of it.
    kept: CutBefore,
}

impl Cut<'_> {
    fn kept(self) -> CutBefore {
        CutBefore {
            event: Some(self.event.id.clone()),
            at: Some(self.event.at),
            ..self.kept
        }
    }
}

fn entry<'a>(site: &'a Site, event: &DayEvent) -> Option<&'a CutBefore> {
    let mut all = site.cut_before.iter();
    all.find(|one| one.is_by(&event.id, event.at))
}

/// What was done at a site in bone by the record, as the plan before had it.
fn cuts_at<'a>(
    (case, was, site): (&Case, Option<&Site>, &Site),
    (day, standing): (&Day<'_>, &'a Standing),
) -> Vec<Cut<'a>> {
    let events = standing.day.iter().filter(|one| is_cut(case, one));
    let here = events.filter(|one| {
        let at = one.step().and_then(StepKey::site);
        at.is_some_and(|at| at.site == site.id.as_str())
    });
    let cut = here.filter_map(|event| {
        let mut steps = day.steps.iter();
        let step = steps.find(|step| event.step() == Some(&step.key))?;
        let as_planned = match &step.work {
            Work::Drill(drilling) => drilled(case, was?, drilling.step),
            Work::Insert { site: sheet, .. } | Work::Finish { site: sheet } => {
                placed(case, was?, sheet)
            }
            _ => None,
        }?;
        Some(Cut {
            event,
            kept: recorded(as_planned.clone(), event),
            as_planned,
        })
    });
    cut.collect()
}

/// True for what is in the bone of a site.
fn is_cut(case: &Case, one: &DayEvent) -> bool {
    let in_bone = one
        .step()
        .is_some_and(|step| step.is_in_bone() && step.site().is_some());
    in_bone && one.stands() && one.kind.is_done() && one.kind.purpose() == Some(case.purpose())
}

/// True if a plan cuts that very thing.
fn has(case: &Case, (site, sheet): (&Site, &SiteSheet), one: &CutBefore) -> bool {
    let steps = sheet.steps.iter();
    let steps = steps.filter_map(|step| drilled(case, site, step));
    let mut all = steps.chain(placed(case, site, sheet));
    all.any(|other| {
        other
            == CutBefore {
                event: None,
                at: None,
                ..one.clone()
            }
    })
}

/// With what was recorded: by hand nobody knows how deep, and an implant may have stopped elsewhere.
fn recorded(one: CutBefore, event: &DayEvent) -> CutBefore {
    match &event.kind {
        EventKind::StepDone(done) if done.by_hand.is_some() => CutBefore {
            tip_mm: None,
            ..one
        },
        EventKind::Inserted(inserted) => {
            let coronal = inserted.coronal_of_plan_mm.unwrap_or_default();
            CutBefore {
                tip_mm: one.tip_mm.map(|tip| tip - coronal),
                ..one
            }
        }
        _ => one,
    }
}

/// What a step cuts by its plan.
fn drilled(case: &Case, site: &Site, step: &StepSheet) -> Option<CutBefore> {
    let drill = case.kit.drill(&step.drill)?;
    Some(CutBefore {
        name: drill.name.clone(),
        event: None,
        at: None,
        out: false,
        step: Some(step.id.clone()),
        kind: Some(drill.kind),
        tip_mm: step.cut.length(),
        point_mm: step.point,
        tip_to_datum_mm: drill.datum_from_tip(),
        diameter_mm: step.diameter,
        from: PlatformThen::of(site, case, step.path != StepPath::Freehand),
        purpose: case.purpose(),
    })
}

/// The implant as it goes in by its plan.
fn placed(case: &Case, site: &Site, sheet: &SiteSheet) -> Option<CutBefore> {
    let implant = case.kit.implant(&sheet.implant)?;
    Some(CutBefore {
        name: implant.name.clone(),
        event: None,
        at: None,
        out: false,
        step: None,
        kind: None,
        tip_mm: Some(sheet.implant_end),
        point_mm: Length::ZERO,
        tip_to_datum_mm: Length::ZERO,
        diameter_mm: implant.largest_diameter_mm,
        from: PlatformThen::of(site, case, site.leads_implant()),
        purpose: case.purpose(),
    })
}
