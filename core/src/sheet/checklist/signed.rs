//! What is signed for the plan that is printed.

use crate::sign::{ApprovalStanding, Policy, Standing};
use jiff::Timestamp;

/// Whether the plan that is printed is approved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ApprovalState {
    /// No approval holds for it.
    NotApproved,
    /// Approved.
    Approved {
        /// By whom.
        by: String,
        /// When.
        at: Timestamp,
    },
    /// Approved to practise, or in a demonstration case: it never counts.
    Practice {
        /// By whom.
        by: String,
        /// When.
        at: Timestamp,
    },
}

/// What is signed for the plan, as far as the sheet prints it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// Whether the plan is approved.
    pub approval: ApprovalState,
    /// Name of the local rule by which a reading on the bench counts after sterilisation, where
    /// there is one.
    pub bench_rule: Option<String>,
}

impl Signed {
    /// Nothing is signed and no local rule applies.
    #[must_use]
    pub const fn nothing() -> Self {
        Self {
            approval: ApprovalState::NotApproved,
            bench_rule: None,
        }
    }

    /// What counts now under the rules of the house; of several approvals the latest.
    #[must_use]
    pub fn of(standing: &Standing, policy: &Policy) -> Self {
        let latest = |holds: fn(&ApprovalStanding) -> bool| {
            let those = standing.approvals.iter().filter(|one| holds(one));
            those
                .max_by_key(|one| one.at)
                .map(|one| (one.who.as_str().to_owned(), one.at))
        };
        let approval = if let Some((by, at)) = latest(ApprovalStanding::is_valid) {
            ApprovalState::Approved { by, at }
        } else if let Some((by, at)) = latest(ApprovalStanding::is_practised) {
            ApprovalState::Practice { by, at }
        } else {
            ApprovalState::NotApproved
        };
        Self {
            approval,
            bench_rule: policy.bench_after_sterilisation.clone(),
        }
    }
}
