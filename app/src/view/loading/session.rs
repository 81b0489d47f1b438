//! A loading session: what is done now, what comes next, and what is recorded of it.
//!
//! Pure: the state changes by [`Input`]s alone, and what is to be recorded comes back as [`Deed`]s.
//! Whether something counts is never kept here: the [`Board`] has it from the record, so a reading
//! that could not be written, or that lapsed, is simply not there.

use super::task::{Board, Key, Seal, Task, Turned, Verified, Work};
use super::typed::Typed;
use std::collections::{BTreeMap, BTreeSet};
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Piece, Reading, Stage, ThingKey, Turn, Who, gauge_off};

use traywright_core::sign::NameFault;

/// After so many refused second readings in a row the stop is to be set anew: nobody finds the
/// figure by trying.
pub const MOST_REFUSED: usize = 2;

/// A session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Session {
    /// Where it is.
    pub phase: Phase,
    /// The stage of its readings, chosen once.
    pub stage: Stage,
    /// Who sets and reads first.
    pub first: Option<Who>,
    /// Who read second last.
    pub second: Option<Who>,
    /// The thing in hand, by its place in the order of loading.
    pub at: usize,
    /// What is typed on the keypad.
    pub typed: Typed,
    /// Why the last input was not taken.
    pub refused: Option<Refused>,
    /// The length marked on the check piece, where the kit names none and it was typed.
    pub piece: Option<Length>,
    /// The next step of each thing that is in hand.
    hands: BTreeMap<Key, Step>,
    /// Things that were unsealed.
    opened: BTreeSet<ThingKey>,
    /// Initials are asked for although there are some.
    asking: Asking,
}

/// Where a session is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// The stage of its readings is chosen.
    Stage,
    /// The person who sets and reads is named.
    Person,
    /// The gauge is read on its check piece.
    Gauge,
    /// The tray is loaded.
    Load,
}

/// A step with one thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// It is taken.
    Take,
    /// Its stop is set.
    Set,
    /// The stop is locked.
    Lock,
    /// The stop is tugged at.
    Tug,
    /// It is read by who set it.
    Read,
    /// It is read by another person, without sight of any figure.
    ReadAgain,
    /// It is laid in its slot.
    Place,
}

/// What is to be done with a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Now {
    /// This step.
    Do(Step),
    /// Nothing: it lies where it belongs.
    Done,
    /// Nothing more: the tray has no slot for it.
    NoSlot,
    /// Nothing: it is not to be set.
    Blocked,
}

/// Whether initials are asked for anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Asking {
    Anew,
    No,
}

/// What a person does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Input {
    /// Chooses the stage of the readings.
    Stage(Stage),
    /// Types a digit.
    Digit(u8),
    /// Types the decimal mark.
    Mark,
    /// Takes the last sign away.
    Back,
    /// Accepts what is typed.
    Enter,
    /// Says that the step is done.
    Done,
    /// Looks at the thing before.
    Previous,
    /// Looks at the next thing.
    Next,
    /// Looks at this thing.
    Go(usize),
    /// Gives initials.
    Initials(String),
    /// Wants to give other initials.
    OtherPerson,
    /// Says that the stop was moved, or is to be set anew.
    Reset,
    /// Says that the thing in hand fell.
    Fell,
    /// Says that the gauge fell, or is to be checked again.
    Gauge(GaugeFell),
    /// Unseals the thing in hand.
    Open,
}

/// Why a gauge is checked again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GaugeFell {
    /// It fell.
    Yes,
    /// To be sure.
    No,
}

/// Something to be recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Deed {
    /// By whom.
    pub who: Who,
    /// What.
    pub kind: EventKind,
}

/// Why an input was not taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refused {
    /// What is typed is no length.
    NoLength,
    /// It is no name and no initials.
    Name(NameFault),
    /// The second reading may be by the same person as the first.
    SamePerson(Who),
    /// The gauge does not show its check piece right: by so much too much.
    GaugeOff(Length),
}

impl Default for Session {
    fn default() -> Self {
        Self {
            phase: Phase::Stage,
            stage: Stage::Bench,
            first: None,
            second: None,
            at: 0,
            typed: Typed::default(),
            refused: None,
            piece: None,
            hands: BTreeMap::new(),
            opened: BTreeSet::new(),
            asking: Asking::No,
        }
    }
}

impl Session {
    /// The thing in hand.
    #[must_use]
    pub fn task<'a>(&self, board: &'a Board) -> Option<&'a Task> {
        board.tasks.get(self.at)
    }

    /// What is to be done with a thing.
    #[must_use]
    pub fn now(&self, task: &Task) -> Now {
        let in_hand = self.hands.get(&task.key()).copied();
        let way: &[Step] = self.way(task);
        if way.is_empty() {
            return Now::Blocked;
        }
        let place = if in_hand.is_none() && task.lies_right() {
            Now::Done
        } else if task.slot.is_none() {
            Now::NoSlot
        } else {
            Now::Do(Step::Place)
        };
        if !way.contains(&Step::Read) {
            return match in_hand {
                Some(Step::Place) => place,
                Some(step) => Now::Do(step),
                None if task.lies_right() => Now::Done,
                None => Now::Do(Step::Take),
            };
        }
        match (task.record.verified, &task.record.first) {
            (Verified::Yes, _) => place,
            (Verified::No, Turned::Stands { .. }) => Now::Do(Step::ReadAgain),
            (Verified::No, _) => Now::Do(in_hand.unwrap_or(Step::Take).min(Step::Read)),
        }
    }

    /// The steps that a thing takes, in order; none where it is not to be set.
    #[must_use]
    pub fn way(&self, task: &Task) -> &'static [Step] {
        use Step::{Lock, Place, Read, ReadAgain, Set, Take, Tug};
        if self.is_sealed(task) {
            return &[Take, Place];
        }
        match task.work {
            Work::SetAndRead => &[Take, Set, Lock, Tug, Read, ReadAgain, Place],
            Work::SetOnly => &[Take, Set, Lock, Tug, Place],
            Work::Lay => &[Take, Place],
            Work::Blocked(_) => &[],
        }
    }

    /// Whether a thing stays in its wrapping for now.
    #[must_use]
    pub fn is_sealed(&self, task: &Task) -> bool {
        let unsealed = self.opened.contains(&task.thing) || task.was_read();
        task.seal == Seal::UntilCalledFor && !unsealed
    }

    /// The turn whose initials are asked for now; nothing where they are known.
    #[must_use]
    pub fn asks_for(&self, board: &Board) -> Option<Turn> {
        let turn = match (self.phase, self.step(board)) {
            (Phase::Person, _) => return Some(Turn::First),
            (Phase::Load, Some(Step::ReadAgain)) => Turn::Second,
            (Phase::Load, Some(Step::Read)) => Turn::First,
            _ => return None,
        };
        (self.asking == Asking::Anew || self.reader(board, turn).is_none()).then_some(turn)
    }

    /// Who reads now, where that is settled: for the second turn nobody who may have read first.
    #[must_use]
    pub fn reader(&self, board: &Board, turn: Turn) -> Option<&Who> {
        match turn {
            Turn::First => self.first.as_ref(),
            Turn::Second => {
                let read_first = self.task(board).and_then(first_reader);
                let other = |who: &&Who| read_first.is_none_or(|first| !first.may_be_same(who));
                self.second.as_ref().filter(other)
            }
        }
    }

    /// The step in hand while the tray is loaded.
    #[must_use]
    pub fn step(&self, board: &Board) -> Option<Step> {
        let task = self.task(board).filter(|_| self.phase == Phase::Load)?;
        match self.now(task) {
            Now::Do(step) => Some(step),
            _ => None,
        }
    }

    /// Whether no figure may stand anywhere: a second reading is taken, or about to be.
    #[must_use]
    pub fn is_blind(&self, board: &Board) -> bool {
        self.step(board) == Some(Step::ReadAgain)
    }

    /// Whether a refused reading leaves no other way than to set the stop anew.
    #[must_use]
    pub fn must_set_anew(&self, board: &Board) -> bool {
        let second = self.task(board).map(|task| &task.record.second);
        let often = match second {
            Some(Turned::Refused { times, .. }) => *times >= MOST_REFUSED,
            // Both readings stand and yet something speaks against them: an older one.
            Some(Turned::Stands { who }) => self.contradicted(board, who),
            _ => false,
        };
        often && self.is_blind(board)
    }

    fn contradicted(&self, board: &Board, second: &Who) -> bool {
        let first = self.task(board).and_then(first_reader);
        first.is_some_and(|first| !first.may_be_same(second))
    }

    /// How many things lie where they belong, and how many there are.
    #[must_use]
    pub fn progress(&self, board: &Board) -> (usize, usize) {
        let done = |task: &&Task| self.now(task) == Now::Done;
        (board.tasks.iter().filter(done).count(), board.tasks.len())
    }

    /// Forgets what was in hand of things that the plan no longer has, and gives them back.
    pub fn keep_only(&mut self, board: &Board) -> Vec<Key> {
        let keys = board.keys();
        let gone: Vec<Key> = self
            .hands
            .keys()
            .filter(|k| !keys.contains(k))
            .cloned()
            .collect();
        self.hands.retain(|key, _| keys.contains(key));
        self.at = self.at.min(board.tasks.len().saturating_sub(1));
        self.typed.clear();
        self.refused = None;
        gone
    }

    /// What is in hand and set, but not read yet.
    pub fn in_hand(&self) -> impl Iterator<Item = &Key> {
        let set = |(_, step): &(&Key, &Step)| **step > Step::Set;
        self.hands.iter().filter(set).map(|(key, _)| key)
    }

    /// Takes an input; what is to be recorded of it.
    pub fn take(&mut self, input: Input, board: &Board) -> Vec<Deed> {
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
            Input::Reset => self.reset(board),
            Input::Fell => self.fell(board),
            Input::Gauge(fell) => self.gauge(fell, board),
            Input::Open => self.open(board),
        }
    }

    /// Whether a figure is asked for now.
    #[must_use]
    pub fn reads(&self, board: &Board) -> bool {
        match self.phase {
            Phase::Gauge => board.gauge.is_some(),
            Phase::Load => {
                let step = self.step(board);
                let reading = matches!(step, Some(Step::Read | Step::ReadAgain));
                reading && self.asks_for(board).is_none() && !self.must_set_anew(board)
            }
            _ => false,
        }
    }

    fn typing(&mut self, board: &Board, change: impl FnOnce(&mut Typed)) -> Vec<Deed> {
        if self.reads(board) {
            change(&mut self.typed);
        }
        Vec::new()
    }

    fn go(&mut self, board: &Board, to: Option<usize>) -> Vec<Deed> {
        if let Some(to) = to.filter(|to| *to < board.tasks.len()) {
            self.at = to;
            self.typed.clear();
            self.asking = Asking::No;
        }
        Vec::new()
    }

    fn initials(&mut self, text: &str, board: &Board) -> Vec<Deed> {
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

    fn enter(&mut self, board: &Board) -> Vec<Deed> {
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

    fn gauge_read(&mut self, value: Length, board: &Board) -> Vec<Deed> {
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
        vec![Deed {
            who,
            kind: EventKind::GaugeChecked {
                gauge: gauge.id.clone(),
                piece_mm: piece,
                value_mm: value,
            },
        }]
    }

    fn read(&mut self, value: Length, board: &Board) -> Vec<Deed> {
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
        vec![Deed { who, kind }]
    }

    fn done(&mut self, board: &Board) -> Vec<Deed> {
        let Some(task) = self.task(board).filter(|_| self.phase == Phase::Load) else {
            return Vec::new();
        };
        let step = match self.now(task) {
            Now::Do(step) => step,
            Now::Done | Now::NoSlot | Now::Blocked => {
                return self.go(board, self.next_open(board));
            }
        };
        match step {
            Step::Read | Step::ReadAgain => Vec::new(),
            Step::Place => self.place(board),
            _ => {
                let way = self.way(task);
                let next = way.iter().find(|later| **later > step);
                self.hands
                    .insert(task.key(), next.copied().unwrap_or(Step::Place));
                Vec::new()
            }
        }
    }

    fn place(&mut self, board: &Board) -> Vec<Deed> {
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
            _ => EventKind::Laid {
                thing: task.thing.clone(),
                slot: Some(slot),
            },
        };
        self.hands.remove(&task.key());
        if let Some(next) = self.next_open(board) {
            self.at = next;
        }
        vec![Deed { who, kind }]
    }

    /// The things that something is to be done with, from one on.
    fn open_from(&self, board: &Board, start: usize) -> impl Iterator<Item = usize> {
        let open = |task: &&Task| matches!(self.now(task), Now::Do(_));
        let found = board.tasks.iter().skip(start).filter(open);
        found.map(|task| task.index)
    }

    /// The next other thing that something is to be done with, after the last again the first.
    fn next_open(&self, board: &Board) -> Option<usize> {
        let mut ahead = self
            .open_from(board, self.at + 1)
            .chain(self.open_from(board, 0));
        ahead.find(|index| *index != self.at)
    }

    fn reset(&mut self, board: &Board) -> Vec<Deed> {
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
        vec![Deed {
            who,
            kind: EventKind::Reset { drill },
        }]
    }

    /// Whether a stop sits on it that could have been moved.
    #[must_use]
    pub fn can_reset(&self, task: &Task) -> bool {
        let set = self
            .hands
            .get(&task.key())
            .is_some_and(|step| *step > Step::Set);
        let was_set = set || task.was_read() || task.record.lies.is_some();
        self.way(task).contains(&Step::Set) && was_set
    }

    fn fell(&mut self, board: &Board) -> Vec<Deed> {
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
        deeds(&who, kinds)
    }

    fn gauge(&mut self, fell: GaugeFell, board: &Board) -> Vec<Deed> {
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
        deeds(&who, fall)
    }

    fn open(&mut self, board: &Board) -> Vec<Deed> {
        let (Some(task), Some(who)) = (self.task(board), self.first.clone()) else {
            return Vec::new();
        };
        // An implant is opened when it is turned in, not here.
        if self.phase != Phase::Load || !self.is_sealed(task) || task.planned.is_none() {
            return Vec::new();
        }
        self.opened.insert(task.thing.clone());
        self.hands.remove(&task.key());
        deeds(&who, off_the_tray(task))
    }
}

/// Who took the first reading of a thing that stands.
fn first_reader(task: &Task) -> Option<&Who> {
    match &task.record.first {
        Turned::Stands { who } => Some(who),
        _ => None,
    }
}

/// That a thing which was laid without being set is off the tray.
fn off_the_tray(task: &Task) -> Option<EventKind> {
    task.record.lies.as_ref()?;
    Some(EventKind::Laid {
        thing: task.thing.clone(),
        slot: None,
    })
}

fn deeds(who: &Who, kinds: impl IntoIterator<Item = EventKind>) -> Vec<Deed> {
    let deed = |kind| Deed {
        who: who.clone(),
        kind,
    };
    kinds.into_iter().map(deed).collect()
}
