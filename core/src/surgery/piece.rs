//! Which physical drill a step is done with.

use super::SetDrill;
use crate::kit::SlotKind;
use crate::sign::{DrillKey, Standing};

/// The physical drill that a step is done with: that of its setting, and where no setting is known, what of its sort lies in its
/// slot by the record. None where nothing of it lies there.
#[must_use]
pub fn piece(drill: &SetDrill<'_>, standing: &Standing) -> Option<DrillKey> {
    if let Some(planned) = drill.planned {
        return Some(planned.key.drill_key());
    }
    let slot = drill.item.slot.as_ref()?.as_str();
    let is_it = |entry: &str, lies: Option<&String>| {
        entry == drill.item.entry && lies.map(String::as_str) == Some(slot)
    };
    let mut drills = standing.drills.iter();
    let set = drills.find(|(one, now)| now.is_somewhere() && is_it(&one.drill, now.slot.as_ref()));
    let mut things = standing.thing_slots.iter();
    let unset = || {
        let drill =
            things.find(|(one, lies)| one.of == SlotKind::Drill && is_it(&one.entry, Some(lies)));
        drill.map(|(one, _)| DrillKey {
            drill: one.entry.clone(),
            copy: one.copy,
        })
    };
    set.map(|(one, _)| one.clone()).or_else(unset)
}
