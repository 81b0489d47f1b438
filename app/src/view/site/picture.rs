//! The section drawing of the step that is looked at: the very drawing that is printed.

use super::here::Here;
use super::keys::{BEFORE, NEXT, step_on};
use crate::action::key_names;
use crate::canvas::{CachedDrawing, Camera, PER_MM};
use crate::look::caption;
use crate::look::row::focus_frame;
use crate::view::site::Context;
use egui::{Button, Key, Rect, Sense, Ui};
use traywright_core::charts::{NoSection, Room, Section};
use traywright_core::drawing::Drawing;

/// Factors by which the room of the drawing may be made larger where it does not fit; then it is
/// shown smaller.
const ROOMS: [f64; 4] = [1.0, 1.25, 1.6, 2.2];

/// Shows the drawing and what leads through the steps.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    stepper(ui, cx, here);
    let room = ui.available_rect_before_wrap();
    let response = ui.allocate_rect(room, Sense::click());
    if response.clicked() {
        response.request_focus();
    }
    if response.has_focus() {
        let (up, down) = ui.input_mut(|input| {
            let mut pressed = |key| input.consume_key(egui::Modifiers::NONE, key);
            (pressed(Key::ArrowLeft), pressed(Key::ArrowRight))
        });
        if up || down {
            step_on(cx, here, if up { -1 } else { 1 });
        }
        focus_frame(ui, room);
    }
    let document = here.document;
    let notation = cx.desk.settings.notation;
    let name = here.name();
    let texts = cx.desk.texts;
    let section = Section {
        case: document.case(),
        worksheet: document.worksheet(),
        site: here.sheet,
        step: here.step.as_ref(),
        site_name: &name,
        texts,
    };
    let state = (
        document.generation(),
        &here.site.id,
        &here.step,
        notation,
        room.width().to_bits(),
        room.height().to_bits(),
    );
    let cached = cx.state.drawings.drawing("section", state, || {
        fitting(&section, room).unwrap_or_default()
    });
    if cached.parts.is_empty() {
        ui.put(room, egui::Label::new(cx.word("site-no-drawing")));
    } else {
        show(ui, cached, room, response.id);
    }
}

fn show(ui: &Ui, cached: &mut CachedDrawing, room: Rect, id: egui::Id) {
    let camera = Camera::fitting(cached.bounds, room.shrink(4.0), PER_MM);
    cached.paint(ui, camera);
    let name = cached.parts.first().map_or("", |part| part.name.as_str());
    cached.describe(ui, id, room, name);
}

/// The drawing in the room that there is, or in a larger one where it does not fit.
fn fitting(section: &Section<'_>, room: Rect) -> Result<Drawing, NoSection> {
    let (width, height) = (f64::from(room.width()), f64::from(room.height()));
    let per_mm = f64::from(PER_MM);
    let draw = |larger: f64| {
        section.draw(Room {
            width: (width - 8.0) / per_mm * larger,
            height: (height - 8.0) / per_mm * larger,
        })
    };
    let mut last = draw(ROOMS[0]);
    for larger in &ROOMS[1..] {
        if last.is_ok() {
            break;
        }
        last = draw(*larger);
    }
    last
}

/// Leads through the steps.
fn stepper(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    let count = here.site.steps.len();
    let Some((at, _)) = here.step() else {
        return;
    };
    ui.horizontal(|ui| {
        let before = ui
            .add_enabled(at > 0, Button::new(cx.word("site-step-before")))
            .on_hover_text(key_names(&BEFORE));
        if before.clicked() {
            step_on(cx, here, -1);
        }
        let next = ui
            .add_enabled(at + 1 < count, Button::new(cx.word("site-step-next")))
            .on_hover_text(key_names(&NEXT));
        if next.clicked() {
            step_on(cx, here, 1);
        }
        let numbers = &[("number", at + 1), ("count", count)];
        let text = cx.counted("site-step-of", numbers, &[]);
        caption(ui, text);
    });
}
