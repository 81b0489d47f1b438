//! The events that count now: derived from all of them and the current plan, never stored.

mod approvals;
mod gauge;
mod items;
mod judge;
mod plan;
mod readings;
mod seen;
mod withdrawn;

#[cfg(test)]
mod lapsing;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod recorded;
#[cfg(test)]
mod tables;
pub use approvals::{ApprovalLapse, ApprovalStanding, DECISION, without_decision};
pub use gauge::{gauge_mistyped, gauge_off};
pub use items::{Check, Handling, ItemStanding, Objection, PassedOver};
pub use judge::{Deviation, Mistyped, ReadingVerdict, accepted, judge};
pub use plan::{PlanView, PlannedItem, Policy, SettingState, Tolerance};
pub use readings::{Lapse, ReadingStanding};
pub use seen::{Sight, figures_seen_by, pass_cut_off};
pub use withdrawn::{Withdrawn, withdrawn_by};

use super::event::{Purpose, Stage, ThingKey};
use super::merge::{MergeFault, Merged, TimedEvent};
use std::collections::{BTreeMap, BTreeSet};

/// Everything of the record that counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// Every approval, in order.
    pub approvals: Vec<ApprovalStanding>,
    /// Every reading, in order.
    pub readings: Vec<ReadingStanding>,
    /// Every setting of the plan, in the plan's order.
    pub items: Vec<ItemStanding>,
    /// The slot of each thing without a setting that is on the tray.
    pub thing_slots: BTreeMap<ThingKey, String>,
    /// Things that were taken out of their wrapping.
    pub opened: BTreeSet<ThingKey>,
    /// Things without a slot that were seen to be there, as the desk then called them, and when last.
    pub beside: BTreeMap<(Stage, String), jiff::Timestamp>,
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
    let timed = events.timed();
    let readings = readings::readings(&timed, plan, policy);
    let items = items::items(&timed, &readings, plan, policy);
    Ok(Standing {
        approvals: approvals::approvals(&timed, plan, policy),
        readings,
        items,
        thing_slots: items::thing_slots(&timed),
        opened: items::opened(&timed, plan.purpose),
        beside: items::beside(&timed, plan.purpose),
    })
}

/// True if something done for `purpose` cannot count for a plan of purpose `plan`: only what is
/// done for a patient in a real case counts.
const fn is_practice(purpose: Purpose, plan: Purpose) -> bool {
    matches!(
        (purpose, plan),
        (Purpose::Practice, _) | (_, Purpose::Practice)
    )
}

impl TimedEvent<'_> {
    /// True if `self` happened before `other` beyond doubt: by the order of one writer's file, or
    /// by the clocks of two writers where they differ by more than they may be apart.
    fn clearly_before(&self, other: &TimedEvent<'_>, policy: &Policy) -> bool {
        if self.event.writer == other.event.writer {
            self.event.seq < other.event.seq
        } else {
            self.at.as_second().saturating_add(policy.clocks_apart_s) < other.at.as_second()
        }
    }
}
