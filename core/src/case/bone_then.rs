//! The bone that a value was measured in: the scan, and the state that it was in then. Both may be another since without
//! a move.

use super::confirmed::{measured, measured_mut};
use super::{MeasuredAt, Site, SiteState};
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The bone that something was measured in.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BoneThen {
    /// Date of the scan that it was measured on; absent: that of the case.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub scan_date: Option<Date>,
    /// State of the bone then; absent: that of the site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub state: Option<BoneState>,
}

/// A state of the bone, without what belongs to it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum BoneState {
    Healed,
    FreshSocket,
    Grafted,
    ImplantToRemove,
}

impl BoneThen {
    /// True if neither is said.
    #[must_use]
    pub fn is_unsaid(&self) -> bool {
        *self == Self::default()
    }

    /// The dates of a graft and of the scan where this is not of after it; of one day, nobody knows which came
    /// first. Nothing where either is not entered.
    #[must_use]
    pub fn before_graft(self, state: &SiteState, scan_date: Option<Date>) -> Option<(Date, Date)> {
        let SiteState::Grafted { on } = *state else {
            return None;
        };
        let scan = self.scan_date.or(scan_date)?;
        (on >= scan).then_some((on, scan))
    }

    /// True if the bone is another since: in another state, or grafted since its scan, which is not that of the
    /// case.
    #[must_use]
    pub fn is_other(self, state: &SiteState, scan_date: Option<Date>) -> bool {
        let other_state = self.state.is_some_and(|then| then != state.bone());
        let other_scan = self.scan_date.is_some() && self.scan_date != scan_date;
        other_state || (other_scan && self.before_graft(state, None).is_some())
    }

    /// The same, and what it does not say as another does.
    pub(super) fn or(self, other: Self) -> Self {
        Self {
            scan_date: self.scan_date.or(other.scan_date),
            state: self.state.or(other.state),
        }
    }
}

impl SiteState {
    /// The state without what belongs to it.
    #[must_use]
    pub const fn bone(&self) -> BoneState {
        match self {
            Self::Healed {} => BoneState::Healed,
            Self::FreshSocket { .. } => BoneState::FreshSocket,
            Self::Grafted { .. } => BoneState::Grafted,
            Self::ImplantToRemove { .. } => BoneState::ImplantToRemove,
        }
    }
}

impl MeasuredAt {
    fn was_in(&mut self, bone: BoneThen) {
        self.bone_then = self.bone_then.or(bone);
        if let Some(word) = &mut self.confirmed {
            word.bone_then = word.bone_then.or(bone);
        }
    }
}

impl Site {
    /// What says no scan was measured on this one.
    pub(super) fn was_scanned(&mut self, scan_date: Date) {
        let bone = BoneThen {
            scan_date: Some(scan_date),
            state: None,
        };
        measured_mut(self).for_each(|one| one.was_in(bone));
        self.heights.remember(&self.heights.clone(), [bone, bone]);
    }

    /// Has values remember the bone after an edit of the site: those that it left as they were that which was there
    /// before, where it changed the state, and those that it entered the bone as it is now.
    pub(super) fn remember_bone(&mut self, old: &Self, scan_date: Option<Date>) {
        let state = self.state.bone();
        let now = BoneThen {
            scan_date,
            state: Some(state),
        };
        let before = BoneThen {
            scan_date: None,
            state: Some(old.state.bone()).filter(|old| *old != state),
        };
        let bones = [before, now];
        remember(
            &mut self.walls,
            &old.walls,
            |one| &mut one.measured_at,
            bones,
        );
        remember(
            &mut self.distances,
            &old.distances,
            |one| &mut one.measured_at,
            bones,
        );
        remember(
            &mut self.structures,
            &old.structures,
            |one| &mut one.measured_at,
            bones,
        );
        remember(
            &mut self.obstacles,
            &old.obstacles,
            |one| &mut one.measured_at,
            bones,
        );
        let gap = |state: &SiteState| state.socket().and_then(|socket| socket.gap_mm);
        let gap_before = gap(&old.state);
        if gap_before != gap(&self.state)
            && let Some(socket) = self.state.socket_mut()
            && let Some(then) = &mut socket.gap_measured_at
        {
            then.site.was_in(now);
        }
        self.heights.remember(&old.heights, bones);
        self.words_of_bone(old, scan_date);
    }

    /// Has words that an edit brought be of the bone only where that is another than the value was measured in: of
    /// nothing else was anybody asked.
    fn words_of_bone(&mut self, old: &Self, scan_date: Option<Date>) {
        let before: Vec<_> = measured(old)
            .filter_map(|one| one.confirmed.clone())
            .collect();
        let state = self.state.clone();
        let words = measured_mut(self).filter_map(|one| one.confirmed.as_mut());
        for word in words.filter(|word| !before.contains(word)) {
            word.of_bone &= word.bone_then.is_other(&state, scan_date);
        }
    }
}

fn remember<T: PartialEq>(
    new: &mut [T],
    old: &[T],
    at: impl Fn(&mut T) -> &mut MeasuredAt,
    [before, now]: [BoneThen; 2],
) {
    for one in new {
        let bone = if old.contains(one) { before } else { now };
        at(one).was_in(bone);
    }
}
