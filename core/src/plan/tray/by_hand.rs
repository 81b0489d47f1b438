//! Places on the tray that a person chose.

use crate::case::{Case, Held, TrayPlace};
use crate::kit::{Label, SlotKind};
use crate::plan::stock::loading::LoadItem;

impl LoadItem {
    /// The thing by what stays the same when its setting changes.
    #[must_use]
    pub fn held(&self) -> Held {
        let entry = || Held::Entry {
            kind: self.kind,
            entry: self.entry.clone(),
            copy: self.copy,
        };
        if self.kind == SlotKind::Drill
            && let Some(pin) = self.pins.first()
        {
            return Held::Pin { pin: pin.clone() };
        }
        let first = self.serves.first();
        match (self.kind, first.and_then(|one| one.site.clone())) {
            (SlotKind::Drill, Some(site)) => {
                let step = first.and_then(|one| one.step.clone());
                step.map_or_else(entry, |step| Held::Step { site, step })
            }
            (SlotKind::Implant, Some(site)) => Held::Implant { site },
            _ => entry(),
        }
    }

    /// True if a place is meant for this thing.
    #[must_use]
    pub fn is_held(&self, held: &Held) -> bool {
        let serves = |at: &Held| {
            self.serves.iter().any(|one| match at {
                Held::Step { site, step } => {
                    (one.site.as_ref(), one.step.as_ref()) == (Some(site), Some(step))
                }
                Held::Implant { site } => one.site.as_ref() == Some(site),
                Held::Pin { .. } | Held::Entry { .. } => false,
            })
        };
        held.kind() == self.kind
            && match held {
                Held::Step { .. } | Held::Implant { .. } => serves(held),
                Held::Pin { pin } => self.pins.contains(pin),
                Held::Entry { .. } => self.held() == *held,
            }
    }

    /// True if it is in another slot than the program's own for it.
    #[must_use]
    pub fn is_by_hand(&self) -> bool {
        self.slot != self.own_slot
    }
}

/// A reason why a thing cannot be laid in a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlaceRefused {
    /// The tray has no such slot, or the plan no such thing.
    NotThere,
    /// The slot is for another kind of thing.
    OtherKind {
        /// The kind that the slot is for.
        slot: SlotKind,
        /// The kind of the thing.
        thing: SlotKind,
    },
    /// It is there already.
    LiesThere,
}

/// The thing that each place is for; nothing for one that is not followed: what it names is not
/// laid, or an earlier place is for the same thing.
pub(super) fn followed(places: &[TrayPlace], items: &[LoadItem]) -> Vec<Option<usize>> {
    let mut found: Vec<Option<usize>> = Vec::new();
    for place in places {
        let thing = items.iter().position(|item| item.is_held(&place.holds));
        found.push(thing.filter(|_| !found.contains(&thing)));
    }
    found
}

/// Lays what a person chose a place for there, and what the program would lay there where that
/// comes from. A place is chosen once at most, so none of them is undone by another.
pub(super) fn follow(case: &Case, items: &mut [LoadItem]) {
    for item in items.iter_mut() {
        item.slot.clone_from(&item.own_slot);
    }
    let things = followed(&case.tray_places, items);
    for (place, thing) in case.tray_places.iter().zip(things) {
        let Some(thing) = thing else { continue };
        let from = items[thing].slot.replace(place.slot.clone());
        let there = items.iter().enumerate();
        let there =
            there.filter(|(n, item)| *n != thing && item.slot.as_ref() == Some(&place.slot));
        if let Some(other) = there.map(|(n, _)| n).next() {
            items[other].slot = from;
        }
    }
}

/// The places as they are once a thing, by its place in the list, is laid in a slot, and the thing
/// there in its own. Both are then chosen; a place where the program would lay the thing anyway is
/// none, so that moving back leaves no trace. Places in the order of the tray.
///
/// # Errors
///
/// The reason why it cannot be laid there.
pub fn moved(
    case: &Case,
    items: &[LoadItem],
    thing: usize,
    slot: &Label,
) -> Result<Vec<TrayPlace>, PlaceRefused> {
    let slots = case.tray_slots();
    let target = slots.iter().find(|one| one.name == *slot);
    let (Some(item), Some(target)) = (items.get(thing), target) else {
        return Err(PlaceRefused::NotThere);
    };
    if target.kind != item.kind {
        return Err(PlaceRefused::OtherKind {
            slot: target.kind,
            thing: item.kind,
        });
    }
    if item.slot.as_ref() == Some(slot) {
        return Err(PlaceRefused::LiesThere);
    }
    let there = items.iter().find(|other| other.slot.as_ref() == Some(slot));
    let mut places = case.tray_places.clone();
    let is_free =
        |place: &TrayPlace| place.slot != *slot && Some(&place.slot) != item.slot.as_ref();
    places.retain(|place| {
        let of_either =
            item.is_held(&place.holds) || there.is_some_and(|there| there.is_held(&place.holds));
        is_free(place) && !of_either
    });
    let mut choose = |item: &LoadItem, slot: &Label| {
        if item.own_slot.as_ref() != Some(slot) {
            places.push(TrayPlace {
                slot: slot.clone(),
                holds: item.held(),
            });
        }
    };
    choose(item, slot);
    if let (Some(there), Some(from)) = (there, &item.slot) {
        choose(there, from);
    }
    let index = |place: &TrayPlace| slots.iter().position(|slot| slot.name == place.slot);
    places.sort_by_key(index);
    Ok(places)
}
