//! What is in a hand at a step, what lies on the tray, and what of it fell.

use super::super::doing::{Asked, Doing, For};
use super::super::scene::Scene;
use super::Outcome;
use crate::view::loading::falls::effects_of;
use crate::view::loading::task::Board;
use std::collections::BTreeSet;
use std::num::NonZeroU32;
use traywright_core::kit::{SlotKind, TraySlot};
use traywright_core::sign::{DrillKey, EventKind, GuideKey, Piece, ThingKey, WhichGuide};
use traywright_core::surgery::{DayStep, NotReady, Work, piece};
use traywright_core::wording::begin;

/// The number of the guide among what can be in a hand: behind the sorts.
pub(in crate::view::surgery) const GUIDE: usize = IN_HAND.len() + 1;

/// The sorts of what can be in a hand besides the guide, each at the place of its number.
pub(in crate::view::surgery) const IN_HAND: [SlotKind; 5] = [
    SlotKind::Drill,
    SlotKind::Sleeve,
    SlotKind::Implant,
    SlotKind::Carrier,
    SlotKind::Pin,
];

/// Something that can fall.
pub(in crate::view::surgery) struct InHand {
    /// Its number, the same whatever else there is.
    pub(in crate::view::surgery) number: usize,
    pub(in crate::view::surgery) name: String,
    pub(in crate::view::surgery) piece: Piece,
    /// The thing on the tray; none for gauge and guide.
    thing: Option<ThingKey>,
}

impl InHand {
    fn of(scene: &Scene<'_>, number: usize, thing: ThingKey) -> Self {
        let piece = thing.piece();
        let name = match &piece {
            Piece::Drill(_) => scene.formatter.piece(&piece),
            _ => scene.formatter.thing(&thing),
        };
        Self {
            number,
            name,
            piece,
            thing: Some(thing),
        }
    }

    /// The guide, where it can fall.
    fn guide(scene: &Scene<'_>, number: usize) -> Option<Self> {
        let code = scene.document.case().guide.code.as_ref();
        let piece = Piece::Guide(GuideKey {
            code: code.map(ToString::to_string),
        });
        let guide = Self {
            number,
            name: begin(&scene.formatter.piece(&piece)),
            piece,
            thing: None,
        };
        scene.day.can_guide_fall().then_some(guide)
    }
}

/// What is in a hand at a step.
pub(in crate::view::surgery) fn in_hand(scene: &Scene<'_>, step: &DayStep<'_>) -> Vec<InHand> {
    let mut found: Vec<ThingKey> = Vec::new();
    let (_, standing) = scene.recorded();
    let with = step.drill().and_then(|drill| piece(&drill, standing));
    found.extend(with.map(|with| ThingKey {
        of: SlotKind::Drill,
        entry: with.drill,
        copy: with.copy,
    }));
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
    found.extend(more);
    let number = |thing: &ThingKey| IN_HAND.iter().position(|of| *of == thing.of);
    let found = found.into_iter();
    let found = found.filter_map(|thing| Some(InHand::of(scene, number(&thing)? + 1, thing)));
    let mut found: Vec<InHand> = found.collect();
    // What fell and was not laid since is in no hand.
    found.retain(|one| {
        let mut open = step.not_ready.iter();
        !open.any(|why| match why {
            NotReady::Fell => matches!(one.piece, Piece::Drill(_)),
            NotReady::ThingFell(thing) => one.thing.as_ref() == Some(thing),
            _ => false,
        })
    });
    let guide = InHand::guide(scene, GUIDE).filter(|_| step.is_of_guide());
    found.extend(guide);
    found
}

/// Everything that was set or laid by the record and did not fall, whatever step is due, the gauge and the guide, by their numbers: a thing in a slot has that of
/// its slot, whatever else lies there or fell.
pub(in crate::view::surgery) fn on_the_tray(scene: &Scene<'_>) -> Vec<InHand> {
    let standing = &scene.document.record.standing;
    let case = scene.document.case();
    let drill_thing = |drill: &DrillKey| ThingKey {
        of: SlotKind::Drill,
        entry: drill.drill.clone(),
        copy: drill.copy,
    };
    // Also those that were taken off: they are in the room, and may fall.
    let drills = standing.drills.iter();
    let drills = drills.map(|(drill, now)| (drill_thing(drill), now.slot.as_ref()));
    let things = standing.thing_slots.iter();
    let things = things.map(|(thing, slot)| (thing.clone(), Some(slot)));
    let slots = case.tray_slots();
    // Behind the slots the gauge and the guide, and behind them what lies in none, each at the place that it has among all of the record.
    let known: BTreeSet<ThingKey> = standing
        .drills
        .keys()
        .chain(standing.fallen_drills.keys())
        .map(drill_thing)
        .chain(standing.thing_slots.keys().cloned())
        .collect();
    let beside = |thing: &ThingKey| {
        let at = known.iter().position(|one| one == thing);
        slots.len() + 3 + at.unwrap_or(known.len())
    };
    let mut found: Vec<InHand> = Vec::new();
    for (thing, slot) in drills.chain(things) {
        if found.iter().any(|one| one.thing.as_ref() == Some(&thing)) {
            continue;
        }
        let here = |one: &TraySlot| Some(one.name.as_str()) == slot.map(String::as_str);
        let at = slots
            .iter()
            .position(|one| here(one) && one.kind == thing.of);
        let of_slot = at.map(|at| at + 1);
        let of_slot = of_slot.filter(|number| found.iter().all(|one| one.number != *number));
        let number = of_slot.unwrap_or_else(|| beside(&thing));
        let mut one = InHand::of(scene, number, thing);
        if let Some(slot) = slot {
            let slot = scene.text("load-slot", &[("slot", slot)]);
            let args = [("name", &*one.name), ("slot", &*slot)];
            one.name = scene.text("load-one-of", &args);
        }
        found.push(one);
    }
    let gauge = case.setup.gauge.as_ref();
    found.extend(gauge.map(|gauge| InHand {
        number: slots.len() + 1,
        name: scene.formatter.gauge(gauge),
        piece: Piece::Gauge(gauge.to_string()),
        thing: None,
    }));
    found.extend(InHand::guide(scene, slots.len() + 2));
    found.sort_by_key(|one| one.number);
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

/// A number among what is in a hand is chosen; 0 asks of all that lies on the tray. Nothing fell by it yet.
pub(super) fn choose(doing: &mut Doing, number: u8) -> Outcome {
    if number == 0 {
        doing.ask(Asked::FellOfAll);
        return Outcome::default();
    }
    pick(doing, usize::from(number))
}

/// The same by its target.
pub(super) fn pick(doing: &mut Doing, number: usize) -> Outcome {
    doing.entry.typed.clear();
    for digit in number.to_string().bytes() {
        doing.entry.typed.digit(digit - b'0');
    }
    Outcome::default()
}

/// What was chosen of what is in a hand fell.
pub(super) fn fell(scene: &Scene<'_>, board: &Board, doing: &mut Doing) -> Outcome {
    let number = typed_number(doing);
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    let all = in_hand(scene, step);
    match number.filter(|number| all.iter().any(|one| one.number == *number)) {
        Some(number) => told(scene, (board, doing), all, number),
        None => Outcome::tell(scene.word("surgery-fell-choose")),
    }
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
    match number.filter(|number| all.iter().any(|one| one.number == *number)) {
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
    let Some(one) = all.into_iter().find(|one| one.number == number) else {
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
    let is_guide = matches!(
        &kinds[..],
        [EventKind::Dropped {
            piece: Piece::Guide(_),
            ..
        }]
    );
    Outcome {
        kinds,
        told: if is_guide {
            Some(guide_fell(scene))
        } else {
            task.and_then(|task| scene.fell(board, task))
        },
        ..Outcome::default()
    }
}

/// What the fall of the guide means, with the drill sleeves that were in it.
fn guide_fell(scene: &Scene<'_>) -> String {
    let sleeves = scene.day.held.sleeves.values();
    let sleeves: Vec<String> = sleeves
        .map(|sleeve| scene.formatter.drill_sleeve(sleeve))
        .collect();
    if sleeves.is_empty() {
        return scene.word("surgery-fell-guide");
    }
    let args = [("sleeves", &*sleeves.join("; "))];
    scene.text("surgery-fell-guide-sleeves", &args)
}

/// Which guide goes in is said by its number: why is asked, but where it did not fall.
pub(super) fn which_guide(scene: &Scene<'_>, doing: &mut Doing, number: u8) -> Outcome {
    let which = match number {
        1 => WhichGuide::Same,
        2 => WhichGuide::Another,
        3 => {
            doing.look_at(None);
            return scene.day.guide_fell.map_or_else(Outcome::default, |fall| {
                Outcome::record(EventKind::FallTakenBack {
                    fall: fall.id.clone(),
                    piece: fall.piece.clone(),
                    purpose: scene.purpose(),
                })
            });
        }
        _ => return Outcome::default(),
    };
    doing.ask(Asked::Reason(For::SeatAgain(which)));
    Outcome::default()
}
