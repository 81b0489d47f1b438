//! Why the view stops: the plan, its approval or the tray is not what surgery was begun or gone on with.

use super::scene::Scene;
use crate::desk::OnDisk;
use crate::view::loading::{gate, start::Gate};
use traywright_core::sign::{Approved, DayEvent, EventKind, Fingerprint, SurgeryBegun, ThingKey};

/// A reason to stop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Stop {
    /// The case's file is not there, or holds something else, or its record has a break.
    Gate(Gate),
    /// What was begun with is no more so.
    Other(Changed),
}

/// What is otherwise than when surgery was begun or gone on with.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Changed {
    /// The code of the plan then, where it is another now.
    pub(super) plan: Option<String>,
    /// No approval holds any more.
    pub(super) withdrawn: Option<Withdrawn>,
    /// What lies or is set wrong since, each with its words.
    pub(super) lies_wrong: Vec<String>,
}

/// An approval held then and none does now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Withdrawn;

/// The reason to stop now; none where there is none. Before surgery is begun there is nothing to hold the plan against.
pub(super) fn stop(scene: &Scene<'_>) -> Option<Stop> {
    let document = scene.document;
    if document.on_disk() == OnDisk::Gone {
        return Some(Stop::Gate(Gate::Gone));
    }
    if let Some(gate) = gate(document) {
        return Some(Stop::Gate(gate));
    }
    let changed = since_begun(scene);
    (changed != Changed::default()).then_some(Stop::Other(changed))
}

/// What is otherwise now than when surgery was begun or gone on with last; nothing before that. What another desk went on
/// with was read there: this desk goes on by its own answer, once it has given one.
pub(super) fn since_begun(scene: &Scene<'_>) -> Changed {
    let mut day = scene.document.record.standing.day.iter().rev();
    let is_own = |one: &&DayEvent| {
        one.counts()
            && matches!(one.kind, EventKind::SurgeryBegun(_))
            && scene.desk == Some(&one.id.writer)
    };
    let last = day.find(is_own).or(scene.day.gone_on);
    match last.map(|one| &one.kind) {
        Some(EventKind::SurgeryBegun(begun)) => changed(begun, scene),
        _ => Changed::default(),
    }
}

/// The same with what lies wrong, before surgery is begun: what is gone on with then.
pub(super) fn before_begun(scene: &Scene<'_>) -> Changed {
    Changed {
        lies_wrong: scene
            .lies_wrong
            .iter()
            .map(|one| one.words.clone())
            .collect(),
        ..Changed::default()
    }
}

fn changed(begun: &SurgeryBegun, scene: &Scene<'_>) -> Changed {
    let now = scene.worksheet().fingerprint;
    let is_told = |thing: &ThingKey, words: &str| {
        let at = begun.lies_wrong.iter().position(|one| one == thing);
        at.is_some_and(|at| {
            let code = begun.wrong_as.get(at);
            code.is_none_or(|code| *code == wrong_as(words))
        })
    };
    let new = scene.lies_wrong.iter();
    let new = new.filter(|one| !is_told(&one.thing, &one.words));
    let withdrawn = begun.approval == Approved::Approved && !scene.is_approved();
    Changed {
        plan: (begun.fingerprint != now).then(|| begun.fingerprint.to_string()),
        withdrawn: withdrawn.then_some(Withdrawn),
        lies_wrong: new.map(|one| one.words.clone()).collect(),
    }
}

/// The code of how a thing lies wrong: the words that were shown of it.
pub(super) fn wrong_as(words: &str) -> Fingerprint {
    Fingerprint::of(&words)
}
