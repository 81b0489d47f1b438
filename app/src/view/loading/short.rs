//! What is missing: stock, slots, figures.

use super::blind::unlaid;
use super::scale::{line, strong};
use super::scene::Scene;
use super::session::Phase;
use super::stop;
use super::task::{Block, Task, Work};
use egui::Ui;
use traywright_core::drawing::Ink;
use traywright_core::plan::{LoadItem, none_left};
use traywright_core::sign::SettingState;

/// Everything that is missing, a sentence each, what stops the work first.
pub(super) fn all(scene: &Scene<'_>) -> Vec<String> {
    found(scene).into_iter().map(|(words, _)| words).collect()
}

/// Number of everything that is missing or not to be used, piece by piece.
pub(super) fn count(scene: &Scene<'_>) -> usize {
    found(scene).iter().map(|(_, pieces)| pieces).sum()
}

/// The words on a thing that is not to be set, by id.
pub(super) fn why_blocked(block: Block, item: &LoadItem) -> &'static str {
    match block {
        Block::NoFigure if item.is_by_mark() => "loading-short-no-mark",
        Block::NoFigure => "loading-short-no-figure",
        Block::NoGaugeFigure => "loading-short-no-gauge-figure",
        Block::DoesNotFit => "loading-short-does-not-fit",
    }
}

/// Everything that is missing, a sentence each with the number of its pieces.
fn found(scene: &Scene<'_>) -> Vec<(String, usize)> {
    let pieces = |count: u32| usize::try_from(count).unwrap_or(usize::MAX);
    let worksheet = scene.worksheet();
    let mut found = Vec::new();
    let lies_wrong = &scene.board.lies_wrong;
    let lying = lies_wrong.iter();
    // Who sets is told how each stands; at the choice of passes no figure is.
    let sets = scene.session.phase == Phase::Load;
    found.extend(lying.map(|one| {
        let words = if sets {
            stop::wrong(scene, one)
        } else {
            stop::for_who_sets(scene, one)
        };
        (words, 1)
    }));
    let unlaid = unlaid(scene.board);
    if unlaid > 0 && scene.session.phase == Phase::Stage {
        let counts = &[("count", unlaid)];
        found.push((scene.counted("loading-blind-unlaid", counts, &[]), unlaid));
    }
    for task in scene.board.tasks.iter().filter(|task| is_unset(task)) {
        if let Some(item) = scene.item(task) {
            let name = scene.formatter.load(item, worksheet).take;
            found.push((scene.text("loading-short-unset", &[("name", &name)]), 1));
        }
    }
    for task in &scene.board.tasks {
        let (Work::Blocked(block), Some(item)) = (task.work, scene.item(task)) else {
            continue;
        };
        // What lies there is told to be taken off.
        if lies_wrong.iter().any(|one| one.thing() == task.thing) {
            continue;
        }
        let name = scene.formatter.load(item, worksheet).take;
        found.push((scene.text(why_blocked(block, item), &[("name", &name)]), 1));
    }
    found.extend(fallen(scene).into_iter().map(|(item, lacking)| {
        let (name, lacking) = (item.name.as_str(), pieces(lacking));
        let counts = &[("count", lacking)];
        let words = scene.counted("loading-short-dropped", counts, &[("name", name)]);
        (words, lacking)
    }));
    let stock = worksheet
        .stock
        .iter()
        .filter(|line| line.needed > line.have);
    found.extend(stock.map(|line| (scene.formatter.stock(line), pieces(line.needed - line.have))));
    if scene.document.case().setup.tray.is_none() {
        found.push((scene.word("sheet-tray-none"), 1));
    } else {
        let without = worksheet.loading.iter().filter(|item| item.slot.is_none());
        for item in without {
            let name = item.name.as_str();
            found.push((scene.text("loading-short-no-slot", &[("name", name)]), 1));
        }
    }
    if scene.board.gauge.is_none() {
        let words = match scene.document.case().gauge() {
            None => scene.word("sheet-gauge-none"),
            Some(gauge) => scene.text("sheet-gauge-no-constant", &[("gauge", gauge.name.as_str())]),
        };
        found.insert(0, (words, 1));
    }
    found
}

/// True if a drill does not fit as it is used first, and is not set for a later step yet.
fn is_unset(task: &Task) -> bool {
    task.work == Work::LayUnset && task.state() == SettingState::Now
}

/// What fell and nothing is left of, with how many are lacking.
fn fallen<'a>(scene: &Scene<'a>) -> Vec<(&'a LoadItem, u32)> {
    let falls = &scene.document.record.standing.fallen;
    none_left(scene.worksheet(), falls)
}

/// True if anything due is missing, also where all that is there lies on the tray. What does with re-sets in surgery
/// is not.
pub(super) fn lacks(scene: &Scene<'_>) -> bool {
    let worksheet = scene.worksheet();
    let mut stock = worksheet.stock.iter();
    let blocked = |task: &Task| matches!(task.work, Work::Blocked(_)) || is_unset(task);
    stock.any(|line| line.needed > line.have && line.with_resets.is_none())
        || scene.board.tasks.iter().any(blocked)
        || !scene.board.lies_wrong.is_empty()
        || !fallen(scene).is_empty()
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
    let heading = scene.counted("loading-short", &[("count", count(scene))], &[]);
    strong(ui, heading, scale.text(), theme.fault());
    for words in found {
        line(ui, words, scale.text(), theme.fill(Ink::Strong));
    }
}
