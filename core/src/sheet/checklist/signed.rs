//! Signatures for the plan that is printed.

use super::done::DayOnPaper;
use super::recorded::{RecordedItem, touched};
use crate::case::ValidCase;
use crate::kit::DrillId;
use crate::measure::Length;
use crate::plan::{Worksheet, plan_view, work_out};
use crate::sign::{
    ApprovalStanding, DayEvent, DrillKey, Fall, HeadCode, Merged, PlanView, Policy, Standing,
    gauge_found_off,
};
use crate::surgery;
use jiff::Timestamp;

/// Approval of the plan that is printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ApprovalState {
    /// The record has a break: nothing that was signed counts.
    RecordBroken,
    /// No approval holds for it.
    NotApproved,
    /// Approved.
    Approved {
        /// The person who approved.
        by: String,
        /// Time of the approval.
        at: Timestamp,
        /// True if it says by which decision each finding was accepted
        /// ([`ApprovalStanding::names_decisions`]).
        names_decisions: bool,
    },
    /// Approved to practise, or in a demonstration case: it never counts.
    Practice {
        /// The person who approved.
        by: String,
        /// Time of the approval.
        at: Timestamp,
    },
}

/// Signatures for the plan, as far as the sheet prints them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// The approval of the plan.
    pub approval: ApprovalState,
    /// Name of the local rule by which a reading on the bench counts after sterilisation, where
    /// there is one.
    pub bench_rule: Option<String>,
    /// The end of each log of the record; none while it has a break.
    pub heads: Vec<HeadCode>,
    /// The readings of each setting with what speaks against them; none while the record has a break.
    pub readings: Vec<RecordedItem>,
    /// What the gauge showed too much of its check piece when it was found off, negative: too little; none where it is
    /// sound, or nobody checked it.
    pub gauge_off: Option<Length>,
    /// What fell by the record; nothing while that has a break.
    pub fallen: Vec<Fall>,
    /// Drills that by the record lie in a slot or are set, and are of no known setting of the plan, each with its slot.
    pub not_planned: Vec<(DrillId, Option<String>)>,
    /// The word that the guide is abandoned, where the plan still leads through it; none while the record has a break.
    pub abandoned: Option<DayEvent>,
    /// What the day brought, for a form that is printed as its record; none where that was not asked for, or while it has a break.
    pub day: Option<DayOnPaper>,
}

impl Signed {
    /// Nothing is signed and no local rule applies.
    #[must_use]
    pub const fn nothing() -> Self {
        Self {
            approval: ApprovalState::NotApproved,
            bench_rule: None,
            heads: Vec::new(),
            readings: Vec::new(),
            gauge_off: None,
            fallen: Vec::new(),
            not_planned: Vec::new(),
            abandoned: None,
            day: None,
        }
    }

    /// The approval that counts now under the rules of the house; of several the latest.
    #[must_use]
    pub fn of(case: &ValidCase, (events, standing): (&Merged, &Standing), policy: &Policy) -> Self {
        let latest = |holds: fn(&ApprovalStanding) -> bool| {
            let those = standing.approvals.iter().filter(|one| holds(one));
            let last = those.max_by_key(|one| one.at)?;
            Some((
                last.who.as_str().to_owned(),
                last.at,
                last.names_decisions(),
            ))
        };
        let approval = if standing.broken {
            ApprovalState::RecordBroken
        } else if let Some((by, at, names_decisions)) = latest(ApprovalStanding::is_valid) {
            ApprovalState::Approved {
                by,
                at,
                names_decisions,
            }
        } else if let Some((by, at, _)) = latest(ApprovalStanding::is_practised) {
            ApprovalState::Practice { by, at }
        } else {
            ApprovalState::NotApproved
        };
        let drills = &standing.drills;
        let planned = |drill: &DrillKey| {
            let mut items = standing.items.iter();
            items.any(|item| item.item.is_drill(drill))
        };
        let others = drills
            .iter()
            .filter(|(drill, now)| !standing.broken && now.is_somewhere() && !planned(drill));
        Self {
            approval,
            bench_rule: policy.bench_after_sterilisation.clone(),
            heads: if standing.broken {
                Vec::new()
            } else {
                events.head_codes()
            },
            readings: if standing.broken {
                Vec::new()
            } else {
                let items = standing.items.iter();
                let touched = touched(events);
                items
                    .map(|item| RecordedItem::of(item, standing, (drills, &touched)))
                    .collect()
            },
            gauge_off: case
                .gauge()
                .and_then(|gauge| gauge_found_off(gauge, events, case.purpose())),
            fallen: if standing.broken {
                Vec::new()
            } else {
                standing.fallen.clone()
            },
            not_planned: others
                .map(|(drill, now)| (DrillId::from(drill.drill.as_str()), now.slot.clone()))
                .collect(),
            abandoned: abandoned_while_led(case, (events, standing)),
            day: None,
        }
    }

    /// The same with what the day brought.
    ///
    /// The view has to be the plan view of this worksheet, the standing what counts under it.
    #[must_use]
    pub fn with_day(self, of: (&ValidCase, &Worksheet), recorded: (&PlanView, &Standing)) -> Self {
        Self {
            day: DayOnPaper::of(of, recorded),
            ..self
        }
    }
}

/// The word that the guide is abandoned, where the plan still leads through it. The plan is worked out for it where there is one.
fn abandoned_while_led(
    case: &ValidCase,
    (events, standing): (&Merged, &Standing),
) -> Option<DayEvent> {
    if standing.broken {
        return None;
    }
    surgery::abandoned(&standing.day)?;
    let worksheet = work_out(case);
    let view = plan_view(case, &worksheet, events);
    surgery::abandoned_while_led(case, &worksheet, (&view, standing)).cloned()
}
