//! What was recorded of steps: done, left out, taken back, and what they brought.

use super::StepKey;
use crate::measure::{Length, Torque};
use crate::sign::event::{DrillKey, EventId, Purpose, ThingKey};
use crate::sign::fingerprint::Fingerprint;
use serde::{Deserialize, Serialize};

/// Surgery is begun, or gone on with, under a plan as it then was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SurgeryBegun {
    /// Of the plan.
    pub fingerprint: Fingerprint,
    /// Whether an approval of it counted.
    pub approval: Approved,
    /// What lay or was set otherwise than the plan wants it, and was told.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lies_wrong: Vec<ThingKey>,
    /// Why it was gone on with although something was open, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// How what lay wrong did, a code for each thing of `lies_wrong` in turn; empty where a program did not say.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub wrong_as: Vec<Fingerprint>,
    /// True where it is another sitting: nothing that was done, read or laid before counts in it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub anew: bool,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// Whether an approval counted.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Approved {
    /// One did.
    Approved,
    /// None did.
    Open,
}

/// A step was done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepDone {
    /// The step.
    pub step: StepKey,
    /// The physical drill that it was done with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece: Option<DrillKey>,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// Why it was done although it was not ready, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// How it was drilled where neither guide nor stop held it; none where it was done as its step says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by_hand: Option<ByHand>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// Drilled by a mark of the drill or by eye alone: stop and setting of the step were not used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ByHand {
    /// Depth of the tip from the crest that was aimed at; none where that was not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.001, max = 2000))]
    pub aimed_mm: Option<Length>,
}

/// A step was left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepSkipped {
    /// The step.
    pub step: StepKey,
    /// In the person's own words.
    #[schemars(length(min = 1, max = 4000))]
    pub reason: String,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// What was recorded of a step was recorded by mistake.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepTakenBack {
    /// What was recorded.
    pub event: EventId,
    /// The step.
    pub step: StepKey,
    /// How that came about, in the person's own words; none where nothing was said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub reason: Option<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// A site was sounded through the seated guide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sounded {
    /// The step; it bears the planned figure.
    pub step: StepKey,
    /// What the probe showed, from the seat to the bone.
    #[schemars(range(min = 0.001, max = 2000))]
    pub found_mm: Length,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// An implant was turned in, or begun.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Inserted {
    /// The step.
    pub step: StepKey,
    /// The way.
    pub way: InsertionWay,
    /// Torque reached; none where it was not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 200))]
    pub torque_ncm: Option<Torque>,
    /// How far coronal of its planned depth it stopped; negative: apical of it; none where that was not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -2000, max = 2000))]
    pub coronal_of_plan_mm: Option<Length>,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// Why it was done although it was not ready, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// The way in which an implant goes to its depth.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum InsertionWay {
    /// By the carrier, to its line.
    Guided,
    /// The carrier led its direction until it held; the depth is left to the hand, once the guide is off.
    Begun,
    /// By hand, after it was begun through its sleeve.
    Ended,
    /// By hand from the beginning.
    Freehand,
}
