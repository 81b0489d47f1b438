//! What is entered in a pass, whoever enters it: a figure, initials, what the gauge shows of its check
//! piece; and why the last of it was not taken.

use super::session::{Checked, GaugeCheck, Input, Refused};
use super::task::{Board, GaugeFacts, Key, Task};
use super::typed::{Form, Given, Typed};
use traywright_core::kit::Label;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Purpose, Stage, Who};

/// The entry of a pass.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Entry {
    /// The text typed on the keypad.
    pub typed: Typed,
    /// The reason why the last input was not taken.
    pub refused: Option<Refused>,
    /// The check of the gauge.
    pub gauge: GaugeCheck,
    /// The stage at which a gauge was found sound since the view was opened, and which.
    pub checked: Option<(Stage, String)>,
    /// Initials that nobody of the case used before, asked back.
    new: Option<Who>,
    /// What the text typed is about.
    about: Option<About>,
    /// The thing whose code was given in place of the one in hand, until somebody has read that.
    pub other: Option<Label>,
    /// The thing in hand whose code was given.
    pub scanned: Option<Key>,
}

/// What was given by a text where a thing is in hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entered {
    /// A figure.
    Figure(Length),
    /// The code of the thing in hand.
    RightCode,
    /// Nothing that is taken; why it is not is told.
    Nothing,
}

/// What a figure is typed about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum About {
    /// What the gauge of this id shows of its check piece.
    Gauge(String),
    /// What the gauge shows of a drill, and how often that was handled or read by the record.
    Drill(Key, usize),
}

impl About {
    /// Of what a figure is asked for now: of the check piece, or else of the drill in hand.
    #[must_use]
    pub fn of(board: &Board, gauge: bool, task: Option<&Task>) -> Option<Self> {
        if gauge {
            return board
                .gauge
                .as_ref()
                .map(|gauge| Self::Gauge(gauge.id.clone()));
        }
        task.map(|task| Self::Drill(task.key(), task.record.events))
    }
}

/// The outcome of a figure of the check piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GaugeShown {
    /// The gauge is still to be read, or is off; what is recorded of it.
    NotSound(Option<EventKind>),
    /// It is sound.
    Sound(EventKind),
}

impl Entry {
    /// The entry of the pass that comes next, whoever enters there: that a gauge was found sound goes on.
    #[must_use]
    pub fn of_next_pass(&self) -> Self {
        Self {
            checked: self.checked.clone(),
            ..Self::default()
        }
    }

    /// Something is asked for, in figures of this form: what was typed about anything else is cleared, and that is told.
    pub fn asks(&mut self, about: Option<About>, form: Form) {
        self.typed.expects(form);
        if self.about == about {
            return;
        }
        if !self.typed.as_str().is_empty() {
            self.typed.clear();
            self.refused = Some(Refused::MovedOn);
        }
        self.about = about;
    }

    /// The form of the figures that are asked for now: of the gauge that shows them. What is marked on a check piece
    /// that the kit does not name is no figure of a gauge.
    #[must_use]
    pub fn form(&self, board: &Board, gauge: bool, task: Option<&Task>) -> Form {
        if gauge {
            let gauge = board.gauge.as_ref();
            let shows = gauge.filter(|gauge| gauge.piece.or(self.gauge.piece).is_some());
            return shows.map_or(Form::ANY, |gauge| {
                Form::of_gauge(gauge.range, gauge.graduation)
            });
        }
        let planned = task.and_then(|task| task.planned.as_ref());
        let shows = planned.and_then(|one| one.gauge_range_mm.zip(one.graduation_mm));
        shows.map_or(Form::ANY, |(range, graduation)| {
            Form::of_gauge(range, graduation)
        })
    }

    /// Takes what is typed, a figure or a code, where a thing is in hand. The code of another thing is a STOP.
    pub fn entered(&mut self, board: &Board, in_hand: Option<&Task>) -> Entered {
        let Given::Code(code) = self.typed.given() else {
            // While it is a STOP no figure is taken.
            if self.other.is_some() {
                self.typed.clear();
                return Entered::Nothing;
            }
            return self.figure().map_or(Entered::Nothing, Entered::Figure);
        };
        self.typed.clear();
        let Some(coded) = board.of_code(&code) else {
            self.refused = Some(Refused::UnknownCode(code));
            return Entered::Nothing;
        };
        match in_hand {
            None => {
                self.refused = Some(Refused::CodeNotAsked(coded.name.clone()));
                Entered::Nothing
            }
            Some(task) if task.is_thing(coded) => {
                self.other = None;
                self.scanned = Some(task.key());
                Entered::RightCode
            }
            Some(_) => {
                self.other = Some(coded.name.clone());
                self.scanned = None;
                Entered::Nothing
            }
        }
    }

    /// True for an input that is taken while the code of another thing is a STOP: the next code.
    #[must_use]
    pub fn is_held_from(&self, input: &Input) -> bool {
        let typing = matches!(
            input,
            Input::Digit(_) | Input::Mark | Input::Sign(_) | Input::Back | Input::Enter
        );
        self.other.is_some() && !typing
    }

    /// Takes the figure typed, where it is one. One that is mistyped is echoed, and is no reading and no try.
    pub fn figure(&mut self) -> Option<Length> {
        match self.typed.given() {
            Given::Length(value) => {
                self.typed.clear();
                return Some(value);
            }
            Given::Nothing => self.refused = Some(Refused::NoLength),
            Given::Mistyped(text) => {
                self.typed.clear();
                self.refused = Some(Refused::Mistyped(text));
            }
            Given::Code(code) => {
                self.typed.clear();
                self.refused = Some(Refused::UnknownCode(code));
            }
        }
        None
    }

    /// Takes what the gauge shows of its check piece.
    pub fn gauge_shows(
        &mut self,
        value: Length,
        gauge: &GaugeFacts,
        (stage, purpose): (Stage, Purpose),
    ) -> GaugeShown {
        match self.gauge.take(value, gauge, purpose) {
            Checked::Piece => GaugeShown::NotSound(None),
            Checked::AskedBack(kind, refused) => {
                self.refused = Some(refused);
                GaugeShown::NotSound(Some(kind))
            }
            Checked::Recorded(kind, None) => {
                self.checked = Some((stage, gauge.id.clone()));
                GaugeShown::Sound(kind)
            }
            Checked::Recorded(kind, off) => {
                self.refused = off;
                GaugeShown::NotSound(Some(kind))
            }
        }
    }

    /// True if the gauge is read on its check piece as a pass begins: always on the bench, in the sterile
    /// field where it was not found sound there before, or was found off by anybody since.
    #[must_use]
    pub fn is_to_check(&self, board: &Board, stage: Stage) -> bool {
        let Some(gauge) = &board.gauge else {
            return false;
        };
        let mut checked = self.checked.iter();
        let sound = checked.any(|(at, id)| *at == stage && *id == gauge.id);
        !(stage == Stage::SterileField && sound && gauge.off.is_none())
    }

    /// Takes initials. Some that nobody of the case used before are asked back once: a stray letter
    /// makes another person of somebody who saw the figures.
    pub fn person(&mut self, text: &str, board: &Board) -> Option<Who> {
        let who = match Who::signing(text) {
            Ok(who) => who,
            Err(fault) => {
                self.refused = Some(Refused::Name(fault));
                return None;
            }
        };
        let mut people = board.people.iter();
        let known = board.people.is_empty() || people.any(|one| one.is_same(&who));
        let asked = self.new.take();
        if known || asked.as_ref() == Some(&who) {
            return Some(who);
        }
        self.new = Some(who.clone());
        // Who may be meant comes before who is written nearly so.
        let people = || board.people.iter();
        let near = people().find(|one| one.may_be_same(&who));
        let near = near.or_else(|| people().find(|one| one.is_near(&who)));
        let near = near.cloned();
        self.refused = Some(Refused::New { who, near });
        None
    }
}
