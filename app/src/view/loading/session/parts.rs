//! The parts of a session: its phases and steps, what a person does, what is recorded of it.

use crate::view::loading::task::Unasked;
use traywright_core::kit::Label;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, FiguresSeen, NameFault, Pass, Stage, Who};

/// The phase of a session.
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
    /// It is laid in its slot.
    Place,
    /// It is taken, set, locked, tugged and read, all recorded with the figure that is read.
    SetAndRead,
    /// It is laid with one press, with all that comes before.
    Lay,
}

impl Step {
    /// True if it ends with a figure that is read.
    #[must_use]
    pub const fn is_reading(self) -> bool {
        matches!(self, Self::Read | Self::SetAndRead)
    }
}

/// The state of a thing's task.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Now {
    /// This step.
    Do(Step),
    /// Nothing: it is where it belongs.
    Done,
    /// Nothing more: the tray has no slot for it.
    NoSlot,
    /// Nothing: it fell, and there is no other.
    NoneLeft,
    /// Nothing: nobody asks for it.
    Unasked(Unasked),
    /// Nothing: it is not to be set.
    Blocked,
    /// Nothing yet: it is set so only when its stop is set anew in surgery.
    Later,
    /// Nothing any more: its stop was set anew since.
    Passed,
}

impl Now {
    /// True if something is to be done with it.
    #[must_use]
    pub const fn is_due(self) -> bool {
        matches!(self, Self::Do(_))
    }
}

/// An action of a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Input {
    /// Begins a pass.
    Begin(Stage, Pass),
    /// Types a digit.
    Digit(u8),
    /// Types the decimal mark.
    Mark,
    /// Types a sign of a code.
    Sign(char),
    /// Takes the last sign away.
    Back,
    /// Accepts what is typed.
    Enter,
    /// Says that the step is done.
    Done,
    /// Wants the steps one by one, or again all of a thing at once.
    Singly,
    /// Looks at the thing before.
    Previous,
    /// Looks at the next thing.
    Next,
    /// Looks at this thing.
    Go(usize),
    /// Gives initials.
    Initials(String),
    /// Wants to choose the stage anew.
    OtherStage,
    /// Wants to give other initials.
    OtherPerson,
    /// Says that the stop was moved, or is to be set anew.
    Reset,
    /// Says that the thing in hand fell.
    Fell,
    /// Says that the thing in hand did not fall, as was reported by mistake.
    DidNotFall,
    /// Says that the gauge fell, or is to be checked again.
    Gauge(GaugeFell),
    /// Unseals the thing in hand, or begins to set it anew in surgery.
    Open,
    /// Ends a pass without figures before all is read.
    End,
}

/// The reason why a gauge is checked again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GaugeFell {
    /// It fell.
    Yes,
    /// To be sure.
    No,
}

/// Something to be recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Effect {
    /// By whom.
    pub who: Who,
    /// What.
    pub kind: EventKind,
}

/// A reason why an input was not taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refused {
    /// The text typed is no length.
    NoLength,
    /// The text typed is none that the gauge could show: too many figures or too few.
    Mistyped(String),
    /// No thing of the kit has this code.
    UnknownCode(String),
    /// The code of this thing was given, and nothing is taken now.
    CodeNotAsked(Label),
    /// Something else came to be asked for while it was typed.
    MovedOn,
    /// It is no name and no initials.
    Name(NameFault),
    /// Nobody of the case used these initials before. Given once more they count.
    New {
        /// As they were given.
        who: Who,
        /// The person of the case whose name is nearly the same, where there is one.
        near: Option<Who>,
    },
    /// Nothing was given: this person's pass was cut off, and is to be taken up.
    CutOff(Who),
    /// The person who reads aloud and the one who enters may be one.
    SamePerson(Who),
    /// The person saw a figure of the case in this session, on this occasion.
    Saw(Who, FiguresSeen),
    /// The figure looks mistyped rather than read of a gauge that is off. Typed once more it counts.
    GaugeMistyped(Length),
    /// The gauge shows no such figure of its check piece: it was mistyped, and does not count however often it is typed.
    GaugeNoFigure(Length),
    /// The figure speaks against the gauge. The next that does counts.
    GaugeDoubted(Length),
    /// The gauge does not show its check piece right: by so much too much.
    GaugeOff(Length),
}
