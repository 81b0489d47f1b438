//! The steps that the thing in hand takes, the one that is due now in the middle of the eye.

use super::scale::surface;
use super::scene::Scene;
use super::session::{Now, Step};
use super::task::Task;
use crate::look::bold;
use egui::{FontId, Stroke, StrokeKind, Ui, vec2};
use traywright_core::drawing::Ink;

/// The id of a step's name.
const fn step_id(step: Step) -> &'static str {
    match step {
        Step::Take => "loading-step-take",
        Step::Set => "loading-step-set",
        Step::Lock => "loading-step-lock",
        Step::Tug => "loading-step-tug",
        Step::Read | Step::SetAndRead => "loading-step-read",
        Step::Place | Step::Lay => "loading-step-place",
    }
}

/// Shows them.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task) {
    let (scale, theme) = (scene.scale, scene.theme);
    let now = scene.session.now(task);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(scale.px(10.0), scale.px(8.0));
        for step in scene.session.way(task) {
            let state = match now {
                Now::Do(Step::SetAndRead) | Now::NoSlot if *step == Step::Place => State::Ahead,
                Now::Do(Step::SetAndRead | Step::Lay) => State::Due,
                Now::Do(due) if due == *step => State::Due,
                Now::Do(due) if due < *step => State::Ahead,
                Now::Later | Now::NoneLeft | Now::Unasked(_) => State::Ahead,
                _ => State::Done,
            };
            let name = scene.word(step_id(*step));
            let (ground, ink, said) = match state {
                State::Due => (Ink::Strong, Ink::Ground, "loading-step-due"),
                State::Done => (Ink::Shade, Ink::Strong, "loading-step-done"),
                State::Ahead => (Ink::Tooth, Ink::Soft, "loading-step-ahead"),
            };
            let colour = theme.fill(ink);
            let font = FontId::new(scale.px(30.0), bold());
            let galley = ui.painter().layout_no_wrap(name.clone(), font, colour);
            let size = vec2(galley.size().x + scale.px(36.0), scale.px(56.0));
            let said = scene.text(said, &[("step", &name)]);
            let rect = surface(ui, size, &said);
            let edge = Stroke::new(1.0, theme.fill(Ink::Soft));
            let painter = ui.painter();
            painter.rect(rect, 4.0, theme.fill(ground), edge, StrokeKind::Inside);
            painter.galley(rect.center() - galley.size() / 2.0, galley, colour);
        }
    });
}

enum State {
    Done,
    Due,
    Ahead,
}
