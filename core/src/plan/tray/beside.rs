//! Slots of a tray that are side by side.

use crate::kit::TraySlot;
use crate::measure::Length;

/// True if two slots are side by side: an edge of one runs along an edge of the other, and between
/// them there is no room for a slot as narrow as the narrower of the two. At a corner they are not.
///
/// The measure of nearness is taken from the slots themselves, so that a large tray is judged as a
/// small one.
pub(super) fn are_beside(one: &TraySlot, other: &TraySlot) -> bool {
    let (across, along) = (gap(one, other, sideways), gap(one, other, lengthways));
    let narrowest = [one.width_mm, one.depth_mm, other.width_mm, other.depth_mm]
        .into_iter()
        .min()
        .unwrap_or_default();
    // A gap below zero is a run along each other.
    across.max(along) < narrowest && across.min(along) < Length::ZERO
}

type Run = (Length, Length);

fn sideways(slot: &TraySlot) -> Run {
    (slot.left_mm, slot.left_mm + slot.width_mm)
}

fn lengthways(slot: &TraySlot) -> Run {
    (slot.far_mm, slot.far_mm + slot.depth_mm)
}

fn gap(one: &TraySlot, other: &TraySlot, run: fn(&TraySlot) -> Run) -> Length {
    let ((from, to), (other_from, other_to)) = (run(one), run(other));
    from.max(other_from) - to.min(other_to)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::SlotKind;

    fn slot([left, far, width, depth]: [i64; 4]) -> TraySlot {
        TraySlot {
            name: "A".into(),
            kind: SlotKind::Drill,
            left_mm: Length::from_um(left * 100),
            far_mm: Length::from_um(far * 100),
            width_mm: Length::from_um(width * 100),
            depth_mm: Length::from_um(depth * 100),
        }
    }

    #[test]
    fn slots_are_beside_each_other_along_an_edge_and_near() {
        // Left, far, width and depth in tenths of a millimetre; the first slot is 12 wide and 40 deep.
        for (other, want, what) in [
            ([220, 100, 120, 400], true, "touching"),
            ([260, 100, 120, 400], true, "4 mm between them"),
            ([339, 100, 120, 400], true, "just no room for a third"),
            ([340, 100, 120, 400], false, "room for a third"),
            ([260, 100, 60, 400], true, "a narrow one, 4 mm off"),
            ([280, 100, 60, 400], false, "a narrow one, room for another"),
            ([260, 499, 120, 400], true, "along a sliver of the edge"),
            ([260, 500, 120, 400], false, "corner to corner"),
            ([100, 540, 120, 400], true, "end to end"),
            ([100, 620, 120, 400], false, "end to end, room for a third"),
            ([0, 0, 60, 60], false, "off both ways"),
        ] {
            let first = slot([100, 100, 120, 400]);
            assert_eq!(are_beside(&first, &slot(other)), want, "{what}");
            assert_eq!(
                are_beside(&slot(other), &first),
                want,
                "{what}, the other way"
            );
        }
    }
}
