//! State of the view: entries begun for a site that are not in the case yet.

use super::alternatives::Trials;
use super::panes::Pane;
use std::collections::BTreeSet;
use traywright_core::case::{
    Direction, DistanceTo, Height, HeightDatum, SleeveFace, StructureKind, WallSide,
};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::{SiteId, StepId};
use traywright_core::measure::Length;
use traywright_core::plan::CommonCause;

/// State of the view.
#[derive(Default)]
pub struct State {
    of: Option<SiteId>,
    /// The pane below the sequence; it stays from site to site.
    pub(super) pane: Pane,
    /// The causes beneath which what hangs on them is listed.
    pub(super) unfolded: BTreeSet<CommonCause>,
    /// The step that was last brought into sight.
    pub(super) shown: Option<StepId>,
    /// The face that the distance will be given to: picked before there is a distance.
    pub(super) face: Option<SleeveFace>,
    /// A depth rule that was chosen for a step and waits for its figure.
    pub(super) rule: Option<(StepId, RuleKind)>,
    /// A grafted site that waits for its date.
    pub(super) grafted: bool,
    /// A crest of which one height is known.
    pub(super) crest: CrestBegun,
    /// A distance to a neighbour that waits for its figure.
    pub(super) distance: DistanceBegun,
    /// A deep structure that waits for its figure.
    pub(super) structure: StructureBegun,
    /// An obstacle that waits for its figures.
    pub(super) obstacle: ObstacleBegun,
    /// The neighbouring implants as they were tried.
    pub(super) trials: Option<Trials>,
    /// The neighbouring implant whose trial is looked at.
    pub(super) trial: Option<super::alternatives::Way>,
}

/// The depth rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum RuleKind {
    Full,
    BelowPlatform,
    ShortOfFull,
}

/// Depth of the platform below the crest, as far as it was entered.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct CrestBegun {
    pub(super) highest: Option<Length>,
    pub(super) lowest: Option<Length>,
}

/// A distance to a neighbour, as far as it was entered.
#[derive(Debug, Clone, Default)]
pub(super) struct DistanceBegun {
    pub(super) to: Option<DistanceTo>,
    pub(super) at: Option<Height>,
}

/// A deep structure, as far as it was entered.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct StructureBegun {
    pub(super) kind: Option<StructureKind>,
    pub(super) side: Option<StructurePlace>,
    pub(super) from: Option<HeightDatum>,
    pub(super) direction: Option<Direction>,
}

/// The place of a structure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum StructurePlace {
    Below,
    Beside,
}

/// An obstacle, as far as it was entered.
#[derive(Debug, Clone, Default)]
pub(super) struct ObstacleBegun {
    pub(super) name: String,
    pub(super) tooth: Option<ToothPosition>,
    pub(super) above_rim: Option<Length>,
}

/// The walls of the form.
pub(super) const SIDES: [WallSide; 2] = [WallSide::Buccal, WallSide::Oral];
/// The heights that a wall or a distance is measured at.
pub(super) const HEIGHTS: [Height; 4] = [Height::Crest, Height::Mid, Height::Apex, Height::Least];

impl State {
    /// Forgets what was begun for another site; true if it is another.
    pub(super) fn look_at(&mut self, site: &SiteId) -> bool {
        let fresh = self.of.as_ref() != Some(site);
        if fresh {
            *self = Self {
                of: Some(site.clone()),
                pane: self.pane,
                ..Self::default()
            };
        }
        fresh
    }
}
