//! The slots of a tray lie on it and beside each other.

use super::{Kit, TraySlot};
use crate::document::{Checks, Fault, Path, Rule};
use crate::measure::Length;

pub(super) fn trays(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, tray) in kit.trays.iter().enumerate() {
        let at = root.key("trays").item(n).key("slots");
        checks.unique(
            &at,
            "name",
            tray.slots.iter().map(|slot| slot.name.as_str()),
        );
        for (k, slot) in tray.slots.iter().enumerate() {
            let right = slot.left_mm + slot.width_mm;
            let near = slot.far_mm + slot.depth_mm;
            checks.at_most(
                at.item(k).key("width_mm"),
                &right,
                &tray.width_mm,
                "tray-from-left",
            );
            checks.at_most(
                at.item(k).key("depth_mm"),
                &near,
                &tray.depth_mm,
                "tray-from-far",
            );
            let over = tray.slots[..k]
                .iter()
                .find_map(|other| Some((other, overlap(other, slot)?)));
            if let Some((other, key)) = over {
                checks.push(
                    Fault::new(at.item(k).key(key), Rule::SlotsOverlap)
                        .with("slot", slot.name.as_str())
                        .with("other", other.name.as_str()),
                );
            }
        }
    }
}

/// The coordinate by which the later of two slots takes some of the same room: the one in which
/// they overlap less. Nothing where they only touch.
fn overlap(one: &TraySlot, other: &TraySlot) -> Option<&'static str> {
    let shared = |from: Length, to: Length, other_from: Length, other_to: Length| {
        to.min(other_to) - from.max(other_from)
    };
    let across = shared(
        one.left_mm,
        one.left_mm + one.width_mm,
        other.left_mm,
        other.left_mm + other.width_mm,
    );
    let along = shared(
        one.far_mm,
        one.far_mm + one.depth_mm,
        other.far_mm,
        other.far_mm + other.depth_mm,
    );
    if across <= Length::ZERO || along <= Length::ZERO {
        None
    } else if across <= along {
        Some("left_mm")
    } else {
        Some("far_mm")
    }
}
