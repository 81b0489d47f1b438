//! The worksheet as approvals and readings are held against it.

use super::{LoadItem, Reset, SetOn, Severity, Worksheet};
use crate::case::SoundCase;
use crate::kit::SlotKind;
use crate::measure::Length;
use crate::sign::{
    CaseJaw, DrillKey, EventKind, ItemKey, Merged, Piece, PlanView, PlannedItem, Purpose, Reading,
    Stands,
};
use std::cmp::Ordering;
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
///
/// A piece whose stop is set anew in surgery goes through its settings one after the other: how far
/// it is by what was recorded, is told by [`Stands`]. It stays the same piece while its stop is
/// moved.
#[must_use]
pub fn plan_view(case: &SoundCase, worksheet: &Worksheet, events: &Merged) -> PlanView {
    let purpose = if case.demonstration {
        Purpose::Practice
    } else {
        Purpose::Patient
    };
    let gauge = case.setup.gauge.as_ref().and_then(|id| case.kit.gauge(id));
    let mut rows: Vec<Row> = Vec::new();
    for (place, item) in worksheet.loading.iter().enumerate() {
        let set_anew = worksheet.resets_of(place).map(|reset| &reset.to);
        let sets = std::iter::once(item)
            .chain(set_anew)
            .filter_map(known_setting);
        let sets: Vec<(Set, Option<Length>)> = sets.map(set_of).collect();
        if known_setting(item).is_some() {
            rows.push(Row { place, sets });
        }
    }
    let pieces = which(&rows, &histories(events, purpose));
    let planned = |row: usize, turn: usize| {
        let ((drill, stop, setting_mm), gauge_figure_mm) = rows[row].sets.get(turn)?.clone();
        let (piece, now) = &pieces[row];
        Some(PlannedItem {
            key: ItemKey {
                drill,
                copy: piece.copy,
                stop,
                setting_mm,
            },
            stands: match turn.cmp(now) {
                Ordering::Less => Stands::NoMore,
                Ordering::Equal => Stands::Now,
                Ordering::Greater => Stands::Later,
            },
            gauge: gauge.map_or_else(String::new, |gauge| gauge.id.to_string()),
            gauge_figure_mm,
            graduation_mm: gauge.map(|gauge| gauge.graduation_mm),
            gauge_range_mm: gauge.map(|gauge| (gauge.from_mm, gauge.to_mm)),
        })
    };
    let mut items: Vec<PlannedItem> = (0..rows.len()).filter_map(|row| planned(row, 0)).collect();
    let mut turns = vec![0; rows.len()];
    for reset in &worksheet.resets {
        let Some(row) = rows.iter().position(|row| row.place == reset.item) else {
            continue;
        };
        turns[row] += 1;
        items.extend(planned(row, turns[row]));
    }
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

/// The settings that a piece goes through, each with what the gauge then shows.
struct Row {
    /// Its place in the loading list.
    place: usize,
    /// Never empty.
    sets: Vec<(Set, Option<Length>)>,
}

/// What was recorded of a piece.
struct History {
    piece: DrillKey,
    /// The settings that it was read or placed at, one after the other.
    sets: Vec<Set>,
    /// Whether its stop still is as it was read last.
    stop: Stop,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Stop {
    Moved,
    AsRead,
}

/// Which piece each row is, and at which of its settings it stands.
fn which(rows: &[Row], histories: &[History]) -> Vec<(DrillKey, usize)> {
    let mut fitting = Vec::new();
    for (n, row) in rows.iter().enumerate() {
        for (recent, history) in histories.iter().enumerate() {
            let turns = common(&row.sets, &history.sets);
            // Where nothing is set anew in surgery a stop that was moved stands for nothing.
            if turns > 0 && (history.stop == Stop::AsRead || row.sets.len() > 1) {
                fitting.push((turns, history.stop, n, recent));
            }
        }
    }
    fitting.sort_by(|a, b| {
        (b.0, b.1)
            .cmp(&(a.0, a.1))
            .then(a.2.cmp(&b.2))
            .then(b.3.cmp(&a.3))
    });
    let mut taken: BTreeSet<DrillKey> = BTreeSet::new();
    let mut chosen: Vec<Option<(DrillKey, usize)>> = rows.iter().map(|_| None).collect();
    // First those that a piece already stands for, so that no new one takes its place.
    for (turns, _, row, history) in fitting {
        let piece = &histories[history].piece;
        if chosen[row].is_none() && taken.insert(piece.clone()) {
            chosen[row] = Some((piece.clone(), turns - 1));
        }
    }
    let each = rows.iter().zip(chosen).map(|(row, piece)| {
        piece.unwrap_or_else(|| {
            let mut key = DrillKey {
                drill: row.sets[0].0.0.clone(),
                copy: NonZeroU32::MIN,
            };
            while taken.contains(&key) {
                key.copy = key.copy.saturating_add(1);
            }
            taken.insert(key.clone());
            (key, 0)
        })
    });
    each.collect()
}

/// How many of the settings of a row, from its first, a history ends with.
fn common(row: &[(Set, Option<Length>)], history: &[Set]) -> usize {
    let most = row.len().min(history.len());
    let ends_with = |turns: &usize| {
        let end = &history[history.len() - turns..];
        end.iter().eq(row[..*turns].iter().map(|(set, _)| set))
    };
    (1..=most).rev().find(ends_with).unwrap_or(0)
}

fn set_of((on, set): (&SetOn, Length)) -> (Set, Option<Length>) {
    let stop = on.stop.as_ref().map(ToString::to_string);
    ((on.drill.to_string(), stop, set), on.gauge.get())
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

/// What is set anew in surgery, each with the setting that readings of it are held against.
///
/// `view` has to be the [`plan_view`] of this worksheet.
pub fn with_planned_resets<'a>(
    worksheet: &'a Worksheet,
    view: &'a PlanView,
) -> impl Iterator<Item = (&'a Reset, Option<&'a PlannedItem>)> {
    let known = worksheet.loading.iter().filter_map(known_setting).count();
    let mut planned = view.items.iter().skip(known);
    worksheet.resets.iter().map(move |reset| {
        let set = known_setting(&reset.to).and_then(|_| planned.next());
        (reset, set)
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

/// What the events tell of each piece, the one last read or placed at the end.
fn histories(events: &Merged, purpose: Purpose) -> Vec<History> {
    let mut histories: Vec<History> = Vec::new();
    for event in events.in_order() {
        match &event.kind {
            EventKind::Reading(Reading { purpose: of, .. }) if *of != purpose => {}
            EventKind::Reading(Reading { item, .. }) | EventKind::Placed { item, .. } => {
                let piece = item.drill_key();
                let known = histories.iter().position(|one| one.piece == piece);
                let mut sets = known.map_or_else(Vec::new, |known| histories.remove(known).sets);
                let set = (item.drill.clone(), item.stop.clone(), item.setting_mm);
                if sets.last() != Some(&set) {
                    sets.push(set);
                }
                let stop = Stop::AsRead;
                histories.push(History { piece, sets, stop });
            }
            EventKind::Reset { drill }
            | EventKind::Dropped {
                piece: Piece::Drill(drill),
            } => {
                let mut known = histories.iter_mut();
                if let Some(one) = known.find(|one| one.piece == *drill) {
                    one.stop = Stop::Moved;
                }
            }
            _ => {}
        }
    }
    histories
}
