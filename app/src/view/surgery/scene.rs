//! The data that every part of the surgery view reads.

use super::doing::Doing;
use super::why::Stop;
use crate::desk::{Document, policy};
use crate::look::Theme;
use crate::view::loading::LiesWrong;
use crate::view::loading::falls::fell;
use crate::view::loading::scale::Scale;
use crate::view::loading::scene::Brush;
use crate::view::loading::task::{Board, Task};
use std::collections::BTreeSet;
use traywright_core::case::ValidCase;
use traywright_core::drawing::Ink;
use traywright_core::kit::{ImplantId, Kit};
use traywright_core::measure::Length;
use traywright_core::plan::{Severity, Worksheet};
use traywright_core::sign::{
    ApprovalStanding, DayEvent, EventKind, Names, Piece, PlanView, Purpose, Standing, StepKey, Who,
    WriterId,
};
use traywright_core::surgery::{Day, DayStep, NotReady, piece, recorded_since};
use traywright_core::text::Whole;
use traywright_core::wording::{Formatter, mm};

/// The data that every part of the surgery view reads.
#[derive(Clone, Copy)]
pub(super) struct Scene<'a> {
    pub(super) document: &'a Document,
    pub(super) formatter: Formatter<'a>,
    pub(super) day: &'a Day<'a>,
    pub(super) doing: &'a Doing,
    /// What lies or is set otherwise than the plan wants it, each with its words.
    pub(super) lies_wrong: &'a [LiesWrong],
    /// What is to be seen of the wear of the drill of the step that is shown; none within its limit.
    pub(super) worn: Option<&'a str>,
    /// What of it nobody was told to take yet, by the record.
    pub(super) untold: &'a [EventKind],
    /// The name of this desk in the record.
    pub(super) desk: Option<&'a WriterId>,
    /// The excess that the gauge showed at its last check, where that found it off.
    pub(super) gauge_off: Option<Length>,
    /// Everybody of the case.
    pub(super) people: &'a [Who],
    /// The same, to hold signatures against.
    pub(super) names: &'a Names<'a>,
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

    /// The plan.
    pub(super) fn planned(&self) -> (&'a ValidCase, &'a Worksheet) {
        (self.document.case(), self.document.worksheet())
    }

    /// What counts of its record.
    pub(super) fn recorded(&self) -> (&'a PlanView, &'a Standing) {
        let record = &self.document.record;
        (&record.view, &record.standing)
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

    /// True if somebody records, in a day that was begun.
    pub(super) fn records(&self) -> bool {
        let asked = self.left_long_ago().is_some();
        self.doing.who.is_some() && self.day.begun.is_some() && !asked
    }

    /// True if a count is in hand.
    pub(super) fn counts(&self) -> bool {
        let typed = self.doing.entry.typed.as_str();
        self.doing.recount || !self.doing.counted.is_empty() || !typed.is_empty()
    }

    /// The last that was recorded of the day, where that is longer ago than people work on one thing and nobody said here that
    /// its sitting goes on.
    pub(super) fn left_long_ago(&self) -> Option<&'a DayEvent> {
        // Over what is over nobody sits again.
        self.day.next()?;
        let day = self.document.record.standing.day.iter();
        let last = day.filter(|one| one.counts()).max_by_key(|one| one.at)?;
        let since = self.now.duration_since(last.at).as_secs();
        let said = self.doing.same_sitting.as_ref() == Some(&last.id);
        (since > policy().session_s && !said).then_some(last)
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
        if worksheet.demonstration {
            said.push(self.word("loading-plan-practice"));
        } else if !self.is_approved() {
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
        if let Some(off) = self.gauge_off {
            said.push(self.text("surgery-gauge-off", &[("off", &mm(off))]));
        }
        said.extend(self.not_there());
        said
    }

    /// That the guide is abandoned by the record while the plan still leads through it, and what to do where this stops; as sentences.
    pub(super) fn abandoned_open(&self, stop: Option<&Stop>) -> Option<String> {
        let one = self.day.abandoned_while_led()?;
        let line = self.formatter.record_run(one);
        let args = [("line", line.as_str())];
        Some(match stop {
            None => self.text("surgery-abandoned-open", &args),
            Some(Stop::Other(_)) if self.records() => {
                self.text("surgery-abandoned-open-stop", &args)
            }
            Some(Stop::Other(_)) => self.text("surgery-abandoned-open-who", &args),
            Some(Stop::Gate(_)) => self.text("surgery-abandoned-open-gate", &args),
        })
    }

    /// All that lies or is set wrong, as it is told.
    pub(super) fn all_told_wrong(&self) -> impl Iterator<Item = String> {
        self.lies_wrong
            .iter()
            .map(|one| self.told_wrong(&one.words))
    }

    /// What lies or is set wrong by its words, as it is told: what may be used by hand all the same says so.
    pub(super) fn told_wrong(&self, words: &str) -> String {
        let mut wrong = self.lies_wrong.iter();
        let one = wrong.find(|one| one.words == words);
        let found = one.and_then(|one| Some((one.thing.piece(), one.void.as_ref()?)));
        let Some((Piece::Drill(drill), why)) = found else {
            return words.to_owned();
        };
        let (_, standing) = self.recorded();
        let by_hand = self.day.steps.iter().any(|step| {
            let with = step.drill().and_then(|with| piece(&with, standing));
            step.may_be_by_hand() && with.as_ref() == Some(&drill)
        });
        if by_hand {
            self.text("surgery-wrong-by-hand", &[("why", why)])
        } else {
            words.to_owned()
        }
    }

    /// What the steps to come are done with that is not ready, by its names; whether the guide is seated and the bone
    /// sounded belongs to the day.
    fn not_there(&self) -> Option<String> {
        let standing = &self.document.record.standing;
        let any = !standing.thing_slots.is_empty();
        let any = any || standing.items.iter().any(|one| one.placed.is_some());
        let begun = self.day.open_from(0).next().is_some();
        if !any && begun {
            return Some(self.word("surgery-nothing-laid"));
        }
        let mut names = BTreeSet::new();
        let mut count = 0_usize;
        for (_, step) in self.day.open_from(0) {
            let mut open = step.not_ready.iter().filter(|why| why.is_of_things());
            count += usize::from(open.clone().next().is_some());
            if open.clone().any(|why| why.thing().is_none()) {
                names.extend(step.drill().map(|drill| {
                    let args = [
                        ("name", &*self.formatter.item(drill.item)),
                        ("slot", &*self.formatter.slot(drill.item)),
                    ];
                    self.text("load-one-of", &args)
                }));
            }
            names.extend(
                open.by_ref()
                    .filter_map(NotReady::thing)
                    .map(|thing| self.formatter.thing(thing)),
            );
        }
        let names = names.into_iter().collect::<Vec<_>>().join("; ");
        let args = [("names", names.as_str())];
        (count > 0).then(|| self.counted("surgery-drills-open", &[("count", count)], &args))
    }

    /// What of the day so far was left out, was out of turn or done although something was open, off its plan, done by
    /// another plan, or gone on with over a STOP, sentences.
    pub(super) fn left(&self) -> Vec<String> {
        let kit = &self.document.case().kit;
        let all = &self.document.record.standing.day;
        let told = |one: &DayEvent| self.formatter.happened_among(all, one);
        let mut said: Vec<String> = Vec::new();
        let begun = self.document.record.standing.day.iter();
        let begun = begun.filter(|one| one.counts());
        said.extend(begun.filter(|one| is_despite(one)).map(told));
        for step in &self.day.steps {
            let mut here: Vec<String> = step.off_before().map(told).collect();
            let last = step.recorded.last().filter(|_| step.stands_out(kit));
            here.extend(last.map(|one| told(one)));
            here.extend(self.doubled(step));
            let words = here.join(". ");
            said.extend(Some(words).filter(|words| !words.is_empty()));
        }
        said.extend(self.day.of_no_step.iter().map(|one| told(one)));
        said.extend(self.not_lifted());
        let falls = self.document.record.standing.fallen.iter();
        let falls = falls.filter(|fall| fall.counts() && fall.in_surgery);
        said.extend(falls.map(|fall| {
            let what = self.formatter.piece(&fall.piece);
            let args = [("what", what.as_str()), ("who", fall.who.as_str())];
            self.text("surgery-fell-by", &args)
        }));
        said
    }

    /// That the guide came off, where it was recorded by mistake, and what was done until that was said, sentences.
    fn not_lifted(&self) -> Vec<String> {
        let day = &self.document.record.standing.day;
        let backs = day.iter().filter(|one| {
            one.back.is_some()
                && matches!(one.step(), Some(StepKey::Lifted {} | StepKey::Abandoned {}))
        });
        let said = backs.map(|one| {
            let since = recorded_since(day, one);
            let since = since.into_iter().map(|one| self.formatter.record_run(one));
            let since = since.collect::<Vec<_>>().join("; ");
            let line = self.formatter.record_run(one);
            let args = [("line", line.as_str()), ("since", since.as_str())];
            if since.is_empty() {
                line.clone()
            } else {
                self.text("surgery-lifted-between", &args)
            }
        });
        said.collect()
    }

    /// Who recorded a step as over, where that was done more than once; as a sentence.
    pub(super) fn doubled(&self, step: &DayStep<'_>) -> Option<String> {
        let doubled = step.doubled();
        let said = doubled.iter().map(|one| {
            let at = one.at.strftime("%H:%M").to_string();
            let args = [("who", one.who.as_str()), ("at", at.as_str())];
            self.text("surgery-recorded-by", &args)
        });
        let said = said.collect::<Vec<_>>().join("; ");
        let counts = [("count", doubled.len())];
        (!said.is_empty()).then(|| self.counted("surgery-doubled", &counts, &[("who", &said)]))
    }
}

/// True if surgery was begun or gone on with although something stood against it.
fn is_despite(one: &DayEvent) -> bool {
    matches!(&one.kind, EventKind::SurgeryBegun(begun) if begun.despite.is_some())
}

/// The implant that a step turns in, by its own name.
pub(super) fn implant_of(step: &DayStep<'_>) -> Option<ImplantId> {
    match &step.key {
        StepKey::Insert { implant, .. } | StepKey::Finish { implant, .. } => {
            Some(ImplantId::from(implant.as_str()))
        }
        _ => None,
    }
}
