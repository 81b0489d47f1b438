//! What the person at the desk is about, between two records: which step is looked at, what is being asked and typed.
//!
//! Nothing that counts is here. It goes with the window, and the day goes on from its record.

use super::change::Kind;
use super::why::Changed;
use crate::view::loading::entry::Entry;
use traywright_core::measure::{Length, Torque};
use traywright_core::sign::{EventId, InsertionWay, StepKey, WhichGuide, Who};
use traywright_core::surgery::{Day, DayStep, NotReady};

/// What the person at the desk is about.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Doing {
    /// The person who records; none until initials were given.
    pub(super) who: Option<Who>,
    /// The person who takes over once what is asked is answered.
    pub(super) comes: Option<Who>,
    /// What is asked begins another sitting.
    pub(super) anew: bool,
    /// The last event of the day when somebody said that its sitting goes on.
    pub(super) same_sitting: Option<EventId>,
    /// What was shown when going on with it was chosen.
    pub(super) going_on: Option<Changed>,
    /// A count that did not agree is counted again.
    pub(super) recount: bool,
    /// Figures and initials as they are entered.
    pub(super) entry: Entry,
    /// The text in the field that is asked for.
    pub(super) field: String,
    /// What is asked.
    pub(super) asked: Asked,
    /// What the change that is asked about makes possible and impossible, sentences.
    pub(super) foretold: Vec<String>,
    /// The step that is looked at, where it is another than the one that is due.
    pub(super) looked_at: Option<StepKey>,
    /// The list of all steps is shown.
    pub(super) list: Listed,
    /// What was counted so far of the count in hand.
    pub(super) counted: Vec<u32>,
    /// The step that the question, the figure or the count in hand is of.
    pub(super) of: Option<OfStep>,
}

/// A step as it was when something was asked, typed or counted at it: the answer is for no other one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct OfStep {
    key: StepKey,
    is_over: bool,
    not_ready: Vec<NotReady>,
}

impl OfStep {
    pub(super) fn of(step: &DayStep<'_>) -> Self {
        Self {
            key: step.key.clone(),
            is_over: step.state.is_over(),
            not_ready: step.not_ready.clone(),
        }
    }
}

/// What is asked beside the step itself.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) enum Asked {
    /// Nothing.
    #[default]
    Nothing,
    /// The initials of another person who records.
    Person,
    /// The reason for something.
    Reason(For),
    /// What fell of what is in hand.
    Fell,
    /// What fell of all that lies on the tray.
    FellOfAll,
    /// Which guide goes in after it fell.
    WhichGuide,
    /// What is to be done otherwise.
    Change,
    /// Whether the case is changed so.
    Confirm(Kind),
    /// The depth that is aimed at by hand.
    Aimed,
    /// The torque that an implant reached.
    Torque(InsertionWay),
    /// Where it stopped.
    Depth(InsertionWay, Option<Torque>),
    /// The initials of the other person who counted.
    Second,
    /// Whether the sitting of the record goes on, or another one begins.
    Sitting,
}

/// What a reason is given for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum For {
    /// A step is left out.
    Skip,
    /// A step is done although it is not ready, or a count does not agree.
    Despite,
    /// An implant is turned in although its site is not ready.
    Insertion(InsertionWay),
    /// A site is drilled by a mark or by eye alone, to the depth that is aimed at.
    ByHand(Option<Length>),
    /// All that is open at the site of the step is left out.
    StopHere,
    /// The guide came off before its time.
    Lifted,
    /// That the guide came off was recorded by mistake.
    NotLifted,
    /// The guide is abandoned.
    Abandon,
    /// That it is was recorded by mistake.
    NotAbandoned,
    /// This guide goes in after it fell.
    SeatAgain(WhichGuide),
    /// The plan is changed on the table.
    Change(Kind),
    /// Surgery is gone on with although something stands against it.
    GoOn,
}

/// What is shown.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) enum Listed {
    /// The step.
    #[default]
    Step,
    /// All of them.
    All,
}

impl Doing {
    /// The place of the step that is shown: the one looked at, else the one that is due.
    pub(super) fn at(&self, day: &Day<'_>) -> Option<usize> {
        let looked_at = self.looked_at.as_ref();
        looked_at
            .and_then(|key| day.place_of(key))
            .or_else(|| day.next())
    }

    /// True if something is asked, typed or counted that belongs to a step.
    pub(super) fn has_in_hand(&self) -> bool {
        let asked = !matches!(
            self.asked,
            Asked::Nothing | Asked::Person | Asked::Sitting | Asked::Reason(For::GoOn)
        );
        asked || self.recount || !self.entry.typed.as_str().is_empty() || !self.counted.is_empty()
    }

    /// Binds what is in hand to the step that it was asked at; what is bound stays so.
    pub(super) fn bind(&mut self, step: Option<&DayStep<'_>>) {
        if !self.has_in_hand() {
            self.of = None;
        } else if self.of.is_none() {
            self.of = step.map(OfStep::of);
        }
    }

    /// What is in hand goes, with nothing recorded of it.
    pub(super) fn let_go(&mut self) {
        self.ask_nothing();
        self.counted.clear();
        self.of = None;
    }

    /// Nothing is asked any more, and nothing of it is kept.
    pub(super) fn ask_nothing(&mut self) {
        self.asked = Asked::Nothing;
        (self.comes, self.going_on) = (None, None);
        (self.recount, self.anew) = (false, false);
        self.foretold.clear();
        self.field.clear();
        self.entry.typed.clear();
        self.entry.refused = None;
    }

    /// Asks something, with an empty field.
    pub(super) fn ask(&mut self, asked: Asked) {
        self.ask_nothing();
        self.asked = asked;
    }

    /// Looks at another step.
    pub(super) fn look_at(&mut self, key: Option<StepKey>) {
        self.ask_nothing();
        self.counted.clear();
        self.looked_at = key;
    }
}
