//! A pass in which the drills are set and read by one person: what is done now, what comes next, and
//! what is recorded of it.
//!
//! Pure: the state changes by [`Input`]s alone, and what is to be recorded comes back as [`Effect`]s.
//! Nothing that counts is kept here: the [`Board`] has it from the record, so a step that could not be
//! written, or a reading that lapsed, is simply not there. This file has the session and the questions
//! that can be put to it, `take` the effect of an input on it, `gauge` the check of the gauge, `parts`
//! the words for all.

mod gauge;
mod parts;
mod take;

pub use gauge::{Checked, GaugeCheck};
pub use parts::{Effect, GaugeFell, Input, Now, Phase, Refused, Step};
pub(in crate::view::loading) use take::{effects, moved, off_the_tray};

use super::entry::Entry;
use super::task::{
    AskedFor, Beside, Block, Board, Key, ReadingState, Seal, Seen, Task, TaskTurn, Verified, Work,
    Worked,
};
use std::collections::BTreeSet;
use traywright_core::sign::{HandStep, Objection, SettingState, Stage, ThingKey, Who};

/// After so many refused second readings in a row the stop is to be set anew: nobody finds the
/// figure by trying. A figure that the gauge cannot show is no try, and says nothing of the setting.
pub const MOST_REFUSED: usize = 2;

/// A pass in which drills are set and read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Session {
    /// Its phase.
    pub phase: Phase,
    /// The stage of its readings, chosen once.
    pub stage: Stage,
    /// The person who sets and reads.
    pub first: Option<Who>,
    /// The thing in hand, by its place in the order of loading.
    pub at: usize,
    /// What is entered.
    pub entry: Entry,
    /// Things that are in hand, where no step of theirs is recorded yet.
    taken: BTreeSet<Key>,
    /// Drills that are being set anew in surgery.
    anew: BTreeSet<Key>,
    /// Things that a STOP told to be taken: they are in a hand, and come before all others.
    off: BTreeSet<ThingKey>,
    /// The thing that a pass is begun for: it is in hand first.
    wanted: Option<ThingKey>,
    /// The thing that this pass was begun for.
    for_step: Option<ThingKey>,
    /// The person who records in surgery, where the pass was begun there: taken without being typed again.
    suggested: Option<Who>,
    /// Initials are asked for although there are some.
    asking: Asking,
    /// The person of whom it is recorded, since the pass was chosen, that figures are in sight.
    sees: Option<Who>,
    steps: Steps,
    /// The guide is asked for before anything else of the pass.
    guide: Guide,
}

/// The question for the guide, before any drill is dropped through it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Guide {
    /// It is asked for at its turn, with what lies beside the tray.
    #[default]
    Later,
    /// It is asked for now, where nobody has seen it at this stage.
    First,
}

/// The way in which the steps with a thing are recorded on which nobody worked yet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Steps {
    /// All with the figure that is read, or with the press by which it is laid.
    #[default]
    Together,
    /// One by one.
    Singly,
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
            at: 0,
            entry: Entry::default(),
            taken: BTreeSet::new(),
            anew: BTreeSet::new(),
            off: BTreeSet::new(),
            wanted: None,
            for_step: None,
            suggested: None,
            asking: Asking::No,
            sees: None,
            steps: Steps::Together,
            guide: Guide::Later,
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
        let now = self.now_asked(task);
        let in_hand = self.taken.contains(&task.key()) || task.record.handling.is_some();
        match task.unasked {
            Some(why) if now.is_due() && !in_hand => Now::Unasked(why),
            _ => now,
        }
    }

    /// The same, also of what is not asked for.
    fn now_asked(&self, task: &Task) -> Now {
        let in_hand = self.taken.contains(&task.key());
        let way: &[Step] = self.way(task);
        if way.is_empty() {
            return Now::Blocked;
        }
        if task.none_left && task.state() != SettingState::NoMore {
            return Now::NoneLeft;
        }
        if self.opens(task) {
            return Now::Do(Step::Take);
        }
        match task.state() {
            SettingState::Later if !self.anew.contains(&task.key()) => return Now::Later,
            SettingState::Now if self.gives_way(task) => return Now::Passed,
            SettingState::NoMore if !in_hand => return Now::Passed,
            _ => {}
        }
        let to_set = Now::Do(if in_hand { Step::Set } else { Step::Take });
        let place = if !in_hand && task.lies_right() {
            Now::Done
        } else if task.slot.is_none() {
            Now::NoSlot
        } else {
            Now::Do(Step::Place)
        };
        if let Some(step) = self.together(task) {
            return Now::Do(step);
        }
        if !way.contains(&Step::Set) {
            let lies = in_hand || task.lies_right();
            return if lies { place } else { Now::Do(Step::Take) };
        }
        let reads = way.contains(&Step::Read);
        if reads && must_set_anew(task) {
            return to_set;
        }
        if reads && self.is_read(task) {
            return place;
        }
        match task.hand() {
            None => to_set,
            Some(HandStep::Set) => Now::Do(Step::Lock),
            Some(HandStep::Locked) => Now::Do(Step::Tug),
            Some(HandStep::Tugged) if !reads => place,
            // A stop that was read where it should not sit is set before it is read again.
            Some(HandStep::Tugged) if is_off(&task.record.first) => Now::Do(Step::Set),
            Some(HandStep::Tugged) => Now::Do(Step::Read),
        }
    }

    /// True if it stays in its wrapping no longer: the pass was begun in surgery to set it.
    #[must_use]
    pub fn opens(&self, task: &Task) -> bool {
        let is_it = self.for_step.as_ref() == Some(&task.thing);
        is_it && task.is_sealed() && task.planned.is_some()
    }

    /// The one step in place of all with a thing that is in nobody's hand and lies nowhere, on which nobody worked yet;
    /// nothing where they are taken one by one.
    fn together(&self, task: &Task) -> Option<Step> {
        let in_hand = self.taken.contains(&task.key());
        if self.steps == Steps::Singly || in_hand {
            return None;
        }
        self.could_be_together(task)
    }

    /// The same, whether or not somebody wants the steps one by one.
    #[must_use]
    pub fn could_be_together(&self, task: &Task) -> Option<Step> {
        let record = &task.record;
        let elsewhere = task.lies().is_some() || record.set_otherwise.is_some();
        if elsewhere || record.worked == Worked::Yes || task.is_anew() || task.is_there() {
            return None;
        }
        let way = self.way(task);
        if way.contains(&Step::Read) {
            return Some(Step::SetAndRead);
        }
        (!way.is_empty() && task.slot.is_some()).then_some(Step::Lay)
    }

    /// The steps that a thing takes, in order; none where it is not to be set.
    #[must_use]
    pub fn way(&self, task: &Task) -> &'static [Step] {
        use Step::{Lock, Place, Read, Set, Take, Tug};
        let unknown = matches!(
            task.work,
            Work::Blocked(Block::NoFigure | Block::DoesNotFit)
        );
        if task.is_sealed() && !unknown {
            return &[Take, Place];
        }
        match task.work {
            Work::SetAndRead => &[Take, Set, Lock, Tug, Read, Place],
            Work::SetOnly => &[Take, Set, Lock, Tug, Place],
            Work::Lay | Work::LayUnset => &[Take, Place],
            Work::Blocked(_) => &[],
        }
    }

    /// True if nothing more is to be read of it in this pass: it was read at this stage, or twice on
    /// the bench and not handled since, so that it is only read aloud.
    fn is_read(&self, task: &Task) -> bool {
        let on_bench = self.stage == Stage::SterileField && task.record.on_bench;
        task.is_read_first() || on_bench
    }

    /// True if it waits for the reading without sight of a figure.
    #[must_use]
    pub fn awaits_second(&self, task: &Task) -> bool {
        let read = self.way(task).contains(&Step::Read) && self.is_read(task);
        let open = task.record.verified == Verified::No && !must_set_anew(task);
        read && open && task.state() == SettingState::Now && !self.gives_way(task)
    }

    /// Number of things that wait for the reading without sight of a figure.
    #[must_use]
    pub fn waiting_for_second(&self, board: &Board) -> usize {
        let tasks = board.tasks.iter();
        tasks.filter(|task| self.awaits_second(task)).count()
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
        let stands = self.stands_before(task, board);
        let stands = stands.is_some_and(|turn| turn.state() == SettingState::Now);
        // What stays in its wrapping was never at the setting before.
        let sealed = board
            .of_item(task.item)
            .any(|one| !one.is_anew() && one.is_sealed());
        let settable = !sealed && !self.way(task).is_empty() && self.now(task) == Now::Later;
        let here = self.phase == Phase::Load && self.stage == Stage::SterileField;
        here && stands && settable
    }

    /// The setting that a drill stands at before one that it is set anew to. One between that is not to be set is never
    /// stood at.
    fn stands_before<'a>(&self, task: &Task, board: &'a Board) -> Option<&'a Task> {
        let TaskTurn::Anew { before, .. } = task.turn else {
            return None;
        };
        let turns: Vec<&Task> = board.of_item(task.item).take(before + 1).collect();
        let is_stood_at =
            |turn: &&Task| turn.state() == SettingState::Now || !self.way(turn).is_empty();
        turns.into_iter().rev().find(is_stood_at)
    }

    /// The setting that a drill is at and that setting it anew would pass over: the plan wants it read
    /// at this stage, or set, and it was not.
    #[must_use]
    pub fn passed_over_by<'a>(&self, task: &Task, board: &'a Board) -> Option<&'a Task> {
        let left = self.stands_before(task, board)?;
        let done = if self.way(left).contains(&Step::Read) {
            left.record.verified == Verified::Yes
        } else {
            left.hand() == Some(HandStep::Tugged)
        };
        (!done).then_some(left)
    }

    /// The person who is taken as who sets where Enter alone is given.
    #[must_use]
    pub const fn suggested(&self) -> Option<&Who> {
        self.suggested.as_ref()
    }

    /// True if initials are asked for now.
    #[must_use]
    pub fn asks_who(&self, board: &Board) -> bool {
        match self.phase {
            Phase::Person => true,
            Phase::Load => self.asking == Asking::Anew && self.has_something(board),
            Phase::Stage | Phase::Gauge => false,
        }
    }

    fn has_something(&self, board: &Board) -> bool {
        self.step(board).is_some() || self.asks_first(board).is_some()
    }

    /// True if a pass was chosen and nothing of it was shown or recorded yet but the check of the gauge: it is left
    /// without consequences.
    #[must_use]
    pub fn is_only_chosen(&self) -> bool {
        match self.phase {
            Phase::Person => true,
            Phase::Gauge => self.sees.is_none(),
            Phase::Stage | Phase::Load => false,
        }
    }

    /// What is asked for before anything is done with the tray: the guide, as long as nobody looks at anything else.
    #[must_use]
    pub fn asks_first<'a>(&self, board: &'a Board) -> Option<&'a Beside> {
        let first = |one: &&Beside| one.asked == AskedFor::First && one.seen == Seen::NotYet;
        let here = self.phase == Phase::Load && self.guide == Guide::First;
        board.beside.iter().find(first).filter(|_| here)
    }

    /// The step in hand while the tray is loaded.
    #[must_use]
    pub fn step(&self, board: &Board) -> Option<Step> {
        let loads = self.phase == Phase::Load && self.asks_first(board).is_none();
        let task = self.task(board).filter(|_| loads)?;
        match self.now(task) {
            Now::Do(step) => Some(step),
            _ => None,
        }
    }

    /// Number of things that are where they belong as they are used first, and number of all. What
    /// was set anew already is open again: nothing here knows whether its first use is over.
    #[must_use]
    pub fn progress(&self, board: &Board) -> (usize, usize) {
        let laid = board.tasks.iter().filter(|task| !task.is_anew());
        let things = laid.clone().count();
        let asked = laid.filter(|task| !matches!(self.now(task), Now::Unasked(_)));
        let asked = asked.count();
        let done = |item: &usize| {
            let mut turns = board.of_item(*item).filter(|task| !task.is_anew());
            turns.any(|task| match self.now(task) {
                Now::Done => true,
                // It was laid to be set for a later step, and is.
                Now::Passed if task.work == Work::LayUnset => {
                    board.stands_now(*item).is_some_and(Task::lies_right)
                }
                _ => false,
            })
        };
        ((0..things).filter(done).count(), asked)
    }

    /// The things that are at a later setting than the one of their first use, as they are laid.
    pub fn set_anew_since<'a>(&self, board: &'a Board) -> impl Iterator<Item = &'a Task> {
        let passed = |task: &&Task| {
            let was_set = self.way(task).contains(&Step::Set);
            !task.is_anew() && was_set && self.now(task) == Now::Passed
        };
        board.tasks.iter().filter(passed)
    }

    /// The thing beside the tray that is asked for now: nothing while something is to be done for
    /// the tray itself, or what is set anew in surgery is looked at.
    #[must_use]
    pub fn beside<'a>(&self, board: &'a Board) -> Option<&'a Beside> {
        if let Some(first) = self.asks_first(board) {
            return Some(first);
        }
        let here = self.task(board).map(|task| self.now(task));
        let here = !matches!(here, Some(Now::Later | Now::Passed));
        let ready = here && self.phase == Phase::Load && self.open_from(board, 0).next().is_none();
        let mut open = board.beside.iter();
        open.find(|one| ready && one.seen == Seen::NotYet)
    }

    /// Forgets what was in hand of things that the plan no longer has.
    pub fn keep_only(&mut self, board: &Board) {
        let keys = board.keys();
        self.taken.retain(|key| keys.contains(key));
        self.anew.retain(|key| keys.contains(key));
        self.at = self.at.min(board.tasks.len().saturating_sub(1));
        self.entry.typed.clear();
        self.entry.refused = None;
        (self.entry.other, self.entry.scanned) = (None, None);
    }

    /// Goes on with what a STOP told to be taken, before all others.
    pub fn go_on_with(&mut self, things: BTreeSet<ThingKey>, board: &Board) {
        let in_hand = |task: &&Task| {
            let now = task.state() == SettingState::Now && !self.way(task).is_empty();
            now && things.contains(&task.thing) && !matches!(self.now(task), Now::Unasked(_))
        };
        let for_step = self.for_step.as_ref();
        let for_step = for_step.and_then(|thing| self.wanted_first(thing, board));
        if let Some(first) = for_step {
            self.at = first;
        } else if let Some(first) = board.tasks.iter().find(in_hand) {
            self.at = first.index;
        }
        self.off = things;
    }

    /// True if a figure is asked for now.
    #[must_use]
    pub fn reads(&self, board: &Board) -> bool {
        match self.phase {
            Phase::Gauge => board.gauge.is_some(),
            Phase::Load => self.step(board).is_some_and(Step::is_reading) && !self.asks_who(board),
            Phase::Stage | Phase::Person => false,
        }
    }

    /// True if a stop sits on it that could have been moved.
    #[must_use]
    pub fn can_reset(&self, task: &Task) -> bool {
        // What was set anew since can be set back to where it was.
        let passed = task.state() == SettingState::NoMore;
        let record = &task.record;
        let was_set = record.handling.is_some() || task.was_read() || record.lies.is_some();
        self.way(task).contains(&Step::Set) && (was_set || passed) && self.now(task) != Now::Later
    }

    /// True if something is to be done with a thing for the tray, or asked for beside it.
    #[must_use]
    pub fn has_work(&self, board: &Board) -> bool {
        self.open_from(board, 0).next().is_some() || self.beside(board).is_some()
    }

    /// The things that something is to be done with, from one on.
    fn open_from(&self, board: &Board, start: usize) -> impl Iterator<Item = usize> {
        let open = |task: &&Task| matches!(self.now(task), Now::Do(_));
        let found = board.tasks.iter().skip(start).filter(open);
        found.map(|task| task.index)
    }

    /// The next other thing that something is to be done with, after the last again the first; what is in a hand comes
    /// before.
    fn next_open(&self, board: &Board) -> Option<usize> {
        let all = || {
            let ahead = self.open_from(board, self.at + 1);
            let ahead = ahead.chain(self.open_from(board, 0));
            ahead.filter(|index| *index != self.at)
        };
        let in_hand = |index: &usize| self.off.contains(&board.tasks[*index].thing);
        all().find(in_hand).or_else(|| all().next())
    }
}

impl Task {
    /// True if it stays in its wrapping for now.
    #[must_use]
    pub fn is_sealed(&self) -> bool {
        let unsealed = self.record.opened || self.was_read() || self.hand().is_some();
        self.seal == Seal::UntilCalledFor && !unsealed
    }
}

/// True if a stop is to be set anew because readings of it without sight of a figure were refused, or
/// an older reading speaks against those that stand.
#[must_use]
pub fn must_set_anew(task: &Task) -> bool {
    let often = |read: &ReadingState| matches!(read, ReadingState::Refused { times, .. } if *times >= MOST_REFUSED);
    let often = task.record.second_at_each.iter().any(often);
    let contradicted = |one: &Objection| matches!(one, Objection::Contradicted { .. });
    let read = !matches!(task.record.second, ReadingState::Open);
    often || read && task.record.objections.iter().any(contradicted)
}

/// True if a first reading was refused as one of a stop that sits wrong, and not as mistyped.
pub(in crate::view::loading) fn is_off(first: &ReadingState) -> bool {
    matches!(first, ReadingState::Refused { verdict, .. } if verdict.mistyped.is_empty())
}
