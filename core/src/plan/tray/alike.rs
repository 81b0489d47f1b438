//! Look-alikes on the tray.

use crate::kit::Marking;
use crate::plan::stock::loading::LoadItem;

/// True if a hand could take one for the other by its looks: the same drill at another setting,
/// which nothing but the figure distinguishes, or other instruments of one kind that are marked
/// alike.
///
/// Equal things are no look-alikes: whichever is taken does the same. Nor is every mix-up one that
/// would cut too deep: of two drills that can be told apart nearly any pair would somewhere, and
/// no tray could part them all. The mix-ups of a site are listed by themselves.
pub(super) fn are_alike(one: &LoadItem, other: &LoadItem) -> bool {
    if one.kind != other.kind {
        return false;
    }
    if one.entry == other.entry {
        // Steps that share a setting share the drill, so two of one drill are set otherwise, or one
        // of them nobody knows how.
        return one.set.is_some() && other.set.is_some();
    }
    one.marking == other.marking && one.marking != Marking::default()
}
