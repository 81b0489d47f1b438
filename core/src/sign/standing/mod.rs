//! The events that count now: derived from all of them and the current plan, never stored.

mod ahead;
mod approvals;
mod day;
mod drills;
mod entries;
mod falls;
mod gauge;
mod items;
mod judge;
mod judged_events;
#[cfg(test)]
mod one_person;
mod plan;
mod purposes;
mod readings;
mod seen;
mod told;
mod void;
mod withdrawn;

#[cfg(test)]
mod lapsing;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod recorded;
#[cfg(test)]
mod tables;
pub use ahead::{ClockAhead, clocks_ahead};
pub use approvals::{ApprovalLapse, ApprovalStanding, DECISION, without_decision};
pub use day::{DayEvent, TakenBack};
pub use drills::{DrillNow, StopSince, drills_now, has_alike};
pub use entries::{RecordEvent, RecordSignature};
pub use falls::Fall;
pub use gauge::{
    AskedBack, gauge_asked_back, gauge_contradicted, gauge_found_off, gauge_mistyped, gauge_now,
    gauge_off,
};
pub use items::{Check, Handling, ItemStanding, Objection, PassedOver};
pub use judge::{Deviation, Mistyped, ReadingVerdict, accepted, is_on_graduation, judge};
pub use judged_events::{EventStanding, JudgedEvent, judged_events};
pub use plan::{PlanView, PlannedItem, Policy, SettingState, Tolerance};
pub(crate) use purposes::Purposes;
pub use readings::{Lapse, ReadingStanding};
pub use seen::{FiguresSeen, figures_seen_by, pass_cut_off};
pub use void::Void;
pub use withdrawn::{Withdrawn, withdrawn_by};

use super::event::{DrillKey, Purpose, Stage, ThingKey, ToldWork};
use super::heads::TimedEvent;
use super::known::Names;
use super::merge::{MergeFault, Merged};
use std::collections::{BTreeMap, BTreeSet};
use void::void_of;

/// Everything of the record that counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// True if something that was signed may be missing, so that nothing counts.
    pub broken: bool,
    /// Every approval, in order.
    pub approvals: Vec<ApprovalStanding>,
    /// Every reading, in order.
    pub readings: Vec<ReadingStanding>,
    /// Every setting of the plan, in the plan's order.
    pub items: Vec<ItemStanding>,
    /// The slot of each thing without a setting that is on the tray.
    pub thing_slots: BTreeMap<ThingKey, String>,
    /// Things that a STOP told somebody to take, and nobody recorded having taken, with the work: nobody knows where they
    /// are, nor how what is to be set anew is set.
    pub told: BTreeMap<ThingKey, ToldWork>,
    /// Things that were taken out of their wrapping.
    pub opened: BTreeSet<ThingKey>,
    /// Things without a slot that were seen to be there, as the desk then called them, and when last.
    pub beside: BTreeMap<(Stage, String), jiff::Timestamp>,
    /// Everything that fell, in order, also what was said to have been reported by mistake.
    pub fallen: Vec<Fall>,
    /// The day of surgery, in order, also what was said to have been recorded by mistake.
    pub day: Vec<DayEvent>,
    /// Every drill that was set or laid and did not fall since, whatever the plan wants.
    pub drills: BTreeMap<DrillKey, DrillNow>,
    /// Every drill that fell and of which none is known by its number since, as it was then.
    pub fallen_drills: BTreeMap<DrillKey, DrillNow>,
    /// What was entered for the record and corrected, in order.
    pub entries: Vec<RecordEvent>,
    /// Every signature under the record, in order.
    pub signatures: Vec<RecordSignature>,
}

impl Standing {
    /// The approvals that hold for the plan as it is.
    pub fn valid_approvals(&self) -> impl Iterator<Item = &ApprovalStanding> {
        self.approvals.iter().filter(|approval| approval.is_valid())
    }
}

/// The events that count now under a plan.
///
/// # Errors
///
/// The events are of another case or of the other jaw.
pub fn standing(events: &Merged, plan: &PlanView, policy: &Policy) -> Result<Standing, MergeFault> {
    plan.case_jaw.same_as(events.case_jaw())?;
    let recorded = events.timed();
    let own: Vec<_> = recorded
        .iter()
        .map(|one| plan.in_own_codes(one.event))
        .collect();
    let both = recorded.iter().zip(&own);
    let timed: Vec<TimedEvent<'_>> = both.map(|(one, own)| one.worded(own)).collect();
    let void = void_of(events, &timed);
    // What is void was not done. What was opened stays opened.
    let live: Vec<TimedEvent<'_>> = timed
        .iter()
        .filter(|one| void(one).is_none())
        .cloned()
        .collect();
    let purposes = Purposes::new(&timed, plan.purpose);
    let names = Names::of(
        &plan.people,
        timed.iter().flat_map(|one| one.event.people()),
    );
    let by = (plan, &names);
    let readings = readings::readings((&timed, &void), (&live, &purposes), by, policy);
    let items = items::items((&live, &purposes), &readings, by, policy);
    let fallen = falls::falls((&timed, &live), &purposes, plan.purpose);
    let (drills, fallen_drills) = drills::of_all(timed.iter().map(|one| one.event));
    Ok(Standing {
        broken: events.is_broken(),
        approvals: approvals::approvals((&timed, &void), plan),
        readings,
        items,
        thing_slots: items::thing_slots(&live, &purposes),
        told: told::told(&live, &purposes),
        opened: items::opened(&timed, plan.purpose),
        beside: items::beside(&live, plan.purpose),
        day: day::day((&timed, &live), (&purposes, &fallen), &names),
        fallen,
        drills,
        fallen_drills,
        entries: entries::entries(&live, &purposes),
        signatures: entries::signatures(&live, &purposes),
    })
}

/// True if something was practised, and the plan is a patient's. It says nothing of the patient's case, though
/// what it did to an instrument takes what was read of that before. What says no purpose was not.
pub(crate) fn is_practised(purpose: Option<Purpose>, plan: Purpose) -> bool {
    (purpose, plan) == (Some(Purpose::Practice), Purpose::Patient)
}

/// True if something done for `purpose` cannot count for a plan of purpose `plan`: only what is
/// done for a patient in a real case counts.
const fn is_practice(purpose: Purpose, plan: Purpose) -> bool {
    matches!(
        (purpose, plan),
        (Purpose::Practice, _) | (_, Purpose::Practice)
    )
}
