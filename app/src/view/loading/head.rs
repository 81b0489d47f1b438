//! The line at the top: which case, which stage, who works, how far; and that it is practice, where it is.

use super::scale::{line, strong, surface};
use super::scene::Scene;
use super::session::Phase;
use egui::{Align, Layout, Ui, vec2};
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
        ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Extend);
        let fingerprint = worksheet.fingerprint.to_string();
        if running {
            let stage = scene.word(short_id(scene.session.stage));
            let who = scene.session.first.iter().map(|who| format!(" · {who}"));
            let stage = begin(&stage) + &who.collect::<String>();
            strong(ui, stage, scale.px(44.0), theme.fill(Ink::Strong));
            ui.add_space(scale.px(16.0));
        }
        let words = scene.text(
            "loading-head",
            &[
                ("jaw", &scene.formatter.jaw()),
                ("case", &worksheet.reference),
                ("fingerprint", &fingerprint),
            ],
        );
        line(ui, words, scale.px(26.0), theme.fill(Ink::Soft));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if running {
                let (done, all) = scene.session.progress(scene.board);
                let counts = &[("done", done), ("all", all)];
                let words = scene.counted("loading-progress", counts, &[]);
                strong(ui, words, scale.px(36.0), theme.fill(Ink::Strong));
                ui.add_space(scale.px(24.0));
            }
            if !worksheet.demonstration && !scene.is_approved() {
                let words = scene.word("loading-not-approved");
                strong(ui, words, scale.px(36.0), theme.fault());
            }
            if worksheet.demonstration {
                let words = scene.word("loading-practice");
                strong(ui, words, scale.px(36.0), theme.fault());
            }
        });
    });
    if running {
        bar(ui, scene);
    }
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
