//! The worksheet as approvals and readings are held against it.

use super::{LoadItem, SetOn, Severity, Worksheet};
use crate::case::SoundCase;
use crate::kit::SlotKind;
use crate::measure::Length;
use crate::sign::{
    CaseJaw, DrillKey, EventKind, ItemKey, Merged, Piece, PlanView, PlannedItem, Purpose, Reading,
};
use std::collections::BTreeSet;
use std::num::NonZeroU32;

/// What of a drill makes it the one that a reading vouches for.
type Set = (String, Option<String>, Length);

/// The plan as approvals and readings are held against it.
///
/// Which of several equal drills carries which setting is not planned: it is what happened. An item
/// goes on being the piece that was last read or placed at its stop and setting, as long as that
/// did not fall and its stop was not moved since; a new one is the lowest piece that no item has. So
/// an edit elsewhere never turns one drill into another. Readings to practise are none of a
/// patient's case, nor a patient's of one to practise.
#[must_use]
pub fn plan_view(case: &SoundCase, worksheet: &Worksheet, events: &Merged) -> PlanView {
    let purpose = if case.demonstration {
        Purpose::Practice
    } else {
        Purpose::Patient
    };
    let pieces = last_settings(events, purpose);
    let gauge = case.setup.gauge.as_ref().and_then(|id| case.kit.gauge(id));
    let mut taken: BTreeSet<DrillKey> = BTreeSet::new();
    let mut open: Vec<(Set, Option<Length>)> = Vec::new();
    for (on, set) in worksheet.loading.iter().filter_map(known_setting) {
        let stop = on.stop.as_ref().map(ToString::to_string);
        open.push(((on.drill.to_string(), stop, set), on.gauge.get()));
    }
    // First those that a piece already stands for, so that no new one takes its place.
    let mut chosen: Vec<Option<DrillKey>> = open
        .iter()
        .map(|(set, _)| {
            let piece = pieces
                .iter()
                .rev()
                .find(|(piece, last)| last == set && !taken.contains(piece))
                .map(|(piece, _)| piece.clone())?;
            taken.insert(piece.clone());
            Some(piece)
        })
        .collect();
    for ((set, _), piece) in open.iter().zip(&mut chosen) {
        if piece.is_none() {
            let mut key = DrillKey {
                drill: set.0.clone(),
                copy: NonZeroU32::MIN,
            };
            while taken.contains(&key) {
                key.copy = key.copy.saturating_add(1);
            }
            taken.insert(key.clone());
            *piece = Some(key);
        }
    }
    let items = open
        .into_iter()
        .zip(chosen)
        .filter_map(|(((drill, stop, setting_mm), gauge_figure_mm), piece)| {
            Some(PlannedItem {
                key: ItemKey {
                    drill,
                    copy: piece?.copy,
                    stop,
                    setting_mm,
                },
                gauge: gauge.map_or_else(String::new, |gauge| gauge.id.to_string()),
                gauge_figure_mm,
                graduation_mm: gauge.map(|gauge| gauge.graduation_mm),
                gauge_range_mm: gauge.map(|gauge| (gauge.from_mm, gauge.to_mm)),
            })
        })
        .collect();
    let judged = worksheet
        .findings
        .iter()
        .filter(|finding| matches!(finding.severity(), Severity::Accepted | Severity::Intended));
    PlanView {
        case_jaw: case_jaw(case),
        fingerprint: worksheet.fingerprint,
        purpose,
        accepted: judged
            .map(|finding| format!("{} {}", finding.key(), finding.token()))
            .collect(),
        items,
    }
}

/// A drill's setting, where it is known.
fn known_setting(item: &LoadItem) -> Option<(&SetOn, Length)> {
    let on = item.set.as_ref().filter(|_| item.kind == SlotKind::Drill)?;
    Some((on, on.set.get()?))
}

/// Everything for the tray in the order of loading, each with the setting that readings of it are
/// held against; nothing for what has no setting, or no known one.
///
/// `view` has to be the [`plan_view`] of this worksheet.
pub fn with_planned<'a>(
    worksheet: &'a Worksheet,
    view: &'a PlanView,
) -> impl Iterator<Item = (&'a LoadItem, Option<&'a PlannedItem>)> {
    let mut planned = view.items.iter();
    worksheet.loading.iter().map(move |item| {
        let set = known_setting(item).and_then(|_| planned.next());
        (item, set)
    })
}

/// The case and jaw that events must belong to.
#[must_use]
pub fn case_jaw(case: &SoundCase) -> CaseJaw {
    CaseJaw {
        case: case.reference.to_string(),
        jaw: case.jaw,
    }
}

/// The pieces that carry a stop and setting by the events, the one last read or placed at the end.
fn last_settings(events: &Merged, purpose: Purpose) -> Vec<(DrillKey, Set)> {
    let mut pieces: Vec<(DrillKey, Set)> = Vec::new();
    for event in events.in_order() {
        match &event.kind {
            EventKind::Reading(Reading { purpose: of, .. }) if *of != purpose => {}
            EventKind::Reading(Reading { item, .. }) | EventKind::Placed { item, .. } => {
                let set = (item.drill.clone(), item.stop.clone(), item.setting_mm);
                let key = item.drill_key();
                pieces.retain(|(piece, _)| *piece != key);
                pieces.push((key, set));
            }
            EventKind::Reset { drill }
            | EventKind::Dropped {
                piece: Piece::Drill(drill),
            } => pieces.retain(|(piece, _)| piece != drill),
            _ => {}
        }
    }
    pieces
}
