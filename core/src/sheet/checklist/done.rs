//! What the day brought by its record, for the boxes of a form that is printed as a record: what was done is ticked, what was
//! found or counted stands in its box, and what is not recorded stays to be written.

use super::Source;
use super::pieces::SMALL;
use crate::case::ValidCase;
use crate::kit::{SiteId, StepId};
use crate::plan::{LoadItem, Operation, Reset, Worksheet};
use crate::record::record;
use crate::sheet::{Block, Cell, Row};
use crate::sign::{
    Counted, DayEvent, Entry, EntryKind, EventKind, PlanView, Standing, StepKey, ThingKey,
};
use crate::surgery::{self, State};
use std::collections::BTreeMap;
use std::num::NonZeroU32;

/// What is recorded of a day, as far as the form has a place for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayOnPaper {
    steps: Vec<StepOnPaper>,
    implants: Vec<ImplantOnPaper>,
    events: Vec<DayEvent>,
    laid: BTreeMap<ThingKey, String>,
    count_in: Option<DayEvent>,
    count_out: Option<DayEvent>,
}

/// A step of the plan and what became of it.
#[derive(Debug, Clone, PartialEq, Eq)]
struct StepOnPaper {
    key: StepKey,
    became: Became,
    /// The re-set that it is, by its place among them.
    reset: Option<usize>,
    /// It is over otherwise than planned.
    stands_out: bool,
}

/// What became of a step.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Became {
    /// Nothing yet, or it is to be done anew.
    Open,
    Done(DayEvent),
    /// It was left out, and not done before.
    LeftOut(DayEvent),
    /// A drill was set anew and read.
    Set,
}

/// What is recorded of an implant.
#[derive(Debug, Clone, PartialEq, Eq)]
struct ImplantOnPaper {
    site: String,
    entries: Vec<Entry>,
    not_placed: Option<DayEvent>,
}

/// How much of it is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum ToldOfDay {
    /// Nothing: the boxes stay blank.
    Nothing,
    /// What is in the boxes, and what was otherwise than planned.
    Boxes,
    /// With who did each step and when.
    Times,
}

/// How a box to tick is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tick {
    /// Blank.
    Blank,
    /// Ticked.
    Ticked,
    /// None, since it was left out.
    LeftOut,
}

impl DayOnPaper {
    /// Of what counts under a plan; none where the record has a break.
    ///
    /// The view has to be the plan view of this worksheet, the standing what counts under it.
    #[must_use]
    pub fn of(
        (case, worksheet): (&ValidCase, &Worksheet),
        (view, standing): (&PlanView, &Standing),
    ) -> Option<Self> {
        if standing.broken {
            return None;
        }
        let day = surgery::day(case, worksheet, (view, standing));
        let steps = day.steps.iter().map(|step| StepOnPaper {
            key: step.key.clone(),
            became: match (step.state, step.done_before()) {
                (State::Done(one), _) | (State::Skipped(_), Some(one)) => Became::Done(one.clone()),
                (State::Skipped(one), None) => Became::LeftOut(one.clone()),
                (State::Set, _) => Became::Set,
                (State::Open | State::Off(..) | State::Amiss(_), _) => Became::Open,
            },
            reset: match &step.work {
                surgery::Work::SetAnew { reset, .. } => {
                    let mut resets = worksheet.resets.iter();
                    resets.position(|one| std::ptr::eq(one, *reset))
                }
                _ => None,
            },
            stands_out: step.stands_out(&case.kit) || step.done_before().is_some(),
        });
        let steps = steps.collect();
        let record = record(case, worksheet, (view, standing));
        let implants = record.implants.iter().map(|one| ImplantOnPaper {
            site: one.site.site.clone(),
            entries: (one.fields.iter())
                .filter_map(|field| field.one()?.entry.clone())
                .collect(),
            not_placed: one.not_placed.cloned(),
        });
        Some(Self {
            steps,
            implants: implants.collect(),
            events: standing.day.clone(),
            laid: standing.thing_slots.clone(),
            count_in: record.count_in.cloned(),
            // After a fall it is to be counted anew.
            count_out: record.count_out.filter(|_| !record.fell_since).cloned(),
        })
    }

    fn step(&self, is: impl Fn(&StepKey) -> bool) -> Option<&StepOnPaper> {
        self.steps.iter().find(|step| is(&step.key))
    }

    /// The steps of a line in the order of use.
    fn steps_of(&self, of: &Operation) -> Vec<&StepOnPaper> {
        let here = |step: &&StepOnPaper| match (of, &step.key) {
            (Operation::Pin { name }, StepKey::Pin { pin, .. }) => name.as_str() == pin,
            (Operation::Punch { .. }, StepKey::Punch { .. })
            | (Operation::Reseat, StepKey::Reseat {})
            | (Operation::Sound { .. }, StepKey::Seat { .. })
            | (Operation::GuideOff, StepKey::GuideOff {}) => true,
            (Operation::Sound { sites }, StepKey::Sound { site, .. }) => {
                sites.iter().any(|one| one.as_str() == site.site)
            }
            (Operation::Drill { site, step }, StepKey::Drill { site: at, id, .. }) => {
                site.as_str() == at.site && step.as_str() == id
            }
            (
                Operation::Insert { site },
                StepKey::Insert { site: at, .. } | StepKey::Finish { site: at, .. },
            ) => site.as_str() == at.site,
            _ => false,
        };
        self.steps.iter().filter(here).collect()
    }
}

impl<'a> Source<'a> {
    /// What the day brought, where this is printed as its record.
    pub(super) fn day(&self) -> Option<&'a DayOnPaper> {
        let told = self.told != ToldOfDay::Nothing;
        self.signed.day.as_ref().filter(|_| told)
    }
}

fn tick_of(steps: &[&StepOnPaper]) -> Tick {
    let all =
        |is: fn(&Became) -> bool| !steps.is_empty() && steps.iter().all(|step| is(&step.became));
    if all(|became| matches!(became, Became::LeftOut(_))) {
        Tick::LeftOut
    } else if all(|became| matches!(became, Became::Done(_) | Became::Set)) {
        Tick::Ticked
    } else {
        Tick::Blank
    }
}

/// The box of a line in the order of use.
pub(super) fn tick(source: &Source<'_>, of: &Operation) -> Tick {
    let day = source.day();
    day.map_or(Tick::Blank, |day| tick_of(&day.steps_of(of)))
}

/// The box of what is done after a step, before the next.
pub(super) fn tick_then(source: &Source<'_>, site: &SiteId, step: &StepId) -> Tick {
    let is_it = |key: &StepKey| {
        matches!(key, StepKey::Look { site: at, id, .. }
            if site.as_str() == at.site && step.as_str() == id)
    };
    let found = source.day().and_then(|day| day.step(is_it));
    found.map_or(Tick::Blank, |found| tick_of(&[found]))
}

/// The box of a re-set.
pub(super) fn tick_reset(source: &Source<'_>, reset: &Reset) -> Tick {
    let mut resets = source.worksheet.resets.iter();
    let at = resets.position(|one| std::ptr::eq(one, reset));
    let found = source.day().and_then(|day| {
        let mut steps = day.steps.iter();
        steps.find(|step| at.is_some() && step.reset == at)
    });
    found.map_or(Tick::Blank, |found| tick_of(&[found]))
}

/// True if all of these things lie where the plan has them, by the record.
pub(super) fn are_laid(source: &Source<'_>, items: &[&LoadItem]) -> bool {
    let Some(day) = source.day() else {
        return false;
    };
    !items.is_empty()
        && items.iter().all(|item| {
            let thing = ThingKey {
                of: item.kind,
                entry: item.entry.clone(),
                copy: NonZeroU32::new(item.copy).unwrap_or(NonZeroU32::MIN),
            };
            let slot = item.slot.as_ref().map(|slot| slot.as_str());
            slot.is_some() && day.laid.get(&thing).map(String::as_str) == slot
        })
}

/// A box to tick by what became of it; nothing in its place where that was left out.
pub(super) const fn tick_cell(tick: Tick) -> Cell {
    match tick {
        Tick::Blank => Cell::TickBox,
        Tick::Ticked => Cell::TickedBox,
        Tick::LeftOut => Cell::Empty,
    }
}

/// What of a line was otherwise than planned: done by hand, out of its turn, although something was open, by another plan, or left
/// out, with who and why.
pub(super) fn otherwise(source: &Source<'_>, of: &Operation) -> Option<Row> {
    let formatter = &source.formatter;
    let day = source.day()?;
    let steps = day.steps_of(of).into_iter();
    let lines = steps.filter_map(|step| match &step.became {
        Became::Done(one) if step.stands_out => Some(one),
        // Where no implant was placed its row says so.
        Became::LeftOut(one) if !matches!(step.key, StepKey::Insert { .. }) => Some(one),
        _ => None,
    });
    let lines = lines.map(|one| {
        let what = formatter.happened_among(&day.events, one);
        let args = [
            ("at", &*time(one)),
            ("who", one.who.as_str()),
            ("what", &what),
        ];
        Cell::Text(formatter.text("record-line", &args), SMALL.bold())
    });
    let lines: Vec<Cell> = lines.collect();
    (!lines.is_empty()).then(|| Row::After(vec![Cell::Empty, Cell::Stack(lines)]))
}

fn time(one: &DayEvent) -> String {
    one.at.strftime("%H:%M").to_string()
}

/// Who did each line of the order of use and when, by its number.
pub(super) fn times(source: &Source<'_>) -> Option<Block> {
    let formatter = &source.formatter;
    let day = source.day().filter(|_| source.told == ToldOfDay::Times)?;
    let mut by: Vec<(String, Vec<String>)> = Vec::new();
    for (place, of) in source.worksheet.order.iter().enumerate() {
        let steps = day.steps_of(of);
        if tick_of(&steps) != Tick::Ticked {
            continue;
        }
        let last = steps.iter().rev().find_map(|step| match &step.became {
            Became::Done(one) => Some(one),
            _ => None,
        });
        let Some(last) = last else { continue };
        let args = [("at", time(last))];
        let args = args.each_ref().map(|(key, value)| (*key, value.as_str()));
        let said = formatter.counted("sheet-done-at", &[("number", place + 1)], &args);
        let who = last.who.to_string();
        match by.last_mut() {
            Some((of, all)) if *of == who => all.push(said),
            _ => by.push((who, vec![said])),
        }
    }
    let by = by.into_iter().map(|(who, all)| {
        let list = all.join(", ");
        formatter.text("sheet-done-by", &[("who", &who), ("list", &list)])
    });
    let list = by.collect::<Vec<_>>().join("; ");
    let words = formatter.text("sheet-done-times", &[("list", &list)]);
    (!list.is_empty()).then_some(Block::Paragraph(words, SMALL))
}

/// What the probe showed at a site, the last time that it was sounded; none where that is not recorded, or it is to be sounded
/// anew.
pub(super) fn sounded(source: &Source<'_>, site: &SiteId) -> Option<crate::measure::Length> {
    let is_it =
        |key: &StepKey| matches!(key, StepKey::Sound { site: at, .. } if site.as_str() == at.site);
    match &source.day()?.step(is_it)?.became {
        Became::Done(one) => match &one.kind {
            EventKind::Sounded(sounded) => Some(sounded.found_mm),
            _ => None,
        },
        _ => None,
    }
}

/// What was counted in and out, with who and when.
pub(super) fn counted<'a>(source: &Source<'a>) -> [Option<(&'a Counted, &'a DayEvent)>; 2] {
    let Some(day) = source.day() else {
        return [None, None];
    };
    [&day.count_in, &day.count_out].map(|one| {
        let one = one.as_ref()?;
        match &one.kind {
            EventKind::Counted(counted) => Some((counted, one)),
            _ => None,
        }
    })
}

/// The two who counted, and when.
pub(super) fn counted_by(source: &Source<'_>, (counted, one): (&Counted, &DayEvent)) -> String {
    let args = [
        ("who", one.who.as_str()),
        ("second", counted.second.as_str()),
        ("at", &*time(one)),
    ];
    let said = source.formatter.text("sheet-counted-by", &args);
    source.formatter.because(said, counted.despite.as_deref())
}

/// What is recorded of a kind of the implant of a site.
pub(super) fn entry<'a>(source: &Source<'a>, site: &SiteId, kind: EntryKind) -> Option<&'a Entry> {
    let mut implants = source.day()?.implants.iter();
    let implant = implants.find(|one| one.site == site.as_str())?;
    implant.entries.iter().find(|entry| entry.kind() == kind)
}

/// That no implant is placed at a site, by whom that was recorded and why.
pub(super) fn not_placed(source: &Source<'_>, site: &SiteId) -> Option<String> {
    let mut implants = source.day()?.implants.iter();
    let one = implants.find(|one| one.site == site.as_str())?;
    source.formatter.not_placed(one.not_placed.as_ref()?)
}
