//! What is entered in a pass, whoever enters it: a figure, initials, what the gauge shows of its check
//! piece; and why the last of it was not taken.

use super::session::{Checked, GaugeCheck, Refused};
use super::task::{Board, GaugeFacts, Key, Task};
use super::typed::Typed;
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

    /// Something is asked for: what was typed about anything else is cleared, and that is told.
    pub fn asks(&mut self, about: Option<About>) {
        if self.about == about {
            return;
        }
        if !self.typed.as_str().is_empty() {
            self.typed.clear();
            self.refused = Some(Refused::MovedOn);
        }
        self.about = about;
    }

    /// Takes the figure typed, where it is one.
    pub fn figure(&mut self) -> Option<Length> {
        let Some(value) = self.typed.value() else {
            self.refused = Some(Refused::NoLength);
            return None;
        };
        self.typed.clear();
        Some(value)
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
