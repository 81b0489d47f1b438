//! What a case keeps of its being saved: where and when, and what was then worked out of it, so that newer rules can say
//! what they change.

use super::ValidCase;
use crate::kit::{Label, SiteId, StepId};
use crate::measure::Length;
use crate::sign::Fingerprint;
use jiff::Timestamp;
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

/// Most saves that a case keeps; of more the oldest go.
const MOST_SAVES: usize = 500;

/// A desk that saves, and when by its clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SavedAt {
    /// The time.
    pub at: Timestamp,
    /// The name of the desk.
    pub desk: Label,
}

/// One time that the case was saved. It says so and proves nothing: it is in the file that anybody can write.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Save {
    /// The time, by the clock of the desk.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// The name of the desk.
    pub desk: Label,
    /// The revision that was saved.
    #[schemars(range(min = 0, max = 1_000_000))]
    pub revision: u32,
    /// The plan code that it had.
    pub plan_code: Fingerprint,
}

/// The saves of two versions of a case, the oldest first, and one more.
#[must_use]
pub(super) fn saves_of(case: &ValidCase, before: Option<&ValidCase>, by: &SavedAt) -> Vec<Save> {
    let kept = before.map_or(&[][..], |before| &before.saves);
    let mut saves: Vec<Save> = case.saves.iter().chain(kept).cloned().collect();
    saves.sort();
    saves.dedup();
    saves.push(Save {
        at: by.at,
        desk: by.desk.clone(),
        revision: case.revision,
        plan_code: case.fingerprint(),
    });
    let more = saves.len().saturating_sub(MOST_SAVES);
    saves.drain(..more);
    saves
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
