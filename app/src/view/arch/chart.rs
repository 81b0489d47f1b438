//! The chart on the screen: its place, and the input to it.

use super::pick::{Picked, picked};
use super::{keys, pointer};
use crate::canvas::Camera;
use crate::desk::Document;
use crate::look::row::focus_frame;
use crate::look::{Font, Theme};
use crate::view::arch::Context;
use egui::{Align2, Color32, Galley, Pos2, Rect, Sense, Stroke, Ui, UiBuilder, Vec2, vec2};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;
use traywright_core::charts::{ArchFrame, ArchOptions, ArchSelection, arch_frame};
use traywright_core::dentition::Side;
use traywright_core::drawing::Ink;
use traywright_core::measure::Length;
use traywright_core::plan::Finding;
use traywright_core::wording::mm;

/// Points of the screen for a millimetre of the chart: its remarks (8 pt) are then 13 points high.
const PER_MM: f32 = 4.6;

/// Least and greatest zoom.
const ZOOM: (f32, f32) = (0.6, 8.0);

/// The part of the chart that is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Viewport {
    /// 1: the whole chart as large as the room.
    pub(super) zoom: f32,
    /// Offset of its corner from that of the room.
    pub(super) corner: Vec2,
}

impl Default for Viewport {
    fn default() -> Self {
        Self {
            zoom: 1.0,
            corner: Vec2::ZERO,
        }
    }
}

impl Viewport {
    pub(super) fn camera(self, room: Rect) -> Camera {
        Camera {
            origin: room.min + self.corner,
            per_mm: PER_MM * self.zoom,
        }
    }

    /// Closer by a factor about a place of the room.
    pub(super) fn closer(&mut self, room: Rect, about: Pos2, factor: f32) {
        let zoom = (self.zoom * factor).clamp(ZOOM.0, ZOOM.1);
        let camera = self.camera(room).zoomed(about, zoom / self.zoom);
        self.zoom = zoom;
        self.corner = camera.origin - room.min;
        self.keep_in_sight(room);
    }

    /// Moved by so much.
    pub(super) fn moved(&mut self, room: Rect, by: Vec2) {
        self.corner += by;
        self.keep_in_sight(room);
    }

    /// Some of the chart stays in the room.
    fn keep_in_sight(&mut self, room: Rect) {
        let size = room.size() * self.zoom;
        let least = vec2(80.0, 80.0) - size;
        self.corner = self.corner.clamp(least, room.size() - vec2(80.0, 80.0));
    }
}

/// Shows the chart in what is left of the room.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    // While something is held nothing moves but that, whatever the rest of the window does.
    let held = cx
        .own
        .room
        .filter(|_| cx.own.drag.is_some() || cx.own.nudging);
    let room = held.unwrap_or_else(|| ui.available_rect_before_wrap());
    let response = ui.allocate_rect(room, Sense::click_and_drag());
    cx.own.room = Some(room);
    let (key, frame) = framed(cx, document, room);
    let camera = cx.own.viewport.camera(room);
    let is_part = camera.per_mm > PER_MM || cx.own.viewport.corner != Vec2::ZERO;
    let around = is_part.then(|| Around::of(ui, cx, &frame, camera.per_mm, room));
    let seen = around.as_ref().map_or(room, |around| around.seen);
    let mut inside = ui.new_child(UiBuilder::new().max_rect(room));
    inside.set_clip_rect(seen.intersect(ui.clip_rect()));
    let name = cx.word("arch-chart");
    let drawings = &mut cx.state.drawings;
    let cached = drawings.drawing("arch", key, || frame.drawing.clone());
    cached.paint(&inside, camera);
    cached.describe(ui, response.id, room, &name);
    if let Some(around) = around {
        around.paint(ui);
    }
    if response.has_focus() {
        focus_frame(ui, room);
    }
    keys::handle(ui, cx, &response, &frame, room);
    pointer::handle(ui, cx, &response, &frame, (room, seen));
}

/// Room between what stands around a chart and the edge, points, and between it and the chart.
const EDGE: f32 = 8.0;
const APART: f32 = 4.0;
/// Width of the line of the ruler, points.
const RULER: f32 = 2.0;

/// The sides, the jaw and the ruler of a chart of which a part is seen: on the edges of the room, whatever part it is.
/// What is seen of the chart lies within them, so that none of its words is under them.
struct Around {
    words: Vec<(Pos2, Arc<Galley>)>,
    /// The ruler, from left to right.
    ruler: Option<[Pos2; 2]>,
    /// The room that is left for the chart.
    seen: Rect,
    ink: Color32,
}

impl Around {
    fn of(ui: &Ui, cx: &Context<'_>, frame: &ArchFrame, per_mm: f32, room: Rect) -> Self {
        let ink = Theme::of(ui).fill(Ink::Strong);
        let inner = room.shrink(EDGE);
        let (mut words, mut seen) = (Vec::new(), inner);
        let mut write = |at: Pos2, align: Align2, text: String, font: Font| {
            let galley = ui.painter().layout_no_wrap(text, font.id(), ink);
            let rect = align.anchor_size(at, galley.size());
            words.push((rect.min, galley));
            rect
        };
        for (side, at, align) in [
            (Side::Right, inner.left_center(), Align2::LEFT_CENTER),
            (Side::Left, inner.right_center(), Align2::RIGHT_CENTER),
        ] {
            let rect = write(at, align, cx.word(side.letter_id()), Font::Title);
            match side {
                Side::Right => seen.min.x = rect.right() + APART,
                Side::Left => seen.max.x = rect.left() - APART,
            }
        }
        let jaw = cx.document.case().jaw;
        let jaw = cx.own.arches.caption(jaw, cx.formatter().texts);
        let jaw = write(inner.center_top(), Align2::CENTER_TOP, jaw, Font::Caption);
        seen.min.y = jaw.bottom() + APART;
        let ruler = frame.scale_of_mouth().map(|scale| {
            #[expect(clippy::cast_possible_truncation, reason = "a length on the screen")]
            let long = 10.0 * scale as f32 * per_mm;
            let from = inner.left_bottom();
            let text = mm(Length::from_mm(10));
            let at = from - vec2(0.0, APART);
            let rect = write(at, Align2::LEFT_BOTTOM, text, Font::Caption);
            seen.max.y = rect.top() - APART;
            [from, from + vec2(long, 0.0)]
        });
        Self {
            words,
            ruler,
            seen,
            ink,
        }
    }

    fn paint(self, ui: &Ui) {
        let painter = ui.painter();
        for (at, galley) in self.words {
            painter.galley(at, galley, self.ink);
        }
        if let Some([from, to]) = self.ruler {
            let stroke = Stroke::new(RULER, self.ink);
            painter.hline(from.x..=to.x, from.y, stroke);
        }
    }
}

/// The chart for what is to be seen, made anew only where that changed, and what it was made for.
fn framed(cx: &mut Context<'_>, document: &Document, room: Rect) -> (u64, Arc<ArchFrame>) {
    let notation = cx.desk.settings.notation;
    let arches = cx.own.arches;
    let size = room.size() / PER_MM;
    let seen = picked(cx);
    let chosen = match &seen {
        Picked::Site(site, _) => Some(ArchSelection::Site(&site.id)),
        Picked::Tooth(position) => Some(ArchSelection::Tooth(*position)),
        Picked::Pin(pin) => Some(ArchSelection::Pin(pin.name.as_str())),
        Picked::Nothing => None,
    };
    let mut hasher = DefaultHasher::new();
    (document.generation(), notation, arches).hash(&mut hasher);
    (size.x.to_bits(), size.y.to_bits()).hash(&mut hasher);
    match chosen {
        None => 0_u8.hash(&mut hasher),
        Some(ArchSelection::Site(id)) => (1_u8, id).hash(&mut hasher),
        Some(ArchSelection::Tooth(position)) => (2_u8, position).hash(&mut hasher),
        Some(ArchSelection::Pin(name)) => (3_u8, name).hash(&mut hasher),
    }
    let key = hasher.finish();
    if let Some((of, frame)) = &cx.own.frame
        && *of == key
    {
        return (key, Arc::clone(frame));
    }
    let formatter = document.formatter(notation);
    let headline = |finding: &Finding| formatter.finding(finding).headline;
    let options = ArchOptions {
        width_mm: f64::from(size.x),
        height_mm: Some(f64::from(size.y)),
        notation,
        texts: cx.desk.texts,
        headline: &headline,
        arches,
        chosen,
    };
    let frame = arch_frame(document.case(), document.worksheet(), &options);
    let frame = Arc::new(frame);
    cx.own.frame = Some((key, Arc::clone(&frame)));
    (key, frame)
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn looking_closer_and_away_again_leaves_the_chart_where_it_was() {
        let room = Rect::from_min_size(pos2(20.0, 60.0), vec2(800.0, 600.0));
        let mut viewport = Viewport::default();
        viewport.closer(room, pos2(300.0, 200.0), 2.0);
        assert!((viewport.zoom - 2.0).abs() < 1e-6);
        viewport.closer(room, pos2(300.0, 200.0), 0.5);
        assert!(viewport.corner.length() < 1e-3, "{:?}", viewport.corner);
    }

    #[test]
    fn the_chart_cannot_be_lost_out_of_sight() {
        let room = Rect::from_min_size(pos2(20.0, 60.0), vec2(800.0, 600.0));
        let mut viewport = Viewport::default();
        viewport.moved(room, vec2(9_000.0, -9_000.0));
        assert_eq!(viewport.corner, vec2(720.0, -520.0));
        for _ in 0..40 {
            viewport.closer(room, room.center(), 1.3);
        }
        assert!((viewport.zoom - ZOOM.1).abs() < 1e-6);
    }
}
