//! Approvals that hold for the plan as it is.

use super::is_practice;
use super::plan::PlanView;
use super::void::{Void, VoidOf};
use crate::sign::event::{Approval, EventId, EventKind};
use crate::sign::heads::TimedEvent;
use crate::sign::{Fingerprint, Message, Who};
use std::collections::BTreeSet;

/// An approval and what speaks against it now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ApprovalStanding {
    /// The event.
    pub id: EventId,
    /// The time of the approval.
    pub at: jiff::Timestamp,
    /// The person who gave it.
    pub who: Who,
    /// Its content.
    pub approval: Approval,
    /// The reasons why it does not hold; empty when it does.
    pub lapses: Vec<ApprovalLapse>,
}

/// A reason why an approval does not hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ApprovalLapse {
    /// Nothing of the record counts.
    Void(Void),
    /// Given to practise, or for a demonstration case.
    Practice,
    /// What was approved had a code of another extent.
    OtherExtent {
        /// The extent of that code.
        covered: u32,
    },
    /// The plan is not the one that was approved.
    FingerprintDiffers {
        /// Of the approved plan.
        approved: Fingerprint,
        /// Of the current plan.
        current: Fingerprint,
    },
    /// Taken back.
    Withdrawn {
        /// The event.
        by: EventId,
        /// The person who withdrew it.
        who: Who,
        /// The reason, in the person's own words.
        reason: String,
    },
    /// The plan accepts findings that the approval does not name.
    AcceptancesNotCovered {
        /// Their keys and what they showed, sorted.
        keys: Vec<String>,
    },
    /// The plan accepts findings that the approval names by another decision: with another reason or
    /// name.
    DecisionsChanged {
        /// Their keys and what they show, sorted.
        keys: Vec<String>,
    },
    /// The plan no longer accepts findings that the approval names.
    AcceptancesGone {
        /// Their keys and what they showed, sorted.
        keys: Vec<String>,
    },
}

impl ApprovalStanding {
    /// True if it holds.
    #[must_use]
    pub fn is_valid(&self) -> bool {
        self.lapses.is_empty()
    }

    /// True if it says by which decision each finding was accepted. One of an earlier version does not,
    /// and holds for any that was decided since.
    #[must_use]
    pub fn names_decisions(&self) -> bool {
        let mut accepted = self.approval.accepted.iter();
        accepted.all(|one| without_decision(one) != one)
    }

    /// True if it would hold if it were not practice.
    #[must_use]
    pub fn is_practised(&self) -> bool {
        self.lapses == [ApprovalLapse::Practice]
    }
}

pub(super) fn approvals(
    (timed, void): (&[TimedEvent<'_>], &VoidOf<'_>),
    plan: &PlanView,
) -> Vec<ApprovalStanding> {
    let of = |this: &TimedEvent<'_>| {
        let EventKind::Approval(approval) = &this.event.kind else {
            return None;
        };
        Some(ApprovalStanding {
            id: this.event.id(),
            at: this.event.at,
            who: this.event.who.clone(),
            approval: approval.clone(),
            lapses: void(this)
                .map(ApprovalLapse::Void)
                .into_iter()
                .chain(lapses(this, approval, timed, plan))
                .collect(),
        })
    };
    timed.iter().filter_map(of).collect()
}

fn lapses(
    this: &TimedEvent<'_>,
    approval: &Approval,
    timed: &[TimedEvent<'_>],
    plan: &PlanView,
) -> Vec<ApprovalLapse> {
    let mut lapses = Vec::new();
    if is_practice(approval.purpose, plan.purpose) {
        lapses.push(ApprovalLapse::Practice);
    }
    if approval.covers != plan.covers {
        let covered = approval.covers;
        lapses.push(ApprovalLapse::OtherExtent { covered });
    } else if approval.fingerprint != plan.fingerprint {
        lapses.push(ApprovalLapse::FingerprintDiffers {
            approved: approval.fingerprint,
            current: plan.fingerprint,
        });
    }
    let withdrawal = timed.iter().find_map(|other| match &other.event.kind {
        EventKind::ApprovalWithdrawn {
            fingerprint,
            reason,
        } if *fingerprint == approval.fingerprint && !other.clearly_before(this) => {
            Some(ApprovalLapse::Withdrawn {
                by: other.event.id(),
                who: other.event.who.clone(),
                reason: reason.clone(),
            })
        }
        _ => None,
    });
    lapses.extend(withdrawal);
    let beyond = |a: &BTreeSet<String>, b: &BTreeSet<String>| -> Vec<String> {
        let missing = |one: &&String| !b.iter().any(|other| is_same(one, other));
        a.iter().filter(missing).cloned().collect()
    };
    let by_another = |keys: Vec<String>, others: &BTreeSet<String>| {
        let named = |key: &String| {
            let mut others = others.iter();
            others.any(|other| without_decision(other) == without_decision(key))
        };
        keys.into_iter().partition::<Vec<String>, _>(named)
    };
    let keys = beyond(&plan.accepted, &approval.accepted);
    let (changed, keys) = by_another(keys, &approval.accepted);
    if !changed.is_empty() {
        lapses.push(ApprovalLapse::DecisionsChanged { keys: changed });
    }
    if !keys.is_empty() {
        lapses.push(ApprovalLapse::AcceptancesNotCovered { keys });
    }
    let keys = beyond(&approval.accepted, &plan.accepted);
    let (_, keys) = by_another(keys, &plan.accepted);
    if !keys.is_empty() {
        lapses.push(ApprovalLapse::AcceptancesGone { keys });
    }
    lapses
}

/// The beginning of the last word of an acceptance that says by which decision it was accepted.
pub const DECISION: &str = "by:";

/// An acceptance without the word that says by which decision.
#[must_use]
pub fn without_decision(acceptance: &str) -> &str {
    match acceptance.rsplit_once(' ') {
        Some((named, last)) if last.starts_with(DECISION) => named,
        _ => acceptance,
    }
}

/// True if two acceptances are one. Approvals of earlier versions name no decision and cover any.
fn is_same(one: &str, other: &str) -> bool {
    let (a, b) = (without_decision(one), without_decision(other));
    one == other || a == b && (a == one || b == other)
}

impl ApprovalLapse {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Void(void) => void.message(),
            Self::Practice => Message::new("sign-approval-practice", []),
            Self::OtherExtent { covered } => {
                Message::new("sign-approval-other-extent", [("covered", covered)])
            }
            Self::FingerprintDiffers { approved, current } => Message::new(
                "sign-approval-fingerprint-differs",
                [("approved", approved), ("current", current)],
            ),
            Self::Withdrawn { who, reason, .. } => Message::new(
                "sign-approval-withdrawn",
                [("who", who), ("reason", reason)],
            ),
            Self::AcceptancesNotCovered { keys } => Message::new(
                "sign-approval-acceptances-not-covered",
                [("keys", &keys.join(", "))],
            ),
            Self::DecisionsChanged { keys } => Message::new(
                "sign-approval-decisions-changed",
                [("keys", &keys.join(", "))],
            ),
            Self::AcceptancesGone { keys } => Message::new(
                "sign-approval-acceptances-gone",
                [("keys", &keys.join(", "))],
            ),
        }
    }
}
