//! What is counted in and out.

use super::{DayStep, State, guide};
use crate::case::ValidCase;
use crate::kit::{Accessory, AccessoryKind, Kit, SlotKind};
use crate::plan::{LoadItem, StepPath, Worksheet, with_planned};
use crate::sign::{
    CountKind, Counted, DayEvent, DrillKey, EventKind, Fingerprint, Led, Piece, PlanView,
    PlannedItem, Standing, StepKey, ThingKey, WhichGuide,
};
use serde::Serialize;
use std::collections::BTreeSet;
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
    /// Every count before the first cut in this sitting, of each list the last: what was counted anew was miscounted.
    fn counts_in(&self) -> Vec<&Counted> {
        let day = self.standing.day.iter().filter(|one| one.counts());
        let all: Vec<(&DayEvent, &Counted)> = day
            .filter_map(|one| match &one.kind {
                EventKind::Counted(counted) if is_in(&counted.step) => Some((one, counted)),
                _ => None,
            })
            .collect();
        let is_last = |(one, counted): &&(&DayEvent, &Counted)| {
            let mut others = all.iter().filter(|(_, other)| other.step == counted.step);
            !others.any(|(other, _)| one.is_clearly_before(other))
        };
        let last = all.iter().filter(is_last);
        last.map(|(_, counted)| *counted).collect()
    }

    /// Number of guides that were taken in surgery in the place of one that fell, which is in the room as well.
    fn other_guides(&self) -> u32 {
        let day = self.standing.day.iter().filter(|one| one.counts());
        let taken = day.filter(|one| {
            matches!(&one.kind, EventKind::StepDone(done) if done.step == StepKey::SeatAgain { guide: WhichGuide::Another })
        });
        number(taken.count())
    }

    /// True if the record has the guide in the room: it was seated or taken off, something was done through it, it fell, or it was
    /// abandoned.
    fn has_guide(&self) -> bool {
        if guide::falls(self.standing).next().is_some() {
            return true;
        }
        let mut day = self.standing.day.iter().filter(|one| one.counts());
        day.any(|one| {
            let of_guide = match one.step() {
                Some(StepKey::Drill { led, .. } | StepKey::Insert { led, .. }) => {
                    *led == Led::Guide
                }
                Some(
                    StepKey::Seat { .. }
                    | StepKey::Reseat {}
                    | StepKey::Sound { .. }
                    | StepKey::Lifted {}
                    | StepKey::Abandoned {}
                    | StepKey::SeatAgain { .. }
                    | StepKey::Pin { .. },
                ) => true,
                _ => false,
            };
            of_guide && !matches!(one.kind, EventKind::StepSkipped(_))
        })
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

    /// What the plan does not have and is in the room all the same: spares that lie on the tray, what a change of the plan has no
    /// use for any more, and what of it fell in surgery.
    fn beside(&self) -> Vec<Beside> {
        let planned: BTreeSet<ThingKey> = with_planned(self.worksheet, self.view)
            .map(|(item, planned)| match planned {
                Some(planned) => drill_thing(&planned.key.drill_key()),
                None => thing_of(item),
            })
            .collect();
        let is_beside = |thing: &ThingKey| !planned.contains(thing);
        let mut found: Vec<Beside> = Vec::new();
        let mut add = |thing: ThingKey, has_stop: bool, lies: bool| {
            if is_beside(&thing) && found.iter().all(|one| one.thing != thing) {
                found.push(Beside {
                    thing,
                    has_stop,
                    lies,
                });
            }
        };
        let drills = self.standing.drills.iter();
        for (drill, now) in drills.filter(|(_, now)| now.slot.is_some()) {
            add(drill_thing(drill), now.item.stop.is_some(), true);
        }
        for thing in self.standing.thing_slots.keys() {
            add(thing.clone(), false, true);
        }
        let falls = self.standing.fallen.iter();
        for fall in falls.filter(|fall| fall.counts() && fall.in_surgery) {
            match &fall.piece {
                Piece::Drill(drill) => {
                    let then = self.standing.fallen_drills.get(drill);
                    let has_stop = then.is_some_and(|then| then.item.stop.is_some());
                    add(drill_thing(drill), has_stop, false);
                }
                // Of equal ones nobody knows which it was: where the plan has one it is that.
                Piece::Thing(fallen) => {
                    let of_plan = planned.iter().any(|thing| fallen.may_be(thing));
                    if let Some(copy) = fallen.copy.or(Some(NonZeroU32::MIN)).filter(|_| !of_plan) {
                        let (of, entry) = (fallen.of, fallen.entry.clone());
                        add(ThingKey { of, entry, copy }, false, false);
                    }
                }
                Piece::Gauge(_) | Piece::Guide(_) | Piece::Other(_) => {}
            }
        }
        found
    }

    /// Number of such spares that took the place of a drill that fell: they are counted among the drills.
    fn used_up(&self, kit: &Kit, spare: &Accessory) -> u32 {
        let is_it =
            |of: SlotKind, entry: &str| of == SlotKind::Accessory && entry == spare.id.as_str();
        let loading = self.worksheet.loading.iter();
        let items = loading.filter(|item| is_it(item.kind, &item.entry)).count();
        let lying = self.standing.thing_slots.keys();
        let lying = lying.filter(|thing| is_it(thing.of, &thing.entry)).count();
        let falls = self.standing.fallen.iter();
        let fell = falls.filter(|fall| {
            let here = fall.is_of(SlotKind::Accessory, spare.id.as_str());
            here && fall.counts() && fall.in_surgery
        });
        let gone = number(items.saturating_sub(lying + fell.count()));
        let opened = self.opened_since(|one| match one {
            InRoom::OfPlan(item) if item.kind == SlotKind::Drill => {
                kit.is_spare_of(spare.id.as_str(), item.name.as_str())
            }
            _ => false,
        });
        gone.min(opened)
    }

    /// Number of things that were opened in surgery in the place of what fell, which is in the room as well: as many as
    /// fell, less those whose place is empty; of those that this holds for.
    fn opened_since(&self, such: impl Fn(&InRoom<'_>) -> bool) -> u32 {
        let falls = self.standing.fallen.iter();
        let falls = falls.filter(|fall| fall.counts() && fall.in_surgery);
        let mut pieces: Vec<(&Piece, usize)> = Vec::new();
        for fall in falls {
            match pieces.iter_mut().find(|(piece, _)| *piece == &fall.piece) {
                Some((_, times)) => *times += 1,
                None => pieces.push((&fall.piece, 1)),
            }
        }
        let beside = self.beside();
        let opened = pieces.into_iter().map(|(piece, times)| {
            let of_plan = with_planned(self.worksheet, self.view)
                .filter(|(item, planned)| {
                    such(&InRoom::OfPlan(item)) && is_of(piece, item, *planned)
                })
                .map(|(item, planned)| {
                    let set = planned.and_then(|planned| {
                        let mut items = self.standing.items.iter();
                        items.find(|one| one.item == planned.key)
                    });
                    let placed = set.is_some_and(|one| one.placed.is_some());
                    let lies = self.standing.thing_slots.contains_key(&thing_of(item));
                    placed || lies || self.is_turned_in(item)
                });
            let of_plan: Vec<bool> = of_plan.collect();
            let others = beside.iter().filter(|one| match piece {
                Piece::Drill(drill) => one.thing == drill_thing(drill),
                Piece::Thing(fallen) => of_plan.is_empty() && fallen.may_be(&one.thing),
                Piece::Gauge(_) | Piece::Guide(_) | Piece::Other(_) => false,
            });
            let others = others.filter(|one| such(&InRoom::Beside(one)));
            let others: Vec<bool> = others.map(|one| one.lies).collect();
            let of: Vec<bool> = of_plan.into_iter().chain(others).collect();
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

/// Something that the plan does not have and that is in the room.
struct Beside {
    thing: ThingKey,
    /// A stop is on it, as far as is known.
    has_stop: bool,
    /// It lies on the tray; else it fell.
    lies: bool,
}

/// Something in the room.
enum InRoom<'a> {
    OfPlan(&'a LoadItem),
    Beside(&'a Beside),
}

impl InRoom<'_> {
    const fn kind(&self) -> SlotKind {
        match self {
            Self::OfPlan(item) => item.kind,
            Self::Beside(one) => one.thing.of,
        }
    }

    fn has_stop(&self) -> bool {
        match self {
            Self::OfPlan(item) => item.set.as_ref().is_some_and(|on| on.stop.is_some()),
            Self::Beside(one) => one.has_stop,
        }
    }

    /// True if it is of what a line counts.
    fn is_of(&self, kit: &Kit, kind: &CountKind) -> bool {
        match kind {
            CountKind::Drills => self.kind() == SlotKind::Drill,
            CountKind::Sleeves => self.kind() == SlotKind::Sleeve,
            CountKind::Pins => self.kind() == SlotKind::Pin,
            CountKind::Carriers => self.kind() == SlotKind::Carrier,
            CountKind::Drivers => self.kind() == SlotKind::Driver,
            CountKind::Implants => self.kind() == SlotKind::Implant,
            // A drill that fell with its stop has a spare with another.
            CountKind::Stops => self.has_stop(),
            CountKind::Guide | CountKind::Gauge | CountKind::StopsAgain => false,
            CountKind::LockKeys
            | CountKind::Tethers
            | CountKind::ThroatPacks
            | CountKind::Other(_) => {
                let entry = match self {
                    Self::OfPlan(item) => &item.entry,
                    Self::Beside(one) => &one.thing.entry,
                };
                let mut accessories = kit.accessories.iter();
                let here = accessories.find(|one| one.id.as_str() == entry);
                self.kind() == SlotKind::Accessory
                    && here.is_some_and(|one| kind_of(one) == Some(kind.clone()))
            }
        }
    }
}

/// The line that an accessory is counted in; none for what is not counted.
fn kind_of(accessory: &Accessory) -> Option<CountKind> {
    Some(match accessory.kind {
        AccessoryKind::LockKey => CountKind::LockKeys,
        AccessoryKind::Tether => CountKind::Tethers,
        AccessoryKind::ThroatPack => CountKind::ThroatPacks,
        AccessoryKind::TorqueWrench
        | AccessoryKind::Punch
        | AccessoryKind::Spare
        | AccessoryKind::Other => CountKind::Other(accessory.name.clone()),
        // It is used up.
        AccessoryKind::Irrigant => return None,
    })
}

fn drill_thing(drill: &DrillKey) -> ThingKey {
    ThingKey {
        of: SlotKind::Drill,
        entry: drill.drill.clone(),
        copy: drill.copy,
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
        Piece::Gauge(_) | Piece::Guide(_) => false,
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

const fn is_in(step: &StepKey) -> bool {
    matches!(step, StepKey::CountIn { .. })
}

/// The place of a sort in a list: a line that comes in stands where it would by the plan.
const fn place(kind: &CountKind) -> u8 {
    match kind {
        CountKind::Guide => 0,
        CountKind::Gauge => 1,
        CountKind::Stops => 2,
        CountKind::StopsAgain => 3,
        CountKind::Drills => 4,
        CountKind::Sleeves => 5,
        CountKind::Pins => 6,
        CountKind::Carriers => 7,
        CountKind::Drivers => 8,
        CountKind::Implants => 9,
        CountKind::LockKeys => 10,
        CountKind::Tethers => 11,
        CountKind::ThroatPacks => 12,
        CountKind::Other(_) => 13,
    }
}

/// Has at least so many of a sort in a list.
fn at_least(list: &mut Vec<CountWanted>, kind: &CountKind, wanted: u32) {
    if let Some(one) = list.iter_mut().find(|one| one.kind == *kind) {
        one.wanted = one.wanted.max(wanted);
    } else if wanted > 0 {
        let mut lines = list.iter();
        let at = lines.position(|one| place(&one.kind) > place(kind));
        let kind = kind.clone();
        list.insert(at.unwrap_or(list.len()), CountWanted { kind, wanted });
    }
}

/// True if a count found all that a list wants: of a list that has less now nothing is counted anew.
pub(super) fn covers(counted: &Counted, list: &[CountWanted]) -> bool {
    list.iter().all(|line| {
        let mut lines = counted.lines.iter();
        let here = lines.find(|one| one.kind.as_ref() == Some(&line.kind));
        here.is_some_and(|one| one.found >= line.wanted)
    })
}

/// Everything that is in the room before closing: what the plan has and what lies there or fell besides, at least what was found
/// when it was counted in, since a change of the plan takes nothing out of the room; and what was opened since.
pub(super) fn wanted_out(case: &ValidCase, room: Room<'_>) -> Vec<CountWanted> {
    let mut list = out(case, room, |_| true);
    for spare in &case.kit.accessories {
        let kind = kind_of(spare).filter(|_| spare.kind == AccessoryKind::Spare);
        let mut lines = list.iter_mut();
        if let Some(line) = lines.find(|line| kind.as_ref() == Some(&line.kind)) {
            let used = room.used_up(&case.kit, spare);
            line.wanted = line.wanted.saturating_sub(used);
        }
    }
    // Where a stop goes from what fell onto what took its place, it is one: how many did is counted by itself.
    let again = room.opened_since(|one| one.is_of(&case.kit, &CountKind::Stops));
    at_least(&mut list, &CountKind::StopsAgain, again);
    let others = room.other_guides();
    if others > 0 {
        at_least(&mut list, &CountKind::Guide, others.saturating_add(1));
    }
    list
}

/// The numbers that there should be, of a list in its order, by what was counted: a stop that is on another drill again is one of
/// those on drills, and there may be as many of them as fell, or fewer.
#[must_use]
pub fn wanted_by(list: &[CountWanted], found: &[u32]) -> Vec<u32> {
    let lines = || list.iter().zip(found);
    let again = lines().find(|(line, _)| line.kind == CountKind::StopsAgain);
    let again = again.map_or(0, |(line, found)| line.wanted.min(*found));
    let wanted = |line: &CountWanted| match line.kind {
        CountKind::StopsAgain => again,
        CountKind::Stops => line.wanted.saturating_sub(again),
        _ => line.wanted,
    };
    list.iter().map(wanted).collect()
}

/// Opens a count before closing anew where something fell that its writer had not read of.
pub(super) fn anew_since_a_fall(steps: &mut [DayStep<'_>], standing: &Standing) {
    for step in steps.iter_mut() {
        let (State::Done(counted) | State::Skipped(counted)) = step.state else {
            continue;
        };
        let mut falls = standing.fallen.iter();
        let since = falls
            .any(|fall| fall.counts() && fall.in_surgery && !counted.known.contains(&fall.place));
        if since && matches!(step.key, StepKey::CountOut { .. }) {
            step.state = State::Open;
            step.fell_since = true;
        }
    }
}

/// The same as older programs had it: without the spares of the kit, and without what fell and is of no plan. None where nobody can
/// say that: spares were counted in, or something lies beside the plan, which may have come since.
pub(super) fn older_out(case: &ValidCase, room: Room<'_>) -> Option<Vec<CountWanted>> {
    let spares = case.kit.accessories.iter();
    let spares = spares.filter(|one| one.kind == AccessoryKind::Spare);
    let spares: Vec<CountKind> = spares.filter_map(kind_of).collect();
    let counts = room.counts_in();
    let mut lines = counts.iter().flat_map(|counted| &counted.lines);
    let counted = lines.any(|line| line.kind.as_ref().is_some_and(|kind| spares.contains(kind)));
    let lies = room.beside().iter().any(|one| one.lies);
    if counted || lies {
        return None;
    }
    let mut list = out(case, room, |one| matches!(one, InRoom::OfPlan(_)));
    list.retain(|line| !spares.contains(&line.kind));
    Some(list)
}

/// What is to be counted out, with such of what is in the room.
fn out(case: &ValidCase, room: Room<'_>, such: impl Fn(&InRoom<'_>) -> bool) -> Vec<CountWanted> {
    let mut list = there(case, room, |one| such(&InRoom::Beside(one)));
    for counted in room.counts_in() {
        for line in &counted.lines {
            if let Some(kind) = &line.kind {
                at_least(&mut list, kind, line.found);
            }
        }
    }
    for line in &mut list {
        let opened = room.opened_since(|one| such(one) && one.is_of(&case.kit, &line.kind));
        line.wanted = line.wanted.saturating_add(opened);
    }
    list
}

/// Everything that is there before the first cut: what the plan has, what lies on the tray besides, and what was asked for and
/// found by another list, since a change of the plan takes nothing out of the room.
pub(super) fn wanted_in(case: &ValidCase, room: Room<'_>) -> Vec<CountWanted> {
    let mut list = there(case, room, |one| one.lies);
    for counted in room.counts_in() {
        for line in &counted.lines {
            if let Some(kind) = &line.kind {
                at_least(&mut list, kind, line.found.min(line.wanted));
            }
        }
    }
    list
}

/// What the plan has, and such of what is in the room besides.
fn there(case: &ValidCase, room: Room<'_>, such: impl Fn(&Beside) -> bool) -> Vec<CountWanted> {
    let mut list = wanted(case, room.worksheet);
    at_least(&mut list, &CountKind::Guide, u32::from(room.has_guide()));
    let beside = room.beside();
    let all = |kind: &CountKind| {
        let here = beside.iter().filter(|one| such(one));
        number(
            here.filter(|one| InRoom::Beside(one).is_of(&case.kit, kind))
                .count(),
        )
    };
    for line in &mut list {
        line.wanted = line.wanted.saturating_add(all(&line.kind));
    }
    let named = case.kit.accessories.iter().filter_map(kind_of);
    let others = [
        CountKind::Stops,
        CountKind::Drills,
        CountKind::Sleeves,
        CountKind::Pins,
        CountKind::Carriers,
        CountKind::Drivers,
        CountKind::Implants,
    ];
    for kind in others.into_iter().chain(named) {
        let wanted = all(&kind);
        if wanted > 0 && list.iter().all(|line| line.kind != kind) {
            list.push(CountWanted { kind, wanted });
        }
    }
    list
}

/// Everything that is counted, with its number by the plan. What is lost most easily is asked for even where the kit has
/// none.
fn wanted(case: &ValidCase, worksheet: &Worksheet) -> Vec<CountWanted> {
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
            AccessoryKind::TorqueWrench
                | AccessoryKind::Punch
                | AccessoryKind::Spare
                | AccessoryKind::Other
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
