//! The line at the top: which case, which stage, who works, how far; and that it is practice, where it is.

use super::scale::{line, strong, surface};
use super::scene::Scene;
use super::session::Phase;
use egui::{Align, Layout, TextWrapMode, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::sign::Stage;
use traywright_core::wording::begin;

/// The id of a stage's name in a word or two.
const fn short_id(stage: Stage) -> &'static str {
    match stage {
        Stage::Bench => "loading-stage-bench-short",
        Stage::SterileField => "loading-stage-sterile-short",
        Stage::AfterUse => "loading-stage-after",
    }
}

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let worksheet = scene.worksheet();
    let running = matches!(scene.session.phase, Phase::Gauge | Phase::Load);
    ui.horizontal(|ui| {
        ui.style_mut().wrap_mode = Some(TextWrapMode::Extend);
        if running {
            let stage = scene.word(short_id(scene.session.stage));
            let who = scene.session.first.iter().map(|who| format!(" · {who}"));
            let stage = begin(&stage) + &who.collect::<String>();
            strong(ui, stage, scale.px(44.0), theme.fill(Ink::Strong));
            ui.add_space(scale.px(16.0));
        }
        // What stands at the right comes first: what is left of the line is the case's, on two lines where it has to be.
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if worksheet.demonstration {
                let words = scene.word("loading-practice");
                strong(ui, words, scale.px(36.0), theme.fault());
            } else if !scene.is_approved() {
                let words = scene.word("loading-not-approved");
                strong(ui, words, scale.px(36.0), theme.fault());
            }
            if running {
                ui.add_space(scale.px(24.0));
                strong(ui, progress(scene), scale.px(36.0), theme.fill(Ink::Strong));
            }
            ui.add_space(scale.px(16.0));
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.style_mut().wrap_mode = Some(TextWrapMode::Wrap);
                let fingerprint = worksheet.fingerprint.to_string();
                let args = [
                    ("jaw", &*scene.formatter.jaw()),
                    ("case", &*worksheet.reference),
                    ("fingerprint", &*fingerprint),
                ];
                let words = scene.text("loading-head", &args);
                line(ui, words, scale.px(26.0), theme.fill(Ink::Soft));
            });
        });
    });
    if running {
        bar(ui, scene);
    }
}

/// Number of things that are done, and of those that lie there and are not.
fn progress(scene: &Scene<'_>) -> String {
    let (done, all) = scene.session.progress(scene.board);
    let laid = scene.board.tasks.iter().filter(|task| !task.is_anew());
    let undone = laid.filter(|task| task.lies().is_some() && scene.session.now(task).is_due());
    let undone = undone.count();
    let id = if undone > 0 {
        "loading-progress-undone"
    } else {
        "loading-progress"
    };
    let counts = &[("done", done), ("all", all), ("undone", undone)];
    let counts = if undone > 0 {
        &counts[..]
    } else {
        &counts[..2]
    };
    scene.counted(id, counts, &[])
}

/// Progress as a bar. The words beside it say the same.
fn bar(ui: &mut Ui, scene: &Scene<'_>) {
    let (done, all) = scene.session.progress(scene.board);
    let size = vec2(ui.available_width(), scene.scale.px(9.0));
    let rect = surface(ui, size, "");
    #[expect(clippy::cast_precision_loss, reason = "some hundred things at most")]
    let share = done as f32 / all.max(1) as f32;
    let painter = ui.painter();
    painter.rect_filled(rect, 0.0, scene.theme.fill(Ink::Hairline));
    let mut part = rect;
    part.set_width(rect.width() * share);
    painter.rect_filled(part, 0.0, scene.theme.fill(Ink::Accent));
}
