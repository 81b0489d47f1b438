//! What is counted in and out.

use crate::case::ValidCase;
use crate::kit::{AccessoryKind, SlotKind};
use crate::plan::{LoadItem, StepPath, Worksheet, with_planned};
use crate::sign::{
    CountKind, CountLine, EventKind, Fingerprint, Piece, PlanView, PlannedItem, Standing, StepKey,
    ThingKey,
};
use serde::Serialize;
use std::num::NonZeroU32;

/// A sort of things with the number that there should be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CountWanted {
    /// The sort.
    pub kind: CountKind,
    /// The number.
    pub wanted: u32,
}

/// The name of a list: another list has another one.
pub(super) fn digest(list: &[CountWanted]) -> Fingerprint {
    Fingerprint::of(&list)
}

/// The tray by the plan and by its record.
#[derive(Clone, Copy)]
pub(super) struct Room<'a> {
    pub(super) worksheet: &'a Worksheet,
    pub(super) view: &'a PlanView,
    pub(super) standing: &'a Standing,
}

impl Room<'_> {
    /// The lines of the last count before the first cut.
    fn found_in(&self) -> &[CountLine] {
        let mut counts = self.standing.day.iter().rev().filter(|one| one.counts());
        let last = counts.find_map(|one| match &one.kind {
            EventKind::Counted(counted) if matches!(counted.step, StepKey::CountIn { .. }) => {
                Some(counted.lines.as_slice())
            }
            _ => None,
        });
        last.unwrap_or_default()
    }

    /// True for an implant that is in the bone: its place is not empty for having fallen.
    fn is_turned_in(&self, item: &LoadItem) -> bool {
        let mut day = self.standing.day.iter().filter(|one| one.counts());
        let serves = |site: &str| {
            let mut serves = item.serves.iter();
            serves.any(|one| one.site.as_ref().is_some_and(|own| own.as_str() == site))
        };
        item.kind == SlotKind::Implant
            && day.any(|one| match &one.kind {
                EventKind::Inserted(inserted) => {
                    inserted.step.site().is_some_and(|at| serves(&at.site))
                }
                _ => false,
            })
    }

    /// Number of things that were opened in surgery in the place of what fell, which is in the room as well: as many as
    /// fell, less those whose place is empty; of those of the tray that this holds for.
    fn opened_since(&self, such: impl Fn(&LoadItem) -> bool) -> u32 {
        let falls = self.standing.fallen.iter();
        let falls = falls.filter(|fall| fall.counts() && fall.in_surgery);
        let mut pieces: Vec<(&Piece, usize)> = Vec::new();
        for fall in falls {
            match pieces.iter_mut().find(|(piece, _)| *piece == &fall.piece) {
                Some((_, times)) => *times += 1,
                None => pieces.push((&fall.piece, 1)),
            }
        }
        let opened = pieces.into_iter().map(|(piece, times)| {
            let of: Vec<bool> = with_planned(self.worksheet, self.view)
                .filter(|(item, planned)| such(item) && is_of(piece, item, *planned))
                .map(|(item, planned)| {
                    let set = planned.and_then(|planned| {
                        let mut items = self.standing.items.iter();
                        items.find(|one| one.item == planned.key)
                    });
                    let placed = set.is_some_and(|one| one.placed.is_some());
                    let lies = self.standing.thing_slots.contains_key(&thing_of(item));
                    placed || lies || self.is_turned_in(item)
                })
                .collect();
            let empty = of.iter().filter(|lies| !**lies).count();
            if of.is_empty() {
                0
            } else {
                times.saturating_sub(empty)
            }
        });
        number(opened.sum())
    }
}

/// True if what fell may be this thing of the tray.
fn is_of(piece: &Piece, item: &LoadItem, planned: Option<&PlannedItem>) -> bool {
    match piece {
        Piece::Drill(drill) => {
            let copy = planned.map_or(item.copy, |planned| planned.key.copy.get());
            let same = copy == drill.copy.get() && item.entry == drill.drill;
            same && item.kind == SlotKind::Drill
        }
        Piece::Thing(fallen) => fallen.may_be(&thing_of(item)),
        Piece::Other(name) => item.entry == *name,
        Piece::Gauge(_) => false,
    }
}

/// The name by which a thing of the tray is laid.
pub(super) fn thing_of(item: &LoadItem) -> ThingKey {
    ThingKey {
        of: item.kind,
        entry: item.entry.clone(),
        copy: NonZeroU32::new(item.copy).unwrap_or(NonZeroU32::MIN),
    }
}

fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// Everything that is in the room before closing: what the plan has, and at least what was found when it was counted in,
/// since a change of the plan takes nothing out of the room; and what was opened since.
pub(super) fn wanted_out(case: &ValidCase, room: Room<'_>) -> Vec<CountWanted> {
    let mut list = wanted(case, room.worksheet);
    for line in room.found_in() {
        let Some(kind) = &line.kind else { continue };
        match list.iter_mut().find(|one| one.kind == *kind) {
            Some(one) => one.wanted = one.wanted.max(line.found),
            None => list.push(CountWanted {
                kind: kind.clone(),
                wanted: line.found,
            }),
        }
    }
    for line in &mut list {
        let opened = match line.kind {
            CountKind::Drills => room.opened_since(|item| item.kind == SlotKind::Drill),
            CountKind::Sleeves => room.opened_since(|item| item.kind == SlotKind::Sleeve),
            CountKind::Pins => room.opened_since(|item| item.kind == SlotKind::Pin),
            CountKind::Carriers => room.opened_since(|item| item.kind == SlotKind::Carrier),
            CountKind::Drivers => room.opened_since(|item| item.kind == SlotKind::Driver),
            CountKind::Implants => room.opened_since(|item| item.kind == SlotKind::Implant),
            // A drill that fell with its stop has a spare with another.
            CountKind::Stops => {
                room.opened_since(|item| item.set.as_ref().is_some_and(|on| on.stop.is_some()))
            }
            _ => continue,
        };
        line.wanted = line.wanted.saturating_add(opened);
    }
    list
}

/// Everything that is counted, with its number by the plan. What is lost most easily is asked for even where the kit has
/// none.
pub(super) fn wanted(case: &ValidCase, worksheet: &Worksheet) -> Vec<CountWanted> {
    let of_kind = |kind: SlotKind| {
        let items = worksheet.loading.iter().filter(|item| item.kind == kind);
        number(items.count())
    };
    let on_drills = worksheet
        .loading
        .iter()
        .filter_map(|item| item.set.as_ref());
    let stops = number(on_drills.filter(|on| on.stop.is_some()).count());
    let accessories = |kind: AccessoryKind| {
        let all = case.kit.accessories.iter().filter(|one| one.kind == kind);
        all.map(|one| one.wanted).sum::<u32>()
    };
    let guided = worksheet.sites.iter().any(|site| {
        let mut steps = site.steps.iter();
        site.sounding.is_some()
            || site.insertion.is_some()
            || steps.any(|step| step.path != StepPath::Freehand)
    });
    let guided = guided || !worksheet.pins.is_empty();
    let always = [
        (CountKind::Guide, u32::from(guided)),
        (CountKind::Gauge, u32::from(case.setup.gauge.is_some())),
        (CountKind::Stops, stops),
        (CountKind::Drills, of_kind(SlotKind::Drill)),
        (CountKind::Sleeves, of_kind(SlotKind::Sleeve)),
        (CountKind::Pins, of_kind(SlotKind::Pin)),
        (CountKind::Carriers, of_kind(SlotKind::Carrier)),
        (CountKind::Drivers, of_kind(SlotKind::Driver)),
        (CountKind::Implants, of_kind(SlotKind::Implant)),
        (CountKind::LockKeys, accessories(AccessoryKind::LockKey)),
        (CountKind::Tethers, accessories(AccessoryKind::Tether)),
        (
            CountKind::ThroatPacks,
            accessories(AccessoryKind::ThroatPack),
        ),
    ];
    let lost_easily = |kind: &CountKind| {
        matches!(
            kind,
            CountKind::LockKeys | CountKind::Tethers | CountKind::ThroatPacks
        )
    };
    let always = always
        .into_iter()
        .filter(|(kind, wanted)| *wanted > 0 || lost_easily(kind));
    let others = case.kit.accessories.iter().filter(|one| {
        let is_counted = matches!(
            one.kind,
            AccessoryKind::TorqueWrench | AccessoryKind::Punch | AccessoryKind::Other
        );
        let mut loaded = worksheet.loading.iter();
        let entry = one.id.as_str();
        is_counted && loaded.any(|item| item.kind == SlotKind::Accessory && item.entry == entry)
    });
    let others = others.map(|one| (CountKind::Other(one.name.clone()), one.wanted));
    always
        .chain(others)
        .map(|(kind, wanted)| CountWanted { kind, wanted })
        .collect()
}
