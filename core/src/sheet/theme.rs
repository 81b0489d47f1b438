//! The look of each meaning on paper. The only place of the sheet with colours in it.
//!
//! Colours of verdicts are pale tints of those of the palette that Okabe and Ito made for all kinds of colour
//! vision: fills under black shapes, so a grey print loses nothing and a hard copy leaves them white, where
//! the markings of instruments are black. Text is dark enough for 4.5 : 1 on white.

use crate::drawing::{Dash, Ink, LineWeight};

/// Red, green and blue, 0 to 255.
pub(super) type Colour = [u8; 3];

const BLACK: Colour = [0x1a, 0x1a, 0x1a];
const WHITE: Colour = [0xff, 0xff, 0xff];

/// The colour of a surface.
pub(super) const fn fill(ink: Ink) -> Colour {
    match ink {
        Ink::Strong => BLACK,
        Ink::Soft => [0x55, 0x55, 0x52],
        Ink::Faint => [0x70, 0x70, 0x6c],
        Ink::Hairline => [0x9c, 0x9c, 0x94],
        Ink::Accent => [0x00, 0x72, 0xb2],
        Ink::Ground | Ink::Clear | Ink::Unknown | Ink::Accepted | Ink::Danger => WHITE,
        Ink::Shade => [0xf3, 0xf2, 0xec],
        Ink::Tooth => [0xf7, 0xf5, 0xee],
        Ink::Bone => [0xe9, 0xdf, 0xca],
        Ink::Tissue => [0xf3, 0xdf, 0xdb],
        Ink::Guide => [0xec, 0xeb, 0xe3],
        Ink::Metal => [0xfa, 0xfa, 0xf8],
        Ink::Cut => [0xff, 0xfd, 0xf8],
        Ink::Implant => [0xdd, 0xea, 0xf3],
        Ink::Tight => [0xfb, 0xe3, 0xa8],
        Ink::Short => [0xfb, 0xd3, 0xb4],
        Ink::Intended => [0xc9, 0xe6, 0xf8],
        Ink::Watermark => [0xe6, 0xe5, 0xde],
    }
}

/// The colour of a line or a text.
pub(super) const fn line(ink: Ink) -> Colour {
    match ink {
        Ink::Strong
        | Ink::Metal
        | Ink::Danger
        | Ink::Clear
        | Ink::Tight
        | Ink::Short
        | Ink::Unknown
        | Ink::Accepted
        | Ink::Intended => BLACK,
        Ink::Tooth => [0x6a, 0x69, 0x60],
        Ink::Bone => [0x6f, 0x5f, 0x3c],
        Ink::Tissue => [0x8a, 0x4a, 0x43],
        Ink::Guide | Ink::Shade => [0x86, 0x85, 0x7a],
        Ink::Cut => [0x40, 0x40, 0x3e],
        Ink::Implant => [0x00, 0x5a, 0x8c],
        other => fill(other),
    }
}

/// Width of a line, mm.
pub(super) const fn width_mm(weight: LineWeight) -> f64 {
    match weight {
        LineWeight::Hair => 0.1,
        LineWeight::Thin => 0.16,
        LineWeight::Medium => 0.28,
        LineWeight::Heavy => 0.5,
    }
}

/// Lengths of ink and gap along a line, mm; none for a solid one.
pub(super) const fn dash_mm(dash: Dash) -> &'static [f64] {
    match dash {
        Dash::Solid => &[],
        Dash::Dashed => &[1.1, 0.7],
        Dash::Dotted => &[0.3, 0.5],
        Dash::Chain => &[3.0, 0.6, 0.4, 0.6],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::charts::shape;
    use crate::drawing::{Drawing, Item, Mark, Point, Stroke, at};
    use crate::kit::Shape;

    /// Relative luminance and contrast as WCAG 2 defines them (formula from memory).
    fn luminance(colour: Colour) -> f64 {
        let [r, g, b] = colour.map(|channel| {
            let share = f64::from(channel) / 255.0;
            if share <= 0.040_45 {
                share / 12.92
            } else {
                libm::pow((share + 0.055) / 1.055, 2.4)
            }
        });
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    fn contrast(a: Colour, b: Colour) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn text_inks_stand_out_from_paper() {
        for ink in [Ink::Strong, Ink::Soft, Ink::Faint, Ink::Accent] {
            assert!(contrast(line(ink), WHITE) >= 4.5, "{ink:?}");
        }
    }

    #[test]
    fn black_shapes_stand_out_from_every_mark() {
        let marks = [
            Ink::Clear,
            Ink::Tight,
            Ink::Short,
            Ink::Unknown,
            Ink::Accepted,
            Ink::Intended,
        ];
        for ink in marks {
            assert!(contrast(fill(ink), BLACK) >= 3.0, "{ink:?}");
        }
    }

    /// A copier that knows only black and white takes what is darker than a light grey for black (how
    /// hard copiers are: common practice, no source). Filled black is what instruments bear.
    #[test]
    fn the_inside_of_a_mark_stays_white_on_a_hard_copy() {
        let lightest_black = luminance([200, 200, 200]);
        for ink in [
            Ink::Clear,
            Ink::Tight,
            Ink::Short,
            Ink::Unknown,
            Ink::Accepted,
            Ink::Intended,
        ] {
            assert!(luminance(fill(ink)) > lightest_black, "{ink:?}");
            assert!(luminance(line(ink)) < luminance([80, 80, 80]), "{ink:?}");
        }
    }

    #[test]
    fn words_across_the_page_stay_pale() {
        assert!(contrast(fill(Ink::Watermark), WHITE) < 1.4);
        assert!(contrast(fill(Ink::Watermark), BLACK) >= 10.0);
    }

    /// How dark a drawing is at a point on paper, 0 to 1.
    fn dark(drawing: &Drawing, point: Point) -> f64 {
        let mut dark = 0.0;
        let grey = |colour: Colour| 1.0 - f64::from(colour[1]) / 255.0;
        drawing.visit(&mut |item, _| {
            let mut take = |fill: Option<Ink>, within: bool, stroke: Option<Stroke>, off: f64| {
                if let (Some(ink), true) = (fill, within) {
                    dark = grey(super::fill(ink));
                }
                if let Some(stroke) = stroke.filter(|one| off <= width_mm(one.weight) / 2.0) {
                    dark = grey(line(stroke.ink));
                }
            };
            let to_line = |a: Point, b: Point| {
                let (along, from) = (b - a, point - a);
                let length = along.x * along.x + along.y * along.y;
                let share = (along.x * from.x + along.y * from.y) / length;
                (from - along * share.clamp(0.0, 1.0)).length()
            };
            match item {
                Item::Circle {
                    centre,
                    radius,
                    paint,
                } => {
                    let off = (point - *centre).length() - radius;
                    take(paint.fill, off <= 0.0, paint.stroke, off.abs());
                }
                Item::Polygon { rings, paint } => {
                    let ring = &rings[0];
                    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
                    let crossed = sides.clone().filter(|(a, b)| {
                        let between = (a.y <= point.y) != (b.y <= point.y);
                        between && a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x) > point.x
                    });
                    let within = crossed.count() % 2 == 1;
                    let off = sides.map(|(a, b)| to_line(*a, *b));
                    let off = off.fold(f64::INFINITY, f64::min);
                    take(paint.fill, within, paint.stroke, off);
                }
                Item::Line { points, stroke } => {
                    let off = points.windows(2).map(|two| to_line(two[0], two[1]));
                    let off = off.fold(f64::INFINITY, f64::min);
                    take(None, false, Some(*stroke), off);
                }
                _ => {}
            }
        });
        dark
    }

    /// Fields of 0.1 mm of a thing 3.4 mm across after a hard copy: what is not quite white within 0.25 mm about a field
    /// makes it black (as a copier blurs and hardens: common practice, no source).
    fn copied(drawing: &Drawing) -> Vec<bool> {
        let fields = (-20_i32..=20).flat_map(|y| (-20_i32..=20).map(move |x| (x, y)));
        let about = |x: i32, y: i32| {
            let near = (-2_i32..=2).flat_map(|down| (-2_i32..=2).map(move |right| (right, down)));
            let near =
                near.map(|(right, down)| at(f64::from(x + right), f64::from(y + down)) * 0.1);
            near.map(|point| dark(drawing, point + at(0.013, 0.017)))
                .sum::<f64>()
                / 25.0
        };
        fields.map(|(x, y)| about(x, y) > 0.3).collect()
    }

    fn mark(which: Mark) -> Drawing {
        let mut drawing = Drawing::new();
        drawing.mark(at(0.0, 0.0), 3.4, which);
        drawing
    }

    /// Share of the inside of a mark, 2.6 mm across, that a hard copy leaves white.
    fn white_inside(drawing: &Drawing) -> f64 {
        let fields = copied(drawing);
        let inside = fields.iter().enumerate().filter(|(index, _)| {
            let (x, y) = (index % 41, index / 41);
            let off = |one: usize| one.abs_diff(20).pow(2);
            off(x) + off(y) <= 13 * 13
        });
        let (white, all): (Vec<_>, Vec<_>) = inside.partition(|(_, black)| !**black);
        #[expect(clippy::cast_precision_loss, reason = "a few hundred fields")]
        let share = white.len() as f64 / (white.len() + all.len()) as f64;
        share
    }

    /// No mark turns into a black shape as instruments bear it; half of that of what was accepted is black.
    #[test]
    fn a_mark_stays_open_on_a_hard_copy() {
        for which in Mark::ALL {
            let white = white_inside(&mark(which));
            assert!(white > 0.4, "{which:?}: {white:.2}");
        }
    }

    /// No two marks, and no mark and a marking, look alike there.
    #[test]
    fn marks_and_markings_stay_apart_on_a_hard_copy() {
        let shapes =
            Shape::ALL.map(|one| (format!("{one:?}"), copied(&shape(at(0.0, 0.0), 3.0, one))));
        let marks = Mark::ALL.map(|one| (format!("{one:?} (mark)"), copied(&mark(one))));
        for (index, one) in marks.iter().enumerate() {
            for other in marks[index + 1..].iter().chain(&shapes) {
                let differ = one.1.iter().zip(&other.1).filter(|(a, b)| a != b).count();
                assert!(differ > 110, "{} and {}: {differ}", one.0, other.0);
            }
        }
    }
}
