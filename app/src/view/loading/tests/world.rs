//! A case, what was recorded for it, and a session: all in memory.

use crate::desk::policy;
use crate::desk::{DEMOS, demo_case};
use crate::view::loading::blind::{BlindPass, BlindPhase, WhoSaw};
use crate::view::loading::changed::{Changed, Wrong};
use crate::view::loading::session::{Effect, Input, Now, Phase, Refused, Session, Step};
use crate::view::loading::task::{Board, GaugeFacts, Task};
use std::cell::RefCell;
use traywright_core::case::{Case, ValidCase};
use traywright_core::dentition::Notation;
use traywright_core::measure::Length;
use traywright_core::plan::{Worksheet, case_jaw, plan_view, work_out};
use traywright_core::sign::{
    EventKind, Log, Merged, Pass, Purpose, Stage, Who, WriterId, standing,
};
use traywright_core::wording::Formatter;

pub(super) struct World {
    pub(super) case: ValidCase,
    pub(super) log: Log,
    pub(super) session: Session,
    pub(super) blind: Option<BlindPass>,
    worksheet: RefCell<Option<(ValidCase, Worksheet)>>,
    pub(super) minute: i64,
}

/// One of the invented cases with changes, for a patient.
pub(super) fn case(name: &str, change: impl FnOnce(&mut Case)) -> ValidCase {
    let (_, bytes) = DEMOS.iter().find(|(demo, _)| *demo == name).unwrap();
    let mut case = (*demo_case(bytes)).clone();
    case.demonstration = false;
    change(&mut case);
    ValidCase::checked(&case).unwrap()
}

/// What lies otherwise than a plan has it, whenever that changed.
pub(super) fn lying_wrong(case: &ValidCase, sheet: &Worksheet, events: &Merged) -> Vec<Wrong> {
    let view = plan_view(case, sheet, events);
    let standing = standing(events, &view, &policy()).unwrap();
    let with = (&view, &standing, events);
    Board::of(sheet, &case.kit, with, None, Stage::Bench).lies_wrong
}

/// What is recorded where somebody says of all that a STOP tells that a hand took it.
pub(super) fn all_taken(stop: &Changed) -> Vec<EventKind> {
    let wrong = stop.wrong.iter();
    wrong.flat_map(|one| one.taken(Purpose::Patient)).collect()
}

pub(super) fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

impl World {
    /// A session that is just begun.
    pub(super) fn new(case: ValidCase) -> Self {
        let log = Log::new(&case_jaw(&case), WriterId::new("desk").unwrap());
        Self {
            case,
            log,
            session: Session::default(),
            blind: None,
            worksheet: RefCell::default(),
            minute: 0,
        }
    }

    /// A session at its first instrument, the gauge checked by MK, who wants the steps one by one and has the guide
    /// asked for at the end.
    pub(super) fn loading(case: ValidCase, stage: Stage) -> Self {
        let mut world = Self::loading_at_once(case, stage);
        world.take(Input::Singly);
        world.take(Input::Go(world.session.at));
        world
    }

    /// The same, all of a thing recorded at once.
    pub(super) fn loading_at_once(case: ValidCase, stage: Stage) -> Self {
        let mut world = Self::new(case);
        world.take(Input::Begin(stage, Pass::Setting));
        world.name("MK");
        let piece = world.piece();
        world.type_in(&piece);
        assert_eq!(world.session.phase, Phase::Load);
        world
    }

    pub(super) fn events(&self) -> Merged {
        Merged::of(case_jaw(&self.case), [self.log.clone()]).unwrap()
    }

    pub(super) fn board(&self) -> Board {
        let stage = self
            .blind
            .as_ref()
            .map_or(self.session.stage, |pass| pass.stage);
        let mut kept = self.worksheet.borrow_mut();
        let kept = kept.get_or_insert_with(|| (self.case.clone(), work_out(&self.case)));
        if kept.0 != self.case {
            *kept = (self.case.clone(), work_out(&self.case));
        }
        let worksheet = &kept.1;
        let view = plan_view(&self.case, worksheet, &self.events());
        let standing = standing(&self.events(), &view, &policy()).unwrap();
        let gauge = GaugeFacts::of(&self.case);
        let kit = &self.case.kit;
        let board = Board::of(
            worksheet,
            kit,
            (&view, &standing, &self.events()),
            gauge,
            stage,
        );
        let say = Formatter::english(&self.case, Notation::Iso);
        let guide = say.guide_to_take();
        board.with_team(&self.case.team).with_beside(
            (&guide, say.beside_tray(worksheet)),
            (&standing, &policy()),
            self.now_is(),
        )
    }

    /// Does something and records what comes of it.
    pub(super) fn take(&mut self, input: Input) -> Vec<EventKind> {
        let board = self.board();
        let (events, now) = (self.events(), self.now_is());
        let effects = match &mut self.blind {
            Some(pass) => {
                pass.move_on(&board);
                let desk = WriterId::new("desk").ok();
                let desk = desk.as_ref();
                let asked = WhoSaw {
                    events: &events,
                    team: &board.people,
                    now,
                    desk,
                };
                pass.take(input, &board, asked)
            }
            None => self.session.take(input, &board),
        };
        for Effect { who, kind } in &effects {
            self.minute += 1;
            let at = self.now_is();
            self.log.append(at, who.clone(), kind.clone()).unwrap();
        }
        effects.into_iter().map(|effect| effect.kind).collect()
    }

    /// Records what MK did.
    pub(super) fn record(&mut self, kinds: impl IntoIterator<Item = EventKind>) {
        for kind in kinds {
            self.minute += 1;
            let who = Who::new("MK").unwrap();
            self.log.append(self.now_is(), who, kind).unwrap();
        }
    }

    fn now_is(&self) -> jiff::Timestamp {
        jiff::Timestamp::from_second(1_900_000_000 + 60 * self.minute).unwrap()
    }

    /// Gives initials, once more where they are new here.
    pub(super) fn name(&mut self, who: &str) -> Vec<EventKind> {
        let initials = || Input::Initials(who.to_owned());
        let taken = self.take(initials());
        let entry = match &self.blind {
            Some(pass) => &pass.entry,
            None => &self.session.entry,
        };
        if matches!(entry.refused, Some(Refused::New { .. })) {
            return self.take(initials());
        }
        taken
    }

    /// What a sound gauge shows of its check piece, as it is typed.
    pub(super) fn piece(&self) -> String {
        let gauge = self.board().gauge.unwrap();
        (gauge.piece.unwrap() + gauge.constant).to_string()
    }

    /// Begins the pass without figures by this reader, who in the sterile field reads aloud to OW.
    pub(super) fn begin_blind(&mut self, reader: &str) {
        self.begin_blind_as_far_as_the_gauge(reader);
        let pass = self.blind.as_ref().unwrap();
        if pass.phase == BlindPhase::Gauge {
            let piece = self.piece();
            self.type_in(&piece);
        }
    }

    /// The same, the gauge not checked yet.
    pub(super) fn begin_blind_as_far_as_the_gauge(&mut self, reader: &str) {
        self.blind = Some(BlindPass::new(self.session.stage, &self.session.entry));
        self.name(reader);
        if self.session.stage == Stage::SterileField {
            self.name("OW");
        }
    }

    /// The drill in hand of the pass without figures.
    pub(super) fn blind_task(&mut self) -> Option<Task> {
        let board = self.board();
        let pass = self.blind.as_mut().unwrap();
        pass.move_on(&board);
        pass.in_hand(&board).cloned()
    }

    /// Ends the pass without figures and begins to set again by MK.
    pub(super) fn back_to_setting(&mut self) {
        self.take(Input::End);
        let pass = self.blind.take().unwrap();
        self.session.entry = pass.entry.of_next_pass();
        let (stage, at) = (self.session.stage, self.session.at);
        self.session.to_the_start();
        self.take(Input::Begin(stage, Pass::Setting));
        self.name("MK");
        if self.session.phase == Phase::Gauge {
            let piece = self.piece();
            self.type_in(&piece);
        }
        self.take(Input::Singly);
        self.take(Input::Go(at));
    }

    /// Reads everything that waits for it without sight of a figure, as planned, by JH; then MK sets
    /// again.
    pub(super) fn read_again(&mut self) {
        self.begin_blind("JH");
        while let Some(task) = self.blind_task() {
            let figure = task.planned.unwrap().gauge_figure_mm.unwrap();
            self.type_in(&figure.to_string());
        }
        self.back_to_setting();
    }

    /// Types a figure and accepts it.
    pub(super) fn type_in(&mut self, figure: &str) -> Vec<EventKind> {
        for sign in figure.chars() {
            self.take(match sign.to_digit(10) {
                Some(digit) => Input::Digit(u8::try_from(digit).unwrap()),
                None => Input::Mark,
            });
        }
        self.take(Input::Enter)
    }

    pub(super) fn task(&self) -> Task {
        self.session.task(&self.board()).unwrap().clone()
    }

    pub(super) fn now(&self) -> Now {
        self.session.now(&self.task())
    }

    /// The figure that the gauge has to show for the thing in hand.
    pub(super) fn figure(&self) -> Length {
        self.task().planned.unwrap().gauge_figure_mm.unwrap()
    }

    /// Goes to the first drill that is set and read and is in no wrapping.
    pub(super) fn go_to_first_set(&mut self) {
        let board = self.board();
        let found = board
            .tasks
            .iter()
            .find(|task| self.session.way(task).contains(&Step::Read));
        self.take(Input::Go(found.unwrap().index));
    }

    /// Takes, sets, locks and tugs the thing in hand.
    pub(super) fn set(&mut self) {
        for step in [Step::Take, Step::Set, Step::Lock, Step::Tug] {
            assert_eq!(self.now(), Now::Do(step));
            let done = self.take(Input::Done);
            let handled = matches!(done[..], [EventKind::Handled { .. }]);
            assert_eq!(handled, step != Step::Take, "{done:?}");
        }
        assert_eq!(self.now(), Now::Do(Step::Read));
    }

    /// Sets the thing in hand and reads it as it is to be.
    pub(super) fn set_and_read(&mut self) {
        self.set();
        let figure = self.figure().to_string();
        self.type_in(&figure);
    }

    /// Says that the guide is there, where that is asked first.
    pub(super) fn guide_is_there(&mut self) {
        if self.session.asks_first(&self.board()).is_some() {
            let said = self.take(Input::Done);
            assert!(matches!(&said[..], [EventKind::Beside { .. }]));
        }
    }

    /// Sets, reads and lays everything that can be.
    pub(super) fn load_all(&mut self) {
        self.guide_is_there();
        for _ in 0..400 {
            let Now::Do(step) = self.now() else { return };
            if step == Step::Take && self.session.way(&self.task()).contains(&Step::Read) {
                self.set_and_read();
            } else {
                self.take(Input::Done);
            }
        }
        panic!("it has no end");
    }
}
