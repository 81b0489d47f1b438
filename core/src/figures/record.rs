//! The record of a case as plain data.

use crate::dentition::{Jaw, ToothPosition};
use crate::kit::ImplantId;
use crate::plan::Worksheet;
use crate::record::{Answer, CaseRecord, ImplantRecord, Line, Said};
use crate::sign::{
    CountLine, DayEvent, Entry, EntryKind, EventId, EventKind, Fall, Piece, Purpose, RecordEvent,
    RecordSignature, StepDone, StepTakenBack,
};
use crate::surgery::done_before;
use crate::wording::Formatter;
use jiff::Timestamp;
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

/// The version of this form.
pub const RECORD_VERSION: u32 = 1;

/// The record of a case.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RecordFigures {
    /// Version of this form.
    pub traywright_record: u32,
    /// The case's reference.
    pub reference: String,
    /// The jaw.
    pub jaw: Jaw,
    /// The case's revision.
    pub revision: u32,
    /// Short name of the plan that the record is held against.
    pub fingerprint: String,
    /// For a patient or for practice.
    pub purpose: Purpose,
    /// True if the record has a break: nothing of it counts then.
    pub broken: bool,
    /// What is recorded of each implant, in the order of the plan.
    pub implants: Vec<ImplantFigures>,
    /// The count before the first cut; null: not recorded.
    pub count_in: Option<CountFigures>,
    /// The count before closing; null: not recorded.
    pub count_out: Option<CountFigures>,
    /// Instruments that are not used again.
    pub discarded: Vec<LineFigures>,
    /// The events of the day, in the order of the record.
    pub run: Vec<RunFigures>,
    /// Everything that was reported to have fallen.
    pub fallen: Vec<FallFigures>,
    /// Every signature under the record, in order.
    pub signatures: Vec<SignatureFigures>,
    /// What came since the last signature, or was not known to whoever signed.
    pub since_signed: Vec<EventFigures>,
    /// Corrections that correct nothing that stands.
    pub astray: Vec<EventFigures>,
    /// What is not recorded, in words.
    pub missing: Vec<String>,
    /// Number of things that are not recorded or on which the record differs.
    pub open: u32,
    /// What is to be seen before all else, in words.
    pub told: Vec<String>,
}

/// What is recorded of an implant.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ImplantFigures {
    /// The site in the case.
    pub site: String,
    /// Its tooth.
    pub tooth: ToothPosition,
    /// The implant that the plan has there; null: it has no such site.
    pub planned: Option<ImplantId>,
    /// The day on which it was turned in by the record, or its label was read, in UTC; null: neither is recorded.
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub on: Option<Date>,
    /// The word that no implant is placed there; absent: nobody said so, or one was placed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub not_placed: Option<NotPlacedFigures>,
    /// What is asked for, each once and in the same order.
    pub fields: Vec<FieldFigures>,
}

/// The word that no implant is placed at a site.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NotPlacedFigures {
    /// The event.
    pub event: EventId,
    /// The person who recorded it.
    pub who: String,
    /// The time.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// Who decided, and why, as it was said.
    pub reason: String,
}

/// What is recorded of one thing.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FieldFigures {
    /// The thing.
    pub of: EntryKind,
    /// How it stands.
    pub state: FieldState,
    /// What was said of it; several lines only where there may be several of it.
    pub lines: Vec<LineFigures>,
}

/// How something stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FieldState {
    /// It is recorded.
    Recorded,
    /// It is not recorded.
    NotRecorded,
    /// No implant was placed, so that there is nothing to record.
    NotPlaced,
    /// Desks that did not know of each other recorded it otherwise.
    Differs,
}

/// One thing with all that was said of it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LineFigures {
    /// How it stands.
    pub state: FieldState,
    /// What nothing corrects.
    pub stands: Vec<SaidFigures>,
    /// What was corrected since.
    pub before: Vec<SaidFigures>,
}

/// Something that was said.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SaidFigures {
    /// The event.
    pub event: EventId,
    /// The person who recorded it.
    pub who: String,
    /// The time.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// What was said; null: nothing is to stand there, or the insertion did not tell it.
    pub entry: Option<Entry>,
    /// The event that it corrects; null: none.
    pub corrects: Option<EventId>,
    /// Why it was corrected; null: it corrects nothing.
    pub reason: Option<String>,
    /// True if the last signature under the record does not cover it.
    pub since_signed: bool,
}

/// A count.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CountFigures {
    /// The event.
    pub event: EventId,
    /// The person who recorded it.
    pub who: String,
    /// The other person who counted.
    pub second: String,
    /// The time.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// What was counted.
    pub lines: Vec<CountLine>,
    /// What became of what lacks; null: nothing was said.
    pub despite: Option<String>,
    /// True if something fell that this count had not read of: it is to be counted anew. Absent: false.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub fell_since: bool,
}

/// One event of the day.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RunFigures {
    /// The event.
    pub event: EventFigures,
    /// Who said that it was recorded by mistake; null: nobody.
    pub taken_back_by: Option<String>,
    /// When that was said; null: nobody did.
    #[schemars(with = "Option<String>", extend("format" = "date-time"))]
    pub taken_back_at: Option<Timestamp>,
    /// Why; null: nothing was said.
    pub taken_back_for: Option<String>,
    /// By what it was done before, where this left out what was done by another plan; absent: by nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub done_before: Option<EventId>,
    /// The report that the drill fell whose number this bears: it was done with its spare; absent: with the drill itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spare_since: Option<EventId>,
    /// The implant that the site was planned for then, where it was changed on the table since; absent: the plan's own, or nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planned_then: Option<String>,
}

/// An event.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EventFigures {
    /// The event.
    pub event: EventId,
    /// The person who recorded it.
    pub who: String,
    /// The time.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// What happened, as the event has it; what was drilled by hand without stop and setting of its step, which were not used.
    pub what: EventKind,
}

/// Something that was reported to have fallen.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FallFigures {
    /// The event.
    pub event: EventId,
    /// The person who reported it.
    pub who: String,
    /// The time.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// The piece.
    pub piece: Piece,
    /// Who said that it was reported by mistake; null: nobody.
    pub taken_back_by: Option<String>,
}

/// A signature.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SignatureFigures {
    /// The event.
    pub event: EventId,
    /// The person who signed.
    pub who: String,
    /// The time.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// Of the plan under which it was signed.
    pub fingerprint: String,
    /// Number of things that were open then.
    pub open: u32,
    /// Number of events that it does not cover.
    pub since: usize,
}

/// The record of a case as plain data.
#[must_use]
pub fn record_figures(
    formatter: &Formatter<'_>,
    worksheet: &Worksheet,
    record: &CaseRecord<'_>,
) -> RecordFigures {
    RecordFigures {
        traywright_record: RECORD_VERSION,
        reference: worksheet.reference.clone(),
        jaw: worksheet.jaw,
        revision: worksheet.revision,
        fingerprint: record.fingerprint.to_string(),
        purpose: record.purpose,
        broken: record.broken,
        implants: record
            .implants
            .iter()
            .map(|one| implant(record, one))
            .collect(),
        count_in: record.count_in.and_then(|one| count(record, one)),
        count_out: record.count_out.and_then(|one| count(record, one)),
        discarded: lines(record, &record.discarded),
        run: record.run.iter().map(|one| run(record, one)).collect(),
        fallen: record.fallen.iter().map(fall).collect(),
        signatures: record.signatures.iter().map(signature).collect(),
        since_signed: (record.since().iter())
            .map(|one| event(record, one))
            .collect(),
        astray: (record.astray.iter())
            .map(|one| event(record, one))
            .collect(),
        missing: formatter.record_missing(record),
        open: record.open(),
        told: record
            .told
            .iter()
            .map(|told| formatter.record_told(record, told))
            .collect(),
    }
}

fn implant(record: &CaseRecord<'_>, one: &ImplantRecord<'_>) -> ImplantFigures {
    let fields = one.fields.iter().map(|field| {
        let differs = field.lines.iter().any(Line::differs);
        FieldFigures {
            of: field.kind,
            state: match (field.is_empty(), differs) {
                (true, _) if field.not_placed => FieldState::NotPlaced,
                (true, _) => FieldState::NotRecorded,
                (_, true) => FieldState::Differs,
                (_, false) => FieldState::Recorded,
            },
            lines: lines(record, &field.lines),
        }
    });
    ImplantFigures {
        site: one.site.site.clone(),
        tooth: one.site.tooth,
        planned: one.planned().cloned(),
        on: one.on,
        not_placed: one.not_placed.and_then(not_placed),
        fields: fields.collect(),
    }
}

fn not_placed(one: &DayEvent) -> Option<NotPlacedFigures> {
    let EventKind::StepSkipped(skipped) = &one.kind else {
        return None;
    };
    Some(NotPlacedFigures {
        event: one.id.clone(),
        who: one.who.to_string(),
        at: one.at,
        reason: skipped.reason.clone(),
    })
}

fn lines(record: &CaseRecord<'_>, lines: &[Line<'_>]) -> Vec<LineFigures> {
    let lines = lines.iter().map(|line| LineFigures {
        state: match line.answer() {
            Answer::NotRecorded => FieldState::NotRecorded,
            Answer::Recorded(_) => FieldState::Recorded,
            Answer::Differs(_) => FieldState::Differs,
        },
        stands: line.last.iter().map(|one| said(record, one)).collect(),
        before: line.before.iter().map(|one| said(record, one)).collect(),
    });
    lines.collect()
}

fn said(record: &CaseRecord<'_>, said: &Said<'_>) -> SaidFigures {
    SaidFigures {
        event: said.id.clone(),
        who: said.who.to_string(),
        at: said.at,
        entry: said.entry.clone(),
        corrects: said.corrects.map(|(of, _)| of.clone()),
        reason: said.corrects.map(|(_, reason)| reason.to_owned()),
        since_signed: record.is_since(&said.id),
    }
}

fn count(record: &CaseRecord<'_>, one: &DayEvent) -> Option<CountFigures> {
    let EventKind::Counted(counted) = &one.kind else {
        return None;
    };
    Some(CountFigures {
        event: one.id.clone(),
        who: one.who.to_string(),
        second: counted.second.to_string(),
        at: one.at,
        lines: counted.lines.clone(),
        despite: counted.despite.clone(),
        fell_since: record.is_reopened(one),
    })
}

fn run(record: &CaseRecord<'_>, one: &DayEvent) -> RunFigures {
    RunFigures {
        event: EventFigures {
            event: one.id.clone(),
            who: one.who.to_string(),
            at: one.at,
            what: as_done(record, &one.kind),
        },
        done_before: done_before(record.run, one).map(|done| done.id.clone()),
        spare_since: one.spare_since.clone(),
        planned_then: record.planned_then(one).map(ToOwned::to_owned),
        taken_back_by: one.taken_back.as_ref().map(ToString::to_string),
        taken_back_at: one.back.as_ref().map(|back| back.at),
        taken_back_for: one.back.as_ref().and_then(|back| back.reason.clone()),
    }
}

fn event(record: &CaseRecord<'_>, one: &RecordEvent) -> EventFigures {
    EventFigures {
        event: one.id.clone(),
        who: one.who.to_string(),
        at: one.at,
        what: as_done(record, &one.kind),
    }
}

/// What happened; of what was drilled by hand, and of what took that back, without the setting that was not used.
fn as_done(record: &CaseRecord<'_>, kind: &EventKind) -> EventKind {
    let by_hand =
        |kind: &EventKind| matches!(kind, EventKind::StepDone(done) if done.by_hand.is_some());
    match kind {
        EventKind::StepDone(done) if by_hand(kind) => EventKind::StepDone(StepDone {
            step: done.step.by_hand(),
            ..done.clone()
        }),
        EventKind::StepTakenBack(back) => {
            let mut run = record.run.iter();
            let of = run.find(|one| one.id == back.event);
            EventKind::StepTakenBack(StepTakenBack {
                step: match of {
                    Some(one) if by_hand(&one.kind) => back.step.by_hand(),
                    _ => back.step.clone(),
                },
                ..back.clone()
            })
        }
        kind => kind.clone(),
    }
}

fn fall(one: &Fall) -> FallFigures {
    FallFigures {
        event: one.id.clone(),
        who: one.who.to_string(),
        at: one.at,
        piece: one.piece.clone(),
        taken_back_by: one.taken_back.as_ref().map(ToString::to_string),
    }
}

fn signature(one: &RecordSignature) -> SignatureFigures {
    SignatureFigures {
        event: one.id.clone(),
        who: one.who.to_string(),
        at: one.at,
        fingerprint: one.signed.fingerprint.to_string(),
        open: one.signed.open,
        since: one.since.len(),
    }
}
