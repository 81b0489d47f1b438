//! The printed sheet: its pages as they will be on paper, and who approved the plan.

mod approvals;
mod approve;
mod broken;
mod held;
mod leaf;
mod preview;
mod readings;
mod thumb;

use crate::context::CaseContext;
use crate::look::pane;
use egui::{Panel, Ui};
use traywright_core::sheet::Paper;
use traywright_core::sheet::checklist::Printing;
use traywright_core::sign::EventId;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// State of the view.
#[derive(Debug)]
pub struct State {
    /// The paper and the parts.
    pub printing: Printing,
    /// The file to write.
    pub path: String,
    /// The pages, as long as they are those of the case.
    pages: Option<leaf::Pages>,
    /// The page that is looked at, counted from 0.
    page: usize,
    /// The page that the small pages were last moved to.
    shown: Option<usize>,
    zoom: preview::Zoom,
    /// The approval that is about to be taken back.
    withdrawing: Option<EventId>,
    /// The steps done since the approved plans.
    held: Option<held::Held>,
}

impl Default for State {
    fn default() -> Self {
        Self {
            printing: Printing::all(Paper::A4),
            path: String::new(),
            pages: None,
            page: 0,
            shown: None,
            zoom: preview::Zoom::default(),
            withdrawing: None,
            held: None,
        }
    }
}

/// Width of the pane with the approvals, points.
const APPROVALS: f32 = 400.0;

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let width = APPROVALS.min(ui.available_width() * 0.45);
    pane::side(ui, Panel::left("sheet-approvals"), width, (0, 12), |ui| {
        ui.set_max_width(width - 28.0);
        approve::ui(ui, cx);
        approvals::ui(ui, cx);
        readings::ui(ui, cx);
    });
    pane::middle(ui, (16, 0), |ui| preview::ui(ui, cx));
}
