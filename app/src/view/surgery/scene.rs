//! The data that every part of the surgery view reads.

use super::doing::Doing;
use crate::desk::Document;
use crate::look::Theme;
use crate::view::loading::falls::fell;
use crate::view::loading::scale::Scale;
use crate::view::loading::scene::Brush;
use crate::view::loading::task::{Board, Task};
use traywright_core::drawing::Ink;
use traywright_core::kit::Kit;
use traywright_core::plan::{Severity, Worksheet};
use traywright_core::sign::{ApprovalStanding, Purpose, ThingKey, Who};
use traywright_core::surgery::{Day, DayStep, State};
use traywright_core::text::Whole;
use traywright_core::wording::Formatter;

/// The data that every part of the surgery view reads.
#[derive(Clone, Copy)]
pub(super) struct Scene<'a> {
    pub(super) document: &'a Document,
    pub(super) formatter: Formatter<'a>,
    pub(super) day: &'a Day<'a>,
    pub(super) doing: &'a Doing,
    /// What lies or is set otherwise than the plan wants it, each with its words.
    pub(super) lies_wrong: &'a [(ThingKey, String)],
    /// Everybody of the case.
    pub(super) people: &'a [Who],
    /// The kit that entries are offered from, and the one beside the case.
    pub(super) kits: (&'a Kit, &'a Kit),
    pub(super) scale: Scale,
    pub(super) theme: Theme,
    pub(super) now: jiff::Timestamp,
}

impl<'a> Scene<'a> {
    /// The means of drawing alone.
    pub(super) fn brush(&self) -> Brush {
        Brush {
            texts: self.formatter.texts,
            scale: self.scale,
            theme: self.theme,
        }
    }

    /// Everything that follows from the plan.
    pub(super) fn worksheet(&self) -> &'a Worksheet {
        self.document.worksheet()
    }

    /// For a patient or for practice.
    pub(super) fn purpose(&self) -> Purpose {
        self.document.record.view.purpose
    }

    /// A text without arguments.
    pub(super) fn word(&self, id: &str) -> String {
        self.formatter.texts.get(id, &[])
    }

    /// A text with arguments.
    pub(super) fn text(&self, id: &str, args: &[(&str, &str)]) -> String {
        self.formatter.texts.get(id, args)
    }

    /// A text with whole numbers in it, and its other arguments.
    pub(super) fn counted(
        &self,
        id: &str,
        numbers: &[(&str, impl Whole)],
        args: &[(&str, &str)],
    ) -> String {
        self.formatter.texts.counted(id, numbers, args)
    }

    /// The ink of what matters.
    pub(super) fn ink(&self) -> egui::Color32 {
        self.theme.fill(Ink::Strong)
    }

    /// The ink of what helps.
    pub(super) fn soft(&self) -> egui::Color32 {
        self.theme.fill(Ink::Soft)
    }

    /// The step that is shown, with its place.
    pub(super) fn step(&self) -> Option<(usize, &'a DayStep<'a>)> {
        let at = self.doing.at(self.day)?;
        Some((at, self.day.steps.get(at)?))
    }

    /// True if the step that is shown is the one that is due.
    pub(super) fn is_due(&self) -> bool {
        self.doing.at(self.day) == self.day.next()
    }

    /// True if an approval of this plan counts; in a demonstration none does.
    pub(super) fn is_approved(&self) -> bool {
        let mut approvals = self.document.record.standing.approvals.iter();
        approvals.any(ApprovalStanding::is_valid)
    }

    /// What to do about a thing that fell, in words.
    pub(super) fn fell(&self, board: &Board, task: &Task) -> Option<String> {
        fell(self.formatter.texts, self.document, (board, task))
    }

    /// What is open in the plan itself and on the tray, sentences: only what is approved and verified is ready.
    pub(super) fn open(&self) -> Vec<String> {
        let worksheet = self.worksheet();
        let mut said = Vec::new();
        if !worksheet.demonstration && !self.is_approved() {
            said.push(self.word("surgery-not-approved"));
        }
        let count = |severity| {
            let findings = worksheet.findings.iter();
            findings.filter(|one| one.severity() == severity).count()
        };
        let (unsettled, unknown) = (count(Severity::Short), count(Severity::Unknown));
        if unsettled + unknown > 0 {
            let counts = &[("short", unsettled), ("unknown", unknown)];
            said.push(self.counted("loading-plan-open", counts, &[]));
        }
        let drills = self.day.steps.iter().filter(|step| step.drill().is_some());
        let open = drills.filter(|step| !step.not_ready.is_empty()).count();
        if open > 0 {
            said.push(self.counted("surgery-drills-open", &[("count", open)], &[]));
        }
        said
    }

    /// What of the day so far was left out, was out of turn or done although something was open, sentences.
    pub(super) fn left(&self) -> Vec<String> {
        let steps = self.day.steps.iter();
        steps
            .filter_map(|step| {
                let said = self.formatter.day_step(&step.key);
                match step.state {
                    State::Skipped(_) => Some(self.text("surgery-left-out", &[("step", &said)])),
                    _ => None,
                }
            })
            .collect()
    }
}
