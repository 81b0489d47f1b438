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
    let EventKind::SurgeryBegun(begun) = &scene.day.gone_on?.kind else {
        return None;
    };
    let changed = changed(begun, scene);
    (changed != Changed::default()).then_some(Stop::Other(changed))
}

fn changed(begun: &SurgeryBegun, scene: &Scene<'_>) -> Changed {
    let now = scene.worksheet().fingerprint;
    let told: BTreeSet<&ThingKey> = begun.lies_wrong.iter().collect();
    let new = scene.lies_wrong.iter().filter(|(thing, _)| !told.contains(thing));
    let withdrawn = begun.approval == Approved::Approved && !scene.is_approved();
    Changed {
        plan: (begun.fingerprint != now).then(|| begun.fingerprint.to_string()),
        withdrawn: withdrawn.then_some(Withdrawn),
        lies_wrong: new.map(|(_, words)| words.clone()).collect(),
    }
}

/// True if going on needs a reason: something is open besides that the plan is another, approved one.
pub(super) fn needs_reason(scene: &Scene<'_>, changed: &Changed) -> bool {
    let approved = scene.worksheet().demonstration || scene.is_approved();
    !approved || !changed.lies_wrong.is_empty()
}
