//! How an implant was turned in: torque, and where it stopped.

use super::super::doing::{Asked, Doing, For};
use super::super::keys::Pressed;
use super::super::scene::{Scene, implant_of};
use super::Outcome;
use super::step::due;
use traywright_core::measure::{Length, Torque};
use traywright_core::plan::SiteSheet;
use traywright_core::sign::{EventKind, Inserted, InsertionWay};
use traywright_core::surgery::{DayStep, NotReady, TorqueAgainst, torque_against};

/// An implant is turned in one of three ways; what speaks against it asks for a reason or forbids it.
pub(super) fn insert(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (step, site): (&DayStep<'_>, &SiteSheet),
    pressed: &Pressed,
) -> Outcome {
    let way = match pressed {
        Pressed::Guided => InsertionWay::Guided,
        Pressed::Begun => InsertionWay::Begun,
        _ => InsertionWay::Freehand,
    };
    if way != InsertionWay::Freehand && site.insertion.is_none() {
        return Outcome::default();
    }
    let by_hand = way == InsertionWay::Freehand;
    let speaks = |why: &&NotReady| !why.is_only_told() && (!by_hand || why.is_of_freehand());
    let mut open = step.not_ready.iter().filter(speaks);
    if open.clone().any(NotReady::forbids) {
        return Outcome::tell(if step.not_ready.contains(&NotReady::GuideAbandoned) {
            scene.word("surgery-not-guide-abandoned")
        } else if step.not_ready.contains(&NotReady::GuideLeft) {
            scene.word("surgery-not-guide-left")
        } else if step.not_ready.contains(&NotReady::GuideFell) {
            scene.word("surgery-not-guide-fell")
        } else {
            scene.word("surgery-not-guide-off")
        });
    }
    if open.next().is_some() {
        doing.ask(Asked::Reason(For::Insertion(way)));
        return Outcome::default();
    }
    turned_in(scene, doing, way)
}

pub(super) fn turned_in(scene: &Scene<'_>, doing: &mut Doing, way: InsertionWay) -> Outcome {
    if way == InsertionWay::Begun {
        return inserted(scene, doing, (way, None, None), None);
    }
    doing.ask(Asked::Torque(way));
    Outcome::default()
}

/// The torque that is typed, where it is one.
pub(super) fn typed_torque(doing: &Doing) -> Option<Torque> {
    let whole: Option<i32> = doing.entry.typed.as_str().parse().ok();
    let whole = whole.filter(|torque| (1..=200).contains(torque));
    whole.map(Torque::from_ncm)
}

/// What is told of the torque that is typed before it is taken: it is above its limit.
pub(super) fn torque_off(scene: &Scene<'_>) -> Option<String> {
    let (_, step) = scene.step()?;
    let implant = implant_of(step)?;
    let torque = typed_torque(scene.doing)?;
    let kit = &scene.document.case().kit;
    match torque_against(kit, &implant, torque) {
        TorqueAgainst::Above(_) => scene.formatter.torque_off(&step.key, torque),
        TorqueAgainst::Within | TorqueAgainst::NoLimit => None,
    }
}

/// Where it stopped by what is typed.
pub(super) fn typed_depth(doing: &Doing, pressed: &Pressed) -> Option<Length> {
    let by = doing.entry.typed.value()?;
    match pressed {
        Pressed::Enter => Some(by),
        Pressed::Apical => Some(Length::ZERO - by),
        _ => None,
    }
}

/// What is told of the depth that is typed before it is taken: it is far off the plan.
pub(super) fn depth_off(scene: &Scene<'_>, pressed: &Pressed) -> Option<String> {
    let coronal = typed_depth(scene.doing, pressed)?;
    scene.formatter.depth_off(coronal)
}

/// A figure off its limit is asked again.
pub(super) fn off_limit(scene: &Scene<'_>, off: &str) -> Outcome {
    Outcome::tell(scene.text("surgery-again-off", &[("off", off)]))
}

/// Torque as it is typed; nothing typed is not recorded.
pub(super) fn torque(
    scene: &Scene<'_>,
    doing: &mut Doing,
    way: InsertionWay,
    again: bool,
) -> Outcome {
    if let Some(off) = torque_off(scene).filter(|_| !again) {
        return off_limit(scene, &off);
    }
    let typed = doing.entry.typed.as_str().to_owned();
    // A reason that was given before stays in the field.
    if typed.is_empty() {
        doing.asked = Asked::Depth(way, None);
        return Outcome::default();
    }
    match typed_torque(doing) {
        Some(torque) => {
            doing.asked = Asked::Depth(way, Some(torque));
            doing.entry.typed.clear();
            Outcome::default()
        }
        None => Outcome::tell(scene.word("surgery-torque-no-number")),
    }
}

/// Where it stopped: at its depth, so much coronal or apical of it, or not recorded.
pub(super) fn depth(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (way, torque): (InsertionWay, Option<Torque>),
    (pressed, again): (&Pressed, bool),
) -> Outcome {
    if let Some(off) = depth_off(scene, pressed).filter(|_| !again) {
        return off_limit(scene, &off);
    }
    let typed = typed_depth(doing, pressed);
    let empty = doing.entry.typed.as_str().is_empty();
    let coronal = match (pressed, typed) {
        (Pressed::Done, _) if empty => Some(Length::ZERO),
        (Pressed::Enter, None) if empty => None,
        (Pressed::Enter | Pressed::Apical, Some(coronal)) => Some(coronal),
        _ => return Outcome::tell(scene.word("surgery-depth-how")),
    };
    let despite = Some(doing.field.trim().to_owned()).filter(|reason| !reason.is_empty());
    inserted(scene, doing, (way, torque, coronal), despite)
}

pub(super) fn inserted(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (way, torque_ncm, coronal_of_plan_mm): (InsertionWay, Option<Torque>, Option<Length>),
    despite: Option<String>,
) -> Outcome {
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    doing.look_at(None);
    Outcome::record(EventKind::Inserted(Inserted {
        step: step.key.clone(),
        way,
        torque_ncm,
        coronal_of_plan_mm,
        due: due(scene, step),
        despite,
        purpose: scene.purpose(),
    }))
}
