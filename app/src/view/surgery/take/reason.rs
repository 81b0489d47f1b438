//! A reason that was given, and what it is recorded for.

use super::super::doing::{Asked, Doing, For};
use super::super::scene::Scene;
use super::super::why::{Changed, Stop, before_begun};
use super::Outcome;
use super::insertion::inserted;
use super::person::begun;
use super::step::done;
use traywright_core::sign::{Counted, EventKind, InsertionWay, StepSkipped};
use traywright_core::surgery::{DayStep, NotReady, State, Work};

/// It is done although it is not ready: the reason is asked, where it can be done at all.
pub(super) fn despite(doing: &mut Doing, step: &DayStep<'_>) -> Outcome {
    if may_despite(step) {
        doing.ask(Asked::Reason(For::Despite));
    }
    Outcome::default()
}

/// True if it may be done although it is not ready, or gone on with although a count does not agree.
pub(super) fn may_despite(step: &DayStep<'_>) -> bool {
    let forbidden = step.not_ready.iter().any(NotReady::forbids);
    let sounded = matches!(step.work, Work::Sound(_));
    let amiss = matches!(step.state, State::Amiss(_));
    let open = !step.is_ready() && !step.state.is_over();
    amiss || open && !forbidden && !sounded && !matches!(step.work, Work::Insert { .. })
}

/// Surgery is begun or gone on with over what was shown, and nothing else: what came while the reason was typed nobody read.
fn go_on(scene: &Scene<'_>, stop: Option<&Stop>, doing: &mut Doing, reason: String) -> Outcome {
    let anew = doing.anew;
    let now = match stop {
        _ if anew => before_begun(scene),
        Some(Stop::Other(changed)) => changed.clone(),
        _ if scene.day.begun.is_none() => before_begun(scene),
        _ => Changed::default(),
    };
    let shown = doing.going_on.take();
    let who = doing.comes.take();
    doing.ask_nothing();
    if shown.as_ref() != Some(&now) {
        return Outcome::tell(scene.word("surgery-gone"));
    }
    doing.who = who.or_else(|| doing.who.take());
    Outcome::record(begun(scene, Some(reason), anew))
}

/// A reason was given.
pub(super) fn reason(
    scene: &Scene<'_>,
    stop: Option<&Stop>,
    doing: &mut Doing,
    of: For,
) -> Outcome {
    let reason = doing.field.trim().to_owned();
    if !reason.chars().any(char::is_alphabetic) {
        return Outcome::tell(scene.word("surgery-reason-empty"));
    }
    if of == For::GoOn {
        return go_on(scene, stop, doing, reason);
    }
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    let kind = match (of, &step.state) {
        (For::StopHere, _) => {
            let site = step.site();
            let open = scene.day.open_from(0).map(|(_, step)| step);
            // What a re-set serves elsewhere is not left out here.
            let here = open.filter(|open| open.site() == site && !open.serves_others());
            let kinds = here.map(|step| {
                EventKind::StepSkipped(StepSkipped {
                    step: step.key.clone(),
                    reason: reason.clone(),
                    purpose: scene.purpose(),
                })
            });
            let kinds = kinds.collect();
            doing.look_at(None);
            return Outcome {
                kinds,
                ..Outcome::default()
            };
        }
        (For::Skip, _) => EventKind::StepSkipped(StepSkipped {
            step: step.key.clone(),
            reason,
            purpose: scene.purpose(),
        }),
        (For::Despite, State::Amiss(one)) => match &one.kind {
            EventKind::Counted(counted) => {
                // Whoever tells what became of it, two people counted.
                let tells = doing.who.as_ref();
                let is_second =
                    tells.is_some_and(|who| scene.names.may_be_same(who, &counted.second));
                let second = if is_second { &one.who } else { &counted.second };
                EventKind::Counted(Counted {
                    second: second.clone(),
                    despite: Some(reason),
                    ..counted.clone()
                })
            }
            _ => return Outcome::default(),
        },
        (For::Insertion(InsertionWay::Begun), _) => {
            doing.ask_nothing();
            let way = (InsertionWay::Begun, None, None);
            return inserted(scene, doing, way, Some(reason));
        }
        (For::Insertion(way), _) => {
            // The reason stays in the field until it is recorded with what was reached.
            doing.asked = Asked::Torque(way);
            doing.entry.typed.clear();
            return Outcome::default();
        }
        (For::Despite | For::GoOn, _) => done(scene, step, Some(reason)),
    };
    doing.look_at(None);
    Outcome::record(kind)
}
