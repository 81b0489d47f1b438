//! What is done at a step: looked around, done, taken back, or left for a question.

use super::super::doing::{Asked, Doing, For, Listed};
use super::super::keys::Pressed;
use super::super::scene::Scene;
use super::count::count;
use super::insertion::{insert, turned_in};
use super::reason::{despite, may_despite};
use super::{Outcome, passes};
use traywright_core::measure::Length;
use traywright_core::sign::{
    ByHand, DayEvent, EventKind, InsertionWay, Sounded, StepDone, StepKey, StepTakenBack,
};
use traywright_core::surgery::{DayStep, NotReady, State, Work, piece};

/// The event that says that a step is over, or stops it.
pub(super) fn recorded<'a>(step: &DayStep<'a>) -> Option<&'a DayEvent> {
    match step.state {
        State::Done(one) | State::Skipped(one) | State::Off(one, _) | State::Amiss(one) => {
            Some(one)
        }
        State::Open | State::Set => None,
    }
}

pub(super) fn at_a_step(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (pressed, again): (&Pressed, bool),
) -> Outcome {
    match pressed {
        Pressed::List => {
            doing.list = match doing.list {
                Listed::Step => Listed::All,
                Listed::All => Listed::Step,
            };
            return Outcome::default();
        }
        Pressed::Due => {
            doing.list = Listed::Step;
            doing.look_at(None);
            return Outcome::default();
        }
        Pressed::Back | Pressed::Forward => return look(scene, doing, pressed),
        _ => {}
    }
    let Some((at, step)) = scene.step() else {
        return Outcome::default();
    };
    match pressed {
        Pressed::NotDone => not_done(scene, doing, (step, again)),
        Pressed::Skip if !step.state.is_over() => {
            doing.ask(Asked::Reason(For::Skip));
            Outcome::default()
        }
        Pressed::Change => {
            doing.ask(Asked::Change);
            Outcome::default()
        }
        Pressed::Despite if step.not_ready.contains(&NotReady::GuideFell) => {
            doing.ask(Asked::WhichGuide);
            Outcome::default()
        }
        Pressed::Despite if may_despite(step) && !scene.is_due() && !again => {
            Outcome::tell(out_of_turn(scene, at))
        }
        Pressed::Despite => despite(doing, step),
        Pressed::Done | Pressed::Enter if step.state.is_over() && scene.is_due() => {
            Outcome::default()
        }
        Pressed::Done if step.state.is_over() => {
            doing.look_at(None);
            Outcome::default()
        }
        Pressed::Done | Pressed::Enter | Pressed::Guided | Pressed::Begun | Pressed::Freehand => {
            if !scene.is_due() && !again {
                return Outcome::tell(out_of_turn(scene, at));
            }
            act(scene, doing, (step, pressed))
        }
        _ => Outcome::default(),
    }
}

/// What it means to do a step now that is not due.
pub(super) fn out_of_turn(scene: &Scene<'_>, at: usize) -> String {
    let over: Vec<String> = scene
        .day
        .passed_over(at)
        .map(|step| scene.formatter.day_step(&step.key))
        .collect();
    let count = over.len();
    let first = over.into_iter().take(3).collect::<Vec<_>>().join("; ");
    let args = [("first", first.as_str())];
    scene.counted("surgery-again-out-of-turn", &[("count", count)], &args)
}

fn look(scene: &Scene<'_>, doing: &mut Doing, pressed: &Pressed) -> Outcome {
    let steps = &scene.day.steps;
    let at = doing.at(scene.day).unwrap_or(steps.len());
    let to = match pressed {
        Pressed::Back => at.checked_sub(1),
        _ => at.checked_add(1).filter(|to| *to < steps.len()),
    };
    let Some(to) = to else {
        return Outcome::default();
    };
    doing.list = Listed::Step;
    let key = (scene.day.next() != Some(to)).then(|| steps[to].key.clone());
    doing.look_at(key);
    Outcome::default()
}

fn not_done(scene: &Scene<'_>, doing: &mut Doing, (step, again): (&DayStep<'_>, bool)) -> Outcome {
    if recorded(step).is_none() {
        return Outcome::default();
    }
    if !again {
        return Outcome::tell(scene.word("surgery-again-not-done"));
    }
    doing.look_at(None);
    // All that was recorded of it: two desks may have recorded it, and a step that is taken back is open.
    // What was sounded or counted before it stays.
    let again = matches!(step.work, Work::Sound(_) | Work::Count(_));
    let of = recorded(step).filter(|_| again);
    let taken = step.recorded.iter();
    let taken = taken.filter(|one| of.is_none_or(|of| of.id == one.id));
    let kinds = taken.map(|event| {
        EventKind::StepTakenBack(StepTakenBack {
            event: event.id.clone(),
            // As it was recorded: a count may have been of another list.
            step: event.step().unwrap_or(&step.key).clone(),
            reason: None,
            purpose: scene.purpose(),
        })
    });
    Outcome {
        kinds: kinds.collect(),
        ..Outcome::default()
    }
}

/// Does the step that is shown.
fn act(scene: &Scene<'_>, doing: &mut Doing, (step, pressed): (&DayStep<'_>, &Pressed)) -> Outcome {
    let by_hand = *pressed == Pressed::Freehand;
    if step.not_ready.contains(&NotReady::GuideFell) && !by_hand {
        return Outcome::tell(scene.word("surgery-not-guide-fell"));
    }
    match (&step.work, pressed) {
        (Work::Sound(_), Pressed::Enter) => sound(scene, doing, step),
        (Work::Sound(_), _) | (Work::Insert { .. }, Pressed::Done) => Outcome::default(),
        (Work::Count(wanted), Pressed::Done | Pressed::Enter) => {
            count(scene, doing, (step, wanted), pressed)
        }
        (Work::Insert { site, .. }, Pressed::Guided | Pressed::Begun | Pressed::Freehand) => {
            insert(scene, doing, (step, site), pressed)
        }
        (Work::Finish { .. }, Pressed::Done) => turned_in(scene, doing, InsertionWay::Ended),
        (Work::Drill(_), Pressed::Freehand) if step.may_be_by_hand() => {
            doing.ask(Asked::Aimed);
            Outcome::default()
        }
        (Work::SetAnew { .. }, Pressed::Done) => passes(scene),
        (_, Pressed::Done) if step.is_ready() => {
            doing.look_at(None);
            Outcome::record(done(scene, step, None))
        }
        (_, Pressed::Done) => {
            let forbidden = step.not_ready.iter().any(NotReady::forbids);
            let id = if step.not_ready.contains(&NotReady::GuideOff) {
                "surgery-not-guide-off"
            } else if forbidden && step.may_be_by_hand() {
                "surgery-forbidden-by-hand"
            } else if forbidden {
                "surgery-forbidden"
            } else {
                "surgery-not-ready"
            };
            Outcome::tell(match id {
                "surgery-not-guide-off" => scene.word("surgery-not-guide-off"),
                "surgery-forbidden-by-hand" => scene.word("surgery-forbidden-by-hand"),
                "surgery-forbidden" => scene.word("surgery-forbidden"),
                _ => scene.word("surgery-not-ready"),
            })
        }
        _ => Outcome::default(),
    }
}

/// No drill is longer in use: what is more is a slip. Common practice, no source.
const DEEPEST: Length = Length::from_mm(40);

/// The depth that is aimed at by hand, or none: then why it is done so is asked.
pub(super) fn aimed(scene: &Scene<'_>, doing: &mut Doing) -> Outcome {
    let empty = doing.entry.typed.as_str().is_empty();
    let aimed = doing.entry.typed.value();
    let is_depth = |one: &Length| *one > Length::ZERO && *one <= DEEPEST;
    if !empty && aimed.as_ref().is_none_or(|aimed| !is_depth(aimed)) {
        return Outcome::tell(scene.word("surgery-aimed-no-depth"));
    }
    doing.ask(Asked::Reason(For::ByHand(aimed.filter(|_| !empty))));
    Outcome::default()
}

/// What is done by a mark or by eye alone.
pub(super) fn by_hand(
    scene: &Scene<'_>,
    step: &DayStep<'_>,
    (aimed_mm, reason): (Option<Length>, String),
) -> EventKind {
    match done(scene, step, Some(reason)) {
        EventKind::StepDone(done) => EventKind::StepDone(StepDone {
            by_hand: Some(ByHand { aimed_mm }),
            ..done
        }),
        other => other,
    }
}

/// The step that was due, where another one is recorded.
pub(super) fn due(scene: &Scene<'_>, step: &DayStep<'_>) -> Option<Box<StepKey>> {
    let due = scene.day.steps.get(scene.day.next()?)?;
    let before = scene.day.place_of(&step.key)? > scene.day.next()?;
    before.then(|| Box::new(due.key.clone()))
}

pub(super) fn done(scene: &Scene<'_>, step: &DayStep<'_>, despite: Option<String>) -> EventKind {
    let (_, standing) = scene.recorded();
    let with = step.drill();
    EventKind::StepDone(StepDone {
        step: step.key.clone(),
        piece: with.and_then(|drill| piece(&drill, standing)),
        due: due(scene, step),
        despite,
        by_hand: None,
        purpose: scene.purpose(),
    })
}

fn sound(scene: &Scene<'_>, doing: &mut Doing, step: &DayStep<'_>) -> Outcome {
    let Some(found_mm) = doing.entry.figure() else {
        return Outcome::default();
    };
    if let Work::Sound(sounding) = &step.work
        && sounding.is_mistyped(found_mm)
    {
        return Outcome::tell(scene.word("surgery-sound-mistyped"));
    }
    doing.look_at(None);
    Outcome::record(EventKind::Sounded(Sounded {
        step: step.key.clone(),
        found_mm,
        due: due(scene, step),
        purpose: scene.purpose(),
    }))
}
