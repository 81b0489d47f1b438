//! Where each drill is and how it is set, by the record alone, whatever the plan wants.

use crate::sign::event::{DrillKey, Event, EventKind, ItemKey, Piece};
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
    /// A fall of the drill was taken back: it is somewhere, and nobody knows how it is set.
    Unknown,
    /// The same, and another took its number meanwhile: of the two nobody knows which this is.
    EitherOfTwo,
    /// It was moved: nobody knows how it is set.
    Moved,
}

/// Every drill that was set or laid and did not fall since; one whose fall was taken back is there. What was practised, and
/// what does not count for a break of the record, was done with it all the same.
#[must_use]
pub fn drills_now(events: &Merged) -> BTreeMap<DrillKey, DrillNow> {
    of_all(events.in_order().into_iter()).0
}

/// The same of events in their order, with those that fell as they were then.
pub(super) fn of_all<'a>(
    events: impl Iterator<Item = &'a Event>,
) -> (BTreeMap<DrillKey, DrillNow>, BTreeMap<DrillKey, DrillNow>) {
    let mut drills: BTreeMap<DrillKey, DrillNow> = BTreeMap::new();
    let mut fallen: BTreeMap<DrillKey, DrillNow> = BTreeMap::new();
    for event in events {
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
                if let Piece::Drill(drill) = thing.piece() {
                    let of = [&mut drills, &mut fallen].into_iter();
                    for one in of.filter_map(|all| all.get_mut(&drill)) {
                        one.slot = None;
                    }
                }
            }
            EventKind::Dropped {
                piece: Piece::Drill(drill),
                ..
            } => fallen.extend(drills.remove_entry(drill)),
            EventKind::FallTakenBack {
                piece: Piece::Drill(drill),
                ..
            } => {
                // What took its number since lies where it lies, and which of the two that is nobody knows.
                let fell = fallen.remove_entry(drill);
                let took_its_place = drills.contains_key(drill);
                let there = fell.filter(|(drill, _)| !drills.contains_key(drill));
                drills.extend(there);
                if let Some(one) = drills.get_mut(drill) {
                    one.stop = if took_its_place {
                        StopSince::EitherOfTwo
                    } else {
                        StopSince::Unknown
                    };
                }
            }
            kind => {
                let moved = kind.moved_stop().and_then(|drill| drills.get_mut(drill));
                // Of one that is read by a mark there is none to take off.
                if let Some(one) = moved.filter(|one| one.item.stop.is_some()) {
                    one.stop = one.stop.max(StopSince::Begun);
                }
            }
        }
    }
    // What was laid for a mark and lies nowhere any more is set to nothing.
    drills.retain(|_, one| one.item.stop.is_some() || one.slot.is_some());
    (drills, fallen)
}

/// True if another drill that looks like this one is to be set otherwise, or is by the record, or nobody knows how it is:
/// also one that the plan has no use for any more, as long as it lies or is set. No name tells the two apart.
///
/// `planned` are the settings of the plan, `drills` all drills as they are by the record.
pub fn has_alike<'a>(
    drill: &ItemKey,
    mut planned: impl Iterator<Item = &'a ItemKey> + Clone,
    drills: &BTreeMap<DrillKey, DrillNow>,
) -> bool {
    let is_other = |key: &DrillKey| key.drill == drill.drill && key.copy != drill.copy;
    let wanted = planned.clone();
    let is_otherwise = |(key, now): (&DrillKey, &DrillNow)| match now.stop {
        StopSince::AsSet => now.item.setting_mm != drill.setting_mm,
        StopSince::Begun | StopSince::Unknown | StopSince::EitherOfTwo => true,
        // Taken off the tray for good it is no more to be mistaken.
        StopSince::Moved => now.slot.is_some() || wanted.clone().any(|item| item.is_drill(key)),
    };
    let mut there = drills.iter().filter(|(key, _)| is_other(key));
    drill.stop.is_some()
        && (planned.any(|key| is_other(&key.drill_key()) && key.setting_mm != drill.setting_mm)
            || there.any(is_otherwise))
}

impl DrillNow {
    /// True if it lies in a slot, or its stop may be set.
    #[must_use]
    pub fn is_somewhere(&self) -> bool {
        self.slot.is_some() || self.stop != StopSince::Moved
    }

    fn new(item: &ItemKey, slot: Option<&String>) -> Self {
        Self {
            item: item.clone(),
            slot: slot.cloned(),
            stop: StopSince::AsSet,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sign::Purpose;
    use crate::sign::samples::*;
    use crate::sign::standing::tables::k1;

    fn drill_after(kinds: Vec<EventKind>) -> Option<DrillNow> {
        let events = Merged::of(case_jaw(), [log_of("desk", kinds)]).unwrap();
        drills_now(&events).get(&k1().drill_key()).cloned()
    }

    /// The drill was used by hand.
    fn by_hand() -> EventKind {
        EventKind::StepDone(crate::sign::StepDone {
            step: crate::sign::StepKey::Reseat {},
            piece: Some(k1().drill_key()),
            due: None,
            despite: Some("the guide was left".to_owned()),
            by_hand: Some(crate::sign::ByHand { aimed_mm: None }),
            purpose: Purpose::Patient,
        })
    }

    /// A drill that was used by hand has its stop off; one that is read by a mark had none.
    #[test]
    fn what_was_used_by_hand_is_set_to_nothing() {
        let after = |item: ItemKey| {
            let placed = EventKind::Placed {
                item,
                slot: "A1".to_owned(),
                purpose: Some(Purpose::Patient),
            };
            drill_after(vec![placed, by_hand()]).unwrap().stop
        };
        assert_eq!(after(k1()), StopSince::Begun);
        let by_mark = ItemKey { stop: None, ..k1() };
        assert_eq!(after(by_mark), StopSince::AsSet);
    }

    /// By hand the mark of a drill that is read by it was read, and no stop was taken off: what was read of it before counts on.
    #[test]
    fn by_hand_a_drill_that_is_read_by_a_mark_stays_as_it_was_read() {
        use crate::sign::standing::tables::{first, lapses, of_desk};
        let read = |stop: bool| {
            let mut reading = first("24.3");
            if let EventKind::Reading(reading) = &mut reading
                && !stop
            {
                reading.item.stop = None;
            }
            lapses(&of_desk([checked("20", "20"), reading, by_hand()])).concat()
        };
        assert!(read(true).contains("reset"), "{}", read(true));
        assert!(!read(false).contains("reset"), "{}", read(false));
    }

    /// It did not fall after all: it is there, and nobody knows how it is set, until its stop is moved or it is set.
    #[test]
    fn a_drill_whose_fall_was_taken_back_is_somewhere() {
        let (piece, purpose) = (Piece::Drill(k1().drill_key()), Some(Purpose::Patient));
        let placed = || EventKind::Placed {
            item: k1(),
            slot: "A1".to_owned(),
            purpose,
        };
        let fell = || EventKind::Dropped {
            piece: piece.clone(),
            purpose,
        };
        let off = || thing_placed(crate::kit::SlotKind::Drill, "kestrel", 1, None);
        let back = |seq| taken_back(seq, piece.clone());
        assert_eq!(drill_after(vec![placed(), fell(), off()]), None);
        let there = drill_after(vec![placed(), fell(), off(), back(2)]).unwrap();
        assert_eq!((there.item, there.slot), (k1(), None));
        assert!(![StopSince::AsSet, StopSince::Moved].contains(&there.stop));
        // Another piece took its number and lies there.
        let there = drill_after(vec![placed(), fell(), off(), placed(), back(2)]).unwrap();
        assert_eq!(there.slot.as_deref(), Some("A1"));
        assert_eq!(there.stop, StopSince::EitherOfTwo);
        let reset = EventKind::Reset {
            drill: k1().drill_key(),
            to: None,
            passed_over: None,
            purpose,
        };
        let moved = drill_after(vec![placed(), fell(), back(2), reset]).unwrap();
        assert_eq!(moved.stop, StopSince::Moved);
        let set = handled(k1(), HandStep::Set);
        let set = drill_after(vec![placed(), fell(), back(2), set]).unwrap();
        assert_eq!(set.stop, StopSince::AsSet);
        assert_eq!(drill_after(vec![fell(), back(1)]), None, "nothing was set");
    }
}
