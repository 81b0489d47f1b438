//! A reason that was given, and what it is recorded for.

use super::super::doing::{Asked, Doing, For};
use super::super::scene::Scene;
use super::super::why::{Changed, Stop, before_begun};
use super::change::changed;
use super::insertion::inserted;
use super::person::begun;
use super::step::{by_hand, done};
use super::{Outcome, Wanted};
use crate::action::Change;
use traywright_core::sign::{
    Counted, EventKind, InsertionWay, StepDone, StepKey, StepSkipped, StepTakenBack,
};
use traywright_core::surgery::{
    DayStep, NotReady, State, Work, guide_word, tray_stays, without_guide,
};

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

/// True for two words at least, of six letters or digits together: initials alone say who and not why (common practice, no
/// source). In the room it may be less than a [decision](traywright_core::case::Decision::is_reason) at the desk needs.
fn says_something(reason: &str) -> bool {
    let letters = |word: &str| word.chars().filter(|c| c.is_alphanumeric()).count();
    let words = reason.split_whitespace().map(letters).filter(|n| *n > 0);
    let (words, all) = words.fold((0, 0), |(words, all), n| (words + 1, all + n));
    words >= 2 && all >= 6
}

/// What was recorded of the guide by mistake.
fn mistaken(scene: &Scene<'_>, doing: &mut Doing, (of, reason): (For, String)) -> Outcome {
    let day = &scene.document.record.standing.day;
    let found = match of {
        For::NotAbandoned => scene.day.abandoned,
        _ => guide_word(day),
    };
    doing.look_at(None);
    let Some((found, step)) = found.and_then(|one| Some((one, one.step()?))) else {
        return Outcome::default();
    };
    Outcome::record(EventKind::StepTakenBack(StepTakenBack {
        event: found.id.clone(),
        step: step.clone(),
        reason: Some(reason),
        purpose: scene.purpose(),
    }))
}

/// The guide is abandoned: recorded first, so that nothing is done through it whatever becomes of the plan.
fn abandon(scene: &Scene<'_>, doing: &mut Doing, reason: String) -> Outcome {
    doing.look_at(None);
    let recorded = EventKind::StepDone(StepDone {
        step: StepKey::Abandoned {},
        piece: None,
        due: None,
        despite: Some(reason),
        by_hand: None,
        purpose: scene.purpose(),
    });
    let edits = without_guide(scene.document.case(), (scene.day, scene.recorded().1), None);
    let edits = tray_stays(scene.planned(), scene.recorded(), edits);
    let name = scene.word("surgery-change-abandon");
    Outcome {
        kinds: vec![recorded],
        wanted: if edits.is_empty() {
            Wanted::Nothing
        } else {
            Wanted::Edit(Change::of(name, edits))
        },
        ..Outcome::default()
    }
}

/// What happened to the guide, or was decided, and is a step of no plan.
pub(super) fn decided(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (step, reason): (StepKey, String),
) -> Outcome {
    doing.look_at(None);
    Outcome::record(EventKind::StepDone(StepDone {
        step,
        piece: None,
        due: None,
        despite: Some(reason),
        by_hand: None,
        purpose: scene.purpose(),
    }))
}

/// A reason was given.
pub(super) fn reason(
    scene: &Scene<'_>,
    stop: Option<&Stop>,
    doing: &mut Doing,
    of: For,
) -> Outcome {
    let reason = doing.field.trim().to_owned();
    if !says_something(&reason) {
        return Outcome::tell(scene.word("surgery-reason-empty"));
    }
    if of == For::GoOn {
        return go_on(scene, stop, doing, reason);
    }
    match of {
        For::NotLifted | For::NotAbandoned => return mistaken(scene, doing, (of, reason)),
        For::Abandon => return abandon(scene, doing, reason),
        For::Lifted => return decided(scene, doing, (StepKey::Lifted {}, reason)),
        For::SeatAgain(guide) => {
            return decided(scene, doing, (StepKey::SeatAgain { guide }, reason));
        }
        For::Change(kind) => return changed(scene, doing, (kind, reason)),
        _ => {}
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
        (For::ByHand(aimed), _) if step.may_be_by_hand() => by_hand(scene, step, (aimed, reason)),
        (For::ByHand(_), _) => {
            doing.look_at(None);
            return Outcome::tell(scene.word("surgery-gone"));
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
        _ => done(scene, step, Some(reason)),
    };
    doing.look_at(None);
    Outcome::record(kind)
}
