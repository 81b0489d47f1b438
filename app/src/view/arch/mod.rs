//! The arch with its sites, teeth and pins: what is planned is placed, moved and tilted here.

mod chart;
mod keys;
mod panel;
mod pick;
mod pointer;
mod sided;
mod tools;

pub use pick::Pick;

use crate::context::CaseContext;
use crate::look::pane;
use chart::Viewport;
use egui::{Panel, Pos2, Rect, ScrollArea, Ui, vec2};
use panel::NewSiteDraft;
use pointer::Drag;
use sided::Sides;
use std::sync::Arc;
use traywright_core::charts::{ArchFrame, Arches};
use traywright_core::kit::SiteId;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// Width of the panel beside the chart, points.
const PANEL: f32 = 420.0;
/// Below this width of the whole the panel is under the chart.
const NARROW: f32 = 820.0;

/// State of the view.
#[derive(Debug)]
pub struct State {
    /// The choice.
    pub pick: Pick,
    /// The jaws that are shown.
    arches: Arches,
    viewport: Viewport,
    /// The room of the chart in the last frame.
    room: Option<Rect>,
    /// The chart as the pointer takes hold of it, and the state of what it shows that it was made for.
    frame: Option<(u64, Arc<ArchFrame>)>,
    drag: Option<Drag>,
    /// True if an arrow is held down.
    nudging: bool,
    new: NewSiteDraft,
    sides: Sides,
}

impl Default for State {
    fn default() -> Self {
        Self {
            pick: Pick::default(),
            arches: Arches::Both,
            viewport: Viewport::default(),
            room: None,
            frame: None,
            drag: None,
            nudging: false,
            new: NewSiteDraft::default(),
            sides: Sides::default(),
        }
    }
}

impl State {
    /// The middle of a site's platform on the screen.
    #[must_use]
    pub fn on_screen(&self, site: &SiteId) -> Option<Pos2> {
        let (_, frame) = self.frame.as_ref()?;
        let site = frame.sites.iter().find(|found| found.id == *site)?;
        let camera = self.viewport.camera(self.room?);
        Some(camera.screen_from_drawing(site.platform))
    }
}

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    if ui.available_width() < NARROW {
        ScrollArea::vertical().id_salt("arch").show(ui, |ui| {
            let size = vec2(ui.available_width(), 420.0);
            ui.allocate_ui(size, |ui| {
                ui.set_min_size(size);
                tools::ui(ui, cx);
                chart::ui(ui, cx);
            });
            ui.separator();
            panel::ui(ui, cx);
        });
        return;
    }
    pane::side(ui, Panel::right("arch-panel"), PANEL, (20, 0), |ui| {
        panel::ui(ui, cx);
    });
    ui.vertical(|ui| {
        tools::ui(ui, cx);
        chart::ui(ui, cx);
    });
}
