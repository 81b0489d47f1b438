//! The record of a case: what was placed at each site and what became of it, what the whole day brought, who signed.
//!
//! Pure: no clock, no file, no state. It follows from the worksheet and from what counts of the events ([`Standing`]), and
//! nothing of it is kept. What nobody recorded is *not recorded*: no plan and no default takes its place. A correction
//! hides nothing: what stood before is told behind it. Where two desks answered otherwise without having read each other, both
//! answers stand until somebody settles it.
//!
//! The scope is that of ISO 16498:2013 (minimal data set for clinical use: where each implant body is and of what type, what
//! is connected to it, graft materials), with what a day of surgery brings beside: torque, stability, depth, counts.

mod chain;
mod identify;
mod label;
mod told;

#[cfg(test)]
mod tests;

pub use chain::{Answer, Line, Said};
pub use identify::{Identified, by_its_label, identify};
pub use label::{Label, read_day, read_label};
pub use told::{Missing, Told};

use crate::case::ValidCase;
use crate::kit::ImplantId;
use crate::plan::{SiteSheet, Worksheet};
use crate::sign::{
    DayEvent, EntryKind, EventId, EventKind, Fall, Fingerprint, PlanView, Purpose, RecordEvent,
    RecordSignature, SiteKey, Standing, StepKey,
};
use crate::surgery::{Day, State, day};
use chain::Chains;
use jiff::civil::Date;
use jiff::tz::Offset;
use std::collections::BTreeSet;

/// The record of a case.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseRecord<'a> {
    /// For a patient or for practice.
    pub purpose: Purpose,
    /// True if the record has a break, so that nothing of it counts.
    pub broken: bool,
    /// Of the plan that it is held against.
    pub fingerprint: Fingerprint,
    /// The sites, in the order of the plan; behind them those that only the record knows.
    pub implants: Vec<ImplantRecord<'a>>,
    /// Everything counted before the first cut.
    pub count_in: Option<&'a DayEvent>,
    /// Everything counted before closing.
    pub count_out: Option<&'a DayEvent>,
    /// True if something fell that the count before closing had not read of: it is to be counted anew.
    pub fell_since: bool,
    /// Instruments that are not used again.
    pub discarded: Vec<Line<'a>>,
    /// Drills to discard, to send back or to look at by their wear, in words, as the desk that shows it has them counted; none where it
    /// has no kit with limits.
    pub worn: Vec<String>,
    /// The events of the day in order, also what was taken back.
    pub run: &'a [DayEvent],
    /// Everything that fell, in order, also what was said to have been reported by mistake.
    pub fallen: &'a [Fall],
    /// Every signature, in order.
    pub signatures: &'a [RecordSignature],
    /// Corrections that correct nothing that stands: what they name was taken back, is not there or is of another site.
    pub astray: Vec<&'a RecordEvent>,
    /// What is not recorded, in the order of the record.
    pub missing: Vec<Missing>,
    /// What is to be seen before all else.
    pub told: Vec<Told>,
}

/// What is recorded of an implant.
#[derive(Debug, Clone, PartialEq)]
pub struct ImplantRecord<'a> {
    /// Its site.
    pub site: SiteKey,
    /// Its figures; none where the plan has no such site any more.
    pub sheet: Option<&'a SiteSheet>,
    /// What was recorded, [`EntryKind::OF_IMPLANT`] in that order.
    pub fields: Vec<FieldRecord<'a>>,
    /// The day on which it was turned in, by the record, in UTC; else that on which its label was read.
    pub on: Option<Date>,
    /// The word that no implant is placed there, with who decided it and why; none where nobody said so, or one was placed.
    pub not_placed: Option<&'a DayEvent>,
}

/// What is recorded of one thing.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldRecord<'a> {
    /// The thing.
    pub kind: EntryKind,
    /// What was recorded of it: at most one line, but of what there may be several of ([`EntryKind::is_several`]).
    pub lines: Vec<Line<'a>>,
    /// True where no implant was placed, so that there is nothing of this to record.
    pub not_placed: bool,
}

/// The record of a plan by what counts under it.
///
/// `view` has to be the plan view of this worksheet, `standing` what counts under it.
#[must_use]
pub fn record<'a>(
    case: &'a ValidCase,
    worksheet: &'a Worksheet,
    (view, standing): (&'a PlanView, &'a Standing),
) -> CaseRecord<'a> {
    let day = day(case, worksheet, (view, standing));
    let chains = Chains::of(standing);
    let implants: Vec<ImplantRecord<'a>> = sites(worksheet, standing)
        .into_iter()
        .map(|(site, sheet)| implant(site, sheet, (&chains, standing, &day)))
        .collect();
    let discarded = chains.lines(None, EntryKind::Discarded);
    let fell_since = day.steps.iter().any(|step| step.fell_since);
    let mut record = CaseRecord {
        fell_since,
        purpose: view.purpose,
        broken: standing.broken,
        fingerprint: worksheet.fingerprint,
        count_in: counted(standing, |step| matches!(step, StepKey::CountIn { .. })),
        count_out: counted(standing, |step| matches!(step, StepKey::CountOut { .. })),
        astray: chains.astray(standing),
        implants,
        discarded,
        worn: Vec::new(),
        run: &standing.day,
        fallen: &standing.fallen,
        signatures: &standing.signatures,
        missing: Vec::new(),
        told: Vec::new(),
    };
    record.missing = told::missing(&record, &day);
    record.told = told::told(&record, &day, &case.kit);
    record
}

impl<'a> CaseRecord<'a> {
    /// Number of things that are not recorded or on which the record differs: what a signature says was open.
    #[must_use]
    pub fn open(&self) -> u32 {
        let differ = self.lines().filter(|line| line.differs()).count();
        u32::try_from(self.missing.len() + differ + self.astray.len()).unwrap_or(u32::MAX)
    }

    /// The last signature of which nothing is known to come after: of several, none of which had read the other, the last in
    /// the order of the record.
    #[must_use]
    pub fn signature(&self) -> Option<&'a RecordSignature> {
        self.signatures.last()
    }

    /// What came since the record was last signed, or was not known to whoever signed; nothing where nobody did.
    #[must_use]
    pub fn since(&self) -> &'a [RecordEvent] {
        self.signature().map_or(&[], |last| &last.since)
    }

    /// True for the count before closing, where something fell since.
    #[must_use]
    pub fn is_reopened(&self, one: &DayEvent) -> bool {
        let out = self.count_out.filter(|_| self.fell_since);
        out.is_some_and(|out| out.id == one.id)
    }

    /// The implant that a site was planned for as something was cut there, where a change on the table gave it another one since;
    /// none where it did not, or did not say from which.
    #[must_use]
    pub fn planned_then(&self, one: &DayEvent) -> Option<&'a str> {
        let site = one.step().filter(|step| step.is_in_bone())?.site()?;
        let since = self.run.iter().skip_while(|other| other.id != one.id);
        let changed = since.filter(|other| other.stands());
        let mut changed = changed.filter_map(|other| match other.step() {
            Some(StepKey::ImplantChanged { site: at, from, .. }) if at.site == site.site => {
                Some(from.as_deref())
            }
            _ => None,
        });
        changed.next().flatten()
    }

    /// True if an event came since the last signature.
    #[must_use]
    pub fn is_since(&self, id: &EventId) -> bool {
        self.since().iter().any(|one| one.id == *id)
    }

    /// True if the last signature was given under another plan.
    #[must_use]
    pub fn is_signed_otherwise(&self) -> bool {
        let last = self.signature();
        last.is_some_and(|last| last.signed.fingerprint != self.fingerprint)
    }

    /// All lines of all sites and of the case.
    fn lines(&self) -> impl Iterator<Item = &Line<'a>> {
        let fields = self.implants.iter().flat_map(|one| &one.fields);
        fields.flat_map(|one| &one.lines).chain(&self.discarded)
    }
}

impl<'a> ImplantRecord<'a> {
    /// What is recorded of one thing.
    #[must_use]
    pub fn field(&self, kind: EntryKind) -> Option<&FieldRecord<'a>> {
        self.fields.iter().find(|field| field.kind == kind)
    }

    /// The planned implant; none where the plan has no such site any more.
    #[must_use]
    pub fn planned(&self) -> Option<&'a ImplantId> {
        self.sheet.map(|sheet| &sheet.implant)
    }
}

impl<'a> FieldRecord<'a> {
    /// What stands, each line by itself.
    #[must_use]
    pub fn answers(&self) -> Vec<Answer<'_, 'a>> {
        let lines = self.lines.iter().map(Line::answer);
        let told: Vec<_> = lines
            .filter(|one| !matches!(one, Answer::NotRecorded))
            .collect();
        if told.is_empty() {
            vec![Answer::NotRecorded]
        } else {
            told
        }
    }

    /// True if nothing of it stands, and there is something to record.
    #[must_use]
    pub fn is_missing(&self) -> bool {
        self.is_empty() && !self.not_placed
    }

    /// True if nothing of it stands.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.lines
            .iter()
            .all(|line| matches!(line.answer(), Answer::NotRecorded))
    }

    /// The one answer that stands; none where nothing does, or several.
    #[must_use]
    pub fn one(&self) -> Option<&Said<'a>> {
        match self.answers()[..] {
            [Answer::Recorded(said)] => Some(said),
            _ => None,
        }
    }
}

/// The last count of its kind in this sitting that was not taken back.
fn counted(standing: &Standing, is: impl Fn(&StepKey) -> bool) -> Option<&DayEvent> {
    let counts = standing.day.iter().rev();
    let mut counts = counts.filter(|one| one.counts());
    counts.find(|one| matches!(one.kind, EventKind::Counted(_)) && one.step().is_some_and(&is))
}

/// The sites of the plan, and those that only the record knows.
fn sites<'a>(
    worksheet: &'a Worksheet,
    standing: &Standing,
) -> Vec<(SiteKey, Option<&'a SiteSheet>)> {
    let planned = worksheet.sites.iter().map(|sheet| {
        let key = SiteKey {
            site: sheet.id.to_string(),
            tooth: sheet.tooth,
        };
        (key, Some(sheet))
    });
    let mut sites: Vec<_> = planned.collect();
    let entered = standing.entries.iter().filter_map(|one| match &one.kind {
        EventKind::Recorded(recorded) => recorded.entry.site(),
        _ => None,
    });
    let inserted = standing.day.iter().filter(|one| one.stands());
    let inserted = inserted.filter_map(|one| match &one.kind {
        EventKind::Inserted(inserted) => inserted.step.site(),
        _ => None,
    });
    // By tooth and name: whatever order the desks are read in.
    let others: BTreeSet<&SiteKey> = entered.chain(inserted).collect();
    for other in others {
        if !sites.iter().any(|(site, _)| site.site == other.site) {
            sites.push((other.clone(), None));
        }
    }
    sites
}

fn implant<'a>(
    site: SiteKey,
    sheet: Option<&'a SiteSheet>,
    (chains, standing, day): (&Chains<'a>, &Standing, &Day<'a>),
) -> ImplantRecord<'a> {
    let mut fields: Vec<FieldRecord<'a>> = EntryKind::OF_IMPLANT
        .into_iter()
        .map(|kind| FieldRecord {
            kind,
            lines: chains.lines(Some(&site), kind),
            not_placed: false,
        })
        .collect();
    let not_placed = not_placed(&site, &fields, (standing, day));
    let is_cut = is_cut(&site, standing);
    for field in &mut fields {
        // What was cut is grafted or left, and closed, also without an implant.
        let of_bone = matches!(field.kind, EntryKind::Graft | EntryKind::Closure);
        field.not_placed = not_placed.is_some() && !(of_bone && is_cut);
    }
    let inserted = standing.day.iter().rev().find(|one| {
        let told = one.kind.of_insertion(EntryKind::Torque);
        one.stands() && told.is_some_and(|(of, _)| of.site == site.site)
    });
    let read = fields
        .first()
        .and_then(FieldRecord::one)
        .map(|said| said.at);
    let on = inserted.map(|one| one.at).or(read);
    ImplantRecord {
        site,
        sheet,
        fields,
        on: on.map(|at| Offset::UTC.to_datetime(at).date()),
        not_placed,
    }
}

/// The word that the implant of a site is left out, where nothing is recorded of one that was placed.
fn not_placed<'a>(
    site: &SiteKey,
    fields: &[FieldRecord<'a>],
    (standing, day): (&Standing, &Day<'a>),
) -> Option<&'a DayEvent> {
    let of_implant = |field: &&FieldRecord<'_>| {
        !matches!(
            field.kind,
            EntryKind::Graft | EntryKind::Closure | EntryKind::Deviation
        )
    };
    let here = |step: &StepKey| step.site().is_some_and(|of| of.site == site.site);
    let mut events = standing.day.iter().filter(|one| one.stands());
    let placed = events
        .any(|one| matches!(one.kind, EventKind::Inserted(_)) && one.step().is_some_and(here));
    let mut told = fields.iter().filter(of_implant);
    if placed || told.any(|field| !field.is_empty()) {
        return None;
    }
    let mut steps = day.steps.iter().filter(|step| here(&step.key));
    steps.find_map(|step| match (&step.key, step.state) {
        (StepKey::Insert { .. }, State::Skipped(one)) => Some(one),
        _ => None,
    })
}

/// True if something was cut at a site.
fn is_cut(site: &SiteKey, standing: &Standing) -> bool {
    let here = |step: &StepKey| match step {
        StepKey::Punch { sites } => sites.iter().any(|of| of.site == site.site),
        step => step.is_in_bone() && step.site().is_some_and(|of| of.site == site.site),
    };
    let mut events = standing.day.iter().filter(|one| one.stands());
    events.any(|one| one.kind.is_done() && one.step().is_some_and(here))
}

/// True if a count found everything as it should be.
fn is_settled(day: &Day<'_>, is: impl Fn(&StepKey) -> bool) -> bool {
    let mut steps = day.steps.iter().filter(|step| is(&step.key));
    steps.all(|step| matches!(step.state, State::Done(_)))
}
