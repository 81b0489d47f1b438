//! The line at the top: which case, which stage, who works, how far; and that it is practice, where it is.

use super::scale::{line, strong, surface};
use super::scene::Scene;
use super::session::Phase;
use crate::look::bold;
use egui::{Align, FontId, Layout, TextWrapMode, Ui, vec2};
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
    let mut beside = Vec::new();
    if worksheet.demonstration {
        beside.push((scene.word("loading-practice"), theme.fault()));
    } else if !scene.is_approved() {
        beside.push((scene.word("loading-not-approved"), theme.fault()));
    }
    if running {
        beside.push((progress(scene), theme.fill(Ink::Strong)));
    }
    let fingerprint = worksheet.fingerprint.to_string();
    let args = [
        ("jaw", &*scene.formatter.jaw()),
        ("case", &*worksheet.reference),
        ("fingerprint", &*fingerprint),
    ];
    let case = scene.text("loading-head", &args);
    let stage = running.then(|| {
        let stage = scene.word(short_id(scene.session.stage));
        let who = scene.session.first.iter().map(|who| format!(" · {who}"));
        begin(&stage) + &who.collect::<String>()
    });
    let width = |words: &str, font: FontId| {
        let painter = ui.painter();
        let words = painter.layout_no_wrap(words.to_owned(), font, theme.fill(Ink::Strong));
        words.size().x + scale.px(24.0) + ui.spacing().item_spacing.x
    };
    let large = |words: &str| width(words, FontId::new(scale.px(36.0), bold()));
    let right: f32 = beside.iter().map(|(words, _)| large(words)).sum();
    let left = stage.as_deref();
    let left = left.map_or(0.0, |words| {
        width(words, FontId::new(scale.px(44.0), bold()))
    });
    // The case stands on two lines where it has to, and not on more.
    let whole = width(&case, FontId::proportional(scale.px(26.0)));
    let apart = left + right + whole * 0.6 > ui.available_width();
    ui.horizontal(|ui| {
        ui.style_mut().wrap_mode = Some(TextWrapMode::Extend);
        if let Some(stage) = stage {
            strong(ui, stage, scale.px(44.0), theme.fill(Ink::Strong));
            ui.add_space(scale.px(16.0));
        }
        // What stands at the right comes first: what is left of the line is the case's.
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let here = beside.iter().filter(|_| !apart);
            for (words, colour) in here {
                strong(ui, words, scale.px(36.0), *colour);
                ui.add_space(scale.px(24.0));
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.style_mut().wrap_mode = Some(TextWrapMode::Wrap);
                line(ui, case, scale.px(26.0), theme.fill(Ink::Soft));
            });
        });
    });
    if apart {
        ui.horizontal_wrapped(|ui| {
            for (words, colour) in beside.iter().rev() {
                strong(ui, words, scale.px(36.0), *colour);
                ui.add_space(scale.px(24.0));
            }
        });
    }
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
