//! Readings as the record has them, for a sheet that is printed after loading: what counts, what speaks against it, and
//! whether the drill lies and is set as the plan has it.

use crate::kit::{SlotKind, StopId};
use crate::measure::Length;
use crate::plan::LoadItem;
use crate::sign::{
    Check, DrillKey, DrillNow, EventId, EventKind, Fall, ItemStanding, Merged, Objection, Piece,
    Reading, ReadingStanding, SettingState, Stage, Standing, StopSince, ThingKey, Turn, has_alike,
};
use jiff::Timestamp;
use std::collections::{BTreeMap, BTreeSet};

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

/// The readings of a setting at one stage, the latest that it was read at, and what became of its drill.
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
    /// Read aloud in the sterile field after two readings on the bench.
    pub aloud: Option<RecordedReading>,
    /// What was read is accepted and speaks of one setting.
    pub verified: bool,
    /// Its slot by the record, however it is set there.
    pub lies: Option<String>,
    /// The state of its stop by the record.
    pub is_set: IsSet,
    /// Where it is, where it lies in no slot.
    pub out: Out,
    /// It lies in a slot with its stop set, or its stop may be set.
    pub is_there: bool,
    /// Another drill looks like it and is set otherwise, or is to be: what of the two lies where tells its reading alone.
    pub has_alike: bool,
}

/// A drill that lies in no slot, or one that does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Out {
    /// It lies in a slot, or nothing was recorded of it.
    No,
    /// Something was recorded of it.
    NotLaid,
    /// It fell, and nothing took its place since.
    Fell,
}

/// The state of a drill's stop by the record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IsSet {
    /// As the plan has it, or not at all.
    AsPlanned,
    /// Otherwise than the plan has it.
    Otherwise,
    /// As the plan has it, on a drill or with a stop that the kit has no more under this name, or that the record does not
    /// tell.
    Instrument,
    /// Set anew in surgery since.
    Anew,
    /// A fall of it was taken back, so that nobody knows.
    Unknown,
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
    /// It was not read, something was recorded of it, and it lies in no slot.
    NotLaid,
    /// It fell, and nothing took its place since.
    Fell,
    /// Its stop is not as the plan has it.
    Set(IsSet),
}

impl RecordedItem {
    /// What of a setting was read; `drills` are all drills as they are by the record, `touched` those of which anything was
    /// recorded.
    pub(super) fn of(
        item: &ItemStanding,
        standing: &Standing,
        (drills, touched): (&BTreeMap<DrillKey, DrillNow>, &BTreeSet<DrillKey>),
    ) -> Self {
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
        let exchanged = |now: &DrillNow| otherwise(now) && now.item.is_set_as(&item.item);
        let is_unknown =
            |now: &DrillNow| matches!(now.stop, StopSince::Unknown | StopSince::EitherOfTwo);
        let Read {
            first,
            second,
            aloud,
            verified,
        } = Read::of(item, standing);
        let fell = |fall: &Fall| fall.counts() && fall.may_be(&thing);
        Self {
            drill: item.item.drill.clone(),
            stop: item.item.stop.clone(),
            set: item.item.setting_mm,
            first,
            second,
            aloud,
            verified,
            lies: lies.cloned(),
            out: if lies.is_some() {
                Out::No
            } else if now.is_none() && standing.fallen.iter().any(fell) {
                Out::Fell
            } else if touched.contains(&key) {
                Out::NotLaid
            } else {
                Out::No
            },
            is_there: now.is_some_and(DrillNow::is_somewhere),
            is_set: match item.state {
                SettingState::NoMore => IsSet::Anew,
                _ if standing.told.contains_key(&thing) => IsSet::Told,
                _ if now.is_some_and(is_unknown) => IsSet::Unknown,
                _ if now.is_some_and(exchanged) => IsSet::Instrument,
                _ if now.is_some_and(otherwise) => IsSet::Otherwise,
                _ => IsSet::AsPlanned,
            },
            has_alike: has_alike(
                &item.item,
                standing.items.iter().map(|one| &one.item),
                drills,
            ),
        }
    }

    /// The way in which a drill is not where, or not set as, the plan has it.
    pub(super) fn away(&self, item: &LoadItem) -> Option<Away<'_>> {
        if self.out == Out::Fell {
            return Some(Away::Fell);
        }
        if self.is_set != IsSet::AsPlanned {
            return Some(Away::Set(self.is_set));
        }
        let was_read = self.first.is_some() || self.second.is_some();
        let planned = item.slot.as_ref().map(|slot| slot.as_str());
        match (self.lies.as_deref(), planned) {
            (Some(lies), planned) if planned != Some(lies) => Some(Away::Elsewhere(lies)),
            (None, Some(_)) if was_read => Some(Away::Nowhere),
            // In its wrapping it is laid as it is, and read when it is opened.
            (None, Some(_)) if self.out == Out::NotLaid && !item.unopened => Some(Away::NotLaid),
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
            Some(Away::Fell | Away::NotLaid) => true,
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

/// Drills of which anything was recorded.
pub(super) fn touched(events: &Merged) -> BTreeSet<DrillKey> {
    let drill = |kind: &EventKind| match kind {
        EventKind::Reading(Reading { item, .. })
        | EventKind::Placed { item, .. }
        | EventKind::Handled { item, .. } => Some(item.drill_key()),
        EventKind::Reset { drill, .. } => Some(drill.clone()),
        EventKind::Opened { thing, .. } | EventKind::ThingPlaced { thing, .. } => {
            match thing.piece() {
                Piece::Drill(drill) => Some(drill),
                _ => None,
            }
        }
        kind => kind.fallen_drill().cloned(),
    };
    let events = events.in_order().into_iter();
    events.filter_map(|event| drill(&event.kind)).collect()
}

/// The readings of a setting that stand beside each other.
struct Read {
    first: Option<RecordedReading>,
    second: Option<RecordedReading>,
    aloud: Option<RecordedReading>,
    verified: bool,
}

impl Read {
    /// Those of one stage, the latest that has any: of two stages one person might stand as both readers. What is read
    /// aloud after two readings on the bench stands beside these.
    fn of(item: &ItemStanding, standing: &Standing) -> Self {
        let field = item.checks.get(&Stage::SterileField);
        let bench = item.checks.get(&Stage::Bench);
        let was_read = |check: &&Check| check.first.is_some() || check.second.is_some();
        let field = field.filter(was_read);
        let first_lacks = Objection::ReadingMissing { turn: Turn::First };
        let aloud = field.filter(|check| {
            check.first.is_none() && check.aloud && !check.objections.contains(&first_lacks)
        });
        let beside = if aloud.is_some() {
            bench
        } else {
            field.or(bench)
        };
        let reading = |check: Option<&Check>, id: fn(&Check) -> &Option<EventId>| {
            let check = check?;
            let id = id(check).as_ref()?;
            let found = standing.readings.iter().find(|one| one.id == *id)?;
            Some(RecordedReading::of(found, check))
        };
        let verified = aloud.or(beside);
        Self {
            first: reading(beside, |check| &check.first),
            second: reading(beside, |check| &check.second),
            aloud: reading(aloud, |check| &check.second),
            verified: verified.is_some_and(|check| check.is_verified() || check.is_practised()),
        }
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
