//! The pointer on the chart: it chooses, drags, tilts, looks closer.

use super::Pick;
use super::pick::{Picked, picked};
use crate::action::{Action, Change};
use crate::context::Notice;
use crate::view::arch::Context;
use egui::{CursorIcon, Key, PointerButton, Rect, Response, Ui};
use traywright_core::case::{CasePin, Edit, GuideState, Placement, Site};
use traywright_core::charts::{ArchFrame, ArchSelection};
use traywright_core::drawing::Point;
use traywright_core::kit::{Label, SiteId};

/// The thing that the pointer holds. The hold is counted from the thing's own place, so that
/// nothing jumps under it.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Drag {
    Site { id: SiteId, off: Point },
    Apex { id: SiteId, off: Point },
    Pin { name: Label, off: Point },
    Chart,
}

/// Distance beside a small thing at which the pointer still takes hold of it, points.
const NEAR: f32 = 6.0;

/// Follows the pointer. In the chart's room not all is seen of it where something stands around it.
pub(super) fn handle(
    ui: &Ui,
    cx: &mut Context<'_>,
    response: &Response,
    frame: &ArchFrame,
    (room, seen): (Rect, Rect),
) {
    look_closer(ui, cx, response, room);
    let camera = cx.own.viewport.camera(room);
    let near = f64::from(NEAR / camera.per_mm);
    let space = ui.input(|input| input.key_down(Key::Space));
    if response.drag_started() {
        response.request_focus();
        let pressed = ui.input(|input| input.pointer.press_origin());
        let primary = response.drag_started_by(PointerButton::Primary) && !space;
        let held = pressed
            .filter(|place| primary && seen.contains(*place))
            .map(|place| camera.drawing_from_screen(place))
            .and_then(|place| held_at(frame, place, near));
        cx.own.drag = match held {
            None => Some(Drag::Chart),
            Some(held) => take_hold(cx, held),
        };
    }
    if let Some(drag) = cx.own.drag.clone() {
        if response.dragged() {
            let place = response.interact_pointer_pos();
            let place = place.map(|place| camera.drawing_from_screen(place));
            if drag == Drag::Chart {
                let by = response.drag_delta();
                cx.own.viewport.moved(room, by);
            } else if let Some(place) = place {
                follow(cx, frame, &drag, place);
            }
        }
        if response.drag_stopped() || !ui.input(|input| input.pointer.any_down()) {
            cx.own.drag = None;
            cx.act(Action::EndGesture);
        }
        return;
    }
    let place = response.interact_pointer_pos();
    let place = place.filter(|place| seen.contains(*place));
    if response.clicked()
        && let Some(place) = place
    {
        response.request_focus();
        choose(cx, frame, camera.drawing_from_screen(place), near);
    }
    if response.double_clicked()
        && let Picked::Site(..) = picked(cx)
        && let Some(place) = place
        && frame
            .site_at(camera.drawing_from_screen(place), 0.0)
            .is_some()
    {
        let view = crate::action::View::Site;
        cx.act(Action::Do(crate::action::Command::Show(view)));
    }
    if response
        .hover_pos()
        .is_some_and(|place| seen.contains(place))
    {
        hover(ui, cx, response, frame, near);
    }
}

fn look_closer(ui: &Ui, cx: &mut Context<'_>, response: &Response, room: Rect) {
    let Some(pointer) = response.hover_pos() else {
        return;
    };
    let factor = ui.input(egui::InputState::zoom_delta);
    if (factor - 1.0).abs() > f32::EPSILON {
        cx.own.viewport.closer(room, pointer, factor);
    }
}

/// The thing under the pointer: the ring that tilts first, since it may be over a neighbour.
fn held_at(frame: &ArchFrame, place: Point, near: f64) -> Option<Drag> {
    let handle = frame.sites.iter().find_map(|site| {
        let handle = site.handle?;
        let hit = (handle - place).length() <= near + 1.0;
        hit.then(|| Drag::Apex {
            id: site.id.clone(),
            off: place - site.apex,
        })
    });
    let pin = || {
        let pin = frame.pin_at(place, near)?;
        Some(Drag::Pin {
            name: pin.name.clone(),
            off: place - pin.centre,
        })
    };
    let site = || {
        let site = frame.site_at(place, 0.0)?;
        Some(Drag::Site {
            id: site.id.clone(),
            off: place - site.platform,
        })
    };
    handle.or_else(pin).or_else(site)
}

/// Chooses what is held and keeps hold of it; what a guide that is made holds is not moved.
fn take_hold(cx: &mut Context<'_>, held: Drag) -> Option<Drag> {
    let document = cx.document;
    let may = match &held {
        Drag::Site { id, .. } | Drag::Apex { id, .. } => {
            cx.act(Action::Choose(Some(id.clone())));
            let site = document.case().site(id.as_str());
            site.is_some_and(|site| may_move(cx, site))
        }
        Drag::Pin { name, .. } => {
            cx.own.pick = Pick::Pin(name.clone());
            may_change(cx)
        }
        Drag::Chart => may_change(cx),
    };
    may.then_some(held)
}

/// True if a site's place and axis may still change; if not, it says why.
pub(super) fn may_move(cx: &mut Context<'_>, site: &Site) -> bool {
    is_free(cx, cx.document.case().held_by_guide(site).axis)
}

/// True if the pins may still change; if not, it says why.
pub(super) fn may_change(cx: &mut Context<'_>) -> bool {
    is_free(cx, cx.document.case().guide.state == GuideState::Made)
}

fn is_free(cx: &mut Context<'_>, held: bool) -> bool {
    if held {
        let told = cx.word("arch-guide-made");
        cx.state.notice = Some(Notice::Refused(told));
        return false;
    }
    true
}

fn follow(cx: &mut Context<'_>, frame: &ArchFrame, drag: &Drag, place: Point) {
    let document = cx.document;
    let case = document.case();
    match drag {
        Drag::Site { id, off } => {
            let Some(site) = case.site(id.as_str()) else {
                return;
            };
            match frame.moved(site.placement, place - *off) {
                Some(placement) => change_place(cx, site, placement, "arch-moved"),
                None => tell_measured(cx),
            }
        }
        Drag::Apex { id, off } => {
            let site = case.site(id.as_str());
            if let Some(site) = site
                && let Some(placement) = frame.tilted(site, place - *off)
            {
                change_place(cx, site, placement, "arch-tilted");
            }
        }
        Drag::Pin { name, off } => {
            let pin = case.guide.pins.iter().find(|pin| pin.name == *name);
            if let Some(moved) = pin.and_then(|pin| frame.pin_moved(pin, place - *off)) {
                change_pin(cx, name, moved);
            }
        }
        Drag::Chart => {}
    }
}

/// Says that a measured place is not moved by hand.
pub(super) fn tell_measured(cx: &mut Context<'_>) {
    let told = cx.word("arch-measured-stays");
    cx.state.notice = Some(Notice::Refused(told));
}

/// Gives a site another place as part of the gesture that goes on.
pub(super) fn change_place(cx: &mut Context<'_>, site: &Site, placement: Placement, name: &str) {
    if site.placement == placement {
        return;
    }
    let formatter = cx.formatter();
    let name = cx.text(name, &[("site", &formatter.tooth(site.tooth))]);
    let mut moved = site.clone();
    moved.placement = placement;
    let gesture = cx.state.gesture;
    cx.edit(Change::new(name, Edit::ChangeSite(Box::new(moved))).within(gesture));
}

/// Puts a pin elsewhere as part of the gesture that goes on.
pub(super) fn change_pin(cx: &mut Context<'_>, name: &Label, moved: CasePin) {
    let document = cx.document;
    let mut guide = document.case().guide.clone();
    let Some(pin) = guide.pins.iter_mut().find(|pin| pin.name == *name) else {
        return;
    };
    if *pin == moved {
        return;
    }
    *pin = moved;
    let told = cx.text("arch-pin-moved", &[("name", name.as_str())]);
    let gesture = cx.state.gesture;
    cx.edit(Change::new(told, Edit::SetGuide(Box::new(guide))).within(gesture));
}

/// Chooses the thing at a place.
fn choose(cx: &mut Context<'_>, frame: &ArchFrame, place: Point, near: f64) {
    if let Some(pin) = frame.pin_at(place, near) {
        cx.own.pick = Pick::Pin(pin.name.clone());
    } else if let Some(site) = frame.site_at(place, 0.0) {
        cx.act(Action::Choose(Some(site.id.clone())));
    } else {
        let tooth = frame.tooth_at(place);
        cx.own.pick = tooth.map_or(Pick::Nothing, Pick::Tooth);
    }
}

/// Names the thing under the pointer.
fn hover(ui: &Ui, cx: &Context<'_>, response: &Response, frame: &ArchFrame, near: f64) {
    let Some(pointer) = response.hover_pos() else {
        return;
    };
    let camera = cx.own.viewport.camera(response.rect);
    let place = camera.drawing_from_screen(pointer);
    let on_handle = frame
        .sites
        .iter()
        .filter_map(|site| site.handle)
        .any(|handle| (handle - place).length() <= near + 1.0);
    let told = if on_handle {
        Some(cx.word("arch-handle-hint"))
    } else {
        let pin = frame.pin_at(place, near);
        let site = || frame.site_at(place, 0.0);
        let tooth = || frame.tooth_at(place);
        let thing = pin.map(|pin| ArchSelection::Pin(pin.name.as_str()));
        let thing = thing.or_else(|| Some(ArchSelection::Site(&site()?.id)));
        let thing = thing.or_else(|| tooth().map(ArchSelection::Tooth));
        thing.and_then(|thing| frame.name_of(thing).map(str::to_owned))
    };
    if on_handle || frame.site_at(place, 0.0).is_some() || frame.pin_at(place, near).is_some() {
        ui.set_cursor_icon(CursorIcon::Grab);
    }
    if let Some(told) = told {
        response.clone().on_hover_text_at_pointer(told);
    }
}
