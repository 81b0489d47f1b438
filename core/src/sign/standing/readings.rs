//! Readings that still tell how a drill is set.

use super::day::ends_sitting_of;
use super::items::{Objection, objections_to};
use super::judge::{ReadingVerdict, judge};
use super::plan::{PlanView, PlannedItem, Policy, SettingState};
use super::told::is_told;
use super::void::{Void, VoidOf};
use super::{Purposes, gauge, is_practice, seen};
use crate::measure::Length;
use crate::sign::Names;
use crate::sign::event::{DrillKey, EventId, EventKind, ItemKey, Piece, Purpose, Reading, Turn};
use crate::sign::heads::TimedEvent;
use crate::sign::{Argument, Message, Who};

/// A reading and what speaks against it now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadingStanding {
    /// The event.
    pub id: EventId,
    /// The time of the reading.
    pub at: jiff::Timestamp,
    /// The person who took it.
    pub who: Who,
    /// The reading.
    pub reading: Reading,
    /// The reasons why it does not count any more; empty when it does.
    pub lapses: Vec<Lapse>,
    /// Against the plan's figure; none when the plan has no such setting.
    pub verdict: Option<ReadingVerdict>,
    /// The objection to the gauge that it was read on; none when it was checked and sound.
    pub(super) gauge: Option<Objection>,
    /// The occasion on which its reader had seen a figure before, where it is to be read blind.
    pub(super) saw: Option<super::FiguresSeen>,
}

/// A reason why a reading does not count any more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Lapse {
    /// Nothing of the record counts.
    Void(Void),
    /// Taken to practise, or for a demonstration case.
    Practice,
    /// The plan does not use the drill.
    DrillNotInPlan {
        /// The kit's drill.
        drill: String,
    },
    /// The plan uses fewer drills of the kind.
    CopyNotInPlan {
        /// The physical drill.
        drill: DrillKey,
    },
    /// The plan puts another stop, or none, on the drill.
    StopChanged {
        /// The physical drill.
        drill: DrillKey,
    },
    /// The kit has another drill or stop under the same id, or it is not recorded which was read.
    InstrumentChanged {
        /// The physical drill.
        drill: DrillKey,
    },
    /// The plan sets the drill otherwise.
    SettingChanged {
        /// The physical drill.
        drill: DrillKey,
        /// The setting that was read.
        read_mm: Length,
        /// The setting of the plan; where a drill is set anew in surgery, the one that comes now.
        planned_mm: Length,
    },
    /// The plan reads the setting on another gauge.
    GaugeChanged {
        /// The gauge of the reading.
        read: String,
        /// The gauge of the plan.
        planned: String,
    },
    /// The stop was moved since.
    Reset {
        /// The event.
        by: EventId,
    },
    /// A STOP told somebody since to take it and set it anew.
    Told {
        /// The event.
        by: EventId,
    },
    /// The stop was set, locked or tugged at since.
    Handled {
        /// The event.
        by: EventId,
    },
    /// The drill was read at another stop or setting since, so the stop was moved.
    ReadOtherwise {
        /// The event.
        by: EventId,
    },
    /// The drill was read on another gauge since: it is as that showed, whatever gauge the plan reads on now.
    OtherGauge {
        /// The event.
        by: EventId,
    },
    /// The drill fell since.
    Dropped {
        /// The event.
        by: EventId,
    },
    /// A fall of the drill was taken back since, so that nobody knows which piece was read.
    FallTakenBack {
        /// The event.
        by: EventId,
    },
    /// Another sitting was begun since.
    AnotherSitting {
        /// The event.
        by: EventId,
    },
    /// The stop landed too often since.
    Landings {
        /// The number of landings.
        times: u64,
        /// The policy's limit.
        limit: u32,
    },
    /// A later reading of the same setting, stage and turn takes its place.
    Superseded {
        /// The event.
        by: EventId,
    },
}

impl ReadingStanding {
    /// True if it counts.
    #[must_use]
    pub fn counts(&self) -> bool {
        self.lapses.is_empty()
    }

    /// True if it counts, or would if the case were not for practice.
    #[must_use]
    pub fn counts_or_is_practised(&self, plan: Purpose) -> bool {
        match plan {
            Purpose::Patient => self.counts(),
            Purpose::Practice => self.lapses == [Lapse::Practice],
        }
    }

    /// True if it counts, or would if the case were not for practice, and confirms the setting on a
    /// gauge that was checked and sound.
    #[must_use]
    pub fn confirms(&self, plan: Purpose) -> bool {
        let verdict = self.verdict.as_ref().is_some_and(ReadingVerdict::confirms);
        self.counts_or_is_practised(plan) && verdict && self.gauge.is_none()
    }

    /// What keeps it from verifying its setting, by itself: its figure, its gauge, what its reader had seen.
    #[must_use]
    pub fn objections(&self) -> Vec<Objection> {
        let saw = self.saw.map(|sight| Objection::Saw {
            who: self.who.clone(),
            sight,
        });
        let of_figure = self.verdict.is_some().then(|| objections_to(self));
        of_figure.into_iter().flatten().chain(saw).collect()
    }

    /// True for a second reading of a figure that the gauge can show, and not the one that it should.
    fn refuses_blind(&self) -> bool {
        let refuses = |verdict: &ReadingVerdict| !verdict.confirms() && verdict.is_shown_by_gauge();
        self.reading.turn == Turn::Second && self.verdict.as_ref().is_some_and(refuses)
    }

    fn same_place(&self, other: &Self) -> bool {
        let (a, b) = (&self.reading, &other.reading);
        (&a.item, a.stage, a.turn) == (&b.item, b.stage, b.turn)
    }
}

pub(super) fn readings(
    (timed, void): (&[TimedEvent<'_>], &VoidOf<'_>),
    (live, purposes): (&[TimedEvent<'_>], &Purposes<'_>),
    (plan, names): (&PlanView, &Names<'_>),
    policy: &Policy,
) -> Vec<ReadingStanding> {
    let of = |this: &TimedEvent<'_>| {
        let EventKind::Reading(reading) = &this.event.kind else {
            return None;
        };
        let planned = planned(reading, plan);
        let item = planned.as_ref().ok().copied();
        let mut lapses: Vec<Lapse> = void(this).map(Lapse::Void).into_iter().collect();
        if is_practice(reading.purpose, plan.purpose) {
            lapses.push(Lapse::Practice);
        }
        lapses.extend(planned.err());
        lapses.extend(handled_since(this, reading, timed, plan, policy));
        Some(ReadingStanding {
            id: this.event.id(),
            at: this.event.at,
            who: this.event.who.clone(),
            reading: reading.clone(),
            lapses,
            verdict: item.map(|item| judge(reading.value_mm, item, &policy.tolerance)),
            gauge: item.and_then(|item| {
                gauge::objection(
                    &gauge::Moment::Of(this),
                    &reading.gauge,
                    item,
                    (live, purposes),
                    policy,
                )
            }),
            // Who saw a figure saw it, whatever became of the record of it.
            saw: seen::reader_saw(this, reading, (timed, names), policy),
        })
    };
    let mut readings: Vec<(&TimedEvent<'_>, ReadingStanding)> = timed
        .iter()
        .filter_map(|this| Some((this, of(this)?)))
        .collect();
    supersede(&mut readings, plan.purpose);
    readings.into_iter().map(|(_, reading)| reading).collect()
}

/// The plan's setting that a reading vouches for, or why there is none.
fn planned<'a>(reading: &Reading, plan: &'a PlanView) -> Result<&'a PlannedItem, Lapse> {
    let key = &reading.item;
    let drill = key.drill_key();
    // What was read of a setting that only comes later was read under another plan.
    let mut of_setting = plan.items.iter().filter(|item| item.key == *key);
    if let Some(item) = of_setting.find(|item| item.state != SettingState::Later) {
        return if item.gauge == reading.gauge {
            Ok(item)
        } else {
            Err(Lapse::GaugeChanged {
                read: reading.gauge.clone(),
                planned: item.gauge.clone(),
            })
        };
    }
    if !plan.items.iter().any(|item| item.key.drill == key.drill) {
        let drill = key.drill.clone();
        return Err(Lapse::DrillNotInPlan { drill });
    }
    let of_drill = || plan.items.iter().filter(|item| item.key.is_drill(&drill));
    if of_drill().next().is_none() {
        return Err(Lapse::CopyNotInPlan { drill });
    }
    let now = of_drill().filter(|item| item.state == SettingState::Now);
    let same_set = |item: &&PlannedItem| item.key.is_set_as(key);
    if now.clone().any(|item| same_set(&item)) {
        return Err(Lapse::InstrumentChanged { drill });
    }
    let same_stop = now.filter(|item| item.key.stop == key.stop);
    match same_stop.map(|item| item.key.setting_mm).min() {
        Some(planned_mm) => Err(Lapse::SettingChanged {
            drill,
            read_mm: key.setting_mm,
            planned_mm,
        }),
        None => Err(Lapse::StopChanged { drill }),
    }
}

/// Everything that happened to the drill since the reading, the first of each sort. What is not clearly
/// before the reading counts as after it.
fn handled_since(
    this: &TimedEvent<'_>,
    reading: &Reading,
    timed: &[TimedEvent<'_>],
    plan: &PlanView,
    policy: &Policy,
) -> Vec<Lapse> {
    let key = &reading.item;
    let (mut reset, mut told, mut handled, mut otherwise) = (None, None, None, None);
    let mut other_gauge = None;
    let (mut dropped, mut taken_back, mut anew) = (None, None, None);
    let mut landed = 0_u64;
    for other in timed {
        if std::ptr::eq(other.event, this.event) || other.clearly_before(this) {
            continue;
        }
        let by = || other.event.id();
        match &other.event.kind {
            kind if kind.moved_stop_of(key) => {
                reset.get_or_insert_with(|| Lapse::Reset { by: by() });
            }
            kind if is_told(kind, &key.drill_key(), plan.purpose) => {
                told.get_or_insert_with(|| Lapse::Told { by: by() });
            }
            EventKind::Handled { item, .. } if key.is_drill(&item.drill_key()) => {
                handled.get_or_insert_with(|| Lapse::Handled { by: by() });
            }
            EventKind::Dropped {
                piece: Piece::Drill(drill),
                ..
            } if key.is_drill(drill) => {
                dropped.get_or_insert_with(|| Lapse::Dropped { by: by() });
            }
            EventKind::FallTakenBack {
                piece: Piece::Drill(drill),
                ..
            } if key.is_drill(drill) => {
                taken_back.get_or_insert_with(|| Lapse::FallTakenBack { by: by() });
            }
            _ if ends_sitting_of(other, this, timed) => {
                anew.get_or_insert_with(|| Lapse::AnotherSitting { by: by() });
            }
            EventKind::Landed {
                drill, times: n, ..
            } if key.is_drill(drill) => {
                landed = landed.saturating_add(u64::from(n.get()));
            }
            EventKind::Reading(later) if moves_stop(&reading.item, later, plan.purpose) => {
                otherwise.get_or_insert_with(|| Lapse::ReadOtherwise { by: by() });
            }
            // What is read aloud and misread takes nothing from what was read before.
            EventKind::Reading(later)
                if is_shown(later, plan.purpose)
                    && later.entered_by.is_none()
                    && (&later.item, later.gauge == reading.gauge) == (key, false) =>
            {
                other_gauge.get_or_insert_with(|| Lapse::OtherGauge { by: by() });
            }
            _ => {}
        }
    }
    let limit = policy.landings;
    let landings = (landed > 0 && landed >= u64::from(limit)).then_some(Lapse::Landings {
        times: landed,
        limit,
    });
    let read = [otherwise, other_gauge];
    let all = [reset, told, handled].into_iter().chain(read);
    all.chain([dropped, taken_back, anew, landings])
        .flatten()
        .collect()
}

/// True if a reading shows that the stop was moved since it was at this setting. What is practised in
/// a real case shows nothing.
pub(super) fn moves_stop(earlier: &ItemKey, later: &Reading, plan: Purpose) -> bool {
    is_shown(later, plan) && *earlier != later.item && earlier.is_drill(&later.item.drill_key())
}

fn is_shown(later: &Reading, plan: Purpose) -> bool {
    plan == Purpose::Practice || later.purpose == Purpose::Patient
}

/// Of several readings of one setting, stage and turn the last one counts. Where nobody knows which
/// was last, both do, so that neither hides the other. So do two people's second readings where the earlier one
/// speaks against the setting: it does until the stop is set anew.
fn supersede(readings: &mut [(&TimedEvent<'_>, ReadingStanding)], plan: Purpose) {
    for i in 0..readings.len() {
        let (until, later) = readings.split_at_mut(i + 1);
        let Some((when, this)) = until.last_mut() else {
            continue;
        };
        let by = later.iter().rfind(|(then, that)| {
            this.same_place(that)
                && that.counts_or_is_practised(plan)
                && when.clearly_before(then)
                && (!this.refuses_blind() || this.who.is_same(&that.who))
        });
        if let Some((_, by)) = by.filter(|_| this.counts_or_is_practised(plan)) {
            this.lapses.push(Lapse::Superseded { by: by.id.clone() });
        }
    }
}

impl Lapse {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Void(void) => void.message(),
            Self::Practice => Message::new("sign-reading-practice", []),
            Self::DrillNotInPlan { drill } => {
                Message::new("sign-reading-drill-not-in-plan", [("drill", drill)])
            }
            Self::CopyNotInPlan { drill } => Message::new(
                "sign-reading-copy-not-in-plan",
                [("drill", &drill.drill), ("copy", &drill.copy)],
            ),
            Self::StopChanged { drill } => Message::new(
                "sign-reading-stop-changed",
                [("drill", &drill.drill), ("copy", &drill.copy)],
            ),
            Self::InstrumentChanged { drill } => Message::new(
                "sign-reading-instrument-changed",
                [("drill", &drill.drill), ("copy", &drill.copy)],
            ),
            Self::SettingChanged {
                drill,
                read_mm,
                planned_mm,
            } => Message::new(
                "sign-reading-setting-changed",
                [
                    ("drill", &drill.drill),
                    ("copy", &drill.copy),
                    ("read", read_mm),
                    ("planned", planned_mm),
                ],
            ),
            Self::GaugeChanged { read, planned } => Message::new(
                "sign-reading-gauge-changed",
                [("read", read), ("planned", planned)],
            ),
            Self::Reset { by } => Message::new("sign-reading-reset", [("by", by)]),
            Self::Told { by } => Message::new("sign-reading-told", [("by", by)]),
            Self::Handled { by } => Message::new("sign-reading-handled", [("by", by)]),
            Self::ReadOtherwise { by } => Message::new("sign-reading-read-otherwise", [("by", by)]),
            Self::OtherGauge { by } => Message::new("sign-reading-other-gauge", [("by", by)]),
            Self::Dropped { by } => Message::new("sign-reading-dropped", [("by", by)]),
            Self::FallTakenBack { by } => {
                Message::new("sign-reading-fall-taken-back", [("by", by)])
            }
            Self::AnotherSitting { by } => {
                Message::new("sign-reading-another-sitting", [("by", by)])
            }
            Self::Landings { times, limit } => Message::new(
                "sign-reading-landings",
                [("times", &Argument::Count(*times)), ("limit", limit)],
            ),
            Self::Superseded { by } => Message::new("sign-reading-superseded", [("by", by)]),
        }
    }
}
