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
mod quick;

#[cfg(test)]
mod tests;

pub use by_hand::{CannotLay, moved};
pub use check::{SideBySide, side_by_side};

pub(super) use check::check;

use crate::case::Case;
use crate::kit::SlotKind;
use crate::plan::stock::loading::LoadItem;
use alike::are_alike;
use apart::{Laying, laid_apart};
use beside::are_beside;

/// Gives the things their slots.
pub(super) fn lay(case: &Case, items: &mut [LoadItem]) {
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
        let laying = Laying::new(
            own.len(),
            free.len(),
            |a, b| are_alike(&items[own[a]], &items[own[b]]),
            |a, b| are_beside(&slots[free[a]], &slots[free[b]]),
        );
        for (item, slot) in own.iter().zip(laid_apart(&laying)) {
            items[*item].own_slot = Some(slots[free[slot]].name.clone());
        }
    }
    by_hand::follow(case, items);
}
