//! What comes next and what is to be prepared for it, and the arch with the site.

use super::scene::Scene;
use crate::canvas::Camera;
use crate::context::ViewContext;
use crate::view::loading::scale::{line, strong};
use egui::{Rect, Sense, Ui, vec2};
use traywright_core::charts::{SiteLook, arch_from_afar};
use traywright_core::plan::{Actionable, Known};
use traywright_core::surgery::{DayStep, Work};
use traywright_core::wording::begin;

/// Points of the screen for a millimetre of the drawing.
const PER_MM: f32 = 7.0;
/// The width of the drawing, mm.
const WIDTH: f64 = 72.0;

/// Shows the next step, and the next barrier, re-set or implant after it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>) {
    let scale = scene.scale;
    let Some((at, _)) = scene.step() else { return };
    let mut open = scene.day.open_from(at + 1);
    let Some((_, step)) = open.next() else {
        line(
            ui,
            scene.word("surgery-then-nothing"),
            scale.px(36.0),
            scene.soft(),
        );
        return;
    };
    let words = scene.text("surgery-then", &[("step", &said(scene, step))]);
    strong(ui, words, scale.px(40.0), scene.ink());
    let prepared = |step: &DayStep<'_>| {
        step.is_barrier() || matches!(step.work, Work::SetAnew { .. } | Work::Insert { .. })
    };
    if let Some((far, step)) = open.find(|(_, step)| prepared(step)) {
        let numbers = &[("steps", far - at)];
        let words = scene.counted("surgery-ahead", numbers, &[("step", &said(scene, step))]);
        line(ui, words, scale.px(36.0), scene.soft());
    }
}

/// A step with its slot and setting, where it has them.
fn said(scene: &Scene<'_>, step: &DayStep<'_>) -> String {
    let name = begin(&scene.formatter.day_step(&step.key));
    let Some(drill) = step.drill() else {
        return name;
    };
    let kit = &scene.document.case().kit;
    let figure = Actionable::of_item(drill.item).and_then(|one| one.figure(kit).large());
    let set = figure.map_or_else(
        || scene.word("setting-none"),
        |figure| scene.formatter.set_length_with_unit(&Known::Is(figure)),
    );
    let args = [
        ("step", &*name),
        ("slot", &*scene.formatter.slot(drill.item)),
        ("set", &*set),
    ];
    scene.text("surgery-then-drill", &args)
}

/// Shows the arch, the site of the step larger and filled.
pub(super) fn arch_ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    scene: &Scene<'_>,
    step: &DayStep<'_>,
) {
    let scale = scene.scale;
    let case = scene.document.case();
    let here = step.site().cloned();
    let looks: Vec<SiteLook> = case
        .sites
        .iter()
        .map(|site| {
            let mut open = scene.day.open_from(0);
            if here.as_ref() == Some(&site.id) {
                SiteLook::Here
            } else if open.any(|(_, step)| step.site() == Some(&site.id)) {
                SiteLook::Open
            } else {
                SiteLook::Over
            }
        })
        .collect();
    let texts = scene.formatter.texts;
    let notation = scene.formatter.notation;
    let draw = || {
        let look = |id: &traywright_core::kit::SiteId| {
            let at = case.sites.iter().position(|site| site.id == *id);
            at.map_or(SiteLook::Over, |at| looks[at])
        };
        arch_from_afar(case, (notation, texts), WIDTH, &look)
    };
    let state = (scene.document.generation(), notation, looks.clone());
    let cached = cx.state.drawings.drawing("surgery arch", state, draw);
    let size = vec2(
        ui.available_width(),
        (ui.available_height() * 0.8).max(scale.px(80.0)),
    );
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let fits = Rect::from_min_size(rect.min, size);
    let camera = Camera::fitting(cached.bounds, fits, scale.per_mm(PER_MM));
    cached.paint(ui, camera);
    cached.describe(ui, response.id, rect, &scene.word("surgery-arch"));
    line(
        ui,
        scene.word("surgery-as-you-face"),
        scale.px(28.0),
        scene.soft(),
    );
}
