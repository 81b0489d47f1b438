//! The order of use as a strip of steps, what it costs, how good it is, and why.

mod cached;
mod head;
mod keys;
mod list;
mod none;
mod pointer;
mod reasons;
mod strip;
mod wishes;

use crate::context::CaseContext;
use crate::look::{self, pane};
use cached::CachedOrder;
use egui::{Panel, ScrollArea, Ui};
use std::rc::Rc;
use traywright_core::kit::SiteId;
use traywright_core::order::Cost;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    /// Place of the step that is looked at in the order of use.
    chosen: Option<usize>,
    told: Option<Rc<CachedOrder>>,
    drag: Option<pointer::Drag>,
    /// True if an arrow that moves a step is held.
    moving: bool,
    /// The result of the last move: that it could not be, or what the order cost before.
    said: Option<Moved>,
    /// Set where the keyboard goes to the list's chosen row next.
    to_row: bool,
    /// Set where the strip is to show the chosen step next.
    to_step: bool,
    /// The sites picked for a new rule.
    first: Option<SiteId>,
    then: Option<SiteId>,
}

/// The result of the last move.
#[derive(Debug, Clone)]
enum Moved {
    /// The step stayed, and why.
    Stays(String),
    /// Cost of the order before the gesture.
    From(Cost),
}

/// Width of the pane on the right, points.
const PANE: f32 = 384.0;
/// With less room than this the pane is below the strip, points.
const BESIDE: f32 = 860.0;

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let told = cached::now(cx);
    if ui.available_width() < BESIDE {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            one_column(ui, cx, told.as_deref());
        });
        return;
    }
    pane::side(ui, Panel::right("order-pane"), PANE, (18, 0), |ui| {
        ui.set_max_width(PANE - 32.0);
        if let Some(told) = &told {
            head::ui(ui, cx, told);
        }
        about(ui, cx);
    });
    pane::middle(ui, (0, 8), |ui| {
        pane::scroll(ui, "order-steps", |ui| match &told {
            Some(told) => {
                strip::ui(ui, cx, told);
                list::ui(ui, cx, told);
            }
            None => none::ui(ui, cx),
        });
    });
}

/// All of it below each other.
fn one_column(ui: &mut Ui, cx: &mut Context<'_>, told: Option<&CachedOrder>) {
    let Some(told) = told else {
        none::ui(ui, cx);
        about(ui, cx);
        return;
    };
    head::ui(ui, cx, told);
    ui.add_space(10.0);
    strip::ui(ui, cx, told);
    about(ui, cx);
    list::ui(ui, cx, told);
}

/// The parts behind the order: shortages, reasons, wishes.
fn about(ui: &mut Ui, cx: &mut Context<'_>) {
    crate::view::shortage::ui(ui, cx);
    reasons::ui(ui, cx);
    wishes::ui(ui, cx);
}

/// A heading within the view.
fn heading(ui: &mut Ui, text: impl Into<String>) {
    ui.add_space(10.0);
    look::heading(ui, text);
}
