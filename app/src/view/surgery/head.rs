//! The line at the top: which case, who records, how far, since when; and that it is practice, where it is.

use super::scene::Scene;
use super::why::Stop;
use crate::view::loading::scale::{line, strong, surface};
use egui::{Align, Layout, TextWrapMode, Ui, vec2};
use jiff::SignedDuration;
use traywright_core::drawing::Ink;
use traywright_core::surgery::State;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, stop: Option<&Stop>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let worksheet = scene.worksheet();
    let fingerprint = worksheet.fingerprint.to_string();
    let args = [
        ("jaw", &*scene.formatter.jaw()),
        ("case", &*worksheet.reference),
        ("fingerprint", &*fingerprint),
    ];
    ui.horizontal(|ui| {
        ui.style_mut().wrap_mode = Some(TextWrapMode::Extend);
        strong(ui, scene.word("view-surgery"), scale.px(40.0), scene.ink());
        if let Some(who) = &scene.doing.who {
            line(ui, who.as_str(), scale.px(34.0), scene.ink());
        }
        let told = if worksheet.demonstration {
            Some("loading-practice")
        } else if scene.is_approved() {
            None
        } else {
            Some("loading-not-approved")
        };
        if let Some(id) = told {
            strong(ui, scene.word(id), scale.px(34.0), theme.fault());
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if let Some(words) = progress(scene) {
                strong(ui, words, scale.px(40.0), scene.ink());
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.style_mut().wrap_mode = Some(TextWrapMode::Truncate);
                line(
                    ui,
                    scene.text("surgery-head", &args),
                    scale.px(26.0),
                    scene.soft(),
                );
            });
        });
    });
    if scene.day.begun.is_some() {
        strip(ui, scene);
    }
    if let Some(words) = scene.abandoned_open(stop) {
        strong(ui, words, scale.px(36.0), theme.fault());
    }
}

/// The step that is shown and the time since surgery was begun.
fn progress(scene: &Scene<'_>) -> Option<String> {
    let begun = scene.day.begun?;
    let all = scene.day.steps.len();
    let elapsed = scene.now.duration_since(begun.at);
    let elapsed = clock(elapsed.max(SignedDuration::ZERO));
    let time = [("elapsed", elapsed.as_str())];
    Some(match scene.step() {
        Some((at, _)) => scene.counted("surgery-progress", &[("at", at + 1), ("all", all)], &time),
        None => scene.text("surgery-progress-over", &time),
    })
}

/// Hours, minutes and seconds.
fn clock(elapsed: SignedDuration) -> String {
    let seconds = elapsed.as_secs();
    let day = 24 * 60 * 60;
    let of_day = i32::try_from(seconds % day).unwrap_or_default();
    let midnight = jiff::civil::DateTime::constant(2000, 1, 1, 0, 0, 0, 0);
    let time = midnight.saturating_add(SignedDuration::from_secs(i64::from(of_day)));
    let time = time.strftime("%H:%M:%S").to_string();
    match seconds / day {
        0 => time,
        days => format!("{days} × 24 h + {time}"),
    }
}

/// A box for each step: over, left out, shown, to come. The words beside it and the list say the same.
fn strip(ui: &mut Ui, scene: &Scene<'_>) {
    let scale = scene.scale;
    let size = vec2(ui.available_width(), scale.px(22.0));
    let rect = surface(ui, size, "");
    let steps = &scene.day.steps;
    #[expect(clippy::cast_precision_loss, reason = "some hundred steps at most")]
    let each = rect.width() / steps.len().max(1) as f32;
    let here = scene.doing.at(scene.day);
    let painter = ui.painter();
    for (at, step) in steps.iter().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "some hundred steps at most")]
        let left = rect.left() + at as f32 * each;
        let one = egui::Rect::from_min_size(
            egui::pos2(left, rect.top()),
            vec2((each - scale.px(4.0)).max(1.0), rect.height()),
        );
        let fill = match step.state {
            _ if here == Some(at) => Ink::Accent,
            State::Done(_) | State::Set => Ink::Strong,
            State::Skipped(_) => Ink::Tight,
            State::Off(..) | State::Amiss(_) => Ink::Short,
            State::Open => Ink::Tooth,
        };
        let edge = egui::Stroke::new(1.0, scene.ink());
        painter.rect(
            one,
            2.0,
            scene.theme.fill(fill),
            edge,
            egui::StrokeKind::Inside,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_time_since_is_shown_as_a_clock() {
        for (seconds, want) in [
            (0, "00:00:00"),
            (2467, "00:41:07"),
            (90_061, "1 × 24 h + 01:01:01"),
        ] {
            assert_eq!(clock(SignedDuration::from_secs(seconds)), want);
        }
    }
}
