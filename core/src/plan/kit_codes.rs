//! Which drill and stop the kit has under their ids, as the record of a reading names them.

use crate::kit::{Drill, Kit, Label, Marking, Stop};
use crate::sign::{EventKind, Fingerprint, Merged, Reading};
use std::collections::{BTreeMap, BTreeSet};

/// Codes of drills with their stops, each worked out once.
pub(super) struct KitCodes<'a> {
    kit: &'a Kit,
    /// Those that the record bears.
    recorded: BTreeSet<Fingerprint>,
    known: BTreeMap<(String, Option<String>), Fingerprint>,
    /// Those by measures, kind and marking of what goes by the one of all words.
    others: BTreeMap<Fingerprint, Fingerprint>,
}

impl<'a> KitCodes<'a> {
    pub(super) fn of(kit: &'a Kit, events: &Merged) -> Self {
        let events = events.in_order().into_iter();
        let items = events.filter_map(|event| match &event.kind {
            EventKind::Reading(Reading { item, .. })
            | EventKind::Placed { item, .. }
            | EventKind::Handled { item, .. } => Some(item),
            _ => None,
        });
        Self {
            kit,
            recorded: items.filter_map(|item| item.kit_code).collect(),
            known: BTreeMap::new(),
            others: BTreeMap::new(),
        }
    }

    /// Codes that a record may bear too of what was asked for, each with the one that was given.
    pub(super) fn others(self) -> BTreeMap<Fingerprint, Fingerprint> {
        self.others
    }

    /// That of a drill, by its id, with a stop or without.
    pub(super) fn code(&mut self, drill: &str, stop: Option<&str>) -> Fingerprint {
        let ids = (drill.to_owned(), stop.map(str::to_owned));
        let (kit, recorded, others) = (self.kit, &self.recorded, &mut self.others);
        *self.known.entry(ids).or_insert_with(|| {
            let drill = kit.drills.iter().find(|one| one.id.as_str() == drill);
            let stop = stop.and_then(|id| kit.stops.iter().find(|one| one.id.as_str() == id));
            let (by_older, code) = (of_all_words(drill, stop), of_what_tells_it(drill, stop));
            if recorded.contains(&by_older) {
                others.insert(code, by_older);
                by_older
            } else {
                code
            }
        })
    }
}

/// Code of a drill with its stop by all that the kit says of them, as programs before rules 7 recorded it: what bears it
/// stays of them as long as no word of that is another. The code on a wrapping they did not know.
fn of_all_words(drill: Option<&Drill>, stop: Option<&Stop>) -> Fingerprint {
    Fingerprint::without(&(drill, stop), |above, key| {
        above.is_empty() && matches!(key, "code" | "quantity" | "source")
    })
}

/// The same by measures, kind and marking, or the name of what bears no marking. A correction of other words makes no
/// other instrument, nor does the code on its wrapping, how many there are, or who wrote it down.
fn of_what_tells_it(drill: Option<&Drill>, stop: Option<&Stop>) -> Fingerprint {
    let drill = drill.map(|drill| (drill, told_by_name(&drill.name, &drill.marking)));
    let stop = stop.map(|stop| (stop, told_by_name(&stop.name, &stop.marking)));
    Fingerprint::without(&(drill, stop), |above, key| {
        above.is_empty()
            && matches!(
                key,
                "name"
                    | "code"
                    | "quantity"
                    | "source"
                    | "greatest_speed_rpm"
                    | "torque_limit_ncm"
                    | "direction"
                    | "irrigation"
                    | "single_use"
            )
    })
}

fn told_by_name<'a>(name: &'a Label, marking: &Marking) -> Option<&'a Label> {
    (*marking == Marking::default()).then_some(name)
}
