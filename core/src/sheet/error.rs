//! Errors that keep a sheet from being made.

use crate::drawing::QrError;
use crate::drawing::fonts::MissingGlyph;
use crate::number::nearest_mm;
use crate::text::Texts;

/// A reason why a sheet cannot be laid out or written.
#[derive(Debug, Clone, PartialEq)]
pub enum SheetError {
    /// Something that must stay together is higher than a page.
    TooTall {
        /// The first words in it, empty when it has none.
        what: String,
        /// Its height, mm.
        height_mm: f64,
        /// The height that a page has, mm.
        room_mm: f64,
    },
    /// A character cannot be shown.
    MissingGlyph(MissingGlyph),
    /// A text is too long for a code.
    Code(QrError),
    /// The fonts could not be cut down to what the pages use.
    Font {
        /// The font's name.
        font: &'static str,
        /// The fault.
        problem: String,
    },
    /// The PDF writer had something to say, and a checklist is not printed over that.
    Writer(Vec<String>),
    /// The time of making is outside what a PDF can say.
    Time,
}

impl SheetError {
    /// The reason in words, without a full stop.
    #[must_use]
    pub fn words(&self, texts: &Texts) -> String {
        match self {
            Self::TooTall {
                what,
                height_mm,
                room_mm,
            } => texts.get(
                "sheet-refused-too-tall",
                &[
                    ("what", what),
                    ("height", &nearest_mm(*height_mm)),
                    ("room", &nearest_mm(*room_mm)),
                ],
            ),
            Self::MissingGlyph(MissingGlyph { character, text }) => {
                let code = format!("U+{:04X}", u32::from(*character));
                texts.get("sheet-refused-glyph", &[("code", &code), ("text", text)])
            }
            Self::Code(QrError { length }) => {
                texts.counted("sheet-refused-code", &[("length", *length)], &[])
            }
            Self::Font { font, problem } => texts.get(
                "sheet-refused-font",
                &[("font", font), ("problem", problem)],
            ),
            Self::Writer(problems) => texts.get(
                "sheet-refused-writer",
                &[("problems", &problems.join("; "))],
            ),
            Self::Time => texts.get("sheet-refused-time", &[]),
        }
    }
}

impl From<MissingGlyph> for SheetError {
    fn from(missing: MissingGlyph) -> Self {
        Self::MissingGlyph(missing)
    }
}

impl From<QrError> for SheetError {
    fn from(too_long: QrError) -> Self {
        Self::Code(too_long)
    }
}
