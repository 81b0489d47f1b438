//! Why the view stops: the plan, its approval or the tray is not what surgery was begun or gone on with.

use super::scene::Scene;
use crate::desk::OnDisk;
use crate::view::loading::{gate, start::Gate};
use std::collections::BTreeSet;
use traywright_core::sign::{Approved, EventKind, SurgeryBegun, ThingKey};

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

/// What is otherwise now than when surgery was begun or gone on with last; nothing before that.
pub(super) fn since_begun(scene: &Scene<'_>) -> Changed {
    match scene.day.gone_on.map(|one| &one.kind) {
        Some(EventKind::SurgeryBegun(begun)) => changed(begun, scene),
        _ => Changed::default(),
    }
}

fn changed(begun: &SurgeryBegun, scene: &Scene<'_>) -> Changed {
    let now = scene.worksheet().fingerprint;
    let told: BTreeSet<&ThingKey> = begun.lies_wrong.iter().collect();
    let new = scene
        .lies_wrong
        .iter()
        .filter(|(thing, _)| !told.contains(thing));
    let withdrawn = begun.approval == Approved::Approved && !scene.is_approved();
    Changed {
        plan: (begun.fingerprint != now).then(|| begun.fingerprint.to_string()),
        withdrawn: withdrawn.then_some(Withdrawn),
        lies_wrong: new.map(|(_, words)| words.clone()).collect(),
    }
}
