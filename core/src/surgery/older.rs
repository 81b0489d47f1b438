//! Counts of older programs.

use super::count::{CountWanted, Room, older_out};
use super::{DayStep, State};
use crate::case::ValidCase;
use crate::sign::{Counted, DayEvent, EventKind, StepKey};

/// Has a count before closing that an older program made count for its step, where it agreed and nothing came into the room since.
/// What lacked by it, or is not known to have been before it, leaves the step open.
pub(super) fn count_out<'a>(steps: &mut [DayStep<'a>], case: &ValidCase, room: Room<'a>) {
    let is_out = |key: &StepKey| matches!(key, StepKey::CountOut { .. });
    let mut open = steps.iter_mut();
    let Some(step) = open.find(|step| is_out(&step.key) && step.recorded.is_empty()) else {
        return;
    };
    let day: &'a [DayEvent] = &room.standing.day;
    let counts: Vec<(&DayEvent, &Counted)> = day
        .iter()
        .filter(|one| one.counts() && one.step().is_some_and(is_out))
        .filter_map(|one| match &one.kind {
            EventKind::Counted(counted) => Some((one, counted)),
            _ => None,
        })
        .collect();
    let mut last = counts.iter().filter(|(one, _)| {
        let mut others = counts.iter();
        !others.any(|(other, _)| one.is_clearly_before(other))
    });
    let Some(found) = last.clone().next_back().map(|(one, _)| *one) else {
        return;
    };
    let Some(list) = older_out(case, room) else {
        return;
    };
    let falls = room.standing.fallen.iter();
    let falls = falls.filter(|fall| fall.counts() && fall.in_surgery);
    let falls: Vec<usize> = falls.map(|fall| fall.place).collect();
    let holds = |(one, counted): &(&DayEvent, &Counted)| {
        let knew = falls.iter().all(|fall| one.known.contains(fall));
        knew && !one.by_one_person && counted.amiss().next().is_none() && is_of(counted, &list)
    };
    if last.all(holds) {
        step.recorded = counts.iter().map(|(one, _)| *one).collect();
        step.state = State::Done(found);
        step.otherwise = None;
    }
}

/// True if a count was of this list, in whatever order.
fn is_of(counted: &Counted, list: &[CountWanted]) -> bool {
    let same = |line: &CountWanted| {
        let mut lines = counted.lines.iter();
        lines.any(|one| one.kind.as_ref() == Some(&line.kind) && one.wanted == line.wanted)
    };
    counted.lines.len() == list.len() && list.iter().all(same)
}
