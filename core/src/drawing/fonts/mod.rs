//! The bundled fonts: what they can show, how wide it is, where lines break.
//!
//! Inter comes first; a character that it lacks is taken from `DejaVu Sans`. Both are bundled, so a
//! text measures the same on every machine. Text is brought into Unicode's composed form (NFC)
//! first. There is no kerning: the screen applies none, and the two must agree.

mod anchors;
mod metrics;
mod shape;
mod wrap;

pub(super) use shape::shown;
pub use shape::{Glyph, Shaped, shape};
pub(crate) use wrap::pieces;
pub use wrap::wrap;

use std::borrow::Cow;
use std::sync::LazyLock;
use unicode_normalization::UnicodeNormalization as _;

/// Height of a capital in units of the type's size, in both weights.
pub const CAP_HEIGHT: f64 = 1490.0 / 2048.0;

/// Regular or bold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// The weight of running text.
    Regular,
    /// The weight of headings and of figures to act on.
    Bold,
}

/// One of the bundled font files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FontFile {
    /// Inter, regular.
    InterRegular,
    /// Inter, semibold.
    InterBold,
    /// `DejaVu Sans`, regular: behind Inter.
    DejavuRegular,
    /// `DejaVu Sans`, bold: behind Inter.
    DejavuBold,
}

impl FontFile {
    /// Every file.
    pub const ALL: [Self; 4] = [
        Self::InterRegular,
        Self::InterBold,
        Self::DejavuRegular,
        Self::DejavuBold,
    ];

    /// The bytes of the TrueType file.
    #[must_use]
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Self::InterRegular => include_bytes!("../../../../assets/fonts/inter-regular.ttf"),
            Self::InterBold => include_bytes!("../../../../assets/fonts/inter-bold.ttf"),
            Self::DejavuRegular => include_bytes!("../../../../assets/fonts/dejavu-regular.ttf"),
            Self::DejavuBold => include_bytes!("../../../../assets/fonts/dejavu-bold.ttf"),
        }
    }

    /// The name that the file gives itself, without spaces.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::InterRegular => "TraywrightInterRegular",
            Self::InterBold => "TraywrightInterBold",
            Self::DejavuRegular => "TraywrightDejaVuRegular",
            Self::DejavuBold => "TraywrightDejaVuBold",
        }
    }

    /// The files of a face, first choice first.
    #[must_use]
    pub const fn of(face: Face) -> [Self; 2] {
        match face {
            Face::Regular => [Self::InterRegular, Self::DejavuRegular],
            Face::Bold => [Self::InterBold, Self::DejavuBold],
        }
    }

    /// The parsed file.
    fn parsed(self) -> &'static ttf_parser::Face<'static> {
        static PARSED: LazyLock<[ttf_parser::Face<'static>; 4]> = LazyLock::new(|| {
            FontFile::ALL.map(|file| {
                ttf_parser::Face::parse(file.bytes(), 0).expect("a bundled font is a font")
            })
        });
        &PARSED[self as usize]
    }
}

/// No bundled font can show a character, or none can put a combining mark where it belongs.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no bundled font can show U+{:04X} in “{text}”", u32::from(*.character))]
pub struct MissingGlyph {
    /// The character, after composition.
    pub character: char,
    /// The text that has it.
    pub text: String,
}

/// The composed form (NFC) that all text is brought into before it is measured or shown.
#[must_use]
pub fn composed(text: &str) -> Cow<'_, str> {
    if text.is_ascii() || text.chars().all(|character| character < metrics::TABLE_END) {
        Cow::Borrowed(text)
    } else {
        Cow::Owned(text.nfc().collect())
    }
}

/// True if the bundled fonts can show all of `text`. Line feeds are allowed.
///
/// # Errors
///
/// The first character that cannot be shown. Invisible and direction-changing characters are
/// among them on purpose: text that looks other than it reads does not belong on a checklist.
pub fn coverage(text: &str) -> Result<(), MissingGlyph> {
    for line in text.split('\n') {
        shape(line, Face::Regular)?;
        shape(line, Face::Bold)?;
    }
    Ok(())
}

/// Width of one line set in `size_mm`, mm.
///
/// A missing character counts as wide as the replacement character; a page with it is refused.
#[must_use]
pub fn width(text: &str, face: Face, size_mm: f64) -> f64 {
    shape::advance(text, face) * size_mm
}

/// Reach of the glyphs of one line above and below the baseline, mm, both positive.
#[must_use]
pub fn ink_extent(text: &str, face: Face, size_mm: f64) -> (f64, f64) {
    let (above, below) = shape::reach(text, face);
    (above * size_mm, below * size_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_of_a_file_is_what_the_file_says() {
        for file in FontFile::ALL {
            let names = file.parsed().names();
            let postscript = names
                .into_iter()
                .find(|name| name.name_id == ttf_parser::name_id::POST_SCRIPT_NAME)
                .and_then(|name| name.to_string());
            assert_eq!(postscript.as_deref(), Some(file.name()));
        }
    }

    #[test]
    fn capitals_are_as_high_as_the_constant_says() {
        for file in FontFile::of(Face::Regular)
            .into_iter()
            .chain(FontFile::of(Face::Bold))
        {
            let face = file.parsed();
            assert_eq!(face.units_per_em(), 2048);
            if matches!(file, FontFile::InterRegular | FontFile::InterBold) {
                assert_eq!(face.capital_height(), Some(1490));
            }
        }
    }

    #[test]
    fn figures_are_tabular_in_both_weights() {
        for face in [Face::Regular, Face::Bold] {
            let one = width("1", face, 10.0);
            for figure in '0'..='9' {
                assert!((width(&figure.to_string(), face, 10.0) - one).abs() < 1e-9);
            }
            assert!((width("21.4", face, 10.0) - width("18.7", face, 10.0)).abs() < 1e-9);
        }
    }

    #[test]
    fn bold_and_regular_zero_are_slashed() {
        // A slashed zero has more contours than the ring of a capital O.
        struct Contours(usize);
        impl ttf_parser::OutlineBuilder for Contours {
            fn move_to(&mut self, _: f32, _: f32) {
                self.0 += 1;
            }
            fn line_to(&mut self, _: f32, _: f32) {}
            fn quad_to(&mut self, _: f32, _: f32, _: f32, _: f32) {}
            fn curve_to(&mut self, _: f32, _: f32, _: f32, _: f32, _: f32, _: f32) {}
            fn close(&mut self) {}
        }
        for file in [FontFile::InterRegular, FontFile::InterBold] {
            let contours = |character| {
                let face = file.parsed();
                let mut count = Contours(0);
                let glyph = face.glyph_index(character).unwrap();
                face.outline_glyph(glyph, &mut count).unwrap();
                count.0
            };
            assert_eq!(contours('O'), 2);
            assert!(contours('0') > 2, "{file:?} has a plain zero");
        }
    }

    #[test]
    fn every_letter_of_the_supported_scripts_can_be_shown() {
        let letters = (0x20..=0x24F_u32)
            .chain(0x370..=0x525)
            .chain(0x1E00..=0x1FFF)
            .filter_map(char::from_u32)
            .filter(|c| c.is_alphanumeric())
            .filter(|c| composed(&c.to_string()).chars().eq([*c]));
        let missing: Vec<_> = letters
            .filter(|c| coverage(&c.to_string()).is_err())
            .collect();
        assert_eq!(missing, Vec::<char>::new());
    }

    #[test]
    fn signs_of_the_trade_can_be_shown() {
        coverage("☐ ☑ ☒ ✔ ⌀ Ø ▲ △ ◆ ◇ ■ □ ● ○ ◐ ◖ ▮ → ← ↑ ↓ ↔ ° · × − ± ≤ ≥ ≈ ∅ ″ ′ µ σ ½ ⅓ “„” ‘’ « » – — … € № ⚠").unwrap();
    }

    #[test]
    fn what_no_font_has_is_named() {
        let refused = coverage("Dr. 李").unwrap_err();
        assert_eq!(refused.character, '李');
        assert_eq!(
            refused.to_string(),
            "no bundled font can show U+674E in “Dr. 李”"
        );
    }

    #[test]
    fn invisible_and_direction_changing_characters_are_refused() {
        for character in [
            '\u{200B}',
            '\u{200D}',
            '\u{200E}',
            '\u{202E}',
            '\u{2066}',
            '\u{FEFF}',
            '\u{AD}',
            '\t',
            '\r',
            '\0',
            '\u{7F}',
            '\u{85}',
            '\u{2028}',
            '\u{E000}',
            '\u{1F9B7}',
        ] {
            let text = format!("a{character}b");
            assert_eq!(coverage(&text).unwrap_err().character, character);
        }
    }
}
