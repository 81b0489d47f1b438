//! The effect of an input on a pass without figures, and the record of it.

use super::{BlindPass, BlindPhase, BlindState, WhoSaw};
use crate::view::loading::entry::{About, Entered, GaugeShown};
use crate::view::loading::falls::effects_of;
use crate::view::loading::session::{Effect, GaugeFell, Input, Refused, effects, off_the_tray};
use crate::view::loading::task::{Board, Task};
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Pass, PassEnd, Piece, Reading, Stage, Turn};

impl BlindPass {
    /// Takes an input; what is to be recorded of it.
    pub fn take(&mut self, input: Input, board: &Board, asked: WhoSaw<'_>) -> Vec<Effect> {
        self.entry.refused = None;
        let stopped = self.ask_again(asked);
        if !stopped.is_empty() {
            return stopped;
        }
        self.look(board);
        if self.entry.is_held_from(&input) && !matches!(input, Input::End) {
            return Vec::new();
        }
        match input {
            Input::Sign(sign) if self.reads(board) => self.entry.typed.sign(sign),
            Input::Digit(digit) if self.reads(board) => self.entry.typed.digit(digit),
            Input::Mark if self.reads(board) => self.entry.typed.mark(),
            Input::Back if self.reads(board) => self.entry.typed.back(),
            Input::Previous => self.go(board, |at, count| (at + count - 1) % count),
            Input::Next => self.go(board, |at, count| (at + 1) % count),
            Input::Enter => return self.enter(board),
            Input::Initials(text) => return self.initials(&text, board, asked),
            Input::Fell => return self.fell(board),
            Input::Gauge(fell) => return self.again(fell, board),
            Input::End => return self.end(PassEnd::Unseen),
            // What can be done with a figure in sight is not done here.
            _ => {}
        }
        Vec::new()
    }

    /// Ends the pass of a reader on the bench who by the record has seen a figure since it began, at another
    /// desk or in another window; what is to be recorded of that. Somebody else may read then.
    pub fn ask_again(&mut self, asked: WhoSaw<'_>) -> Vec<Effect> {
        let reads = matches!(self.phase, BlindPhase::Gauge | BlindPhase::Read);
        let alone = reads && self.stage == Stage::Bench;
        let Some(who) = self.reader.clone().filter(|_| alone) else {
            return Vec::new();
        };
        let Some((who, sight)) = asked.sight_of(&who, asked.desk) else {
            return Vec::new();
        };
        let left = self.ended(PassEnd::Left);
        *self = Self::new(self.stage, &self.entry);
        self.entry.refused = Some(Refused::Saw(who, sight));
        left
    }

    /// Ends the pass; where somebody goes to figures, that is recorded, also of one in which all was read.
    pub fn end(&mut self, end: PassEnd) -> Vec<Effect> {
        self.entry.other = None;
        let goes = self.phase == BlindPhase::AllRead && end == PassEnd::Left;
        let told = (self.is_running() || goes).then(|| self.ended(end));
        self.phase = BlindPhase::Over;
        self.entry.typed.clear();
        self.cut_off = None;
        told.unwrap_or_default()
    }

    /// Ends the pass in the record once all of it is read and agreed; its screen stays.
    pub fn end_if_all_is_read(&mut self, board: &Board) -> Vec<Effect> {
        if self.phase != BlindPhase::Read || self.leaves_undone(board) {
            return Vec::new();
        }
        self.phase = BlindPhase::AllRead;
        self.ended(PassEnd::Unseen)
    }

    /// What is to be set anew is set aside: it does not lie on the tray any more.
    #[must_use]
    pub fn set_aside(&self, board: &Board) -> Vec<Effect> {
        let Some(who) = self
            .reader
            .as_ref()
            .filter(|_| self.phase == BlindPhase::Read)
        else {
            return Vec::new();
        };
        let aside = |task: &&Task| {
            let key = task.key();
            self.order.contains(&key) && Self::state(&key, board) == BlindState::SetAnew
        };
        let aside = board.tasks.iter().filter(aside);
        effects(
            who,
            aside.filter_map(|task| off_the_tray(task, board.purpose)),
        )
    }

    /// That it ended so, by its reader or that of the pass which it takes up.
    fn ended(&self, end: PassEnd) -> Vec<Effect> {
        let begun = self.cut_off.as_ref().map(|(who, _)| who);
        let who = begun.or(self.reader.as_ref()).into_iter();
        let stage = self.stage;
        who.flat_map(|who| effects(who, [EventKind::PassEnded { stage, end }]))
            .collect()
    }

    /// Goes on to the next drill that is to be read, if the one in hand is not. What came to be read
    /// since the pass began comes at its end.
    pub fn move_on(&mut self, board: &Board) {
        if self.phase == BlindPhase::Read {
            let new = self.due(board).into_iter();
            let new: Vec<_> = new.filter(|key| !self.order.contains(key)).collect();
            self.order.extend(new);
        }
        let count = self.order.len();
        let open = |at: &usize| BlindPass::state(&self.order[*at], board) == BlindState::Open;
        let ahead = (0..count).map(|step| (self.at + step) % count);
        if let Some(next) = ahead.into_iter().find(open) {
            self.at = next;
        }
        self.look(board);
    }

    /// Looks at what is asked for now: a figure typed about anything else is cleared.
    fn look(&mut self, board: &Board) {
        let gauge = self.phase == BlindPhase::Gauge;
        let reads = self.reads(board);
        let about = About::of(board, gauge, self.in_hand(board)).filter(|_| reads);
        let form = self.entry.form(board, gauge, self.in_hand(board));
        self.entry.asks(about, form);
    }

    fn go(&mut self, board: &Board, step: impl Fn(usize, usize) -> usize) {
        let count = self.order.len();
        let mut at = self.at;
        for _ in 0..count {
            at = step(at, count);
            if BlindPass::state(&self.order[at], board) == BlindState::Open {
                self.at = at;
                self.entry.typed.clear();
                self.last = None;
                return;
            }
        }
    }

    fn initials(&mut self, text: &str, board: &Board, asked: WhoSaw<'_>) -> Vec<Effect> {
        if !matches!(self.phase, BlindPhase::Reader | BlindPhase::Enterer) {
            return Vec::new();
        }
        let Some(who) = self.entry.person(text, board) else {
            return Vec::new();
        };
        match self.phase {
            BlindPhase::Reader if self.stage == Stage::Bench => {
                let taken_up = self.cut_off.as_ref().map(|(_, desk)| desk);
                if let Some((by, sight)) = asked.sight_of(&who, taken_up) {
                    // Told by the name under which the record has it.
                    self.entry.refused = Some(Refused::Saw(by, sight));
                    return Vec::new();
                }
                self.reader = Some(who);
                self.begin(board)
            }
            BlindPhase::Reader => {
                self.reader = Some(who);
                self.phase = BlindPhase::Enterer;
                Vec::new()
            }
            BlindPhase::Enterer => {
                if self
                    .reader
                    .as_ref()
                    .is_some_and(|reader| board.may_be_same(reader, &who))
                {
                    self.entry.refused = Some(Refused::SamePerson(who));
                    return Vec::new();
                }
                self.enterer = Some(who);
                self.begin(board)
            }
            _ => Vec::new(),
        }
    }

    fn begin(&mut self, board: &Board) -> Vec<Effect> {
        let Some(reader) = self.reader.clone() else {
            return Vec::new();
        };
        // One that was put down undone, and that another person goes on from, has ended with no figure shown.
        let before = self.cut_off.as_ref();
        let before = before.filter(|(who, _)| !who.is_same(&reader));
        let ended = before.map_or_else(Vec::new, |_| self.ended(PassEnd::Unseen));
        self.cut_off = None;
        self.order = self.due(board);
        // Nothing to read needs no gauge, unless that was found off: then what was read is in doubt.
        let off = board
            .gauge
            .as_ref()
            .is_some_and(|gauge| gauge.off.is_some());
        let reads = off || !self.order.is_empty();
        self.phase = if reads && self.entry.is_to_check(board, self.stage) {
            BlindPhase::Gauge
        } else {
            BlindPhase::Read
        };
        let (stage, pass) = (self.stage, Pass::Blind);
        let begun = effects(&reader, [EventKind::PassBegun { stage, pass }]);
        ended.into_iter().chain(begun).collect()
    }

    fn enter(&mut self, board: &Board) -> Vec<Effect> {
        if !self.reads(board) {
            return Vec::new();
        }
        let in_hand = self
            .in_hand(board)
            .filter(|_| self.phase == BlindPhase::Read);
        match self.entry.entered(board, in_hand) {
            Entered::Figure(value) if self.phase == BlindPhase::Gauge => {
                self.gauge_read(value, board)
            }
            Entered::Figure(value) => self.read(value, board),
            Entered::RightCode | Entered::Nothing => Vec::new(),
        }
    }

    fn gauge_read(&mut self, value: Length, board: &Board) -> Vec<Effect> {
        let (Some(gauge), Some(who)) = (&board.gauge, self.reader.clone()) else {
            return Vec::new();
        };
        match self
            .entry
            .gauge_shows(value, gauge, (self.stage, board.purpose))
        {
            GaugeShown::Sound(kind) => {
                self.phase = BlindPhase::Read;
                effects(&who, [kind])
            }
            GaugeShown::NotSound(kind) => effects(&who, kind),
        }
    }

    fn read(&mut self, value: Length, board: &Board) -> Vec<Effect> {
        let (Some(task), Some(who)) = (self.in_hand(board), self.reader.clone()) else {
            return Vec::new();
        };
        let Some(planned) = &task.planned else {
            return Vec::new();
        };
        self.last = Some(task.key());
        let kind = EventKind::Reading(Reading {
            item: planned.key.clone(),
            gauge: planned.gauge.clone(),
            value_mm: value,
            stage: self.stage,
            turn: Turn::Second,
            purpose: board.purpose,
            entered_by: self.enterer.clone(),
        });
        effects(&who, [kind])
    }

    fn fell(&mut self, board: &Board) -> Vec<Effect> {
        let reading = self.phase == BlindPhase::Read;
        let (Some(task), Some(who), true) = (self.in_hand(board), self.reader.clone(), reading)
        else {
            return Vec::new();
        };
        self.entry.typed.clear();
        self.last = None;
        effects(&who, effects_of(task, board))
    }

    fn again(&mut self, fell: GaugeFell, board: &Board) -> Vec<Effect> {
        let reading = self.phase == BlindPhase::Read;
        let (Some(gauge), Some(who), true) = (&board.gauge, self.reader.clone(), reading) else {
            return Vec::new();
        };
        self.entry.typed.clear();
        self.last = None;
        self.phase = BlindPhase::Gauge;
        self.entry.checked = None;
        let piece = Piece::Gauge(gauge.id.clone());
        let purpose = Some(board.purpose);
        let fall = (fell == GaugeFell::Yes).then_some(EventKind::Dropped { piece, purpose });
        effects(&who, fall)
    }
}
