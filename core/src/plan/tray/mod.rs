//! The slot of the tray for each thing.
//!
//! The program lays things in the order of loading, look-alikes not side by side where the template
//! allows. Places that a person chose are exchanges against that: whoever moves one thing does not
//! find all others moved.

mod alike;
mod apart;
mod beside;
mod by_hand;
mod check;
mod greedy;

#[cfg(test)]
mod tests;

pub use by_hand::{PlaceRefused, moved};
pub use check::{SideBySide, side_by_side};

pub(super) use check::check;

use crate::case::Case;
use crate::kit::SlotKind;
use crate::plan::stock::loading::{LoadItem, Loading};
use alike::are_alike;
use apart::{SlotProblem, arrange_apart};
use beside::are_beside;

/// Gives the things their slots; a drill that is set anew stays in its own.
pub(super) fn lay(case: &Case, loading: &mut Loading) {
    assign_slots(case, &mut loading.items);
    for reset in &mut loading.resets {
        let item = &loading.items[reset.item];
        reset.to.slot.clone_from(&item.slot);
        reset.to.own_slot.clone_from(&item.own_slot);
    }
}

fn assign_slots(case: &Case, items: &mut [LoadItem]) {
    let slots = case.tray_slots();
    let mut kinds: Vec<SlotKind> = items.iter().map(|item| item.kind).collect();
    kinds.sort();
    kinds.dedup();
    for kind in kinds {
        let free: Vec<usize> = (0..slots.len())
            .filter(|slot| slots[*slot].kind == kind)
            .collect();
        // Where there are too few slots, what is used last has none.
        let own: Vec<usize> = (0..items.len())
            .filter(|item| items[*item].kind == kind)
            .take(free.len())
            .collect();
        let problem = SlotProblem::new(
            own.len(),
            free.len(),
            |a, b| are_alike(&items[own[a]], &items[own[b]]),
            |a, b| are_beside(&slots[free[a]], &slots[free[b]]),
        );
        for (item, slot) in own.iter().zip(arrange_apart(&problem)) {
            items[*item].own_slot = Some(slots[free[slot]].name.clone());
        }
    }
    by_hand::follow(case, items);
}
