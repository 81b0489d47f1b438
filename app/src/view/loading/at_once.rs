//! Everything that is done with a drill, on one screen: what it is tested by, the figure to set it to, what the gauge then
//! shows.

use super::instrument::{action, figure_ui, reading_ui, site_ui};
use super::scale::{line, strong};
use super::scene::{Scene, sites};
use super::session::Step;
use super::task::Task;
use super::warning;
use egui::Ui;
use traywright_core::drawing::Ink;
use traywright_core::kit::SiteId;
use traywright_core::plan::LoadItem;
use traywright_core::wording::mm;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, (task, item): (&Task, &LoadItem)) {
    let (scale, theme) = (scene.scale, scene.theme);
    let ink = theme.fill(Ink::Strong);
    let told = scale.told();
    // Nothing between the lines but what parts them: all of it is to be in sight.
    ui.spacing_mut().item_spacing.y = scale.px(1.0);
    let sites: Vec<&SiteId> = sites(item);
    match &sites[..] {
        [] => {
            line(ui, scene.word("load-whole-case"), told, ink);
        }
        [site] => site_ui(ui, scene, site, told),
        many => {
            let words = scene.counted("loading-for-many", &[("count", many.len())], &[]);
            line(ui, words, told, ink);
        }
    }
    if let Some(words) = taken_by(scene, item) {
        line(ui, words, told, ink);
    }
    strong(ui, action(scene, task, item, Step::SetAndRead), told, ink);
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| figure_ui(ui, scene, item));
        ui.add_space(scale.px(40.0));
        ui.vertical(|ui| reading_ui(ui, scene, task));
    });
    warning::ui(ui, scene, item, told);
}

/// That it is taken, and what shows that it is the right one.
fn taken_by(scene: &Scene<'_>, item: &LoadItem) -> Option<String> {
    let kit = &scene.document.case().kit;
    let mut drills = kit.drills.iter();
    let drill = drills.find(|drill| drill.id.as_str() == item.entry)?;
    let length = mm(drill.overall_length_mm);
    let bores = scene.formatter.bores_by_name(item, scene.worksheet());
    Some(if bores.is_empty() {
        scene.text("loading-all-take", &[("length", &length)])
    } else {
        let args = [("length", &*length), ("bores", &bores.join("; "))];
        scene.text("loading-all-take-drop", &args)
    })
}
