//! The events that a change of plan takes away.

use super::approvals::ApprovalStanding;
use super::judge::ReadingVerdict;
use super::plan::{PlanView, Policy, SettingState};
use super::readings::ReadingStanding;
use super::standing;
use crate::sign::event::ItemKey;
use crate::sign::merge::{MergeFault, Merged};

/// Everything that counted under one plan and does not under another.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Withdrawn {
    /// Approvals that held, with what speaks against them now.
    pub approvals: Vec<ApprovalStanding>,
    /// Readings that counted, with why they lapsed: drill, stop, setting or gauge changed.
    pub readings: Vec<ReadingStanding>,
    /// Readings that still count and confirmed the setting, but do not agree with the figure that
    /// the gauge should show now.
    pub contradicted: Vec<ReadingStanding>,
    /// Drills that are in a slot of the tray and are no longer wanted as they are set.
    pub placed: Vec<(ItemKey, String)>,
}

impl Withdrawn {
    /// True if the change takes nothing away.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Everything that changing the plan from `before` to `after` withdraws; for a demonstration case,
/// what it would withdraw.
///
/// # Errors
///
/// The events are of another case or jaw than one of the plans.
pub fn withdrawn_by(
    before: &PlanView,
    after: &PlanView,
    events: &Merged,
    policy: &Policy,
) -> Result<Withdrawn, MergeFault> {
    let (was, is) = (
        standing(events, before, policy)?,
        standing(events, after, policy)?,
    );
    let mut withdrawn = Withdrawn::default();
    // Both list the same events in the same order.
    for (was, is) in was.approvals.iter().zip(is.approvals) {
        let held = was.is_valid() || was.is_practised();
        if held && !(is.is_valid() || is.is_practised()) {
            withdrawn.approvals.push(is);
        }
    }
    let confirms = |r: &ReadingStanding| r.verdict.as_ref().is_some_and(ReadingVerdict::confirms);
    for (was, is) in was.readings.iter().zip(is.readings) {
        if !was.counts_or_is_practised(before.purpose) {
            continue;
        }
        if !is.counts_or_is_practised(after.purpose) {
            withdrawn.readings.push(is);
        } else if confirms(was) && !confirms(&is) {
            withdrawn.contradicted.push(is);
        }
    }
    // What is wanted only later is not wanted now. What was left since is just being set anew.
    let stays = |was: &ItemKey| {
        let mut planned = after.items.iter();
        planned.any(|is| is.key == *was && is.state != SettingState::Later)
    };
    withdrawn.placed = was
        .items
        .into_iter()
        .filter(|was| !stays(&was.item))
        .filter_map(|was| Some((was.item, was.placed?)))
        .collect();
    Ok(withdrawn)
}
