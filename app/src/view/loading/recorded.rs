//! What the record says of a task.

use std::collections::BTreeMap;
use traywright_core::measure::Length;
use traywright_core::sign::{
    Check, DrillKey, DrillNow, Event, EventKind, Handling, ItemKey, Lapse, Merged, Objection,
    PassedOver, Piece, PlanView, PlannedItem, Purpose, Reading, ReadingStanding, ReadingVerdict,
    SettingState, Stage, Standing, StopSince, ThingKey, Turn, Who,
};

/// Progress of a thing by the record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recorded {
    /// The first reading at this stage.
    pub first: ReadingState,
    /// The second one.
    pub second: ReadingState,
    /// The outcome of both readings.
    pub verified: Verified,
    /// The objections to it.
    pub objections: Vec<Objection>,
    /// Its slot by the record.
    pub lies: Option<String>,
    /// The drill as it was set or laid before the plan changed, where it is still so.
    pub set_otherwise: Option<Otherwise>,
    /// The work of hands on its stop since it was set.
    pub handling: Option<Handling>,
    /// Somebody set it anew to a later setting although it was not read at this one.
    pub passed_over: Option<PassedOver>,
    /// True if it was taken out of its wrapping.
    pub opened: bool,
    /// Number of events of the drill, whatever it was set to.
    pub events: usize,
    /// Whether hands worked on the drill, whatever it was set to.
    pub worked: Worked,
    /// True if both readings on the bench count, whatever the stage is.
    pub on_bench: bool,
    /// The second readings on the bench and in the sterile field, whatever the stage is.
    pub second_at_each: [ReadingState; 2],
    /// True if a later check found the gauge off that one of its readings was taken on.
    pub in_doubt: bool,
    /// Somebody read it as planned, at whatever stage.
    pub ever_read: EverRead,
}

/// A drill that is set otherwise than the plan has it now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Otherwise {
    /// As it was set or laid last.
    pub item: ItemKey,
    /// Its slot, where it is in one.
    pub slot: Option<String>,
    /// True if setting it anew in surgery was begun since, so that nothing read before counts.
    pub begun: bool,
}

/// Whether hands worked on a drill.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Worked {
    /// Nothing is recorded of it but where it lay.
    No,
    /// It was set, read, laid as it was set, set anew, or fell: nothing of that is passed over.
    Yes,
}

/// A first reading that confirms a setting, at whatever stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EverRead {
    /// There is one.
    Yes,
    /// There is none.
    No,
}

/// The outcome of the two readings of a setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verified {
    /// Both confirm it; in a demonstration that was practice.
    Yes,
    /// Not both, or not any more.
    No,
}

/// One of the two readings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadingState {
    /// There is none, or none that counts.
    Open,
    /// It confirms the setting.
    Confirmed {
        /// The reader.
        who: Who,
        /// The time.
        at: jiff::Timestamp,
    },
    /// It does not confirm it.
    Refused {
        /// The reader.
        who: Who,
        /// The figure that was read.
        value: Length,
        /// The disagreement.
        verdict: ReadingVerdict,
        /// Number of refusals in a row, without figures that the gauge cannot show.
        times: usize,
    },
    /// It would confirm it, but the gauge was not checked or is not sound.
    Unsound {
        /// The reader.
        who: Who,
    },
}

pub(super) fn of_thing(thing: &ThingKey, standing: &Standing) -> Recorded {
    Recorded {
        first: ReadingState::Open,
        second: ReadingState::Open,
        verified: Verified::No,
        objections: Vec::new(),
        lies: standing.thing_slots.get(thing).cloned(),
        set_otherwise: None,
        handling: None,
        passed_over: None,
        opened: standing.opened.contains(thing),
        events: 0,
        worked: Worked::No,
        on_bench: false,
        second_at_each: [ReadingState::Open, ReadingState::Open],
        in_doubt: false,
        ever_read: EverRead::No,
    }
}

pub(super) fn of_setting(
    planned: &PlannedItem,
    thing: &ThingKey,
    (view, standing): (&PlanView, &Standing),
    stage: Stage,
) -> Recorded {
    // Both list the same settings in the same order; one may come twice.
    let mut items = standing.items.iter().zip(&view.items);
    let item = items.find(|(_, of)| *of == planned).map(|(item, _)| item);
    let check = item.and_then(|item| item.checks.get(&stage));
    let turned = |stage, turn| match planned.state {
        SettingState::Now => turned(&planned.key, (stage, turn), standing, view.purpose),
        // The same setting may have been read when the drill stood at it before.
        SettingState::Later | SettingState::NoMore => ReadingState::Open,
    };
    let bench = item.and_then(|item| item.checks.get(&Stage::Bench));
    let placed = item.and_then(|item| item.placed.clone());
    let is_good = |check: &Check| check.is_verified() || check.is_practised();
    Recorded {
        first: turned(stage, Turn::First),
        second: turned(stage, Turn::Second),
        second_at_each: [Stage::Bench, Stage::SterileField]
            .map(|stage| turned(stage, Turn::Second)),
        verified: if check.is_some_and(is_good) {
            Verified::Yes
        } else {
            Verified::No
        },
        objections: check.map_or_else(Vec::new, |check| check.objections.clone()),
        lies: placed.or_else(|| standing.thing_slots.get(thing).cloned()),
        set_otherwise: None,
        handling: item.and_then(|item| item.handling.clone()),
        passed_over: item.and_then(|item| item.passed_over.clone()),
        opened: standing.opened.contains(thing),
        events: 0,
        worked: Worked::No,
        on_bench: bench.is_some_and(is_good),
        ever_read: {
            let mut stages = [Stage::Bench, Stage::SterileField, Stage::AfterUse].into_iter();
            let read = |stage| matches!(turned(stage, Turn::First), ReadingState::Confirmed { .. });
            if stages.any(read) {
                EverRead::Yes
            } else {
                EverRead::No
            }
        },
        in_doubt: item.is_some_and(|item| {
            let mut all = item.checks.values().flat_map(|check| &check.objections);
            all.any(|one| matches!(one, Objection::GaugeFoundOff { .. }))
        }),
    }
}

/// The drill as it was last set or laid, if otherwise than this, and where it then lies; none once its stop was
/// moved, or a fall of it taken back, or somebody confirmed having read that it is to be taken and set anew.
pub(super) fn laid_otherwise(
    key: &ItemKey,
    drills: &BTreeMap<DrillKey, DrillNow>,
) -> Option<Otherwise> {
    let now = drills.get(&key.drill_key())?;
    let is_known = !matches!(
        now.stop,
        StopSince::Moved | StopSince::Unknown | StopSince::EitherOfTwo
    );
    (is_known && now.item != *key).then(|| Otherwise {
        item: now.item.clone(),
        slot: now.slot.clone(),
        begun: now.stop == StopSince::Begun,
    })
}

/// Number of events of a drill, and whether any is more than where it lay.
pub(super) fn events_of(drill: &DrillKey, events: &Merged) -> (usize, Worked) {
    let events = events.in_order();
    let lay = |event: &&&Event| match &event.kind {
        EventKind::ThingPlaced { thing, .. } => thing.piece() == Piece::Drill(drill.clone()),
        _ => false,
    };
    let worked = |event: &&&Event| match &event.kind {
        EventKind::Reading(Reading { item, .. })
        | EventKind::Handled { item, .. }
        | EventKind::Placed { item, .. } => item.is_drill(drill),
        EventKind::Reset { drill: of, .. } => of == drill,
        EventKind::Dropped { piece, .. } | EventKind::FallTakenBack { piece, .. } => {
            *piece == Piece::Drill(drill.clone())
        }
        _ => false,
    };
    match events.iter().filter(worked).count() {
        0 => (events.iter().filter(lay).count(), Worked::No),
        some => (some + events.iter().filter(lay).count(), Worked::Yes),
    }
}

fn turned(
    key: &ItemKey,
    (stage, turn): (Stage, Turn),
    standing: &Standing,
    purpose: Purpose,
) -> ReadingState {
    let here = |reading: &&ReadingStanding| {
        let read = &reading.reading;
        (&read.item, read.stage, read.turn) == (key, stage, turn)
    };
    // What a later reading took the place of tells only how often one was refused.
    let only = |reading: &ReadingStanding, others: fn(&Lapse) -> bool| {
        let practised = purpose == Purpose::Practice;
        let mut lapses = reading.lapses.iter();
        lapses.all(|lapse| others(lapse) || practised && *lapse == Lapse::Practice)
    };
    let mut readings = standing.readings.iter().filter(here).rev();
    let Some(last) = readings.find(|reading| only(reading, |_| false)) else {
        return ReadingState::Open;
    };
    let who = last.who.clone();
    let confirms = |reading: &ReadingStanding| {
        reading
            .verdict
            .as_ref()
            .is_some_and(ReadingVerdict::confirms)
    };
    match &last.verdict {
        Some(verdict) if !verdict.confirms() => {
            // What the gauge cannot show was mistyped and no try. What is only far off is one: else the
            // figure could be found by trying.
            let is_try = |reading: &&ReadingStanding| {
                let verdict = reading.verdict.as_ref();
                verdict.is_none_or(ReadingVerdict::is_shown_by_gauge)
            };
            let before = readings
                .filter(|reading| only(reading, |lapse| matches!(lapse, Lapse::Superseded { .. })))
                .take_while(|reading| !confirms(reading))
                .filter(is_try);
            ReadingState::Refused {
                who,
                value: last.reading.value_mm,
                verdict: verdict.clone(),
                times: usize::from(is_try(&last)) + before.count(),
            }
        }
        _ if last.confirms(purpose) => {
            let at = last.at;
            ReadingState::Confirmed { who, at }
        }
        _ => ReadingState::Unsound { who },
    }
}
