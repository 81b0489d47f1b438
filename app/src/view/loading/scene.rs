//! The data that every part of the loading view reads.

use super::piece::WearAtHand;
use super::scale::Scale;
use super::session::Session;
use super::task::{Board, Task, TaskTurn, does_not_fit};
use crate::desk::{Document, policy};
use crate::look::Theme;
use traywright_core::kit::SiteId;
use traywright_core::measure::Length;
use traywright_core::plan::{
    Actionable, ActionableFigure, Known, LoadItem, Reset, Severity, Worksheet,
};
use traywright_core::sign::{ApprovalStanding, Message, SettingState, ThingKey, gauge_now};
use traywright_core::text::{Texts, Whole};
use traywright_core::wording::Formatter;

/// The data that every part of the loading view reads.
#[derive(Clone, Copy)]
pub(super) struct Scene<'a> {
    pub(super) document: &'a Document,
    pub(super) formatter: Formatter<'a>,
    pub(super) board: &'a Board,
    pub(super) session: &'a Session,
    pub(super) scale: Scale,
    pub(super) theme: Theme,
    pub(super) now: jiff::Timestamp,
    pub(super) wear: Option<WearAtHand<'a>>,
}

/// The means of drawing, and nothing that is drawn.
#[derive(Clone, Copy)]
pub(in crate::view) struct Brush {
    pub(in crate::view) texts: &'static Texts,
    pub(in crate::view) scale: Scale,
    pub(in crate::view) theme: Theme,
}

impl Brush {
    /// A text without arguments.
    pub(in crate::view) fn word(&self, id: &str) -> String {
        self.texts.get(id, &[])
    }

    /// A text with arguments.
    pub(in crate::view) fn text(&self, id: &str, args: &[(&str, &str)]) -> String {
        self.texts.get(id, args)
    }
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

    /// A message of the signing room.
    pub(super) fn message(&self, message: &Message) -> String {
        self.formatter.message(message)
    }

    /// True if an approval of this plan counts; in a demonstration none does.
    pub(super) fn is_approved(&self) -> bool {
        let mut approvals = self.document.record.standing.approvals.iter();
        approvals.any(ApprovalStanding::is_valid)
    }

    /// The plan's own open findings, as a sentence: a tray without gaps says nothing about them.
    pub(super) fn plan_open(&self) -> Option<String> {
        let count = |severity| {
            let findings = self.worksheet().findings.iter();
            findings.filter(|f| f.severity() == severity).count()
        };
        let (short, unknown) = (count(Severity::Short), count(Severity::Unknown));
        (short + unknown > 0).then(|| {
            let counts = &[("short", short), ("unknown", unknown)];
            self.counted("loading-plan-open", counts, &[])
        })
    }

    /// What keeps a tray that is laid from being called loaded: nobody approved the plan for a patient, and what is
    /// open in it. Nothing where it is approved.
    pub(super) fn not_approved(&self) -> Vec<String> {
        let id = match (self.worksheet().demonstration, self.is_approved()) {
            (true, _) => "loading-plan-practice",
            (false, false) => "loading-plan-not-approved",
            (false, true) => return Vec::new(),
        };
        let told = [Some(self.word(id)), self.plan_open()];
        told.into_iter().flatten().collect()
    }

    /// True if the gauge would do for a drill that is read now: it was checked last and found sound.
    pub(super) fn gauge_is_sound(&self, task: &Task) -> bool {
        let record = &self.document.record;
        task.planned.as_ref().is_some_and(|planned| {
            let when = (&policy(), self.now);
            gauge_now(planned, &record.events, &record.view, when).is_none()
        })
    }

    /// A task's thing in the plan, as it is set for it.
    pub(super) fn item(&self, task: &Task) -> Option<&'a LoadItem> {
        item_of(self.worksheet(), task)
    }

    /// The setting of a task with its unit; none of what does not fit.
    pub(super) fn setting(&self, task: &Task) -> String {
        match &task.planned {
            _ if does_not_fit(task) => self.word("setting-does-not-fit"),
            None => self.word("setting-none"),
            Some(planned) => self.set_to(task, planned.key.setting_mm),
        }
    }

    /// A setting of a task's drill with its unit: where the gauge shows another figure than the length from tip to stop,
    /// both.
    pub(super) fn set_to(&self, task: &Task, length: Length) -> String {
        let shown = |length| self.formatter.set_length_with_unit(&Known::Is(length));
        let item = self.item(task);
        let figure = item
            .and_then(Actionable::of_item)
            .map(|actionable| actionable.figure(&self.document.case().kit));
        match figure {
            // Of one stop on one gauge the two differ by as much at every setting.
            Some(ActionableFigure::GaugeFigure { gauge, set }) => {
                let gauge = shown(length + (gauge - set));
                let args = [("gauge", &*gauge), ("set", &*shown(length))];
                self.text("loading-look-alike-gauge", &args)
            }
            _ => shown(length),
        }
    }

    /// The same of a drill as a thing, by the setting that comes now.
    pub(super) fn thing_set_to(&self, thing: &ThingKey, length: Length) -> String {
        let mut tasks = self.board.tasks.iter();
        let now = |task: &&Task| task.state() == SettingState::Now && task.thing == *thing;
        match tasks.find(now) {
            Some(task) => self.set_to(task, length),
            None => self.formatter.set_length_with_unit(&Known::Is(length)),
        }
    }

    /// The re-set in surgery; nothing for what is laid.
    pub(super) fn reset(&self, task: &Task) -> Option<&'a Reset> {
        match task.turn {
            TaskTurn::Laid => None,
            TaskTurn::Anew { reset, .. } => self.worksheet().resets.get(reset),
        }
    }

    /// The thing in hand.
    pub(super) fn in_hand(&self) -> Option<(&'a Task, &'a LoadItem)> {
        let task = self.session.task(self.board)?;
        Some((task, self.item(task)?))
    }
}

/// A task's thing in a plan, as it is set for it.
pub(super) fn item_of<'a>(worksheet: &'a Worksheet, task: &Task) -> Option<&'a LoadItem> {
    match task.turn {
        TaskTurn::Laid => worksheet.loading.get(task.item),
        TaskTurn::Anew { reset, .. } => worksheet.resets.get(reset).map(|reset| &reset.to),
    }
}

/// The sites that a thing serves, each once.
pub(super) fn sites(item: &LoadItem) -> Vec<&SiteId> {
    let mut sites = Vec::new();
    for site in item.serves.iter().filter_map(|serves| serves.site.as_ref()) {
        if !sites.contains(&site) {
            sites.push(site);
        }
    }
    sites
}
