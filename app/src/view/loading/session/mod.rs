//! A loading session: what is done now, what comes next, and what is recorded of it.
//!
//! Pure: the state changes by [`Input`]s alone, and what is to be recorded comes back as [`Effect`]s.
//! Nothing that counts is kept here: the [`Board`] has it from the record, so a reading that could
//! not be written, or that lapsed, is simply not there. This file has the session and the questions
//! that can be put to it, `take` the effect of an input on it, `parts` the words for both.

mod parts;
mod take;

pub use parts::{Effect, GaugeFell, Input, Now, Phase, Refused, Step};

use super::task::{Beside, Board, Key, ReadingState, Seal, Task, TaskTurn, Verified, Work};
use super::typed::Typed;
use std::collections::{BTreeMap, BTreeSet};
use traywright_core::measure::Length;
use traywright_core::sign::{SettingState, Stage, ThingKey, Turn, Who};

/// After so many refused second readings in a row the stop is to be set anew: nobody finds the
/// figure by trying.
pub const MOST_REFUSED: usize = 2;

/// A session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Session {
    /// Its phase.
    pub phase: Phase,
    /// The stage of its readings, chosen once.
    pub stage: Stage,
    /// The person who sets and reads first.
    pub first: Option<Who>,
    /// The person who read second last.
    pub second: Option<Who>,
    /// The thing in hand, by its place in the order of loading.
    pub at: usize,
    /// The text typed on the keypad.
    pub typed: Typed,
    /// The reason why the last input was not taken.
    pub refused: Option<Refused>,
    /// The length marked on the check piece, where the kit names none and it was typed.
    pub piece: Option<Length>,
    /// The next step of each thing that is in hand.
    hands: BTreeMap<Key, Step>,
    /// The persons who set, locked and tugged each thing that is in hand.
    set_by: BTreeMap<Key, Vec<Who>>,
    /// Things that were unsealed.
    opened: BTreeSet<ThingKey>,
    /// Drills that are being set anew in surgery.
    anew: BTreeSet<Key>,
    /// Things beside the tray that were reported there.
    beside: BTreeSet<String>,
    /// Initials are asked for although there are some.
    asking: Asking,
}

/// The request for initials anew, or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Asking {
    Anew,
    No,
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
            set_by: BTreeMap::new(),
            opened: BTreeSet::new(),
            anew: BTreeSet::new(),
            beside: BTreeSet::new(),
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

    /// The state of a thing's task: the step that is due, or why there is none.
    #[must_use]
    pub fn now(&self, task: &Task) -> Now {
        let in_hand = self.hands.get(&task.key()).copied();
        let way: &[Step] = self.way(task);
        if way.is_empty() {
            return Now::Blocked;
        }
        match task.state() {
            SettingState::Later if !self.anew.contains(&task.key()) => return Now::Later,
            SettingState::Now if self.gives_way(task) => return Now::Passed,
            SettingState::NoMore if in_hand.is_none() => return Now::Passed,
            _ => {}
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
            (Verified::No, ReadingState::Confirmed { .. }) => Now::Do(Step::ReadAgain),
            // A stop that was read where it should not sit is set before it is read again.
            (Verified::No, first) if in_hand == Some(Step::Read) && is_off(first) => {
                Now::Do(Step::Set)
            }
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

    /// True if a thing stays in its wrapping for now.
    #[must_use]
    pub fn is_sealed(&self, task: &Task) -> bool {
        let unsealed = self.opened.contains(&task.thing) || task.was_read();
        task.seal == Seal::UntilCalledFor && !unsealed
    }

    /// True if a drill is just being set anew from this setting to a later one.
    fn gives_way(&self, task: &Task) -> bool {
        let Some(planned) = &task.planned else {
            return false;
        };
        let turn = task.place_of_turn();
        self.anew.iter().any(|key| match key {
            Key::Anew(other, before) => other.is_drill(&planned.key.drill_key()) && *before >= turn,
            _ => false,
        })
    }

    /// True if a drill may be set anew now: in the sterile field, where it is at the setting
    /// before, and something is known to set it to.
    #[must_use]
    pub fn may_set_anew(&self, task: &Task, board: &Board) -> bool {
        let TaskTurn::Anew { before, .. } = task.turn else {
            return false;
        };
        let mut turns = board.of_item(task.item);
        let stands = turns.nth(before).map(Task::state) == Some(SettingState::Now);
        let settable = !self.way(task).is_empty() && self.now(task) == Now::Later;
        let here = self.phase == Phase::Load && self.stage == Stage::SterileField;
        here && stands && settable
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

    /// The person who reads now, where that is settled: for the second turn nobody who may have
    /// read first or set the stop, and so saw the figure.
    #[must_use]
    pub fn reader(&self, board: &Board, turn: Turn) -> Option<&Who> {
        match turn {
            Turn::First => self.first.as_ref(),
            Turn::Second => {
                let saw = self.task(board).map(|task| self.who_saw(task));
                let saw = saw.unwrap_or_default();
                let other = |who: &&Who| !saw.iter().any(|one| one.may_be_same(who));
                self.second.as_ref().filter(other)
            }
        }
    }

    /// The persons who saw the figure of a thing by hand: whoever set it and whoever read it first.
    fn who_saw<'a>(&'a self, task: &'a Task) -> Vec<&'a Who> {
        let set_by = self.set_by.get(&task.key()).into_iter().flatten();
        set_by.chain(first_reader(task)).collect()
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

    /// True if no figure may be shown anywhere: a second reading is taken, or about to be.
    #[must_use]
    pub fn is_blind(&self, board: &Board) -> bool {
        self.step(board) == Some(Step::ReadAgain)
    }

    /// True if a refused reading leaves no other way than to set the stop anew.
    #[must_use]
    pub fn must_set_anew(&self, board: &Board) -> bool {
        let second = self.task(board).map(|task| &task.record.second);
        let often = match second {
            Some(ReadingState::Refused { times, .. }) => *times >= MOST_REFUSED,
            // Both readings stand and yet something speaks against them: an older one.
            Some(ReadingState::Confirmed { who }) => self.contradicted(board, who),
            _ => false,
        };
        often && self.is_blind(board)
    }

    fn contradicted(&self, board: &Board, second: &Who) -> bool {
        let first = self.task(board).and_then(first_reader);
        first.is_some_and(|first| !first.may_be_same(second))
    }

    /// Number of things that are where they belong as they are used first, and number of all. What
    /// was set anew already is open again: nothing here knows whether its first use is over.
    #[must_use]
    pub fn progress(&self, board: &Board) -> (usize, usize) {
        let things = board.tasks.iter().filter(|task| !task.is_anew()).count();
        let done = |item: &usize| {
            let mut turns = board.of_item(*item).filter(|task| !task.is_anew());
            turns.any(|task| self.now(task) == Now::Done)
        };
        ((0..things).filter(done).count(), things)
    }

    /// The things that are at a later setting than the one of their first use, as they are laid.
    pub fn set_anew_since<'a>(&self, board: &'a Board) -> impl Iterator<Item = &'a Task> {
        let passed = |task: &&Task| !task.is_anew() && self.now(task) == Now::Passed;
        board.tasks.iter().filter(passed)
    }

    /// The thing beside the tray that is asked for now: nothing while something is to be done for
    /// the tray itself, or what is set anew in surgery is looked at.
    #[must_use]
    pub fn beside<'a>(&self, board: &'a Board) -> Option<&'a Beside> {
        let here = self.task(board).map(|task| self.now(task));
        let here = !matches!(here, Some(Now::Later | Now::Passed));
        let ready = here && self.phase == Phase::Load && self.open_from(board, 0).next().is_none();
        let mut open = board.beside.iter();
        open.find(|one| ready && !self.beside.contains(&one.what))
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
        self.set_by.retain(|key, _| keys.contains(key));
        self.anew.retain(|key| keys.contains(key));
        self.at = self.at.min(board.tasks.len().saturating_sub(1));
        self.typed.clear();
        self.refused = None;
        gone
    }

    /// Keys of the things that are in hand and set, but not read yet.
    pub fn in_hand(&self) -> impl Iterator<Item = &Key> {
        let set = |(_, step): &(&Key, &Step)| **step > Step::Set;
        self.hands.iter().filter(set).map(|(key, _)| key)
    }

    /// True if a figure is asked for now.
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

    /// True if a stop sits on it that could have been moved.
    #[must_use]
    pub fn can_reset(&self, task: &Task) -> bool {
        let set = self
            .hands
            .get(&task.key())
            .is_some_and(|step| *step > Step::Set);
        // What was set anew since can be set back to where it was.
        let passed = task.state() == SettingState::NoMore;
        let was_set = set || passed || task.was_read() || task.record.lies.is_some();
        self.way(task).contains(&Step::Set) && was_set && self.now(task) != Now::Later
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
}

/// True if a first reading was refused as one of a stop that sits wrong, and not as mistyped.
pub(in crate::view::loading) fn is_off(first: &ReadingState) -> bool {
    matches!(first, ReadingState::Refused { verdict, .. } if verdict.mistyped.is_empty())
}

/// The person who took the first reading of a thing, where it counts.
fn first_reader(task: &Task) -> Option<&Who> {
    match &task.record.first {
        ReadingState::Confirmed { who } => Some(who),
        _ => None,
    }
}
