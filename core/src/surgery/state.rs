//! How far each step is, by what was recorded of it.

use super::{DayStep, State, Work, count, ready};
use crate::measure::Length;
use crate::sign::{Counted, DayEvent, EventKind, Fall, StepKey};

/// Puts the state of a step by the record, with all that was recorded of it, and every report that the guide fell.
pub(super) fn put<'a>(step: &mut DayStep<'a>, day: &'a [DayEvent], guide_fell: &[&Fall]) {
    // What is in the bone is there in any sitting.
    let in_bone = matches!(step.key, StepKey::Insert { .. } | StepKey::Finish { .. });
    let counts = |one: &DayEvent| one.counts() || in_bone && one.stands();
    let here = |one: &&DayEvent| counts(one) && one.step() == Some(&step.key);
    step.recorded = day.iter().filter(here).collect();
    // What stops goes only by what is clearly later; what lets go on holds only after all that opens its step anew.
    let holds = |one: &&DayEvent| {
        let stops = !state_of(step, one).is_over();
        let mut openers = day.iter().filter(|other| {
            let counts = other.counts() && opens_anew(other, &step.key);
            counts || may_have_been_off(other, &step.key)
        });
        let opened = openers.any(|other| {
            if stops {
                one.is_clearly_before(other)
            } else {
                !other.is_clearly_before(one)
            }
        });
        // What stops is let go by the seating after the fall.
        let of_seat = matches!(step.key, StepKey::Seat { .. } | StepKey::Sound { .. });
        let mut falls = guide_fell.iter();
        let fell_since = of_seat && !stops && falls.any(|fall| !one.known.contains(&fall.place));
        !opened && !fell_since
    };
    let holding: Vec<&DayEvent> = step.recorded.iter().copied().filter(holds).collect();
    if let Some((found, state)) = standing(step, &holding) {
        step.state = state;
        debug_assert!(step.recorded.contains(&found));
    }
    if let Work::SetAnew { drill, .. } = &step.work
        && !step.state.is_over()
        && ready::is_behind(drill)
    {
        step.state = State::Set;
    }
    if matches!(step.key, StepKey::CountIn { .. }) && step.recorded.is_empty() {
        before_the_first_cut(step, day);
    }
    if !step.state.is_done() {
        let other = |one: &&DayEvent| {
            let of = one.step();
            one.counts() && of.is_some_and(|of| *of != step.key && of.is_same_work(&step.key))
        };
        // What was done is in the bone, whatever was said of it since.
        let done = |one: &&DayEvent| other(one) && one.kind.is_done();
        let open = !step.state.is_over();
        let others = || day.iter().rev();
        step.otherwise = (others().find(done)).or_else(|| others().find(other).filter(|_| open));
    }
}

/// Leaves out what is done for the guide or through it, and is no cut of a site, once the guide is abandoned.
pub(super) fn leave_out<'a>(step: &mut DayStep<'a>, abandoned: &'a DayEvent) {
    let of_guide = matches!(
        step.work,
        Work::Pin { .. } | Work::Punch(_) | Work::Reseat | Work::Seat | Work::Sound(_)
    );
    if of_guide && !step.state.is_over() {
        step.state = State::Skipped(abandoned);
    }
}

/// The state by what holds. Of what nobody knows the order of, what stops stands: a clock settles nothing.
fn standing<'a>(step: &DayStep<'a>, holding: &[&'a DayEvent]) -> Option<(&'a DayEvent, State<'a>)> {
    // What was cut is cut, whoever left it out without knowing.
    let done: Vec<&DayEvent> = holding
        .iter()
        .copied()
        .filter(|one| step.key.is_in_bone() && one.kind.is_done())
        .collect();
    let holding = if done.is_empty() { holding } else { &done };
    let is_last = |one: &&&DayEvent| {
        let mut others = holding.iter();
        !others.any(|other| one.is_clearly_before(other))
    };
    let last: Vec<(&DayEvent, State<'_>)> = holding
        .iter()
        .filter(is_last)
        .map(|one| (*one, state_of(step, one)))
        .collect();
    let stops = |(_, state): &&(&DayEvent, State<'_>)| !state.is_over();
    last.iter().find(stops).or_else(|| last.last()).copied()
}

fn state_of<'a>(step: &DayStep<'a>, found: &'a DayEvent) -> State<'a> {
    match &found.kind {
        EventKind::StepSkipped(_) => State::Skipped(found),
        EventKind::Sounded(sounded) => match step.work {
            Work::Sound(sounding) => match sounding.off(sounded.found_mm) {
                Some(Length::ZERO) => State::Done(found),
                Some(by) => State::Off(found, by),
                None => State::Open,
            },
            _ => State::Open,
        },
        EventKind::Counted(counted) => of_count(found, counted),
        _ => State::Done(found),
    }
}

/// A count by one person is none.
fn of_count<'a>(found: &'a DayEvent, counted: &Counted) -> State<'a> {
    if found.by_one_person {
        State::Open
    } else if counted.despite.is_none() && counted.amiss().next().is_some() {
        State::Amiss(found)
    } else {
        State::Done(found)
    }
}

/// Once something was cut, what was counted in was counted before: a change of the plan since asks for no other count. Nor does one
/// before that after which there is no more than was found.
fn before_the_first_cut<'a>(step: &mut DayStep<'a>, day: &'a [DayEvent]) {
    let counting = || day.iter().filter(|one| one.counts());
    let is_cut = counting().any(|one| {
        let cuts = matches!(
            one.step(),
            Some(StepKey::Drill { .. } | StepKey::Pin { .. } | StepKey::Punch { .. })
        );
        cuts && matches!(one.kind, EventKind::StepDone(_))
    });
    let last = counting().rfind(|one| matches!(one.step(), Some(StepKey::CountIn { .. })));
    let is_found = |one: &DayEvent| match (&one.kind, &step.work) {
        (EventKind::Counted(counted), Work::Count(list)) => count::covers(counted, list),
        _ => false,
    };
    if let Some(last) = last.filter(|last| is_cut || is_found(last)) {
        step.recorded = vec![last];
        step.state = state_of(step, last);
    }
}

/// True if this says that the guide was off, and a word since that it was not: nobody knows how it sits, so that it is seated
/// and sounded anew before anything is done through it.
fn may_have_been_off(other: &DayEvent, step: &StepKey) -> bool {
    let is_off =
        matches!(&other.kind, EventKind::StepDone(done) if done.step == StepKey::GuideOff {});
    let of_guide = matches!(step, StepKey::Seat { .. } | StepKey::Sound { .. });
    is_off && of_guide && other.taken_back.is_some() && !other.of_earlier_sitting
}

/// True if a step has to be done anew after this: a guide that is seated anew is sounded anew, and what follows a drill is
/// done after its last use.
fn opens_anew(other: &DayEvent, step: &StepKey) -> bool {
    let EventKind::StepDone(done) = &other.kind else {
        return false;
    };
    match (step, &done.step) {
        (
            StepKey::Sound { .. },
            StepKey::Seat { .. }
            | StepKey::Reseat {}
            | StepKey::Lifted {}
            | StepKey::SeatAgain { .. },
        )
        | (
            StepKey::Seat { .. },
            StepKey::Reseat {} | StepKey::Lifted {} | StepKey::SeatAgain { .. },
        ) => true,
        (
            StepKey::Look { site, id, .. },
            StepKey::Drill {
                site: at,
                id: drilled,
                ..
            },
        ) => (&site.site, id) == (&at.site, drilled),
        _ => false,
    }
}

/// What was recorded of steps that no plan of these has: done by another plan, and not the same work as a step that is open.
pub(super) fn of_no_step<'a>(steps: &[DayStep<'a>], day: &'a [DayEvent]) -> Vec<&'a DayEvent> {
    let is_told = |one: &&DayEvent| {
        let Some(key) = one.step() else { return false };
        let mut steps = steps.iter();
        let here = |step: &DayStep<'_>| {
            let other = step.otherwise.is_some_and(|other| other.id == one.id);
            let counted = step.recorded.iter().any(|other| other.id == one.id);
            step.key == *key || other || counted || is_left_as_done(one, step.otherwise)
        };
        one.counts() && !steps.any(here)
    };
    day.iter().filter(is_told).collect()
}

/// True if this left out what was done: that tells it.
fn is_left_as_done(one: &DayEvent, done: Option<&DayEvent>) -> bool {
    let left_out = matches!(one.kind, EventKind::StepSkipped(_));
    let of = |done: &DayEvent| {
        let works = one.step().zip(done.step());
        done.kind.is_done() && works.is_some_and(|(one, done)| one.is_same_work(done))
    };
    left_out && done.is_some_and(of)
}
