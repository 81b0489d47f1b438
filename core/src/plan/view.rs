//! The worksheet as approvals and readings are held against it.

use super::{Known, Severity, Worksheet};
use crate::case::SoundCase;
use crate::kit::SlotKind;
use crate::measure::Length;
use crate::sign::{CaseJaw, DrillKey, EventKind, ItemKey, Merged, PlanView, PlannedItem, Purpose};
use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroU32;

/// What of a drill makes it the one that a reading vouches for.
type Set = (String, Option<String>, Length);

/// The plan as approvals and readings are held against it.
///
/// Which of several equal drills carries which setting is not planned: it is what happened. An item
/// goes on being the piece that was last read or placed at its stop and setting; a new one is the
/// lowest piece that no item has. So an edit elsewhere never turns one drill into another.
#[must_use]
pub fn plan_view(case: &SoundCase, worksheet: &Worksheet, events: &Merged) -> PlanView {
    let pieces = last_settings(events);
    let gauge = case.setup.gauge.as_ref().and_then(|id| case.kit.gauge(id));
    let mut taken: BTreeSet<DrillKey> = BTreeSet::new();
    let mut open: Vec<(Set, Option<Length>)> = Vec::new();
    for item in &worksheet.loading {
        let Some(on) = item.set.as_ref().filter(|_| item.kind == SlotKind::Drill) else {
            continue;
        };
        let Known::Is(set) = on.set else { continue };
        let stop = on.stop.as_ref().map(ToString::to_string);
        open.push(((on.drill.to_string(), stop, set), on.gauge.get()));
    }
    // First those that a piece already stands for, so that no new one takes its place.
    let mut chosen: Vec<Option<DrillKey>> = open
        .iter()
        .map(|(set, _)| {
            let piece = pieces
                .iter()
                .find(|(piece, last)| *last == set && !taken.contains(piece))
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
                graduation_mm: gauge.map_or(Length::from_um(100), |gauge| gauge.graduation_mm),
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
        purpose: if case.demonstration {
            Purpose::Practice
        } else {
            Purpose::Patient
        },
        accepted: judged
            .map(|finding| format!("{} {}", finding.key(), finding.token()))
            .collect(),
        items,
    }
}

/// The case and jaw that events must belong to.
#[must_use]
pub fn case_jaw(case: &SoundCase) -> CaseJaw {
    CaseJaw {
        case: case.reference.to_string(),
        jaw: case.jaw,
    }
}

/// For each piece, the stop and setting at which it was last read or placed.
fn last_settings(events: &Merged) -> BTreeMap<DrillKey, Set> {
    let mut last = BTreeMap::new();
    for event in events.in_order() {
        let (EventKind::Reading(crate::sign::Reading { item, .. })
        | EventKind::Placed { item, .. }) = &event.kind
        else {
            continue;
        };
        let set = (item.drill.clone(), item.stop.clone(), item.setting_mm);
        last.insert(item.drill_key(), set);
    }
    last
}
