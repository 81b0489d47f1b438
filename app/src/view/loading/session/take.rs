//! The effect of an input on a session, and the record of it.

use super::{
    Asking, Effect, GaugeFell, Input, Now, Phase, Refused, Session, Step, first_reader, is_off,
};
use crate::view::loading::task::{Board, Key, Task};
use crate::view::loading::typed::Typed;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Piece, Reading, SettingState, Turn, Who, gauge_off};

impl Session {
    /// Takes an input; what is to be recorded of it.
    pub fn take(&mut self, input: Input, board: &Board) -> Vec<Effect> {
        self.refused = None;
        match input {
            Input::Stage(stage) => {
                if self.phase == Phase::Stage {
                    self.stage = stage;
                    self.phase = Phase::Person;
                }
                Vec::new()
            }
            Input::Digit(digit) => self.typing(board, |typed| typed.digit(digit)),
            Input::Mark => self.typing(board, Typed::mark),
            Input::Back => self.typing(board, Typed::back),
            Input::Enter => self.enter(board),
            Input::Done => self.done(board),
            Input::Previous => self.go(board, self.at.checked_sub(1)),
            Input::Next => self.go(board, self.at.checked_add(1)),
            Input::Go(index) => self.go(board, Some(index)),
            Input::Initials(text) => self.initials(&text, board),
            Input::OtherPerson => {
                self.asking = Asking::Anew;
                self.typed.clear();
                Vec::new()
            }
            Input::OtherStage => self.other_stage(),
            Input::Reset => self.reset(board),
            Input::Fell => self.fell(board),
            Input::Gauge(fell) => self.gauge(fell, board),
            Input::Open => self.open(board),
        }
    }

    /// Asks for the stage anew, and of everything in hand for its steps.
    fn other_stage(&mut self) -> Vec<Effect> {
        if matches!(self.phase, Phase::Gauge | Phase::Load) {
            self.phase = Phase::Stage;
            self.typed.clear();
            self.hands.clear();
            self.anew.clear();
            self.asking = Asking::No;
        }
        Vec::new()
    }

    fn typing(&mut self, board: &Board, change: impl FnOnce(&mut Typed)) -> Vec<Effect> {
        if self.reads(board) {
            change(&mut self.typed);
        }
        Vec::new()
    }

    fn go(&mut self, board: &Board, to: Option<usize>) -> Vec<Effect> {
        if let Some(to) = to.filter(|to| *to < board.tasks.len()) {
            self.at = to;
            self.typed.clear();
            self.asking = Asking::No;
        }
        Vec::new()
    }

    fn initials(&mut self, text: &str, board: &Board) -> Vec<Effect> {
        let Some(turn) = self.asks_for(board) else {
            return Vec::new();
        };
        let who = match Who::new(text) {
            Ok(who) => who,
            Err(fault) => {
                self.refused = Some(Refused::Name(fault));
                return Vec::new();
            }
        };
        match turn {
            Turn::First => self.first = Some(who),
            Turn::Second => {
                let read_first = self.task(board).and_then(first_reader);
                if read_first.is_some_and(|first| first.may_be_same(&who)) {
                    self.refused = Some(Refused::SamePerson(who));
                    return Vec::new();
                }
                let saw = self.task(board).map(|task| self.who_saw(task));
                if saw.is_some_and(|saw| saw.iter().any(|one| one.may_be_same(&who))) {
                    self.refused = Some(Refused::SetIt(who));
                    return Vec::new();
                }
                self.second = Some(who);
            }
        }
        self.asking = Asking::No;
        if self.phase == Phase::Person {
            self.begin(board);
        }
        Vec::new()
    }

    /// Opens with the gauge's check, or without one where there is nothing to check.
    fn begin(&mut self, board: &Board) {
        self.phase = if board.gauge.is_some() {
            Phase::Gauge
        } else {
            Phase::Load
        };
        let first = self.open_from(board, 0).next();
        self.at = first.unwrap_or(0);
    }

    fn enter(&mut self, board: &Board) -> Vec<Effect> {
        if !self.reads(board) {
            return Vec::new();
        }
        let Some(value) = self.typed.value() else {
            self.refused = Some(Refused::NoLength);
            return Vec::new();
        };
        self.typed.clear();
        match self.phase {
            Phase::Gauge => self.gauge_read(value, board),
            _ => self.read(value, board),
        }
    }

    fn gauge_read(&mut self, value: Length, board: &Board) -> Vec<Effect> {
        let (Some(gauge), Some(who)) = (&board.gauge, self.first.clone()) else {
            return Vec::new();
        };
        let Some(piece) = gauge.piece.or(self.piece) else {
            self.piece = Some(value);
            return Vec::new();
        };
        match gauge_off(piece, value, Some(gauge.graduation)) {
            None => self.phase = Phase::Load,
            Some(off) => self.refused = Some(Refused::GaugeOff(off)),
        }
        self.piece = None;
        vec![Effect {
            who,
            kind: EventKind::GaugeChecked {
                gauge: gauge.id.clone(),
                piece_mm: piece,
                value_mm: value,
            },
        }]
    }

    fn read(&mut self, value: Length, board: &Board) -> Vec<Effect> {
        let turn = match self.step(board) {
            Some(Step::Read) => Turn::First,
            Some(Step::ReadAgain) => Turn::Second,
            _ => return Vec::new(),
        };
        let Some(task) = self.task(board) else {
            return Vec::new();
        };
        let (Some(planned), Some(who)) = (&task.planned, self.reader(board, turn).cloned()) else {
            return Vec::new();
        };
        self.hands.insert(task.key(), Step::Read);
        let kind = EventKind::Reading(Reading {
            item: planned.key.clone(),
            gauge: planned.gauge.clone(),
            value_mm: value,
            stage: self.stage,
            turn,
            purpose: board.purpose,
        });
        vec![Effect { who, kind }]
    }

    fn done(&mut self, board: &Board) -> Vec<Effect> {
        let Some(task) = self.task(board).filter(|_| self.phase == Phase::Load) else {
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
            Step::Read | Step::ReadAgain => Vec::new(),
            Step::Place => self.place(board),
            _ => {
                let way = self.way(task);
                let next = way.iter().find(|later| **later > step);
                let (key, next) = (task.key(), next.copied().unwrap_or(Step::Place));
                // What was read of it where it sat wrong is none of where it is set now.
                let anew = step == Step::Set && is_off(&task.record.first);
                let effects = if anew { self.reset(board) } else { Vec::new() };
                self.is_set_by(&key, step);
                self.hands.insert(key, next);
                effects
            }
        }
    }

    /// Notes who has the stop in hand.
    fn is_set_by(&mut self, key: &Key, step: Step) {
        let Some(who) = self.first.clone() else {
            return;
        };
        match step {
            Step::Set => {
                self.set_by.insert(key.clone(), vec![who]);
            }
            Step::Lock | Step::Tug => {
                let all = self.set_by.entry(key.clone()).or_default();
                if !all.contains(&who) {
                    all.push(who);
                }
            }
            _ => {}
        }
    }

    /// Records that the thing asked for beside the tray is there.
    fn is_beside(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(one), Some(who)) = (self.beside(board), self.first.clone()) else {
            return Vec::new();
        };
        self.beside.insert(one.what.clone());
        let text = one.note.clone();
        effects(&who, [EventKind::Note { text }])
    }

    fn place(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        let Some(slot) = task.slot.as_ref().map(ToString::to_string) else {
            return Vec::new();
        };
        let kind = match &task.planned {
            Some(planned) if !self.is_sealed(task) => EventKind::Placed {
                item: planned.key.clone(),
                slot,
            },
            _ => EventKind::ThingPlaced {
                thing: task.thing.clone(),
                slot: Some(slot),
            },
        };
        self.hands.remove(&task.key());
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
        self.typed.clear();
        self.asking = Asking::No;
        self.hands.insert(task.key(), Step::Set);
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
            kind: EventKind::Reset { drill, to },
        }]
    }

    fn fell(&mut self, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        if self.phase != Phase::Load {
            return Vec::new();
        }
        self.typed.clear();
        self.hands.remove(&task.key());
        let piece = match &task.planned {
            Some(planned) => Piece::Drill(planned.key.drill_key()),
            None => Piece::Other(task.thing.entry.clone()),
        };
        let mut kinds = vec![EventKind::Dropped { piece }];
        kinds.extend(off_the_tray(task));
        effects(&who, kinds)
    }

    fn gauge(&mut self, fell: GaugeFell, board: &Board) -> Vec<Effect> {
        let (Some(gauge), Some(who)) = (&board.gauge, self.first.clone()) else {
            return Vec::new();
        };
        if self.phase != Phase::Load {
            return Vec::new();
        }
        self.typed.clear();
        self.phase = Phase::Gauge;
        let piece = Piece::Gauge(gauge.id.clone());
        let fall = (fell == GaugeFell::Yes).then_some(EventKind::Dropped { piece });
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
            self.hands.remove(&task.key());
            return effects(&who, [EventKind::Reset { drill, to }]);
        }
        // An implant is opened when it is turned in, not here.
        if self.phase != Phase::Load || !self.is_sealed(task) || task.planned.is_none() {
            return Vec::new();
        }
        self.opened.insert(task.thing.clone());
        self.hands.remove(&task.key());
        effects(&who, off_the_tray(task))
    }
}

/// A task's place among the settings of its drill, as it is recorded.
fn turn_of(task: &Task) -> Option<u32> {
    u32::try_from(task.place_of_turn()).ok()
}

/// That a thing which was laid without being set is off the tray.
fn off_the_tray(task: &Task) -> Option<EventKind> {
    task.record.lies.as_ref()?;
    Some(EventKind::ThingPlaced {
        thing: task.thing.clone(),
        slot: None,
    })
}

fn effects(who: &Who, kinds: impl IntoIterator<Item = EventKind>) -> Vec<Effect> {
    let effect = |kind| Effect {
        who: who.clone(),
        kind,
    };
    kinds.into_iter().map(effect).collect()
}
