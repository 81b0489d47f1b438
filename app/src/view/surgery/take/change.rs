//! A change on the table.

use super::super::change::{What, offered};
use super::super::doing::{Asked, Doing, For};
use super::super::scene::Scene;
use super::{Outcome, Wanted};
use traywright_core::sign::{EventKind, StepDone, StepKey};
use traywright_core::surgery::tray_stays;

/// A change on the table, by its number among those that are offered.
pub(super) fn change(scene: &Scene<'_>, doing: &mut Doing, number: u8) -> Outcome {
    let offers = scene.step().map(|(_, step)| offered(scene, step));
    let at = usize::from(number).checked_sub(1);
    let one = at.and_then(|at| offers?.into_iter().nth(at));
    match one.map(|one| one.what) {
        None => Outcome::default(),
        Some(What::StopHere) => {
            doing.ask(Asked::Reason(For::StopHere));
            Outcome::default()
        }
        Some(What::NotLifted) => {
            doing.ask(Asked::Reason(For::NotLifted));
            Outcome::default()
        }
        Some(What::Abandon) => {
            doing.ask(Asked::Reason(For::Abandon));
            Outcome::default()
        }
        Some(What::NotAbandoned) => {
            doing.ask(Asked::Reason(For::NotAbandoned));
            Outcome::default()
        }
        Some(What::Lifted) => {
            doing.look_at(None);
            Outcome::record(EventKind::StepDone(StepDone {
                step: StepKey::Lifted {},
                piece: None,
                due: None,
                despite: None,
                purpose: scene.purpose(),
            }))
        }
        Some(What::Edit(mut change)) => {
            doing.look_at(None);
            change.edits = tray_stays(scene.planned(), scene.recorded(), change.edits);
            Outcome {
                wanted: Wanted::Edit(change),
                ..Outcome::default()
            }
        }
    }
}
