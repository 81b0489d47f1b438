//! Readings as the record has them, for a sheet that is printed after loading: what counts, what speaks against it, and
//! whether the drill lies and is set as the plan has it.

use crate::kit::{SlotKind, StopId};
use crate::measure::Length;
use crate::plan::LoadItem;
use crate::sign::{
    Check, DrillKey, DrillNow, EventId, ItemStanding, Objection, ReadingStanding, SettingState,
    Stage, Standing, StopSince, ThingKey, Turn, has_alike,
};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// A reading that was not undone since.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordedReading {
    /// The gauge's figure.
    pub value: Length,
    /// The person who took it.
    pub who: String,
    /// The time.
    pub at: Timestamp,
    /// The stage at which it was taken.
    pub stage: Stage,
    /// What speaks against it: its figure, its gauge, its reader. Empty where it is accepted.
    pub against: Vec<Objection>,
}

/// The readings of a setting: of each turn the last one, in the sterile field before on the bench.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordedItem {
    /// The kit's drill.
    pub(super) drill: String,
    /// The kit's stop.
    pub(super) stop: Option<String>,
    /// Set length.
    pub(super) set: Length,
    /// The first reading.
    pub first: Option<RecordedReading>,
    /// The second reading.
    pub second: Option<RecordedReading>,
    /// Both are accepted and speak of one setting.
    pub verified: bool,
    /// Its slot by the record, however it is set there.
    pub lies: Option<String>,
    /// The state of its stop by the record.
    pub is_set: IsSet,
    /// Another drill looks like it and is set otherwise, or is to be: what of the two lies where tells its reading alone.
    pub has_alike: bool,
}

/// The state of a drill's stop by the record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IsSet {
    /// As the plan has it, or not at all.
    AsPlanned,
    /// Otherwise than the plan has it.
    Otherwise,
    /// Set anew in surgery since.
    Anew,
    /// A STOP told to take it, and nobody confirmed having read that.
    Told,
}

/// The way in which a drill is not where, or not set as, the plan has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Away<'a> {
    /// It lies in another slot.
    Elsewhere(&'a str),
    /// It was read and lies in no slot.
    Nowhere,
    /// Its stop is not as the plan has it.
    Set(IsSet),
}

impl RecordedItem {
    /// What of a setting was read; `drills` are all drills as they are by the record.
    pub(super) fn of(
        item: &ItemStanding,
        standing: &Standing,
        drills: &BTreeMap<DrillKey, DrillNow>,
    ) -> Self {
        let found = |id: &EventId| standing.readings.iter().find(|one| one.id == *id);
        let key = item.item.drill_key();
        let thing = ThingKey {
            of: SlotKind::Drill,
            entry: key.drill.clone(),
            copy: key.copy,
        };
        let now = drills.get(&key);
        let lies = item.placed.as_ref().or(standing.thing_slots.get(&thing));
        let lies = lies.or_else(|| now?.slot.as_ref());
        let otherwise = |now: &DrillNow| now.stop != StopSince::Moved && now.item != item.item;
        let stages = [Stage::SterileField, Stage::Bench];
        let checks = stages.map(|stage| item.checks.get(&stage));
        let mut checked = checks.into_iter().flatten();
        let mut own = Self {
            drill: item.item.drill.clone(),
            stop: item.item.stop.clone(),
            set: item.item.setting_mm,
            first: None,
            second: None,
            verified: checked.any(|check| check.is_verified() || check.is_practised()),
            lies: lies.cloned(),
            is_set: match item.state {
                SettingState::NoMore => IsSet::Anew,
                _ if standing.told.contains_key(&thing) => IsSet::Told,
                _ if now.is_some_and(otherwise) => IsSet::Otherwise,
                _ => IsSet::AsPlanned,
            },
            has_alike: has_alike(
                &item.item,
                standing.items.iter().map(|one| &one.item),
                drills,
            ),
        };
        for check in checks.into_iter().flatten() {
            if own.first.is_none() {
                let first = check.first.as_ref().and_then(found);
                own.first = first.map(|one| RecordedReading::of(one, check));
            }
            if own.second.is_none() {
                let second = check.second.as_ref().and_then(found);
                own.second = second.map(|one| RecordedReading::of(one, check));
            }
        }
        own
    }

    /// The way in which a drill is not where, or not set as, the plan has it.
    pub(super) fn away(&self, item: &LoadItem) -> Option<Away<'_>> {
        if self.is_set != IsSet::AsPlanned {
            return Some(Away::Set(self.is_set));
        }
        let was_read = self.first.is_some() || self.second.is_some();
        let planned = item.slot.as_ref().map(|slot| slot.as_str());
        match (self.lies.as_deref(), planned) {
            (Some(lies), planned) if planned != Some(lies) => Some(Away::Elsewhere(lies)),
            (None, Some(_)) if was_read => Some(Away::Nowhere),
            _ => None,
        }
    }

    /// True if it is still to be read, once or again: what lies elsewhere and looks like nothing else stays as it is set.
    pub(super) fn is_to_read(&self, item: &LoadItem) -> bool {
        let accepted = |reading: &Option<RecordedReading>| {
            let reading = reading.as_ref();
            reading.is_some_and(|reading| reading.against.is_empty())
        };
        let twice = accepted(&self.first) && accepted(&self.second) && self.verified;
        match self.away(item) {
            Some(Away::Set(is_set)) => is_set != IsSet::Anew,
            Some(Away::Elsewhere(_) | Away::Nowhere) => self.has_alike || !twice,
            None => !twice,
        }
    }

    fn is_of(&self, item: &LoadItem) -> bool {
        let Some(on) = &item.set else {
            return false;
        };
        let stop = on.stop.as_ref().map(StopId::as_str);
        item.entry == self.drill
            && stop == self.stop.as_deref()
            && on.set.get().is_some_and(|set| set == self.set)
    }
}

impl RecordedReading {
    fn of(found: &ReadingStanding, check: &Check) -> Self {
        let of_persons = |one: &&Objection| {
            matches!(one, Objection::SamePerson { .. } | Objection::SetIt { .. })
        };
        let is_second = found.reading.turn == Turn::Second;
        let persons: Vec<Objection> = check
            .objections
            .iter()
            .filter(|one| is_second && of_persons(one))
            .cloned()
            .collect();
        let mut against = found.objections();
        // Who set it saw its figure: once is enough.
        against.retain(|one| persons.is_empty() || !matches!(one, Objection::Saw { .. }));
        let contradicted = check.objections.iter();
        let contradicted = contradicted.filter(|one| matches!(one, Objection::Contradicted { .. }));
        against.extend(persons.into_iter().chain(contradicted.cloned()));
        Self {
            value: found.reading.value_mm,
            who: found.who.as_str().to_owned(),
            at: found.at,
            stage: found.reading.stage,
            against,
        }
    }
}

/// What was read of the items of a loading list, each beside its own; of equal ones in their order.
pub(super) fn beside<'a>(
    all: &'a [RecordedItem],
    loading: &[&LoadItem],
) -> Vec<Option<&'a RecordedItem>> {
    let mut left: Vec<&RecordedItem> = all.iter().collect();
    loading
        .iter()
        .map(|item| {
            let at = left.iter().position(|one| one.is_of(item))?;
            Some(left.remove(at))
        })
        .collect()
}
