//! How far the settings are verified: in numbers, and what is missing.

use super::{aside, heading, words};
use crate::look::size;
use crate::window::Stage;
use egui::{RichText, Ui};
use traywright_core::kit::DrillId;
use traywright_core::say::mm;
use traywright_core::sign::{Against, ItemStanding, Stage as Where};

/// The stages that are told here, each with the id of its line.
const STAGES: [(Where, &str); 2] = [
    (Where::Bench, "sheet-view-read-bench"),
    (Where::SterileField, "sheet-view-read-sterile"),
];

/// Shows how many settings are verified, and for each what is missing.
pub(super) fn ui(ui: &mut Ui, stage: &Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    heading(ui, stage.word("sheet-view-readings"));
    let items = &document.record.standing.items;
    if items.is_empty() {
        aside(ui, stage.word("sheet-view-read-none"));
        return;
    }
    for (at, id) in STAGES {
        let done = items.iter().filter(|item| is_read(item, at)).count();
        let (done, all) = (done.to_string(), items.len().to_string());
        words(ui, stage.text(id, &[("done", &done), ("all", &all)]));
    }
    let speaker = document.speaker(stage.desk.settings.notation());
    for item in items {
        let missing: Vec<String> = item
            .checks
            .get(&Where::Bench)
            .into_iter()
            .filter(|_| !is_read(item, Where::Bench))
            .flat_map(|check| &check.against)
            .filter(|against| **against != Against::Practice)
            .map(|against| speaker.message(&against.message()))
            .collect();
        if missing.is_empty() {
            continue;
        }
        let drill = speaker.drill(&DrillId::from(item.item.drill.as_str()));
        let set = mm(item.item.setting_mm);
        let missing = missing.join(" ");
        let args = [
            ("drill", drill.as_str()),
            ("set", &set),
            ("missing", &missing),
        ];
        let line = RichText::new(stage.text("sheet-view-read-missing", &args));
        ui.add(egui::Label::new(line.size(size::CAPTION)).wrap());
    }
}

/// Whether both readings of a setting stand at a stage, be it for practice.
fn is_read(item: &ItemStanding, at: Where) -> bool {
    let check = item.checks.get(&at);
    check.is_some_and(|check| check.is_verified() || check.is_practised())
}
