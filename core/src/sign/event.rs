//! One thing that happened to a case: an approval, a reading, a fall.

mod check;
mod hash;

pub use check::KindFault;
pub use hash::EventHash;

use super::fingerprint::Fingerprint;
use super::hand::{HandStep, Pass, PassEnd};
use super::heads::Heads;
use super::lost::LostKind;
use super::names::{Who, WriterId};
use super::piece::PieceNamed;
use super::record::{RecordCorrected, RecordSigned, Recorded};
use super::surgery::{
    Counted, Inserted, Sounded, StepDone, StepSkipped, StepTakenBack, SurgeryBegun,
};
use crate::kit::SlotKind;
use crate::measure::Length;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::fmt;
use std::num::NonZeroU32;

/// One line of an event file below the header.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Event {
    /// The desk whose file this is.
    pub writer: WriterId,
    /// Place in the file, from 1 without gaps.
    #[schemars(range(min = 1))]
    pub seq: u64,
    /// Time, by the clock of the writer.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: jiff::Timestamp,
    /// The person who acted.
    pub who: Who,
    /// The kind of event, with its details.
    #[serde(rename = "what")]
    pub kind: EventKind,
    /// The last event of each other desk that this one had read. What is in it came before, whatever
    /// the clocks say; absent: none, or written by a program that did not say.
    #[serde(default, skip_serializing_if = "Heads::is_empty")]
    pub seen: Heads,
    /// Hash of the line before; of the header for the first event, so that a file cannot be given
    /// to another case or jaw by changing its header.
    pub prev_hash: EventHash,
    /// Hash of everything above, so that an edit of the last line shows as well.
    pub hash: EventHash,
}

/// Place of an event: the writer's file and the line in it.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct EventId {
    /// The desk.
    pub writer: WriterId,
    /// Place in its file, from 1.
    #[schemars(range(min = 1))]
    pub seq: u64,
}

/// The kind of event, with its details. In JSON the key `kind` names it in `snake_case`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum EventKind {
    /// Somebody approves the plan of this fingerprint.
    Approval(Approval),
    /// Every earlier approval of this fingerprint is taken back.
    ApprovalWithdrawn {
        /// Of the plan whose approvals are taken back.
        fingerprint: Fingerprint,
        /// In the person's own words.
        #[schemars(length(min = 1, max = 4000))]
        reason: String,
    },
    /// Somebody read a drill on the gauge.
    Reading(Reading),
    /// A hand did something to the stop of a drill. What was read of the drill before is of no
    /// worth after it.
    Handled {
        /// The drill as it is to be set.
        item: ItemKey,
        /// The work done.
        step: HandStep,
        /// For a patient or for practice.
        purpose: Purpose,
    },
    /// The stop of a drill was moved or taken off.
    Reset {
        /// The physical drill.
        drill: DrillKey,
        /// The setting in the plan to which it is then set, where it goes on to a later one or
        /// back: number of times that it was set anew in surgery before, 0 for the one that it is
        /// laid with.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        to: Option<u32>,
        /// The setting that it was at before, where the plan goes on from it although it was not read
        /// as it had to be: its step is over or left out, and that is told.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        passed_over: Option<ItemKey>,
        /// For a patient or for practice; absent: written by a program that did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        purpose: Option<Purpose>,
    },
    /// Something fell.
    Dropped {
        /// The thing that fell.
        piece: Piece,
        /// For a patient or for practice; absent: written by a program that did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        purpose: Option<Purpose>,
    },
    /// A fall was reported by mistake. It takes no piece from stock; what is at hand is read anew, since
    /// nobody knows any more which piece that is.
    FallTakenBack {
        /// The report of the fall.
        fall: EventId,
        /// The thing that did not fall.
        piece: Piece,
        /// For a patient or for practice.
        purpose: Purpose,
    },
    /// The stop of a drill landed on its sleeve.
    Landed {
        /// The physical drill.
        drill: DrillKey,
        /// Number of landings since the last such event.
        times: NonZeroU32,
        /// For a patient or for practice; absent: written by a program that did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        purpose: Option<Purpose>,
    },
    /// A drill was put into a slot of the tray.
    Placed {
        /// The drill as it is set.
        item: ItemKey,
        /// The slot's name.
        #[schemars(length(min = 1, max = 200))]
        slot: String,
        /// For a patient or for practice; absent: written by a program that did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        purpose: Option<Purpose>,
    },
    /// Something that carries no setting, or is still sealed, was put on the tray or taken off it.
    #[serde(rename = "laid")]
    ThingPlaced {
        /// The thing.
        thing: ThingKey,
        /// The slot's name; none where it was taken off the tray again.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        slot: Option<String>,
        /// For a patient or for practice; absent: written by a program that did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        purpose: Option<Purpose>,
    },
    /// A STOP told somebody to take a thing. Until it is recorded that it was taken, set or laid, a hand may have done so:
    /// nobody knows where it lies, nor how it is set.
    Told {
        /// The thing.
        thing: ThingKey,
        /// The work told.
        work: ToldWork,
        /// For a patient or for practice.
        purpose: Purpose,
    },
    /// A thing was taken out of its wrapping.
    Opened {
        /// The thing.
        thing: ThingKey,
        /// For a patient or for practice.
        purpose: Purpose,
    },
    /// Something that has no slot was seen to be there.
    Beside {
        /// The thing, as the desk then called it.
        #[schemars(length(min = 1, max = 4000))]
        what: String,
        /// The stage at which it was there.
        stage: Stage,
        /// For a patient or for practice.
        purpose: Purpose,
    },
    /// Somebody begins to set and read the drills, or to read them without sight of a figure.
    PassBegun {
        /// The stage of its readings.
        stage: Stage,
        /// The work of the pass.
        pass: Pass,
    },
    /// A pass without figures is over.
    PassEnded {
        /// The stage of its readings.
        stage: Stage,
        /// The way it ended.
        end: PassEnd,
    },
    /// The gauge was read on its check piece, as each session opens.
    GaugeChecked {
        /// The gauge.
        #[schemars(length(min = 1, max = 200))]
        gauge: String,
        /// The length marked on the check piece.
        #[schemars(range(min = 0.001, max = 2000))]
        piece_mm: Length,
        /// The gauge's figure.
        #[schemars(range(min = 0.001, max = 2000))]
        value_mm: Length,
        /// Figures entered before this one and asked back, in their order: one that speaks against the
        /// gauge counts once it is entered again.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        #[schemars(inner(range(min = 0.001, max = 2000)))]
        asked_back_mm: Vec<Length>,
        /// For a patient or for practice; absent: written by a program that did not say.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        purpose: Option<Purpose>,
    },
    /// A figure that the gauge was said to show of its check piece was asked back. It counts with the gauge's next
    /// check, whoever makes it.
    GaugeAskedBack {
        /// The gauge.
        #[schemars(length(min = 1, max = 200))]
        gauge: String,
        /// The length marked on the check piece.
        #[schemars(range(min = 0.001, max = 2000))]
        piece_mm: Length,
        /// The figure.
        #[schemars(range(min = 0.001, max = 2000))]
        value_mm: Length,
        /// For a patient or for practice.
        purpose: Purpose,
    },
    /// Surgery is begun, or gone on with.
    SurgeryBegun(SurgeryBegun),
    /// A step of surgery was done.
    StepDone(StepDone),
    /// A step of surgery was left out.
    StepSkipped(StepSkipped),
    /// What was recorded of a step of surgery was recorded by mistake.
    StepTakenBack(StepTakenBack),
    /// A site was sounded through the seated guide.
    Sounded(Sounded),
    /// An implant was turned in, or begun.
    Inserted(Inserted),
    /// Everything was counted by two people.
    Counted(Counted),
    /// Something was entered for the record.
    Recorded(Recorded),
    /// Something of the record was not so.
    RecordCorrected(RecordCorrected),
    /// The record was signed.
    RecordSigned(RecordSigned),
    /// Somebody said which piece of the kit's stock a drill on the tray is.
    PieceNamed(PieceNamed),
    /// A damaged event file was put aside. Nothing that was signed before, or without knowing of this,
    /// counts any more.
    SetAside {
        /// The desk whose file it was.
        of: WriterId,
        /// The name under which it is kept.
        #[schemars(length(min = 1, max = 200))]
        file: String,
        /// Its content.
        content: EventHash,
    },
    /// Anything else worth keeping.
    Note {
        /// In the person's own words.
        #[schemars(length(min = 1, max = 4000))]
        text: String,
    },
    /// The rest of a line that was never finished was put aside, and what it was to record is read from it: something whose
    /// loss lets nothing count that should not. Any other rest is recorded as put aside (`set_aside`).
    LineLost {
        /// The name under which the rest is kept.
        #[schemars(length(min = 1, max = 200))]
        file: String,
        /// Its content.
        content: EventHash,
        /// What it was to record.
        lost: LostKind,
        /// The person who was to be recorded with it.
        by: Who,
    },
}

impl Event {
    /// Everybody whom it names: who acted, and who did so together with that person or was to be recorded.
    pub fn people(&self) -> impl Iterator<Item = &Who> {
        let beside = match &self.kind {
            EventKind::Reading(reading) => reading.entered_by.as_ref(),
            EventKind::LineLost { by, .. } => Some(by),
            EventKind::Counted(counted) => Some(&counted.second),
            EventKind::Recorded(recorded) => recorded.entry.second(),
            EventKind::RecordCorrected(corrected) => {
                corrected.to.as_ref().and_then(super::Entry::second)
            }
            _ => None,
        };
        std::iter::once(&self.who).chain(beside)
    }
}

/// The extent of an approval.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Approval {
    /// Of the plan that was approved.
    pub fingerprint: Fingerprint,
    /// The extent of that fingerprint, by number; absent: the first.
    #[serde(default = "first", skip_serializing_if = "is_first")]
    pub covers: u32,
    /// Its revision, for people; the fingerprint decides.
    pub revision: u32,
    /// The findings that the person saw accepted: the key of each and what it showed.
    pub accepted: BTreeSet<String>,
    /// For a patient or for practice.
    pub purpose: Purpose,
}

const fn first() -> u32 {
    1
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks with a reference"
)]
const fn is_first(covers: &u32) -> bool {
    *covers == 1
}

/// A figure read on the gauge, and the drill it was read of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// The drill as the plan then had it set.
    pub item: ItemKey,
    /// The gauge that was used.
    #[schemars(length(min = 1, max = 200))]
    pub gauge: String,
    /// The gauge's figure.
    #[schemars(range(min = 0.001, max = 2000))]
    pub value_mm: Length,
    /// The stage at which it was taken.
    pub stage: Stage,
    /// First or second reading.
    pub turn: Turn,
    /// For a patient or for practice.
    pub purpose: Purpose,
    /// The person who entered it, where the figure was read aloud by another, neither seeing what it
    /// should be.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub entered_by: Option<Who>,
}

/// One physical drill: the kit's drill and which of several equal ones.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct DrillKey {
    /// The kit's drill.
    #[schemars(length(min = 1, max = 200))]
    pub drill: String,
    /// Ordinal among the equal ones on the tray, from 1.
    pub copy: NonZeroU32,
}

/// A physical drill with its stop at a setting: what a reading vouches for.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct ItemKey {
    /// The kit's drill.
    #[schemars(length(min = 1, max = 200))]
    pub drill: String,
    /// Ordinal among the equal ones on the tray, from 1.
    pub copy: NonZeroU32,
    /// The kit's stop; none when the drill is used by its marks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<String>,
    /// Set length, drill tip to landing face.
    #[schemars(range(min = 0.001, max = 2000))]
    pub setting_mm: Length,
    /// Of drill and stop as the kit then had them: with others under the same ids nothing recorded of these counts.
    /// Absent: written by a program that did not say, so that nobody knows which they were.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kit_code: Option<Fingerprint>,
}

/// A thing on the tray that carries no setting: a sleeve, a pin, an implant in its wrapping.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct ThingKey {
    /// The kind of thing.
    pub of: SlotKind,
    /// Its id in the kit.
    pub entry: String,
    /// Ordinal among the equal ones on the tray, from 1.
    pub copy: NonZeroU32,
}

/// A thing of the kit, any of several equal ones.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ThingKind {
    /// The kind of thing.
    pub of: SlotKind,
    /// Its id in the kit's list of that kind.
    pub entry: String,
    /// Which of the equal ones on the tray, where its wrapping and slot tell them apart, as those of implants do; none where
    /// nobody knows which it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub copy: Option<NonZeroU32>,
}

/// A thing that fell.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Piece {
    /// A drill, with its stop.
    Drill(DrillKey),
    /// A depth gauge.
    Gauge(String),
    /// The surgical guide.
    Guide(GuideKey),
    /// Anything that carries no setting.
    Thing(ThingKind),
    /// The same as older programs recorded it, by its id alone: of whatever list.
    Other(String),
}

/// A surgical guide, by what stands on it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GuideKey {
    /// Its code; none where the plan knew none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<String>,
}

/// The work with a thing that a STOP told somebody to take.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ToldWork {
    /// It is taken off its slot, and stays as it is.
    Take,
    /// Its stop is set anew or comes off: what was read of it before counts no more.
    SetAnew,
}

/// The purpose of an event: a patient or practice; practice never counts.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Purpose {
    /// A real case.
    Patient,
    /// A demonstration.
    Practice,
}

/// The stage at which a reading was taken.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Before sterilisation.
    Bench,
    /// In the sterile field, before use.
    SterileField,
    /// After the drill was used.
    AfterUse,
}

/// First or second reading of a setting; each is made without sight of the other.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Turn {
    /// By the person who set the stop.
    First,
    /// By another person.
    Second,
}

impl Event {
    /// Place of the event: its writer and its line.
    #[must_use]
    pub fn id(&self) -> EventId {
        EventId {
            writer: self.writer.clone(),
            seq: self.seq,
        }
    }

    /// The hash that the event has to bear.
    #[must_use]
    pub fn computed_hash(&self) -> EventHash {
        EventHash::of(self, |above, key| above.is_empty() && key == "hash")
    }

    /// Its line in the file, without the line's end.
    #[must_use]
    pub fn line(&self) -> String {
        text(self)
    }
}

impl EventKind {
    /// The kinds that this version knows, as they are written in files.
    pub const NAMES: [&'static str; 31] = [
        "approval",
        "approval_withdrawn",
        "reading",
        "handled",
        "reset",
        "dropped",
        "fall_taken_back",
        "landed",
        "placed",
        "laid",
        "told",
        "opened",
        "beside",
        "pass_begun",
        "pass_ended",
        "gauge_checked",
        "gauge_asked_back",
        "surgery_begun",
        "step_done",
        "step_skipped",
        "step_taken_back",
        "sounded",
        "inserted",
        "counted",
        "recorded",
        "record_corrected",
        "record_signed",
        "piece_named",
        "set_aside",
        "note",
        "line_lost",
    ];
}

impl ItemKey {
    /// The physical drill that carries the stop.
    #[must_use]
    pub fn drill_key(&self) -> DrillKey {
        DrillKey {
            drill: self.drill.clone(),
            copy: self.copy,
        }
    }

    /// True if another is this drill with this stop at this setting, whichever drill and stop the kit had under their ids.
    #[must_use]
    pub fn is_set_as(&self, other: &Self) -> bool {
        let drill = self.is_drill(&other.drill_key());
        drill && (&self.stop, self.setting_mm) == (&other.stop, other.setting_mm)
    }

    /// True if it is this physical drill, at whatever setting.
    #[must_use]
    pub fn is_drill(&self, drill: &DrillKey) -> bool {
        self.drill == drill.drill && self.copy == drill.copy
    }
}

impl ThingKey {
    /// The piece that falls when it falls: a drill as a drill, whether or not its setting is known.
    #[must_use]
    pub fn piece(&self) -> Piece {
        match self.of {
            SlotKind::Drill => Piece::Drill(DrillKey {
                drill: self.entry.clone(),
                copy: self.copy,
            }),
            of => Piece::Thing(ThingKind {
                of,
                entry: self.entry.clone(),
                copy: (of == SlotKind::Implant).then_some(self.copy),
            }),
        }
    }
}

impl ThingKind {
    /// True if it may be this thing.
    #[must_use]
    pub fn may_be(&self, thing: &ThingKey) -> bool {
        let same = self.copy.is_none_or(|copy| copy == thing.copy);
        same && (self.of, &self.entry) == (thing.of, &thing.entry)
    }
}

/// A value of this room as JSON text, keys in the order of the type.
pub(super) fn text<T: Serialize>(value: &T) -> String {
    serde_json::to_string(value).unwrap_or_else(|e| unreachable!("plain data becomes JSON: {e}"))
}

impl fmt::Display for EventId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.writer, self.seq)
    }
}

impl fmt::Display for DrillKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({})", self.drill, self.copy)
    }
}
