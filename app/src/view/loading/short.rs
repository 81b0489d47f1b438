//! What is missing: stock, slots, figures.

use super::falls::none_left;
use super::scale::{line, strong};
use super::scene::Scene;
use super::task::{Block, Task, Work};
use egui::Ui;
use traywright_core::drawing::Ink;

/// Everything that is missing, a sentence each, what stops the work first.
pub(super) fn all(scene: &Scene<'_>) -> Vec<String> {
    let worksheet = scene.worksheet();
    let mut found = Vec::new();
    for task in &scene.board.tasks {
        let (Work::Blocked(block), Some(item)) = (task.work, scene.item(task)) else {
            continue;
        };
        let id = match block {
            Block::NoFigure if item.is_by_mark() => "loading-short-no-mark",
            Block::NoFigure => "loading-short-no-figure",
            Block::NoGaugeFigure => "loading-short-no-gauge-figure",
            Block::DoesNotFit => "loading-short-does-not-fit",
        };
        let name = scene.formatter.load(item, worksheet).take;
        found.push(scene.text(id, &[("name", &name)]));
    }
    found.extend(none_left(scene.document).into_iter().map(|item| {
        let name = item.name.as_str();
        scene.text("loading-short-dropped", &[("name", name)])
    }));
    let stock = worksheet
        .stock
        .iter()
        .filter(|line| line.needed > line.have);
    found.extend(stock.map(|line| scene.formatter.stock(line)));
    if scene.document.case().setup.tray.is_none() {
        found.push(scene.word("sheet-tray-none"));
    } else {
        let without = worksheet.loading.iter().filter(|item| item.slot.is_none());
        for item in without {
            let name = item.name.as_str();
            found.push(scene.text("loading-short-no-slot", &[("name", name)]));
        }
    }
    if scene.board.gauge.is_none() {
        found.insert(0, scene.word("sheet-gauge-none"));
    }
    found
}

/// True if anything due is missing, also where all that is there lies on the tray. What does with re-sets in surgery
/// is not.
pub(super) fn lacks(scene: &Scene<'_>) -> bool {
    let worksheet = scene.worksheet();
    let mut stock = worksheet.stock.iter();
    let blocked = |task: &Task| matches!(task.work, Work::Blocked(_));
    stock.any(|line| line.needed > line.have && line.with_resets.is_none())
        || scene.board.tasks.iter().any(blocked)
        || !none_left(scene.document).is_empty()
        || scene.board.gauge.is_none()
}

/// Shows what is missing, or that nothing is.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let found = all(scene);
    if found.is_empty() {
        line(
            ui,
            scene.word("loading-nothing-short"),
            scale.text(),
            theme.fill(Ink::Strong),
        );
        return;
    }
    let heading = scene.counted("loading-short", &[("count", found.len())], &[]);
    strong(ui, heading, scale.text(), theme.fault());
    for words in found {
        line(ui, words, scale.text(), theme.fill(Ink::Strong));
    }
}
