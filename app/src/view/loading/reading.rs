//! A figure as it is typed, and the keypad.

use super::keys::{self, Pressed};
use super::scale::Weight;
use super::scene::Brush;
use super::session::Input;
use crate::look::bold;
use egui::{
    Align2, Button, FontId, RichText, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2,
};
use traywright_core::drawing::Ink;

/// The box with what the gauge shows, as it is typed.
pub(super) fn typed_box(ui: &mut Ui, brush: Brush, typed: &str) {
    let names = [brush.word("loading-typed"), brush.word("loading-mm")];
    figure_box(ui, brush, (&names[0], &names[1]), typed);
}

/// The box with a figure as it is typed, by its name and its unit.
pub(in crate::view) fn figure_box(
    ui: &mut Ui,
    brush: Brush,
    (label, unit_name): (&str, &str),
    typed: &str,
) {
    let (scale, theme) = (brush.scale, brush.theme);
    let size = vec2(scale.px(520.0).min(ui.available_width()), scale.px(140.0));
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::TextInput, true, label);
        info.current_text_value = Some(typed.to_owned());
        info
    });
    let accent = Stroke::new(scale.px(4.0), theme.fill(Ink::Accent));
    let painter = ui.painter();
    painter.rect(
        rect,
        4.0,
        theme.fill(Ink::Tooth),
        accent,
        StrokeKind::Inside,
    );
    let start = rect.left_center() + vec2(scale.px(26.0), 0.0);
    let font = FontId::new(scale.px(92.0), bold());
    let written = painter.text(
        start,
        Align2::LEFT_CENTER,
        typed,
        font,
        theme.fill(Ink::Strong),
    );
    let x = if typed.is_empty() {
        start.x
    } else {
        written.right() + scale.px(8.0)
    };
    let span = (rect.top() + scale.px(22.0))..=(rect.bottom() - scale.px(22.0));
    painter.vline(x, span, accent);
    let unit = FontId::proportional(scale.px(44.0));
    let end = rect.right_center() - vec2(scale.px(24.0), 0.0);
    let ink = theme.fill(Ink::Soft);
    painter.text(end, Align2::RIGHT_CENTER, unit_name, unit, ink);
}

/// The keypad: digits, decimal mark, back, enter.
pub(in crate::view) fn keypad(ui: &mut Ui, brush: Brush, width: f32, out: &mut Vec<Pressed>) {
    let scale = brush.scale;
    let gap = scale.px(14.0);
    let side = (width - 3.0 * gap) / 4.0;
    let height = scale.px(104.0);
    let back = keys::shown(&Pressed::Input(Input::Back));
    let rows: [[(String, String, Input); 3]; 4] = [
        [7, 8, 9].map(digit),
        [4, 5, 6].map(digit),
        [1, 2, 3].map(digit),
        [
            (".".to_owned(), brush.word("loading-key-mark"), Input::Mark),
            digit(0),
            (back.to_owned(), brush.word("loading-key-back"), Input::Back),
        ],
    ];
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing = vec2(gap, gap);
        ui.vertical(|ui| {
            ui.set_width(3.0 * side + 2.0 * gap);
            for row in rows {
                ui.horizontal(|ui| {
                    for (sign, name, input) in row {
                        if key(ui, brush, (&sign, &name), Weight::Other, vec2(side, height)) {
                            out.push(Pressed::Input(input));
                        }
                    }
                });
            }
        });
        let tall = vec2(side, 4.0 * height + 3.0 * gap);
        let enter = brush.word("loading-enter");
        if key(ui, brush, (&enter, &enter), Weight::Main, tall) {
            out.push(Pressed::Input(Input::Enter));
        }
    });
}

fn digit(digit: u8) -> (String, String, Input) {
    (digit.to_string(), digit.to_string(), Input::Digit(digit))
}

fn key(
    ui: &mut Ui,
    brush: Brush,
    (sign, name): (&str, &str),
    weight: Weight,
    size: egui::Vec2,
) -> bool {
    let (scale, theme) = (brush.scale, brush.theme);
    let (ground, ink, points) = match weight {
        Weight::Main => (Ink::Strong, Ink::Ground, 44.0),
        _ => (Ink::Tooth, Ink::Strong, 66.0),
    };
    let text = RichText::new(sign)
        .font(FontId::new(scale.px(points), bold()))
        .color(theme.fill(ink));
    let button = Button::new(text)
        .fill(theme.fill(ground))
        .stroke(Stroke::new(1.0, theme.fill(Ink::Strong)))
        .min_size(size);
    let response = ui.add_sized(size, button);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    response.clicked()
}
