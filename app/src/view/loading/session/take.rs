//! The effect of an input on a session, and the record of it.

use super::{Asking, Effect, GaugeFell, Guide, Input, Now, Phase, Session, Step, Steps};
use crate::view::loading::entry::{About, Entered, GaugeShown};
use crate::view::loading::falls::effects_of;
use crate::view::loading::task::{Board, Key, Task, Work};
use crate::view::loading::typed::Typed;
use traywright_core::measure::Length;
use traywright_core::sign::{
    DrillKey, EventKind, HandStep, Pass, Piece, Purpose, Reading, SettingState, Stage, ThingKey,
    Turn, Who,
};

impl Session {
    /// Takes an input; what is to be recorded of it.
    pub fn take(&mut self, input: Input, board: &Board) -> Vec<Effect> {
        self.entry.refused = None;
        self.look(board);
        if self.entry.is_held_from(&input) {
            return Vec::new();
        }
        let acts = matches!(
            input,
            Input::Reset | Input::Fell | Input::DidNotFall | Input::Open
        );
        if acts && self.asks_first(board).is_some() {
            // The thing in hand is not on the screen.
            return Vec::new();
        }
        match input {
            Input::Begin(stage, Pass::Setting) => {
                if self.phase == Phase::Stage {
                    self.stage = stage;
                    self.phase = Phase::Person;
                }
                Vec::new()
            }
            // The other pass is none of this session.
            Input::Begin(_, Pass::Blind) | Input::End => Vec::new(),
            Input::Digit(digit) => self.typing(board, |typed| typed.digit(digit)),
            Input::Mark => self.typing(board, Typed::mark),
            Input::Sign(sign) => self.typing(board, |typed| typed.sign(sign)),
            Input::Back => self.typing(board, Typed::back),
            Input::Enter => self.enter(board),
            Input::Done => self.done(board),
            Input::Singly => self.singly(board),
            Input::Previous => self.go(board, self.at.checked_sub(1)),
            Input::Next => self.go(board, self.at.checked_add(1)),
            Input::Go(index) => self.go(board, Some(index)),
            Input::Initials(text) => self.initials(&text, board),
            Input::OtherPerson => {
                self.asking = Asking::Anew;
                self.entry.typed.clear();
                Vec::new()
            }
            Input::OtherStage => {
                self.to_the_start();
                Vec::new()
            }
            Input::Reset => self.reset(board),
            Input::Fell => self.fell(board),
            Input::DidNotFall => self.did_not_fall(board),
            Input::Gauge(fell) => self.gauge(fell, board),
            Input::Open => self.open(board),
        }
    }

    /// Looks at what is asked for now: a figure typed about anything else is cleared.
    pub fn look(&mut self, board: &Board) {
        let gauge = self.phase == Phase::Gauge;
        let reads = self.reads(board);
        let about = About::of(board, gauge, self.task(board)).filter(|_| reads);
        let form = self.entry.form(board, gauge, self.task(board));
        self.entry.asks(about, form);
    }

    /// Asks for the pass anew, and for everything in hand from its first step on that is not
    /// recorded.
    pub fn to_the_start(&mut self) {
        if self.phase == Phase::Person || matches!(self.phase, Phase::Gauge | Phase::Load) {
            self.phase = Phase::Stage;
            self.entry.typed.clear();
            self.taken.clear();
            self.anew.clear();
            self.off.clear();
            self.asking = Asking::No;
            self.sees = None;
            self.steps = Steps::Together;
            self.guide = Guide::Later;
            (self.for_step, self.suggested) = (None, None);
            (self.entry.other, self.entry.scanned) = (None, None);
        }
    }

    fn singly(&mut self, board: &Board) -> Vec<Effect> {
        if self.phase == Phase::Load {
            self.steps = match self.steps {
                Steps::Together => Steps::Singly,
                Steps::Singly => Steps::Together,
            };
            self.entry.typed.clear();
            self.look(board);
        }
        Vec::new()
    }

    /// A figure where one is asked for, and a code of the thing in hand also where none is.
    fn typing(&mut self, board: &Board, change: impl FnOnce(&mut Typed)) -> Vec<Effect> {
        let takes = self.phase == Phase::Load && !self.asks_who(board);
        if takes || self.reads(board) {
            change(&mut self.entry.typed);
        }
        Vec::new()
    }

    fn go(&mut self, board: &Board, to: Option<usize>) -> Vec<Effect> {
        if let Some(to) = to.filter(|to| *to < board.tasks.len()) {
            self.at = to;
            self.guide = Guide::Later;
            self.entry.typed.clear();
            self.asking = Asking::No;
        }
        Vec::new()
    }

    fn initials(&mut self, text: &str, board: &Board) -> Vec<Effect> {
        if !self.asks_who(board) {
            return Vec::new();
        }
        // Enter alone: who records in surgery, and is known there.
        let suggested = self.suggested.clone().filter(|_| text.trim().is_empty());
        let suggested = suggested.filter(|_| self.phase == Phase::Person);
        let Some(who) = suggested.or_else(|| self.entry.person(text, board)) else {
            return Vec::new();
        };
        self.suggested = None;
        self.first = Some(who.clone());
        self.asking = Asking::No;
        self.sees = None;
        if self.phase == Phase::Person {
            self.begin(board);
        }
        effects(&who, self.comes_to_figures())
    }

    /// What is recorded of a person who comes to the stops, once: from the next frame on their figures are shown. While
    /// the gauge is checked first none is.
    fn comes_to_figures(&mut self) -> Option<EventKind> {
        if self.phase != Phase::Load || self.sees == self.first {
            return None;
        }
        self.sees.clone_from(&self.first);
        let (stage, pass) = (self.stage, Pass::Setting);
        Some(EventKind::PassBegun { stage, pass })
    }

    /// Opens with the gauge's check, or without one where there is nothing to check or it was found
    /// sound in the sterile field before.
    fn begin(&mut self, board: &Board) {
        self.phase = if self.entry.is_to_check(board, self.stage) {
            Phase::Gauge
        } else {
            Phase::Load
        };
        let wanted = self.wanted.take();
        self.for_step.clone_from(&wanted);
        let wanted = wanted.and_then(|thing| self.wanted_first(&thing, board));
        let open = self.open_from(board, 0).next();
        // On the bench drills are dropped through it.
        self.guide = match (wanted, open, self.stage) {
            (None, Some(_), Stage::Bench) => Guide::First,
            _ => Guide::Later,
        };
        self.at = wanted.or(open).unwrap_or(0);
    }

    /// The task of a thing that comes next: the setting that it is set anew to, else the one that it is at, also where nothing is
    /// to be done with it but to open it.
    pub(super) fn wanted_first(&self, thing: &ThingKey, board: &Board) -> Option<usize> {
        let of = |task: &&Task| task.thing == *thing;
        let mut tasks = board.tasks.iter().filter(of);
        let open = tasks
            .clone()
            .find(|task| matches!(self.now(task), Now::Do(_)));
        let mut here = tasks.clone();
        let here = here.find(|task| task.state() == SettingState::Now);
        let later = tasks.find(|task| task.state() == SettingState::Later);
        open.or(later).or(here).map(|task| task.index)
    }

    /// Chooses to set and read in the sterile field, this thing first where there is one.
    pub fn begin_in_field(&mut self, first: Option<ThingKey>, who: Option<Who>) {
        self.to_the_start();
        self.stage = Stage::SterileField;
        self.phase = Phase::Person;
        self.wanted = first;
        self.suggested = who;
    }

    fn enter(&mut self, board: &Board) -> Vec<Effect> {
        let reads = self.reads(board);
        let codes = self.phase == Phase::Load && !self.asks_who(board);
        if !reads && (!codes || self.entry.typed.as_str().is_empty()) {
            return Vec::new();
        }
        let step = self.step(board);
        let in_hand = step.and_then(|_| self.task(board));
        match self.entry.entered(board, in_hand) {
            Entered::Figure(value) if reads && self.phase == Phase::Gauge => {
                self.gauge_read(value, board)
            }
            Entered::Figure(value) if reads => self.read(value, board),
            // It stands for taking the thing.
            Entered::RightCode if step == Some(Step::Take) => self.done(board),
            Entered::Figure(_) | Entered::RightCode | Entered::Nothing => Vec::new(),
        }
    }

    fn gauge_read(&mut self, value: Length, board: &Board) -> Vec<Effect> {
        let (Some(gauge), Some(who)) = (&board.gauge, self.first.clone()) else {
            return Vec::new();
        };
        match self
            .entry
            .gauge_shows(value, gauge, (self.stage, board.purpose))
        {
            GaugeShown::Sound(kind) => {
                self.phase = Phase::Load;
                effects(&who, std::iter::once(kind).chain(self.comes_to_figures()))
            }
            GaugeShown::NotSound(kind) => effects(&who, kind),
        }
    }

    fn read(&mut self, value: Length, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        let step = self.step(board).filter(|step| step.is_reading());
        let (Some(planned), Some(step)) = (task.planned.as_ref(), step) else {
            return Vec::new();
        };
        let read = EventKind::Reading(Reading {
            item: planned.key.clone(),
            gauge: planned.gauge.clone(),
            value_mm: value,
            stage: self.stage,
            turn: Turn::First,
            purpose: board.purpose,
            entered_by: None,
        });
        let hands = match step {
            Step::SetAndRead => all_handled(task, board.purpose),
            _ => Vec::new(),
        };
        effects(&who, hands.into_iter().chain([read]))
    }

    fn done(&mut self, board: &Board) -> Vec<Effect> {
        if !self.reads(board) {
            self.entry.typed.clear();
        }
        // Nothing is done before it is known by whom.
        let here = self.phase == Phase::Load && !self.asks_who(board);
        if here && self.asks_first(board).is_some() {
            return self.is_beside(board);
        }
        let Some(task) = self.task(board).filter(|_| here) else {
            return Vec::new();
        };
        let step = match self.now(task) {
            Now::Do(step) => step,
            now => {
                return match self.next_open(board) {
                    Some(next) => self.go(board, Some(next)),
                    None if matches!(now, Now::Later | Now::Passed) => self.go(board, Some(0)),
                    None => self.is_beside(board),
                };
            }
        };
        match step {
            Step::Read | Step::SetAndRead => Vec::new(),
            Step::Lay => {
                let sets = self.way(task).contains(&Step::Set);
                let hands = sets.then(|| all_handled(task, board.purpose));
                let who = self.first.iter();
                let hands = who.flat_map(|who| effects(who, hands.clone().into_iter().flatten()));
                let hands: Vec<Effect> = hands.collect();
                hands.into_iter().chain(self.place(board)).collect()
            }
            Step::Place => self.place(board),
            Step::Take if self.opens(task) => self.open(board),
            Step::Take => {
                let taken = off_the_tray(task, board.purpose).into_iter();
                let taken: Vec<EventKind> = taken.chain(set_anew(task, board.purpose)).collect();
                self.taken.insert(task.key());
                let who = self.first.iter();
                who.flat_map(|who| effects(who, taken.clone())).collect()
            }
            Step::Set => self.handle(board, HandStep::Set),
            Step::Lock => self.handle(board, HandStep::Locked),
            Step::Tug => self.handle(board, HandStep::Tugged),
        }
    }

    /// Records the work of the hand on the stop.
    fn handle(&mut self, board: &Board, step: HandStep) -> Vec<Effect> {
        let planned = self.task(board).and_then(|task| task.planned.as_ref());
        let (Some(planned), Some(who)) = (planned, self.first.clone()) else {
            return Vec::new();
        };
        let item = planned.key.clone();
        let purpose = board.purpose;
        let handled = EventKind::Handled {
            item,
            step,
            purpose,
        };
        effects(&who, [handled])
    }

    /// Records that the thing asked for beside the tray is there.
    fn is_beside(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(one), Some(who)) = (self.beside(board), self.first.clone()) else {
            return Vec::new();
        };
        let there = EventKind::Beside {
            what: one.what.clone(),
            stage: self.stage,
            purpose: board.purpose,
        };
        effects(&who, [there])
    }

    fn place(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        let Some(slot) = task.slot.as_ref().map(ToString::to_string) else {
            return Vec::new();
        };
        let purpose = Some(board.purpose);
        let kind = match &task.planned {
            Some(planned) if !task.is_sealed() && task.work != Work::LayUnset => {
                EventKind::Placed {
                    item: planned.key.clone(),
                    slot,
                    purpose,
                }
            }
            _ => EventKind::ThingPlaced {
                thing: task.thing.clone(),
                slot: Some(slot),
                purpose,
            },
        };
        self.taken.remove(&task.key());
        self.anew.remove(&task.key());
        if let Some(next) = self.next_open(board) {
            self.at = next;
        }
        vec![Effect { who, kind }]
    }

    fn reset(&mut self, board: &Board) -> Vec<Effect> {
        let Some(task) = self.task(board).filter(|_| self.phase == Phase::Load) else {
            return Vec::new();
        };
        let (Some(planned), Some(who)) = (&task.planned, self.first.clone()) else {
            return Vec::new();
        };
        if !self.can_reset(task) {
            return Vec::new();
        }
        self.entry.typed.clear();
        self.asking = Asking::No;
        self.taken.insert(task.key());
        let drill = planned.key.drill_key();
        let left = task.state() == SettingState::NoMore || self.gives_way(task);
        let goes_on = task.state() == SettingState::Later;
        let to = (left || goes_on).then(|| turn_of(task)).flatten();
        if left {
            // Back to a setting from before: what was to come after it comes again.
            self.anew
                .retain(|key| !matches!(key, Key::Anew(other, _) if other.is_drill(&drill)));
        }
        vec![Effect {
            who,
            kind: EventKind::Reset {
                drill,
                to,
                passed_over: None,
                purpose: Some(board.purpose),
            },
        }]
    }

    fn fell(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        // What is not there does not fall again.
        if self.phase != Phase::Load || self.now(task) == Now::NoneLeft {
            return Vec::new();
        }
        self.entry.typed.clear();
        self.taken.remove(&task.key());
        effects(&who, effects_of(task, board))
    }

    /// Takes the last report of a fall back; the thing is taken, and set and read anew.
    fn did_not_fall(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        let Some(fall) = task.fall.clone().filter(|_| self.phase == Phase::Load) else {
            return Vec::new();
        };
        self.entry.typed.clear();
        self.taken.remove(&task.key());
        let taken_back = EventKind::FallTakenBack {
            fall: fall.id,
            piece: fall.piece,
            purpose: board.purpose,
        };
        effects(&who, [taken_back])
    }

    fn gauge(&mut self, fell: GaugeFell, board: &Board) -> Vec<Effect> {
        let (Some(gauge), Some(who)) = (&board.gauge, self.first.clone()) else {
            return Vec::new();
        };
        if self.phase != Phase::Load {
            return Vec::new();
        }
        self.entry.typed.clear();
        self.phase = Phase::Gauge;
        self.entry.checked = None;
        let piece = Piece::Gauge(gauge.id.clone());
        let purpose = Some(board.purpose);
        let fall = (fell == GaugeFell::Yes).then_some(EventKind::Dropped { piece, purpose });
        effects(&who, fall)
    }

    fn open(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        if let (true, Some(planned)) = (self.may_set_anew(task, board), &task.planned) {
            // From now on it is set to nothing that was read.
            let (drill, to) = (planned.key.drill_key(), turn_of(task));
            self.anew.insert(task.key());
            self.taken.remove(&task.key());
            let over = self.passed_over_by(task, board);
            let passed_over = over.and_then(|over| Some(over.planned.as_ref()?.key.clone()));
            let reset = EventKind::Reset {
                drill,
                to,
                passed_over,
                purpose: Some(board.purpose),
            };
            return effects(&who, [reset]);
        }
        // An implant is opened when it is turned in, not here.
        if self.phase != Phase::Load || !task.is_sealed() || task.planned.is_none() {
            return Vec::new();
        }
        self.taken.remove(&task.key());
        let thing = task.thing.clone();
        let purpose = board.purpose;
        let opened = std::iter::once(EventKind::Opened { thing, purpose });
        effects(&who, opened.chain(off_the_tray(task, board.purpose)))
    }
}

/// All that hands do to a stop before it is read.
fn all_handled(task: &Task, purpose: Purpose) -> Vec<EventKind> {
    let planned = task.planned.iter();
    let handled = planned.flat_map(|planned| {
        let steps = [HandStep::Set, HandStep::Locked, HandStep::Tugged];
        steps.map(|step| EventKind::Handled {
            item: planned.key.clone(),
            step,
            purpose,
        })
    });
    handled.collect()
}

/// A task's place among the settings of its drill, as it is recorded.
fn turn_of(task: &Task) -> Option<u32> {
    u32::try_from(task.place_of_turn()).ok()
}

/// That the stop of a drill which is set otherwise is set anew, once it is in hand: whatever the plan does then,
/// nothing that was read of it before counts. None where it was told already.
fn set_anew(task: &Task, purpose: Purpose) -> Option<EventKind> {
    let was = task.record.set_otherwise.as_ref()?;
    was.item.stop.as_ref()?;
    (!was.begun).then(|| moved(was.item.drill_key(), purpose))
}

/// That the stop of a drill was moved or is set anew.
pub(in crate::view::loading) const fn moved(drill: DrillKey, purpose: Purpose) -> EventKind {
    EventKind::Reset {
        drill,
        to: None,
        passed_over: None,
        purpose: Some(purpose),
    }
}

/// That a thing which lies somewhere is off the tray.
pub(in crate::view::loading) fn off_the_tray(task: &Task, purpose: Purpose) -> Option<EventKind> {
    task.lies()?;
    Some(EventKind::ThingPlaced {
        thing: task.thing.clone(),
        slot: None,
        purpose: Some(purpose),
    })
}

pub(in crate::view::loading) fn effects(
    who: &Who,
    kinds: impl IntoIterator<Item = EventKind>,
) -> Vec<Effect> {
    let effect = |kind| Effect {
        who: who.clone(),
        kind,
    };
    kinds.into_iter().map(effect).collect()
}
