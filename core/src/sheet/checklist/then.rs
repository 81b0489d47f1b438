//! What is done between a step and the next, such as a radiograph. It stands also where its step is not to be done:
//! what was asked for to keep the next drill safe does not go with the drill before it.

use super::Source;
use super::actionable::is_known;
use super::done::{Tick, tick_cell};
use super::order::site_sheet;
use crate::kit::{SiteId, StepId};
use crate::plan::{Actionable, SiteSheet};
use crate::sheet::Cell;
use crate::wording::begin;

/// The line after a step.
pub(super) struct Then {
    /// What is done, or why it cannot be.
    pub(super) words: String,
    can_be_done: bool,
}

impl Then {
    /// A box to tick, where there is something to do.
    pub(super) const fn tick(&self) -> Cell {
        if self.can_be_done {
            Cell::TickBox
        } else {
            Cell::Empty
        }
    }

    /// The same by what became of it.
    pub(super) const fn tick_by(&self, tick: Tick) -> Cell {
        match tick {
            Tick::Blank => self.tick(),
            Tick::Ticked | Tick::LeftOut => tick_cell(tick),
        }
    }
}

/// What follows this step, where something does.
pub(super) fn after(source: &Source<'_>, site: &SiteId, step: &StepId) -> Option<Then> {
    let planned = source.case.site(site.as_str())?;
    let planned = planned.steps.iter().find(|one| one.id == *step)?;
    let what = begin(planned.then.as_ref()?.as_str());
    let sheet = site_sheet(source, site)?;
    let at = sheet.steps.iter().position(|one| one.id == *step)?;
    let (before, after) = sheet.steps.split_at(at + 1);
    let can_be_used = |one| is_known(&Actionable::of_step(one), source);
    let why_not = if before.last().is_some_and(can_be_used) {
        None
    } else if after.iter().any(can_be_used) {
        Some("sheet-then-undrilled")
    } else {
        Some("sheet-then-not-possible")
    };
    let words = match why_not {
        None => what,
        Some(id) => source.formatter.text(id, &[("what", &what)]),
    };
    Some(Then {
        words,
        can_be_done: why_not != Some("sheet-then-not-possible"),
    })
}

/// Which of a site's drills can be used.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Usable {
    All,
    Some,
    None,
}

/// Which of the drills of this site can be used: none where there is none.
pub(super) fn usable(source: &Source<'_>, sheet: &SiteSheet) -> Usable {
    let can_be_used = |one| is_known(&Actionable::of_step(one), source);
    let count = sheet.steps.iter().filter(|one| can_be_used(one)).count();
    match count {
        0 => Usable::None,
        count if count == sheet.steps.len() => Usable::All,
        _ => Usable::Some,
    }
}
