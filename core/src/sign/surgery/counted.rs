//! Counts by two people.

use super::StepKey;
use crate::kit::Label;
use crate::sign::event::Purpose;
use crate::sign::names::Who;
use serde::{Deserialize, Serialize};

/// A sort of things that are counted.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum CountKind {
    /// The guide.
    Guide,
    /// The gauge.
    Gauge,
    /// Stops on drills.
    Stops,
    /// Stops of drills that fell which are on another drill again: each is one of those on drills.
    StopsAgain,
    /// Drills, in a wrapping or not.
    Drills,
    /// Drill sleeves.
    Sleeves,
    /// Fixation pins.
    Pins,
    /// Carriers.
    Carriers,
    /// Drivers.
    Drivers,
    /// Implants, opened or not, those too that were turned in.
    Implants,
    /// Keys that lock a stop.
    LockKeys,
    /// Tethers.
    Tethers,
    /// Throat packs.
    ThroatPacks,
    /// Another thing of the kit, by its name.
    Other(Label),
}

/// Everything was counted by two people.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Counted {
    /// The step: in or out.
    pub step: StepKey,
    /// The other person who counted.
    pub second: Who,
    /// What was counted, in the order of the list.
    pub lines: Vec<CountLine>,
    /// The step that was due, where another one was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Box<StepKey>>,
    /// What became of what lacks, in the person's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 4000))]
    pub despite: Option<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

/// One line of a count.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CountLine {
    /// The thing, as the desk then called it.
    #[schemars(length(min = 1, max = 400))]
    pub what: String,
    /// Its sort; none where a program did not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<CountKind>,
    /// The number that there should be.
    pub wanted: u32,
    /// The number that was found.
    pub found: u32,
}

impl Counted {
    /// The lines of which another number was found than there should be.
    pub fn amiss(&self) -> impl Iterator<Item = &CountLine> {
        self.lines.iter().filter(|line| line.found != line.wanted)
    }
}
