//! Change on the table: going on without the guide.
//!
//! Which steps went through it is remembered in the case with what was cut, so that they stay as they were done; all else at the
//! site is freehand, whatever sequence it has later. What lies on the tray is a fact of its record: no change there moves it.

use super::count::thing_of;
use super::cut_before::with_all_cut;
use super::{Day, Work};
use crate::case::{Case, Edit, Site, StepThrough, TrayPlace, ValidCase, WithoutGuide, apply};
use crate::kit::{SiteId, SlotKind, TraySlot};
use crate::plan::{Actionable, LoadItem, Worksheet, with_planned, work_out};
use crate::sign::{PlanView, Standing, StepKey};

/// A plan with its record.
type Recorded<'a> = (&'a PlanView, &'a Standing);

/// The edits after which a site, or each where none is named, goes on without the guide; none where the guide leads nothing there
/// that is still to be done. What they make of the tray is left to [`tray_stays`].
#[must_use]
pub fn without_guide(
    case: &Case,
    (day, standing): (&Day<'_>, &Standing),
    site: Option<&SiteId>,
) -> Vec<Edit> {
    let here = case.sites.iter();
    let here = here.filter(|one| site.is_none_or(|site| *site == one.id));
    let led = here.filter(|one| is_led(day, &one.id));
    let left = led.map(|site| {
        Edit::ChangeSite(Box::new(Site {
            without_guide: Some(through(day, site)),
            ..with_all_cut(case, site, (day, standing))
        }))
    });
    left.collect()
}

/// Edits with those places on the tray that keep there what lies there: by the record, else by the plan as it was. Edits that would
/// be refused stay as they are.
///
/// The view has to be the plan view of this worksheet, the standing what counts under it.
#[must_use]
pub fn tray_stays(
    (case, worksheet): (&ValidCase, &Worksheet),
    recorded: Recorded<'_>,
    mut edits: Vec<Edit>,
) -> Vec<Edit> {
    if let Ok(after) = apply(case, &edits) {
        let places = places((&after, &work_out(&after)), worksheet, recorded);
        if places != after.tray_places {
            edits.push(Edit::SetTrayPlaces(places));
        }
    }
    edits
}

/// What becomes of the drills that are still to be used where the guide is left.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Afterwards {
    /// A setting without the guide is known: each stop is set anew to it, and read.
    pub set_anew: Vec<StepKey>,
    /// A mark without the guide is known.
    pub by_mark: Vec<StepKey>,
    /// No setting is known, or it does not fit: by hand alone.
    pub by_hand: Vec<StepKey>,
    /// Number of implants that are turned in by hand.
    pub implants: usize,
}

/// What becomes of what the guide still leads by a plan, after the edits that leave it ([`without_guide`]). Nothing where they would be
/// refused.
#[must_use]
pub fn afterwards(case: &ValidCase, day: &Day<'_>, edits: &[Edit]) -> Afterwards {
    let mut found = Afterwards::default();
    let Ok(after) = apply(case, edits) else {
        return found;
    };
    let worksheet = work_out(&after);
    let leaves = |site: &SiteId| after.site(site.as_str()) != case.site(site.as_str());
    for (_, step) in day.open_from(0).filter(|(_, step)| step.is_led()) {
        match &step.work {
            Work::Insert { site, .. } if leaves(&site.id) => found.implants += 1,
            Work::Drill(drilling) if leaves(&drilling.site.id) => {
                let item = worksheet.drill_of(&drilling.site.id, &drilling.step.id);
                let on = item.and_then(|item| item.set.as_ref());
                let figure = item.and_then(Actionable::of_item);
                let figure = figure.and_then(|one| one.figure(&after.kit).large());
                let of = match on.filter(|_| figure.is_some()) {
                    None => &mut found.by_hand,
                    Some(on) if on.stop.is_some() => &mut found.set_anew,
                    Some(_) => &mut found.by_mark,
                };
                of.push(step.key.clone());
            }
            _ => {}
        }
    }
    found
}

/// Where each thing of a changed plan lies now, in the order of the tray.
fn places(
    (case, after): (&ValidCase, &Worksheet),
    before: &Worksheet,
    (view, standing): Recorded<'_>,
) -> Vec<TrayPlace> {
    let lying: Vec<(&LoadItem, Option<String>)> = with_planned(before, view)
        .map(|(item, planned)| {
            let by_record = match planned {
                Some(planned) => {
                    let now = standing.drills.get(&planned.key.drill_key());
                    now.and_then(|now| now.slot.clone())
                }
                None => standing.thing_slots.get(&thing_of(item)).cloned(),
            };
            let by_plan = item.slot.as_ref().map(ToString::to_string);
            (item, by_record.or(by_plan))
        })
        .collect();
    let mut taken = vec![false; lying.len()];
    let mut then: Vec<Option<usize>> = vec![None; after.loading.len()];
    // What is as it was before what is set otherwise now: of one drill with two uses it is that which stays.
    for is_it in [is_same, is_of_same_work] {
        for (item, then) in after.loading.iter().zip(&mut then) {
            if then.is_some() {
                continue;
            }
            let mut before = lying.iter().zip(&taken);
            *then = before.position(|((one, _), taken)| !taken && is_it(one, item));
            if let Some(at) = *then {
                taken[at] = true;
            }
        }
    }
    let slots = case.tray_slots();
    let mut places: Vec<(usize, TrayPlace)> = Vec::new();
    for (item, then) in after.loading.iter().zip(then) {
        let slot = then.and_then(|at| lying[at].1.as_deref());
        let is_it = |one: &TraySlot| Some(one.name.as_str()) == slot && one.kind == item.kind;
        let Some(at) = slots.iter().position(is_it) else {
            continue;
        };
        // By the record two things may lie in one slot: the first stays.
        if places.iter().all(|(other, _)| *other != at) {
            let (slot, holds) = (slots[at].name.clone(), item.held());
            places.push((at, TrayPlace { slot, holds }));
        }
    }
    places.sort_by_key(|(at, _)| *at);
    places.into_iter().map(|(_, place)| place).collect()
}

/// True for the same thing, set as before.
fn is_same(before: &LoadItem, after: &LoadItem) -> bool {
    let set = |item: &LoadItem| {
        let on = item.set.as_ref()?;
        Some((on.stop.clone(), on.set.get()))
    };
    is_of_same_work(before, after) && set(before) == set(after)
}

/// True for the same thing, however it is set: a drill for a use that it had.
fn is_of_same_work(before: &LoadItem, after: &LoadItem) -> bool {
    let same = (before.kind, &before.entry) == (after.kind, &after.entry);
    let shares = || {
        let serves = after.serves.iter().any(|one| before.serves.contains(one));
        serves || after.pins.iter().any(|pin| before.pins.contains(pin))
    };
    same && match before.kind {
        SlotKind::Drill => shares(),
        _ => before.copy == after.copy,
    }
}

/// True if the guide leads anything at a site that is not over.
fn is_led(day: &Day<'_>, site: &SiteId) -> bool {
    let mut open = day.open_from(0).map(|(_, step)| step);
    open.any(|step| step.site() == Some(site) && step.is_led())
}

/// What went through the guide at a site.
fn through(day: &Day<'_>, site: &Site) -> WithoutGuide {
    let mut through = Vec::new();
    let mut implant = false;
    let here = day
        .steps
        .iter()
        .filter(|step| step.site() == Some(&site.id));
    for step in here.filter(|step| step.is_led() && step.state.is_over()) {
        match &step.work {
            Work::Drill(drilling) => {
                let step = drilling.step;
                through.push(StepThrough {
                    step: step.id.clone(),
                    drill: step.drill.clone(),
                    sleeve: step.sleeve.clone(),
                    stop: step.stop.clone(),
                    depth: Some(step.depth),
                });
            }
            Work::Insert { .. } => implant = true,
            _ => {}
        }
    }
    WithoutGuide::of(site, through, implant)
}
