//! The pass in which drills are read with no figure in sight of anyone.
//!
//! [`BlindPass`] is pure as the session is: inputs in, effects out, what counts comes from the record.
//! [`facts`] puts together what the screen shows, in words that hold no figure of the case, and `ui`
//! draws it from those alone: it is given neither the plan nor the session. On the bench another person
//! reads than the one who set; in the sterile field one reads aloud and the other enters, neither
//! seeing what is to be found.

mod facts;
mod take;
mod ui;

pub(super) use facts::{Facts, in_doubt};
pub(super) use ui::ui;

use super::entry::Entry;
use super::recorded::EverRead;
use super::session::{Refused, must_set_anew};
use super::task::{Board, Key, ReadingState, Task, Verified, Work};
use crate::desk::policy;
use traywright_core::sign::{
    FiguresSeen, Merged, SettingState, Stage, Who, WriterId, figures_seen_by,
};

/// A pass without figures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BlindPass {
    /// Its phase.
    pub phase: BlindPhase,
    /// The stage of its readings.
    pub stage: Stage,
    /// The person who reads the gauge.
    pub reader: Option<Who>,
    /// The person who enters what is read aloud; in the sterile field only.
    pub enterer: Option<Who>,
    /// What is entered.
    pub entry: Entry,
    /// The pass that it takes up, where one was cut off: its reader and desk.
    pub cut_off: Option<(Who, WriterId)>,
    /// The way in which it came about.
    opened: Opened,
    /// The drills of the pass, in the order in which they are read.
    order: Vec<Key>,
    /// The one in hand, by its place in that order.
    at: usize,
    /// The one that was read last.
    last: Option<Key>,
}

/// The record that a pass asks who saw figures in this session.
#[derive(Debug, Clone, Copy)]
pub struct WhoSaw<'a> {
    /// Everything that is recorded.
    pub events: &'a Merged,
    /// The names of the case's team.
    pub team: &'a [Who],
    /// The time.
    pub now: jiff::Timestamp,
    /// The desk of the pass; none where its name is none.
    pub desk: Option<&'a WriterId>,
}

impl WhoSaw<'_> {
    /// The last occasion on which a person saw a figure, under which name; a pass without an end at the desk `running` is none.
    fn sight_of(&self, who: &Who, running: Option<&WriterId>) -> Option<(Who, FiguresSeen)> {
        figures_seen_by(
            (who, self.team),
            self.events,
            (self.now, running),
            &policy(),
        )
    }
}

/// The way in which a pass came about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Opened {
    /// Somebody chose it.
    Chosen,
    /// One was cut off, and is the first thing that its desk shows.
    CutOff,
}

/// A phase of a pass without figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlindPhase {
    /// The person who reads is named.
    Reader,
    /// The person who enters is named.
    Enterer,
    /// The gauge is read on its check piece.
    Gauge,
    /// The drills are read.
    Read,
    /// All are read: by the record it has ended, and no figure was seen.
    AllRead,
    /// It is over.
    Over,
}

/// The state of a drill in the pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlindState {
    /// It is to be read.
    Open,
    /// It was read, and the reading agrees with the plan.
    Agreed,
    /// Its readings were refused: it is to be set anew.
    SetAnew,
    /// It is not what it was when the pass began: it fell, was handled or left the plan.
    Gone,
}

impl BlindPass {
    /// A pass at this stage that is about to begin after one with this entry.
    #[must_use]
    pub fn new(stage: Stage, before: &Entry) -> Self {
        Self {
            phase: BlindPhase::Reader,
            stage,
            reader: None,
            enterer: None,
            entry: before.of_next_pass(),
            cut_off: None,
            opened: Opened::Chosen,
            order: Vec::new(),
            at: 0,
            last: None,
        }
    }

    /// The pass of this reader that was cut off at this desk, to be taken up.
    #[must_use]
    pub fn taking_up(stage: Stage, (who, desk): (Who, WriterId)) -> Self {
        let mut pass = Self::new(stage, &Entry::default());
        pass.entry.refused = Some(Refused::CutOff(who.clone()));
        pass.cut_off = Some((who, desk));
        pass.opened = Opened::CutOff;
        pass
    }

    /// True if what is recorded of it has a beginning and no end yet.
    #[must_use]
    pub fn is_running(&self) -> bool {
        self.cut_off.is_some() || matches!(self.phase, BlindPhase::Gauge | BlindPhase::Read)
    }

    /// True if it was chosen and nobody reads in it yet: it is left without consequences.
    #[must_use]
    pub fn is_only_chosen(&self) -> bool {
        let asks = matches!(self.phase, BlindPhase::Reader | BlindPhase::Enterer);
        asks && self.opened == Opened::Chosen
    }

    /// True if its reader could be wanted again: a drill of it is not read and agreed, one is to be set anew, or
    /// nobody knows, since it was cut off.
    #[must_use]
    pub fn leaves_undone(&self, board: &Board) -> bool {
        let mut order = self.order.iter();
        let mut tasks = board.tasks.iter();
        self.cut_off.is_some()
            || order.any(|key| Self::state(key, board) != BlindState::Agreed)
            || tasks.any(|task| is_readable(task) && must_set_anew(task))
    }

    /// Its reader by the record while that has no end of it, and its desk.
    #[must_use]
    pub fn begun_by(&self, desk: Option<&WriterId>) -> Option<(Who, WriterId)> {
        let begun = || Some((self.reader.clone()?, desk?.clone()));
        self.cut_off
            .clone()
            .or_else(begun)
            .filter(|_| self.is_running())
    }

    /// The state of a drill of the pass.
    #[must_use]
    pub fn state(key: &Key, board: &Board) -> BlindState {
        let task = board.tasks.iter().find(|task| task.key() == *key);
        match task {
            Some(task) if task.state() != SettingState::Now => BlindState::Gone,
            Some(task) if task.record.verified == Verified::Yes => BlindState::Agreed,
            Some(task) if must_set_anew(task) => BlindState::SetAnew,
            Some(task) if is_read_first(task, board.stage) => BlindState::Open,
            Some(_) | None => BlindState::Gone,
        }
    }

    /// The drill in hand.
    #[must_use]
    pub fn in_hand<'a>(&self, board: &'a Board) -> Option<&'a Task> {
        let key = self.order.get(self.at)?;
        let over = self.phase == BlindPhase::AllRead;
        let open = |_: &&Task| !over && Self::state(key, board) == BlindState::Open;
        board
            .tasks
            .iter()
            .find(|task| task.key() == *key)
            .filter(open)
    }

    /// True if a figure is asked for now.
    #[must_use]
    pub fn reads(&self, board: &Board) -> bool {
        match self.phase {
            BlindPhase::Gauge => board.gauge.is_some(),
            BlindPhase::Read => self.in_hand(board).is_some(),
            _ => false,
        }
    }

    /// The drills that its persons may read now, the last that was read first: another order than that in
    /// which they were set.
    fn due(&self, board: &Board) -> Vec<Key> {
        let mut due: Vec<&Task> = waiting(board)
            .filter(|task| self.may_read(task, board))
            .collect();
        due.reverse();
        due.sort_by_key(|task| std::cmp::Reverse(read_at(task)));
        due.into_iter().map(Task::key).collect()
    }

    /// Number of drills that wait for a reading by others than its persons.
    #[must_use]
    pub fn left_to_others(&self, board: &Board) -> usize {
        waiting(board)
            .filter(|task| !self.may_read(task, board))
            .count()
    }

    /// Number of its drills that are still to be read.
    #[must_use]
    pub fn still_open(&self, board: &Board) -> usize {
        let states = self.order.iter().map(|key| Self::state(key, board));
        states.filter(|state| *state == BlindState::Open).count()
    }

    /// True if none of its persons set the stop or read it first, at this stage.
    fn may_read(&self, task: &Task, board: &Board) -> bool {
        let ReadingState::Confirmed { who: first, .. } = &task.record.first else {
            return true;
        };
        let hands = task.record.handling.iter().flat_map(|one| &one.by);
        let saw: Vec<&Who> = hands.chain([first]).collect();
        let mut persons = self.reader.iter().chain(&self.enterer);
        !persons.any(|one| saw.iter().any(|other| board.may_be_same(other, one)))
    }
}

/// The time of a drill's first reading at this stage, where there is one.
const fn read_at(task: &Task) -> Option<jiff::Timestamp> {
    match &task.record.first {
        ReadingState::Confirmed { at, .. } => Some(*at),
        _ => None,
    }
}

/// The drills that wait for their reading without sight of a figure.
pub fn waiting(board: &Board) -> impl Iterator<Item = &Task> {
    board.tasks.iter().filter(|task| {
        is_readable(task)
            && is_read_first(task, board.stage)
            && task.record.verified == Verified::No
            && !must_set_anew(task)
    })
}

/// Number of drills that were read, at whatever stage, and by the record lie in no slot, though the tray has one for each.
/// One that is to be set anew is none of them: as it is set it is not to be laid.
pub(in crate::view::loading) fn unlaid(board: &Board) -> usize {
    let read = |task: &Task| task.record.ever_read == EverRead::Yes;
    let tasks = board
        .tasks
        .iter()
        .filter(|task| is_readable(task) && read(task) && !must_set_anew(task));
    tasks
        .filter(|task| !task.none_left && task.slot.is_some() && task.lies().is_none())
        .count()
}

/// True if a drill is one that is read, in no wrapping, at the setting that it is to have now.
fn is_readable(task: &Task) -> bool {
    let now = task.state() == SettingState::Now;
    task.work == Work::SetAndRead && !task.is_sealed() && now
}

/// True if a drill was read with its figure in sight, or twice on the bench and is only read aloud.
fn is_read_first(task: &Task, stage: Stage) -> bool {
    task.is_read_first() || stage == Stage::SterileField && task.record.on_bench
}
