//! The task with each thing on the tray, and its progress by the record.

use std::collections::BTreeSet;
use std::num::NonZeroU32;
use traywright_core::case::Case;
use traywright_core::kit::{Kit, Label, StopId};
use traywright_core::measure::Length;
use traywright_core::plan::{
    Actionable, ActionableFigure, Finding, LoadItem, Place, Severity, Subject, Worksheet,
    with_planned, with_planned_resets,
};
use traywright_core::sign::{
    Check, Event, EventKind, HandStep, Handling, ItemKey, Lapse, Merged, Mistyped, Objection,
    Piece, PlanView, PlannedItem, Policy, Purpose, ReadingStanding, ReadingVerdict, SettingState,
    Stage, Standing, ThingKey, Turn, Who,
};

/// Everything there is to do, and what it is done with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Board {
    /// One thing after the other, as the printed list has them: what is set now, what is sealed and
    /// set when it is opened, everything else, each in the order of loading; then what is set anew in
    /// surgery.
    pub tasks: Vec<Task>,
    /// Things to take although no slot of the tray is for them.
    pub beside: Vec<Beside>,
    /// The gauge that the plan reads on; nothing where none is chosen.
    pub gauge: Option<GaugeFacts>,
    /// For a patient or for practice.
    pub purpose: Purpose,
    /// The stage whose readings it tells.
    pub stage: Stage,
}

/// Something beside the tray.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// The thing.
    pub what: String,
    /// By the record.
    pub seen: Seen,
}

/// The presence of something beside the tray.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// Somebody said at this stage that it is there.
    There,
    /// Nobody did.
    NotYet,
}

/// The facts for the check of a gauge.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GaugeFacts {
    /// Its id in the kit.
    pub id: String,
    /// Its graduation.
    pub graduation: Length,
    /// The length of its check piece; nothing where the kit names none.
    pub piece: Option<Length>,
    /// Least and greatest figure that it shows.
    pub range: (Length, Length),
}

/// The identity of a thing across changes of the plan.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    /// A drill as it is set.
    Set(ItemKey),
    /// A drill as it is set anew in surgery, and how often it was before.
    Anew(ItemKey, usize),
    /// Anything else.
    Thing(ThingKey),
}

impl Key {
    /// The same, whether or not it is set anew in surgery.
    #[must_use]
    pub fn without_turn(&self) -> Self {
        match self {
            Self::Anew(key, _) => Self::Set(key.clone()),
            other => other.clone(),
        }
    }
}

/// One thing for the tray.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// Its place on the board, from 0.
    pub index: usize,
    /// Its place in the order of loading, from 0.
    pub item: usize,
    /// The setting that it is about: the one that it is laid with, or one that it is set anew to.
    pub turn: TaskTurn,
    /// The thing as it is laid, when it is laid without being set.
    pub thing: ThingKey,
    /// The drill as the plan sets it; nothing for what has no known setting.
    pub planned: Option<PlannedItem>,
    /// The work with it.
    pub work: Work,
    /// Sealed until it is called for.
    pub seal: Seal,
    /// The slot that it belongs in; nothing where the tray has none left.
    pub slot: Option<Label>,
    /// Its progress by the record.
    pub record: Recorded,
}

/// The one of a thing's settings that a task is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TaskTurn {
    /// The one that it is laid with.
    Laid,
    /// One that it is set anew to in surgery.
    Anew {
        /// Its place among what is set anew, from 0.
        reset: usize,
        /// Number of times that the thing was set anew before.
        before: usize,
    },
}

/// The work with a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Work {
    /// Its stop is set and read, and read again without sight of a figure.
    SetAndRead,
    /// Its stop is put on, but no gauge shows where it sits.
    SetOnly,
    /// It is taken and laid.
    Lay,
    /// It is not to be set.
    Blocked(Block),
}

/// The reason why a drill is not to be set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Block {
    /// No setting is known.
    NoFigure,
    /// Nobody knows what the gauge would show.
    NoGaugeFigure,
    /// Stop, drill or sleeve do not fit each other at this setting.
    DoesNotFit,
}

/// The wrapping of a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seal {
    /// Sealed until it is called for.
    UntilCalledFor,
    /// Not sealed.
    None,
}

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
    /// The slot of the drill as it was set before the plan changed, where it is in one, and that
    /// setting.
    pub set_otherwise: Option<(Option<String>, Length)>,
    /// The work of hands on its stop since it was set.
    pub handling: Option<Handling>,
    /// True if it was taken out of its wrapping.
    pub opened: bool,
    /// True if both readings on the bench count, whatever the stage is.
    pub on_bench: bool,
    /// The second reading on the bench, whatever the stage is.
    pub second_on_bench: ReadingState,
    /// True if a later check found the gauge off that one of its readings was taken on.
    pub in_doubt: bool,
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

impl Board {
    /// The tasks of a plan at a stage, by what counts now.
    #[must_use]
    pub fn of(
        worksheet: &Worksheet,
        kit: &Kit,
        (view, standing, events): (&PlanView, &Standing, &Merged),
        gauge: Option<GaugeFacts>,
        stage: Stage,
    ) -> Self {
        let task = |item: &LoadItem, planned: Option<&PlannedItem>| {
            let thing = thing_of(item);
            let record = match planned {
                Some(planned) => Recorded {
                    set_otherwise: set_otherwise(&planned.key, events),
                    ..of_setting(planned, &thing, (view, standing), stage)
                },
                None => of_thing(&thing, standing),
            };
            Task {
                index: 0,
                item: 0,
                turn: TaskTurn::Laid,
                thing,
                planned: planned.cloned(),
                work: work(item, worksheet, kit),
                seal: if item.unopened {
                    Seal::UntilCalledFor
                } else {
                    Seal::None
                },
                slot: item.slot.clone(),
                record,
            }
        };
        let mut tasks: Vec<Task> = Vec::new();
        for (item, planned) in with_planned(worksheet, view) {
            tasks.push(Task {
                item: tasks.len(),
                ..task(item, planned)
            });
        }
        let is_sealed = |task: &Task| task.seal == Seal::UntilCalledFor;
        let is_set = |task: &Task| worksheet.loading[task.item].set.is_some();
        tasks.sort_by_key(|task| (!is_set(task), is_sealed(task) && is_set(task), task.item));
        for (n, (reset, planned)) in with_planned_resets(worksheet, view).enumerate() {
            let earlier = worksheet.resets[..n].iter();
            let before = earlier.filter(|one| one.item == reset.item).count();
            tasks.push(Task {
                item: reset.item,
                turn: TaskTurn::Anew { reset: n, before },
                // Its wrapping was opened for the first setting.
                seal: Seal::None,
                ..task(&reset.to, planned)
            });
        }
        for (index, task) in tasks.iter_mut().enumerate() {
            task.index = index;
        }
        Self {
            tasks,
            beside: Vec::new(),
            gauge,
            purpose: view.purpose,
            stage,
        }
    }

    /// The same with what is taken beside the tray. What was seen there in this session is there.
    #[must_use]
    pub fn with_beside(
        self,
        names: Vec<String>,
        (standing, policy): (&Standing, &Policy),
        now: jiff::Timestamp,
    ) -> Self {
        let since = now.as_second().saturating_sub(policy.session_s);
        let one = |what: String| {
            let seen = standing.beside.get(&(self.stage, what.clone()));
            let seen = if seen.is_some_and(|at| at.as_second() >= since) {
                Seen::There
            } else {
                Seen::NotYet
            };
            Beside { what, seen }
        };
        let beside = names.into_iter().map(one).collect();
        Self { beside, ..self }
    }

    /// The tasks of one thing, one setting after the other.
    pub fn of_item(&self, item: usize) -> impl Iterator<Item = &Task> {
        self.tasks.iter().filter(move |task| task.item == item)
    }

    /// The task of one thing whose setting it is at now.
    #[must_use]
    pub fn stands_now(&self, item: usize) -> Option<&Task> {
        let mut turns = self.of_item(item);
        turns.find(|task| task.state() == SettingState::Now)
    }

    /// The keys of all its tasks.
    #[must_use]
    pub fn keys(&self) -> BTreeSet<Key> {
        self.tasks.iter().map(Task::key).collect()
    }
}

impl Task {
    /// The identity of the thing across changes of the plan.
    #[must_use]
    pub fn key(&self) -> Key {
        match (&self.planned, self.turn) {
            (Some(planned), TaskTurn::Anew { before, .. }) => {
                Key::Anew(planned.key.clone(), before)
            }
            (Some(planned), TaskTurn::Laid) => Key::Set(planned.key.clone()),
            (None, _) => Key::Thing(self.thing.clone()),
        }
    }

    /// The state of the thing at this setting now, by the record; what is not set is at it.
    #[must_use]
    pub fn state(&self) -> SettingState {
        let planned = self.planned.as_ref();
        planned.map_or(SettingState::Now, |planned| planned.state)
    }

    /// Its place among the settings of its thing, from 0.
    #[must_use]
    pub const fn place_of_turn(&self) -> usize {
        match self.turn {
            TaskTurn::Laid => 0,
            TaskTurn::Anew { before, .. } => before + 1,
        }
    }

    /// True if it is set anew in surgery.
    #[must_use]
    pub const fn is_anew(&self) -> bool {
        matches!(self.turn, TaskTurn::Anew { .. })
    }

    /// True if it is in the slot where it belongs.
    #[must_use]
    pub fn lies_right(&self) -> bool {
        let slot = self.slot.as_ref().map(Label::as_str);
        slot.is_some() && self.record.lies.as_deref() == slot
    }

    /// The last work of hands on its stop, where it was set.
    #[must_use]
    pub fn hand(&self) -> Option<HandStep> {
        self.record.handling.as_ref().map(|handling| handling.step)
    }

    /// True if its first reading counts and confirms the setting.
    #[must_use]
    pub fn is_read_first(&self) -> bool {
        matches!(self.record.first, ReadingState::Confirmed { .. })
    }

    /// True if a reading of it is recorded, so that it is no longer sealed.
    #[must_use]
    pub fn was_read(&self) -> bool {
        self.record.first != ReadingState::Open || self.record.second != ReadingState::Open
    }
}

/// The name by which a thing is laid.
#[must_use]
pub fn thing_of(item: &LoadItem) -> ThingKey {
    ThingKey {
        of: item.kind,
        entry: item.entry.clone(),
        copy: NonZeroU32::new(item.copy).unwrap_or(NonZeroU32::MIN),
    }
}

/// The finding of a misfit of a drill's stop and sleeves that is short and was not accepted: with
/// this setting it is not to be used.
#[must_use]
pub fn misfit<'a>(item: &LoadItem, worksheet: &'a Worksheet) -> Option<&'a Finding> {
    let set = item.set.as_ref()?;
    worksheet.findings.iter().find(|finding| {
        let here = match (&finding.site, &finding.step) {
            (Some(site), Some(step)) => item
                .serves
                .iter()
                .any(|one| (one.site.as_ref(), one.step.as_ref()) == (Some(site), Some(step))),
            (None, _) => {
                let mut pins = worksheet.pins.iter().enumerate();
                pins.any(|(n, pin)| {
                    let serves_pins = item.serves.iter().any(|one| one.site.is_none());
                    serves_pins && pin.drill == set.drill && finding.place == Place::Pin(n)
                })
            }
            _ => false,
        };
        here && finding.subject() == Subject::Instrument && finding.severity() == Severity::Short
    })
}

fn work(item: &LoadItem, worksheet: &Worksheet, kit: &Kit) -> Work {
    let Some(actionable) = Actionable::of_item(item) else {
        return Work::Lay;
    };
    if !matches!(actionable.figure(kit), ActionableFigure::Nothing)
        && misfit(item, worksheet).is_some()
    {
        return Work::Blocked(Block::DoesNotFit);
    }
    let stop: Option<&StopId> = item.set.as_ref().and_then(|on| on.stop.as_ref());
    match actionable.figure(kit) {
        ActionableFigure::Nothing => Work::Blocked(Block::NoFigure),
        ActionableFigure::NotOnGauge { .. } => Work::Blocked(Block::NoGaugeFigure),
        _ if actionable.is_read() => Work::SetAndRead,
        _ if stop.is_some() => Work::SetOnly,
        _ => Work::Lay,
    }
}

fn of_thing(thing: &ThingKey, standing: &Standing) -> Recorded {
    Recorded {
        first: ReadingState::Open,
        second: ReadingState::Open,
        verified: Verified::No,
        objections: Vec::new(),
        lies: standing.thing_slots.get(thing).cloned(),
        set_otherwise: None,
        handling: None,
        opened: standing.opened.contains(thing),
        on_bench: false,
        second_on_bench: ReadingState::Open,
        in_doubt: false,
    }
}

fn of_setting(
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
        second_on_bench: turned(Stage::Bench, Turn::Second),
        verified: if check.is_some_and(is_good) {
            Verified::Yes
        } else {
            Verified::No
        },
        objections: check.map_or_else(Vec::new, |check| check.objections.clone()),
        lies: placed.or_else(|| standing.thing_slots.get(thing).cloned()),
        set_otherwise: None,
        handling: item.and_then(|item| item.handling.clone()),
        opened: standing.opened.contains(thing),
        on_bench: bench.is_some_and(is_good),
        in_doubt: item.is_some_and(|item| {
            let mut all = item.checks.values().flat_map(|check| &check.objections);
            all.any(|one| matches!(one, Objection::GaugeFoundOff { .. }))
        }),
    }
}

/// The slot of the drill, where it is in one, and its setting, if it was last set or laid at another
/// than this.
fn set_otherwise(key: &ItemKey, events: &Merged) -> Option<(Option<String>, Length)> {
    let (was, slot) = laid_otherwise(key, events)?;
    Some((slot, was.setting_mm))
}

/// As what the drill was last set or laid, if at another setting than this, and where it lies.
pub(super) fn laid_otherwise(key: &ItemKey, events: &Merged) -> Option<(ItemKey, Option<String>)> {
    let drill = key.drill_key();
    let of_drill = |event: &&Event| match &event.kind {
        EventKind::Placed { item, .. }
        | EventKind::Handled {
            item,
            step: HandStep::Set,
            ..
        } => item.is_drill(&drill),
        EventKind::Dropped {
            piece: Piece::Drill(fallen),
        } => *fallen == drill,
        _ => false,
    };
    let last = events.in_order().into_iter().rev().find(of_drill)?;
    match &last.kind {
        EventKind::Placed { item, slot, .. } if item != key => {
            Some((item.clone(), Some(slot.clone())))
        }
        EventKind::Handled { item, .. } if item != key => Some((item.clone(), None)),
        _ => None,
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
                let mut mistyped = reading.verdict.iter().flat_map(|one| &one.mistyped);
                !mistyped.any(|why| {
                    matches!(
                        why,
                        Mistyped::OutsideGauge { .. } | Mistyped::OffGraduation { .. }
                    )
                })
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

impl GaugeFacts {
    /// Of a case's gauge, where one is chosen.
    #[must_use]
    pub fn of(case: &Case) -> Option<Self> {
        let gauge = case.kit.gauge(case.setup.gauge.as_ref()?)?;
        Some(Self {
            id: gauge.id.to_string(),
            graduation: gauge.graduation_mm,
            piece: gauge.check_piece_mm,
            range: (gauge.from_mm, gauge.to_mm),
        })
    }
}
