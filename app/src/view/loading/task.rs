//! The task with each thing on the tray, and its progress by the record.

use super::changed::Wrong;
use super::falls::{last_fall, mark_used_spares, mark_what_lacks};
use super::lying::{Found, compare, in_order};
pub use super::recorded::{Otherwise, ReadingState, Recorded, Verified, Worked};
use super::recorded::{events_of, laid_otherwise, of_setting, of_thing};
use std::collections::BTreeSet;
use std::num::NonZeroU32;
use traywright_core::case::{Case, Team};
use traywright_core::kit::{
    Accessory, AccessoryKind, Coded, GaugeId, Kit, Label, SlotKind, StopId,
};
use traywright_core::measure::Length;
use traywright_core::plan::{
    Actionable, ActionableFigure, LoadItem, Worksheet, is_laid_unset, with_planned,
    with_planned_resets,
};
use traywright_core::sign::{
    AskedBack, Fall, HandStep, ItemKey, Merged, Names, PlanView, PlannedItem, Policy, Purpose,
    SettingState, Stage, Standing, ThingKey, Who, gauge_asked_back, gauge_contradicted,
    gauge_found_off,
};
use traywright_core::surgery::Day;

/// Everything there is to do, and what it is done with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Board {
    /// One thing after the other: what is needed to set and test a drill, what is set now, what is sealed and set when it
    /// is opened, everything else, each in the order of loading; then what is set anew in surgery.
    pub tasks: Vec<Task>,
    /// Things to take although no slot of the tray is for them.
    pub beside: Vec<Beside>,
    /// The gauge that the plan reads on; nothing where none is chosen.
    pub gauge: Option<GaugeFacts>,
    /// The gauge of the plan, where nobody knows what it adds and the record speaks against it.
    pub contradicted: Option<GaugeId>,
    /// The case's team.
    pub team: Vec<Who>,
    /// Everybody of the case: its team, and whom the record names.
    pub people: Vec<Who>,
    /// For a patient or for practice.
    pub purpose: Purpose,
    /// The stage whose readings it tells.
    pub stage: Stage,
    /// What lies on the tray, or is set, otherwise than the plan wants it, whenever that came about.
    pub lies_wrong: Vec<Wrong>,
    /// Everything of the kit that has a code.
    pub coded: Vec<Coded>,
}

/// Something beside the tray.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// The thing.
    pub what: String,
    /// By the record.
    pub seen: Seen,
    /// The time at which it is asked for.
    pub asked: AskedFor,
}

/// The time at which something beside the tray is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AskedFor {
    /// Before the first drill, which is dropped through it.
    First,
    /// Once the tray is loaded.
    Last,
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
    /// What it adds to the length that it measures.
    pub constant: Length,
    /// Least and greatest figure that it shows.
    pub range: (Length, Length),
    /// Figures of its check piece that were asked back since its last check.
    pub asked_back: Vec<AskedBack>,
    /// The excess that it showed at its last check, where that found it off.
    pub off: Option<Length>,
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
    /// The spares of it that the tray has, by their places in the order of loading.
    pub spares: Vec<usize>,
    /// It fell, and stock has no other.
    pub none_left: bool,
    /// The reason why it is not asked for, where nothing of it is in a hand.
    pub unasked: Option<Unasked>,
    /// The last report that it fell, where nobody took that back.
    pub fall: Option<Fall>,
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

/// The reason why a thing is not asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unasked {
    /// It is a spare, and took the place of what fell in the sterile field.
    TookAPlace,
    /// Every step of surgery that it is set for is over.
    StepsOver,
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
    /// It does not fit as it is used first: it is taken and laid, and set only in surgery, for a later step.
    LayUnset,
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
        let drills = &standing.drills;
        let task = |item: &LoadItem, planned: Option<&PlannedItem>, free: &ThingKey| {
            // Which piece carries the setting tells the record.
            let thing = planned.map_or_else(|| free.clone(), |on| thing_of_drill(&on.key));
            let record = match planned {
                Some(planned) => {
                    let (number, worked) = events_of(&planned.key.drill_key(), events);
                    Recorded {
                        set_otherwise: laid_otherwise(&planned.key, drills),
                        events: number,
                        worked,
                        ..of_setting(planned, &thing, (view, standing), stage)
                    }
                }
                None => of_thing(&thing, standing),
            };
            Task {
                index: 0,
                item: 0,
                turn: TaskTurn::Laid,
                planned: planned.cloned(),
                work: work(item, kit),
                seal: if item.unopened {
                    Seal::UntilCalledFor
                } else {
                    Seal::None
                },
                slot: item.slot.clone(),
                spares: spares(item, worksheet, kit),
                none_left: false,
                unasked: None,
                fall: last_fall(&thing, &standing.fallen).cloned(),
                record,
                thing,
            }
        };
        let mut tasks: Vec<Task> = Vec::new();
        let pieces = pieces(worksheet, view);
        for ((item, planned), piece) in with_planned(worksheet, view).zip(&pieces) {
            let laid = task(item, planned, piece);
            let work = if is_laid_unset(tasks.len(), worksheet, kit) {
                Work::LayUnset
            } else {
                laid.work
            };
            tasks.push(Task {
                item: tasks.len(),
                work,
                ..laid
            });
        }
        tasks.sort_by_key(|task| (turn(&worksheet.loading[task.item], kit), task.item));
        for (n, (reset, planned)) in with_planned_resets(worksheet, view).enumerate() {
            let earlier = worksheet.resets[..n].iter();
            let before = earlier.filter(|one| one.item == reset.item).count();
            tasks.push(Task {
                item: reset.item,
                turn: TaskTurn::Anew { reset: n, before },
                // Its wrapping was opened for the first setting.
                seal: Seal::None,
                ..task(&reset.to, planned, &pieces[reset.item])
            });
        }
        for (index, task) in tasks.iter_mut().enumerate() {
            task.index = index;
        }
        mark_what_lacks(&mut tasks, worksheet, &standing.fallen);
        if stage == Stage::SterileField {
            mark_used_spares(&mut tasks, &standing.fallen);
        }
        let gauge = gauge.map(|gauge| GaugeFacts {
            asked_back: gauge_asked_back(events, view, &gauge.id),
            off: kit
                .gauge(&gauge.id.as_str().into())
                .and_then(|gauge| gauge_found_off(gauge, events, view.purpose)),
            ..gauge
        });
        let lies_wrong = compare(&tasks, (standing, drills), Found::new());
        let planned = view.items.first();
        let contradicted = planned
            .and_then(|item| kit.gauge(&item.gauge.as_str().into()))
            .filter(|gauge| gauge_contradicted(gauge, events))
            .map(|gauge| gauge.id.clone());
        Self {
            contradicted,
            tasks,
            lies_wrong: in_order(lies_wrong),
            beside: Vec::new(),
            gauge,
            team: Vec::new(),
            people: people(events),
            purpose: view.purpose,
            stage,
            coded: kit.coded(),
        }
    }

    /// The same with what is taken beside the tray. What was seen there in this session is there.
    #[must_use]
    pub fn with_beside(
        self,
        (guide, names): (&str, Vec<String>),
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
            let asked = if what == guide {
                AskedFor::First
            } else {
                AskedFor::Last
            };
            Beside { what, seen, asked }
        };
        let beside = names.into_iter().map(one).collect();
        Self { beside, ..self }
    }

    /// The same in surgery: what is set for steps alone that are over is not asked for.
    #[must_use]
    pub fn with_day(mut self, day: &Day<'_>) -> Self {
        if self.stage != Stage::SterileField || day.begun.is_none() {
            return self;
        }
        for task in self.tasks.iter_mut().filter(|task| task.unasked.is_none()) {
            let Some(planned) = &task.planned else {
                continue;
            };
            let of = day.steps.iter().filter(|step| {
                let cuts = step.key.is_in_bone();
                let with = step.drill().and_then(|drill| drill.planned);
                cuts && with.is_some_and(|with| with.key == planned.key)
            });
            let of: Vec<bool> = of.map(|step| step.state.is_over()).collect();
            if !of.is_empty() && of.into_iter().all(|over| over) {
                task.unasked = Some(Unasked::StepsOver);
            }
        }
        self
    }

    /// The same with the case's team.
    #[must_use]
    pub fn with_team(mut self, team: &Team) -> Self {
        let names = [&team.surgeon, &team.nurse, &team.second_checker];
        let names = names.into_iter().flatten();
        self.team = names
            .filter_map(|name| Who::new(name.as_str()).ok())
            .collect();
        let people = std::mem::take(&mut self.people).into_iter();
        self.people = each_once(self.team.iter().cloned().chain(people));
        self
    }

    /// True if two signatures may be one person's, by themselves or since both may be short for somebody of the case.
    #[must_use]
    pub fn may_be_same(&self, one: &Who, other: &Who) -> bool {
        self.names().may_be_same(one, other)
    }

    /// Everybody of the case, to hold signatures against.
    #[must_use]
    pub fn names(&self) -> Names<'_> {
        Names::of(&self.team, self.people.iter())
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

    /// The spare of a thing that lies on the tray, the first of them.
    #[must_use]
    pub fn spare_of(&self, task: &Task) -> Option<&Task> {
        let mut spares = task.spares.iter().flat_map(|item| self.of_item(*item));
        spares.find(|spare| spare.lies().is_some())
    }

    /// What has this code.
    #[must_use]
    pub fn of_code(&self, code: &str) -> Option<&Coded> {
        self.coded.iter().find(|one| one.code.is_typed_as(code))
    }

    /// The keys of all its tasks.
    #[must_use]
    pub fn keys(&self) -> BTreeSet<Key> {
        self.tasks.iter().map(Task::key).collect()
    }
}

impl Task {
    /// True if this is the thing, whichever piece of it.
    #[must_use]
    pub fn is_thing(&self, coded: &Coded) -> bool {
        self.thing.of == coded.kind && self.thing.entry == coded.entry
    }

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

    /// Its slot by the record, however it is set there.
    #[must_use]
    pub fn lies(&self) -> Option<&str> {
        let otherwise = self.record.set_otherwise.as_ref();
        let otherwise = otherwise.and_then(|otherwise| otherwise.slot.as_deref());
        otherwise.or(self.record.lies.as_deref())
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

    /// True if a hand has it, by the record, or it lies on the tray.
    pub(super) fn is_there(&self) -> bool {
        self.record.lies.is_some() || self.record.handling.is_some() || self.was_read()
    }

    /// True if a reading of it is recorded, so that it is no longer sealed.
    #[must_use]
    pub fn was_read(&self) -> bool {
        self.record.first != ReadingState::Open || self.record.second != ReadingState::Open
    }
}

/// True if a drill does not fit as it is set for this task.
pub(super) const fn does_not_fit(task: &Task) -> bool {
    matches!(task.work, Work::LayUnset | Work::Blocked(Block::DoesNotFit))
}

/// The turn of a thing in the order in which things are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum ToTake {
    /// A drill is locked with it, or dropped through it.
    ForDrills,
    /// It is set now.
    Set,
    /// It is a drill that stays sealed, and is set when it is opened.
    Sealed,
    /// Everything else.
    Rest,
}

/// The turn of a thing.
fn turn(item: &LoadItem, kit: &Kit) -> ToTake {
    let locks =
        |one: &&Accessory| one.kind == AccessoryKind::LockKey && one.id.as_str() == item.entry;
    let lock_key =
        item.kind == SlotKind::Accessory && kit.accessories.iter().any(|one| locks(&one));
    match item.kind {
        SlotKind::Sleeve => ToTake::ForDrills,
        _ if lock_key => ToTake::ForDrills,
        _ if item.set.is_none() => ToTake::Rest,
        _ if item.unopened => ToTake::Sealed,
        _ => ToTake::Set,
    }
}

/// The spares of a thing among what is loaded, by their places there.
fn spares(of: &LoadItem, worksheet: &Worksheet, kit: &Kit) -> Vec<usize> {
    let all = worksheet.loading.iter().enumerate();
    let spares = all.filter(|(_, one)| {
        one.kind == SlotKind::Accessory && kit.is_spare_of(&one.entry, of.name.as_str())
    });
    let drill = of.kind == SlotKind::Drill;
    spares.filter(|_| drill).map(|(item, _)| item).collect()
}

/// The thing that each entry of the loading list is: which piece carries a setting tells the record, and a drill without a
/// known setting is one of the pieces that are left.
fn pieces(worksheet: &Worksheet, view: &PlanView) -> Vec<ThingKey> {
    let planned = with_planned(worksheet, view).filter_map(|(_, planned)| planned);
    let mut taken: BTreeSet<ThingKey> = planned.map(|on| thing_of_drill(&on.key)).collect();
    let all = with_planned(worksheet, view);
    let piece = |(item, planned): (&LoadItem, Option<&PlannedItem>)| {
        if let Some(on) = planned {
            return thing_of_drill(&on.key);
        }
        let mut thing = thing_of(item);
        if item.kind == SlotKind::Drill {
            thing.copy = NonZeroU32::MIN;
            while !taken.insert(thing.clone()) {
                thing.copy = thing.copy.saturating_add(1);
            }
        }
        thing
    };
    all.map(piece).collect()
}

/// Everybody whom the record names.
fn people(events: &Merged) -> Vec<Who> {
    let events = events.in_order().into_iter();
    each_once(
        events
            .flat_map(traywright_core::sign::Event::people)
            .cloned(),
    )
}

fn each_once(people: impl Iterator<Item = Who>) -> Vec<Who> {
    let mut once = Vec::new();
    for who in people {
        if !once.contains(&who) {
            once.push(who);
        }
    }
    once
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

/// A drill as a thing, whatever it is set to.
#[must_use]
pub fn thing_of_drill(key: &ItemKey) -> ThingKey {
    ThingKey {
        of: SlotKind::Drill,
        entry: key.drill.clone(),
        copy: key.copy,
    }
}

/// The work with a thing as the plan wants it.
fn work(item: &LoadItem, kit: &Kit) -> Work {
    let Some(actionable) = Actionable::of_item(item) else {
        return Work::Lay;
    };
    let stop: Option<&StopId> = item.set.as_ref().and_then(|on| on.stop.as_ref());
    match actionable.figure(kit) {
        ActionableFigure::Nothing => Work::Blocked(Block::NoFigure),
        ActionableFigure::DoesNotFit => Work::Blocked(Block::DoesNotFit),
        ActionableFigure::NotOnGauge { .. } => Work::Blocked(Block::NoGaugeFigure),
        _ if actionable.is_read() => Work::SetAndRead,
        _ if stop.is_some() => Work::SetOnly,
        _ => Work::Lay,
    }
}

impl GaugeFacts {
    /// Of a case's gauge, without anything of the record; nothing where none is chosen, or nobody knows what it adds
    /// and so what it should show of its check piece.
    #[must_use]
    pub fn of(case: &Case) -> Option<Self> {
        let gauge = case.kit.gauge(case.setup.gauge.as_ref()?)?;
        let constant = gauge.constant_mm?;
        Some(Self {
            id: gauge.id.to_string(),
            graduation: gauge.graduation_mm,
            piece: gauge.check_piece_mm,
            constant,
            range: (gauge.from_mm, gauge.to_mm),
            asked_back: Vec::new(),
            off: None,
        })
    }
}
