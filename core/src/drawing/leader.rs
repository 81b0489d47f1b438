//! A line from a place on the drawing to the words about it.

use super::geometry::{Point, at};
use super::item::Drawing;
use super::style::{Ink, Paint, Stroke};
use super::text::{Across, Along, TextStyle};

/// Radius of the dot on the place, mm.
const DOT: f64 = 0.45;
/// From the end of the line to the words, mm.
const GAP: f64 = 0.8;

impl Drawing {
    /// Draws a dot on `target`, a thin line from it to `bend`, and the text beside that, away from
    /// the target.
    pub fn leader(
        &mut self,
        target: Point,
        bend: Point,
        style: TextStyle,
        content: impl Into<String>,
    ) {
        self.circle(target, DOT, Paint::fill(Ink::Strong));
        // A level foot of one letter's height leads the eye into the line of text.
        let (foot, across) = if bend.x >= target.x {
            (style.cap_height(), Across::Start)
        } else {
            (-style.cap_height(), Across::End)
        };
        let end = bend + at(foot, 0.0);
        self.polyline([target, bend, end], Stroke::THIN);
        let text = end + at(GAP.copysign(foot), 0.0);
        self.text(text, (across, Along::Middle), style, content);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_stand_on_the_far_side_of_the_bend() {
        for (bend_x, place_x) in [(10.0, 0.0), (-10.0, 0.0)] {
            let mut drawing = Drawing::new();
            drawing.leader(
                at(place_x, 0.0),
                at(bend_x, -5.0),
                TextStyle::NOTE,
                "canal 1.9",
            );
            let words = drawing.texts()[0].bounds();
            if bend_x > place_x {
                assert!(words.left > bend_x);
            } else {
                assert!(words.right < bend_x);
            }
            assert!((words.centre().y + 5.0).abs() < 0.6);
        }
    }
}
