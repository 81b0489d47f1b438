//! Where each drill is and how it is set, by the record alone, whatever the plan wants.

use crate::sign::event::{DrillKey, EventKind, ItemKey, Piece};
use crate::sign::hand::HandStep;
use crate::sign::merge::Merged;
use std::collections::BTreeMap;

/// A drill as it was last set or laid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrillNow {
    /// As it was set or laid.
    pub item: ItemKey,
    /// Its slot; none where it was not laid, or taken off since.
    pub slot: Option<String>,
    /// The state of its stop since.
    pub stop: StopSince,
}

/// The state of a stop since its drill was set or laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StopSince {
    /// Nothing was recorded of it.
    AsSet,
    /// Setting it anew in surgery was begun, so that nothing read before counts.
    Begun,
    /// It was moved: nobody knows how it is set.
    Moved,
}

/// Every drill that was set or laid and did not fall since. What was practised, and what does not count for a break of the
/// record, was done with it all the same.
#[must_use]
pub fn drills_now(events: &Merged) -> BTreeMap<DrillKey, DrillNow> {
    let mut drills: BTreeMap<DrillKey, DrillNow> = BTreeMap::new();
    for event in events.in_order() {
        match &event.kind {
            EventKind::Placed { item, slot, .. } => {
                drills.insert(item.drill_key(), DrillNow::new(item, Some(slot)));
            }
            EventKind::Handled {
                item,
                step: HandStep::Set,
                ..
            } => {
                drills.insert(item.drill_key(), DrillNow::new(item, None));
            }
            EventKind::Reset { drill, to, .. } => {
                let since = to.map_or(StopSince::Moved, |_| StopSince::Begun);
                if let Some(one) = drills.get_mut(drill) {
                    one.stop = one.stop.max(since);
                }
            }
            EventKind::ThingPlaced {
                thing, slot: None, ..
            } => {
                if let Piece::Drill(drill) = thing.piece()
                    && let Some(one) = drills.get_mut(&drill)
                {
                    one.slot = None;
                }
            }
            kind => {
                if let Some(drill) = kind.fallen_drill() {
                    drills.remove(drill);
                }
            }
        }
    }
    // What was laid for a mark and lies nowhere any more is set to nothing.
    drills.retain(|_, one| one.item.stop.is_some() || one.slot.is_some());
    drills
}

impl DrillNow {
    fn new(item: &ItemKey, slot: Option<&String>) -> Self {
        Self {
            item: item.clone(),
            slot: slot.cloned(),
            stop: StopSince::AsSet,
        }
    }
}
