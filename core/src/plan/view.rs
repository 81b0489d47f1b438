//! The worksheet as approvals and readings are held against it.

use crate::case::{PLAN_CODE_COVERS, ValidCase};
use crate::kit::SlotKind;
use crate::measure::Length;
use crate::plan::finding::{Finding, Severity};
use crate::plan::kit_codes::KitCodes;
use crate::plan::stock::loading::{DrillSetup, LoadItem, Reset};
use crate::plan::worksheet::Worksheet;
use crate::sign::{
    CaseJaw, DrillKey, EventKind, HandStep, ItemKey, Merged, PlanView, PlannedItem, Purpose,
    Reading, SettingState, Who,
};
use crate::sign::{Purposes, is_practised};
use std::cmp::Ordering;
use std::collections::BTreeSet;
use std::num::NonZeroU32;

/// The identity of a drill that a reading vouches for: drill, stop and setting.
type Set = (String, Option<String>, Length);

/// The plan as approvals and readings are held against it.
///
/// The piece that carries a setting, among several equal drills, is not planned but follows from
/// the record. An item goes on being the piece that was last set, read or placed at its stop
/// and setting, as long as that did not fall and its stop was not moved since; else it is what lies in its slot; a new one is the
/// lowest piece that no item has. So an edit elsewhere never turns one drill into another. Readings to
/// practise are none of a patient's case, nor a patient's of one to practise.
///
/// A piece whose stop is set anew in surgery goes through its settings one after the other: how far
/// it is by what was recorded, is told by [`SettingState`]. It stays the same piece while its stop is
/// moved.
#[must_use]
pub fn plan_view(case: &ValidCase, worksheet: &Worksheet, events: &Merged) -> PlanView {
    let purpose = case.purpose();
    let gauge = case.gauge();
    let mut rows: Vec<Row> = Vec::new();
    for (place, item) in worksheet.loading.iter().enumerate() {
        let set_anew = worksheet.resets_of(place).map(|reset| &reset.to);
        let sets = std::iter::once(item)
            .chain(set_anew)
            .filter_map(known_setting);
        let sets: Vec<(Set, Option<Length>)> = sets.map(set_of).collect();
        if known_setting(item).is_some() {
            let slot = item.slot.as_ref().map(ToString::to_string);
            rows.push(Row { place, slot, sets });
        }
    }
    let pieces = piece_of_each(&rows, &histories(events, purpose));
    let mut codes = KitCodes::of(&case.kit, events);
    let mut planned = |row: usize, turn: usize| {
        let ((drill, stop, setting_mm), gauge_figure_mm) = rows[row].sets.get(turn)?.clone();
        let (piece, now) = &pieces[row];
        Some(PlannedItem {
            key: ItemKey {
                kit_code: Some(codes.code(&drill, stop.as_deref())),
                drill,
                copy: piece.copy,
                stop,
                setting_mm,
            },
            state: match turn.cmp(now) {
                Ordering::Less => SettingState::NoMore,
                Ordering::Equal => SettingState::Now,
                Ordering::Greater => SettingState::Later,
            },
            gauge: gauge.map_or_else(String::new, |gauge| gauge.id.to_string()),
            gauge_figure_mm,
            graduation_mm: gauge.map(|gauge| gauge.graduation_mm),
            gauge_constant_mm: gauge.and_then(|gauge| gauge.constant_mm),
            check_piece_mm: gauge.and_then(|gauge| gauge.check_piece_mm),
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
    let team = &case.team;
    PlanView {
        case_jaw: case_jaw(case),
        fingerprint: worksheet.fingerprint,
        covers: PLAN_CODE_COVERS,
        purpose,
        accepted: judged.map(Finding::acceptance).collect(),
        people: [&team.surgeon, &team.nurse, &team.second_checker]
            .into_iter()
            .flatten()
            .filter_map(|name| Who::new(name.as_str()).ok())
            .collect(),
        codes: codes.others(),
        items,
    }
}

/// The settings that a piece goes through, each with what the gauge then shows.
struct Row {
    /// Its place in the loading list.
    place: usize,
    /// Its slot on the tray.
    slot: Option<String>,
    /// Never empty.
    sets: Vec<(Set, Option<Length>)>,
}

/// The record of a piece.
struct History {
    piece: DrillKey,
    /// The settings that it was set, read or placed at, one after the other.
    sets: Vec<Set>,
    /// The last time that one of its settings in the plan was begun by its place among them.
    begun: Option<Begun>,
    /// The one of them that is begun and was not set, read or placed yet.
    next: Option<Next>,
    /// The state of its stop since it was set or read last.
    stop: Stop,
    /// The slot into which it was laid last; none where it fell since.
    slot: Option<String>,
}

/// One of a piece's settings in the plan was begun.
struct Begun {
    /// Number of settings before it in the plan.
    turn: usize,
    /// The settings since, it first.
    sets: Vec<Set>,
}

/// One of a piece's settings in the plan is to be set next.
struct Next {
    /// Number of settings before it in the plan.
    turn: usize,
    /// The setting that the piece is at before it, where that is gone on from unread.
    passed_over: Option<Set>,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Stop {
    Moved,
    AsRead,
}

/// The piece that each row is, and the one of its settings at which it is.
fn piece_of_each(rows: &[Row], histories: &[History]) -> Vec<(DrillKey, usize)> {
    let mut fitting = Vec::new();
    for (n, row) in rows.iter().enumerate() {
        for (recent, history) in histories.iter().enumerate() {
            // Where nothing is set anew in surgery a stop that was moved stands for nothing.
            let holds = history.stop == Stop::AsRead || row.sets.len() > 1;
            if let Some((alike, turn)) = fit(&row.sets, history).filter(|_| holds) {
                fitting.push((alike, history.stop, n, recent, turn));
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
    for (_, _, row, history, turn) in fitting {
        let piece = &histories[history].piece;
        if chosen[row].is_none() && taken.insert(piece.clone()) {
            chosen[row] = Some((piece.clone(), turn));
        }
    }
    // Then what lies in its slot, at whatever setting: the step leads to it there.
    for (row, chosen) in rows.iter().zip(&mut chosen) {
        let lies = |one: &&History| {
            let is_there = row.slot.is_some() && one.slot == row.slot;
            is_there && one.piece.drill == row.sets[0].0.0 && !taken.contains(&one.piece)
        };
        if chosen.is_none()
            && let Some(one) = histories.iter().rev().find(lies)
        {
            taken.insert(one.piece.clone());
            *chosen = Some((one.piece.clone(), 0));
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

/// Number of settings of a row that a history ends with, and the one of them at which the piece
/// then is, or which is due.
fn fit(row: &[(Set, Option<Length>)], history: &History) -> Option<(usize, usize)> {
    let stood = stood(row, history);
    let Some(next) = history.next.as_ref().filter(|next| next.turn < row.len()) else {
        return stood;
    };
    // What is begun is due at once, whoever comes to it next: of this row where the piece stood at one of its
    // settings, or passed one over.
    let mut before = row[..next.turn].iter();
    let over = before.any(|(set, _)| next.passed_over.as_ref() == Some(set));
    let alike = stood.map(|(alike, _)| alike).or(over.then_some(0));
    alike.map(|alike| (alike, next.turn))
}

/// The same by the settings that the piece was set, read or placed at.
fn stood(row: &[(Set, Option<Length>)], history: &History) -> Option<(usize, usize)> {
    let alike = common(row, &history.sets);
    // What was said when a setting was begun goes before: a setting may come twice, and one that nobody
    // read was passed all the same.
    let begun = history.begun.as_ref().filter(|begun| {
        let since = row.iter().skip(begun.turn).map(|(set, _)| set);
        since.take(begun.sets.len()).eq(&begun.sets)
    });
    match begun {
        Some(Begun { turn, sets }) => Some((alike.max(sets.len()), turn + sets.len() - 1)),
        None => Some((alike, alike.checked_sub(1)?)),
    }
}

/// Number of the settings of a row, from its first, that a history ends with.
fn common(row: &[(Set, Option<Length>)], history: &[Set]) -> usize {
    let most = row.len().min(history.len());
    let ends_with = |turns: &usize| {
        let end = &history[history.len() - turns..];
        end.iter().eq(row[..*turns].iter().map(|(set, _)| set))
    };
    (1..=most).rev().find(ends_with).unwrap_or(0)
}

fn set_of((on, set): (&DrillSetup, Length)) -> (Set, Option<Length>) {
    let stop = on.stop.as_ref().map(ToString::to_string);
    ((on.drill.to_string(), stop, set), on.gauge.get())
}

fn set_at(item: &ItemKey) -> Set {
    (item.drill.clone(), item.stop.clone(), item.setting_mm)
}

/// A drill's setting, where it is known.
fn known_setting(item: &LoadItem) -> Option<(&DrillSetup, Length)> {
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

/// The re-sets in surgery, each with the setting that readings of it are held against.
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
pub fn case_jaw(case: &ValidCase) -> CaseJaw {
    CaseJaw {
        case: case.reference.to_string(),
        jaw: case.jaw,
    }
}

/// The history of each piece by the events, the one last read or placed at the end.
fn histories(events: &Merged, purpose: Purpose) -> Vec<History> {
    let mut histories: Vec<History> = Vec::new();
    let timed = events.timed();
    let purposes = Purposes::new(&timed, purpose);
    for this in &timed {
        match &this.event.kind {
            EventKind::Reading(Reading { purpose: of, .. }) if *of != purpose => {}
            EventKind::Placed { .. } if !purposes.counts(this) => {}
            EventKind::Reading(Reading { item, .. })
            | EventKind::Placed { item, .. }
            | EventKind::Handled {
                item,
                step: HandStep::Set,
                ..
            } => {
                let mut history = take_out(&mut histories, &item.drill_key());
                history.stands_at(set_at(item));
                if let EventKind::Placed { slot, .. } = &this.event.kind {
                    history.slot = Some(slot.clone());
                }
                histories.push(history);
            }
            EventKind::Reset {
                drill,
                to: Some(turn),
                passed_over,
                purpose: of,
            } if !is_practised(*of, purpose) => {
                let place = histories.iter().position(|one| one.piece == *drill);
                let mut history = take_out(&mut histories, drill);
                history.stop = Stop::Moved;
                history.next = usize::try_from(*turn).ok().map(|turn| Next {
                    turn,
                    passed_over: passed_over.as_ref().map(set_at),
                });
                histories.insert(place.unwrap_or(histories.len()), history);
            }
            kind => {
                let moved = kind.moved_stop().or_else(|| kind.fallen_drill());
                let mut known = histories.iter_mut();
                if let Some(one) = known.find(|one| Some(&one.piece) == moved) {
                    let last = one.sets.last();
                    // Of one that is read by a mark there is no stop to take off.
                    let by_mark = last.is_some_and(|(_, stop, _)| stop.is_none());
                    if !by_mark || kind.fallen_drill().is_some() {
                        one.stop = Stop::Moved;
                    }
                    if kind.fallen_drill().is_some() {
                        one.slot = None;
                    }
                }
            }
        }
    }
    histories
}

/// The history of a piece, taken out; an empty one where nothing is known of it.
fn take_out(histories: &mut Vec<History>, piece: &DrillKey) -> History {
    let known = histories.iter().position(|one| one.piece == *piece);
    known.map_or_else(
        || History {
            piece: piece.clone(),
            sets: Vec::new(),
            begun: None,
            next: None,
            stop: Stop::Moved,
            slot: None,
        },
        |known| histories.remove(known),
    )
}

impl History {
    /// The piece was set, read or placed at a setting.
    fn stands_at(&mut self, set: Set) {
        self.stop = Stop::AsRead;
        if let Some(Next { turn, .. }) = self.next.take() {
            let sets = vec![set.clone()];
            self.begun = Some(Begun { turn, sets });
        } else if let Some(begun) = &mut self.begun
            && begun.sets.last() != Some(&set)
        {
            begun.sets.push(set.clone());
        }
        if self.sets.last() != Some(&set) {
            self.sets.push(set);
        }
    }
}
