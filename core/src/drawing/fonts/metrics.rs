//! The measures of single characters, looked up once for those that nearly all text is made of.

use super::{Face, FontFile};
use std::sync::LazyLock;
use ttf_parser::GlyphId;

/// The combining marks begin here: text below it is in composed form whatever it holds (UAX #15).
pub(super) const TABLE_END: char = '\u{300}';

/// First character that is not in the table: Latin, Greek and Cyrillic come before it.
const MEASURED_END: char = '\u{530}';

/// Measurements of a character in a font file. Lengths are in units of the type's size.
#[derive(Debug, Clone, Copy)]
pub(super) struct Measure {
    /// The glyph's number.
    pub(super) id: u16,
    /// Its advance width.
    pub(super) advance: f64,
    /// Its reach above the baseline; negative where it stays below.
    pub(super) above: f64,
    /// Its reach below the baseline; negative where it stays above.
    pub(super) below: f64,
}

/// The measures of plain characters in a face, by the character: each in the first file that has
/// it, else that of the replacement character. A text that has no other is the sum of these.
pub(super) fn plain(face: Face) -> &'static [Measure] {
    static PLAIN: LazyLock<[Vec<Measure>; 2]> = LazyLock::new(|| {
        [Face::Regular, Face::Bold].map(|face| {
            let found = |character| {
                let mut files = FontFile::of(face).into_iter();
                files.find_map(|file| measure(file, character))
            };
            ('\0'..TABLE_END)
                .map(|character| {
                    found(character)
                        .or_else(|| found(char::REPLACEMENT_CHARACTER))
                        .expect("a bundled font has the replacement character")
                })
                .collect()
        })
    });
    &PLAIN[face as usize]
}

type Table = Vec<Option<Measure>>;

/// The measure of a character, if the file has it.
pub(super) fn measure(file: FontFile, character: char) -> Option<Measure> {
    static TABLES: LazyLock<[Table; 4]> = LazyLock::new(|| {
        FontFile::ALL.map(|file| ('\0'..MEASURED_END).map(|c| looked_up(file, c)).collect())
    });
    if character < MEASURED_END {
        TABLES[file as usize][character as usize]
    } else {
        looked_up(file, character)
    }
}

fn looked_up(file: FontFile, character: char) -> Option<Measure> {
    let font = file.parsed();
    let em = f64::from(font.units_per_em());
    let id = font.glyph_index(character)?;
    // A glyph without ink, such as a space, reaches nowhere.
    let (above, below) = font
        .glyph_bounding_box(id)
        .map_or((f64::NEG_INFINITY, f64::NEG_INFINITY), |ink| {
            (f64::from(ink.y_max) / em, -f64::from(ink.y_min) / em)
        });
    Some(Measure {
        id: id.0,
        advance: f64::from(font.glyph_hor_advance(id).unwrap_or(0)) / em,
        above,
        below,
    })
}

/// The glyph's number as the font reader takes it.
pub(super) const fn glyph(id: u16) -> GlyphId {
    GlyphId(id)
}
