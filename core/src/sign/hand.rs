//! The work of hands on a drill, and the passes in which it is done.

use serde::{Deserialize, Serialize};

/// The work of a hand on the stop of a drill.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum HandStep {
    /// It was set on the gauge, or put in its groove.
    Set,
    /// It was locked.
    Locked,
    /// It was tugged at, and held.
    Tugged,
}

/// The work of a pass over the drills.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Pass {
    /// Drills are set and read, with their figures in sight.
    Setting,
    /// Drills are read, with no figure in sight of anyone.
    Blind,
}

/// The way in which a pass without figures ended.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum PassEnd {
    /// No figure was shown until it was over.
    Unseen,
    /// Somebody went to where figures stand.
    Left,
}
