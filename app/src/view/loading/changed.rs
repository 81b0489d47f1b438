//! Things already loaded that a change of the plan made wrong.

use super::session::moved;
use super::task::{Block, Board, Key, Work, laid_as, laid_otherwise, thing_of, thing_of_drill};
use std::collections::{BTreeMap, BTreeSet};
use traywright_core::case::ValidCase;
use traywright_core::measure::Length;
use traywright_core::plan::{LoadItem, Worksheet, plan_view, with_planned, with_planned_resets};
use traywright_core::sign::{
    DrillKey, EventKind, ItemKey, Lapse, Merged, PlanView, PlannedItem, Policy, Purpose,
    SettingState, Stage, Standing, ThingKey, Withdrawn, standing, withdrawn_by,
};

/// The effects of a change on what is loaded.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changed {
    /// Drills and things, in the order of their keys.
    pub wrong: Vec<Wrong>,
    /// Number of approvals that lapsed.
    pub approvals: usize,
    /// Things that the plan did not have before, in the order of loading.
    pub added: Vec<LoadItem>,
    /// The settings that are set anew in surgery, against those before.
    pub resets: Resets,
}

/// The settings that are set anew in surgery, against those before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Resets {
    /// The same.
    #[default]
    AsBefore,
    /// Others.
    Otherwise,
}

/// A thing that is wrong now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wrong {
    /// The thing.
    pub key: Key,
    /// Its slot; nothing where it is in none.
    pub lies: Option<String>,
    /// The fault.
    pub why: Why,
}

/// A fault of a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// The plan sets the drill otherwise.
    Setting {
        /// As it was set.
        was: Length,
        /// As it is to be set.
        now: Length,
    },
    /// The drill carries no stop, and the plan drills to another of its marks.
    Mark {
        /// The mark for which it was laid, from the tip.
        was: Length,
        /// That of the plan.
        now: Length,
    },
    /// The plan puts another stop on the drill, or none.
    Stop,
    /// The plan reads it on another gauge, or the gauge shows another figure of it.
    Gauge,
    /// What was done to it counts no more, as where the case was for practice.
    Again,
    /// It is not to be set any more: it does not fit, or its setting or what the gauge shows of it is not known.
    Blocked(Block),
    /// The plan has no use for it.
    NotNeeded,
    /// It belongs in another slot, or in none.
    Slot {
        /// The slot where it belongs.
        now: Option<String>,
    },
    /// It was told to be taken, and nobody confirmed having read that before the plan was again as it was.
    Told,
}

impl Wrong {
    /// What is recorded of it once somebody read what to do: it is taken, so that it lies nowhere, and where it is
    /// set anew, nothing read before counts, whatever the plan does then. What only belongs elsewhere stays as it
    /// is set.
    pub fn taken(&self, purpose: Purpose) -> impl Iterator<Item = EventKind> {
        let (thing, drill) = match &self.key {
            Key::Thing(thing) => (thing.clone(), None),
            Key::Set(key) | Key::Anew(key, _) => (thing_of_drill(key), Some(key.drill_key())),
        };
        let off = self.lies.is_some().then_some(EventKind::ThingPlaced {
            thing,
            slot: None,
            purpose: Some(purpose),
        });
        // What carries no stop is laid anew, and there is nothing to set.
        let by_mark = matches!(&self.key, Key::Set(key) | Key::Anew(key, _) if key.stop.is_none());
        let drill = drill.filter(|_| !by_mark && !matches!(self.why, Why::Slot { .. }));
        off.into_iter()
            .chain(drill.map(|drill| moved(drill, purpose)))
    }
}

impl Changed {
    /// The same with what was told before and nobody confirmed having read: a hand may have done it.
    #[must_use]
    pub fn with_told(mut self, before: Self) -> Self {
        for mut one in before.wrong {
            if self.wrong.iter().all(|wrong| wrong.key != one.key) {
                one.why = Why::Told;
                self.wrong.push(one);
            }
        }
        self.wrong.sort_by(|a, b| a.key.cmp(&b.key));
        self
    }

    /// What is recorded once somebody read it: of all that is wrong still, `now`, and of what was told before.
    #[must_use]
    pub fn understood(&self, now: &Self, purpose: Purpose) -> Vec<EventKind> {
        let still = |one: &&Wrong| {
            one.why == Why::Told || now.wrong.iter().any(|wrong| wrong.key == one.key)
        };
        let still = self.wrong.iter().filter(still);
        still.flat_map(|one| one.taken(purpose)).collect()
    }
}

/// Things that are on the tray otherwise than the plan wants them, whenever that came about: also
/// while the program was closed.
#[must_use]
pub fn lying_wrong(
    case: &ValidCase,
    worksheet: &Worksheet,
    events: &Merged,
    policy: &Policy,
) -> Changed {
    let now = (case, worksheet);
    changed(now, now, events, policy)
}

/// True if two plans differ in anything that a hand acts on while the tray is loaded.
#[must_use]
pub fn differ(before: &Worksheet, after: &Worksheet) -> bool {
    before.fingerprint != after.fingerprint
        || before.loading != after.loading
        || before.resets != after.resets
}

/// Effects of a changed plan on what is loaded, and on what is set and not read yet.
#[must_use]
pub fn changed(
    (before, then): (&ValidCase, &Worksheet),
    (after, worksheet): (&ValidCase, &Worksheet),
    events: &Merged,
    policy: &Policy,
) -> Changed {
    let was = plan_view(before, then, events);
    let is = plan_view(after, worksheet, events);
    // Events of another case than this one count for neither; that is told elsewhere.
    let withdrawn = withdrawn_by(&was, &is, events, policy).unwrap_or_default();
    let planned = planned(worksheet, &is);
    let mut wrong = drills(&withdrawn, &planned);
    if let Ok(now) = standing(events, &is, policy) {
        laid_elsewhere(&now, &planned, &mut wrong);
        laid_set_otherwise(&planned, events, &mut wrong);
        for (key, (lies, _)) in &mut wrong {
            let mut items = now.items.iter();
            let placed = items.find(|item| Key::Set(item.item.clone()) == *key);
            *lies = lies.take().or_else(|| placed?.placed.clone());
        }
        // A setting that only comes later is in hand where it is just being set anew, and not else.
        let known = |key: &Key| {
            let plain = key.without_turn();
            let mut planned = planned.iter();
            planned
                .any(|one| one.exact == *key || one.state == SettingState::Now && one.key == plain)
        };
        for key in in_hand(events, &was, policy)
            .iter()
            .filter(|key| !known(key))
        {
            let key = key.without_turn();
            let why = why_gone(&key, &planned);
            wrong.entry(key).or_insert((None, why));
        }
        let with = (&is, &now, events);
        let board = Board::of(worksheet, &after.kit, with, None, Stage::Bench);
        not_to_be_set(&board, events, &mut wrong);
    }
    Changed {
        wrong: wrong
            .into_iter()
            .map(|(key, (lies, why))| Wrong { key, lies, why })
            .collect(),
        approvals: withdrawn.approvals.len(),
        added: added(then, worksheet),
        resets: if then.resets == worksheet.resets {
            Resets::AsBefore
        } else {
            Resets::Otherwise
        },
    }
}

/// Drills that are set under a plan, as they are set.
fn in_hand(events: &Merged, view: &PlanView, policy: &Policy) -> Vec<Key> {
    let items = standing(events, view, policy).map_or_else(|_| Vec::new(), |now| now.items);
    let set = items.into_iter().filter(|item| item.handling.is_some());
    set.map(|item| Key::Set(item.item)).collect()
}

/// A thing as the plan wants it, once for each of its settings.
struct Planned<'a> {
    /// Its key, whether or not it is set anew in surgery.
    key: Key,
    /// The same with how often it was set anew before.
    exact: Key,
    /// The state of the drill at that setting now; what is not set is at it.
    state: SettingState,
    /// The thing.
    item: &'a LoadItem,
}

fn planned<'a>(worksheet: &'a Worksheet, view: &'a PlanView) -> Vec<Planned<'a>> {
    let one = |item: &'a LoadItem, planned: Option<&PlannedItem>, before: Option<usize>| {
        let thing = || Key::Thing(thing_of(item));
        let key = planned.map_or_else(thing, |planned| Key::Set(planned.key.clone()));
        let exact = match (planned, before) {
            (Some(planned), Some(before)) => Key::Anew(planned.key.clone(), before),
            _ => key.clone(),
        };
        Planned {
            key,
            exact,
            state: planned.map_or(SettingState::Now, |planned| planned.state),
            item,
        }
    };
    let laid = with_planned(worksheet, view).map(|(item, planned)| one(item, planned, None));
    let resets = with_planned_resets(worksheet, view).enumerate();
    let set_anew = resets.map(|(n, (reset, planned))| {
        let earlier = worksheet.resets[..n].iter();
        let before = earlier.filter(|one| one.item == reset.item).count();
        one(&reset.to, planned, Some(before))
    });
    laid.chain(set_anew).collect()
}

/// Drills laid at another setting than the one that comes now. In surgery a drill goes from one of
/// its settings to the next, so that one from before is no mistake; a later one is.
fn laid_set_otherwise(planned: &[Planned<'_>], events: &Merged, found: &mut Found) {
    for now in planned.iter().filter(|one| one.state == SettingState::Now) {
        let Key::Set(key) = &now.key else { continue };
        let was_before = |was: &ItemKey| {
            let was = Key::Set(was.clone());
            let mut planned = planned.iter();
            planned.any(|one| one.state == SettingState::NoMore && one.key == was)
        };
        let laid = laid_otherwise(key, events);
        if let Some(laid) = laid.filter(|laid| !was_before(&laid.item)) {
            let why = set_otherwise(&laid.item, key);
            let entry = (laid.slot, why);
            found.entry(Key::Set(laid.item)).or_insert(entry);
        }
    }
}

/// Drills that lie on the tray or are set, and are not to be set any more: that comes before how they would be set.
fn not_to_be_set(board: &Board, events: &Merged, found: &mut Found) {
    // Of a later setting that nobody knows nothing is set yet.
    let tasks = board.tasks.iter();
    let tasks = tasks.filter(|task| task.planned.is_some() || !task.is_anew());
    for task in tasks.filter(|task| task.state() == SettingState::Now) {
        let Work::Blocked(block) = task.work else {
            continue;
        };
        // In its wrapping it may lie, and is set once it is opened and the gauge is known.
        if task.is_sealed() && block == Block::NoGaugeFigure {
            continue;
        }
        let of_task = |key: &Key| match key {
            Key::Set(key) | Key::Anew(key, _) => thing_of_drill(key) == task.thing,
            Key::Thing(thing) => *thing == task.thing,
        };
        let mut told = false;
        for (_, (_, why)) in found.iter_mut().filter(|(key, _)| of_task(key)) {
            *why = Why::Blocked(block);
            told = true;
        }
        if told {
            continue;
        }
        if task.lies().is_some() || task.record.handling.is_some() {
            let lies = task.lies().map(ToOwned::to_owned);
            // In its wrapping it lies as a thing, and nothing of it is set.
            let key = if task.is_sealed() {
                Key::Thing(task.thing.clone())
            } else {
                task.key()
            };
            found.insert(key, (lies, Why::Blocked(block)));
        } else if let Some(laid) = laid_as(&drill_of(&task.thing), events) {
            let key = Key::Set(laid.item);
            found.insert(key, (laid.slot, Why::Blocked(block)));
        }
    }
}

fn drill_of(thing: &ThingKey) -> DrillKey {
    DrillKey {
        drill: thing.entry.clone(),
        copy: thing.copy,
    }
}

/// The fault of a drill that is set as it was and not as it is to be now.
fn set_otherwise(was: &ItemKey, now: &ItemKey) -> Why {
    let (mm, now_mm) = (was.setting_mm, now.setting_mm);
    match (&was.stop, &now.stop) {
        (None, None) => Why::Mark {
            was: mm,
            now: now_mm,
        },
        (one, other) if one == other => Why::Setting {
            was: mm,
            now: now_mm,
        },
        _ => Why::Stop,
    }
}

type Found = BTreeMap<Key, (Option<String>, Why)>;

/// Drills whose readings no longer hold, and drills in a slot that are no longer wanted as they are
/// set.
fn drills(withdrawn: &Withdrawn, planned: &[Planned<'_>]) -> Found {
    // What is withdrawn for no reason of the plan's, as by a case that was for practice, is wanted
    // still where the plan has it.
    let or_again = |key: &Key| {
        let wanted = planned.iter().any(|one| one.key == *key);
        if wanted { Why::Again } else { Why::NotNeeded }
    };
    let slot_of = |key: &ItemKey| {
        let mut placed = withdrawn.placed.iter();
        placed
            .find(|(item, _)| item == key)
            .map(|(_, slot)| slot.clone())
    };
    let mut found = Found::new();
    for reading in &withdrawn.readings {
        let key = &reading.reading.item;
        let why = reading.lapses.iter().find_map(why_lapsed);
        let slot = slot_of(key);
        let key = Key::Set(key.clone());
        let why = why.unwrap_or_else(|| or_again(&key));
        found.entry(key).or_insert((slot, why));
    }
    for reading in &withdrawn.contradicted {
        let key = &reading.reading.item;
        let entry = (slot_of(key), Why::Gauge);
        found.entry(Key::Set(key.clone())).or_insert(entry);
    }
    for (key, slot) in &withdrawn.placed {
        let key = Key::Set(key.clone());
        let why = match or_again(&key) {
            // Wanted otherwise, as another mark or with its stop elsewhere, is no less than wanted.
            Why::NotNeeded => why_gone(&key, planned),
            again => again,
        };
        found.entry(key).or_insert((Some(slot.clone()), why));
    }
    found
}

fn why_lapsed(lapse: &Lapse) -> Option<Why> {
    match lapse {
        Lapse::SettingChanged {
            read_mm,
            planned_mm,
            ..
        } => Some(Why::Setting {
            was: *read_mm,
            now: *planned_mm,
        }),
        Lapse::StopChanged { .. } => Some(Why::Stop),
        Lapse::GaugeChanged { .. } => Some(Why::Gauge),
        Lapse::DrillNotInPlan { .. } | Lapse::CopyNotInPlan { .. } => Some(Why::NotNeeded),
        // No change of the plan brings these, save that it was for practice.
        Lapse::Void(_)
        | Lapse::Practice
        | Lapse::Reset { .. }
        | Lapse::Handled { .. }
        | Lapse::ReadOtherwise { .. }
        | Lapse::OtherGauge { .. }
        | Lapse::Dropped { .. }
        | Lapse::FallTakenBack { .. }
        | Lapse::Landings { .. }
        | Lapse::Superseded { .. } => None,
    }
}

/// Things that are in a slot where the plan does not want them.
fn laid_elsewhere(now: &Standing, planned: &[Planned<'_>], found: &mut Found) {
    let slot = |one: &Planned<'_>| one.item.slot.as_ref().map(ToString::to_string);
    let wanted = |key: &Key| planned.iter().find(|one| one.key == *key).map(slot);
    for item in &now.items {
        let key = Key::Set(item.item.clone());
        if let (Some(lies), Some(slot)) = (&item.placed, wanted(&key))
            && slot.as_ref() != Some(lies)
        {
            let entry = (Some(lies.clone()), Why::Slot { now: slot });
            found.entry(key).or_insert(entry);
        }
    }
    for (thing, lies) in &now.thing_slots {
        let wanted = planned.iter().find(|one| thing_of(one.item) == *thing);
        let why = match wanted.map(slot) {
            None => Why::NotNeeded,
            Some(slot) if slot.as_ref() == Some(lies) => continue,
            Some(slot) => Why::Slot { now: slot },
        };
        let entry = (Some(lies.clone()), why);
        found.entry(Key::Thing(thing.clone())).or_insert(entry);
    }
}

/// The reason why a drill that is set but not read has no place in the plan any more.
fn why_gone(key: &Key, planned: &[Planned<'_>]) -> Why {
    let Key::Set(was) = key else {
        return Why::NotNeeded;
    };
    let same: DrillKey = was.drill_key();
    let comes_now = planned.iter().filter(|one| one.state == SettingState::Now);
    let mut comes_now = comes_now.filter_map(|one| match &one.key {
        Key::Set(now) if now.is_drill(&same) => Some(now),
        _ => None,
    });
    let now = comes_now.next();
    now.map_or(Why::NotNeeded, |now| set_otherwise(was, now))
}

/// Things of the new plan that the old one did not have. A drill that is only set otherwise is none.
fn added(before: &Worksheet, after: &Worksheet) -> Vec<LoadItem> {
    let had: BTreeSet<ThingKey> = before.loading.iter().map(thing_of).collect();
    let new = after
        .loading
        .iter()
        .filter(|item| !had.contains(&thing_of(item)));
    new.cloned().collect()
}
