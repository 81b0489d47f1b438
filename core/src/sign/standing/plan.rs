//! The part of a plan that the standing of events is derived from.

use crate::measure::Length;
use crate::sign::{CaseJaw, Event, EventKind, Fingerprint, ItemKey, Purpose, Who};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

/// The plan that the events of a case are held against; the worksheet fills it in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanView {
    /// The case and its jaw.
    pub case_jaw: CaseJaw,
    /// Of everything that determines a figure.
    pub fingerprint: Fingerprint,
    /// The extent of the fingerprint, by number. What was approved by another one has lapsed.
    pub covers: u32,
    /// Practice for a demonstration case: then nothing counts.
    pub purpose: Purpose,
    /// The findings that the plan accepts: the key of each and what it shows.
    pub accepted: BTreeSet<String>,
    /// The names of the case's team.
    pub people: Vec<Who>,
    /// Codes of drills and stops as a record may bear them too, each with the one that the items bear ([`ItemKey::kit_code`]).
    pub codes: BTreeMap<Fingerprint, Fingerprint>,
    /// Every setting on the tray, then those that are set anew in surgery.
    pub items: Vec<PlannedItem>,
}

impl PlanView {
    /// An event with the codes that the items bear.
    pub(super) fn in_own_codes<'a>(&self, event: &'a Event) -> Cow<'a, Event> {
        let code = event.kind.item().and_then(|item| item.kit_code);
        let Some(own) = code.and_then(|code| self.codes.get(&code)) else {
            return Cow::Borrowed(event);
        };
        let mut event = event.clone();
        if let Some(item) = event.kind.item_mut() {
            item.kit_code = Some(*own);
        }
        Cow::Owned(event)
    }
}

impl EventKind {
    /// The drill with its stop at a setting that it is of.
    const fn item(&self) -> Option<&ItemKey> {
        match self {
            Self::Reading(reading) => Some(&reading.item),
            Self::Placed { item, .. } | Self::Handled { item, .. } => Some(item),
            Self::Reset { passed_over, .. } => passed_over.as_ref(),
            _ => None,
        }
    }

    const fn item_mut(&mut self) -> Option<&mut ItemKey> {
        match self {
            Self::Reading(reading) => Some(&mut reading.item),
            Self::Placed { item, .. } | Self::Handled { item, .. } => Some(item),
            Self::Reset { passed_over, .. } => passed_over.as_mut(),
            _ => None,
        }
    }
}

/// The state of a drill at one of its settings, by what was recorded: its stop may be set anew in
/// surgery.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SettingState {
    /// It is at it, or is to be: this setting is read and laid.
    Now,
    /// It is not at it until its stop is set anew: no reading of it counts yet.
    Later,
    /// It is at it no more: its stop was set anew since.
    NoMore,
}

/// One setting of one physical drill, and what the gauge has to show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedItem {
    /// Drill, stop and setting.
    pub key: ItemKey,
    /// Its state by what was recorded.
    pub state: SettingState,
    /// The gauge to read it on.
    pub gauge: String,
    /// The figure that the gauge then shows; none while a term of it is unknown.
    pub gauge_figure_mm: Option<Length>,
    /// The gauge's graduation; none where no gauge is chosen.
    pub graduation_mm: Option<Length>,
    /// What the gauge adds to the length that it measures; none where that is unknown, so that no check finds it sound.
    pub gauge_constant_mm: Option<Length>,
    /// The length of the gauge's check piece; none where the kit names none.
    pub check_piece_mm: Option<Length>,
    /// Least and greatest figure of the gauge, where the kit gives them.
    pub gauge_range_mm: Option<(Length, Length)>,
}

/// The allowed deviation of a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tolerance {
    /// Graduations to the shallow side.
    pub shallow_graduations: u8,
    /// Allowance to the deep side. Above zero it has to be recomputed into the clearances first.
    pub deep_mm: Length,
    /// From more than this on a reading looks mistyped.
    pub mistyped_beyond_mm: Length,
}

/// The rules of the house.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Policy {
    /// The allowed deviation of a reading.
    pub tolerance: Tolerance,
    /// After so many landings of its stop a reading lapses.
    pub landings: u32,
    /// Name of the local rule by which a bench reading counts after sterilisation, where there is
    /// one. It is printed.
    pub bench_after_sterilisation: Option<String>,
    /// For how long after the gauge's check piece was read the gauge counts as checked, in
    /// seconds.
    pub gauge_check_lasts_s: i64,
    /// For how long somebody who saw a figure of a case does not read it blind, in seconds.
    pub session_s: i64,
    /// By how much the clocks of two desks may differ, in seconds. Within it nobody knows which of
    /// two events was first, and a reading counts as the earlier one.
    pub clocks_apart_s: i64,
}

impl Tolerance {
    /// One graduation to the shallow side and nothing to the deep side; mistyped beyond 2 mm.
    /// Common practice, no source.
    #[must_use]
    pub const fn common_practice() -> Self {
        Self {
            shallow_graduations: 1,
            deep_mm: Length::ZERO,
            mistyped_beyond_mm: Length::from_mm(2),
        }
    }
}

impl Policy {
    /// No local rule about sterilisation; the gauge checked within twelve hours, as long as a
    /// figure that was seen keeps somebody from reading blind, clocks at most
    /// two minutes apart. These figures are defaults of this program, no source.
    #[must_use]
    pub const fn strict(landings: u32) -> Self {
        Self {
            tolerance: Tolerance::common_practice(),
            landings,
            bench_after_sterilisation: None,
            gauge_check_lasts_s: 12 * 60 * 60,
            session_s: 12 * 60 * 60,
            clocks_apart_s: 120,
        }
    }
}
