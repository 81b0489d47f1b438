//! Sizes of what is read standing: for a window of 1920 by 1080 points, and in proportion for others.
//!
//! Inter's capitals are 0.727 of its size high, so that [`Scale::big`] has capitals of 48 points.

use crate::look::{Theme, bold};
use egui::text::{LayoutJob, TextFormat};
use egui::{
    Button, Color32, FontId, Label, Response, RichText, Role, Sense, Stroke, Ui, WidgetInfo, vec2,
};
use traywright_core::drawing::Ink;

/// Size of everything.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::view) struct Scale(f32);

/// The purpose of a target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::view) enum Weight {
    /// The one thing to do next.
    Main,
    /// Anything else.
    Other,
    /// One of many in a row.
    Small,
}

impl Scale {
    /// The largest at which all fits into a window of this size.
    pub(in crate::view) fn of(window: egui::Vec2) -> Self {
        Self((window.x / 1920.0).min(window.y / 1080.0).clamp(0.4, 3.0))
    }

    /// So many points of a window of 1920 by 1080, whole ones.
    pub(in crate::view) fn px(self, points: f32) -> f32 {
        (points * self.0).round()
    }

    /// So many points for a millimetre of a drawing, not rounded: rounded to whole ones a larger window
    /// could have fewer millimetres of room than a smaller one, and its drawing show less.
    pub(in crate::view) fn per_mm(self, points: f32) -> f32 {
        points * self.0
    }

    /// The figure that a hand acts on.
    pub(in crate::view) fn figure(self) -> f32 {
        self.px(170.0)
    }

    /// Capitals and figures that matter.
    pub(in crate::view) fn big(self) -> f32 {
        self.px(66.0)
    }

    /// Sentences that say what to do: their capitals are read from 1.5 m in a window of 1920 by 1080 points at 96 to the
    /// inch, 0.0064 of the distance high; from 1 m at 1280 by 800.
    pub(in crate::view) fn told(self) -> f32 {
        self.px(50.0)
    }

    /// Text that helps.
    pub(in crate::view) fn text(self) -> f32 {
        self.px(34.0)
    }

    /// Text that only an eye close by needs.
    pub(in crate::view) fn small(self) -> f32 {
        self.px(26.0)
    }

    /// Least height of a target.
    pub(in crate::view) fn target(self) -> f32 {
        self.px(78.0)
    }
}

/// A line or paragraph.
pub(in crate::view) fn line(
    ui: &mut Ui,
    text: impl Into<String>,
    size: f32,
    colour: Color32,
) -> Response {
    ui.add(Label::new(RichText::new(text).size(size).color(colour)))
}

/// The same in bold.
pub(in crate::view) fn strong(
    ui: &mut Ui,
    text: impl Into<String>,
    size: f32,
    colour: Color32,
) -> Response {
    let text = RichText::new(text)
        .font(FontId::new(size, bold()))
        .color(colour);
    ui.add(Label::new(text))
}

/// A target with the key that does the same.
pub(in crate::view) fn target(
    ui: &mut Ui,
    scale: Scale,
    (text, key): (&str, &str),
    weight: Weight,
    width: f32,
) -> Response {
    let theme = Theme::of(ui);
    let (ground, ink, soft) = match weight {
        Weight::Main => (Ink::Strong, Ink::Ground, Ink::Ground),
        Weight::Other | Weight::Small => (Ink::Tooth, Ink::Strong, Ink::Soft),
    };
    let mut job = LayoutJob::default();
    let size = match weight {
        Weight::Main => scale.px(44.0),
        Weight::Other => scale.text(),
        Weight::Small => scale.px(29.0),
    };
    job.append(text, 0.0, format(size, bold(), theme.fill(ink)));
    if !key.is_empty() {
        let hint = format(
            scale.small(),
            egui::FontFamily::Proportional,
            theme.fill(soft),
        );
        job.append(key, scale.px(14.0), hint);
    }
    let said = text.to_owned();
    let button = Button::new(job)
        .fill(theme.fill(ground))
        .stroke(Stroke::new(1.0, theme.fill(Ink::Strong)))
        .min_size(vec2(width, scale.target()));
    let response = if width > 0.0 {
        ui.add_sized(vec2(width, scale.target()), button)
    } else {
        ui.add(button)
    };
    // The key is told by itself, so that the name is the words alone.
    let enabled = response.enabled();
    response.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, &said));
    response
}

fn format(size: f32, family: egui::FontFamily, color: Color32) -> TextFormat {
    TextFormat {
        font_id: FontId::new(size, family),
        color,
        valign: egui::Align::Center,
        ..Default::default()
    }
}

/// A rectangle as a surface that something is painted on, with what it says.
pub(in crate::view) fn surface(ui: &mut Ui, size: egui::Vec2, said: &str) -> egui::Rect {
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, said));
    rect
}

#[cfg(test)]
mod tests {
    use super::*;

    /// With 4.6 points for a millimetre, rounded, 1280 by 800 had 3 and 1920 by 1080 had 5.
    #[test]
    fn a_larger_window_has_no_fewer_millimetres_for_a_drawing() {
        let room = |width: f32, height: f32| {
            let scale = Scale::of(vec2(width, height));
            scale.px(720.0) / scale.per_mm(4.6)
        };
        let windows = [
            (800.0, 560.0),
            (1280.0, 800.0),
            (1920.0, 1080.0),
            (3840.0, 2160.0),
        ];
        for pair in windows.windows(2) {
            let (small, large) = (room(pair[0].0, pair[0].1), room(pair[1].0, pair[1].1));
            assert!(
                large >= small * 0.999,
                "{small} mm, then {large} mm at {pair:?}"
            );
        }
    }
}
