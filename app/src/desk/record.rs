//! Signatures for the open case, and what of them counts for the plan as it is.

use super::{Answers, policy, refused_events, said_aside, said_elsewhere, said_problems};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use traywright_core::case::ValidCase;
use traywright_core::plan::{Worksheet, case_jaw, plan_view};
use traywright_core::sign::{
    EventKind, Heads, Merged, NameFault, PlanView, Standing, Who, WriterId, standing,
};
use traywright_core::store::{append_event, put_record_aside, read_events_knowing};
use traywright_core::text::Texts;
use traywright_core::wording::message;

/// Signatures for the open case.
pub struct Record {
    /// All events.
    pub events: Merged,
    /// The plan that they are held against.
    pub view: PlanView,
    /// Their standing.
    pub standing: Standing,
    /// Faults of the event files, as sentences.
    pub problems: Vec<String>,
    /// True if events of another case lie there, which are moved and not put aside.
    pub has_others: bool,
}

impl Record {
    /// Nothing was signed yet.
    pub(super) fn none(case: &ValidCase, worksheet: &Worksheet) -> Self {
        let events = Merged::of(case_jaw(case), []).expect("no logs fit any case");
        Self::of(events, Vec::new(), case, worksheet)
    }

    /// Reads the events beside a case file. If that fails nothing counts, and the problems say so.
    /// `known` are the heads that this program read of it earlier: one that is gone since breaks it; `answers` what other
    /// places said since.
    pub(super) fn read(
        file: &Path,
        case: &ValidCase,
        worksheet: &Worksheet,
        (known, answers): (&mut Heads, &mut Answers),
    ) -> Self {
        match read_events_knowing(file, &case_jaw(case), known) {
            Ok(beside) => {
                let mut problems = said_problems(Texts::english(), &beside.problems);
                problems.extend(said_elsewhere(file, case, answers));
                let has_others = beside.problems.iter().any(|one| one.kind.is_elsewhere());
                Self {
                    has_others,
                    ..Self::of(beside.events, problems, case, worksheet)
                }
            }
            Err(error) => {
                let mut events = Merged::none(case_jaw(case));
                events.set_broken();
                Self::of(events, vec![refused_events(&error).0], case, worksheet)
            }
        }
    }

    fn of(events: Merged, problems: Vec<String>, case: &ValidCase, worksheet: &Worksheet) -> Self {
        let view = plan_view(case, worksheet, &events);
        let (standing, fault) = match standing(&events, &view, &policy()) {
            Ok(standing) => (standing, None),
            Err(fault) => (
                Standing {
                    broken: true,
                    approvals: Vec::new(),
                    readings: Vec::new(),
                    items: Vec::new(),
                    thing_slots: BTreeMap::new(),
                    told: BTreeMap::new(),
                    opened: BTreeSet::new(),
                    beside: BTreeMap::new(),
                    fallen: Vec::new(),
                    day: Vec::new(),
                    drills: BTreeMap::new(),
                    fallen_drills: BTreeMap::new(),
                    entries: Vec::new(),
                    signatures: Vec::new(),
                },
                Some(message(&fault.message(), Texts::english())),
            ),
        };
        Self {
            events,
            view,
            standing,
            problems: problems.into_iter().chain(fault).collect(),
            has_others: false,
        }
    }

    /// Derives anew what counts, for a plan that changed.
    pub(super) fn held_against(&mut self, case: &ValidCase, worksheet: &Worksheet) {
        let none = Merged::of(case_jaw(case), []).expect("no logs fit any case");
        let events = std::mem::replace(&mut self.events, none);
        let problems = std::mem::take(&mut self.problems);
        *self = Self {
            has_others: self.has_others,
            ..Self::of(events, problems, case, worksheet)
        };
    }
}

impl super::Document {
    /// Puts what is damaged of the record aside: everything has to be signed anew, but where it was a torn line that could
    /// take nothing back. Gives what was done, as sentences; nothing where the record has no break.
    ///
    /// # Errors
    ///
    /// The reason why that was not done, as a sentence.
    pub fn put_record_aside(
        &mut self,
        at: jiff::Timestamp,
        desk: &str,
        who: &str,
    ) -> Result<Option<String>, String> {
        let Some(file) = self.file().map(Path::to_owned) else {
            return Ok(None);
        };
        let (writer, who) = signing_as(desk, who)?;
        let aside = put_record_aside(
            &file,
            &case_jaw(&self.case),
            &writer,
            at,
            &who,
            &mut self.known,
        )
        .map_err(|error| refused_events(&error).0)?;
        self.read_record();
        Ok(said_aside(&aside))
    }

    /// Records an event beside the case file and derives anew what counts. Gives what was mended of the record for it, as a
    /// sentence.
    ///
    /// # Errors
    ///
    /// The reason why nothing was recorded, as a sentence.
    pub fn sign(
        &mut self,
        at: jiff::Timestamp,
        desk: &str,
        who: &str,
        kind: EventKind,
    ) -> Result<Option<String>, String> {
        let texts = Texts::english();
        let Some(file) = self.file().map(Path::to_owned) else {
            return Err(texts.get("window-sign-unsaved", &[]));
        };
        let (writer, who) = signing_as(desk, who)?;
        let jaw = case_jaw(self.case());
        let mended = append_event(&file, &jaw, &writer, at, who, kind)
            .map_err(|error| refused_events(&error).0)?;
        // What was read of it here before is told as lost.
        if mended.as_ref().is_some_and(|mended| mended.lost.is_none()) {
            self.known.remove(&writer);
        }
        self.read_record();
        Ok(mended.map(|mended| message(&mended.message(), texts)))
    }
}

/// The writer and the person, or why they cannot be named so.
fn signing_as(desk: &str, who: &str) -> Result<(WriterId, Who), String> {
    let texts = Texts::english();
    let refused = |fault: NameFault| {
        let reason = message(&fault.message(), texts);
        texts.get("window-sign-name", &[("reason", &reason)])
    };
    let writer = WriterId::new(desk).map_err(refused)?;
    Ok((writer, Who::signing(who).map_err(refused)?))
}
