//! Place of a drawing on the screen.

use egui::{Pos2, Rect, pos2, vec2};
use traywright_core::drawing::{self, Point, at};

/// Place and size of a drawing on the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// The drawing's origin.
    pub origin: Pos2,
    /// Points of the screen for a millimetre.
    pub per_mm: f32,
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "pixels need no more than a float holds"
)]
impl Camera {
    /// The place on the screen of a place of the drawing.
    #[must_use]
    pub fn screen_from_drawing(&self, point: Point) -> Pos2 {
        let per_mm = f64::from(self.per_mm);
        self.origin + vec2((point.x * per_mm) as f32, (point.y * per_mm) as f32)
    }

    /// The place of the drawing at a place on the screen.
    #[must_use]
    pub fn drawing_from_screen(&self, place: Pos2) -> Point {
        let way = (place - self.origin) / self.per_mm;
        at(f64::from(way.x), f64::from(way.y))
    }

    /// The rectangle on the screen of one of the drawing.
    #[must_use]
    pub fn rect(&self, rect: drawing::Rect) -> Rect {
        Rect::from_two_pos(
            self.screen_from_drawing(at(rect.left, rect.top)),
            self.screen_from_drawing(at(rect.right, rect.bottom)),
        )
    }

    /// The camera that shows `bounds` whole, as large as `room` allows and at most at `most` points
    /// for a millimetre, in its middle.
    #[must_use]
    pub fn fitting(bounds: drawing::Rect, room: Rect, most: f32) -> Self {
        let size = (bounds.width() as f32, bounds.height() as f32);
        let fits = (room.width() / size.0.max(0.001)).min(room.height() / size.1.max(0.001));
        let per_mm = fits.min(most).max(0.01);
        let middle = bounds.centre();
        let way = vec2(middle.x as f32, middle.y as f32) * per_mm;
        Self {
            origin: pos2(room.center().x, room.center().y) - way,
            per_mm,
        }
    }

    /// The same looked at more closely about a place on the screen.
    #[must_use]
    pub fn zoomed(self, about: Pos2, factor: f32) -> Self {
        Self {
            origin: about + (self.origin - about) * factor,
            per_mm: self.per_mm * factor,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_comes_back_from_the_screen() {
        let camera = Camera {
            origin: pos2(100.0, 50.0),
            per_mm: 4.0,
        };
        let there = camera.screen_from_drawing(at(2.5, -3.0));
        assert_eq!(there, pos2(110.0, 38.0));
        let back = camera.drawing_from_screen(there);
        assert!((back.x - 2.5).abs() < 1e-6 && (back.y + 3.0).abs() < 1e-6);
    }

    #[test]
    fn zooming_leaves_the_place_under_the_pointer() {
        let camera = Camera {
            origin: pos2(10.0, 10.0),
            per_mm: 4.0,
        };
        let pointer = pos2(70.0, 33.0);
        let before = camera.drawing_from_screen(pointer);
        let after = camera.zoomed(pointer, 1.7).drawing_from_screen(pointer);
        assert!((before.x - after.x).abs() < 1e-5 && (before.y - after.y).abs() < 1e-5);
    }
}
