//! The wishes of a case for its run order.

use crate::kit::{Label, SiteId, StepId};
use crate::order::{Group, Objective, Weights};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// Wishes for the run order. Nothing clinical depends on them: they say by which measure the best
/// order is looked for, not which one is followed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RunWishes {
    /// The measure by which one order is better than another.
    #[serde(default)]
    pub objective: Objective,
    /// The cost of each change: the user's own times, in tenths of a second.
    #[serde(default)]
    pub weights: Weights,
    /// Sites that are finished before others are begun.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 240))]
    pub before: Vec<SiteBefore>,
    /// Rules about what stays together.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub groups: BTreeSet<Group>,
    /// Sites whose implants hold the guide and so come first; absent: on mucosa one in front and one
    /// across, else none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(max = 16))]
    pub hold_guide: Option<Vec<SiteId>>,
}

/// One site before another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SiteBefore {
    /// The site that is finished first.
    pub first: SiteId,
    /// The site that waits for it.
    pub then: SiteId,
}

/// One thing to do, in an order that was accepted. What is done for the whole jaw is not among them:
/// it comes where it has to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "do", rename_all = "snake_case", deny_unknown_fields)]
pub enum OrderedUse {
    /// Drill and set a fixation pin.
    Pin {
        /// Its name in the case.
        pin: Label,
    },
    /// Drill a step.
    Drill {
        /// The site.
        site: SiteId,
        /// The step.
        step: StepId,
    },
    /// Turn in the implant.
    Insert {
        /// The site.
        site: SiteId,
    },
}

impl RunWishes {
    /// True if nothing was wished: everything is as the program sets it.
    #[must_use]
    pub fn is_default(&self) -> bool {
        *self == Self::default()
    }

    /// The same without anything about a site.
    #[must_use]
    pub fn without(&self, id: &SiteId) -> Self {
        let mut other = self.clone();
        other
            .before
            .retain(|rule| rule.first != *id && rule.then != *id);
        if let Some(held) = &mut other.hold_guide {
            held.retain(|site| site != id);
        }
        other
    }
}
