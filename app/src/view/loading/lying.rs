//! What lies on the tray, or is set, against what the plan wants: the one place that compares the two for the screens.
//!
//! Where each thing is and how it is set tells the record, of every thing that was ever laid; what of it is wanted, and
//! where, tells the plan. When the one or the other came about makes no difference.

use super::changed::{Why, Wrong};
use super::task::{Block, Key, Task, Work, thing_of_drill};
use std::collections::BTreeMap;
use traywright_core::kit::Label;
use traywright_core::sign::{
    DrillKey, DrillNow, ItemKey, Piece, SettingState, Standing, StopSince, ThingKey, has_alike,
};

/// What is wrong: each thing with its slot, where it is in one, and the fault.
pub(super) type Found = BTreeMap<Key, (Option<String>, Why)>;

/// The same in the order of the keys.
pub(super) fn in_order(found: Found) -> Vec<Wrong> {
    let wrong = found.into_iter();
    wrong
        .map(|(key, (lies, why))| Wrong { key, lies, why })
        .collect()
}

/// Everything that lies or is set otherwise than the tasks of a plan want it, beside what was found before.
pub(super) fn compare(
    tasks: &[Task],
    (now, drills): (&Standing, &BTreeMap<DrillKey, DrillNow>),
    mut found: Found,
) -> Found {
    laid_elsewhere((now, drills), tasks, &mut found);
    laid_set_otherwise(tasks, drills, &mut found);
    wanted_nowhere(tasks, drills, &mut found);
    told_before(tasks, (now, drills), &mut found);
    for (key, (lies, _)) in &mut found {
        let mut items = now.items.iter();
        let placed = items.find(|item| Key::Set(item.item.clone()) == *key);
        *lies = lies.take().or_else(|| placed?.placed.clone());
    }
    not_to_be_set(tasks, drills, &mut found);
    found
}

/// Things that are in a slot where the plan does not want them.
fn laid_elsewhere(
    (now, drills): (&Standing, &BTreeMap<DrillKey, DrillNow>),
    tasks: &[Task],
    found: &mut Found,
) {
    let slot = |one: &Task| one.slot.as_ref().map(Label::to_string);
    let wanted = |key: &Key| {
        let mut tasks = tasks.iter();
        tasks.find(|one| one.key().without_turn() == *key).map(slot)
    };
    for item in &now.items {
        let key = Key::Set(item.item.clone());
        if let (Some(lies), Some(slot)) = (&item.placed, wanted(&key))
            && slot.as_ref() != Some(lies)
        {
            let entry = (
                Some(lies.clone()),
                elsewhere(&item.item, (tasks, drills), slot),
            );
            found.entry(key).or_insert(entry);
        }
    }
    for (thing, lies) in &now.thing_slots {
        let wanted = tasks.iter().find(|one| one.thing == *thing);
        let why = match wanted.map(slot) {
            None => Why::NotNeeded,
            Some(slot) if slot.as_ref() == Some(lies) => continue,
            Some(slot) => Why::Slot { now: slot },
        };
        let entry = (Some(lies.clone()), why);
        found.entry(Key::Thing(thing.clone())).or_insert(entry);
    }
}

/// The fault of a drill that is set as it is to be and belongs in another slot, or in none. Where another looks like
/// it the two are told apart by no name, so that either could be laid in the place of the other.
fn elsewhere(
    drill: &ItemKey,
    (tasks, drills): (&[Task], &BTreeMap<DrillKey, DrillNow>),
    now: Option<String>,
) -> Why {
    let planned = tasks.iter().filter_map(|task| task.planned.as_ref());
    if has_alike(drill, planned.map(|planned| &planned.key), drills) {
        Why::SlotOfAlike { now }
    } else {
        Why::Slot { now }
    }
}

/// Drills laid at another setting than the one that comes now. In surgery a drill goes from one of
/// its settings to the next, so that one from before is no mistake; a later one is.
fn laid_set_otherwise(tasks: &[Task], drills: &BTreeMap<DrillKey, DrillNow>, found: &mut Found) {
    for task in tasks.iter().filter(|one| one.state() == SettingState::Now) {
        let Some(key) = task.planned.as_ref().map(|planned| &planned.key) else {
            continue;
        };
        let was_before = |was: &ItemKey| {
            let before = |one: &&Task| one.state() == SettingState::NoMore;
            let mut before = tasks.iter().filter(before);
            before.any(|one| one.planned.as_ref().is_some_and(|one| one.key == *was))
        };
        let there = drills
            .get(&key.drill_key())
            .filter(|now| now.is_somewhere());
        let slot = task.slot.as_ref().map(Label::as_str);
        let wrong = |now: &&DrillNow| {
            // One that did not fall after all, and lies where it belongs, is taken and set as any.
            let astray = match now.stop {
                StopSince::Unknown => now.slot.is_some() && now.slot.as_deref() != slot,
                StopSince::EitherOfTwo => true,
                _ => false,
            };
            astray || now.item != *key && !was_before(&now.item)
        };
        if let Some(there) = there.filter(wrong) {
            let why = match there.stop {
                StopSince::EitherOfTwo => Why::EitherOfTwo,
                StopSince::Unknown if key.stop.is_some() => Why::Again,
                _ => set_otherwise(&there.item, key),
            };
            let entry = (there.slot.clone(), why);
            found.entry(Key::Set(there.item.clone())).or_insert(entry);
        }
    }
}

/// Drills that the plan has no use for at all.
fn wanted_nowhere(tasks: &[Task], drills: &BTreeMap<DrillKey, DrillNow>, found: &mut Found) {
    for (drill, there) in drills.iter().filter(|(_, now)| now.is_somewhere()) {
        let is_it = |task: &Task| task.thing.piece() == Piece::Drill(drill.clone());
        if !tasks.iter().any(is_it) {
            let entry = (there.slot.clone(), Why::NotNeeded);
            found.entry(Key::Set(there.item.clone())).or_insert(entry);
        }
    }
}

/// What a STOP told somebody to take, and nobody confirmed having read: a hand may have done it.
fn told_before(
    tasks: &[Task],
    (now, drills): (&Standing, &BTreeMap<DrillKey, DrillNow>),
    found: &mut Found,
) {
    for (thing, work) in &now.told {
        let mut told = false;
        for (_, (_, why)) in found.iter_mut().filter(|(key, _)| is_of(key, thing)) {
            *why = why.after(*work);
            told = true;
        }
        if told {
            continue;
        }
        let drill = drills
            .values()
            .find(|one| thing_of_drill(&one.item) == *thing);
        let mut tasks = tasks
            .iter()
            .filter(|task| task.state() == SettingState::Now);
        let task = tasks.find(|task| task.thing == *thing);
        let planned = task
            .filter(|task| !task.is_sealed())
            .map(|task| task.key().without_turn());
        let set = || drill.map(|one| Key::Set(one.item.clone()));
        let key = planned
            .or_else(set)
            .unwrap_or_else(|| Key::Thing(thing.clone()));
        let lies = drill.and_then(|one| one.slot.clone());
        let lies = lies.or_else(|| now.thing_slots.get(thing).cloned());
        found.insert(key, (lies, Why::Told(*work)));
    }
}

/// True if a key is of this thing, whatever it is set to.
fn is_of(key: &Key, thing: &ThingKey) -> bool {
    match key {
        Key::Set(key) | Key::Anew(key, _) => thing_of_drill(key) == *thing,
        Key::Thing(other) => other == thing,
    }
}

/// Drills that lie on the tray or are set, and are not to be set any more: that comes before how they would be set.
fn not_to_be_set(tasks: &[Task], drills: &BTreeMap<DrillKey, DrillNow>, found: &mut Found) {
    // Of a later setting that nobody knows nothing is set yet.
    let tasks = tasks.iter();
    let tasks = tasks.filter(|task| task.planned.is_some() || !task.is_anew());
    for task in tasks.filter(|task| task.state() == SettingState::Now) {
        let is_set = |drill: &DrillKey| drills.get(drill).is_some_and(DrillNow::is_somewhere);
        let block = match (task.work, task.thing.piece()) {
            (Work::Blocked(block), _) => block,
            // It is laid as it is, unless it is set.
            (Work::LayUnset, Piece::Drill(drill)) if is_set(&drill) => Block::DoesNotFit,
            _ => continue,
        };
        // In its wrapping it may lie, and is set once it is opened and the gauge is known.
        if task.is_sealed() && block == Block::NoGaugeFigure {
            continue;
        }
        let mut told = false;
        for (_, (_, why)) in found.iter_mut().filter(|(key, _)| is_of(key, &task.thing)) {
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
        } else if let Piece::Drill(drill) = task.thing.piece()
            && let Some(there) = drills.get(&drill).filter(|now| now.is_somewhere())
        {
            let key = Key::Set(there.item.clone());
            found.insert(key, (there.slot.clone(), Why::Blocked(block)));
        }
    }
}

/// The fault of a drill that is set as it was and not as it is to be now.
fn set_otherwise(was: &ItemKey, now: &ItemKey) -> Why {
    let (mm, now_mm) = (was.setting_mm, now.setting_mm);
    if was.is_set_as(now) {
        return Why::Instrument;
    }
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

/// The reason why a drill that is set but not read has no place in the plan any more.
pub(super) fn why_gone(key: &Key, tasks: &[Task]) -> Why {
    let Key::Set(was) = key else {
        return Why::NotNeeded;
    };
    let same: DrillKey = was.drill_key();
    let mut comes_now = tasks.iter().filter(|one| one.state() == SettingState::Now);
    let now = comes_now.find_map(|one| {
        let now = one.planned.as_ref().map(|planned| &planned.key)?;
        now.is_drill(&same).then_some(now)
    });
    now.map_or(Why::NotNeeded, |now| set_otherwise(was, now))
}
