//! The keys on the chart while it has the keyboard.

use super::panel::{remove_pin, remove_site, set_tooth_state};
use super::pick::{Picked, picked};
use super::pointer::{change_pin, change_place, may_change, may_move, tell_measured};
use super::{Pick, tools};
use crate::action::{Action, REMOVE};
use crate::view::arch::Context;
use egui::{EventFilter, Key, Modifiers, Rect, Response, Ui};
use traywright_core::case::{CasePin, Placement, Site, ToothState};
use traywright_core::charts::{ArchFrame, Arrow};
use traywright_core::dentition::ToothPosition;
use traywright_core::measure::{Angle, Length};

const ARROWS: [(Key, Arrow); 4] = [
    (Key::ArrowLeft, Arrow::Left),
    (Key::ArrowRight, Arrow::Right),
    (Key::ArrowUp, Arrow::Up),
    (Key::ArrowDown, Arrow::Down),
];

/// What each key makes of the tooth that is picked.
pub(super) const TOOTH: [(Key, Option<ToothState>); 4] = [
    (Key::P, Some(ToothState::Present)),
    (Key::M, Some(ToothState::Missing)),
    (Key::X, Some(ToothState::ToExtract)),
    (REMOVE, None),
];

/// The action of an arrow, by the modifier held with it: those with a modifier first, since a key
/// without any ignores others that are held too.
const HELD: [(Modifiers, Hold); 3] = [
    (Modifiers::ALT, Hold::Tilt),
    (Modifiers::SHIFT, Hold::Far),
    (Modifiers::NONE, Hold::Near),
];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Hold {
    /// 0.1 mm.
    Near,
    /// 1 mm.
    Far,
    /// 1°.
    Tilt,
}

impl Hold {
    const fn step(self) -> Length {
        match self {
            Self::Far => Length::from_mm(1),
            _ => Length::from_um(100),
        }
    }
}

/// Listens to the keys.
pub(super) fn handle(
    ui: &Ui,
    cx: &mut Context<'_>,
    response: &Response,
    frame: &ArchFrame,
    room: Rect,
) {
    let arrow_held = ui.input(|input| ARROWS.iter().any(|(key, _)| input.key_down(*key)));
    if cx.own.nudging && !(arrow_held && response.has_focus()) {
        cx.own.nudging = false;
        cx.act(Action::EndGesture);
    }
    if !response.has_focus() {
        return;
    }
    let filter = EventFilter {
        horizontal_arrows: true,
        vertical_arrows: true,
        // Where nothing is chosen it takes the keyboard off the chart, as everywhere.
        escape: !matches!(picked(cx), Picked::Nothing),
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    tools::zoom_keys(ui, cx, room);
    for (modifiers, hold) in HELD {
        for (key, arrow) in ARROWS {
            let times = ui.input_mut(|input| input.count_and_consume_key(modifiers, key));
            if times > 0 {
                let times = i64::try_from(times).unwrap_or(1);
                by_arrow(cx, frame, arrow, hold, times);
            }
        }
    }
    by_letter(ui, cx);
}

fn by_arrow(cx: &mut Context<'_>, frame: &ArchFrame, arrow: Arrow, hold: Hold, times: i64) {
    match picked(cx) {
        Picked::Site(site, _) => nudge_site(cx, frame, site, arrow, hold, times),
        Picked::Pin(pin) => nudge_pin(cx, frame, pin, arrow, hold, times),
        Picked::Tooth(position) => walk(cx, Some(position), arrow),
        Picked::Nothing => walk(cx, None, arrow),
    }
}

fn nudge_site(
    cx: &mut Context<'_>,
    frame: &ArchFrame,
    site: &Site,
    arrow: Arrow,
    hold: Hold,
    times: i64,
) {
    if !may_move(cx, site) {
        return;
    }
    if matches!(site.placement, Placement::Measured { .. }) {
        tell_measured(cx);
        return;
    }
    let (moved, name) = if hold == Hold::Tilt {
        let degrees = Angle::from_deg(i32::try_from(times).unwrap_or(1));
        let leant = frame.leant(site.placement, arrow, degrees);
        (leant, "arch-tilted")
    } else {
        let by = Length::from_um(hold.step().um() * times);
        (frame.nudged(site.placement, arrow, by), "arch-moved")
    };
    if let Some(moved) = moved {
        cx.own.nudging = true;
        change_place(cx, site, moved, name);
    }
}

fn nudge_pin(
    cx: &mut Context<'_>,
    frame: &ArchFrame,
    pin: &CasePin,
    arrow: Arrow,
    hold: Hold,
    times: i64,
) {
    if hold == Hold::Tilt || !may_change(cx) {
        return;
    }
    let by = Length::from_um(hold.step().um() * times);
    if let Some(moved) = frame.pin_nudged(pin, arrow, by) {
        cx.own.nudging = true;
        change_pin(cx, &pin.name, moved);
    }
}

/// Chooses the next tooth to the left or right.
fn walk(cx: &mut Context<'_>, from: Option<ToothPosition>, arrow: Arrow) {
    let document = cx.document;
    let teeth: Vec<ToothPosition> = ToothPosition::all_of(document.case().jaw).collect();
    let at = from.and_then(|from| teeth.iter().position(|tooth| *tooth == from));
    let next = match (at, arrow) {
        (_, Arrow::Up | Arrow::Down) => return,
        (None, Arrow::Left) => teeth.last(),
        (None, Arrow::Right) => teeth.first(),
        (Some(at), Arrow::Left) => teeth.get(at.saturating_sub(1)),
        (Some(at), Arrow::Right) => teeth.get((at + 1).min(teeth.len() - 1)),
    };
    if let Some(next) = next {
        cx.own.pick = Pick::Tooth(*next);
    }
}

fn by_letter(ui: &Ui, cx: &mut Context<'_>) {
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    match picked(cx) {
        Picked::Site(site, _) => {
            if pressed(REMOVE) {
                remove_site(cx, site);
            }
        }
        Picked::Pin(pin) => {
            if pressed(REMOVE) && may_change(cx) {
                remove_pin(cx, pin);
            }
        }
        Picked::Tooth(position) => {
            for (key, state) in TOOTH {
                if pressed(key) {
                    set_tooth_state(cx, position, state);
                }
            }
        }
        Picked::Nothing => {}
    }
    if pressed(Key::Escape) {
        cx.own.pick = Pick::Nothing;
    }
}
