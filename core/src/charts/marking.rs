//! The marking engraved or painted on an instrument, small: by outline and filling alone, so that a
//! grey print keeps it.

use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Paint, Point, Rect, Stroke, TextStyle, at,
};
use crate::kit::{Marking, Shape};

/// Steps of a half circle drawn as a polygon.
const STEPS: u8 = 24;

/// Between a letter and a shape, mm.
const GAP: f64 = 0.6;
/// A shape beside a letter is at least so high, mm, however small the type: below it shapes begin
/// to look alike.
const LEAST: f64 = 2.0;

/// A marking's shape, `size_mm` high and at most as wide, its centre at `centre`.
///
/// Told from the others at 2 mm: each is a filled shape of its own, but for the ring, which is
/// open, and the half dot, which is half open.
#[must_use]
pub fn shape(centre: Point, size_mm: f64, shape: Shape) -> Drawing {
    let half = size_mm / 2.0;
    let solid = Paint::fill(Ink::Strong);
    let line = Stroke::new(Ink::Strong, LineWeight::Medium);
    let box_of = |x: f64, y: f64| Rect {
        left: centre.x - x * half,
        top: centre.y - y * half,
        right: centre.x + x * half,
        bottom: centre.y + y * half,
    };
    let corners = |unit: &[(f64, f64)]| -> Vec<Point> {
        unit.iter()
            .map(|&(x, y)| centre + at(x, y) * half)
            .collect()
    };
    let mut drawing = Drawing::new();
    match shape {
        Shape::Dot => drawing.circle(centre, half, solid),
        Shape::HalfDot => {
            let left = (0..=STEPS).map(|step| {
                let turn = 90.0 + 180.0 * f64::from(step) / f64::from(STEPS);
                centre + at(half, 0.0).turned(turn)
            });
            drawing.polygon(left, solid);
            drawing.circle(centre, half, Paint::outline(line));
        }
        Shape::Ring => {
            let heavy = Stroke::new(Ink::Strong, LineWeight::Heavy);
            drawing.circle(centre, half * 0.9, Paint::outline(heavy));
        }
        Shape::Bar => drawing.rect(box_of(0.36, 1.0), solid),
        Shape::Triangle => drawing.polygon(corners(&[(0.0, -1.0), (1.0, 0.9), (-1.0, 0.9)]), solid),
        Shape::Diamond => drawing.polygon(
            corners(&[(0.0, -1.0), (0.8, 0.0), (0.0, 1.0), (-0.8, 0.0)]),
            solid,
        ),
        Shape::Square => drawing.rect(box_of(0.85, 0.85), solid),
        Shape::Cross => {
            let (arm, end) = (0.26, 1.0);
            drawing.polygon(
                corners(&[
                    (-arm, -end),
                    (arm, -end),
                    (arm, -arm),
                    (end, -arm),
                    (end, arm),
                    (arm, arm),
                    (arm, end),
                    (-arm, end),
                    (-arm, arm),
                    (-end, arm),
                    (-end, -arm),
                    (-arm, -arm),
                ]),
                solid,
            );
        }
    }
    drawing
}

/// An instrument's letter and shape on one line, beginning at the origin, the middle of a capital
/// at y = 0, with its width in mm; nothing where it bears neither.
///
/// A colour is not drawn but written in words, so that it holds in a grey print.
#[must_use]
pub fn marking(marking: &Marking, style: TextStyle) -> Option<(Drawing, f64)> {
    let mut drawing = Drawing::new();
    let mut width = 0.0;
    if let Some(letter) = &marking.letter {
        drawing.text(at(0.0, 0.0), (Across::Start, Along::Middle), style, letter);
        width = style.width(letter);
    }
    if let Some(which) = marking.shape {
        let size = style.cap_height().max(LEAST);
        if width > 0.0 {
            width += GAP;
        }
        drawing.add(shape(at(width + size / 2.0, 0.0), size, which));
        width += size;
    }
    (!drawing.is_empty()).then_some((drawing, width))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;
    use std::collections::BTreeMap;

    #[test]
    fn a_shape_is_centred_and_as_high_as_asked_for() {
        for which in Shape::ALL {
            let bounds = shape(at(3.0, 4.0), 2.0, which).bounds().unwrap();
            assert!((bounds.centre().x - 3.0).abs() < 1e-9, "{which:?}");
            assert!((bounds.centre().y - 4.0).abs() < 0.11, "{which:?}");
            assert!((1.6..=2.001).contains(&bounds.height()), "{which:?}");
            assert!(bounds.width() <= 2.001, "{which:?}");
        }
    }

    /// Is a point of a 2 mm shape black, on a grid of 0.2 mm? Lines are taken as 0.28 mm wide.
    fn black(drawing: &Drawing, point: Point) -> bool {
        let mut hit = false;
        drawing.visit(&mut |item, _| {
            hit |= match item {
                Item::Circle {
                    centre,
                    radius,
                    paint,
                } => {
                    let r = (point - *centre).length();
                    (paint.fill.is_some() && r <= *radius)
                        || (paint.stroke.is_some() && (r - radius).abs() <= 0.14)
                }
                Item::Polygon { rings, .. } => {
                    let ring = &rings[0];
                    let crossings = ring
                        .iter()
                        .zip(ring.iter().cycle().skip(1))
                        .filter(|(a, b)| (a.y <= point.y) != (b.y <= point.y))
                        .filter(|(a, b)| {
                            a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x) > point.x
                        });
                    crossings.count() % 2 == 1
                }
                _ => false,
            };
        });
        hit
    }

    #[test]
    fn at_two_millimetres_no_two_shapes_look_alike_in_grey() {
        let picture = |which| -> Vec<bool> {
            let drawing = shape(at(0.0, 0.0), 2.0, which);
            (-5_i32..=5)
                .flat_map(|y| (-5_i32..=5).map(move |x| at(f64::from(x), f64::from(y)) * 0.2))
                .map(|point| black(&drawing, point + at(0.013, 0.017)))
                .collect()
        };
        let pictures: BTreeMap<usize, Vec<bool>> =
            Shape::ALL.into_iter().map(picture).enumerate().collect();
        for (one, a) in &pictures {
            for (other, b) in pictures.range(one + 1..) {
                let differ = a.iter().zip(b).filter(|(a, b)| a != b).count();
                // 8 of 121 fields: about a thirteenth of the square around them.
                assert!(
                    differ >= 8,
                    "{:?} and {:?}",
                    Shape::ALL[*one],
                    Shape::ALL[*other]
                );
            }
        }
    }

    #[test]
    fn a_marking_is_as_wide_as_it_says_and_nothing_where_nothing_is_marked() {
        let both = Marking {
            colour: None,
            letter: Some("T".to_owned()),
            shape: Some(Shape::Triangle),
        };
        let (drawing, width) = marking(&both, TextStyle::STRONG).unwrap();
        let bounds = drawing.bounds().unwrap();
        assert!(bounds.left >= 0.0 && (bounds.right - width).abs() < 0.1);
        assert_eq!(drawing.texts()[0].content, "T");
        let colour_only = Marking {
            colour: Some("sand".to_owned()),
            ..Marking::default()
        };
        assert!(marking(&colour_only, TextStyle::STRONG).is_none());
    }
}
