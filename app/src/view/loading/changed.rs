//! Things already loaded that a change of the plan made wrong.

use super::lying::{Found, compare, in_order, why_gone};
use super::session::moved;
use super::task::{Block, Board, Key, Task, thing_of, thing_of_drill};
use std::collections::{BTreeMap, BTreeSet};
use traywright_core::case::ValidCase;
use traywright_core::measure::Length;
use traywright_core::plan::{LoadItem, Worksheet, plan_view};
use traywright_core::sign::{
    DrillKey, EventKind, ItemKey, Lapse, Merged, PlanView, Policy, Purpose, SettingState, Stage,
    ThingKey, ToldWork, Withdrawn, standing, withdrawn_by,
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
    /// What was said of things that are wrong, while the STOP is shown.
    pub said: BTreeMap<ThingKey, Said>,
}

/// What was said of a thing that a STOP tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// A hand took it, and moved its stop where it is set anew.
    Taken,
    /// Nobody had it in a hand: it stands as it did.
    Stays,
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
    /// The kit has another drill or stop under the same id, or nobody recorded which this is.
    Instrument,
    /// The plan reads it on another gauge, or the gauge shows another figure of it.
    Gauge,
    /// A fall of it was taken back after another took its place: of the two nobody knows which this is.
    EitherOfTwo,
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
    /// The same, and another drill that looks like it is wanted: what it is set to tells its reading alone.
    SlotOfAlike {
        /// The slot where it belongs.
        now: Option<String>,
    },
    /// It was told to be taken, or to be set anew, and nobody confirmed having read that before the plan was again as it
    /// was.
    Told(ToldWork),
}

impl Why {
    /// The same where this work was told of the thing before: what a hand may have set anew does not only belong elsewhere.
    pub(super) fn after(&self, work: ToldWork) -> Self {
        match (self, work) {
            (Self::Slot { .. } | Self::Told(_), ToldWork::SetAnew) => Self::Told(work),
            _ => self.clone(),
        }
    }
}

impl Wrong {
    /// What is recorded of it once somebody says that a hand took it: it lies nowhere, and where it is set anew its stop was moved,
    /// so that nothing read before counts, whatever the plan does then. What only belongs elsewhere stays as it is set.
    pub fn taken(&self, purpose: Purpose) -> impl Iterator<Item = EventKind> {
        let drill = self.set_anew();
        // What was told is settled by something, also where it lies nowhere and carries no stop.
        let off = (self.lies.is_some() || drill.is_none()).then(|| EventKind::ThingPlaced {
            thing: self.thing(),
            slot: None,
            purpose: Some(purpose),
        });
        // First what takes the readings: cut off between the two, it lies somewhere and is set anew all the same.
        let moved = drill.map(|drill| moved(drill, purpose));
        moved.into_iter().chain(off)
    }

    /// What is recorded as it is told, before anybody confirmed having read it: a hand may do it at once.
    #[must_use]
    pub fn told(&self, purpose: Purpose) -> EventKind {
        EventKind::Told {
            thing: self.thing(),
            work: self.work(),
            purpose,
        }
    }

    /// The work with it as it is told.
    #[must_use]
    pub fn work(&self) -> ToldWork {
        match self.set_anew() {
            Some(_) => ToldWork::SetAnew,
            None => ToldWork::Take,
        }
    }

    /// The thing, whatever it is set to.
    #[must_use]
    pub fn thing(&self) -> ThingKey {
        match &self.key {
            Key::Thing(thing) => thing.clone(),
            Key::Set(key) | Key::Anew(key, _) => thing_of_drill(key),
        }
    }

    /// The drill whose stop is set anew; none where it carries no stop, which is laid anew, or stays as it is set.
    #[must_use]
    pub fn set_anew(&self) -> Option<DrillKey> {
        match &self.key {
            Key::Set(key) | Key::Anew(key, _) => {
                let off = matches!(self.why, Why::Slot { .. } | Why::Told(ToldWork::Take));
                let stays = key.stop.is_none() || off;
                (!stays).then(|| key.drill_key())
            }
            Key::Thing(_) => None,
        }
    }
}

impl Changed {
    /// The same with what was told before and nobody confirmed having read: a hand may have done it.
    #[must_use]
    pub fn with_told(mut self, before: Self) -> Self {
        // What a hand took is no more wrong for that; what was left is asked about again.
        let taken = |one: &Wrong| before.said.get(&one.thing()) == Some(&Said::Taken);
        let left: Vec<Wrong> = before.wrong.into_iter().filter(|one| !taken(one)).collect();
        for mut one in left {
            let mut again = self.wrong.iter_mut();
            if let Some(again) = again.find(|wrong| wrong.thing() == one.thing()) {
                again.why = again.why.after(one.work());
            } else {
                one.why = Why::Told(one.work());
                self.wrong.push(one);
            }
        }
        self.wrong.sort_by(|a, b| a.key.cmp(&b.key));
        self
    }

    /// What of it is to be recorded as told, beside what was recorded so.
    #[must_use]
    pub fn untold(
        &self,
        is_told: impl Fn(&ThingKey) -> Option<ToldWork>,
    ) -> BTreeMap<ThingKey, &Wrong> {
        let mut open: BTreeMap<ThingKey, &Wrong> = BTreeMap::new();
        for one in &self.wrong {
            let thing = one.thing();
            if is_told(&thing) >= Some(one.work()) {
                continue;
            }
            // Of two faults of a thing the one that takes most.
            let kept = open.entry(thing).or_insert(one);
            if one.work() > kept.work() {
                *kept = one;
            }
        }
        open
    }

    /// What a hand is asked about next: the first thing of which nothing was said.
    #[must_use]
    pub fn asked(&self) -> Option<&Wrong> {
        let mut wrong = self.wrong.iter();
        wrong.find(|one| !self.said.contains_key(&one.thing()))
    }

    /// What of it nobody said to have taken: it stands as it was set and lies, whatever was read.
    pub fn left(&self) -> impl Iterator<Item = &Wrong> {
        let taken = |one: &&Wrong| self.said.get(&one.thing()) == Some(&Said::Taken);
        self.wrong.iter().filter(move |one| !taken(one))
    }
}

/// True if two plans differ in anything that a hand acts on while the tray is loaded.
#[must_use]
pub fn differ(before: &Worksheet, after: &Worksheet) -> bool {
    before.fingerprint != after.fingerprint
        || before.loading != after.loading
        || before.resets != after.resets
}

/// Effects of a changed plan on what is loaded, and on what is set and not read yet: what it withdraws, and all that lies
/// otherwise than the plan wants it, also by a change before this one.
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
    let mut wrong = Found::new();
    if let Ok(now) = standing(events, &is, policy) {
        let with = (&is, &now, events);
        let tasks = Board::of(worksheet, &after.kit, with, None, Stage::Bench).tasks;
        let mut found = drills(&withdrawn, &tasks);
        // A setting that only comes later is in hand where it is just being set anew, and not else.
        let known = |key: &Key| {
            let comes_now = |task: &Task| task.state() == SettingState::Now;
            let is = |task: &Task| task.key().without_turn() == *key && comes_now(task);
            tasks.iter().any(|task| task.key() == *key || is(task))
        };
        for key in in_hand(events, &was, policy)
            .iter()
            .filter(|key| !known(key))
        {
            let key = key.without_turn();
            let why = why_gone(&key, &tasks);
            found.entry(key).or_insert((None, why));
        }
        wrong = compare(&tasks, (&now, &now.drills), found);
    }
    Changed {
        wrong: in_order(wrong),
        approvals: withdrawn.approvals.len(),
        added: added(then, worksheet),
        resets: if then.resets == worksheet.resets {
            Resets::AsBefore
        } else {
            Resets::Otherwise
        },
        said: BTreeMap::new(),
    }
}

/// Drills that are set under a plan, as they are set.
fn in_hand(events: &Merged, view: &PlanView, policy: &Policy) -> Vec<Key> {
    let items = standing(events, view, policy).map_or_else(|_| Vec::new(), |now| now.items);
    let set = items.into_iter().filter(|item| item.handling.is_some());
    set.map(|item| Key::Set(item.item)).collect()
}

/// Drills whose readings no longer hold, and drills in a slot that are no longer wanted as they are
/// set.
fn drills(withdrawn: &Withdrawn, tasks: &[Task]) -> Found {
    // What is withdrawn for no reason of the plan's, as by a case that was for practice, is wanted
    // still where the plan has it.
    let or_again = |key: &Key| {
        let wanted = tasks.iter().any(|one| one.key().without_turn() == *key);
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
            Why::NotNeeded => why_gone(&key, tasks),
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
        Lapse::InstrumentChanged { .. } => Some(Why::Instrument),
        Lapse::GaugeChanged { .. } => Some(Why::Gauge),
        Lapse::DrillNotInPlan { .. } | Lapse::CopyNotInPlan { .. } => Some(Why::NotNeeded),
        // No change of the plan brings these, save that it was for practice.
        Lapse::Void(_)
        | Lapse::Practice
        | Lapse::Reset { .. }
        | Lapse::Told { .. }
        | Lapse::Handled { .. }
        | Lapse::ReadOtherwise { .. }
        | Lapse::OtherGauge { .. }
        | Lapse::Dropped { .. }
        | Lapse::FallTakenBack { .. }
        | Lapse::AnotherSitting { .. }
        | Lapse::Landings { .. }
        | Lapse::Superseded { .. } => None,
    }
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
