//! The tray: the contents of its slots, drawn and listed, and moved by hand.
//!
//! The core decides what may be put where ([`traywright_core::plan::moved`]); here it is asked
//! while a thing is in hand, and once it is put down one edit is made.

mod carried;
mod drawing;
mod findings;
mod head;
mod keys;
mod list;
mod pointer;

use crate::context::CaseContext;
use crate::look::{Font, pane};
use carried::Carried;
use egui::{Panel, Pos2, Rect, ScrollArea, Ui};
use traywright_core::case::Held;
use traywright_core::plan::LoadItem;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// Least and greatest width of the list beside the drawing, points.
const LIST: (f32, f32) = (430.0, 640.0);
/// Below this width of the whole the list is under the drawing.
const NARROW: f32 = 860.0;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    /// The thing that is looked at.
    chosen: Option<Held>,
    /// Set where the keyboard is to go to the row of that.
    focus: bool,
    /// The thing in hand.
    carried: Option<Carried>,
    /// The area of each slot in the last frame, by its name.
    slots: Vec<(String, Rect)>,
}

impl State {
    /// The middle of a slot on the screen.
    #[must_use]
    pub fn on_screen(&self, slot: &str) -> Option<Pos2> {
        let mut slots = self.slots.iter();
        slots
            .find(|(name, _)| name == slot)
            .map(|(_, rect)| rect.center())
    }
}

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let loading = &document.worksheet().loading;
    settle(cx.own, loading);
    head::ui(ui, cx);
    if document.case().tray_slots().is_empty() {
        return;
    }
    if ui.available_width() < NARROW {
        ScrollArea::vertical().id_salt("tray").show(ui, |ui| {
            drawing::ui(ui, cx);
            findings::ui(ui, cx);
            list::ui(ui, cx);
        });
    } else {
        wide(ui, cx);
    }
    pointer::follow(ui, cx);
}

fn wide(ui: &mut Ui, cx: &mut Context<'_>) {
    // The list has what a drawing that is seen whole leaves.
    let drawing = drawing::whole(cx, ui.available_height()).max(drawing::LEAST);
    let left = ui.available_width() - drawing - 40.0;
    let width = left.clamp(LIST.0, LIST.1);
    pane::side(ui, Panel::right("tray-list"), width, (16, 0), |ui| {
        findings::ui(ui, cx);
        list::ui(ui, cx);
    });
    pane::middle(ui, (0, 0), |ui| {
        pane::scroll(ui, "tray-drawing", |ui| drawing::ui(ui, cx));
    });
}

/// Something is always looked at, and nothing is in hand that the plan has no more.
fn settle(state: &mut State, loading: &[LoadItem]) {
    let there = |held: &Held| loading.iter().any(|item| item.is_held(held));
    if !state.chosen.as_ref().is_some_and(there) {
        state.chosen = loading.first().map(LoadItem::held);
    }
    state.carried = state.carried.take().filter(|carried| there(&carried.thing));
}

/// The thing's place in the order of loading.
fn place_of(loading: &[LoadItem], held: &Held) -> Option<usize> {
    loading.iter().position(|item| item.is_held(held))
}

/// Words of lesser weight.
fn aside(ui: &mut Ui, text: impl Into<String>) {
    let text = Font::Caption.text(text).weak();
    ui.add(egui::Label::new(text).wrap());
}
