//! Settings of the plan that are verified, and at which stage.

use super::judge::{Deviation, Mistyped};
use super::plan::{PlanView, PlannedItem, Policy, SettingState};
use super::readings::ReadingStanding;
use crate::measure::Length;
use crate::sign::event::{EventId, EventKind, ItemKey, Piece, Purpose, Stage, ThingKey, Turn};
use crate::sign::merge::TimedEvent;
use crate::sign::{Message, Who};
use std::collections::BTreeMap;

/// One setting of the plan and how far it is verified.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ItemStanding {
    /// The setting.
    pub item: ItemKey,
    /// Its state by what was recorded; a setting that is made in surgery is read there.
    pub state: SettingState,
    /// The two readings at each stage; every stage is there.
    pub checks: BTreeMap<Stage, Check>,
    /// The slot of the drill; none when it was not placed, or fell since.
    pub placed: Option<String>,
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
    timed: &[TimedEvent<'_>],
    readings: &[ReadingStanding],
    plan: &PlanView,
    policy: &Policy,
) -> Vec<ItemStanding> {
    let of = |item: &PlannedItem| {
        // A setting may come back after another one: what was read of it before that is of no worth.
        let now = item.state == SettingState::Now;
        let own: Vec<&ReadingStanding> = readings
            .iter()
            .filter(|r| now && r.reading.item == item.key)
            .filter(|r| r.counts_or_is_practised(plan.purpose))
            .collect();
        ItemStanding {
            item: item.key.clone(),
            state: item.state,
            checks: checks(&own, plan.purpose, policy),
            placed: now.then(|| placed(&item.key, timed, policy)).flatten(),
        }
    };
    plan.items.iter().map(of).collect()
}

/// The checks from those readings of one setting that count.
fn checks(own: &[&ReadingStanding], plan: Purpose, policy: &Policy) -> BTreeMap<Stage, Check> {
    let stages = [Stage::Bench, Stage::SterileField, Stage::AfterUse];
    let mut checks: BTreeMap<Stage, Check> = stages
        .into_iter()
        .map(|stage| (stage, check(own, stage, plan)))
        .collect();
    let bench = checks.get(&Stage::Bench).cloned();
    let sterile = checks.get_mut(&Stage::SterileField);
    if let (Some(bench), Some(sterile)) = (bench, sterile)
        && sterile.first.is_none()
        && sterile.second.is_none()
    {
        if let Some(name) = &policy.bench_after_sterilisation {
            *sterile = bench;
            sterile.by_policy = Some(name.clone());
        } else if bench.is_verified() || bench.is_practised() {
            sterile.objections.push(Objection::BenchOnly);
        }
    }
    checks
}

fn check(own: &[&ReadingStanding], stage: Stage, plan: Purpose) -> Check {
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
    if let (Some(first), Some(second)) = (first, second)
        && first.who.may_be_same(&second.who)
    {
        let who = second.who.clone();
        objections.push(Objection::SamePerson { who });
    }
    let id = |r: Option<&ReadingStanding>| r.map(|r| r.id.clone());
    let (first, second) = (id(first), id(second));
    for other in own {
        let here = [&first, &second].contains(&&Some(other.id.clone()));
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
        first,
        second,
        by_policy: None,
        objections,
    }
}

/// The objections to one reading.
fn objections_to(reading: &ReadingStanding) -> Vec<Objection> {
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
fn placed(key: &ItemKey, timed: &[TimedEvent<'_>], policy: &Policy) -> Option<String> {
    let (this, slot) = timed.iter().rev().find_map(|this| match &this.event.kind {
        EventKind::Placed { item, slot } if item == key => Some((this, slot)),
        _ => None,
    })?;
    let fell_since = timed.iter().any(|other| {
        matches!(&other.event.kind, EventKind::Dropped { piece: Piece::Drill(drill) } if key.is_drill(drill))
            && !other.clearly_before(this, policy)
    });
    (!fell_since).then(|| slot.clone())
}

/// The slot that each thing without a setting was last put into, unless it was taken off since.
pub(super) fn thing_slots(timed: &[TimedEvent<'_>]) -> BTreeMap<ThingKey, String> {
    let mut thing_slots = BTreeMap::new();
    for this in timed {
        match &this.event.kind {
            EventKind::ThingPlaced {
                thing,
                slot: Some(slot),
            } => {
                thing_slots.insert(thing.clone(), slot.clone());
            }
            EventKind::ThingPlaced { thing, slot: None } => {
                thing_slots.remove(thing);
            }
            _ => {}
        }
    }
    thing_slots
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
            Self::OutOfTolerance { deviation, .. } => deviation.message(),
            Self::Mistyped { why, .. } => why.message(),
            Self::Contradicted { reading } => {
                Message::new("sign-check-contradicted", [("reading", reading)])
            }
            Self::GaugeNotChecked { gauge } => {
                Message::new("sign-check-gauge-not-checked", [("gauge", gauge)])
            }
            Self::GaugeCheckOld { gauge } => {
                Message::new("sign-check-gauge-check-old", [("gauge", gauge)])
            }
            Self::GaugeOff { gauge, off_mm } => {
                Message::new("sign-check-gauge-off", [("gauge", gauge), ("off", off_mm)])
            }
            Self::GaugeFell { gauge, .. } => {
                Message::new("sign-check-gauge-fell", [("gauge", gauge)])
            }
        }
    }
}
