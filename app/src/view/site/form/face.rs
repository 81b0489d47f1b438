//! A small drawing of the sleeve over the implant, on which the face of the distance is picked.

use crate::look::{Font, Theme};
use crate::view::site::Context;
use crate::view::site::here::Here;
use egui::{Align2, Id, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use traywright_core::case::SleeveFace;
use traywright_core::dentition::Jaw;
use traywright_core::drawing::Ink;

/// Size of the drawing, points.
const SIZE: egui::Vec2 = vec2(330.0, 128.0);
/// Heights within it from the coronal end, points: rim, lower face, platform, end.
const RIM: f32 = 20.0;
const LOWER: f32 = 62.0;
const PLATFORM: f32 = 104.0;
const END: f32 = 126.0;
/// Half of the height within which a face can be clicked, points.
const REACH: f32 = 19.0;

/// Places on the drawing: apical is down in the lower and up in the upper jaw, as on the section.
struct Frame {
    rect: Rect,
    upper: bool,
}

impl Frame {
    fn y(&self, from_coronal: f32) -> f32 {
        if self.upper {
            self.rect.bottom() - from_coronal
        } else {
            self.rect.top() + from_coronal
        }
    }

    fn part(&self, left: f32, width: f32, from: f32, to: f32) -> Rect {
        let left = self.rect.left() + left;
        Rect::from_two_pos(pos2(left, self.y(from)), pos2(left + width, self.y(to)))
    }
}

/// Shows the drawing; the face that was picked on it.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    here: &Here<'_>,
    chosen: Option<SleeveFace>,
) -> Option<SleeveFace> {
    let width = SIZE.x.min(ui.available_width());
    let (rect, _) = ui.allocate_exact_size(vec2(width, SIZE.y), Sense::hover());
    let frame = Frame {
        rect,
        upper: here.document.case().jaw == Jaw::Upper,
    };
    paint(ui, &frame);
    let mut picked = None;
    for (face, at, id) in [
        (SleeveFace::Coronal, RIM, "site-face-rim"),
        (SleeveFace::Apical, LOWER, "site-face-lower"),
    ] {
        let name = cx.word(id);
        if face_ui(ui, &frame, here, face, at, &name, chosen == Some(face)) {
            picked = Some(face);
        }
    }
    if let Some(face) = chosen {
        dimension(ui, &frame, face, &cx.word("site-face-platform"));
    }
    picked
}

/// The implant's top, the sleeve cut open, the guide around it.
fn paint(ui: &Ui, frame: &Frame) {
    let theme = Theme::of(ui);
    let painter = ui.painter();
    let block = |left, width, from, to, ink| {
        let line = Stroke::new(1.0, theme.line(ink));
        let part = frame.part(left, width, from, to);
        painter.rect(part, 0.0, theme.fill(ink), line, StrokeKind::Middle);
    };
    block(12.0, 34.0, RIM + 8.0, LOWER, Ink::Guide);
    block(104.0, 34.0, RIM + 8.0, LOWER, Ink::Guide);
    for left in [46.0, 92.0] {
        block(left, 12.0, RIM, LOWER, Ink::Metal);
    }
    for left in [40.0, 92.0] {
        block(left, 18.0, RIM, RIM + 8.0, Ink::Metal);
    }
    block(55.0, 40.0, PLATFORM, END, Ink::Implant);
    let axis = Stroke::new(0.75, theme.line(Ink::Soft));
    let middle = frame.rect.left() + 75.0;
    let ends = [pos2(middle, frame.y(4.0)), pos2(middle, frame.y(END))];
    painter.extend(egui::Shape::dashed_line(&ends, axis, 9.0, 3.0));
}

fn face_ui(
    ui: &mut Ui,
    frame: &Frame,
    here: &Here<'_>,
    face: SleeveFace,
    at: f32,
    name: &str,
    chosen: bool,
) -> bool {
    let width = frame.rect.width();
    let rect = frame.part(0.0, width, at - REACH, at + REACH);
    let id = Id::unique(("site face", here.site.id.as_str(), face));
    let response = ui.interact(rect, id, Sense::click());
    let enabled = ui.is_enabled();
    response.widget_info(|| WidgetInfo::selected(egui::Role::RadioButton, enabled, chosen, name));
    let theme = Theme::of(ui);
    let near = response.hovered() || response.has_focus();
    let ink = if chosen || near {
        Ink::Accent
    } else {
        Ink::Soft
    };
    let line = Stroke::new(if chosen { 3.0 } else { 1.5 }, theme.fill(ink));
    let (y, left) = (frame.y(at), frame.rect.left());
    let painter = ui.painter();
    for (from, to) in [(40.0, 58.0), (92.0, 110.0)] {
        painter.hline(left + from..=left + to, y, line);
    }
    let leader = Stroke::new(1.0, theme.fill(ink));
    painter.hline(left + 114.0..=left + 176.0, y, leader);
    // A ring, filled where this face is the one.
    let ring = pos2(left + 184.0, y);
    painter.circle_stroke(ring, 6.0, Stroke::new(1.5, theme.fill(ink)));
    if chosen {
        painter.circle_filled(ring, 3.5, theme.fill(ink));
    }
    let text = theme.fill(if chosen { Ink::Strong } else { Ink::Soft });
    let font = Font::Line.id();
    painter.text(
        ring + vec2(14.0, 0.0),
        Align2::LEFT_CENTER,
        name,
        font,
        text,
    );
    if response.has_focus() {
        let accent = Stroke::new(1.5, theme.fill(Ink::Accent));
        let around = rect.shrink(2.0).with_min_x(left + 170.0);
        painter.rect_stroke(around, 3.0, accent, StrokeKind::Inside);
    }
    response.clicked()
}

/// The way from the platform to the face.
fn dimension(ui: &Ui, frame: &Frame, face: SleeveFace, platform: &str) {
    let theme = Theme::of(ui);
    let x = frame.rect.left() + 156.0;
    let end = match face {
        SleeveFace::Coronal => RIM,
        SleeveFace::Apical => LOWER,
    };
    let (from, to) = (frame.y(PLATFORM), frame.y(end));
    let line = Stroke::new(1.0, theme.fill(Ink::Accent));
    let painter = ui.painter();
    painter.line_segment([pos2(x, from), pos2(x, to)], line);
    for y in [from, to] {
        painter.hline(x - 5.0..=x + 5.0, y, line);
    }
    let left = frame.rect.left();
    painter.hline(
        left + 99.0..=x - 8.0,
        from,
        Stroke::new(0.75, theme.fill(Ink::Soft)),
    );
    let text = theme.fill(Ink::Soft);
    let (place, font) = (pos2(x + 10.0, from), Font::Caption.id());
    painter.text(place, Align2::LEFT_CENTER, platform, font, text);
}
