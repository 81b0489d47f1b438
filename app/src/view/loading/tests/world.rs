//! A case, what was recorded for it, and a session: all in memory.

use crate::desk::policy;
use crate::desk::{DEMOS, demo_case};
use crate::view::loading::session::{Effect, Input, Now, Phase, Session, Step};
use crate::view::loading::task::{Beside, Board, GaugeFacts, Task};
use std::cell::RefCell;
use traywright_core::case::{Case, ValidCase};
use traywright_core::dentition::Notation;
use traywright_core::measure::Length;
use traywright_core::plan::{Worksheet, case_jaw, plan_view, work_out};
use traywright_core::sign::{EventKind, Log, Merged, Stage, WriterId, standing};
use traywright_core::wording::Formatter;

pub(super) struct World {
    pub(super) case: ValidCase,
    pub(super) log: Log,
    pub(super) session: Session,
    worksheet: RefCell<Option<(ValidCase, Worksheet)>>,
    minute: i64,
}

/// One of the invented cases with changes, for a patient.
pub(super) fn case(name: &str, change: impl FnOnce(&mut Case)) -> ValidCase {
    let (_, bytes) = DEMOS.iter().find(|(demo, _)| *demo == name).unwrap();
    let mut case = (*demo_case(bytes)).clone();
    case.demonstration = false;
    change(&mut case);
    ValidCase::checked(&case).unwrap()
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
            worksheet: RefCell::default(),
            minute: 0,
        }
    }

    /// A session at its first instrument, the gauge checked by MK.
    pub(super) fn loading(case: ValidCase, stage: Stage) -> Self {
        let mut world = Self::new(case);
        world.take(Input::Stage(stage));
        world.take(Input::Initials("MK".to_owned()));
        let piece = world.board().gauge.and_then(|gauge| gauge.piece).unwrap();
        world.type_in(&piece.to_string());
        assert_eq!(world.session.phase, Phase::Load);
        world
    }

    pub(super) fn events(&self) -> Merged {
        Merged::of(case_jaw(&self.case), [self.log.clone()]).unwrap()
    }

    pub(super) fn board(&self) -> Board {
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
            self.session.stage,
        );
        let say = Formatter::english(&self.case, Notation::Iso);
        let beside = say.beside_tray(worksheet).into_iter();
        let beside = beside.map(|what| Beside {
            note: format!("there: {what}"),
            what,
        });
        board.with_beside(beside.collect())
    }

    /// Does something and records what comes of it.
    pub(super) fn take(&mut self, input: Input) -> Vec<EventKind> {
        let board = self.board();
        let effects = self.session.take(input, &board);
        for Effect { who, kind } in &effects {
            self.minute += 1;
            let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * self.minute).unwrap();
            self.log.append(at, who.clone(), kind.clone()).unwrap();
        }
        effects.into_iter().map(|effect| effect.kind).collect()
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
            assert!(self.take(Input::Done).is_empty());
        }
        assert_eq!(self.now(), Now::Do(Step::Read));
    }

    /// Sets the thing in hand and reads it twice, second by JH.
    pub(super) fn set_and_read(&mut self) {
        self.set();
        let figure = self.figure().to_string();
        self.type_in(&figure);
        if self.session.asks_for(&self.board()).is_some() {
            self.take(Input::Initials("JH".to_owned()));
        }
        self.type_in(&figure);
    }
}
