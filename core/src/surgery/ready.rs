//! What keeps a step from being ready.

use super::count::thing_of;
use super::{DayStep, SetDrill, State, Work, guide, is_guide_off};
use crate::case::Case;
use crate::kit::{Kit, SiteId, SlotKind};
use crate::measure::Length;
use crate::plan::{Actionable, ActionableFigure, LoadItem, SiteSheet, StepPath, Worksheet};
use crate::sign::{
    Check, DayEvent, EventKind, Objection, Piece, SettingState, Stage, Standing, StepKey,
    StopSince, ThingKey,
};
use std::collections::BTreeMap;

/// A reason why a step is not to be done as if all were well.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotReady {
    /// No setting is known: it cannot be done.
    NoFigure,
    /// Stop, drill and sleeve do not fit each other: it cannot be done.
    DoesNotFit,
    /// Nobody knows what the gauge would show: it cannot be done.
    NotOnGauge,
    /// The plan has no figure or no limit for the sounding, so that what the probe shows says nothing.
    NotSoundable,
    /// The drill is at an earlier setting: its stop is to be set anew first.
    SetAnewFirst,
    /// The drill is at a later setting.
    SetSince,
    /// By the record it is set otherwise: it cannot be done with it as it is.
    SetOtherwise {
        /// The setting.
        set: Length,
        /// Its slot; none where it lies in none.
        slot: Option<String>,
    },
    /// It is not verified in the sterile field.
    NotRead(Vec<Objection>),
    /// It lies in no slot: it was not laid, or fell or was handled since.
    NotLaid,
    /// It lies in its slot as it came: it was not set.
    LiesUnset {
        /// Its slot.
        slot: String,
        /// In its wrapping.
        sealed: bool,
    },
    /// It fell.
    Fell,
    /// A STOP told somebody to take it.
    Told,
    /// The site was not sounded within the limit.
    NotSounded,
    /// Sounding the site was left out, for a reason that was recorded there: that is told, and asked no more.
    LeftUnsounded,
    /// So many drills of the site were left out: that is told.
    DrillsLeftOut(usize),
    /// The guide fell, and nobody said which one goes in: nothing is done through it.
    GuideFell,
    /// The guide is off: a stop that counts from it would let the drill go deeper.
    GuideOff,
    /// The guide was left at the site by the plan: nothing more is done through it.
    GuideLeft,
    /// The guide is abandoned by the record, and the plan still leads through it: nothing more is done so.
    GuideAbandoned,
    /// A thing that the step is done with lies in no slot.
    ThingNotLaid(ThingKey),
    /// A thing that the step is done with fell, and none was laid since.
    ThingFell(ThingKey),
}

impl NotReady {
    /// True if the step cannot be done at all: there is nothing to do it by.
    #[must_use]
    pub const fn forbids(&self) -> bool {
        matches!(
            self,
            Self::NoFigure
                | Self::DoesNotFit
                | Self::NotOnGauge
                | Self::GuideFell
                | Self::GuideOff
                | Self::GuideLeft
                | Self::GuideAbandoned
                | Self::SetOtherwise { .. }
                | Self::SetAnewFirst
                | Self::SetSince
        )
    }

    /// True if it is told and keeps nothing from being done.
    #[must_use]
    pub const fn is_only_told(&self) -> bool {
        matches!(self, Self::LeftUnsounded | Self::DrillsLeftOut(_))
    }

    /// The thing without a setting that it is about.
    #[must_use]
    pub const fn thing(&self) -> Option<&ThingKey> {
        match self {
            Self::ThingNotLaid(thing) | Self::ThingFell(thing) => Some(thing),
            _ => None,
        }
    }

    /// True if it speaks against what the step is done with, not against the guide or the site.
    #[must_use]
    pub const fn is_of_things(&self) -> bool {
        !matches!(
            self,
            Self::NotSounded
                | Self::LeftUnsounded
                | Self::DrillsLeftOut(_)
                | Self::NotSoundable
                | Self::GuideFell
                | Self::GuideOff
                | Self::GuideLeft
                | Self::GuideAbandoned
        )
    }

    /// True if it speaks against an insertion without the guide as well.
    #[must_use]
    pub const fn is_of_freehand(&self) -> bool {
        match self {
            Self::ThingNotLaid(thing) | Self::ThingFell(thing) => {
                !matches!(thing.of, SlotKind::Carrier | SlotKind::Sleeve)
            }
            _ => self.is_of_things(),
        }
    }
}

/// Puts for each step that is not over what keeps it from being ready.
pub(super) fn mark(
    steps: &mut [DayStep<'_>],
    (case, worksheet): (&Case, &Worksheet),
    (standing, abandoned): (&Standing, Option<&DayEvent>),
) {
    let kit = &case.kit;
    let guide_off = is_guide_off(steps);
    let fell = abandoned.is_none() && guide::fell(standing).is_some();
    let left = |id: &SiteId| {
        let site = case.site(id.as_str());
        if site.is_some_and(|site| site.without_guide.is_some()) {
            Some(NotReady::GuideLeft)
        } else {
            abandoned.map(|_| NotReady::GuideAbandoned)
        }
    };
    let things = Things {
        worksheet,
        standing,
    };
    let unsounded: BTreeMap<SiteId, NotReady> = steps
        .iter()
        .filter(|step| !step.state.is_done())
        .filter_map(|step| match &step.work {
            Work::Sound(sounding) => {
                Some((sounding.site.id.clone(), unsounded(step, &standing.day)))
            }
            _ => None,
        })
        .collect();
    let mut left_out: BTreeMap<SiteId, usize> = BTreeMap::new();
    for step in steps.iter() {
        let left = matches!(step.state, State::Skipped(_)) && step.done_before().is_none();
        if let Work::Drill(drilling) = &step.work
            && left
        {
            *left_out.entry(drilling.site.id.clone()).or_default() += 1;
        }
    }
    for step in steps.iter_mut().filter(|step| !step.state.is_over()) {
        let mut found = Vec::new();
        if fell && step.is_of_guide() {
            found.push(NotReady::GuideFell);
        }
        match &step.work {
            Work::Drill(drilling) => {
                let guided = drilling.step.path != StepPath::Freehand;
                if guided && guide_off {
                    found.push(NotReady::GuideOff);
                }
                found.extend(left(&drilling.site.id).filter(|_| guided));
                match &drilling.drill {
                    Some(drill) => found.extend(of_drill(drill, kit, standing)),
                    None => found.push(NotReady::NoFigure),
                }
                let sleeve = drilling.step.sleeve.as_ref().filter(|_| guided);
                if let Some(sleeve) = sleeve {
                    found.extend(things.any_of(SlotKind::Sleeve, sleeve.as_str()));
                }
                let why = unsounded.get(&drilling.site.id);
                found.extend(why.filter(|_| guided).cloned());
            }
            Work::Pin { sheet, drill } => {
                if guide_off {
                    found.push(NotReady::GuideOff);
                }
                match drill {
                    Some(drill) => found.extend(of_drill(drill, kit, standing)),
                    None => found.push(NotReady::NoFigure),
                }
                found.extend(things.any_of(SlotKind::Pin, sheet.pin.as_str()));
            }
            Work::Insert { site, item, .. } => {
                if site.insertion.is_some() && guide_off {
                    found.push(NotReady::GuideOff);
                }
                found.extend(left(&site.id).filter(|_| site.insertion.is_some()));
                found.extend(item.and_then(|item| things.of(item)));
                found.extend(things.of_insertion(site));
                let why = unsounded.get(&site.id);
                found.extend(why.filter(|_| site.insertion.is_some()).cloned());
                let count = left_out.get(&site.id).copied();
                found.extend(count.map(NotReady::DrillsLeftOut));
            }
            Work::Sound(sounding) if sounding.planned.is_none() || sounding.limit.is_none() => {
                found.push(NotReady::NotSoundable);
            }
            _ => {}
        }
        step.not_ready = found;
    }
}

/// How a site that was not sounded within its limit stands: for a reason that was given there, unless a probe was off.
fn unsounded(step: &DayStep<'_>, day: &[DayEvent]) -> NotReady {
    let site = |key: &StepKey| key.site().map(|site| site.site.clone());
    // By whatever plan or guide it was.
    let sounded = |one: &DayEvent| {
        let here = one.step().and_then(site) == site(&step.key);
        here && one.counts() && matches!(one.kind, EventKind::Sounded(_))
    };
    if matches!(step.state, State::Skipped(_)) && !day.iter().any(sounded) {
        NotReady::LeftUnsounded
    } else {
        NotReady::NotSounded
    }
}

/// What lies on the tray without a setting.
struct Things<'a> {
    worksheet: &'a Worksheet,
    standing: &'a Standing,
}

impl Things<'_> {
    /// What speaks against this thing.
    fn of(&self, item: &LoadItem) -> Option<NotReady> {
        let thing = thing_of(item);
        if self.standing.thing_slots.contains_key(&thing) {
            return None;
        }
        let mut falls = self.standing.fallen.iter();
        let fell = falls.any(|fall| fall.counts() && fall.may_be(&thing));
        Some(if fell {
            NotReady::ThingFell(thing)
        } else {
            NotReady::ThingNotLaid(thing)
        })
    }

    /// What speaks against each of several equal things, where something does: one that lies there will do.
    fn any_of(&self, kind: SlotKind, entry: &str) -> Option<NotReady> {
        let loading = self.worksheet.loading.iter();
        let mut same = loading.filter(|item| (item.kind, item.entry.as_str()) == (kind, entry));
        let first = self.of(same.next()?)?;
        same.all(|item| self.of(item).is_some()).then_some(first)
    }

    /// What speaks against what an implant is turned in with.
    fn of_insertion(&self, site: &SiteSheet) -> Vec<NotReady> {
        let guided = site.insertion.as_ref();
        let sleeve = guided.and_then(|one| one.sleeve.as_ref());
        let sleeve = sleeve.and_then(|one| self.any_of(SlotKind::Sleeve, one.as_str()));
        let serves = |item: &&LoadItem| {
            let mut serves = item.serves.iter();
            serves.any(|one| one.site.as_ref().is_none_or(|own| *own == site.id))
        };
        let with = |item: &&LoadItem| match item.kind {
            SlotKind::Carrier => guided.is_some(),
            SlotKind::Driver => true,
            _ => false,
        };
        let loading = self.worksheet.loading.iter();
        let others = loading.filter(with).filter(serves);
        let others = others.filter_map(|item| self.of(item));
        sleeve.into_iter().chain(others).collect()
    }
}

/// What speaks against a drill, the worst first.
fn of_drill(drill: &SetDrill<'_>, kit: &Kit, standing: &Standing) -> Vec<NotReady> {
    let Some(actionable) = Actionable::of_item(drill.item) else {
        return vec![NotReady::NoFigure];
    };
    match actionable.figure(kit) {
        ActionableFigure::Nothing => return vec![NotReady::NoFigure],
        ActionableFigure::DoesNotFit => return vec![NotReady::DoesNotFit],
        ActionableFigure::NotOnGauge { .. } => return vec![NotReady::NotOnGauge],
        ActionableFigure::GaugeFigure { .. } | ActionableFigure::SetLength { .. } => {}
    }
    let (Some(planned), Some(item)) = (drill.planned, drill.standing) else {
        return vec![NotReady::NoFigure];
    };
    match item.state {
        SettingState::Later => return vec![NotReady::SetAnewFirst],
        SettingState::NoMore => return vec![NotReady::SetSince],
        SettingState::Now => {}
    }
    let mut found = Vec::new();
    let key = planned.key.drill_key();
    let now = standing.drills.get(&key).filter(|now| now.is_somewhere());
    if let Some(now) = now.filter(|now| now.stop == StopSince::AsSet && now.item != planned.key) {
        found.push(NotReady::SetOtherwise {
            set: now.item.setting_mm,
            slot: now.slot.clone(),
        });
    }
    let told = standing
        .told
        .keys()
        .any(|thing| thing.piece() == Piece::Drill(key.clone()));
    if told {
        found.push(NotReady::Told);
    }
    let sterile = item.checks.get(&Stage::SterileField);
    if actionable.is_read()
        && let Some(check) = sterile.filter(|check| !counts(check))
    {
        let against = check.objections.iter();
        let against = against.filter(|one| **one != Objection::Practice);
        found.push(NotReady::NotRead(against.cloned().collect()));
    }
    if item.placed.is_none() {
        let thing = ThingKey {
            of: SlotKind::Drill,
            entry: key.drill.clone(),
            copy: key.copy,
        };
        let fell = |piece: &Piece| *piece == Piece::Drill(key.clone());
        let mut falls = standing.fallen.iter();
        let fell = falls.any(|fall| fall.counts() && fell(&fall.piece));
        found.push(match standing.thing_slots.get(&thing) {
            Some(slot) => NotReady::LiesUnset {
                slot: slot.clone(),
                sealed: drill.item.unopened && !standing.opened.contains(&thing),
            },
            None if fell => NotReady::Fell,
            None => NotReady::NotLaid,
        });
    }
    found
}

/// True if a check verifies a setting, in practice for practice.
fn counts(check: &Check) -> bool {
    check.is_verified() || check.is_practised()
}

/// True if a setting that is made in surgery was made and verified, or gone on from.
pub(super) fn is_behind(drill: &SetDrill<'_>) -> bool {
    let Some(item) = drill.standing else {
        return false;
    };
    let is_read = Actionable::of_item(drill.item).is_some_and(|one| one.is_read());
    match item.state {
        SettingState::NoMore => true,
        SettingState::Later => false,
        SettingState::Now => {
            let check = item.checks.get(&Stage::SterileField);
            !is_read || check.is_some_and(counts)
        }
    }
}
