//! A problem of the run order as plain data.

use super::Id;
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// The newest version of the problem file that this program reads.
pub const ORDER_VERSION: u32 = 1;

/// The steps at each site, with their instruments, and the cost of each change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Problem {
    /// Version of this file's form.
    #[schemars(range(min = 1, max = 1))]
    pub traywright_order: u32,
    /// The measure by which one order is better than another.
    #[serde(default)]
    pub objective: Objective,
    /// The cost of each change.
    #[serde(default)]
    pub weights: Weights,
    /// The tools, with how many of each there are.
    #[serde(default)]
    #[schemars(length(max = 1536))]
    pub tools: Vec<Tool>,
    /// The sleeves, with how many pieces of each there are.
    #[serde(default)]
    #[schemars(length(max = 100))]
    pub sleeves: Vec<Sleeve>,
    /// The sites, each with its steps in their fixed order. Pins and the like are sites of their own.
    #[schemars(length(min = 1, max = 64))]
    pub sites: Vec<Chain>,
    /// Rules on the order of steps.
    #[serde(default)]
    pub rules: Rules,
}

/// The measure by which one order is better than another.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Objective {
    /// Fewest re-sets during surgery; among those the least time.
    #[default]
    FewestResets,
    /// The least time, a re-set counting like anything else.
    LeastTime,
}

/// The cost of each change, in whole tenths of a second (ds). The defaults are invented, not
/// measured: whoever plans puts in the times of the own team.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Weights {
    /// Taking another instrument into the handpiece.
    #[schemars(range(min = 0, max = 36_000))]
    pub mount_ds: u32,
    /// Setting the stop of an instrument anew during surgery.
    #[schemars(range(min = 0, max = 36_000))]
    pub reset_ds: u32,
    /// Going to another site.
    #[schemars(range(min = 0, max = 36_000))]
    pub move_ds: u32,
    /// Putting a sleeve into a site.
    #[schemars(range(min = 0, max = 36_000))]
    pub sleeve_ds: u32,
    /// Turning the motor to another speed.
    #[schemars(range(min = 0, max = 36_000))]
    pub speed_ds: u32,
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            mount_ds: 150,
            reset_ds: 600,
            move_ds: 60,
            sleeve_ds: 80,
            speed_ds: 30,
        }
    }
}

/// A tool, of which there may be several alike.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tool {
    /// Short name for references.
    pub id: Id,
    /// Number of pieces, each with a stop where it is used with one.
    #[schemars(range(min = 0, max = 100))]
    pub copies: u32,
    /// Cutting diameter; absent for what does not drill.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.001, max = 20))]
    pub diameter_mm: Option<Length>,
}

/// A removable sleeve, of which there may be several pieces.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sleeve {
    /// Short name for references.
    pub id: Id,
    /// Number of pieces.
    #[schemars(range(min = 0, max = 100))]
    pub pieces: u32,
}

/// A site with its steps.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Chain {
    /// Short name for references.
    pub id: Id,
    /// The site that this one goes on with, such as after the guide came off: it waits for the end of that, and
    /// who begins it right then stays where they are.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub continues: Option<Id>,
    /// The steps in their fixed order.
    #[schemars(length(min = 1, max = 24))]
    pub steps: Vec<Operation>,
}

/// One step at a site.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Operation {
    /// The instrument; absent where the handpiece is not used: what it holds stays in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<Instrument>,
    /// Anything to be done with the sleeve of the site.
    #[serde(default)]
    pub sleeve: SleeveUse,
    /// Speed of the motor in 1/min; absent where it does not matter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 200_000))]
    pub speed_rpm: Option<u32>,
}

/// A tool and how its stop is set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Instrument {
    /// Id of the tool.
    pub tool: Id,
    /// Name of the setting, such as `14.5`; absent: without a stop, which is a setting like any other.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub setting: Option<Id>,
}

/// Anything to be done with the sleeve of a site before a step.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum SleeveUse {
    /// Nothing: whatever is in stays.
    #[default]
    Keep,
    /// Whatever is in comes out, which costs nothing.
    Out,
    /// This sleeve has to be in.
    Place(Id),
}

/// Rules on the order of steps.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Rules {
    /// Pairs of sites, or of steps, of which the first has to be done before the other begins.
    #[serde(default)]
    #[schemars(length(max = 4000))]
    pub before: Vec<Before>,
    /// Rules about what stays together.
    #[serde(default)]
    pub groups: BTreeSet<Group>,
}

/// One thing before another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Before {
    /// Id of the site that comes first.
    pub first: Id,
    /// The step of it that has to be done, counted from 1; absent: the last.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 24))]
    pub first_step: Option<u32>,
    /// Id of the site that has to wait.
    pub then: Id,
    /// The step of it that has to wait, counted from 1; absent: the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 24))]
    pub then_step: Option<u32>,
}

/// A rule about what stays together.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Group {
    /// A site that was begun is finished before another one.
    SiteBySite,
    /// No drilling step before a narrower one, over all sites.
    ByDiameter,
}
