//! Settings of the plan that are verified, and at which stage.

use super::day::ends_sitting_of;
use super::judge::{Deviation, Mistyped};
use super::plan::{PlanView, PlannedItem, Policy, SettingState};
use super::readings::{ReadingStanding, moves_stop};
use super::seen::FiguresSeen;
use super::{Purposes, is_practised};
use crate::kit::SlotKind;
use crate::measure::Length;
use crate::sign::Names;
use crate::sign::event::{
    DrillKey, Event, EventId, EventKind, ItemKey, Piece, Purpose, Stage, ThingKey, Turn,
};
use crate::sign::hand::HandStep;
use crate::sign::heads::TimedEvent;
use crate::sign::{Message, Who};
use std::collections::{BTreeMap, BTreeSet};

/// One setting of the plan and how far it is verified.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ItemStanding {
    /// The setting.
    pub item: ItemKey,
    /// Its state by what was recorded; a setting that is made in surgery is read there.
    pub state: SettingState,
    /// The two readings at each stage; every stage is there.
    pub checks: BTreeMap<Stage, Check>,
    /// The slot of the drill; none when it was not placed, or fell or was handled since.
    pub placed: Option<String>,
    /// The work of hands on its stop at this setting; none where it was not set, or moved since.
    pub handling: Option<Handling>,
    /// It was gone on from without being read as it had to be; none while the drill is at it.
    pub passed_over: Option<PassedOver>,
}

/// Somebody went on from a setting that was not read as it had to be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PassedOver {
    /// The person who told it.
    pub who: Who,
    /// The time.
    pub at: jiff::Timestamp,
}

/// The work of hands on a stop since it was set last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Handling {
    /// The last work done.
    pub step: HandStep,
    /// Everybody who had it in hand, each once.
    pub by: Vec<Who>,
}

/// The two readings of a setting at one stage.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Check {
    /// The first reading, where one counts.
    pub first: Option<EventId>,
    /// The second reading, where one counts.
    pub second: Option<EventId>,
    /// The local rule by which bench readings count here, where they do.
    pub by_policy: Option<String>,
    /// True if the second reading was read aloud and entered by another person.
    pub aloud: bool,
    /// The objections that keep the setting from being verified; empty when it is.
    pub objections: Vec<Objection>,
}

/// An objection that keeps a setting from being verified.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Objection {
    /// The case is a demonstration.
    Practice,
    /// A reading is missing, or none counts.
    ReadingMissing {
        /// The first or the second.
        turn: Turn,
    },
    /// Verified on the bench only, and no local rule lets that count here.
    BenchOnly,
    /// Both readings may be one person's.
    SamePerson {
        /// As the second reading is signed.
        who: Who,
    },
    /// The second reading may be by a person who set the stop and saw its figure.
    SetIt {
        /// As the second reading is signed.
        who: Who,
    },
    /// The second reading on the bench may be by a person who had seen a figure of the case before it.
    Saw {
        /// As the second reading is signed.
        who: Who,
        /// The occasion.
        sight: FiguresSeen,
    },
    /// A reading does not agree with the plan.
    OutOfTolerance {
        /// The reading.
        reading: EventId,
        /// Its deviation.
        deviation: Deviation,
    },
    /// A reading looks mistyped.
    Mistyped {
        /// The reading.
        reading: EventId,
        /// The reason.
        why: Mistyped,
    },
    /// A reading of the setting at another stage, or one as old, does not agree with the plan.
    Contradicted {
        /// That reading.
        reading: EventId,
    },
    /// The gauge was not read on its check piece before.
    GaugeNotChecked {
        /// The gauge.
        gauge: String,
    },
    /// What was entered of its check piece is no figure that the gauge can show.
    GaugeNoFigure {
        /// The gauge.
        gauge: String,
        /// The figure.
        value_mm: Length,
    },
    /// The gauge was read on its check piece too long before.
    GaugeCheckOld {
        /// The gauge.
        gauge: String,
    },
    /// The gauge did not show the length of its check piece.
    GaugeOff {
        /// The gauge.
        gauge: String,
        /// The excess that it showed; negative: too little.
        off_mm: Length,
    },
    /// The gauge fell after it was checked.
    GaugeFell {
        /// The gauge.
        gauge: String,
        /// The event.
        by: EventId,
    },
    /// A later check of the gauge found it off, and no sound one lies between.
    GaugeFoundOff {
        /// The gauge.
        gauge: String,
        /// The event.
        by: EventId,
        /// The excess that it showed then; negative: too little.
        off_mm: Length,
    },
}

impl Check {
    /// True if the setting is verified at this stage.
    #[must_use]
    pub fn is_verified(&self) -> bool {
        self.objections.is_empty()
    }

    /// True if it would be verified if the case were not for practice.
    #[must_use]
    pub fn is_practised(&self) -> bool {
        self.objections == [Objection::Practice]
    }
}

pub(super) fn items(
    (timed, purposes): (&[TimedEvent<'_>], &Purposes<'_>),
    readings: &[ReadingStanding],
    (plan, names): (&PlanView, &Names<'_>),
    policy: &Policy,
) -> Vec<ItemStanding> {
    let of = |(place, item): (usize, &PlannedItem)| {
        // A setting may come back after another one: what was read of it before that is of no worth.
        let now = item.state == SettingState::Now;
        let own: Vec<&ReadingStanding> = readings
            .iter()
            .filter(|r| now && r.reading.item == item.key)
            .filter(|r| r.counts_or_is_practised(plan.purpose))
            .collect();
        let of_now = now.then(|| handling(&item.key, timed, plan.purpose));
        let handling = of_now.flatten();
        ItemStanding {
            item: item.key.clone(),
            state: item.state,
            checks: checks((&own, names), handling.as_ref(), plan.purpose, policy),
            placed: now.then(|| placed(&item.key, timed, purposes)).flatten(),
            handling,
            passed_over: passed_over(place, plan, timed),
        }
    };
    plan.items.iter().enumerate().map(of).collect()
}

/// The last time that somebody went on from this setting of the plan although it was not read.
fn passed_over(place: usize, plan: &PlanView, timed: &[TimedEvent<'_>]) -> Option<PassedOver> {
    let item = &plan.items[place];
    let drill = item.key.drill_key();
    let of_drill = |one: &&PlannedItem| one.key.is_drill(&drill);
    let turn = plan.items[..place].iter().filter(of_drill).count();
    // A setting between that is not to be set is never stood at; the same may come back.
    let next = plan.items[place + 1..].iter().filter(of_drill);
    let again = next.enumerate().find(|(_, one)| one.key == item.key);
    let last = again.map(|(between, _)| turn + 1 + between);
    let goes_on = |event: &Event| match &event.kind {
        EventKind::Reset {
            passed_over: Some(over),
            to: Some(to),
            purpose,
            ..
        } if !is_practised(*purpose, plan.purpose) => {
            let to = usize::try_from(*to).ok();
            *over == item.key
                && to.is_some_and(|to| to > turn && last.is_none_or(|last| to <= last))
        }
        _ => false,
    };
    let mut told = timed.iter().rev().map(|this| this.event);
    let told = told.find(|event| goes_on(event))?;
    (item.state != SettingState::Now).then(|| PassedOver {
        who: told.who.clone(),
        at: told.at,
    })
}

/// The checks from those readings of one setting that count.
fn checks(
    (own, names): (&[&ReadingStanding], &Names<'_>),
    handling: Option<&Handling>,
    plan: Purpose,
    policy: &Policy,
) -> BTreeMap<Stage, Check> {
    let stages = [Stage::Bench, Stage::SterileField, Stage::AfterUse];
    let mut checks: BTreeMap<Stage, Check> = stages
        .into_iter()
        .map(|stage| (stage, check((own, names), handling, stage, plan)))
        .collect();
    let bench = checks.get(&Stage::Bench).cloned();
    let sterile = checks.get_mut(&Stage::SterileField);
    if let (Some(bench), Some(sterile)) = (bench, sterile)
        && sterile.first.is_none()
    {
        let on_bench = bench.is_verified() || bench.is_practised();
        if sterile.second.is_some() {
            // Read twice on the bench, then aloud with no figure in sight of anyone.
            let first = Objection::ReadingMissing { turn: Turn::First };
            let place =
                |id: &Option<EventId>| own.iter().position(|one| Some(&one.id) == id.as_ref());
            let after_bench = [&bench.first, &bench.second].map(place).into_iter().max();
            let after_bench = place(&sterile.second) > after_bench.flatten();
            let aloud = sterile.aloud && on_bench && after_bench;
            sterile.objections.retain(|one| !aloud || *one != first);
        } else if let Some(name) = &policy.bench_after_sterilisation {
            *sterile = bench;
            sterile.by_policy = Some(name.clone());
        } else if on_bench {
            sterile.objections.push(Objection::BenchOnly);
        }
    }
    checks
}

fn check(
    (own, names): (&[&ReadingStanding], &Names<'_>),
    handling: Option<&Handling>,
    stage: Stage,
    plan: Purpose,
) -> Check {
    let last = |turn: Turn| {
        let at = |r: &&&ReadingStanding| (r.reading.stage, r.reading.turn) == (stage, turn);
        own.iter().rfind(at).copied()
    };
    let (first, second) = (last(Turn::First), last(Turn::Second));
    let mut objections = Vec::new();
    if plan == Purpose::Practice {
        objections.push(Objection::Practice);
    }
    for (turn, reading) in [(Turn::First, first), (Turn::Second, second)] {
        match reading {
            None => objections.push(Objection::ReadingMissing { turn }),
            Some(reading) => objections.extend(objections_to(reading)),
        }
    }
    if let Some(second) = second {
        let first = first.map(|first| &first.who);
        let to_persons = objections_to_second(second, first, (handling, names));
        // Who read first, or set it, saw its figure: once is enough.
        let saw = second.saw.filter(|_| to_persons.is_empty());
        objections.extend(to_persons);
        objections.extend(saw.map(|sight| {
            let who = second.who.clone();
            Objection::Saw { who, sight }
        }));
    }
    let id = |r: Option<&ReadingStanding>| r.map(|r| r.id.clone());
    let (first_id, second_id) = (id(first), id(second));
    // What is read aloud is held against the plan where it is read; one that is misread there takes
    // nothing from what was read before.
    let speaks =
        |one: &&&ReadingStanding| one.reading.stage == stage || one.reading.entered_by.is_none();
    for other in own.iter().filter(speaks) {
        let here = [&first_id, &second_id].contains(&&Some(other.id.clone()));
        let confirms = other
            .verdict
            .as_ref()
            .is_some_and(super::ReadingVerdict::confirms);
        if !here && !confirms {
            let reading = other.id.clone();
            objections.push(Objection::Contradicted { reading });
        }
    }
    Check {
        first: first_id,
        second: second_id,
        by_policy: None,
        aloud: second.is_some_and(|second| second.reading.entered_by.is_some()),
        objections,
    }
}

/// The objections to the persons of a second reading. Whoever set the stop may read it aloud again
/// only where it was not set and read at this stage.
fn objections_to_second(
    second: &ReadingStanding,
    first: Option<&Who>,
    (handling, names): (Option<&Handling>, &Names<'_>),
) -> Vec<Objection> {
    let mut objections = Vec::new();
    let entered_by = second.reading.entered_by.as_ref();
    let is_second = |one: &Who| names.may_be_same(one, &second.who);
    if first.is_some_and(is_second) || entered_by.is_some_and(is_second) {
        let who = second.who.clone();
        objections.push(Objection::SamePerson { who });
    }
    let Some(first) = first else {
        return objections;
    };
    let hands = handling.map_or(&[][..], |handling| &handling.by);
    if hands.iter().any(is_second) {
        let who = second.who.clone();
        objections.push(Objection::SetIt { who });
    }
    // Nor does who set it here, or read it with the figure in sight, enter what is read aloud.
    let mut saw = hands.iter().chain([first]);
    if let Some(enterer) = entered_by
        && saw.any(|one| names.may_be_same(one, enterer))
    {
        let who = enterer.clone();
        objections.push(Objection::SetIt { who });
    }
    objections
}

/// The objections to one reading, those to its reader left out.
pub(super) fn objections_to(reading: &ReadingStanding) -> Vec<Objection> {
    let id = || reading.id.clone();
    let deviation = reading
        .verdict
        .as_ref()
        .map_or(Deviation::NoFigure, |j| j.deviation);
    let mut objections = Vec::new();
    if !matches!(deviation, Deviation::InTolerance { .. }) {
        objections.push(Objection::OutOfTolerance {
            reading: id(),
            deviation,
        });
    }
    let mistyped = reading.verdict.iter().flat_map(|j| &j.mistyped);
    objections.extend(mistyped.map(|why| Objection::Mistyped {
        reading: id(),
        why: *why,
    }));
    objections.extend(reading.gauge.clone());
    objections
}

/// The slot that a drill was last put into, unless it was handled since.
fn placed(key: &ItemKey, timed: &[TimedEvent<'_>], purposes: &Purposes<'_>) -> Option<String> {
    let (this, slot) = timed.iter().rev().find_map(|this| match &this.event.kind {
        EventKind::Placed { item, slot, .. } if item == key && purposes.counts(this) => {
            Some((this, slot))
        }
        _ => None,
    })?;
    let taken_since = timed.iter().any(|other| {
        let taken = match &other.event.kind {
            EventKind::Handled { item, .. } => key.is_drill(&item.drill_key()),
            // As a thing it is taken off where it lies, whatever it is set to.
            EventKind::ThingPlaced {
                thing, slot: None, ..
            } => is_drill(thing, &key.drill_key()),
            kind => {
                ends_sitting_of(other, this, timed)
                    || kind.fallen_drill().is_some_and(|drill| key.is_drill(drill))
            }
        };
        taken && !other.clearly_before(this)
    });
    (!taken_since).then(|| slot.clone())
}

/// The work of hands on a stop since it was set last to this setting; none where the drill was set to
/// another, its stop was moved or it fell since. What is not clearly before counts as since. What was
/// practised is none of a patient's case, but undoes what was done before it.
fn handling(key: &ItemKey, timed: &[TimedEvent<'_>], plan: Purpose) -> Option<Handling> {
    let drill = key.drill_key();
    let at = timed.iter().rposition(|this| {
        matches!(&this.event.kind, EventKind::Handled { item, step: HandStep::Set, .. } if item.is_drill(&drill))
    })?;
    let set = &timed[at];
    let undone = timed.iter().any(|other| {
        let undoes = match &other.event.kind {
            kind if kind.moved_stop().is_some() => kind.moved_stop_of(key),
            EventKind::Handled { item, purpose, .. } => {
                item.is_drill(&drill) && (item != key || *purpose != plan)
            }
            EventKind::Reading(reading) => moves_stop(key, reading, plan),
            kind => {
                ends_sitting_of(other, set, timed)
                    || kind.fallen_drill().is_some_and(|drill| key.is_drill(drill))
            }
        };
        undoes && !other.clearly_before(set)
    });
    if undone {
        return None;
    }
    let mut found: Option<Handling> = None;
    for this in &timed[at..] {
        let EventKind::Handled { item, step, .. } = &this.event.kind else {
            continue;
        };
        if item != key {
            continue;
        }
        let handling = found.get_or_insert_with(|| Handling {
            step: *step,
            by: Vec::new(),
        });
        handling.step = handling.step.max(*step);
        if !handling.by.contains(&this.event.who) {
            handling.by.push(this.event.who.clone());
        }
    }
    found
}

/// Things that were taken out of their wrapping, and did not fall since.
pub(super) fn opened(timed: &[TimedEvent<'_>], plan: Purpose) -> BTreeSet<ThingKey> {
    let opened = timed.iter().filter_map(|this| match &this.event.kind {
        EventKind::Opened { thing, purpose } if *purpose == plan => Some((this, thing)),
        _ => None,
    });
    let still =
        opened.filter(|(this, thing)| !happened_since(this, timed, |kind| fell(thing, kind)));
    still.map(|(_, thing)| thing.clone()).collect()
}

/// True if such an event is not clearly before this one.
fn happened_since(
    this: &TimedEvent<'_>,
    timed: &[TimedEvent<'_>],
    such: impl Fn(&EventKind) -> bool,
) -> bool {
    let mut all = timed.iter();
    all.any(|other| such(&other.event.kind) && !other.clearly_before(this))
}

/// Things without a slot that were there, by stage, and when they were seen last.
pub(super) fn beside(
    timed: &[TimedEvent<'_>],
    plan: Purpose,
) -> BTreeMap<(Stage, String), jiff::Timestamp> {
    let seen = timed.iter().filter_map(|this| match &this.event.kind {
        EventKind::Beside {
            what,
            stage,
            purpose,
        } if *purpose == plan => Some(((*stage, what.clone()), this.event.at)),
        _ => None,
    });
    seen.collect()
}

/// The slot that each thing without a setting was last put into, unless it was taken off or fell since: what is
/// not clearly before counts as since. Nobody knows which of several equal ones fell: each of them is laid anew.
pub(super) fn thing_slots(
    timed: &[TimedEvent<'_>],
    purposes: &Purposes<'_>,
) -> BTreeMap<ThingKey, String> {
    let laid = timed.iter().filter_map(|this| match &this.event.kind {
        EventKind::ThingPlaced {
            thing,
            slot: Some(slot),
            ..
        } if purposes.counts(this) => Some((thing, (this, slot))),
        _ => None,
    });
    let last: BTreeMap<&ThingKey, _> = laid.collect();
    let gone = |thing: &ThingKey, kind: &EventKind| match kind {
        EventKind::ThingPlaced {
            thing: off,
            slot: None,
            ..
        } => off == thing,
        // What was laid since it fell lies there, also when the fall is taken back.
        EventKind::FallTakenBack { .. } => false,
        kind => fell(thing, kind),
    };
    let lies = last
        .into_iter()
        .filter(|(thing, (this, _))| !happened_since(this, timed, |kind| gone(thing, kind)))
        .filter(|(_, (this, _))| {
            !timed
                .iter()
                .any(|other| ends_sitting_of(other, this, timed))
        });
    lies.map(|(thing, (_, slot))| (thing.clone(), slot.clone()))
        .collect()
}

/// True if a thing is this drill.
fn is_drill(thing: &ThingKey, drill: &DrillKey) -> bool {
    thing.of == SlotKind::Drill && (&thing.entry, thing.copy) == (&drill.drill, drill.copy)
}

/// True if a thing may be the piece that fell then.
fn fell(thing: &ThingKey, kind: &EventKind) -> bool {
    match kind.fallen() {
        Some(Piece::Drill(drill)) => is_drill(thing, drill),
        Some(Piece::Thing(fallen)) => fallen.may_be(thing),
        Some(Piece::Other(name)) => thing.entry == *name,
        Some(Piece::Gauge(_) | Piece::Guide(_)) | None => false,
    }
}

impl Objection {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Practice => Message::new("sign-check-practice", []),
            Self::ReadingMissing { turn: Turn::First } => {
                Message::new("sign-check-first-missing", [])
            }
            Self::ReadingMissing { turn: Turn::Second } => {
                Message::new("sign-check-second-missing", [])
            }
            Self::BenchOnly => Message::new("sign-check-bench-only", []),
            Self::SamePerson { who } => Message::new("sign-check-same-person", [("who", who)]),
            Self::SetIt { who } => Message::new("sign-check-set-it", [("who", who)]),
            Self::Saw { who, sight } => {
                let id = match sight {
                    FiguresSeen::Approved => "sign-check-saw-approved",
                    FiguresSeen::Set => "sign-check-saw-set",
                    FiguresSeen::Read => "sign-check-saw-read",
                    FiguresSeen::Worked => "sign-check-saw-worked",
                    FiguresSeen::Left => "sign-check-saw-left",
                };
                Message::new(id, [("who", who)])
            }
            Self::OutOfTolerance { deviation, .. } => deviation.message(),
            Self::Mistyped { why, .. } => why.message(),
            Self::Contradicted { reading } => {
                Message::new("sign-check-contradicted", [("reading", reading)])
            }
            Self::GaugeNotChecked { gauge } => {
                Message::new("sign-check-gauge-not-checked", [("gauge", gauge)])
            }
            Self::GaugeNoFigure { gauge, value_mm } => Message::new(
                "sign-check-gauge-no-figure",
                [("gauge", gauge), ("value", value_mm)],
            ),
            Self::GaugeCheckOld { gauge } => {
                Message::new("sign-check-gauge-check-old", [("gauge", gauge)])
            }
            Self::GaugeOff { gauge, off_mm } => {
                Message::new("sign-check-gauge-off", [("gauge", gauge), ("off", off_mm)])
            }
            Self::GaugeFell { gauge, .. } => {
                Message::new("sign-check-gauge-fell", [("gauge", gauge)])
            }
            Self::GaugeFoundOff { gauge, by, off_mm } => Message::new(
                "sign-check-gauge-found-off",
                [("gauge", gauge), ("by", by), ("off", off_mm)],
            ),
        }
    }
}
