//! What is in a hand at a step, what lies on the tray, and what of it fell.

use super::super::doing::{Asked, Doing};
use super::super::scene::Scene;
use super::Outcome;
use crate::view::loading::falls::effects_of;
use crate::view::loading::task::Board;
use std::num::NonZeroU32;
use traywright_core::kit::SlotKind;
use traywright_core::sign::{EventKind, Piece, ThingKey};
use traywright_core::surgery::{DayStep, NotReady, Work};

/// Something that can fall.
pub(in crate::view::surgery) struct InHand {
    pub(in crate::view::surgery) name: String,
    pub(in crate::view::surgery) piece: Piece,
    /// The thing on the tray; none for a gauge.
    thing: Option<ThingKey>,
}

impl InHand {
    fn of(scene: &Scene<'_>, thing: ThingKey) -> Self {
        let piece = thing.piece();
        let name = match &piece {
            Piece::Drill(_) => scene.formatter.piece(&piece),
            _ => scene.formatter.thing(&thing),
        };
        Self {
            name,
            piece,
            thing: Some(thing),
        }
    }
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
        found.push(InHand::of(scene, thing));
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
    found.extend(more.into_iter().map(|thing| InHand::of(scene, thing)));
    // What fell and was not laid since is in no hand.
    found.retain(|one| {
        let mut open = step.not_ready.iter();
        !open.any(|why| match why {
            NotReady::Fell => matches!(one.piece, Piece::Drill(_)),
            NotReady::ThingFell(thing) => one.thing.as_ref() == Some(thing),
            _ => false,
        })
    });
    found
}

/// Everything that lies on the tray by the record, whatever step is due, and the gauge.
pub(in crate::view::surgery) fn on_the_tray(scene: &Scene<'_>) -> Vec<InHand> {
    let standing = &scene.document.record.standing;
    let drills = standing.drills.iter().filter(|(_, now)| now.is_somewhere());
    let drills = drills.map(|(drill, now)| {
        let thing = ThingKey {
            of: SlotKind::Drill,
            entry: drill.drill.clone(),
            copy: drill.copy,
        };
        (thing, now.slot.as_ref())
    });
    let things = standing.thing_slots.iter();
    let things = things.map(|(thing, slot)| (thing.clone(), Some(slot)));
    let mut found: Vec<InHand> = Vec::new();
    for (thing, slot) in drills.chain(things) {
        if found.iter().any(|one| one.thing.as_ref() == Some(&thing)) {
            continue;
        }
        let mut one = InHand::of(scene, thing);
        if let Some(slot) = slot {
            let slot = scene.text("load-slot", &[("slot", slot)]);
            let args = [("name", &*one.name), ("slot", &*slot)];
            one.name = scene.text("load-one-of", &args);
        }
        found.push(one);
    }
    let gauge = scene.document.case().setup.gauge.as_ref();
    found.extend(gauge.map(|gauge| InHand {
        name: scene.formatter.gauge(gauge),
        piece: Piece::Gauge(gauge.to_string()),
        thing: None,
    }));
    found
}

/// What fell is asked: of what is in hand, where something is, else of all that lies on the tray.
pub(super) fn ask_fell(scene: &Scene<'_>, doing: &mut Doing) -> Outcome {
    let any = scene
        .step()
        .is_some_and(|(_, step)| !in_hand(scene, step).is_empty());
    doing.ask(if any { Asked::Fell } else { Asked::FellOfAll });
    Outcome::default()
}

/// Something fell, by its number among what is in a hand; 0 asks of all that lies on the tray.
pub(super) fn fell(scene: &Scene<'_>, board: &Board, doing: &mut Doing, number: u8) -> Outcome {
    if number == 0 {
        doing.ask(Asked::FellOfAll);
        return Outcome::default();
    }
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    told(
        scene,
        (board, doing),
        in_hand(scene, step),
        usize::from(number),
    )
}

/// The number that is typed among all that lies on the tray.
pub(in crate::view::surgery) fn typed_number(doing: &Doing) -> Option<usize> {
    doing.entry.typed.as_str().parse().ok()
}

/// Something fell, by its number among all that lies on the tray.
pub(super) fn fell_of_all(
    scene: &Scene<'_>,
    board: &Board,
    doing: &mut Doing,
    number: Option<usize>,
) -> Outcome {
    let all = on_the_tray(scene);
    match number.filter(|number| (1..=all.len()).contains(number)) {
        Some(number) => told(scene, (board, doing), all, number),
        None => Outcome::tell(scene.word("surgery-fell-no-number")),
    }
}

fn told(
    scene: &Scene<'_>,
    (board, doing): (&Board, &mut Doing),
    all: Vec<InHand>,
    number: usize,
) -> Outcome {
    let at = number.checked_sub(1);
    let Some(one) = at.and_then(|at| all.into_iter().nth(at)) else {
        return Outcome::default();
    };
    doing.ask_nothing();
    let mut tasks = board.tasks.iter();
    let task = tasks.find(|task| Some(&task.thing) == one.thing.as_ref());
    let kinds = match task {
        Some(task) => effects_of(task, board),
        None => vec![EventKind::Dropped {
            piece: one.piece,
            purpose: Some(scene.purpose()),
        }],
    };
    Outcome {
        kinds,
        told: task.and_then(|task| scene.fell(board, task)),
        ..Outcome::default()
    }
}
