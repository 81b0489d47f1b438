//! Look-alikes: the same drill at another setting on the tray, and what it would do if it were taken
//! by mistake.

use super::scale::{line, strong};
use super::scene::{Scene, item_of};
use super::task::Board;
use crate::canvas::mark;
use egui::{Sense, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::{
    Actionable, ActionableFigure, Known, LoadItem, Mistake, MixUp, Severity, Worksheet,
};
use traywright_core::wording::begin;

/// Number of mistakes described in full; the printed page has the rest.
const TOLD: usize = 1;

/// Shows them, where there are any; `size` is that of the letters, points.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, item: &LoadItem, size: f32) {
    let (scale, theme) = (scene.scale, scene.theme);
    let others = others(scene.worksheet(), scene.board, item);
    let would: Vec<&MixUp> = harmful(scene, item);
    if others.is_empty() && would.is_empty() {
        return;
    }
    ui.add_space(scale.px(12.0));
    if !others.is_empty() {
        let others: Vec<String> = others
            .into_iter()
            .map(|other| lying(scene, other))
            .collect();
        let words = scene.text("loading-look-alike", &[("others", &others.join(", "))]);
        ui.horizontal_top(|ui| {
            let side = scale.px(50.0);
            let (square, _) = ui.allocate_exact_size(vec2(side, side), Sense::hover());
            mark(ui, square, Severity::Tight);
            let ink = theme.fill(Ink::Strong);
            // Whole also where what stands above it is wider than the pane.
            let width = ui.clip_rect().right() - ui.cursor().left() - scale.px(14.0);
            let width = width.min(ui.available_width());
            ui.vertical(|ui| {
                ui.set_max_width(width);
                strong(ui, words, size, ink);
            });
        });
    }
    for one in would.into_iter().take(TOLD) {
        let said = scene.formatter.mix_up(one);
        let words = format!(
            "{}: {}. {}.",
            begin(&said.site),
            said.mistake,
            begin(&said.harm)
        );
        line(ui, words, scale.small(), theme.fill(Ink::Soft));
    }
}

/// The same drill elsewhere on the tray, as it is now: in surgery it may have been set anew.
pub(super) fn others<'a>(
    worksheet: &'a Worksheet,
    board: &Board,
    item: &LoadItem,
) -> Vec<&'a LoadItem> {
    let same = |other: &&LoadItem| {
        let drill = item.set.is_some() && other.set.is_some();
        drill && other.entry == item.entry && other.copy != item.copy
    };
    let things = worksheet.loading.iter().enumerate();
    let as_now = |(place, laid): (usize, &'a LoadItem)| {
        let now = board.stands_now(place);
        now.and_then(|task| item_of(worksheet, task))
            .unwrap_or(laid)
    };
    things.map(as_now).filter(same).collect()
}

/// A drill's setting and its slot.
fn lying(scene: &Scene<'_>, other: &LoadItem) -> String {
    let kit = &scene.document.case().kit;
    let actionable = Actionable::of_item(other);
    let figure = actionable.map(|actionable| actionable.figure(kit));
    let set = match figure.and_then(ActionableFigure::large) {
        Some(figure) if other.is_by_mark() => {
            let mark = scene.formatter.set_length_with_unit(&Known::Is(figure));
            scene.text("loading-look-alike-mark", &[("mark", &mark)])
        }
        Some(large) => {
            let shown = |length| scene.formatter.set_length_with_unit(&Known::Is(length));
            match figure {
                // What it would do elsewhere is told by the length from tip to stop.
                Some(ActionableFigure::GaugeFigure { gauge, set }) => {
                    let args = [("gauge", &*shown(gauge)), ("set", &*shown(set))];
                    scene.text("loading-look-alike-gauge", &args)
                }
                _ => shown(large),
            }
        }
        None => scene.word("setting-none"),
    };
    match &other.slot {
        Some(slot) => scene.text(
            "loading-look-alike-in",
            &[("set", &set), ("slot", slot.as_str())],
        ),
        None => set,
    }
}

/// The harm that this thing, as it is set, would do elsewhere.
fn harmful<'a>(scene: &Scene<'a>, item: &LoadItem) -> Vec<&'a MixUp> {
    let set_to = item.set.as_ref().and_then(|on| on.set.get());
    let of_this = |one: &&MixUp| match &one.mistake {
        Mistake::OtherSetting { drill, set, .. } | Mistake::PinDrill { drill, set, .. } => {
            drill.as_str() == item.entry && Some(*set) == set_to
        }
        _ => false,
    };
    let found = scene.worksheet().mix_ups.iter().filter(of_this);
    let mut found: Vec<&MixUp> = found.collect();
    // What nothing but the figure tells apart comes first.
    found.sort_by_key(|one| !one.only_setting);
    found
}
