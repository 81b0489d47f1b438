//! A drawing on the screen, kept as shapes, with the parts that can be pointed at.

use super::{Camera, shapes};
use crate::look::{Font, Theme};
use egui::accesskit::Role;
use egui::{Galley, Pos2, Rect, Shape, Ui, Vec2};
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;
use traywright_core::drawing::{Drawing, Ink, Item};

/// A part of a drawing that shows one thing of the case.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Its id, such as `site:3` or `tooth:46`.
    pub id: String,
    /// Its description in words.
    pub name: String,
    /// Its bounds, in the drawing's millimetres.
    pub bounds: traywright_core::drawing::Rect,
}

/// A drawing as shapes.
#[derive(Debug, Clone)]
pub struct CachedDrawing {
    /// Its parts, a part within another after it.
    pub parts: Vec<Part>,
    /// The rectangle around everything, in the drawing's millimetres.
    pub bounds: traywright_core::drawing::Rect,
    drawing: Drawing,
    /// At the origin of the screen, with the scale and theme that they were made for.
    shapes: Vec<Shape>,
    made_for: (u32, Theme),
    /// A text that the fonts keep for as long as the shapes' own texts are good: when they clear
    /// their atlas, letters that were laid out before would show others.
    laid_out: Option<Arc<Galley>>,
}

impl CachedDrawing {
    /// The cached form of a drawing, for a view that keeps it by itself.
    #[must_use]
    pub fn new(drawing: Drawing) -> Self {
        let mut parts = Vec::new();
        collect(drawing.items(), &mut parts);
        let nothing = traywright_core::drawing::at(0.0, 0.0);
        Self {
            parts,
            bounds: drawing
                .bounds()
                .unwrap_or(traywright_core::drawing::Rect::between(nothing, nothing)),
            drawing,
            shapes: Vec::new(),
            made_for: (0, Theme::default()),
            laid_out: None,
        }
    }

    /// Paints the drawing as a camera sees it.
    pub fn paint(&mut self, ui: &Ui, camera: Camera) {
        let theme = Theme::of(ui);
        let made_for = (camera.per_mm.to_bits(), theme);
        let laid_out = ui.painter().layout_no_wrap(
            "0".to_owned(),
            Font::Caption.id(),
            theme.fill(Ink::Strong),
        );
        let as_before = |before: &Arc<Galley>| Arc::ptr_eq(before, &laid_out);
        let fonts_as_before = self.laid_out.as_ref().is_some_and(as_before);
        if self.made_for != made_for || !fonts_as_before {
            let at_origin = Camera {
                origin: Pos2::ZERO,
                ..camera
            };
            self.shapes = shapes(&self.drawing, at_origin, theme, ui.painter());
            self.made_for = made_for;
            self.laid_out = Some(laid_out);
        }
        let way = round_to_pixel(camera.origin.to_vec2(), ui.pixels_per_point());
        for shape in &self.shapes {
            let mut shape = shape.clone();
            shape.translate(way);
            ui.painter().add(shape);
        }
    }

    /// Tells the screen reader what the drawing shows: one node, its parts in words.
    pub fn describe(&self, ui: &Ui, id: egui::Id, rect: Rect, name: &str) {
        let parts: Vec<&str> = self.parts.iter().map(|part| part.name.as_str()).collect();
        let all = parts.join("; ");
        ui.ctx().accesskit_node_builder(id, |node| {
            node.set_role(Role::Image);
            node.set_label(name);
            node.set_description(all);
            node.set_bounds(egui::accesskit::Rect {
                x0: rect.left().into(),
                y0: rect.top().into(),
                x1: rect.right().into(),
                y1: rect.bottom().into(),
            });
        });
    }
}

fn round_to_pixel(way: Vec2, pixels_per_point: f32) -> Vec2 {
    (way * pixels_per_point).round() / pixels_per_point
}

fn collect(items: &[Item], parts: &mut Vec<Part>) {
    for item in items {
        match item {
            Item::Group(group) => {
                if let Some(bounds) = item.bounds() {
                    parts.push(Part {
                        id: group.id.clone(),
                        name: group.name.clone(),
                        bounds,
                    });
                }
                collect(&group.items, parts);
            }
            Item::Clip { items, .. } => collect(items, parts),
            _ => {}
        }
    }
}

/// The cached drawings of the views, each made anew only when what it depends on changed.
#[derive(Debug, Default)]
pub struct DrawingCache {
    kept: BTreeMap<&'static str, (u64, CachedDrawing)>,
}

impl DrawingCache {
    /// The cached drawing of this name for a state of what it shows; `draw` is asked where it is not there.
    pub fn drawing(
        &mut self,
        name: &'static str,
        state: impl Hash,
        draw: impl FnOnce() -> Drawing,
    ) -> &mut CachedDrawing {
        let mut hasher = DefaultHasher::new();
        state.hash(&mut hasher);
        let state = hasher.finish();
        if self.kept.get(name).is_some_and(|(of, _)| *of != state) {
            self.kept.remove(name);
        }
        let fresh = || (state, CachedDrawing::new(draw()));
        &mut self.kept.entry(name).or_insert_with(fresh).1
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::look::{Mode, install_fonts};
    use traywright_core::drawing::{Across, Along, TextStyle, at};

    /// The text of the drawing after a frame in a theme; the drawing itself is painted as on paper.
    fn frame(ctx: &egui::Context, mode: Mode, cached: &mut CachedDrawing) -> Arc<Galley> {
        Theme::new(mode).install(ctx);
        let camera = Camera {
            origin: Pos2::ZERO,
            per_mm: 4.0,
        };
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            ui.visuals_mut().dark_mode = false;
            cached.paint(ui, camera);
        });
        output.textures_delta.clear();
        let texts = cached.shapes.iter().find_map(|shape| match shape {
            Shape::Text(text) => Some(Arc::clone(&text.galley)),
            _ => None,
        });
        texts.unwrap()
    }

    #[test]
    fn letters_are_laid_out_anew_when_the_fonts_forget_them_and_only_then() {
        let ctx = egui::Context::default();
        install_fonts(&ctx);
        let mut drawing = Drawing::new();
        let anchor = (Across::Start, Along::Baseline);
        drawing.text(at(5.0, 5.0), anchor, TextStyle::FIGURE, "20.7");
        let mut cached = CachedDrawing::new(drawing);
        let first = frame(&ctx, Mode::Light, &mut cached);
        let second = frame(&ctx, Mode::Light, &mut cached);
        assert!(Arc::ptr_eq(&first, &second));
        // The other theme draws letters otherwise, so all of them are forgotten.
        let third = frame(&ctx, Mode::Dark, &mut cached);
        assert!(!Arc::ptr_eq(&second, &third));
    }
}
