//! Approvals and readings, who gave them, and which of them still count.
//!
//! The plan and what people vouch for are kept apart. The plan is summed up in a short
//! [`Fingerprint`]; approvals, readings and the rest of the log are [`Event`]s in files of their
//! own, one file per writer, each line holding the hash of the line before it. What counts *now*
//! is never stored: [`standing()`] derives it from the events and the current plan, so that undoing an
//! edit restores what the edit had withdrawn.
//!
//! The chain of hashes finds accidents and casual edits: a changed digit, a removed, repeated or
//! foreign line, a line cut short. It is no signature: whoever recomputes every hash can rewrite a
//! file, and removing the last lines of a file leaves a sound shorter one. That is found where another
//! writer had read them, or where their end is on paper ([`HeadCode`]).
//!
//! **Deliberately absent:** a clock, files and sentences. Times are given by the caller, files are
//! bytes, reasons are a [`Message`] with an id and its arguments.

mod alike;
mod canonical;
mod event;
mod fingerprint;
mod hand;
mod head_code;
mod heads;
mod known;
mod log;
mod lost;
mod merge;
mod message;
mod names;
mod piece;
mod problem;
mod read;
mod record;
mod several;
mod standing;
mod surgery;

#[cfg(test)]
mod malformed;
#[cfg(test)]
mod samples;
#[cfg(test)]
mod texts;

pub(crate) use alike::drawn_as;
pub use canonical::LeftOut;
pub use event::{
    Approval, DrillKey, Event, EventHash, EventId, EventKind, GuideKey, ItemKey, KindFault, Piece,
    Purpose, Reading, Stage, ThingKey, ThingKind, ToldWork, Turn,
};
pub use fingerprint::{Fingerprint, FingerprintError};
pub use hand::{HandStep, Pass, PassEnd};
pub use head_code::{HeadCode, Holds, NoHeadCode};
pub(crate) use heads::TimedEvent;
pub use heads::{Head, Heads, LostEvent};
pub use known::Names;
pub use log::{AppendFault, CaseJaw, EventLine, Header, Log};
pub use lost::{LostKind, LostLine, Mended};
pub use merge::{MergeFault, Merged};
pub use message::{Argument, Message};
pub(crate) use names::is_seen_letter;
pub use names::{NameFault, Who, WriterId};
pub use piece::PieceNamed;
pub use problem::{Effect, Problem, ProblemKind};
pub use read::{LogReading, read_log, sound_log_of};
pub use record::{
    Compared, Departure, Entry, EntryKind, Given, HealingPart, Material, PlacedImplant,
    RecordCorrected, RecordSigned, Recorded, StabilityMethod,
};
pub use standing::{
    ApprovalLapse, ApprovalStanding, AskedBack, Check, ClockAhead, DECISION, DayEvent, Deviation,
    DrillNow, EventStanding, Fall, FiguresSeen, Handling, ItemStanding, JudgedEvent, Lapse,
    Mistyped, Objection, PassedOver, PlanView, PlannedItem, Policy, ReadingStanding,
    ReadingVerdict, RecordEvent, RecordSignature, SettingState, Standing, StopSince, TakenBack,
    Tolerance, Void, Withdrawn, accepted, clocks_ahead, drills_now, figures_seen_by,
    gauge_asked_back, gauge_contradicted, gauge_found_off, gauge_mistyped, gauge_now, gauge_off,
    has_alike, is_on_graduation, judge, judged_events, pass_cut_off, standing, withdrawn_by,
    without_decision,
};
pub(crate) use standing::{Purposes, is_practised};
pub use surgery::{
    Approved, ByHand, CountKind, CountLine, Counted, DrillUse, Inserted, InsertionWay, Led,
    SiteKey, Sounded, StepDone, StepKey, StepSkipped, StepTakenBack, SurgeryBegun, WhichGuide,
};
