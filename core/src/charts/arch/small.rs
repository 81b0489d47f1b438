//! The arch at a glance: its teeth in outline, a ring with the tooth's number at each site.

use super::place::Scene;
use crate::case::{Case, ValidCase};
use crate::dentition::Notation;
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Paint, Point, Rect, Stroke, TextStyle, at, pt,
};
use crate::text::Texts;

/// The type of numbers and of the letters of the sides.
const NUMBER: TextStyle = TextStyle::STRONG.sized(pt(8.0));
/// From a site's tooth out to the middle of its number, mm on the page.
const OUT: f64 = 3.4;
/// Between two numbers, mm.
const APART: f64 = 0.5;

/// Draws the teeth of the case's jaw so wide, mm, as the clinician faces the patient, with the sites by number and
/// the letters of the patient's sides. Nothing where two numbers would touch: then a list says it better.
#[must_use]
pub fn arch_small(
    case: &ValidCase,
    notation: Notation,
    texts: &Texts,
    width_mm: f64,
) -> Option<Drawing> {
    let case: &Case = case;
    let scene = Scene::of(case);
    let bounds = scene.arches();
    let scale = (width_mm - 4.0 * OUT) / bounds.width();
    let place = |point: Point| (point - bounds.centre()) * scale;
    let mut drawing = Drawing::new();
    let hair = Stroke::new(Ink::Hairline, LineWeight::Thin);
    for tooth in &scene.teeth {
        let ring: Vec<Point> = tooth.ring.iter().map(|point| place(*point)).collect();
        drawing.polygon(ring, Paint::outline(hair));
    }
    let mut numbers: Vec<Rect> = Vec::new();
    let heavy = Stroke::new(Ink::Strong, LineWeight::Heavy);
    for (site, found) in case.sites.iter().zip(&scene.sites) {
        let centre = place(found.platform);
        drawing.circle(centre, 1.2, Paint::outline(heavy));
        let of_tooth = scene.teeth.iter().find(|one| one.position == site.tooth)?;
        let tooth = place(of_tooth.centre);
        let out = of_tooth.buccal * (of_tooth.fl_width * scale / 2.0 + OUT);
        let number = notation.show(site.tooth);
        let (wide, high) = (NUMBER.width(&number), NUMBER.cap_height());
        let middle = tooth + out;
        let corner = middle - at(wide / 2.0, high / 2.0);
        let room = Rect::new(corner, wide, high).grown(APART / 2.0);
        let touches = numbers.iter().any(|other| {
            let beside = other.right <= room.left || room.right <= other.left;
            let apart = other.bottom <= room.top || room.bottom <= other.top;
            !beside && !apart
        });
        if touches {
            return None;
        }
        numbers.push(room);
        drawing.text(middle, (Across::Middle, Along::Middle), NUMBER, number);
    }
    // The patient's right is on the left, as on every chart.
    let inner = bounds.width() * scale / 4.0;
    for (id, x) in [("side-letter-right", -inner), ("side-letter-left", inner)] {
        let style = NUMBER.inked(Ink::Soft);
        let letter = texts.get(id, &[]);
        drawing.text(at(x, 0.0), (Across::Middle, Along::Middle), style, letter);
    }
    Some(drawing)
}
