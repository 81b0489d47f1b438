//! Which piece of a kit's stock a drill on the tray is.
//!
//! A case knows its drills by their number among equal ones on the tray. Which piece with which history that is a person
//! says, from what stands on it; until then nobody knows, and it is no new one by that.

use super::event::{DrillKey, EventId, Purpose};
use serde::{Deserialize, Serialize};

/// Somebody said which piece of the stock a drill on the tray is. What is said later by somebody who had read it takes its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PieceNamed {
    /// The drill on the tray.
    pub drill: DrillKey,
    /// What stands on the piece; absent: nobody knows which it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 120))]
    pub mark: Option<String>,
    /// The beginning of the sitting that it is in; absent: the one to come.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sitting: Option<EventId>,
    /// The last fall of a drill with this number, after which another one took its place; absent: none fell.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after: Option<EventId>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

impl PieceNamed {
    /// Greatest number of characters of a mark, as in a kit.
    pub const MARK: usize = 120;
}
