//! What was worked out of a case when it was last saved, kept so that newer rules can say what they change.

use crate::kit::{SiteId, StepId};
use crate::measure::Length;
use crate::sign::Fingerprint;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the rules of the file gave when it was last saved. No figure is read from it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SavedFigures {
    /// The plan code of the case as it was then.
    pub plan_code: Fingerprint,
    /// Of every step that has a setting or a cut.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 1500))]
    pub steps: Vec<SavedStep>,
    /// Of every finding that was short, unknown or tight.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 20000))]
    pub findings: Vec<SavedFinding>,
}

/// Setting and cut of a step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SavedStep {
    /// The site.
    pub site: SiteId,
    /// The step.
    pub step: StepId,
    /// Set length; absent: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -2000, max = 2000))]
    pub set_mm: Option<Length>,
    /// Deepest point of the cut below the platform; absent: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -2000, max = 2000))]
    pub cut_mm: Option<Length>,
}

/// Verdict of a finding.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SavedFinding {
    /// Key of the finding: its rule and its place.
    #[schemars(length(min = 1, max = 200))]
    pub finding: String,
    /// Its verdict, with value and limit: `short 1.2/1.5`.
    #[schemars(length(min = 1, max = 120))]
    pub shown: String,
}
