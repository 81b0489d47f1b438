//! Who records, and how surgery is begun.

use super::super::doing::{Asked, Doing, For};
use super::super::scene::Scene;
use super::super::why::{before_begun, wrong_as};
use super::Outcome;
use crate::view::loading::task::Board;
use traywright_core::sign::{Approved, EventKind, SurgeryBegun};

/// The person who records from now on. With the first one surgery begins; over a tray that lies wrong not before somebody
/// said why, and long after its last step not before somebody said that it goes on.
pub(super) fn person(scene: &Scene<'_>, board: &Board, doing: &mut Doing) -> Outcome {
    doing.entry.refused = None;
    let Some(who) = doing.entry.person(&doing.field.clone(), board) else {
        return Outcome::default();
    };
    doing.ask_nothing();
    if scene.day.begun.is_none() && !scene.lies_wrong.is_empty() {
        doing.ask(Asked::Reason(For::GoOn));
        (doing.comes, doing.going_on) = (Some(who), Some(before_begun(scene)));
        return Outcome::default();
    }
    if scene.day.begun.is_some() && scene.left_long_ago().is_some() {
        doing.ask(Asked::Sitting);
        doing.comes = Some(who);
        return Outcome::default();
    }
    doing.who = Some(who);
    if scene.day.begun.is_some() {
        return Outcome::default();
    }
    Outcome::record(begun(scene, None, false))
}

/// The sitting goes on, over whatever STOP there is, or another one begins: nothing that was done, read or laid before counts in it.
/// Over a tray that lies wrong that takes a reason, as any beginning does.
pub(super) fn sitting(scene: &Scene<'_>, doing: &mut Doing, number: u8) -> Outcome {
    let (Some(who), Some(last)) = (doing.comes.clone(), scene.left_long_ago()) else {
        return Outcome::default();
    };
    match number {
        1 => {
            doing.ask_nothing();
            doing.same_sitting = Some(last.id.clone());
            doing.who = Some(who);
            Outcome::default()
        }
        2 if scene.lies_wrong.is_empty() => {
            doing.look_at(None);
            doing.who = Some(who);
            Outcome::record(begun(scene, None, true))
        }
        2 => {
            doing.ask(Asked::Reason(For::GoOn));
            (doing.comes, doing.going_on) = (Some(who), Some(before_begun(scene)));
            doing.anew = true;
            Outcome::default()
        }
        _ => Outcome::default(),
    }
}

pub(super) fn begun(scene: &Scene<'_>, despite: Option<String>, anew: bool) -> EventKind {
    let (lies_wrong, wrong_as) = scene
        .lies_wrong
        .iter()
        .map(|one| (one.thing.clone(), wrong_as(&one.words)))
        .unzip();
    EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: scene.worksheet().fingerprint,
        approval: if scene.is_approved() {
            Approved::Approved
        } else {
            Approved::Open
        },
        lies_wrong,
        despite,
        wrong_as,
        anew,
        purpose: scene.purpose(),
    })
}
