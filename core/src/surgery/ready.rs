//! What keeps a step from being ready.

use super::{DayStep, SetDrill, Work};
use crate::kit::{Kit, SiteId};
use crate::plan::{Actionable, ActionableFigure, StepPath};
use crate::sign::{Check, Objection, Piece, SettingState, Stage, Standing};
use std::collections::BTreeSet;

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
    /// It is not verified in the sterile field.
    NotRead(Vec<Objection>),
    /// It lies in no slot: it was not laid, or fell or was handled since.
    NotLaid,
    /// It fell.
    Fell,
    /// A STOP told somebody to take it.
    Told,
    /// The site was not sounded within the limit.
    NotSounded,
}

impl NotReady {
    /// True if the step cannot be done at all: there is nothing to do it by.
    #[must_use]
    pub const fn forbids(&self) -> bool {
        matches!(self, Self::NoFigure | Self::DoesNotFit | Self::NotOnGauge)
    }
}

/// Puts for each step that is not over what keeps it from being ready.
pub(super) fn mark(steps: &mut [DayStep<'_>], kit: &Kit, standing: &Standing) {
    let unsounded: BTreeSet<SiteId> = steps
        .iter()
        .filter(|step| !step.state.is_done())
        .filter_map(|step| match &step.work {
            Work::Sound(sounding) => Some(sounding.site.id.clone()),
            _ => None,
        })
        .collect();
    for step in steps.iter_mut().filter(|step| !step.state.is_over()) {
        let mut found = Vec::new();
        match &step.work {
            Work::Drill(drilling) => {
                match &drilling.drill {
                    Some(drill) => found.extend(of_drill(drill, kit, standing)),
                    None => found.push(NotReady::NoFigure),
                }
                let guided = drilling.step.path != StepPath::Freehand;
                if guided && unsounded.contains(&drilling.site.id) {
                    found.push(NotReady::NotSounded);
                }
            }
            Work::Pin { drill, .. } => match drill {
                Some(drill) => found.extend(of_drill(drill, kit, standing)),
                None => found.push(NotReady::NoFigure),
            },
            Work::Insert { site, .. }
                if site.insertion.is_some() && unsounded.contains(&site.id) =>
            {
                found.push(NotReady::NotSounded);
            }
            Work::Sound(sounding) if sounding.planned.is_none() || sounding.limit.is_none() => {
                found.push(NotReady::NotSoundable);
            }
            _ => {}
        }
        step.not_ready = found;
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
        let fell = |piece: &Piece| *piece == Piece::Drill(key.clone());
        let mut falls = standing.fallen.iter();
        let fell = falls.any(|fall| fall.counts() && fell(&fall.piece));
        found.push(if fell {
            NotReady::Fell
        } else {
            NotReady::NotLaid
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
