//! From characters to glyphs and their places.

use super::metrics::{glyph, measure, plain};
use super::{Face, FontFile, MissingGlyph, anchors, composed};
use std::borrow::Cow;
use unicode_normalization::char::is_combining_mark;

/// One glyph of a shaped line. Lengths are in units of the type's size (its em); y up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Glyph {
    /// The file it comes from.
    pub file: FontFile,
    /// Its number in that file.
    pub id: u16,
    /// The character it shows.
    pub character: char,
    /// Its origin, to the right of the line's start.
    pub x: f64,
    /// Its rise above the baseline; 0 for everything but combining marks.
    pub y: f64,
    /// Its own advance width.
    pub advance: f64,
}

/// A line of text as glyphs.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shaped {
    /// The glyphs in the order of the text.
    pub glyphs: Vec<Glyph>,
    /// Width of the line, in units of the type's size.
    pub width: f64,
}

/// Brings one line of text into composed form and finds its glyphs.
///
/// # Errors
///
/// A character that no bundled font has, or a combining mark that no bundled font can place.
pub fn shape(text: &str, face: Face) -> Result<Shaped, MissingGlyph> {
    let line = composed(text);
    let mut shaped = Shaped::default();
    for cluster in clusters(&line) {
        shaped
            .push(cluster, face)
            .map_err(|character| MissingGlyph {
                character,
                text: line.to_string(),
            })?;
    }
    Ok(shaped)
}

/// The text with the replacement character for what cannot be shown, as [`lenient`] measures it.
pub(in crate::drawing) fn shown(text: &str, face: Face) -> Cow<'_, str> {
    if shape(text, face).is_ok() {
        return Cow::Borrowed(text);
    }
    let line = composed(text);
    let shown = clusters(&line).map(|cluster| {
        let can = Shaped::default().push(cluster, face).is_ok();
        if can { cluster } else { "\u{FFFD}" }
    });
    Cow::Owned(shown.collect())
}

/// As [`shape`], with the replacement character for what cannot be shown.
pub(super) fn lenient(text: &str, face: Face) -> Shaped {
    let line = composed(text);
    let mut shaped = Shaped::default();
    for cluster in clusters(&line) {
        if shaped.push(cluster, face).is_err() {
            // The replacement character is in the bundled fonts; a test below shows it.
            let _ = shaped.push("\u{FFFD}", face);
        }
    }
    shaped
}

/// Width of a line in units of the type's size, as [`lenient`] gives it.
///
/// Most of the work of laying a page is here: one character after the other, and no glyph is kept.
pub(super) fn advance(text: &str, face: Face) -> f64 {
    let plain = plain(face);
    let mut width = 0.0;
    for character in text.chars() {
        match plain.get(character as usize) {
            Some(found) => width += found.advance,
            None => return lenient(text, face).width,
        }
    }
    width
}

/// Reach of a line above and below its baseline, in units of the type's size.
pub(super) fn reach(text: &str, face: Face) -> (f64, f64) {
    let plain = plain(face);
    let (mut above, mut below) = (0.0, 0.0);
    for character in text.chars() {
        match plain.get(character as usize) {
            Some(ink) => (above, below) = (f64::max(above, ink.above), f64::max(below, ink.below)),
            None => return lenient(text, face).ink_extent(),
        }
    }
    (above, below)
}

/// A character with the combining marks that follow it, one after another.
pub(super) fn clusters(line: &str) -> impl Iterator<Item = &str> {
    let mut rest = line;
    std::iter::from_fn(move || {
        let end = rest
            .char_indices()
            .skip(1)
            .find(|(_, c)| !is_combining_mark(*c))
            .map_or(rest.len(), |(index, _)| index);
        let (cluster, after) = rest.split_at(end);
        rest = after;
        (!cluster.is_empty()).then_some(cluster)
    })
}

impl Shaped {
    /// Adds one cluster from the first file that can show all of it.
    fn push(&mut self, cluster: &str, face: Face) -> Result<(), char> {
        let start = self.glyphs.len();
        let mut refused = None;
        for file in FontFile::of(face) {
            match self.place(cluster, file) {
                Ok(()) => {
                    self.width += self.glyphs.get(start).map_or(0.0, |base| base.advance);
                    return Ok(());
                }
                Err(character) => {
                    self.glyphs.truncate(start);
                    refused = refused.or(Some(character));
                }
            }
        }
        Err(refused.unwrap_or(char::REPLACEMENT_CHARACTER))
    }

    /// Adds the glyphs of one cluster in one file; gives back the character that it lacks.
    fn place(&mut self, cluster: &str, file: FontFile) -> Result<(), char> {
        let start = self.glyphs.len();
        for character in cluster.chars() {
            let found = measure(file, character).ok_or(character)?;
            let (x, y) = if self.glyphs.len() == start {
                (self.width, 0.0)
            } else {
                seat(file, &self.glyphs[start..], found.id).ok_or(character)?
            };
            self.glyphs.push(Glyph {
                file,
                id: found.id,
                character,
                x,
                y,
                advance: found.advance,
            });
        }
        Ok(())
    }

    /// Reach of the glyphs above and below the baseline, in units of the type's size.
    pub(super) fn ink_extent(&self) -> (f64, f64) {
        self.glyphs.iter().fold((0.0, 0.0), |(above, below), one| {
            measure(one.file, one.character).map_or((above, below), |ink| {
                (
                    f64::max(above, ink.above + one.y),
                    f64::max(below, ink.below - one.y),
                )
            })
        })
    }
}

/// Seat of a mark: on the last mark that takes it, else on the base.
fn seat(file: FontFile, before: &[Glyph], mark: u16) -> Option<(f64, f64)> {
    let em = f64::from(file.parsed().units_per_em());
    before.iter().rev().find_map(|under| {
        let (dx, dy) = anchors::attach(file, glyph(under.id), glyph(mark))?;
        Some((under.x + f64::from(dx) / em, under.y + f64::from(dy) / em))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Measuring a line without its glyphs gives what its glyphs give.
        #[test]
        fn a_line_is_as_wide_and_high_as_its_glyphs(
            text in "[a-zA-Z0-9 ,.äŁж☐⌀\\u{301}\\u{7F}山Ắ]{0,40}",
        ) {
            for face in [Face::Regular, Face::Bold] {
                let shaped = lenient(&text, face);
                prop_assert!((advance(&text, face) - shaped.width).abs() < 1e-9);
                prop_assert_eq!(reach(&text, face), shaped.ink_extent());
            }
        }
    }

    #[test]
    fn decomposed_and_composed_text_give_the_same_glyphs() {
        let composed = shape("Åström Łódź Ναύπλιο Йошкар", Face::Regular).unwrap();
        let decomposed = shape(
            "A\u{30A}stro\u{308}m Ło\u{301}dz\u{301} Ναυ\u{301}πλιο И\u{306}ошкар",
            Face::Regular,
        )
        .unwrap();
        assert_eq!(composed, decomposed);
        assert!(composed.glyphs.iter().all(|glyph| glyph.y.abs() < 1e-12));
    }

    #[test]
    fn a_mark_without_a_composed_form_sits_on_its_base_and_takes_no_room() {
        // Yoruba: o with dot below composes, the acute above it stays a mark of its own.
        let plain = shape("Tọpẹ", Face::Regular).unwrap();
        let marked = shape("Tọ\u{301}pẹ\u{301}", Face::Regular).unwrap();
        assert!((plain.width - marked.width).abs() < 1e-12);
        assert_eq!(marked.glyphs.len(), plain.glyphs.len() + 2);
        let (base, mark) = (marked.glyphs[1], marked.glyphs[2]);
        assert_eq!((base.character, mark.character), ('ọ', '\u{301}'));
        // The mark's ink is above the base's and within its width, give or take a little.
        let font = mark.file.parsed();
        let em = f64::from(font.units_per_em());
        let ink = font.glyph_bounding_box(glyph(mark.id)).unwrap();
        let bottom = mark.y + f64::from(ink.y_min) / em;
        let centre = mark.x + f64::midpoint(f64::from(ink.x_min), f64::from(ink.x_max)) / em;
        assert!(bottom > 0.5, "the mark's ink begins at {bottom}");
        assert!((centre - (base.x + base.advance / 2.0)).abs() < 0.15);
    }

    #[test]
    fn a_second_mark_stands_on_the_first() {
        let shaped = shape("ọ\u{301}\u{302}", Face::Regular).unwrap();
        assert!(shaped.glyphs[2].y > shaped.glyphs[1].y + 0.05);
    }

    #[test]
    fn a_mark_that_cannot_be_placed_is_refused() {
        assert_eq!(
            shape("5\u{20DD}", Face::Regular).unwrap_err().character,
            '\u{20DD}'
        );
        assert_eq!(
            shape("●\u{301}", Face::Regular).unwrap_err().character,
            '\u{301}'
        );
    }

    #[test]
    fn a_character_that_inter_lacks_comes_from_the_font_behind_it() {
        let shaped = shape("a☐1", Face::Bold).unwrap();
        let files: Vec<_> = shaped.glyphs.iter().map(|glyph| glyph.file).collect();
        assert_eq!(
            files,
            [
                FontFile::InterBold,
                FontFile::DejavuBold,
                FontFile::InterBold
            ]
        );
    }

    #[test]
    fn what_cannot_be_shown_is_measured_as_the_replacement_character() {
        assert_eq!(
            lenient("a李", Face::Regular),
            shape("a\u{FFFD}", Face::Regular).unwrap()
        );
    }
}
