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
}
