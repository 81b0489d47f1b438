//! A count, line by line, and the other person who counted.

use super::super::doing::{Asked, Doing};
use super::super::keys::Pressed;
use super::super::scene::Scene;
use super::Outcome;
use super::step::due;
use crate::view::loading::session::Refused;
use crate::view::loading::task::Board;
use traywright_core::sign::{CountLine, Counted, EventKind};
use traywright_core::surgery::{CountWanted, DayStep, State, Work, wanted_by};

/// One line of a count after the other, by the number that was counted: nobody sees before what it should be.
pub(super) fn count(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (step, wanted): (&DayStep<'_>, &[CountWanted]),
    pressed: &Pressed,
) -> Outcome {
    if doing.counted.len() >= wanted.len() {
        return Outcome::default();
    }
    let typed = doing.entry.typed.as_str();
    if matches!(step.state, State::Amiss(_)) && doing.counted.is_empty() && typed.is_empty() {
        doing.recount = true;
        return Outcome::default();
    }
    let typed = typed.parse();
    let found = match (pressed, typed) {
        (Pressed::Enter, Ok(found)) => found,
        (Pressed::Enter, Err(_)) => return Outcome::tell(scene.word("surgery-count-no-number")),
        _ => return Outcome::tell(scene.word("surgery-count-enter")),
    };
    if !matches!(step.state, State::Open | State::Amiss(_)) {
        return Outcome::default();
    }
    doing.entry.typed.clear();
    doing.counted.push(found);
    if doing.counted.len() == wanted.len() {
        doing.ask(Asked::Second);
    }
    Outcome::default()
}

/// The other person who counted.
pub(super) fn second(scene: &Scene<'_>, board: &Board, doing: &mut Doing) -> Outcome {
    doing.entry.refused = None;
    let Some(other) = doing.entry.person(&doing.field.clone(), board) else {
        return Outcome::default();
    };
    if doing
        .who
        .as_ref()
        .is_some_and(|who| board.may_be_same(who, &other))
    {
        doing.entry.refused = Some(Refused::SamePerson(other));
        return Outcome::default();
    }
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    let Work::Count(wanted) = &step.work else {
        return Outcome::default();
    };
    let should_be = wanted_by(wanted, &doing.counted);
    let lines = wanted
        .iter()
        .zip(&doing.counted)
        .zip(should_be)
        .map(|((line, found), wanted)| CountLine {
            what: scene.formatter.counted_kind(&line.kind),
            kind: Some(line.kind.clone()),
            wanted,
            found: *found,
        });
    let counted = Counted {
        step: step.key.clone(),
        second: other,
        lines: lines.collect(),
        due: due(scene, step),
        despite: None,
        purpose: scene.purpose(),
    };
    let at = doing.looked_at.clone();
    doing.look_at(at);
    Outcome::record(EventKind::Counted(counted))
}
