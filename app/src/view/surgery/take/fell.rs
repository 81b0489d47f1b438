//! What is in a hand at a step, and what fell.

use super::super::doing::Doing;
use super::super::scene::Scene;
use super::Outcome;
use crate::view::loading::falls::effects_of;
use crate::view::loading::task::Board;
use std::num::NonZeroU32;
use traywright_core::kit::SlotKind;
use traywright_core::sign::{EventKind, ThingKey};
use traywright_core::surgery::{DayStep, NotReady, Work};

/// Something in a hand at a step: it can fall.
pub(in crate::view::surgery) struct InHand {
    pub(in crate::view::surgery) name: String,
    pub(in crate::view::surgery) thing: ThingKey,
}

/// What is in a hand at a step.
pub(in crate::view::surgery) fn in_hand(scene: &Scene<'_>, step: &DayStep<'_>) -> Vec<InHand> {
    let mut found = Vec::new();
    let planned = step.drill().and_then(|drill| drill.planned);
    if let Some(planned) = planned {
        let thing = ThingKey {
            of: SlotKind::Drill,
            entry: planned.key.drill.clone(),
            copy: planned.key.copy,
        };
        let name = scene.formatter.piece(&thing.piece());
        found.push(InHand { name, thing });
    }
    let of = |of: SlotKind, entry: &str| ThingKey {
        of,
        entry: entry.to_owned(),
        copy: NonZeroU32::MIN,
    };
    let mut more = Vec::new();
    match &step.work {
        Work::Drill(drilling) => {
            let sleeve = drilling.step.sleeve.as_ref();
            more.extend(sleeve.map(|sleeve| of(SlotKind::Sleeve, sleeve.as_str())));
        }
        Work::Insert { site, .. } | Work::Finish { site } => {
            let item = match &step.work {
                Work::Insert { item, .. } => *item,
                _ => None,
            };
            let copy = item.and_then(|item| NonZeroU32::new(item.copy));
            more.push(ThingKey {
                copy: copy.unwrap_or(NonZeroU32::MIN),
                ..of(SlotKind::Implant, site.implant.as_str())
            });
            let insertion = site.insertion.as_ref();
            let carrier = insertion.and_then(|one| one.carrier.as_ref());
            more.extend(carrier.map(|carrier| of(SlotKind::Carrier, carrier.as_str())));
            let sleeve = insertion.and_then(|one| one.sleeve.as_ref());
            more.extend(sleeve.map(|sleeve| of(SlotKind::Sleeve, sleeve.as_str())));
        }
        Work::Pin { sheet, .. } => more.push(of(SlotKind::Pin, sheet.pin.as_str())),
        _ => {}
    }
    found.extend(more.into_iter().map(|thing| InHand {
        name: scene.formatter.thing(&thing),
        thing,
    }));
    // What fell and was not laid since is in no hand.
    found.retain(|one| {
        let mut open = step.not_ready.iter();
        !open.any(|why| match why {
            NotReady::Fell => one.thing.of == SlotKind::Drill,
            NotReady::ThingFell(thing) => *thing == one.thing,
            _ => false,
        })
    });
    found
}

/// Something fell, by its number among what is in a hand.
pub(super) fn fell(scene: &Scene<'_>, board: &Board, doing: &mut Doing, number: u8) -> Outcome {
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    let all = in_hand(scene, step);
    let at = usize::from(number).checked_sub(1);
    let Some(one) = at.and_then(|at| all.get(at)) else {
        return Outcome::default();
    };
    doing.ask_nothing();
    let task = board.tasks.iter().find(|task| task.thing == one.thing);
    let kinds = match task {
        Some(task) => effects_of(task, board),
        None => vec![EventKind::Dropped {
            piece: one.thing.piece(),
            purpose: Some(scene.purpose()),
        }],
    };
    Outcome {
        kinds,
        told: task.and_then(|task| scene.fell(board, task)),
        ..Outcome::default()
    }
}
