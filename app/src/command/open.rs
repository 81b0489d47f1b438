//! Opening a case with all the files beside it.

use crate::desk::{
    Answers, Refusal, policy, read_case_file, refused_by_disk, refused_events, said_ahead,
    said_elsewhere, said_problems,
};
use std::path::{Path, PathBuf};
use traywright_core::case::ValidCase;
use traywright_core::dentition::Notation;
use traywright_core::plan::{Worksheet, case_jaw, plan_view, work_out};
use traywright_core::sign::{ApprovalStanding, Merged, PlanView, Problem, Standing, standing};
use traywright_core::store::{Version, behind_links, read_events};
use traywright_core::surgery::abandoned_while_led;
use traywright_core::text::Texts;
use traywright_core::wording::{Formatter, message};

/// A case that was read and worked out.
pub(super) struct Opened {
    pub(super) case: ValidCase,
    pub(super) worksheet: Worksheet,
    /// The file behind every link: what is signed lies beside it.
    pub(super) file: PathBuf,
    /// What the file held.
    pub(super) version: Version,
}

/// The signatures for a case.
pub(super) struct Signed {
    pub(super) events: Merged,
    pub(super) view: PlanView,
    pub(super) standing: Standing,
    /// Faults of the event files, as sentences, with what else is to be said.
    pub(super) problems: Vec<String>,
    /// True if the guide is abandoned by the record, and the case still leads by it.
    pub(super) leads_by_abandoned: bool,
    /// The faults.
    pub(super) faults: Vec<Problem>,
}

pub(super) fn open(file: &Path) -> Result<Opened, Refusal> {
    let (case, version) = read_case_file(file)?;
    let worksheet = work_out(&case);
    let file = behind_links(file).map_err(|error| refused_by_disk(&error))?;
    Ok(Opened {
        case,
        worksheet,
        file,
        version,
    })
}

impl Opened {
    /// The formatter for sentences about the case.
    pub(super) fn formatter(&self) -> Formatter<'_> {
        Formatter::english(&self.case, Notation::Iso)
    }

    /// What is said to have been done on a day that has not come yet.
    pub(super) fn days_to_come(&self, now: jiff::Timestamp) -> Vec<String> {
        let today = crate::platform::day_of(now);
        self.formatter().days_to_come(&self.case, today)
    }

    /// The signatures for the case, from the files beside it.
    pub(super) fn signed(&self) -> Result<Signed, Refusal> {
        let texts = Texts::english();
        let beside = read_events(&self.file, &case_jaw(&self.case))
            .map_err(|error| refused_events(&error))?;
        let view = plan_view(&self.case, &self.worksheet, &beside.events);
        let standing = standing(&beside.events, &view, &policy())
            .map_err(|fault| Refusal(message(&fault.message(), texts)))?;
        let abandoned = abandoned_while_led(&self.case, &self.worksheet, (&view, &standing));
        let abandoned = abandoned.map(|one| self.formatter().abandoned_while_led(one));
        let leads_by_abandoned = abandoned.is_some();
        let mut problems: Vec<String> = abandoned.into_iter().collect();
        problems.extend(said_problems(texts, &beside.problems));
        let now = crate::platform::now();
        problems.extend(said_elsewhere(
            &self.file,
            &self.case,
            &mut Answers::default(),
        ));
        problems.extend(said_ahead(&beside.events, now));
        problems.extend(self.days_to_come(now));
        let today = crate::platform::day_of(now);
        problems.extend(self.formatter().doubtful_scan(&self.case, today));
        Ok(Signed {
            events: beside.events,
            view,
            standing,
            problems,
            leads_by_abandoned,
            faults: beside.problems,
        })
    }
}

impl Signed {
    /// The approval of the plan, in words.
    pub(super) fn state(&self, texts: &Texts) -> String {
        let by = |id, approval: &ApprovalStanding| texts.get(id, &[("by", approval.who.as_str())]);
        let approvals = || self.standing.approvals.iter().rev();
        if self.standing.broken {
            texts.get("cli-state-broken", &[])
        } else if let Some(valid) = approvals().find(|approval| approval.is_valid()) {
            by("cli-state-approved", valid)
        } else if let Some(practice) = approvals().find(|approval| approval.is_practised()) {
            by("cli-state-practice", practice)
        } else {
            texts.get("cli-state-open", &[])
        }
    }
}
