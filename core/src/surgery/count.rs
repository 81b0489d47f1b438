//! What is counted in and out.

use crate::case::ValidCase;
use crate::kit::{AccessoryKind, Label, SlotKind};
use crate::plan::{LoadItem, Worksheet, with_planned};
use crate::sign::{EventKind, Fingerprint, Piece, PlanView, PlannedItem, Standing, ThingKey};
use serde::Serialize;
use std::num::NonZeroU32;

/// A sort of things that are counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CountKind {
    /// The guide.
    Guide,
    /// The gauge.
    Gauge,
    /// Stops on drills.
    Stops,
    /// Drills, in a wrapping or not.
    Drills,
    /// Drill sleeves.
    Sleeves,
    /// Fixation pins.
    Pins,
    /// Carriers.
    Carriers,
    /// Drivers.
    Drivers,
    /// Implants, opened or not, those too that were turned in.
    Implants,
    /// Keys that lock a stop.
    LockKeys,
    /// Tethers.
    Tethers,
    /// Throat packs.
    ThroatPacks,
    /// Another thing of the kit, by its name.
    Other(Label),
}

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
    /// Number of things of a kind that were opened in surgery in the place of what fell, which is in the room as well: as
    /// many as fell, less those whose place is empty.
    fn opened_since(&self, kind: SlotKind) -> u32 {
        let mut begun = self.standing.day.iter();
        let begun = begun.find(|one| matches!(one.kind, EventKind::SurgeryBegun(_)));
        let Some(begun) = begun else { return 0 };
        let falls = self.standing.fallen.iter();
        let falls = falls.filter(|fall| fall.counts() && fall.at >= begun.at);
        let mut pieces: Vec<(&Piece, usize)> = Vec::new();
        for fall in falls {
            match pieces.iter_mut().find(|(piece, _)| *piece == &fall.piece) {
                Some((_, times)) => *times += 1,
                None => pieces.push((&fall.piece, 1)),
            }
        }
        let opened = pieces.into_iter().map(|(piece, times)| {
            let of: Vec<bool> = with_planned(self.worksheet, self.view)
                .filter(|(item, planned)| item.kind == kind && is_of(piece, item, *planned))
                .map(|(item, planned)| {
                    let set = planned.and_then(|planned| {
                        let mut items = self.standing.items.iter();
                        items.find(|one| one.item == planned.key)
                    });
                    let placed = set.is_some_and(|one| one.placed.is_some());
                    placed || self.standing.thing_slots.contains_key(&thing_of(item))
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
        Piece::Thing(fallen) => (item.kind, &item.entry) == (fallen.of, &fallen.entry),
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

/// Everything that is in the room before closing: what was counted in, and what was opened since.
pub(super) fn wanted_out(case: &ValidCase, room: Room<'_>) -> Vec<CountWanted> {
    let mut list = wanted(case, room.worksheet);
    for line in &mut list {
        let kind = match line.kind {
            CountKind::Drills => SlotKind::Drill,
            CountKind::Sleeves => SlotKind::Sleeve,
            CountKind::Pins => SlotKind::Pin,
            CountKind::Carriers => SlotKind::Carrier,
            CountKind::Drivers => SlotKind::Driver,
            CountKind::Implants => SlotKind::Implant,
            _ => continue,
        };
        line.wanted = line.wanted.saturating_add(room.opened_since(kind));
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
    let guided = worksheet
        .sites
        .iter()
        .any(|site| site.sounding.is_some() || site.insertion.is_some());
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
