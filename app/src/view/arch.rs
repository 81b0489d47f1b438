//! The arch with its sites.

use crate::action::Action;
use crate::canvas::{Camera, PER_MM};
use crate::window::Stage;
use egui::{Sense, Ui};
use traywright_core::charts::{ArchOptions, Arches, arch};
use traywright_core::kit::SiteId;

/// What the view remembers.
#[derive(Debug, Default)]
pub struct State {}

/// Shows the view.
pub fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let notation = stage.desk.settings.notation();
    let room = ui.available_rect_before_wrap();
    let response = ui.allocate_rect(room, Sense::click());
    let chosen = stage.site().map(|(site, _)| site.id.clone());
    let width_mm = f64::from(room.width() / PER_MM);
    let texts = stage.desk.texts;
    let speaker = document.speaker(notation);
    let say = |finding: &traywright_core::plan::Finding| {
        let said = speaker.finding(finding);
        speaker.line(&said)
    };
    let state = (document.generation(), width_mm.to_bits(), &chosen, notation);
    let plate = stage.sight.plates.plate("arch", state, || {
        let options = ArchOptions {
            width_mm,
            notation,
            texts,
            say: &say,
            arches: Arches::Own,
            chosen: chosen.as_ref(),
        };
        arch(document.case(), document.worksheet(), &options)
    });
    let camera = Camera::fitting(plate.bounds, room, PER_MM);
    plate.paint(ui, camera);
    if let Some(place) = response
        .interact_pointer_pos()
        .filter(|_| response.clicked())
        && let Some(part) = plate.part_at(camera, place, &["site:"])
    {
        let id = part.id.trim_start_matches("site:");
        stage.actions.push(Action::Choose(Some(SiteId::from(id))));
    }
}
